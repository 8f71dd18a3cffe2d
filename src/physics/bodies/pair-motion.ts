import { luFactor, luSolve } from "../../math/dense/index.ts";
import { BugError } from "../../math/errors.ts";
import { rotationMatrix } from "../../math/rotation/index.ts";
import type { AirLoad, AirState, Controls } from "../airloads/types.ts";
import type { BoomSprings } from "../boom/index.ts";
import { LinkLoads } from "../links/index.ts";
import { type AircraftMotion, controlsFixed, noMotion } from "../pilot/index.ts";
import { assembleJoint } from "./joint.ts";
import { inertiaMatrix } from "./mass-properties.ts";
import { checkSettings, layoutOf, type PairLayout, type PairMotionSettings } from "./pair-settings.ts";
import { emptySurroundings } from "./ports.ts";
import { sense } from "./sense.ts";

export type { Attachment, PairMotionSettings } from "./pair-settings.ts";

/**
 * The one equation set of Davit: aircraft, boom tip, joints between them, with carrier, air and control law
 * as ports. Integrated for hook-on and release, linearised for stability, solved in balance for loads.
 *
 * State (offsets in `layout`): aircraft position (3, in H), attitude quaternion body→H (4), velocity (3, in H),
 * angular velocity (3, body); tip position and velocity (3 + 3, in H); snubber travel (0 or 1); boom motions; carrier; law.
 *
 *     m·a = m·g + R·F + f,   I·ω̇ + ω×Iω = M + p×Rᵀf,   m_t·a_t = F_boom − f        (README eq. 1–3)
 *     probe tip = boom tip (joint), solved together for a, ω̇, a_t and the joint force f  (README eq. 4)
 *
 * The α̇ part of the airloads depends on the accelerations and stands on the left side.
 * f is the force on the aircraft by the tip, in H.
 */
export class PairMotion {
  readonly settings: PairMotionSettings;
  readonly stateCount: number;
  readonly layout: PairLayout;
  /** Force on the aircraft by the tip after the last evaluation [N], in H; zero when free. */
  readonly jointForce = new Float64Array(3);
  /** Load on the carrier by the boom after the last evaluation, in H: force at the hinge [N], moment about it [N·m]; shape (6). */
  readonly hingeLoad = new Float64Array(6);
  /** Accelerations after the last evaluation: a (H), ω̇ (body), a_t (H); shape (9). */
  readonly acceleration = new Float64Array(9);
  /** What a control law senses, after the last evaluation; not kept up for `controlsFixed`, which senses nothing. */
  readonly sensed: AircraftMotion = noMotion();

  /** Loads of the links after the last evaluation; `null` without links. */
  readonly linkLoads: LinkLoads | null;

  private readonly inertia: Float64Array;
  private readonly rotation = new Float64Array(9);
  private readonly surroundings = emptySurroundings();
  private readonly air: AirState = { u: 0, v: 0, w: 0, p: 0, q: 0, r: 0, density: 0, soundSpeed: 0 };
  private readonly airLoad: AirLoad = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
  private readonly controls: Controls = { elevator: 0, aileron: 0, rudder: 0, thrust: 0 };
  /** Order of the equations of motion: accelerations and joint force. */
  readonly size: number;
  private readonly matrix: Float64Array;
  /** Accelerations and joint force after an evaluation of `derivative`, shape (size); overwritten by the next. */
  readonly right: Float64Array;
  private readonly pivots: Int32Array;
  private readonly scratch = new Float64Array(24);

  constructor(settings: PairMotionSettings) {
    this.settings = settings;
    this.inertia = inertiaMatrix(settings.mass);
    checkSettings(settings);
    const hasTip = settings.boom !== undefined;
    const { links = [], carrier: port } = settings;
    this.linkLoads =
      links.length === 0
        ? null
        : new LinkLoads(links, this.rotation, port!, this.tipInCarrier, this.tipVelocityInCarrier);
    this.layout = layoutOf(settings);
    this.stateCount = this.layout.law + settings.law.stateCount;
    this.size = 6 + (hasTip ? 3 : 0) + (settings.attachment === "single point" ? 3 : 0);
    this.matrix = new Float64Array(this.size * this.size);
    this.right = new Float64Array(this.size);
    this.pivots = new Int32Array(this.size);
  }

  /**
   * Time derivative of the state.
   *
   * @param time   [s]; the equations depend on it through the environment alone
   * @param state  shape (stateCount)
   * @param out    shape (stateCount), written
   * @throws {BugError} if the equations of motion are singular, which valid settings exclude
   * @source own derivation, README eq. 1–6
   * @verified rigid-body.test.ts (top), conservation.test.ts (energy, power, momentum), closed-forms.test.ts (pendulum,
   * springs); test/validation/{hooked-frames,hooked-limits,free-modes,checkcases}
   * @cost no allocation
   */
  readonly derivative = (time: number, state: Float64Array, out: Float64Array): void => {
    this.solveAccelerations(state, time);
    this.writeRates(state, out, time);
  };

  /**
   * What the equations of motion leave over when accelerations and joint force are held at given values.
   *
   *     r(x) = b(x) − M(x)·s,   so that  ds/dx = M⁻¹·dr/dx  where r = 0                (README eq. 8a)
   *
   * Spares the solution at every point of a linearisation. `out` gets the rates of snubber, carrier and law states.
   *
   * @param state  shape (stateCount)
   * @param held   s, shape (size)
   * @param left   r, shape (size), written
   * @param out    shape (stateCount), written
   * @cost no allocation
   */
  residual(state: Float64Array, held: Float64Array, left: Float64Array, out: Float64Array): void {
    this.assemble(state, 0);
    const n = this.size;
    const { matrix, right } = this;
    for (let i = 0; i < n; i++) {
      let sum = right[i];
      const row = i * n;
      for (let j = 0; j < n; j++) sum -= matrix[row + j] * held[j];
      left[i] = sum;
    }
    this.writeRates(state, out, 0);
  }

  /**
   * Solves M·X = R for the equations of motion at a state, in place; shape (size, columns), row-major.
   *
   * @throws {BugError} if the equations of motion are singular
   */
  solveAt(state: Float64Array, right: Float64Array, columns: number): void {
    this.assemble(state, 0);
    if (!luFactor(this.matrix, this.size, this.pivots)) throw new BugError("the equations of motion are singular");
    luSolve(this.matrix, this.size, this.pivots, right, columns);
  }

  private writeRates(state: Float64Array, out: Float64Array, time: number): void {
    const { law, carrier, boom } = this.settings;
    for (let i = 0; i < 3; i++) {
      out[i] = state[7 + i];
      out[7 + i] = this.acceleration[i];
      out[10 + i] = this.acceleration[3 + i];
    }
    const w = state[3];
    const x = state[4];
    const y = state[5];
    const z = state[6];
    const p = state[10];
    const q = state[11];
    const r = state[12];
    // quaternion rate with a pull back to unit length
    const excess = 0.5 * (1 - (w * w + x * x + y * y + z * z));
    out[3] = 0.5 * (-x * p - y * q - z * r) + excess * w;
    out[4] = 0.5 * (w * p + y * r - z * q) + excess * x;
    out[5] = 0.5 * (w * q + z * p - x * r) + excess * y;
    out[6] = 0.5 * (w * r + x * q - y * p) + excess * z;
    if (boom !== undefined) {
      const { tip, snubber } = this.layout;
      for (let i = 0; i < 3; i++) {
        out[tip + i] = state[tip + 3 + i];
        out[tip + 3 + i] = this.acceleration[6 + i];
      }
      if (boom.stateCount === 1) out[snubber] = boom.snubberRate;
      this.settings.vibration?.rates(state, this.layout.vibration, out);
    }
    if (carrier !== undefined && carrier.stateCount > 0) {
      carrier.derivative(state, this.layout.carrier, this.hingeLoad, out, time);
    }
    if (law.stateCount > 0) law.derivative(state, this.layout.law, this.sensed, out);
  }

  private solveAccelerations(state: Float64Array, time: number): void {
    const { boom, attachment } = this.settings;
    this.assemble(state, time);
    if (!luFactor(this.matrix, this.size, this.pivots)) throw new BugError("the equations of motion are singular");
    luSolve(this.matrix, this.size, this.pivots, this.right);
    const known = boom === undefined ? 6 : 9;
    for (let i = 0; i < known; i++) this.acceleration[i] = this.right[i];
    if (attachment === "single point") for (let i = 0; i < 3; i++) this.jointForce[i] = this.right[9 + i];
    const { vibration, carrier } = this.settings;
    if (vibration !== undefined) {
      const C = carrier!.rotation;
      const a = this.acceleration;
      vibration.finish(
        C[0] * a[6] + C[3] * a[7] + C[6] * a[8],
        C[1] * a[6] + C[4] * a[7] + C[7] * a[8],
        C[2] * a[6] + C[5] * a[7] + C[8] * a[8],
      );
    }
  }

  /** Matrix and right-hand side of the equations of motion at a state. */
  private assemble(state: Float64Array, time: number): void {
    const { law, boom, attachment, environment } = this.settings;
    rotationMatrix(state, 3, this.rotation);
    // the air may depend on where the carrier is
    this.settings.carrier?.evaluate(state, this.layout.carrier);
    environment.evaluate(state, this.surroundings, time);
    this.matrix.fill(0);
    this.right.fill(0);
    if (law !== controlsFixed) sense(state, this.rotation, this.surroundings.airVelocity, this.sensed);
    law.command(state, this.layout.law, this.sensed, this.settings.trim, this.controls);
    this.assembleAircraft(state);
    if (boom !== undefined) this.assembleTip(state, boom);
    if (this.linkLoads !== null) {
      // what links put on the tip passes through the boom to its hinge; their own roots stand on the carrier
      const H = this.hingeLoad;
      for (let i = 0; i < 3; i++) H[i] += this.right[6 + i];
      this.linkLoads.addTo(state, this.right);
      const { f_onCarrier_H, m_onCarrier_aboutHo_H } = this.linkLoads.load;
      for (let i = 0; i < 3; i++) {
        H[i] += f_onCarrier_H[i] - this.right[6 + i];
        H[3 + i] += m_onCarrier_aboutHo_H[i];
      }
    }
    if (attachment === "single point")
      assembleJoint(state, this.layout.tip, this.rotation, this.settings.probe!, this.matrix, this.size, this.right);
  }

  /** Rows 0–5: Newton and Euler for the aircraft, with the acceleration-dependent airloads on the left. */
  private assembleAircraft(state: Float64Array): void {
    const R = this.rotation;
    const { gravity, airVelocity: wind, airRotation: spin, airAcceleration: gust } = this.surroundings;
    const air = this.air;
    const rx = state[7] - wind[0];
    const ry = state[8] - wind[1];
    const rz = state[9] - wind[2];
    air.u = R[0] * rx + R[3] * ry + R[6] * rz;
    air.v = R[1] * rx + R[4] * ry + R[7] * rz;
    air.w = R[2] * rx + R[5] * ry + R[8] * rz;
    const p = state[10];
    const q = state[11];
    const r = state[12];
    air.p = p - (R[0] * spin[0] + R[3] * spin[1] + R[6] * spin[2]);
    air.q = q - (R[1] * spin[0] + R[4] * spin[1] + R[7] * spin[2]);
    air.r = r - (R[2] * spin[0] + R[5] * spin[1] + R[8] * spin[2]);
    air.density = this.surroundings.density;
    const hinge = this.settings.carrier?.hinge;
    if (hinge !== undefined) {
      air.aft = hinge[0] - state[0];
      air.below = state[2] - hinge[2];
    }
    air.soundSpeed = this.surroundings.soundSpeed;
    this.settings.airloads.evaluate(air, this.controls, this.airLoad);
    const { load, perAcceleration: P } = this.airLoad;
    const I = this.inertia;
    const n = this.size;
    const A = this.matrix;
    const b = this.right;
    const m = this.settings.mass.mass;
    // ω×u and the gust's own acceleration: parts of the body-axis acceleration that are not Rᵀa
    const cx = q * air.w - r * air.v + (R[0] * gust[0] + R[3] * gust[1] + R[6] * gust[2]);
    const cy = r * air.u - p * air.w + (R[1] * gust[0] + R[4] * gust[1] + R[7] * gust[2]);
    const cz = p * air.v - q * air.u + (R[2] * gust[0] + R[5] * gust[1] + R[8] * gust[2]);
    const S = this.scratch;
    for (let i = 0; i < 6; i++) S[i] = load[i] - P[6 * i] * cx - P[6 * i + 1] * cy - P[6 * i + 2] * cz;
    for (let i = 0; i < 3; i++) {
      b[i] = m * gravity[i] + R[3 * i] * S[0] + R[3 * i + 1] * S[1] + R[3 * i + 2] * S[2];
      A[n * i + i] = m;
      // −R·P_ff·Rᵀ and −R·P_fm
      for (let k = 0; k < 3; k++) {
        let byForce = 0;
        let byMoment = 0;
        for (let j = 0; j < 3; j++) {
          const row = 6 * j;
          byForce += R[3 * i + j] * (P[row] * R[3 * k] + P[row + 1] * R[3 * k + 1] + P[row + 2] * R[3 * k + 2]);
          byMoment += R[3 * i + j] * P[row + 3 + k];
        }
        A[n * i + k] -= byForce;
        A[n * i + 3 + k] -= byMoment;
      }
    }
    const hx = I[0] * p + I[1] * q + I[2] * r;
    const hy = I[3] * p + I[4] * q + I[5] * r;
    const hz = I[6] * p + I[7] * q + I[8] * r;
    b[3] = S[3] - (q * hz - r * hy);
    b[4] = S[4] - (r * hx - p * hz);
    b[5] = S[5] - (p * hy - q * hx);
    for (let i = 0; i < 3; i++) {
      const row = 6 * (3 + i);
      for (let k = 0; k < 3; k++) {
        A[n * (3 + i) + k] = -(P[row] * R[3 * k] + P[row + 1] * R[3 * k + 1] + P[row + 2] * R[3 * k + 2]);
        A[n * (3 + i) + 3 + k] = I[3 * i + k] - P[row + 3 + k];
      }
    }
  }

  /** Rows 6–8: the boom tip under its springs; leaves the load of the boom on the carrier in `hingeLoad` (README eq. 6, 15). */
  private assembleTip(state: Float64Array, boom: BoomSprings): void {
    const carrier = this.settings.carrier!;
    const { tip, snubber } = this.layout;
    const C = carrier.rotation;
    const W = carrier.angularVelocity;
    const S = this.scratch;
    const gravity = this.surroundings.gravity;
    const ox = state[tip] - carrier.hinge[0];
    const oy = state[tip + 1] - carrier.hinge[1];
    const oz = state[tip + 2] - carrier.hinge[2];
    const vx = state[tip + 3] - carrier.hingeVelocity[0] - (W[1] * oz - W[2] * oy);
    const vy = state[tip + 4] - carrier.hingeVelocity[1] - (W[2] * ox - W[0] * oz);
    const vz = state[tip + 5] - carrier.hingeVelocity[2] - (W[0] * oy - W[1] * ox);
    const d = this.tipInCarrier;
    const v = this.tipVelocityInCarrier;
    const g = this.gravityInCarrier;
    for (let k = 0; k < 3; k++) {
      d[k] = C[k] * ox + C[3 + k] * oy + C[6 + k] * oz;
      v[k] = C[k] * vx + C[3 + k] * vy + C[6 + k] * vz;
      g[k] = C[k] * gravity[0] + C[3 + k] * gravity[1] + C[6 + k] * gravity[2];
    }
    const { vibration } = this.settings;
    const at = this.layout.vibration;
    boom.evaluate(d, v, g, boom.stateCount === 1 ? state[snubber] : 0, vibration?.freeTravel === true ? state[at] : 0);
    const n = this.size;
    const f = boom.force;
    for (let i = 0; i < 3; i++) {
      S[i] = C[3 * i] * f[0] + C[3 * i + 1] * f[1] + C[3 * i + 2] * f[2];
      this.right[6 + i] = S[i];
      this.matrix[n * (6 + i) + 6 + i] = this.settings.tipMass ?? 0;
    }
    const { ownMass, ownCentre } = boom.settings;
    const share = ownMass > 0 ? (ownMass * ownCentre) / Math.hypot(ox, oy, oz) : 0;
    const H = this.hingeLoad;
    // what the boom gives to the tip it takes from the carrier; its own weight adds to both force and moment
    for (let i = 0; i < 3; i++) {
      H[i] = ownMass * gravity[i] - S[i];
      S[i] = share * gravity[i] - S[i];
    }
    H[3] = oy * S[2] - oz * S[1];
    H[4] = oz * S[0] - ox * S[2];
    H[5] = ox * S[1] - oy * S[0];
    if (vibration === undefined) return;
    vibration.evaluate(d, v, boom.travelForce, state, at);
    const { addedMass: M, addedForce } = vibration;
    for (let i = 0; i < 3; i++) {
      for (let a = 0; a < 3; a++) {
        const c = C[3 * i + a];
        this.right[6 + i] += c * addedForce[a];
        for (let j = 0; j < 3; j++) {
          const row = C[3 * j] * M[3 * a] + C[3 * j + 1] * M[3 * a + 1] + C[3 * j + 2] * M[3 * a + 2];
          this.matrix[n * (6 + i) + 6 + j] += c * row;
        }
      }
    }
  }

  private readonly tipInCarrier = new Float64Array(3);
  private readonly tipVelocityInCarrier = new Float64Array(3);
  private readonly gravityInCarrier = new Float64Array(3);

  /**
   * Joint conditions at a position: rows of ∂(probe tip − boom tip)/∂(coordinates), row-major, shape (joints, 9).
   * Coordinates: position in H, rotation vector in body axes, tip position in H. Empty when nothing is joined.
   */
  jointRows(state: Float64Array): Float64Array {
    if (this.settings.attachment === "free") return new Float64Array(0);
    const R = new Float64Array(9);
    rotationMatrix(state, 3, R);
    const [px, py, pz] = this.settings.probe!;
    const rows = new Float64Array(27);
    for (let i = 0; i < 3; i++) {
      rows[9 * i + i] = 1;
      rows[9 * i + 3] = R[3 * i + 2] * py - R[3 * i + 1] * pz;
      rows[9 * i + 4] = R[3 * i] * pz - R[3 * i + 2] * px;
      rows[9 * i + 5] = R[3 * i + 1] * px - R[3 * i] * py;
      rows[9 * i + 6 + i] = -1;
    }
    return rows;
  }
}
