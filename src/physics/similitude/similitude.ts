import { DomainError } from "../../math/errors.ts";

/** Exponents of mass, length and time in a quantity; angles count as plain numbers. */
export interface Dimension {
  readonly mass: number;
  readonly length: number;
  readonly time: number;
}

/** Factors from the aircraft to a dynamically similar model in the same field of gravity. */
export interface Similitude {
  /** λ = model length / full length. */
  readonly length: number;
  /** σ = density of the model's air / density of the aircraft's air. */
  readonly density: number;
  /** Factor of a quantity: model value / full value. */
  readonly factor: (of: Dimension) => number;
}

/**
 * Factors of a model that moves as the aircraft does: same Froude number V²/(g·l), same ratio of its mass to that of the
 * air around it, same shape.
 *
 *     length λ, time √λ, mass σ·λ³, hence a quantity [Mᵃ Lᵇ Tᶜ] by (σ·λ³)ᵃ·λᵇ·(√λ)ᶜ               (README eq. 1–3)
 *
 * @param scale length λ [1], above 0; density σ [1], above 0
 * @throws {DomainError} if one is not a positive number
 * @source own derivation from the dimensions of the equations of motion, README eq. 1–3
 * @verified similitude.test.ts: eigenvalues and trim of a scaled hooked pair (rtol 1e-9), Froude number, factors by dimension
 */
export function similitude(scale: { readonly length: number; readonly density: number }): Similitude {
  const { length, density } = scale;
  if (!(length > 0 && Number.isFinite(length))) throw new DomainError("scale of the model", length, "above 0");
  if (!(density > 0 && Number.isFinite(density))) throw new DomainError("density ratio", density, "above 0");
  const mass = density * length ** 3;
  return {
    length,
    density,
    factor: (of) => mass ** of.mass * length ** (of.length + of.time / 2),
  };
}
