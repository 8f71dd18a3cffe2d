import { createEigenWorkspace, eigenvalues } from "../../math/eigen/index.ts";
import { BugError } from "../../math/errors.ts";
import { carrierAlone } from "../../physics/bodies/index.ts";
import { type FindingDraft, findingMaker } from "../finding/index.ts";
import {
  airOf,
  type HoldInputs,
  type HoldPartContext,
  type HoldPartOutcome,
  type ModePlane,
  operatingPoint,
  restsOf,
} from "../hold/index.ts";
import { carrierCase, flowAt, modelsOf } from "./cases.ts";
import { pointFindings } from "./findings.ts";
import { gustPenetration } from "./gust.ts";
import { carrierBalance, rigidFor } from "./models.ts";
import { type CarrierBody, readCarrierBody, readFlow } from "./read-carrier.ts";
import type { CarrierAlone, CarrierPoint, CarrierResult } from "./types.ts";

const OWN_MOTION =
  "The carrier moves as a rigid body with linear rates and fixed controls: no crew, no altitude or attitude hold, no flexible wing; its thrust is constant and acts through its c.g., its lift and pitching moment balance the trim with the hook load.";
const FLOW =
  "The carrier's flow is that of the table at the carried aircraft's c.g.: it moves with the carrier, does not change with the carrier's lift or sideslip, nor over the size of the carried aircraft, nor aft and sideways.";
const GUST =
  "A vertical gust is frozen, the same over the span, quasi-steady at both aircraft, in otherwise undisturbed air; the carrier does not shield the carried aircraft.";
const BASE =
  "Modes, sweeps, maps and limits of the base have a steady carrier in undisturbed air; what the carrier changes stands in its own part.";

/**
 * The carrier in the motion of the hooked pair: its own rigid response, its flow with the gradients along the stroke, and one
 * vertical gust that reaches both aircraft.
 *
 * @returns `null` when the pair gives neither the carrier's dynamics nor its flow
 * @source `physics/bodies` eq. 20–25, `physics/flowfield`, `physics/gust-penetration`
 * @verified run.test.ts
 */
export function runCarrier(context: HoldPartContext): HoldPartOutcome<CarrierResult> | null {
  const { inputs, groups, base } = context;
  const views = { dynamics: context.reads(), flow: context.reads() };
  const body = readCarrierBody(views.dynamics.pair);
  const table = readFlow(views.flow.pair);
  if (body === null && table === null) return null;
  const read = {
    dynamics: body === null ? [] : views.dynamics.paths(),
    flow: table === null ? [] : views.flow.paths(),
  };
  const make = findingMaker(context.findings);
  const points: CarrierPoint[] = [];
  const alone: CarrierAlone[] = [];
  const drafts: FindingDraft[] = [];
  for (const condition of inputs.conditions) {
    for (const mass of condition.masses) {
      context.step(`${condition.name}, ${mass}`);
      const at = operatingPoint(inputs, condition, mass);
      const steady = base.points.find((each) => each.condition === condition.name && each.mass === mass);
      if (steady === undefined) throw new BugError(`hold has no point at ${condition.name}, ${mass}`);
      if (steady.trim === null) continue;
      const point: CarrierPoint = {
        ...{ pointId: steady.id, condition: condition.name, mass },
        flow: flowAt(inputs, at, body, table),
        cases: modelsOf(body, table).map(([model, choice]) => carrierCase(inputs, at, model, choice, steady.modes)),
        gust: body === null ? null : gustPenetration(inputs, at, body),
      };
      points.push(point);
      const { trim, judged } = restsOf(groups, condition.name, [mass], false);
      drafts.push(
        ...pointFindings(inputs, point, { ...{ trim, judged }, ...read, travel: groups.travel, ratio: groups.ratio }),
      );
    }
    if (body !== null) alone.push(ownModes(inputs, condition.name, body));
  }
  return {
    result: { alone, points },
    findings: drafts.map(make),
    limits: [],
    assumptions: [BASE, ...(body === null ? [] : [OWN_MOTION, GUST]), ...(table === null ? [] : [FLOW])],
    notAnalysed: [
      ...(body === null ? ["The carrier's own motion: the pair gives no carrier.dynamics."] : []),
      ...(table === null ? ["The flow of the carrier at the carried aircraft: the pair gives no carrier.flow."] : []),
      "The carrier's crew or autopilot, its flexible wing, propeller slipstream and jets at the carried aircraft.",
    ],
    answers: body !== null && table !== null ? ["carrier"] : [],
  };
}

/** Modes of the carrier flying by itself at a condition, nothing on its boom. */
function ownModes(inputs: HoldInputs, condition: string, body: CarrierBody): CarrierAlone {
  const own = inputs.conditions.find(({ name }) => name === condition)!;
  const air = airOf(operatingPoint(inputs, own, own.masses[0]));
  const nothing = new Float64Array(6);
  const { matrix, size } = carrierAlone(rigidFor(body, air, nothing), nothing);
  const modes = PLANES.flatMap(({ plane, states }) => named(plane, rootsOf(matrix, size, states)));
  const { liftCoefficient, thrust } = carrierBalance(body, air, nothing);
  return { condition, liftCoefficient, thrust_N: thrust, modes };
}

/** States of `carrierAlone` by plane; the carrier is taken to be symmetric, products of inertia across it are left out. */
const PLANES = [
  { plane: "longitudinal", states: [1, 3, 5, 7] },
  { plane: "lateral", states: [0, 2, 4, 6, 8] },
] as const;

/** Roots of one plane, conjugate pairs once, heading left out. */
function rootsOf(matrix: Float64Array, size: number, states: readonly number[]): [number, number][] {
  const n = states.length;
  const part = Float64Array.from({ length: n * n }, (_, i) => matrix[states[Math.floor(i / n)] * size + states[i % n]]);
  const [re, im] = [new Float64Array(n), new Float64Array(n)];
  const outcome = eigenvalues(part, n, createEigenWorkspace(n), re, im);
  if (outcome !== "converged") throw new BugError(`eigenvalues of the carrier: ${outcome}`);
  const roots = Array.from(re, (x, i): [number, number] => [x, im[i]]).filter(
    ([x, y]) => y >= 0 && Math.hypot(x, y) > NEUTRAL,
  );
  return roots.sort((a, b) => Math.hypot(...a) - Math.hypot(...b));
}

/** Roots below this are heading [1/s]. */
const NEUTRAL = 1e-6;

/** Textbook names where the plane has its textbook roots: two oscillations, or one and two real roots. */
function named(plane: ModePlane, roots: readonly [number, number][]): CarrierAlone["modes"] {
  const [pairs, reals] = [roots.filter(([, y]) => y > 0), roots.filter(([, y]) => y === 0)];
  const usual = plane === "longitudinal" ? pairs.length === 2 : pairs.length === 1 && reals.length === 2;
  const name = (root: readonly [number, number]): string => {
    const first = (root[1] > 0 ? pairs : reals)[0] === root;
    if (!usual) return root[1] > 0 ? "oscillation" : "real root";
    if (plane === "longitudinal") return first ? "phugoid" : "short period";
    return root[1] > 0 ? "Dutch roll" : first ? "spiral" : "roll";
  };
  return roots.map((root) => ({
    ...{ name: name(root), plane, real_1_s: root[0], imag_rad_s: root[1], frequency_Hz: root[1] / (2 * Math.PI) },
    dampingRatio: -root[0] / Math.hypot(...root),
  }));
}
