import type { Context } from "./context.ts";
import { keysAt, quantityAt, report, spell } from "./context.ts";

/** Inertia about the c.g.; products are ∫ x z dm and so on [kg·m²]. */
export interface Inertia {
  readonly Ixx: number;
  readonly Iyy: number;
  readonly Izz: number;
  readonly Ixy: number;
  readonly Ixz: number;
  readonly Iyz: number;
}

/** Relative slack for rounded figures: a flat body fulfils the rule with equality. */
const SLACK = 1e-9;

/**
 * Why an inertia cannot belong to any body, or undefined when it can.
 *
 * Every moment is positive and no principal moment exceeds the sum of the other two; the same rule holds for the
 * moments about any three perpendicular axes, which gives the clearer message where it is broken already.
 *
 *     Ixx + Iyy ≥ Izz and cyclic;   λ1 > 0,  λ1 + λ2 ≥ λ3                         (1)
 *
 * @param inertia  about the c.g. in body axes [kg·m²]
 * @source         own derivation, README of `checks`, eq. 1
 */
export function impossibleInertia(inertia: Inertia): string | undefined {
  const moments = [
    ["Ixx", inertia.Ixx],
    ["Iyy", inertia.Iyy],
    ["Izz", inertia.Izz],
  ] as const;
  for (let k = 0; k < 3; k++) {
    const [name, value] = moments[k]!;
    const [first, a] = moments[(k + 1) % 3]!;
    const [second, b] = moments[(k + 2) % 3]!;
    if (a + b < value * (1 - SLACK)) {
      const sum = k === 1 ? `${second} + ${first}` : `${first} + ${second}`;
      return `impossible inertia: ${sum} = ${spell(a + b)} is smaller than ${name} = ${spell(value)} kg m^2`;
    }
  }
  const [low, middle, high] = principalMoments(inertia);
  const list = `${spell(low)}, ${spell(middle)} and ${spell(high)} kg m^2`;
  if (low <= 0) return `impossible inertia: with its products the principal moments are ${list}; one is not positive`;
  if (low + middle < high * (1 - SLACK)) {
    return `impossible inertia: with its products the principal moments are ${list}; the largest exceeds the other two together`;
  }
  return undefined;
}

/**
 * Principal moments in rising order.
 *
 *     q = tr I/3,  p² = tr (I − q)²/6,  λ = q + 2p cos((φ + 2πk)/3),  cos φ = det((I − q)/p)/2     (2)
 *
 * @param inertia  [kg·m²]
 * @source         closed form of the symmetric 3×3 eigenvalues, own derivation, README of `checks`, eq. 2
 */
export function principalMoments(inertia: Inertia): readonly [number, number, number] {
  const q = (inertia.Ixx + inertia.Iyy + inertia.Izz) / 3;
  const [a, b, c] = [inertia.Ixx - q, inertia.Iyy - q, inertia.Izz - q];
  // the matrix carries the products with a minus sign
  const [d, e, f] = [-inertia.Ixy, -inertia.Ixz, -inertia.Iyz];
  const p = Math.sqrt((a * a + b * b + c * c + 2 * (d * d + e * e + f * f)) / 6);
  if (p === 0) return [q, q, q];
  const determinant = a * (b * c - f * f) - d * (d * c - f * e) + e * (d * f - b * e);
  const phi = Math.acos(Math.max(-1, Math.min(1, determinant / (2 * p ** 3)))) / 3;
  const high = q + 2 * p * Math.cos(phi);
  const low = q + 2 * p * Math.cos(phi + (2 * Math.PI) / 3);
  return [low, 3 * q - low - high, high];
}

/** Inertias that no body can have, or none of this mass inside this aircraft. */
export function checkInertias(context: Context): void {
  for (const state of keysAt(context, ["carried", "massStates"])) {
    const path = ["carried", "massStates", state, "inertia"];
    const value = (name: string) => quantityAt(context, [...path, name])?.si;
    const [Ixx, Iyy, Izz, Ixz] = [value("Ixx"), value("Iyy"), value("Izz"), value("Ixz")];
    if (Ixx === undefined || Iyy === undefined || Izz === undefined || Ixz === undefined) continue;
    const inertia = { Ixx, Iyy, Izz, Ixz, Ixy: value("Ixy") ?? 0, Iyz: value("Iyz") ?? 0 };
    const why = impossibleInertia(inertia);
    if (why !== undefined) report(context, path, why, "the triangle rule: each at most the sum of the other two");
    else checkRadii(context, state, [Ixx, Iyy, Izz]);
  }
}

/** The carrier's own inertia, by the same rule. */
export function checkCarrierInertia(context: Context): void {
  const path = ["carrier", "dynamics", "inertia"];
  const value = (name: string) => quantityAt(context, [...path, name])?.si;
  const [Ixx, Iyy, Izz, Ixz] = [value("Ixx"), value("Iyy"), value("Izz"), value("Ixz")];
  if (Ixx === undefined || Iyy === undefined || Izz === undefined || Ixz === undefined) return;
  const why = impossibleInertia({ Ixx, Iyy, Izz, Ixz, Ixy: value("Ixy") ?? 0, Iyz: value("Iyz") ?? 0 });
  if (why !== undefined) report(context, path, why, "the triangle rule: each at most the sum of the other two");
}

/** Radii of gyration against the size of the aircraft: catches pounds taken for slugs. */
function checkRadii(context: Context, state: string, moments: readonly number[]): void {
  const mass = quantityAt(context, ["carried", "massStates", state, "mass"])?.si;
  const from = quantityAt(context, ["carried", "length", "from"])?.si;
  const to = quantityAt(context, ["carried", "length", "to"])?.si;
  const span = quantityAt(context, ["carried", "reference", "span"])?.si;
  if (mass === undefined || from === undefined || to === undefined || span === undefined) return;
  const limit = Math.hypot(to - from, span);
  ["Ixx", "Iyy", "Izz"].forEach((name, i) => {
    const radius = Math.sqrt(moments[i]! / mass);
    if (radius <= limit) return;
    const message = `impossible inertia: its radius of gyration ${spell(radius)} m is larger than the aircraft`;
    report(context, ["carried", "massStates", state, "inertia", name], message, `up to ${spell(limit)} m`);
  });
}
