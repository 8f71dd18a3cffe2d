import type { FindingDraft } from "../finding/index.ts";
import { inMillimetres, type Rests } from "./clearance-findings.ts";
import { DEGREE } from "./frames.ts";
import type { FitInputs } from "./inputs.ts";
import type { ComputedFit, GroundState } from "./types.ts";

/** Heights, rotation and tipping in every state of tyres and struts. */
export function groundDrafts(inputs: FitInputs, fit: ComputedFit, rests: Rests): FindingDraft[] {
  const { groups } = rests;
  const own = [...rests.allBodies, ...groups.linkage, ...groups.ground];
  const states = fit.ground?.states ?? [];
  return states.flatMap((state) => [
    {
      id: `fit.ground.${idOf(state)}.clearance`,
      title: `Least height above the ground, stowed, ${state.name}`,
      ...{ value: state.clearance_m, unit: "m", rests: own },
      criterion: {
        text: "nothing but wheels touches the ground",
        ...{ sense: "at least" as const, limit: 0, source: "common practice, no source" },
      },
      note: `${state.at.part} at FS ${state.at.point[0].toFixed(3)}; ground line WL ${state.groundLine_m.toFixed(3)}; ${reachWords(state)}`,
    },
    ...rotationDrafts(inputs, state, own, groups.rotation),
    ...(state.tipBack_deg === null
      ? []
      : [
          {
            id: `fit.ground.${idOf(state)}.tip-back`,
            title: `Tip-back angle of the aftmost c.g. about the main wheels, ${state.name}`,
            ...{ value: state.tipBack_deg, unit: "deg", verdict: "information" as const, rests: groups.ground },
          },
        ]),
  ]);
}

/** Up to which boom angle nothing touches the ground with the aircraft on the mechanism. */
function reachWords({ alongStroke }: GroundState): string {
  const down = alongStroke.findIndex((point) => point.clearance_m <= 0);
  if (down < 0) return "nothing touches at any boom angle";
  const { part, boomAngle_deg } = alongStroke[down];
  return down === 0
    ? `${part} touches as stowed`
    : `with the boom lowered ${part} touches between ${alongStroke[down - 1].boomAngle_deg.toFixed(1)}° and ${boomAngle_deg.toFixed(1)}°`;
}

function idOf(state: GroundState): string {
  return state.name.replaceAll(" ", "-");
}

function rotationDrafts(
  inputs: FitInputs,
  state: GroundState,
  own: readonly string[],
  wantedFrom: readonly string[],
): FindingDraft[] {
  const wanted = inputs.ground?.rotation ?? null;
  return state.rotationLimits.map((limit) => ({
    id: `fit.ground.${idOf(state)}.rotation.${limit.pose.replaceAll(" ", "-").replace("°", "").replace(",", "")}`,
    title: `Rotation until something touches the ground, ${limit.pose}, ${state.name}`,
    ...{ value: limit.limit_deg, unit: "deg", rests: [...own, ...wantedFrom] },
    ...(wanted === null
      ? { verdict: "information" as const }
      : {
          criterion: {
            text: `rotation of ${(wanted.value / DEGREE).toPrecision(3)}° without touching`,
            ...{ sense: "at least" as const, limit: wanted.value / DEGREE, source: wanted.source },
          },
        }),
    ...(limit.limit_deg === null
      ? { verdict: "met" as const, note: "nothing lies behind the main wheels" }
      : {
          note: limit.limit_deg === 0 ? `${limit.part} is on or below the ground` : `${limit.part} comes down first`,
        }),
  }));
}

/** Raising of the carrier for loading. */
export function loadingDrafts(fit: ComputedFit, rests: Rests): FindingDraft[] {
  const { loading } = fit;
  if (loading === null) return [];
  const { groups } = rests;
  const { requiredJacking_m: raise, unraisedClearance_m: unraised, governing, margin_m: margin, steps } = loading;
  const last = steps
    .filter((step) => step.pair !== null)
    .reduce<(typeof steps)[number] | null>(
      (least, step) => (least === null || step.leastClearance_m < least.leastClearance_m ? step : least),
      null,
    );
  return [
    {
      id: "fit.loading.raise",
      title: "Least height by which the carrier is raised for loading so that everything passes with the margin",
      ...{ value: raise, unit: "m", verdict: raise === null ? "not met" : "information" },
      note:
        raise === null
          ? "no height that was looked at lets the carried aircraft pass"
          : `margin ${inMillimetres(margin)}; not raised, the way in leaves ${inMillimetres(unraised)}${governing === null ? "" : `; ${governing.join(" to ")} set the height`}${last === null ? "" : `; least on the way: ${inMillimetres(last.leastClearance_m)}, ${last.name}`}`,
      rests: [...rests.allBodies, ...groups.linkage, ...groups.ground, ...groups.loading],
    },
  ];
}
