import { STANDARD_GRAVITY } from "../../physics/bodies/index.ts";
import { loadFactorStep, SEPARATION_COLUMNS, separationColumn } from "../../physics/separation/index.ts";
import { EMERGENCY, NORMAL } from "./cases.ts";
import { EVERY, type JudgedRun } from "./run-case.ts";
import type { ReleaseInputs } from "./settings.ts";
import type { CarrierAnswer, HangUpState, PathTime, ReleaseCaseResult, StubResult } from "./types.ts";

const SIZE = SEPARATION_COLUMNS.length;
const DEGREE = Math.PI / 180;
/** Rows between points of the carrier's course. */
const STRIDE = 5;
const [VZ, PITCH] = (["carrierVz", "carrierPitch"] as const).map(separationColumn);

/** What the carrier feels as the weight leaves it in the normal release. */
export function carrierAnswer(
  { carrier }: ReleaseInputs,
  found: ReleaseCaseResult,
  { built, run }: JudgedRun,
): CarrierAnswer {
  const { mass, carrierLoadFactor_1, carrierPitch_deg } = found;
  const nothing = { closedForm_1: null, loadFactor_1: null, pitch_deg: null, trimMoment_N_m: null };
  if (carrier === null || !built.rigid) {
    return { mass, ...nothing, time_s: [], loadFactorCourse_1: [], pitchCourse_deg: [] };
  }
  const carried = built.at.mass.properties.mass;
  const share = (0 - built.holdingForce[2]) / (carried * STANDARD_GRAVITY);
  const [hx, , hz] = carrier.hinge;
  const { hingeLoad } = built;
  const first = Math.round(built.settle / EVERY);
  const rows: number[] = [];
  for (let row = first + STRIDE; row < run.rows; row += STRIDE) rows.push(row);
  const value = (row: number, column: number): number => run.values[row * SIZE + column];
  return {
    mass,
    closedForm_1: loadFactorStep(carried, carrier.properties.mass, share),
    loadFactor_1: carrierLoadFactor_1,
    pitch_deg: carrierPitch_deg,
    trimMoment_N_m: hingeLoad[4] + hz * hingeLoad[0] - hx * hingeLoad[2],
    time_s: rows.map((row) => row * EVERY - built.settle),
    loadFactorCourse_1: rows.map(
      (row) => -(value(row, VZ) - value(row - STRIDE, VZ)) / (STRIDE * EVERY * STANDARD_GRAVITY),
    ),
    pitchCourse_deg: rows.map((row) => value(row, PITCH) / DEGREE),
  };
}

/** Length, clearance and height of what a cut leaves; the clearance is that of the whole probe, as it is drawn. */
export function stubResult(inputs: ReleaseInputs, cases: readonly ReleaseCaseResult[]): StubResult | null {
  const { stub, bodies, settings } = inputs;
  if (stub === null) return null;
  const cut = cases.filter(({ name, clearance_m }) => name === EMERGENCY && clearance_m !== null);
  let lowest = -Infinity;
  for (const { owner, mesh } of bodies?.at(settings.boomAngles[0].si, new Map()) ?? []) {
    if (owner !== "carried") continue;
    for (let i = 2; i < mesh.vertices.length; i += 3) lowest = Math.max(lowest, mesh.vertices[i]);
  }
  return {
    length_m: stub.length,
    clearance_m: cut.length === 0 ? null : Math.min(...cut.map(({ clearance_m }) => clearance_m!)),
    aboveLowest_m: Number.isFinite(lowest) ? lowest - stub.end[2] : null,
  };
}

/** Times of the ways to let go: as they end free, and clear of everything by the criterion for good. */
export function pathTimes({ settings }: ReleaseInputs, cases: readonly ReleaseCaseResult[]): PathTime[] {
  const clearance = settings.criteria.clearance.si;
  const names = [NORMAL, EMERGENCY, ...Object.keys(settings.cases).filter((name) => isWay(settings.cases[name]))];
  const first = settings.boomAngles[0].si / DEGREE;
  return cases
    .filter(({ name, boomAngle_deg }) => names.includes(name) && boomAngle_deg === first)
    .map(({ name, mass, noseAt_s, leftAt_s, outcome, course }): PathTime => {
      const last = course.distance_m.findLastIndex((distance) => distance !== null && distance < clearance);
      const from = course.distance_m.findIndex((distance) => distance !== null);
      const after = course.time_s[Math.max(from, last + 1)];
      const clear = outcome === "clean" && from >= 0 ? (after ?? null) : null;
      return { path: name, mass, command_s: noseAt_s, free_s: leftAt_s, clear_s: clear, outcome };
    });
}

/** A case that is another way to let go: another end of the nose or a pin that fails. */
function isWay(change: ReleaseInputs["settings"]["cases"][string]): boolean {
  return change.nose !== undefined || change.stuckPin !== undefined || change.latePin !== undefined;
}

/** Number of ways out that end clean. */
export const cleanWays = ({ waysOut }: HangUpState): number =>
  waysOut.filter(({ outcome }) => outcome === "clean").length;
