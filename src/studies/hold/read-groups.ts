/** Pair paths by what they feed, so that each finding rests on what it uses and nothing else. */
export interface ReadGroups {
  /** Geometry and airloads of the carried aircraft. */
  readonly aircraft: readonly string[];
  /** Mass, c.g. and inertia by mass state; condition by name. */
  readonly masses: ReadonlyMap<string, readonly string[]>;
  readonly conditions: ReadonlyMap<string, readonly string[]>;
  readonly stall: readonly string[];
  readonly travel: readonly string[];
  /** Axial and lateral springs, tip mass, structural damping. */
  readonly boom: readonly string[];
  /** Bending, accumulator, snubber and the ratio along the stroke. */
  readonly swing: readonly string[];
  readonly ratio: readonly string[];
  readonly law: readonly string[];
  readonly criteria: readonly string[];
  readonly band: readonly string[];
  readonly sweeps: readonly string[];
  readonly upset: readonly string[];
}

/** Paths of one condition at some of its masses, by purpose; `symmetric` about the middle plane or not. */
export function restsOf(groups: ReadGroups, condition: string, masses: readonly string[], symmetric: boolean) {
  const own = masses.flatMap((mass) => groups.masses.get(mass) ?? []);
  const trim = [...groups.aircraft, ...own, ...(groups.conditions.get(condition) ?? []), ...groups.boom];
  const swinging = [...trim, ...groups.swing, ...groups.law];
  // the swing path does not enter the lateral motion of a symmetric pair
  const dynamics = { longitudinal: swinging, lateral: symmetric ? [...trim, ...groups.law] : swinging };
  const judged = {
    longitudinal: [...dynamics.longitudinal, ...groups.criteria],
    lateral: [...dynamics.lateral, ...groups.criteria],
  };
  return { trim, dynamics, judged };
}
