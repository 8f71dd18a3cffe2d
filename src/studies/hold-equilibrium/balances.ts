import {
  type Balance,
  balanceBranches,
  balancesAt,
  type ElevatorRule,
  foldsOf,
  HookedStatics,
  staticState,
} from "../../physics/equilibrium/index.ts";
import { airOf, type HoldInputs, type Operating, PointModel, pairAt, type Range, settingsAt } from "../hold/index.ts";
import { hookLoadsOf } from "./hook-loads.ts";
import type { BalancePoint, BranchFamily, ElevatorHeld } from "./types.ts";

const DEGREE = Math.PI / 180;
/** Airspeeds at which all balances are found, as starts of branches and to be counted. */
const STARTS = 9;
const COUNTS = 20;
/** Most points of a branch in the result. */
const SHOWN = 41;
/** How closely the trim of a linear model must be the balance it stands for [rad]. */
const SAME_TRIM = 1e-6;

/** Balances of one mass with the jack where the condition's trim puts it; `null` when the condition does not trim. */
export function branchFamily(
  inputs: HoldInputs,
  at: Operating,
  speeds: Range,
  elevator: ElevatorHeld,
): BranchFamily | null {
  const pair = pairAt(inputs, at);
  if (pair.trim.outcome !== "trimmed" || pair.unloadedAngleDown === null) return null;
  const statics = staticsAt(inputs, at, pair.unloadedAngleDown);
  const air = airOf(at);
  const perEas = air.trueAirspeed / air.equivalentAirspeed;
  const rule: ElevatorRule =
    elevator === "fixed"
      ? { kind: "fixed", elevator: pair.trim.controls.elevator }
      : { kind: "holds weight share", weightShare: at.weightShare };
  const found = balanceBranches(statics, rule, speeds.from * perEas, speeds.to * perEas, STARTS);
  const counts = Array.from({ length: COUNTS }, (_, i) => {
    const speed = speeds.from + ((speeds.to - speeds.from) * i) / (COUNTS - 1);
    return { airspeed_m_s_EAS: speed, balances: balancesAt(statics, rule, speed * perEas).length };
  });
  return {
    ...{ condition: at.condition, mass: at.mass.name, elevator },
    unloadedBoomAngle_deg: pair.unloadedAngleDown / DEGREE,
    elevatorAtTrim_deg: pair.trim.controls.elevator / DEGREE,
    branches: found.map(({ balances, complete }) => ({
      points: thinned(balances).map((balance) => describe(inputs, at, statics, balance, perEas)),
      complete,
    })),
    folds_m_s_EAS: found.flatMap(foldsOf).map((speed) => speed / perEas),
    counts,
    atCondition: balancesAt(statics, rule, air.trueAirspeed).length,
  };
}

/** Statics of an operating point with the jack at a length. */
export function staticsAt(inputs: HoldInputs, at: Operating, unloadedAngleDown: number): HookedStatics {
  const settings = settingsAt(inputs, at);
  const { length, ownMass, ownCentre } = inputs.boom;
  return new HookedStatics({
    ...{ airloads: settings.airloads, mass: settings.mass.mass, probe: settings.probe, thrust: settings.thrust },
    ...{ density: settings.air.density, soundSpeed: settings.air.soundSpeed },
    boom: {
      ...{ length, ownMass, ownCentre, unloadedAngleDown },
      stiffness: 1 / (1 / at.bending + 1 / at.accumulator),
    },
  });
}

/** Every k-th balance, ends and turning points kept. */
function thinned(balances: readonly Balance[]): Balance[] {
  const stride = Math.max(1, Math.ceil(balances.length / SHOWN));
  const turns = (i: number): boolean =>
    i > 0 &&
    i + 1 < balances.length &&
    (balances[i].speed - balances[i - 1].speed) * (balances[i + 1].speed - balances[i].speed) < 0;
  return balances.filter((_, i) => i % stride === 0 || i === balances.length - 1 || turns(i));
}

function describe(
  inputs: HoldInputs,
  at: Operating,
  statics: HookedStatics,
  balance: Balance,
  perEas: number,
): BalancePoint {
  const state = staticState();
  statics.at(balance.speed, balance.alpha, balance.elevator, balance.angleDown, state);
  const speed = balance.speed / perEas;
  const point: Operating = {
    ...at,
    airspeed: { kind: "EAS", value: speed },
    boomAngleDown: balance.angleDown,
    weightShare: state.weightShare,
  };
  const own = insideStroke(inputs, balance.angleDown);
  const loads = hookLoadsOf(
    inputs,
    own ? point : { ...point, boomAngleDown: at.boomAngleDown },
    state.forward,
    state.down,
    balance.alpha,
  );
  const stability = own ? stabilityOf(inputs, point, balance) : { growing: null, diverging: null };
  return {
    airspeed_m_s_EAS: speed,
    alpha_deg: balance.alpha / DEGREE,
    elevator_deg: balance.elevator / DEGREE,
    boomAngle_deg: balance.angleDown / DEGREE,
    // where the elevator holds it at zero what is left is rounding
    weightShare_1: Math.round(state.weightShare * 1e12) / 1e12 + 0,
    hookLoad_N: loads.hook,
    stallMargin: loads.stallMargin,
    ...stability,
  };
}

/** Whether an angle lies where the mechanism is known. */
function insideStroke(inputs: HoldInputs, angleDown: number): boolean {
  const { from, to } = inputs.sweeps.boomAngle;
  return angleDown >= from && angleDown <= to;
}

/**
 * Growing roots of the pair linearised at a balance: the balance is the trim of its own weight share and boom angle. Where that trim
 * is another one (two angles of attack carry the same lift), nothing is said.
 */
function stabilityOf(
  inputs: HoldInputs,
  point: Operating,
  balance: Balance,
): Pick<BalancePoint, "growing" | "diverging"> {
  const model = new PointModel(inputs, point);
  const { trim } = model.pair;
  const other =
    Math.abs(trim.alpha - balance.alpha) > SAME_TRIM || Math.abs(trim.controls.elevator - balance.elevator) > SAME_TRIM;
  if (!model.trimmed || other) return { growing: null, diverging: null };
  const growing = model.modes().filter(({ real }) => real > 0);
  return { growing: growing.length, diverging: growing.some(({ imag }) => imag === 0) };
}
