import type { FindingDraft } from "../finding/index.ts";
import { inDegrees } from "./change-findings.ts";
import type { Computed } from "./findings.ts";
import type { BalanceInputs } from "./inputs.ts";
import type { ReadGroups } from "./read-pair.ts";
import type { GroundState } from "./types.ts";

const worst = (states: readonly GroundState[], value: (state: GroundState) => number): GroundState =>
  states.reduce((a, b) => (value(b) < value(a) ? b : a));

/** Tipping back, weight on the nose wheel, loads on the gear. */
export function groundDrafts(
  inputs: BalanceInputs,
  { ground }: Computed,
  state: readonly string[],
  groups: ReadGroups,
): FindingDraft[] {
  if (ground === null || inputs.ground === null) return [];
  const rests = [...state, ...groups.ground];
  const judged = [...rests, ...groups.criteria];
  const { tipBack, noseShare } = inputs.criteria;
  const tipping = worst(ground, ({ tipBack_deg }) => tipBack_deg);
  const [light, heavy] = [
    worst(ground, ({ noseShare_1 }) => noseShare_1),
    worst(ground, ({ noseShare_1 }) => -noseShare_1),
  ];
  const nose = worst(ground, ({ nose_N }) => -nose_N);
  const mainLoad = ({ mainLeft_N, mainRight_N }: GroundState): number => Math.max(mainLeft_N, mainRight_N);
  const main = worst(ground, (one) => -mainLoad(one));
  const words = ({ title, cg_percentMac, height_m }: GroundState): string =>
    `${title}: c.g. ${cg_percentMac.toFixed(2)} % MAC, ${height_m.toFixed(2)} m above the ground`;
  const share = (which: "least" | "most", at: GroundState): FindingDraft => {
    const limit = which === "least" ? noseShare.from : noseShare.to;
    return {
      id: `balance.ground.nose-share-${which}`,
      title: `${which === "least" ? "Least" : "Largest"} share of the weight on the nose wheel`,
      ...{ value: 100 * at.noseShare_1, unit: "%", rests: judged },
      criterion: {
        text: `share of the weight on the nose wheel ${which === "least" ? "at least" : "not above"} its limit`,
        ...{ sense: which === "least" ? "at least" : "at most", limit: 100 * limit.value, source: limit.source },
      },
      note: `${words(at)}; ${(1e-3 * at.nose_N).toFixed(1)} kN`,
    };
  };
  return [
    {
      id: "balance.ground.tip-back",
      title: "Least tip-back angle about the main wheels",
      ...{ value: tipping.tipBack_deg, unit: "deg", rests: judged, note: words(tipping) },
      criterion: {
        text: "tip-back angle at least the limit",
        ...{ sense: "at least", limit: inDegrees(tipBack.value), source: tipBack.source },
      },
    },
    ...rotationDraft(inputs, ground, [...rests, ...groups.rotation]),
    share("least", light),
    share("most", heavy),
    {
      id: "balance.ground.nose-load",
      title: "Largest load on the nose wheel at rest",
      ...{ value: nose.nose_N, unit: "N", rests, note: nose.title },
    },
    {
      id: "balance.ground.main-load",
      title: "Largest load on one main wheel set at rest",
      ...{ value: mainLoad(main), unit: "N", rests, note: main.title },
    },
  ];
}

/** The c.g. stays ahead of the wheels while the carrier rotates as wanted. */
function rotationDraft(
  { ground: given }: BalanceInputs,
  states: readonly GroundState[],
  rests: readonly string[],
): FindingDraft[] {
  if (given === null || given.rotation === null) return [];
  const flown = states.filter(({ key }) => !key.startsWith("bare"));
  const tipping = worst(flown, ({ tipBack_deg }) => tipBack_deg);
  return [
    {
      id: "balance.ground.tip-back-rotation",
      title: "Tip-back angle beyond the rotation wanted at take-off and landing",
      ...{ value: tipping.tipBack_deg, unit: "deg", rests, note: tipping.title },
      criterion: {
        text: "tip-back angle larger than the rotation",
        ...{ sense: "at least", limit: inDegrees(given.rotation) },
        source: "rule of layout: larger than the tail-scrape angle (read second-hand)",
      },
    },
  ];
}
