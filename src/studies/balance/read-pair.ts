import type { Pair, Quantity } from "../../inputs/index.ts";
import { DomainError, InputError, type Issue } from "../../math/errors.ts";
import { dynamicPressure, equivalentAirspeed, standardAtmosphere } from "../../physics/atmosphere/index.ts";
import { attitudeAlongStroke } from "../fit/index.ts";
import type { BalanceInputs, BoomGeometry, CarriedMass, Item, Leg, SourcedValue, Tank } from "./inputs.ts";

/** Opens a view of the pair that notes every value read through it. */
export type OpenReads = () => { readonly pair: Pair; paths(): string[] };

/** Pair paths by what they feed. */
export interface ReadGroups {
  /** Masses, tanks, chord, boom, loadings of the carried aircraft: all that places the c.g. */
  readonly masses: readonly string[];
  readonly mission: readonly string[];
  readonly envelope: readonly string[];
  readonly largest: readonly string[];
  readonly ground: readonly string[];
  readonly rotation: readonly string[];
  readonly trim: readonly string[];
  readonly criteria: readonly string[];
}

type Weights = NonNullable<Pair["carrier"]["weights"]>;
type Settings = NonNullable<NonNullable<Pair["studies"]>["balance"]>;
interface Point {
  readonly FS: Quantity;
  readonly BL: Quantity;
  readonly WL: Quantity;
}

/**
 * Pair → physics arguments of `balance`, group by group, with the paths that each group read.
 *
 * @throws {InputError} naming what the pair lacks
 */
export function readBalanceInputs(open: OpenReads): { inputs: BalanceInputs; groups: ReadGroups } {
  const views = {
    ...{ masses: open(), mission: open(), envelope: open(), largest: open() },
    ...{ ground: open(), rotation: open(), trim: open(), criteria: open() },
  };
  requireParts(views.mission.pair);
  const boom = readBoom(views.masses.pair, open);
  const { envelope } = weightsOf(views.envelope.pair);
  const { largest } = weightsOf(views.largest.pair);
  const inputs: BalanceInputs = {
    ...readMasses(views.masses.pair),
    ...readTanks(views.masses.pair),
    boom: boom.geometry,
    carried: readCarried(views.masses.pair),
    envelope: { masses: envelope.columns.mass, forward: envelope.columns.forward, aft: envelope.columns.aft },
    largest: { takeOff: largest.takeOff.si, landing: largest.landing.si, zeroFuel: largest.zeroFuel.si },
    legs: settingsOf(views.mission.pair).mission.map(readLeg),
    stuck: settingsOf(views.mission.pair).stuck?.map(({ si }) => si) ?? [boom.geometry.extended],
    ground: readGround(views.ground.pair, views.rotation.pair),
    ...readTrim(views.trim.pair),
    criteria: readCriteria(settingsOf(views.criteria.pair)),
  };
  return {
    inputs,
    groups: {
      masses: [...views.masses.paths(), ...boom.paths],
      mission: views.mission.paths(),
      envelope: views.envelope.paths(),
      largest: views.largest.paths(),
      ground: views.ground.paths(),
      rotation: views.rotation.paths(),
      trim: views.trim.paths(),
      criteria: views.criteria.paths(),
    },
  };
}

function requireParts(pair: Pair): void {
  const issues: Issue[] = [];
  if (pair.studies?.balance === undefined) {
    issues.push({ path: "studies.balance", message: "is missing: the study needs its mission, fuel and criteria" });
  }
  if (pair.carrier.weights === undefined) {
    issues.push({ path: "carrier.weights", message: "is missing: the study needs masses, tanks and c.g. limits" });
  }
  if (issues.length > 0) throw new InputError(issues);
}

const weightsOf = (pair: Pair): Weights => pair.carrier.weights as Weights;
const settingsOf = (pair: Pair): Settings => pair.studies?.balance as Settings;
const place = ({ FS, BL, WL }: Point) => ({ FS: FS.si, BL: BL.si, WL: WL.si });

function readMasses(pair: Pair): Pick<BalanceInputs, "chord" | "items" | "kitBoom"> {
  const { empty, kit, crew, payload, mac } = weightsOf(pair);
  const item = (name: string, kind: Item["kind"], given: { mass: Quantity; at: Point }): Item => {
    return { name, kind, mass: given.mass.si, ...place(given.at) };
  };
  const all = (kind: Item["kind"], given: Weights["crew"]) =>
    Object.entries(given ?? {}).map(([name, one]) => item(name, kind, one));
  return {
    chord: { leadingEdge: mac.leadingEdge.si, length: mac.length.si },
    items: [
      item("empty carrier", "empty", empty),
      ...(kit === undefined ? [] : [item("kit of the mechanism", "kit", kit)]),
      ...all("crew", crew),
      ...all("payload", payload),
    ],
    kitBoom: kit?.boom === undefined ? null : { mass: kit.boom.mass.si, centreFromHinge: kit.boom.centreFromHinge.si },
  };
}

function readTanks(pair: Pair): Pick<BalanceInputs, "tanks" | "burnOrder"> {
  const { tanks, burnOrder } = weightsOf(pair);
  const { fuel } = settingsOf(pair);
  const names = Object.keys(tanks);
  return {
    tanks: names.map((name): Tank => {
      const { capacity, at, stations } = tanks[name]!;
      const own = { name, capacity: capacity.si, start: fuel[name]?.si ?? 0 };
      if (stations !== undefined) return { ...own, ...stations.columns };
      const { FS, BL, WL } = place(at as Point);
      return { ...own, contents: [0], FS: [FS], BL: [BL], WL: [WL] };
    }),
    burnOrder: burnOrder.map((group) => group.map((name) => names.indexOf(name))),
  };
}

/** Boom with the attitude that its yoke gives the carried aircraft, where the mechanism is drawn. */
function readBoom(pair: Pair, open: OpenReads): { geometry: BoomGeometry; paths: readonly string[] } {
  const { boom, linkage } = pair.mechanism;
  const { FS, BL, WL } = place(boom.hinge);
  const own = { length: boom.length.si, stowed: boom.angle.stowed.si, extended: boom.angle.extended.si };
  const yoke = linkage?.attached === "three point" ? attitudeAlongStroke(open) : null;
  const pitch = yoke === null ? null : { angles: yoke.angles, pitches: yoke.pitches };
  return { geometry: { hinge: [FS, BL, WL], ...own, pitch }, paths: yoke?.paths ?? [] };
}

function readCarried(pair: Pair): BalanceInputs["carried"] {
  const { massStates, points } = pair.carried;
  const probe = place(points.probeTip);
  const loading = (name: string): CarriedMass => {
    const { mass, cg } = massStates[name]!;
    const at = place(cg);
    return { name, mass: mass.si, fromProbe: [at.FS - probe.FS, at.BL - probe.BL, at.WL - probe.WL] };
  };
  const { out, back, light } = settingsOf(pair).carried;
  return { out: loading(out), back: loading(back), light: loading(light) };
}

function readLeg(leg: Settings["mission"][number]): Leg {
  return {
    ...{ name: leg.name, time: leg.time.si, fuel: leg.fuel.si, aircraft: leg.aircraft },
    ...{ held: leg.held ?? "three point", share: leg.weightShare?.si ?? 1, emptyBoom: leg.boom ?? "stowed" },
  };
}

function readGround(pair: Pair, rotation: Pair): BalanceInputs["ground"] {
  const { ground } = pair.carrier;
  if (ground === undefined) return null;
  return {
    ...{ noseFS: ground.noseWheel.FS.si, mainFS: ground.mainWheels.FS.si, mainBL: ground.mainWheels.BL.si },
    ...{ line: ground.line.si, rotation: rotation.carrier.ground?.rotation?.si ?? null },
  };
}

function readTrim(pair: Pair): Pick<BalanceInputs, "condition" | "air"> {
  const name = settingsOf(pair).condition;
  const { altitude, isaOffset, airspeed } = pair.conditions[name]!;
  const atmosphere = standardAtmosphere(altitude.si, isaOffset.si);
  const speed = { kind: airspeed.kind, value: airspeed.si };
  const pressure = subsonic(`conditions.${name}.airspeed`, airspeed.text, () => dynamicPressure(speed, atmosphere));
  const condition = { name, altitude: altitude.si, equivalentAirspeed: equivalentAirspeed(speed, atmosphere) };
  const { dynamics } = pair.carrier;
  if (dynamics === undefined) return { condition, air: null };
  const { lift, pitch } = dynamics.derivatives;
  const isKnown = lift.CLelevator !== undefined && pitch.Cmelevator !== undefined;
  return {
    condition,
    air: {
      ...{ area: dynamics.reference.area.si, chord: dynamics.reference.chord.si, referenceFS: dynamics.cg.FS.si },
      ...{ dynamicPressure: pressure, CLalpha: lift.CLalpha.si, Cmalpha: pitch.Cmalpha.si },
      elevator: isKnown ? { CL: lift.CLelevator?.si ?? 0, Cm: pitch.Cmelevator?.si ?? 0 } : null,
    },
  };
}

/** An airspeed that is supersonic at its altitude is the user's to mend. */
function subsonic(path: string, text: string, read: () => number): number {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    throw new InputError([{ path, message: "is not below Mach 1 at the altitude of its condition", value: text }]);
  }
}

function readCriteria({ criteria }: Settings): BalanceInputs["criteria"] {
  const sourced = ({ si, provenance }: Quantity): SourcedValue => {
    return { value: si, source: provenance.source ?? "project criterion" };
  };
  return {
    margin: sourced(criteria.margin),
    lateral: sourced(criteria.lateral),
    loadFactorStep: sourced(criteria.loadFactorStep),
    tipBack: sourced(criteria.tipBack),
    noseShare: { from: sourced(criteria.noseShare.from), to: sourced(criteria.noseShare.to) },
    elevatorStep: criteria.elevatorStep === undefined ? null : sourced(criteria.elevatorStep),
  };
}
