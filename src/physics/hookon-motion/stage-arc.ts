import { W_ARC, W_HALF } from "./layout.ts";

/**
 * Angles from the tangents of their halves, two at a time.
 *
 *     θ = 2·atan t,   atan t = t − t³·Σ Tᵢ·t²ⁱ,   t = v/(√(u² + v²) + u) for the angle of (u, v)                 (README eq. 19)
 *
 * Arithmetic costs less than a call of `Math.atan2` and reads the same in every language. It holds to a rounding for t² ≤ 0.19 (47°); beyond,
 * the caller asks `Math`.
 *
 * @param W reads two tangents; writes two angles [rad]
 * @source own derivation: Remez exchange in 60 digits, largest relative error 4e-18 before rounding
 * @verified right-hand-side.test.ts (against `Math.atan2`)
 * @cost no allocation
 */
export function arcStage(W: Float64Array): void {
  const T0 = 0.3333333333333296;
  const T1 = -0.19999999999884138;
  const T2 = 0.14285714273242903;
  const T3 = -0.11111110440458272;
  const T4 = 0.09090888078103884;
  const T5 = -0.07691891885591745;
  const T6 = 0.06661238723975176;
  const T7 = -0.05834685555401378;
  const T8 = 0.049815179319852555;
  const T9 = -0.036640158483376394;
  const T10 = 0.01639514298225658;
  const a = W[W_HALF];
  const a2 = a * a;
  const a4 = a2 * a2;
  const aOdd = a2 * (T0 + a4 * (T2 + a4 * (T4 + a4 * (T6 + a4 * (T8 + a4 * T10)))));
  const aEven = a4 * (T1 + a4 * (T3 + a4 * (T5 + a4 * (T7 + a4 * T9))));
  W[W_ARC] = 2 * (a - a * (aOdd + aEven));
  const b = W[W_HALF + 1];
  const b2 = b * b;
  const b4 = b2 * b2;
  const bOdd = b2 * (T0 + b4 * (T2 + b4 * (T4 + b4 * (T6 + b4 * (T8 + b4 * T10)))));
  const bEven = b4 * (T1 + b4 * (T3 + b4 * (T5 + b4 * (T7 + b4 * T9))));
  W[W_ARC + 1] = 2 * (b - b * (bOdd + bEven));
}
