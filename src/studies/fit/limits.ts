import type { Limit } from "../finding/index.ts";
import type { FitInputs } from "./inputs.ts";
import type { ComputedFit } from "./types.ts";

/** Limits that follow from the fit: when groups may move, how far the carrier may rotate. */
export function fitLimits(inputs: FitInputs, fit: ComputedFit): Limit[] {
  return [...groupLimits(fit), ...rotationLimits(inputs, fit)];
}

/** Boom angles at which each group may move, and fractions at which the boom may. */
function groupLimits(fit: ComputedFit): Limit[] {
  return fit.maps
    .filter((map) => map.held === null)
    .flatMap((map): Limit[] => {
      const because = [`fit.map.${map.id}.order`];
      const ends = [map.boomAngles_deg[0], map.boomAngles_deg[map.boomAngles_deg.length - 1]];
      const angles = limitOf(map.groupMayMove_deg, Math.min(...ends), Math.max(...ends));
      const fractions = limitOf(map.boomMayMove_1, 0, 1);
      return [
        {
          id: `fit.${map.id}.boom-angle`,
          title: `Boom angle for moving ${map.group} through the whole travel`,
          ...{ quantity: "boom angle", unit: "deg", because, ...angles },
        },
        {
          id: `fit.${map.id}.fraction`,
          title: `Fraction of ${map.group} for moving the boom through the whole stroke`,
          ...{ quantity: "fraction", unit: "1", because, ...fractions },
        },
      ];
    });
}

/** The widest range; an end of the travel is no limit. */
function limitOf(all: readonly (readonly [number, number])[], first: number, last: number) {
  if (all.length === 0) {
    const note = "at no place may the whole travel be used; the path of the map shows what may";
    return { lower: null, upper: null, status: "prohibited" as const, note };
  }
  const ordered = all.map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const);
  const [from, to] = ordered.reduce((widest, one) => (one[1] - one[0] > widest[1] - widest[0] ? one : widest));
  const others = ordered.length > 1 ? `${ordered.length} separate ranges; this is the widest` : undefined;
  return {
    lower: from - first < 1e-9 ? null : from,
    upper: last - to < 1e-9 ? null : to,
    status: "analysed" as const,
    ...(others === undefined ? {} : { note: others }),
  };
}

/** Least rotation limit of all ground states for each pose. */
function rotationLimits(inputs: FitInputs, fit: ComputedFit): Limit[] {
  if (fit.ground === null) return [];
  const { states } = fit.ground;
  return states[0].rotationLimits.flatMap(({ pose }, i): Limit[] => {
    const all = states.flatMap((state) => {
      const { limit_deg } = state.rotationLimits[i];
      return limit_deg === null ? [] : [{ state: state.name, limit: limit_deg }];
    });
    if (all.length === 0) return [];
    const least = all.reduce((a, b) => (b.limit < a.limit ? b : a));
    const slug = (text: string): string => text.replaceAll(" ", "-").replace("°", "").replace(",", "");
    const wanted = inputs.ground?.rotation ?? null;
    const enough = wanted === null || least.limit >= (wanted.value * 180) / Math.PI;
    return [
      {
        id: `fit.rotation.${slug(pose)}`,
        title: `Rotation on the ground, mechanism ${pose}`,
        ...{ quantity: "pitch attitude about the main wheels", lower: null, upper: least.limit, unit: "deg" },
        status: enough ? "analysed" : "not cleared",
        because: [`fit.ground.${slug(least.state)}.rotation.${slug(pose)}`],
        note: `governed by ${least.state}`,
      },
    ];
  });
}
