import type { FindingContext } from "../finding/index.ts";
import { buildBodies, describePart } from "./bodies.ts";
import { groupClearance, stackOf, standingFractions, strokeClearances, zoneResult } from "./clearance.ts";
import { fitFindings } from "./findings.ts";
import { DEGREE } from "./frames.ts";
import { groupMaps } from "./gear-map.ts";
import { groundResult } from "./ground.ts";
import type { FitInputs } from "./inputs.ts";
import { fitLimits } from "./limits.ts";
import { loadingResult } from "./loading.ts";
import { buildMechanism } from "./mechanism.ts";
import type { Scene } from "./motion.ts";
import { choosePairs, type PairChoice } from "./pairs.ts";
import { type OpenReads, type ReadGroups, readFitInputs } from "./read-pair.ts";
import { sceneOf } from "./scene.ts";
import { posePicture } from "./silhouettes.ts";
import { strokeEvents, strokePoints, traceMechanism } from "./stroke.ts";
import { assumptions, NOT_ANALYSED } from "./texts.ts";
import { toleranceResults, withAttitudeError } from "./tolerance.ts";
import type { ComputedFit, FitResult, StrokePoint } from "./types.ts";

export interface FitContext {
  readonly variant: string;
  readonly reads: OpenReads;
  readonly hash: (paths: readonly string[]) => string;
  readonly version: string;
  /** Called between parts of the work with what comes next. */
  readonly progress?: (part: string, done: number, of: number) => void;
}

/**
 * The study `fit`: does every pose clear, on the ground and in the air, and when may gear and doors move?
 *
 * Deterministic; only the sampled tolerances use chance, with the seed that their findings name.
 *
 * @throws {InputError} naming what the pair lacks or what of it cannot be
 */
export function runFit(context: FitContext): FitResult {
  const { inputs, groups } = readFitInputs(context.reads);
  const computed = computeFit(inputs, context.variant, context.progress);
  return judged(inputs, computed, groups, context);
}

/** The study on plain physics arguments. */
export function computeFit(inputs: FitInputs, variant: string, progress?: FitContext["progress"]): ComputedFit {
  const step = (part: string, done: number): void => progress?.(part, done, 7);
  step("linkage", 0);
  const bodies = buildBodies(inputs);
  const mechanism = buildMechanism(inputs);
  const traced = traceMechanism(inputs, mechanism);
  step("tolerances", 1);
  const bare = strokePoints(inputs, mechanism, traced);
  const stroke = withAttitudeError(inputs, mechanism, traced, bare);
  const tolerance = toleranceResults(inputs, mechanism, traced, bare);
  const common = {
    study: "fit" as const,
    variant,
    parts: bodies.parts.map(describePart),
    strokeOutcome: traced.stroke.outcome,
    ...{ stroke, strokeEvents: strokeEvents(traced), tolerance, stack: stackOf(inputs) },
    gear: bodies.movers.map(({ body, group, fractions, angles }) => ({
      ...{ body, group, fractions: [...fractions], angles_deg: Array.from(angles, (angle) => angle / DEGREE) },
    })),
    assumptions: assumptions(inputs, null),
    notAnalysed: NOT_ANALYSED,
  };
  if (traced.poses.length < 2) return { ...common, ...NOTHING };
  const drawn = sceneOf(inputs, bodies, mechanism, traced);
  const choice = choosePairs(inputs, drawn, mechanism.joined);
  const scene: Scene = { ...drawn, standsAt: standingFractions(drawn, choice.pairs) };
  const last = traced.angles.length - 1;
  const shares = traced.angles.map((_, i) => i / last);
  step("clearances along the stroke", 2);
  const along = choice.pairs.filter(({ a, b }) => a.drivenBy === "stroke" || b.drivenBy === "stroke");
  const clearances = along.flatMap((pair) => strokeClearances(inputs, scene, pair, shares));
  step("gear and doors", 3);
  const gearClearances = withGear(choice).map(({ pair, group }) => groupClearance(inputs, pair, group));
  step("maps", 4);
  const maps = bodies.groups.flatMap((group) => groupMaps(inputs, scene, choice.pairs, group));
  step("ground", 5);
  const middle = Math.round(0.5 * last) / last;
  const { ground, loading } = inputs;
  const stuck = [
    { name: `stuck at ${(scene.angleAt(middle) / DEGREE).toFixed(0)}°`, u: middle },
    { name: "stuck extended", u: 1 },
  ];
  const poses = [
    { name: "stowed", u: 0, empty: false },
    ...stuck.map((pose) => ({ ...pose, empty: false })),
    ...stuck.map(({ name, u }) => ({ name: `${name}, empty`, u, empty: true })),
  ];
  step("zones and pictures", 6);
  return {
    ...common,
    assumptions: assumptions(inputs, scene),
    ...{ clearances, gearClearances, maps, leftOut: choice.leftOut },
    groups: [...scene.standsAt].map(([group, standsAt_1]) => ({ group, standsAt_1 })),
    ground: ground === null || scene.parts.length === 0 ? null : groundResult(ground, scene, shares, poses),
    loading: ground === null || loading === null ? null : loadingResult(inputs, ground, loading, scene),
    zones: choice.zones.filter(({ a }) => a.drivenBy === "stroke").map((pair) => zoneResult(scene, pair)),
    pictures: [
      posePicture(scene, "stowed", 0, sectionOf(stroke[0])),
      posePicture(scene, "mid", middle, sectionOf(stroke[Math.round(middle * last)])),
      posePicture(scene, "extended", 1, sectionOf(stroke[last])),
    ],
  };
}

const NOTHING = {
  groups: [],
  ...{
    clearances: [],
    gearClearances: [],
    leftOut: [],
    maps: [],
    ground: null,
    loading: null,
    zones: [],
    pictures: [],
  },
};

/** The section is cut at the c.g. of the first mass state, or at the socket. */
function sectionOf(point: StrokePoint): number {
  return point.cg[0]?.at_m[0] ?? point.socket_m[0];
}

/** Pairs in which one group moves against what stands still while the boom is stowed. */
function withGear(choice: PairChoice): { pair: PairChoice["pairs"][number]; group: string }[] {
  return choice.pairs.flatMap((pair) => {
    const groups = [pair.a, pair.b].filter((one) => one.drivenBy === "group").map((one) => one.part.group);
    const group = groups[0];
    return group === null || group === undefined || groups.some((one) => one !== group) ? [] : [{ pair, group }];
  });
}

function judged(inputs: FitInputs, computed: ComputedFit, groups: ReadGroups, context: FitContext): FitResult {
  const findings: FindingContext = { study: "fit", version: context.version, seed: null, hash: context.hash };
  const found = fitFindings(inputs, computed, groups, findings);
  return { ...computed, findings: found, limits: fitLimits(inputs, computed) };
}
