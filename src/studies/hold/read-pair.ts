import type { Pair, Quantity } from "../../inputs/index.ts";
import { BugError, InputError, type Issue } from "../../math/errors.ts";
import { monotoneCubic } from "../../math/interpolate/index.ts";
import { type Airspeed, standardAtmosphere } from "../../physics/atmosphere/index.ts";
import { controlsFixed, rollHold } from "../../physics/pilot/index.ts";
import { equivalentSnubberRate, referToTip } from "../../physics/snubber/index.ts";
import { ratioAlongStroke } from "../fit/index.ts";
import { readBoomTip } from "./boom-tip.ts";
import type { HoldCondition, HoldInputs, MassState, Range } from "./inputs.ts";
import { isSubsonic } from "./operating.ts";
import { readAirloads } from "./read-airloads.ts";
import type { ReadGroups } from "./read-groups.ts";
import { stationPoint } from "./station.ts";

/** Opens a view of the pair that notes every value read through it. */
export type OpenReads = () => { readonly pair: Pair; paths(): string[] };

const DEGREE = Math.PI / 180;

/**
 * Pair → physics arguments of `hold`, group by group, with the paths that each group read.
 *
 * @param open opens a view of the pair
 * @param keep ratio along the stroke of another reading, to be used again where nothing behind it has changed
 * @throws {InputError} if the pair says nothing about this study
 */
export function readHoldInputs(
  open: OpenReads,
  keep?: Pick<HoldInputs, "tipPerJack">,
): { inputs: HoldInputs; groups: ReadGroups } {
  const hold = open().pair.studies?.hold;
  if (hold === undefined) {
    throw new InputError([
      { path: "studies.hold", message: "is missing: the study needs its conditions, speed band and criteria" },
    ]);
  }
  const views = {
    aircraft: open(),
    stall: open(),
    travel: open(),
    boom: open(),
    swing: open(),
    ratio: open(),
    law: open(),
    criteria: open(),
    band: open(),
    sweeps: open(),
    upset: open(),
  };
  const names = Object.keys(views.aircraft.pair.carried.massStates);
  const masses = new Map(names.map((name) => [name, open()]));
  const conditions = new Map(hold.conditions.map((name) => [name, open()]));
  const sweeps = readSweeps(views.sweeps.pair);
  const ratio = keep === undefined ? readRatio(open, views.ratio, sweeps.boomAngle) : { ...keep, paths: [] };
  const { tipPerJack } = ratio;
  const jack = readJack(views.swing.pair, tipPerJack);
  const inputs: HoldInputs = {
    carried: {
      ...readAirloads(views.aircraft.pair),
      maximumLift: views.stall.pair.carried.CLmax.si,
      travel: readTravel(views.travel.pair),
      massStates: [...masses].map(([name, view]) => readMass(view.pair, name)),
    },
    boom: readBoom(views.boom.pair, views.swing.pair, jack.accumulator, sweeps.boomAngle),
    tipPerJack,
    jack,
    ...readLaw(views.law.pair),
    conditions: [...conditions].map(([name, view]) => readCondition(view.pair, name)),
    speedBand: readBand(holdOf(views.band.pair)),
    sweeps,
    upset: readUpset(holdOf(views.upset.pair)),
    criteria: readCriteria(holdOf(views.criteria.pair)),
  };
  const paths = <K extends string>(many: ReadonlyMap<K, { paths(): string[] }>): Map<K, string[]> =>
    new Map([...many].map(([name, view]) => [name, view.paths()]));
  const groups: ReadGroups = {
    aircraft: views.aircraft.paths(),
    masses: paths(masses),
    conditions: paths(conditions),
    stall: views.stall.paths(),
    travel: views.travel.paths(),
    boom: views.boom.paths(),
    swing: [...views.swing.paths(), ...ratio.paths],
    ratio: ratio.paths,
    law: views.law.paths(),
    criteria: views.criteria.paths(),
    band: views.band.paths(),
    sweeps: views.sweeps.paths(),
    upset: views.upset.paths(),
  };
  requireSubsonic(inputs);
  return { inputs, groups };
}

/**
 * Refuses airspeeds that are supersonic where they are flown; sweeps are clipped instead.
 *
 * @throws {InputError} naming each airspeed with its Mach number
 */
function requireSubsonic({ conditions, speedBand }: HoldInputs): void {
  const issues: Issue[] = [];
  for (const { name, altitude, isaOffset, airspeed: own } of conditions) {
    const air = standardAtmosphere(altitude, isaOffset);
    const asked: [string, Airspeed][] = [
      [`conditions.${name}.airspeed`, own],
      ["studies.hold.speedBand.from", speedBand.from],
      ["studies.hold.speedBand.to", speedBand.to],
    ];
    for (const [path, speed] of asked) {
      if (isSubsonic(speed, air)) continue;
      const message = `is not below Mach 1 at ${altitude.toFixed(0)} m pressure altitude, ISA ${isaOffset >= 0 ? "+" : ""}${isaOffset} K, of condition ${name}`;
      issues.push({ path, message, value: `${speed.value} ${speed.kind === "Mach" ? "" : "m/s "}${speed.kind}` });
    }
  }
  if (issues.length > 0) throw new InputError(issues);
}

type HoldSettings = NonNullable<NonNullable<Pair["studies"]>["hold"]>;

function holdOf(pair: Pair): HoldSettings {
  const hold = pair.studies?.hold;
  if (hold === undefined) throw new BugError("studies.hold was there a moment ago");
  return hold;
}

function airspeed(value: { readonly kind: Airspeed["kind"]; readonly si: number }): Airspeed {
  return { kind: value.kind, value: value.si };
}

function readTravel({ carried: { controlTravel } }: Pair): HoldInputs["carried"]["travel"] {
  if (controlTravel === undefined) return null;
  const { elevator, aileron, rudder } = controlTravel;
  return { elevator: elevator.si, aileron: aileron.si, rudder: rudder.si };
}

function readMass({ carried }: Pair, name: string): MassState {
  const state = carried.massStates[name];
  const { Ixx, Iyy, Izz, Ixz, Ixy, Iyz } = state.inertia;
  const products = { Ixz: Ixz.si, Ixy: Ixy?.si ?? 0, Iyz: Iyz?.si ?? 0 };
  const properties = { mass: state.mass.si, Ixx: Ixx.si, Iyy: Iyy.si, Izz: Izz.si, ...products };
  return { name, cg: stationPoint(state.cg), properties };
}

function readBoom(
  { mechanism: { boom } }: Pair,
  swing: Pair,
  stiffnessAtJack: number,
  range: Range,
): HoldInputs["boom"] {
  return {
    length: boom.length.si,
    structuralDamping: boom.structuralDamping.si,
    ownMass: boom.ownWeight?.mass.si ?? 0,
    ownCentre: boom.ownWeight?.centreFromHinge.si ?? 0,
    tip: readBoomTip(swing, stiffnessAtJack, range),
  };
}

/** Tip travel per jack travel: of the mechanism when the pair draws it, else of the table. */
function readRatio(
  open: OpenReads,
  view: ReturnType<OpenReads>,
  range: Range,
): { tipPerJack: (angleDown: number) => number; paths: readonly string[] } {
  if (view.pair.mechanism.linkage !== undefined) {
    const { angles, ratios, paths } = ratioAlongStroke(open, range.from, range.to);
    return { tipPerJack: monotoneCubic(angles, ratios), paths };
  }
  const table = view.pair.mechanism.jack?.ratio;
  if (table === undefined) throw new BugError("a pair without linkage passed the checks without a ratio table");
  const { boomAngle, tipPerJack } = table.columns;
  return { tipPerJack: monotoneCubic(boomAngle, tipPerJack), paths: view.paths() };
}

/** Rates at the jack; tip values go back through the ratio at the angle at which they hold. */
function readJack({ mechanism }: Pair, tipPerJack: (angleDown: number) => number): HoldInputs["jack"] {
  const { accumulator, snubber } = mechanism;
  const law = { linear: snubber.C1.si, quadratic: snubber.C2.si };
  const omega = 2 * Math.PI * snubber.frequency.si;
  const rate = snubber.equivalent?.si ?? equivalentSnubberRate(law, snubber.amplitude.si, omega);
  const toJack = (referred: typeof accumulator | typeof snubber, value: number): number =>
    referred.referredTo === "jack" ? value : referToTip(value, 1 / tipPerJack(referred.atBoomAngle.si));
  return { accumulator: toJack(accumulator, accumulator.stiffness.si), snubber: toJack(snubber, rate) };
}

function readLaw({ control }: Pair): Pick<HoldInputs, "law" | "lawName"> {
  const hold = control?.rollHold;
  if (hold === undefined || !hold.engaged) return { law: controlsFixed, lawName: "controls fixed" };
  const law = rollHold({
    rollGain: hold.rollGain.si,
    rateGain: hold.rateGain.si,
    actuatorLag: hold.actuatorLag.si,
    aileronLimit: hold.aileronLimit.si,
  });
  return { law, lawName: "roll hold engaged" };
}

function readCondition(pair: Pair, name: string): HoldCondition {
  const condition = pair.conditions?.[name];
  if (condition === undefined) throw new BugError(`condition ${name} passed the checks but does not exist`);
  return {
    name,
    altitude: condition.altitude.si,
    isaOffset: condition.isaOffset.si,
    airspeed: airspeed(condition.airspeed),
    boomAngleDown: condition.boomAngle.si,
    weightShare: condition.weightShare.si,
    thrust: condition.thrust === "idle" ? pair.carried.thrust.idle.si : condition.thrust.si,
    masses: condition.masses,
  };
}

function readBand({ speedBand }: HoldSettings): HoldInputs["speedBand"] {
  return { from: airspeed(speedBand.from), to: airspeed(speedBand.to) };
}

/** Sweep ranges; what the pair leaves out gets a range wide enough for any pair of this kind. */
function readSweeps(pair: Pair): HoldInputs["sweeps"] {
  const hold = holdOf(pair);
  const given = hold.sweeps ?? {};
  const range = (own: { readonly from: Quantity; readonly to: Quantity } | undefined, fallback: Range): Range =>
    own === undefined ? fallback : { from: own.from.si, to: own.to.si };
  const { stowed, extended } = pair.mechanism.boom.angle;
  const speeds = given.airspeed ?? hold.speedBand;
  return {
    airspeed: { from: airspeed(speeds.from), to: airspeed(speeds.to) },
    boomAngle: range(given.boomAngle, { from: stowed.si, to: extended.si }),
    altitude: range(given.altitude, { from: 0, to: 6000 }),
    weightShare: range(given.weightShare, { from: 0, to: 0.4 }),
    snubber: range(given.snubber, { from: 100, to: 1e5 }),
    bending: range(given.bending, { from: 5e3, to: 5e6 }),
    accumulator: range(given.accumulator, { from: 1e3, to: 1e6 }),
  };
}

function readUpset({ upset: own }: HoldSettings): HoldInputs["upset"] {
  return {
    pitch: own?.pitch.si ?? DEGREE,
    pitchLimit: own?.pitchLimit.si ?? 10 * DEGREE,
    roll: own?.roll.si ?? 2 * DEGREE,
    rollLimit: own?.rollLimit.si ?? 30 * DEGREE,
  };
}

function readCriteria({ criteria }: HoldSettings): HoldInputs["criteria"] {
  const { rigidBodyDamping, structuralDamping, timeToDouble } = criteria;
  const own = (quantity: Quantity) => ({
    value: quantity.si,
    source: quantity.provenance.source ?? "project criterion",
  });
  return {
    rigidBodyDamping: own(rigidBodyDamping),
    structuralDamping: own(structuralDamping),
    timeToDouble: own(timeToDouble),
  };
}
