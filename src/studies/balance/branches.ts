import type { BalanceInputs, CarriedMass, Held } from "./inputs.ts";
import type { State } from "./state.ts";
import type { BranchKind } from "./types.ts";

/** A leg of one branch: what holds over it, from its start to its end. */
export interface BranchLeg {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly burnedFrom: number;
  readonly burnedTo: number;
  readonly boomFrom: number;
  readonly boomTo: number;
  readonly carried: CarriedMass | null;
  readonly held: Held;
  readonly share: number;
}

/** A course that the mission may take. */
export interface Branch {
  readonly key: string;
  readonly kind: BranchKind;
  readonly title: string;
  readonly legs: readonly BranchLeg[];
  /** First leg that differs from the plan. */
  readonly first: number;
}

const SAME_ANGLE = 1e-6;
const DEGREE = Math.PI / 180;

/** State at a share of a leg, 0 to 1. */
export function stateIn(leg: BranchLeg, t: number): State {
  return {
    burned: leg.burnedFrom + t * (leg.burnedTo - leg.burnedFrom),
    boomAngle: leg.boomFrom + t * (leg.boomTo - leg.boomFrom),
    ...{ carried: leg.carried, held: leg.held, share: leg.share },
  };
}

/** The mission as planned: the carried aircraft goes out in one loading and, once it was away, comes back in another. */
export function plannedLegs({ legs, boom, carried }: BalanceInputs): BranchLeg[] {
  let [time, burned] = [0, 0];
  let wasAway = false;
  return legs.map((leg) => {
    const away = leg.aircraft === "away";
    wasAway ||= away;
    const { stowed, extended } = boom;
    const ends = {
      stowed: [stowed, stowed],
      lowering: [stowed, extended],
      extended: [extended, extended],
      raising: [extended, stowed],
      away: leg.emptyBoom === "extended" ? [extended, extended] : [stowed, stowed],
    } as const;
    const [boomFrom, boomTo] = ends[leg.aircraft];
    const planned: BranchLeg = {
      ...{ name: leg.name, from: time, to: time + leg.time, burnedFrom: burned, burnedTo: burned + leg.fuel },
      ...{ boomFrom, boomTo, carried: away ? null : wasAway ? carried.back : carried.out },
      ...(leg.aircraft === "extended"
        ? { held: leg.held, share: leg.share }
        : { held: "three point" as const, share: 1 }),
    };
    time += leg.time;
    burned += leg.fuel;
    return planned;
  });
}

/** Every course: as planned, never hooked again, hooked light, jettisoned, stuck with the aircraft and without. */
export function branchesOf(inputs: BalanceInputs): Branch[] {
  const planned = plannedLegs(inputs);
  const { stowed } = inputs.boom;
  const isAway = (leg: BranchLeg): boolean => leg.carried === null;
  const firstAway = planned.findIndex(isAway);
  const hooked = firstAway < 0 ? -1 : planned.findIndex((leg, i) => i > firstAway && !isAway(leg));
  const from = (index: number, change: (leg: BranchLeg, i: number) => BranchLeg): BranchLeg[] =>
    planned.map((leg, i) => (i < index ? leg : change(leg, i)));
  const branches: Branch[] = [{ key: "planned", kind: "planned", title: "as planned", legs: planned, first: 0 }];
  if (hooked >= 0) {
    branches.push({
      ...{ key: "not-recovered", kind: "not recovered", title: "not recovered", first: hooked },
      legs: from(hooked, (leg) => ({ ...leg, carried: null, boomFrom: stowed, boomTo: stowed })),
    });
    branches.push({
      ...{ key: "recovered-light", kind: "recovered light", title: "recovered light", first: hooked },
      legs: from(hooked, (leg) => (isAway(leg) ? leg : { ...leg, carried: inputs.carried.light })),
    });
  }
  const aboard = planned.findIndex((leg) => !isAway(leg));
  if (aboard >= 0) {
    branches.push({
      ...{ key: "jettisoned", kind: "jettisoned", title: "jettisoned", first: aboard },
      legs: from(aboard, (leg) => ({ ...leg, carried: null })),
    });
  }
  return [...branches, ...inputs.stuck.flatMap((angle) => stuckAt(inputs, planned, angle))];
}

/** The boom sticks at an angle on its first way out: with the aircraft for good, or empty after the release. */
function stuckAt(inputs: BalanceInputs, planned: readonly BranchLeg[], angle: number): Branch[] {
  const { stowed, extended } = inputs.boom;
  const out = planned.findIndex((leg) => Math.abs(leg.boomTo - leg.boomFrom) > SAME_ANGLE && leg.carried !== null);
  const degrees = `${Number((angle / DEGREE).toFixed(1))}`;
  const branches: Branch[] = [];
  const kept = (first: number, held: Held, key: string, title: string): void => {
    const { carried } = planned[first]!;
    const legs = planned.map((leg, i) => {
      if (i < first) return leg;
      const boomFrom = i === first ? (first === out ? stowed : leg.boomFrom) : angle;
      return { ...leg, ...{ carried, held, share: 1, boomFrom, boomTo: angle } };
    });
    branches.push({ key, kind: "stuck with aircraft", title, legs, first });
  };
  if (out >= 0) kept(out, "three point", `stuck-${degrees}`, `stuck at ${degrees}° with the aircraft`);
  if (Math.abs(angle - extended) > SAME_ANGLE) return branches;
  const single = planned.findIndex((leg, i) => i > out && leg.carried !== null && leg.held === "single point");
  if (single >= 0) {
    kept(single, "single point", `stuck-${degrees}-single-point`, `stuck at ${degrees}°, held at a single point`);
  }
  const released = planned.findIndex((leg, i) => i > 0 && leg.carried === null && planned[i - 1]!.carried !== null);
  if (released >= 0) {
    branches.push({
      ...{ key: `stuck-${degrees}-empty`, kind: "stuck empty", title: `stuck at ${degrees}°, empty`, first: released },
      legs: planned.map((leg, i) => (i < released ? leg : { ...leg, carried: null, boomFrom: angle, boomTo: angle })),
    });
  }
  return branches;
}
