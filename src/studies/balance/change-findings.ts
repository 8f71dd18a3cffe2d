import type { FindingDraft } from "../finding/index.ts";
import { clock } from "./clock.ts";
import type { BalanceInputs } from "./inputs.ts";
import type { StateChange, TrimStep } from "./types.ts";

const DEGREE = Math.PI / 180;
/** A criterion's limit as written, without the last digits of the conversion. */
export const inDegrees = (value: number): number => Number((value / DEGREE).toPrecision(12));

interface Rests {
  readonly state: readonly string[];
  readonly trim: readonly string[];
  readonly criteria: readonly string[];
}

/** A planned release or hook-on is judged; other changes inform; of the jettisons the worst of each kind speaks. */
export function changeDrafts(inputs: BalanceInputs, changes: readonly StateChange[], rests: Rests): FindingDraft[] {
  const planned = changes.filter(({ kind }) => kind !== "jettison");
  const jettisons = changes.filter(({ kind }) => kind === "jettison");
  return [
    ...planned.flatMap((change) => plannedDrafts(inputs, change, rests)),
    ...(jettisons.length === 0 ? [] : jettisonDrafts(jettisons, rests)),
  ];
}

function plannedDrafts(inputs: BalanceInputs, change: StateChange, rests: Rests): FindingDraft[] {
  const judged = change.kind === "release" || change.kind === "hook-on";
  const { loadFactorStep, elevatorStep } = inputs.criteria;
  const judgedBy = (draft: FindingDraft, text: string, limit: number, source: string): FindingDraft => ({
    ...draft,
    rests: [...draft.rests, ...rests.criteria],
    criterion: { text: `${text} at a planned release or hook-on not above the limit`, sense: "at most", limit, source },
  });
  const drafts = [shiftDraft(change.key, change, rests)];
  if (judged) {
    const draft = loadDraft(change.key, change, rests);
    drafts.push(judgedBy(draft, "step of the load factor", loadFactorStep.value, loadFactorStep.source));
  }
  const elevator = elevatorDraft(change.key, change, rests);
  if (elevator !== null && judged && elevatorStep !== null) {
    drafts.push(judgedBy(elevator, "change of elevator", inDegrees(elevatorStep.value), elevatorStep.source));
  } else if (elevator !== null) drafts.push(elevator);
  return judged ? [...drafts, ...handsOffDraft(change.key, change, rests)] : drafts;
}

function jettisonDrafts(jettisons: readonly StateChange[], rests: Rests): FindingDraft[] {
  const most = (size: (change: StateChange) => number): StateChange =>
    jettisons.reduce((a, b) => (size(b) > size(a) ? b : a));
  const key = "jettison";
  const elevator = most(({ trim }) => Math.abs(trim?.elevator_deg ?? 0));
  const unstable = jettisons.find(({ trim }) => trim !== null && trim.handsOffAlpha_deg === null);
  return [
    shiftDraft(
      key,
      most(({ shift_percentMac }) => Math.abs(shift_percentMac)),
      rests,
    ),
    loadDraft(
      key,
      most(({ before, after }) => before.mass_kg / after.mass_kg),
      rests,
    ),
    ...[elevatorDraft(key, elevator, rests)].filter((draft) => draft !== null),
    ...handsOffDraft(key, unstable ?? most(({ trim }) => Math.abs(trim?.handsOffAlpha_deg ?? 0)), rests),
  ];
}

function shiftDraft(key: string, change: StateChange, { state }: Rests): FindingDraft {
  const { title, before, after, shift_percentMac } = change;
  const side = (point: StateChange["before"]): string =>
    `${point.mass_kg.toFixed(0)} kg at ${point.cg_percentMac.toFixed(2)} % MAC`;
  return {
    id: `balance.change.${key}.cg-shift`,
    title: `Shift of the carrier's c.g. in parts of the chord, towards the tail, ${title}`,
    ...{ value: shift_percentMac, unit: "%", rests: state },
    note: `${clock(before.time_s)} after the start: ${side(before)}, then ${side(after)}`,
  };
}

function loadDraft(key: string, { title, before, after }: StateChange, { state }: Rests): FindingDraft {
  const step = before.mass_kg / after.mass_kg - 1;
  return {
    id: `balance.change.${key}.load-factor-step`,
    title: `Step of the carrier's load factor, ${title}`,
    ...{ value: Math.abs(step), unit: "1", rests: state },
    note: `${clock(before.time_s)} after the start: ${step === 0 ? "none" : step > 0 ? "upwards" : "downwards"}, nothing else moved`,
  };
}

function elevatorDraft(key: string, { title, before, trim }: StateChange, rests: Rests): FindingDraft | null {
  const elevator = trim?.elevator_deg ?? null;
  if (elevator === null) return null;
  const way = elevator === 0 ? "none" : elevator > 0 ? "trailing edge down" : "trailing edge up";
  return {
    id: `balance.change.${key}.elevator-step`,
    title: `Change of the carrier's elevator to trim again, ${title}`,
    ...{ value: Math.abs(elevator), unit: "deg", rests: rests.trim },
    note: `${clock(before.time_s)} after the start: ${way}`,
  };
}

function handsOffDraft(key: string, change: StateChange, rests: Rests): FindingDraft[] {
  const { title, trim } = change;
  if (trim === null) return [];
  const base = {
    id: `balance.change.${key}.hands-off-alpha`,
    title: `Change of the carrier's angle of attack with the elevator left alone, ${title}`,
    ...{ unit: "deg", rests: rests.trim },
  };
  const settled = settledAt(trim);
  if (settled === null) {
    const note = "the carrier has no static stability there: with the elevator left alone it does not settle";
    return [{ ...base, value: null, verdict: "not met", note }];
  }
  const note = `load factor ${settled.loadFactor.toFixed(3)} once it has settled, at the same speed`;
  return [{ ...base, value: settled.alpha, note }];
}

function settledAt({ handsOffAlpha_deg, handsOffLoadFactor_1 }: TrimStep) {
  if (handsOffAlpha_deg === null || handsOffLoadFactor_1 === null) return null;
  return { alpha: handsOffAlpha_deg, loadFactor: handsOffLoadFactor_1 };
}
