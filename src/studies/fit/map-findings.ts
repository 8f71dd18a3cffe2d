import type { FindingDraft } from "../finding/index.ts";
import { inMillimetres, type Rests } from "./clearance-findings.ts";
import type { FitInputs } from "./inputs.ts";
import type { ComputedFit, GearMap } from "./types.ts";

/** What the maps say: is there a way, how near does it come, what may move when. */
export function mapDrafts(inputs: FitInputs, fit: ComputedFit, rests: Rests): FindingDraft[] {
  const own = [...rests.allBodies, ...rests.groups.linkage, ...rests.groups.settings];
  return fit.maps.flatMap((map) => (map.held === null ? nominal(inputs, fit, map, own, rests) : [stuck(map, own)]));
}

function nominal(
  inputs: FitInputs,
  fit: ComputedFit,
  map: GearMap,
  own: readonly string[],
  rests: Rests,
): FindingDraft[] {
  const { path, wayBack, counts, group } = map;
  const drafts: FindingDraft[] = [
    {
      id: `fit.map.${map.id}.path`,
      title: `Moves from ${group} retracted with the boom stowed to both extended, one at a time`,
      value: path === null ? null : path.moves.length,
      ...{ unit: "1", verdict: path === null ? "not met" : "met", rests: own },
      note: path === null ? (map.noPathBecause ?? "") : path.steps.join(" "),
    },
    {
      id: `fit.map.${map.id}.unresolved`,
      title: `Cells of the map of ${group} and boom that could not be decided`,
      ...{ value: counts.unresolved, unit: "1", verdict: "information", rests: own },
      note: `${counts.free} free, ${counts.near} near, ${counts.collides} collide, of ${map.state.length}; an undecided cell counts as closed`,
    },
    {
      id: `fit.map.${map.id}.order`,
      title: `Boom angles at which the ${group} may move through its whole travel; degrees of them`,
      value: map.groupMayMove_deg.reduce((sum, [from, to]) => sum + Math.abs(to - from), 0),
      ...{ unit: "deg", verdict: "information", rests: own },
      note: `${ranges(map.groupMayMove_deg, 1, "°")}; the boom may move through its whole stroke at fractions ${ranges(map.boomMayMove_1, 3, "")}`,
    },
  ];
  if (path === null || wayBack === null) return drafts;
  const wanted = inputs.criteria.movingClearance;
  drafts.push({
    id: `fit.map.${map.id}.clearance`,
    title: `Least clearance on the way of ${group} and boom, less the worst-case stack`,
    ...{ value: path.leastClearance_m - fit.stack.worst_m, unit: "m" },
    ...(wanted === null
      ? {}
      : {
          criterion: {
            text: `clearance in motion at least ${inMillimetres(wanted.value)} after the worst-case stack`,
            ...{ sense: "at least" as const, limit: wanted.value, source: wanted.source },
          },
        }),
    note: `${inMillimetres(path.leastClearance_m)} drawn${path.leastPair === null ? "" : `, ${path.leastPair.join(" to ")}`}. Way back: ${wayBack.steps.join(" ")}`,
    rests: [...own, ...rests.groups.criteria],
  });
  return drafts;
}

function stuck(map: GearMap, own: readonly string[]): FindingDraft {
  const whole = map.boomMayMove_1;
  return {
    id: `fit.map.${map.id}`,
    title: `${map.title}: share of the others' travel at which the boom may still move through its whole stroke`,
    value: whole.reduce((sum, [from, to]) => sum + to - from, 0),
    ...{ unit: "1", verdict: "information", rests: own },
    note: `fractions ${ranges(whole, 3, "")}; the others may move through their whole travel at ${ranges(map.groupMayMove_deg, 1, "°")}; ${map.path === null ? "no" : "a"} way from stowed to extended`,
  };
}

function ranges(all: readonly (readonly [number, number])[], digits: number, unit: string): string {
  if (all.length === 0) return "none";
  return all.map(([from, to]) => `${from.toFixed(digits)}${unit} to ${to.toFixed(digits)}${unit}`).join(", ");
}
