import type { Pair } from "../../inputs/index.ts";
import { BugError, InputError } from "../../math/errors.ts";
import { gridFromRows, MultilinearGrid } from "../../math/interpolate/index.ts";
import type { ProximityGrid } from "../../physics/separation/index.ts";
import { type PosedBodies, posedBodies } from "../fit/index.ts";
import { type HoldCondition, type HoldInputs, type OpenReads, type ReadGroups, readHoldInputs } from "../hold/index.ts";
import { type LatchedInputs, readLatched } from "../hold-attachment/index.ts";
import { type CarrierBody, readCarrierBody } from "../hold-carrier/index.ts";
import type { ReleaseScene } from "./scene.ts";

export type ReleaseSettings = NonNullable<NonNullable<Pair["studies"]>["release"]>;

/** Everything that the study needs of a pair, SI, with the pair paths behind each part. */
export interface ReleaseInputs {
  readonly hold: HoldInputs;
  readonly groups: ReadGroups;
  readonly condition: HoldCondition;
  readonly settings: ReleaseSettings;
  readonly bodies: PosedBodies | null;
  readonly latched: LatchedInputs | null;
  readonly carrier: CarrierBody | null;
  readonly proximity: ProximityGrid | null;
  /** Axis of the bore at rest, out of its mouth, carrier axes; depth of the bore [m]. */
  readonly bore: { readonly axis: readonly [number, number, number]; readonly depth: number };
  readonly latch: { readonly stiffness: number; readonly damping: number; readonly side: number };
  /** Boom hinge and c.g. of each mass, datum axes [m]. */
  readonly hinge: readonly [number, number, number];
  /** Surfaces that were prepared, by boom angle and mass; filled as they are asked for. */
  readonly scenes: Map<string, ReleaseScene>;
  /** What a cut leaves: end of the stub in the carried aircraft's datum axes [m]; `null` where the pair says nothing of it. */
  readonly stub: { readonly length: number; readonly end: readonly [number, number, number] } | null;
  /** Pair paths of mechanism, carrier, bodies and pins; those of `hold` stand in `groups`. */
  readonly paths: readonly string[];
}

const AXES = ["aft", "right", "below", "alpha"] as const;
const COEFFICIENTS = ["CL", "CD", "CY", "Cl", "Cm", "Cn"] as const;

/**
 * Pair → physics arguments of `release`.
 *
 * @returns `null` when the pair has no `studies.release`
 * @throws {InputError} naming what the pair lacks
 */
export function readRelease(open: OpenReads): ReleaseInputs | null {
  const own = open();
  const settings = own.pair.studies?.release;
  if (settings === undefined) return null;
  const { inputs: hold, groups } = readHoldInputs(open);
  const condition = hold.conditions.find(({ name }) => name === settings.condition);
  if (condition === undefined) {
    throw new InputError([
      {
        path: "studies.release.condition",
        message: `"${settings.condition}" is not among the conditions of studies.hold`,
        allowed: hold.conditions.map(({ name }) => name).join(", "),
      },
    ]);
  }
  const [socketView, carrierView, nearView] = [open(), open(), open()];
  const { socket, latch } = socketView.pair.mechanism;
  const { funnel } = socket ?? {};
  if (funnel === undefined || latch === undefined) {
    const what = [
      ...(funnel === undefined ? ["mechanism.socket.funnel"] : []),
      ...(latch === undefined ? ["mechanism.latch"] : []),
    ];
    throw new InputError([
      { path: "studies.release", message: `needs ${what.join(" and ")}, which the pair leaves out` },
    ]);
  }
  const mouth = funnel.mouth;
  // stations run aft, right and up
  const axis = unit([-mouth.FS.si, mouth.BL.si, -mouth.WL.si]);
  const { hinge } = socketView.pair.mechanism.boom;
  const [bodies, latched] = [posedBodies(open), readLatched(open)];
  return {
    ...{ hold, groups, condition, settings },
    ...{ bodies, latched },
    carrier: readCarrierBody(carrierView.pair),
    proximity: readProximity(nearView.pair),
    bore: { axis, depth: funnel.boreDepth.si },
    latch: { stiffness: latch.stiffness.si, damping: latch.damping.si, side: latch.sideStiffness.si },
    hinge: [-hinge.FS.si, hinge.BL.si, -hinge.WL.si],
    scenes: new Map(),
    stub: stubOf(socketView.pair),
    paths: pathsOf({ carried: [socketView, carrierView, nearView], bodies, latched }),
  };
}

type View = ReturnType<OpenReads>;

/** Paths of everything that a separation rests on beside `hold`. */
function pathsOf(read: {
  readonly carried: readonly View[];
  readonly bodies: PosedBodies | null;
  readonly latched: LatchedInputs | null;
}): string[] {
  const views = read.carried.flatMap((view) => view.paths());
  return [...new Set([...views, ...(read.bodies?.paths ?? []), ...(read.latched?.paths ?? [])])];
}

/** End of what stays of the probe: from its tip back along its axis. */
function stubOf({ carried, mechanism, studies }: Pair): ReleaseInputs["stub"] {
  const probe = mechanism.socket?.probe;
  const severance = studies?.release?.severance;
  if (probe === undefined || severance === undefined) return null;
  const { FS, BL, WL } = carried.points.probeTip;
  const axis = unit([-probe.axis.FS.si, probe.axis.BL.si, -probe.axis.WL.si]);
  const back = probe.stemLength.si - severance.stub.si;
  const end = [-FS.si - back * axis[0], BL.si - back * axis[1], -WL.si - back * axis[2]] as const;
  return { length: severance.stub.si, end };
}

function unit([x, y, z]: readonly [number, number, number]): [number, number, number] {
  const size = Math.hypot(x, y, z);
  return [x / size, y / size, z / size];
}

/** Increments near the carrier as a grid; `null` where the pair gives none. The checks have seen to it that the grid is full. */
function readProximity({ carried, studies }: Pair): ProximityGrid | null {
  const table = studies?.release?.proximity;
  if (table === undefined) return null;
  const { columns } = table;
  const rows = gridFromRows(AXES.map((name) => columns[name]));
  if (!rows.ok) throw new BugError("the grid of increments near the carrier has gaps");
  const values = COEFFICIENTS.map((name) => Float64Array.from(rows.order, (row) => columns[name][row]));
  const { area, span, chord } = carried.reference;
  return { grid: new MultilinearGrid(rows.axes, values), area: area.si, span: span.si, chord: chord.si };
}
