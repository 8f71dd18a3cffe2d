import { rotationMatrix } from "../../math/rotation/index.ts";
import { emptySurroundings, type PairMotion, STANDARD_GRAVITY } from "../bodies/index.ts";

/** What is watched in rough air, in the order of every vector of outputs. */
export const OUTPUTS = [
  { key: "tension", unit: "N", plane: "longitudinal" },
  { key: "shear", unit: "N", plane: "longitudinal" },
  { key: "sideLoad", unit: "N", plane: "lateral" },
  { key: "towLoad", unit: "N", plane: "longitudinal" },
  { key: "jackTravel", unit: "m", plane: "longitudinal" },
  { key: "tipNormal", unit: "m", plane: "longitudinal" },
  { key: "tipSide", unit: "m", plane: "lateral" },
  { key: "pitch", unit: "rad", plane: "longitudinal" },
  { key: "bank", unit: "rad", plane: "lateral" },
  { key: "loadFactor", unit: "1", plane: "longitudinal" },
  { key: "sideLoadFactor", unit: "1", plane: "lateral" },
  { key: "incidence", unit: "rad", plane: "longitudinal" },
] as const;

export type OutputKey = (typeof OUTPUTS)[number]["key"];
export const OUTPUT_COUNT = OUTPUTS.length;

/**
 * Measures the outputs on the nonlinear pair.
 *
 * tension, shear, sideLoad: load on the socket by the probe along the boom away from the hinge, normal to it towards a larger
 * boom angle, to the right. towLoad: force on the carried aircraft by the tip, forward, which holds the latch. jackTravel:
 * from trim, towards a larger boom angle. tipNormal, tipSide: way of the tip from trim, towards a larger boom angle and to the
 * right. pitch, bank: attitude against the carrier. loadFactor, sideLoadFactor: (lift-like, side) force per weight felt at
 * the c.g., up and right. incidence: angle of attack of the c.g. in the moving air.
 */
export class OutputMeter {
  private readonly motion: PairMotion;
  private readonly tipPerJack: number;
  private readonly rate: Float64Array;
  private readonly R = new Float64Array(9);
  private readonly air = emptySurroundings();

  /**
   * @param motion      the hooked pair
   * @param tipPerJack  i, tip travel per jack travel at this boom angle [1]
   */
  constructor(motion: PairMotion, tipPerJack: number) {
    this.motion = motion;
    this.tipPerJack = tipPerJack;
    this.rate = new Float64Array(motion.stateCount);
  }

  /**
   * Outputs at a state and time.
   *
   * @param out  shape (OUTPUT_COUNT), written
   * @source own derivation, README eq. 2–5
   * @verified response.test.ts: trim values against `trimHooked`, a moved tip against the geometry of the boom
   * @cost one evaluation of the equations, no allocation
   */
  measure(time: number, state: Float64Array, out: Float64Array): void {
    const { motion, R } = this;
    motion.derivative(time, state, this.rate);
    const { boom, carrier, environment } = motion.settings;
    const { tip, snubber } = motion.layout;
    environment.evaluate(state, this.air, time);
    rotationMatrix(state, 3, R);
    const dx = state[tip] - carrier!.hinge[0];
    const dy = state[tip + 1] - carrier!.hinge[1];
    const dz = state[tip + 2] - carrier!.hinge[2];
    const rho = Math.hypot(dx, dz);
    const length = Math.hypot(rho, dy);
    // load on the socket by the probe is the joint force turned round
    const f = motion.jointForce;
    const { length: L, angleDown } = boom!.settings.geometry;
    const travel = L * (Math.atan2(dz, -dx) - angleDown);
    out[0] = -(f[0] * dx + f[1] * dy + f[2] * dz) / length;
    out[1] = -(f[0] * dz - f[2] * dx) / rho;
    out[2] = (f[0] * dx * dy + f[2] * dz * dy) / (rho * length) - (f[1] * rho) / length;
    out[3] = f[0];
    out[4] = this.acrossJack(state, travel, snubber) / this.tipPerJack;
    out[5] = travel;
    out[6] = L * Math.atan2(dy, rho);
    out[7] = Math.asin(Math.max(-1, Math.min(1, -R[6])));
    out[8] = Math.atan2(R[7], R[8]);
    const a = motion.acceleration;
    const g = this.air.gravity;
    let up = 0;
    let right = 0;
    let u = 0;
    let w = 0;
    for (let i = 0; i < 3; i++) {
      up -= R[3 * i + 2] * (a[i] - g[i]);
      right += R[3 * i + 1] * (a[i] - g[i]);
      u += R[3 * i] * (state[7 + i] - this.air.airVelocity[i]);
      w += R[3 * i + 2] * (state[7 + i] - this.air.airVelocity[i]);
    }
    out[9] = up / STANDARD_GRAVITY;
    out[10] = right / STANDARD_GRAVITY;
    out[11] = Math.atan2(w, u);
  }

  /** Travel across snubber and accumulator, referred to the tip. */
  private acrossJack(state: Float64Array, travel: number, snubber: number): number {
    const { path, stateCount, settings } = this.motion.settings.boom!;
    if (stateCount === 1) return state[snubber];
    const { bending, bendingDamping, accumulator, snubber: rate } = settings.tangential;
    if (accumulator === Infinity || rate === Infinity) return 0;
    if (bending === Infinity || bendingDamping === Infinity) return travel;
    const sum = bending + accumulator;
    return path.kind === "elastic" && sum > 0 ? (travel * bending) / sum : 0;
  }
}
