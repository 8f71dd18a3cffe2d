import { STANDARD_GRAVITY } from "../../physics/bodies/index.ts";
import { centreOf, chordShare, type PlacedMass, tipBackAngle, wheelLoads } from "../../physics/weight-balance/index.ts";
import { type Branch, type BranchLeg, stateIn } from "./branches.ts";
import type { BalanceInputs } from "./inputs.ts";
import { carriedAt, massesOf, type State } from "./state.ts";
import type { GroundState } from "./types.ts";

const DEGREE = Math.PI / 180;

/** The carrier on its wheels: at the start, at the end of each branch that ends with the boom stowed, and while it is loaded. */
export function groundStates(inputs: BalanceInputs, branches: readonly Branch[]): GroundState[] | null {
  const { ground, boom, carried } = inputs;
  if (ground === null) return null;
  const state = (key: string, title: string, masses: readonly PlacedMass[]): GroundState => {
    const centre = centreOf(masses);
    const height = centre.WL - ground.line;
    const loads = wheelLoads(centre.mass * STANDARD_GRAVITY, centre, ground);
    return {
      ...{ key, title, mass_kg: centre.mass, FS_m: centre.FS, height_m: height },
      ...{ cg_percentMac: 100 * chordShare(centre.FS, inputs.chord), noseShare_1: loads.noseShare },
      ...{ nose_N: loads.nose, mainLeft_N: loads.left, mainRight_N: loads.right },
      tipBack_deg: tipBackAngle(ground.mainFS, centre.FS, height) / DEGREE,
    };
  };
  const flown = (key: string, title: string, at: State): GroundState => state(key, title, massesOf(inputs, at));
  const start = (branches[0] as Branch).legs[0] as BranchLeg;
  const landed = branches.flatMap(({ key, title, legs }) => {
    const last = legs[legs.length - 1] as BranchLeg;
    return last.boomTo === boom.stowed ? [flown(`end-${key}`, `at the end, ${title}`, stateIn(last, 1))] : [];
  });
  const bare = inputs.items.filter(({ kind }) => kind === "empty" || kind === "kit");
  const hung = carriedAt(boom, boom.stowed, carried.out, "three point");
  return [
    flown("start", "as loaded for the mission", stateIn(start, 0)),
    ...landed,
    state("bare-with-aircraft", "aircraft stowed; no fuel, crew or payload", [...bare, hung]),
    state("bare", "no aircraft, fuel, crew or payload", bare),
  ];
}
