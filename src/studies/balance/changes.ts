import { STANDARD_GRAVITY } from "../../physics/bodies/index.ts";
import { trimChange } from "../../physics/weight-balance/index.ts";
import { type BranchLeg, plannedLegs, stateIn } from "./branches.ts";
import type { BalanceInputs } from "./inputs.ts";
import { pointOf, type State } from "./state.ts";
import type { ChangeKind, StateChange, TrimStep } from "./types.ts";

const DEGREE = Math.PI / 180;

/** Every change of state of the plan in order, then a jettison at the end of each leg that has the aircraft aboard. */
export function stateChanges(inputs: BalanceInputs): StateChange[] {
  const legs = plannedLegs(inputs);
  const found: StateChange[] = [];
  const add = (kind: ChangeKind, title: string, before: State, after: State, leg: BranchLeg, time: number): void => {
    const count = found.filter((one) => one.kind === kind).length;
    const key = `${kind.replaceAll(" ", "-")}${count === 0 ? "" : `-${count + 1}`}`;
    const [b, a] = [pointOf(inputs, before, time, leg.name), pointOf(inputs, after, time, leg.name)];
    const shift = a.cg_percentMac - b.cg_percentMac;
    found.push({ key, kind, title, before: b, after: a, shift_percentMac: shift, trim: trimOf(inputs, b, a) });
  };
  legs.forEach((leg, i) => {
    const previous = legs[i - 1];
    const start = stateIn(leg, 0);
    if (previous !== undefined) {
      const end = stateIn(previous, 1);
      const kind = suddenChange(previous, leg);
      // the boom stays where it is while the aircraft comes or goes
      const after = { ...start, boomAngle: end.boomAngle };
      if (kind !== null) add(kind, `${kind} at the start of ${leg.name}`, end, after, leg, leg.from);
    }
    if (leg.boomFrom === leg.boomTo) return;
    const lowered = leg.boomTo === inputs.boom.extended;
    const kind = lowered ? "boom lowered" : "boom raised";
    // the fuel of the start, so that the boom alone makes the change
    add(kind, `${kind} in ${leg.name}`, start, { ...start, boomAngle: leg.boomTo }, leg, leg.from);
  });
  for (const leg of legs) {
    if (leg.carried === null) continue;
    const end = stateIn(leg, 1);
    add("jettison", `jettison at the end of ${leg.name}`, end, { ...end, carried: null }, leg, leg.to);
  }
  return found;
}

function suddenChange(before: BranchLeg, after: BranchLeg): ChangeKind | null {
  if (before.carried !== null && after.carried === null) return "release";
  if (before.carried === null && after.carried !== null) return "hook-on";
  if (after.carried === null) return null;
  return before.held === after.held && before.share === after.share ? null : "weight taken";
}

interface Weighed {
  readonly mass_kg: number;
  readonly FS_m: number;
}

function trimOf({ air }: BalanceInputs, before: Weighed, after: Weighed): TrimStep | null {
  if (air === null) return null;
  const weighed = ({ mass_kg, FS_m }: Weighed) => ({ mass: mass_kg, FS: FS_m });
  const change = trimChange(weighed(before), weighed(after), air, STANDARD_GRAVITY);
  const { trimmed, handsOff } = change;
  return {
    loadFactorStep_1: change.loadFactorStep + 0,
    momentStep_Nm: change.momentStep + 0,
    alpha_deg: trimmed === null ? null : trimmed.alpha / DEGREE + 0,
    elevator_deg: trimmed === null ? null : trimmed.elevator / DEGREE + 0,
    handsOffAlpha_deg: handsOff === null ? null : handsOff.alpha / DEGREE + 0,
    handsOffLoadFactor_1: handsOff === null ? null : handsOff.loadFactor,
  };
}
