import { loadPerThrust } from "./derivative-model.ts";
import { checkDimensionalSet, type DimensionalSet, momentsFromPrimed } from "./dimensional-set.ts";
import type { AirLoad, AirloadModel, AirState, Controls } from "./types.ts";

/**
 * Linear load about a trim from dimensional derivatives, README eqs. 10 to 12.
 *
 * Body axes are those of the set: x at `trim.alpha` above the flight path. β is read as v/V of the trim, Δu and Δw
 * from the trim components V·cos α, V·sin α. The trim load balances the weight at the trim attitude. Density and speed
 * of sound are not read: the set holds for its own condition alone.
 *
 * @throws {DomainError} at construction only, see `checkDimensionalSet`
 * @source   own derivation, README eqs. 10, 11
 * @verified published/nasa-cr-2144-b747 (free modes), published/nasa-cr-96008-a7a (free modes),
 * published/etkin-reid-747 (matrix and modes); dimensional-model.test.ts
 * @cost     no allocation
 */
export class DimensionalModel implements AirloadModel {
  readonly set: DimensionalSet;
  /** 6×6 row-major ∂load/∂(Δu, v, Δw, p, q, r) and 6×3 ∂load/∂(elevator, aileron, rudder). */
  readonly #perMotion = new Float64Array(36);
  readonly #perControl = new Float64Array(18);
  readonly #perAcceleration = new Float64Array(36);
  readonly #trimLoad = new Float64Array(6);
  readonly #thrustLoad: Float64Array;
  readonly #trimU: number;
  readonly #trimW: number;

  constructor(set: DimensionalSet) {
    checkDimensionalSet(set);
    this.set = set;
    const { mass, trim } = set;
    this.#trimU = trim.speed * Math.cos(trim.alpha);
    this.#trimW = trim.speed * Math.sin(trim.alpha);
    this.#trimLoad[0] = mass * trim.gravity * Math.sin(trim.pitch);
    this.#trimLoad[2] = -mass * trim.gravity * Math.cos(trim.pitch);
    this.#thrustLoad = loadPerThrust(set.thrust.direction, set.thrust.point);
    this.#fillLongitudinal();
    this.#fillLateral();
  }

  #fillLongitudinal(): void {
    const { mass, Iyy, longitudinal: d } = this.set;
    const a = this.#perMotion;
    a[0] = mass * d.Xu;
    a[2] = mass * d.Xw;
    a[4] = mass * d.Xq;
    a[12] = mass * d.Zu;
    a[14] = mass * d.Zw;
    a[16] = mass * d.Zq;
    a[24] = Iyy * d.Mu;
    a[26] = Iyy * d.Mw;
    a[28] = Iyy * d.Mq;
    this.#perControl[0] = mass * d.Xelevator;
    this.#perControl[6] = mass * d.Zelevator;
    this.#perControl[12] = Iyy * d.Melevator;
    this.#perAcceleration[0] = mass * d.Xudot;
    this.#perAcceleration[2] = mass * d.Xwdot;
    this.#perAcceleration[12] = mass * d.Zudot;
    this.#perAcceleration[14] = mass * d.Zwdot;
    this.#perAcceleration[24] = Iyy * d.Mudot;
    this.#perAcceleration[26] = Iyy * d.Mwdot;
  }

  #fillLateral(): void {
    const { mass, trim, lateral: d } = this.set;
    const a = this.#perMotion;
    a[7] = mass * d.Yv;
    a[9] = mass * d.Yp;
    a[11] = mass * d.Yr;
    this.#perControl[4] = mass * d.Yaileron;
    this.#perControl[5] = mass * d.Yrudder;
    this.#setMoments(a, 6, 1, d.Lbeta / trim.speed, d.Nbeta / trim.speed);
    this.#setMoments(a, 6, 3, d.Lp, d.Np);
    this.#setMoments(a, 6, 5, d.Lr, d.Nr);
    this.#setMoments(this.#perControl, 3, 1, d.Laileron, d.Naileron);
    this.#setMoments(this.#perControl, 3, 2, d.Lrudder, d.Nrudder);
  }

  #setMoments(matrix: Float64Array, columns: number, column: number, roll: number, yaw: number): void {
    const { set } = this;
    const primed = set.lateral.moments === "primed";
    const moments = primed ? momentsFromPrimed(set, roll, yaw) : { roll: set.Ixx * roll, yaw: set.Izz * yaw };
    matrix[3 * columns + column] = moments.roll;
    matrix[5 * columns + column] = moments.yaw;
  }

  evaluate(air: AirState, controls: Controls, out: AirLoad): void {
    const du = air.u - this.#trimU;
    const dw = air.w - this.#trimW;
    const thrust = controls.thrust - this.set.thrust.trim;
    const a = this.#perMotion;
    const c = this.#perControl;
    for (let i = 0; i < 6; i++) {
      const row = 6 * i;
      out.load[i] =
        this.#trimLoad[i] +
        a[row] * du +
        a[row + 1] * air.v +
        a[row + 2] * dw +
        a[row + 3] * air.p +
        a[row + 4] * air.q +
        a[row + 5] * air.r +
        c[3 * i] * controls.elevator +
        c[3 * i + 1] * controls.aileron +
        c[3 * i + 2] * controls.rudder +
        this.#thrustLoad[i] * thrust;
    }
    out.perAcceleration.set(this.#perAcceleration);
  }
}

/**
 * Makes the load model of a dimensional set.
 *
 * @throws {DomainError} see `checkDimensionalSet`
 * @source   own derivation, README eqs. 10, 11
 * @verified see `DimensionalModel`
 */
export function dimensionalModel(set: DimensionalSet): DimensionalModel {
  return new DimensionalModel(set);
}
