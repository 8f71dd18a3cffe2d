import { bracketedRoot } from "../../math/roots/index.ts";
import { STANDARD_GRAVITY, trimHooked } from "../../physics/bodies/index.ts";
import type { HoldInputs } from "./inputs.ts";
import { type Operating, settingsAt } from "./operating.ts";

/** Where the jack load changes sign along the weight share. */
export interface JackSign {
  /** Weight share [1]; `null` when it was not found. */
  readonly share: number | null;
  /** Largest share up to which the aircraft trims, as searched [1]; `null` when it trims nowhere. */
  readonly searchedTo: number | null;
}

const STEPS = 40;
const SHARE_TOLERANCE = 1e-12;

/**
 * Weight share at which the tangential load on the tip changes sign: free play of the mechanism acts around it.
 *
 * Searched from 0 upwards as far as the aircraft trims, then by root finding in the step where the sign changes.
 */
export function jackSignShareOf(inputs: HoldInputs, at: Operating): JackSign {
  const load = loadAlong(inputs, at);
  let before = load(0);
  if (before === null) return { share: null, searchedTo: null };
  for (let i = 1; i <= STEPS; i++) {
    const share = i / STEPS;
    const after = load(share);
    if (after === null) return { share: null, searchedTo: (i - 1) / STEPS };
    if (before * after <= 0) {
      const root = bracketedRoot((s) => load(s) ?? Number.NaN, (i - 1) / STEPS, share, SHARE_TOLERANCE);
      return { share: root.outcome === "converged" ? root.x : null, searchedTo: share };
    }
    before = after;
  }
  return { share: null, searchedTo: 1 };
}

/** Tangential load on the tip [N] against the weight share; `null` without trim. */
function loadAlong(inputs: HoldInputs, at: Operating): (share: number) => number | null {
  const [c, s] = [Math.cos(at.boomAngleDown), Math.sin(at.boomAngleDown)];
  const { ownMass, ownCentre, length } = inputs.boom;
  const own = ((ownMass * ownCentre) / length) * STANDARD_GRAVITY * c;
  const settings = settingsAt(inputs, at);
  const flight = { airloads: settings.airloads, mass: settings.mass.mass, ...settings.air };
  return (share) => {
    const trim = trimHooked(flight, { ...settings, weightShare: share });
    if (trim.outcome !== "trimmed") return null;
    const [forward, , down] = trim.f_onV_byTip_H;
    return own - (forward * s + down * c);
  };
}
