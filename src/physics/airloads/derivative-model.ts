import {
  type BodyVector,
  checkDerivativeSet,
  type DerivativeSet,
  type LateralDerivatives,
  type RateDerivatives,
  type StillCoefficients,
} from "./derivative-set.ts";
import type { AirLoad, AirloadModel, AirState, Controls } from "./types.ts";

/** Below this speed in the plane of symmetry [m/s] the α̇ terms fade out instead of growing without bound. */
export const alphaRateSpeedFloor = 1;

/**
 * Load from nondimensional derivatives with declared axes and moment reference point.
 *
 * Equations 1 to 9 of the README, evaluated at the reference point P, which sits at r from the c.g.: velocity
 * V_P = V + ω×r, accelerations (u̇, v̇, ẇ)_P = (u̇, v̇, ẇ) + ω̇×r. Forces act at P; moments go to the c.g. by r×F.
 * α̇ = (u·ẇ − w·u̇)/(u² + w²) at P is linear in the six accelerations and is returned in `perAcceleration`;
 * `load` holds everything else. Rates enter as ρ·V·S·c²/4 and the like, never divided by V, so a body at rest has
 * zero load; the α̇ terms use u² + w² ≥ (1 m/s)².
 *
 * Valid where the derivatives are: attached flow, small β, subsonic, one Mach number. Outside it extrapolates, finite.
 *
 * @throws {DomainError} at construction only, see `checkDerivativeSet`
 * @source   own derivation, README eqs. 1–9
 * @verified published/nasa-cr-2144-nt33a (free modes), published/nasa-cr-96008-navion (free modes);
 * derivative-model.test.ts (mirror, shift of c.g. and reference point, axes, work)
 * @cost     no allocation
 */
export class DerivativeModel implements AirloadModel {
  readonly set: DerivativeSet;
  /** α, β [rad], V [m/s] at the reference point and C_L, C_D of the last `evaluate`, without the α̇ part. */
  alpha = 0;
  beta = 0;
  speed = 0;
  liftCoefficient = 0;
  dragCoefficient = 0;
  /** Coefficients without rates of the evaluation in hand, in the axes of the set. */
  protected readonly still: StillCoefficients = { lift: 0, drag: 0, pitch: 0, side: 0, roll: 0, yaw: 0 };
  /** Coefficients without rates of the last `evaluate`. */
  get stillCoefficients(): Readonly<StillCoefficients> {
    return this.still;
  }
  /** Rate derivatives of the evaluation in hand. */
  protected rates: RateDerivatives;
  /** Rate derivatives of the last `evaluate`. */
  get rateDerivatives(): RateDerivatives {
    return this.rates;
  }

  readonly #stabilityMoments: boolean;
  readonly #windSide: boolean;
  readonly #inducedDrag: number;
  readonly #thrustLoad: Float64Array;
  readonly #rx: number;
  readonly #ry: number;
  readonly #rz: number;
  /** Flow at the reference point and rates in the axes of the set, of the evaluation in hand. */
  #u = 0;
  #w = 0;
  #cosAlpha = 1;
  #sinAlpha = 0;
  #cosBeta = 1;
  #sinBeta = 0;
  #rollRate = 0;
  #yawRate = 0;
  /** ρVSc/4 and ρVSb/4: load per rate and unit derivative, but for the moment's own length. */
  #perPitchRate = 0;
  #perLateralRate = 0;
  #pressureArea = 0;

  constructor(set: DerivativeSet) {
    checkDerivativeSet(set);
    this.set = set;
    this.rates = set;
    this.#stabilityMoments = set.axes.moments === "stability";
    this.#windSide = set.axes.sideForce === "wind";
    const aspectRatio = (set.span * set.span) / set.area;
    this.#inducedDrag = set.drag.kind === "parabolic" ? 1 / (Math.PI * aspectRatio * set.drag.efficiency) : 0;
    this.#thrustLoad = loadPerThrust(set.thrust.direction, set.thrust.point);
    this.#rx = set.referencePoint[0];
    this.#ry = set.referencePoint[1];
    this.#rz = set.referencePoint[2];
  }

  evaluate(air: AirState, controls: Controls, out: AirLoad): void {
    this.#readAir(air);
    this.coefficients(air, controls);
    this.#writeForce(air.q, out.load);
    this.#writeMoment(air.q, out.load);
    this.#transferToCg(out.load);
    for (let i = 0; i < 6; i++) out.load[i] += this.#thrustLoad[i] * controls.thrust;
    this.#writePerAcceleration(out.perAcceleration);
  }

  /** Eqs. 1, 2 and 7: flow at the reference point, rates in the axes of the set. */
  #readAir(air: AirState): void {
    const { p, q, r, density } = air;
    const u = air.u + q * this.#rz - r * this.#ry;
    const v = air.v + r * this.#rx - p * this.#rz;
    const w = air.w + p * this.#ry - q * this.#rx;
    const inPlane = Math.sqrt(u * u + w * w);
    const speed = Math.sqrt(inPlane * inPlane + v * v);
    const cosAlpha = inPlane > 0 ? u / inPlane : 1;
    const sinAlpha = inPlane > 0 ? w / inPlane : 0;
    this.alpha = Math.atan2(w, u);
    this.beta = Math.atan2(v, inPlane);
    this.speed = speed;
    this.#u = u;
    this.#w = w;
    this.#cosAlpha = cosAlpha;
    this.#sinAlpha = sinAlpha;
    this.#cosBeta = speed > 0 ? inPlane / speed : 1;
    this.#sinBeta = speed > 0 ? v / speed : 0;
    this.#rollRate = this.#stabilityMoments ? p * cosAlpha + r * sinAlpha : p;
    this.#yawRate = this.#stabilityMoments ? r * cosAlpha - p * sinAlpha : r;
    const { area, chord, span } = this.set;
    this.#pressureArea = 0.5 * density * speed * speed * area;
    this.#perPitchRate = 0.25 * density * speed * area * chord;
    this.#perLateralRate = 0.25 * density * speed * area * span;
  }

  /** Eq. 4: coefficients at `alpha`, `beta`, `speed` and the controls, written to `still`; and `rates` where they vary. */
  protected coefficients(_air: AirState, controls: Controls): void {
    const { lift, pitch, side, roll, yaw, referenceAlpha } = this.set;
    const { still } = this;
    const { elevator } = controls;
    const incidence = this.alpha - referenceAlpha;
    still.lift = lift.atReference + lift.alpha * incidence + lift.elevator * elevator;
    still.drag = this.#dragCoefficient(still.lift, incidence, elevator);
    still.pitch = pitch.atReference + pitch.alpha * incidence + pitch.elevator * elevator;
    still.side = this.#stillLateral(side, controls);
    still.roll = this.#stillLateral(roll, controls);
    still.yaw = this.#stillLateral(yaw, controls);
  }

  /** Eqs. 4, 5, 6 and 8: force at the reference point, wind → stability → body. */
  #writeForce(q: number, load: Float64Array): void {
    const { still, rates } = this;
    const L = this.#pressureArea * still.lift + this.#perPitchRate * rates.lift.pitchRate * q;
    this.liftCoefficient = this.#pressureArea > 0 ? L / this.#pressureArea : still.lift;
    this.dragCoefficient = still.drag;
    const D = this.#pressureArea * this.dragCoefficient;
    const Y = this.#lateral(still.side, rates.side);
    const Xs = this.#windSide ? -D * this.#cosBeta - Y * this.#sinBeta : -D * this.#cosBeta;
    load[0] = Xs * this.#cosAlpha + L * this.#sinAlpha;
    load[1] = this.#windSide ? -D * this.#sinBeta + Y * this.#cosBeta : Y;
    load[2] = Xs * this.#sinAlpha - L * this.#cosAlpha;
  }

  /** Eqs. 4, 6 and 7: moment about the reference point in body axes. */
  #writeMoment(q: number, load: Float64Array): void {
    const { chord, span } = this.set;
    const { still, rates } = this;
    const roll = span * this.#lateral(still.roll, rates.roll);
    const yaw = span * this.#lateral(still.yaw, rates.yaw);
    const stability = this.#stabilityMoments;
    load[3] = stability ? roll * this.#cosAlpha - yaw * this.#sinAlpha : roll;
    load[4] = chord * (this.#pressureArea * still.pitch + this.#perPitchRate * rates.pitch.pitchRate * q);
    load[5] = stability ? roll * this.#sinAlpha + yaw * this.#cosAlpha : yaw;
  }

  #dragCoefficient(staticLift: number, incidence: number, elevator: number): number {
    const { drag } = this.set;
    return drag.kind === "parabolic"
      ? drag.zeroLift + this.#inducedDrag * staticLift * staticLift + drag.elevator * elevator
      : drag.atReference + drag.alpha * incidence + drag.elevator * elevator;
  }

  #stillLateral(d: LateralDerivatives, controls: Controls): number {
    return d.beta * this.beta + d.aileron * controls.aileron + d.rudder * controls.rudder;
  }

  /** Force, or moment per span [N], of one lateral coefficient. */
  #lateral(still: number, d: RateDerivatives["side"]): number {
    return (
      this.#pressureArea * still + this.#perLateralRate * (d.rollRate * this.#rollRate + d.yawRate * this.#yawRate)
    );
  }

  /** Moment about the c.g. = moment about P + r×F. */
  #transferToCg(load: Float64Array): void {
    const rx = this.#rx;
    const ry = this.#ry;
    const rz = this.#rz;
    load[3] += ry * load[2] - rz * load[1];
    load[4] += rz * load[0] - rx * load[2];
    load[5] += rx * load[1] - ry * load[0];
  }

  /** Rank one: (load per α̇) × (α̇ per acceleration of the c.g.). */
  #writePerAcceleration(matrix: Float64Array): void {
    const u = this.#u;
    const w = this.#w;
    const { chord } = this.set;
    const { lift, pitch } = this.rates;
    const perLift = this.#perPitchRate * lift.alphaRate;
    const fx = perLift * this.#sinAlpha;
    const fz = -perLift * this.#cosAlpha;
    const mx = this.#ry * fz;
    const my = this.#perPitchRate * chord * pitch.alphaRate + this.#rz * fx - this.#rx * fz;
    const mz = -this.#ry * fx;
    const floored = Math.max(u * u + w * w, alphaRateSpeedFloor * alphaRateSpeedFloor);
    const perU = -w / floored;
    const perW = u / floored;
    writeRow(matrix, 0, fx, perU, perW, this.#rx, this.#ry, this.#rz);
    writeRow(matrix, 6, 0, perU, perW, this.#rx, this.#ry, this.#rz);
    writeRow(matrix, 12, fz, perU, perW, this.#rx, this.#ry, this.#rz);
    writeRow(matrix, 18, mx, perU, perW, this.#rx, this.#ry, this.#rz);
    writeRow(matrix, 24, my, perU, perW, this.#rx, this.#ry, this.#rz);
    writeRow(matrix, 30, mz, perU, perW, this.#rx, this.#ry, this.#rz);
  }
}

function writeRow(
  matrix: Float64Array,
  at: number,
  load: number,
  perU: number,
  perW: number,
  rx: number,
  ry: number,
  rz: number,
): void {
  matrix[at] = load * perU;
  matrix[at + 1] = 0;
  matrix[at + 2] = load * perW;
  matrix[at + 3] = load * perW * ry;
  matrix[at + 4] = load * (perU * rz - perW * rx);
  matrix[at + 5] = -load * perU * ry;
}

/** Load about the c.g. of 1 N of thrust: unit direction d and point × d; shape (6). */
export function loadPerThrust(direction: BodyVector, point: BodyVector): Float64Array {
  const length = Math.hypot(direction[0], direction[1], direction[2]);
  const x = direction[0] / length;
  const y = direction[1] / length;
  const z = direction[2] / length;
  const [px, py, pz] = point;
  return Float64Array.of(x, y, z, py * z - pz * y, pz * x - px * z, px * y - py * x);
}

/**
 * Makes the load model of a derivative set.
 *
 * @throws {DomainError} see `checkDerivativeSet`
 * @source   own derivation, README eqs. 1–9
 * @verified see `DerivativeModel`
 */
export function derivativeModel(set: DerivativeSet): DerivativeModel {
  return new DerivativeModel(set);
}
