/**
 * Coefficients of sine, cosine and arc tangent of small angles: arithmetic that costs less than a call and reads the same in every
 * language that the stages are translated into. Beyond their limits the stages ask `Math`.
 *
 *     sin x = x + x³·Σ Sᵢ·x²ⁱ,   cos x = 1 − x²/2 + x⁴·Σ Cᵢ·x²ⁱ,   atan t = t − t³·Σ Tᵢ·t²ⁱ                     (README eq. 19)
 *
 * An angle with the tangent v/u is twice the one with the tangent v/(√(u² + v²) + u).
 *
 * @source own derivation: Remez exchange in 60 digits on x² ≤ 0.62 and t² ≤ 0.19, largest relative error 4e-18 before rounding
 * @verified right-hand-side.test.ts (against `Math`, a few roundings)
 */

/** Largest x² and t² [rad²], [1]. */
export const ANGLE2 = 0.616;
export const HALF2 = 0.19;
export const S0 = -0.1666666666666663;
export const S1 = 0.008333333333322144;
export const S2 = -0.00019841269829581678;
export const S3 = 2.755731361031136e-6;
export const S4 = -2.5050744880136922e-8;
export const S5 = 1.5896003738010764e-10;
export const C0 = 0.041666666666666595;
export const C1 = -0.0013888888888873758;
export const C2 = 2.4801587289243534e-5;
export const C3 = -2.755731428050215e-7;
export const C4 = 2.087571314405598e-9;
export const C5 = -1.1359105631535182e-11;
export const T0 = 0.3333333333333296;
export const T1 = -0.19999999999884138;
export const T2 = 0.14285714273242903;
export const T3 = -0.11111110440458272;
export const T4 = 0.09090888078103884;
export const T5 = -0.07691891885591745;
export const T6 = 0.06661238723975176;
export const T7 = -0.05834685555401378;
export const T8 = 0.049815179319852555;
export const T9 = -0.036640158483376394;
export const T10 = 0.01639514298225658;
