import { type Criterion, type Finding, type FindingDraft, findingMaker, type Limit } from "../finding/index.ts";
import {
  dampingCriterion,
  doublingCriterion,
  type HoldCondition,
  type HoldPartContext,
  isSymmetric,
  type Mode,
  type ModePlane,
  meetsCriteria,
  restsOf,
} from "../hold/index.ts";
import type { AttachmentInputs } from "./read-settings.ts";
import type { AttachmentResult, AttachmentState, LimitCycle, RetractRule, StatePoint } from "./types.ts";

const PLANES: readonly ModePlane[] = ["longitudinal", "lateral"];
const DEGREE = Math.PI / 180;

/** States that are judged; the others are shown beside them. */
const JUDGED: readonly AttachmentState[] = ["single point, socket", "left aft pin", "right aft pin", "three point"];

/** Findings of one condition. */
export function attachmentFindings(
  context: HoldPartContext,
  own: AttachmentInputs,
  condition: HoldCondition,
  result: AttachmentResult,
): Finding[] {
  const rests = restsFor(context, condition);
  const id = `hold.${condition.name}.attachment`;
  const drafts: FindingDraft[] = [];
  for (const rule of result.rules.filter((one) => one.condition === condition.name)) {
    const paths = [...rests.judged[rule.plane], ...context.groups.criteria, ...own.paths.rule];
    drafts.push(ruleFinding(rule, own, condition, `${id}.retract.${rule.plane}`, paths));
  }
  const points = result.states.filter((point) => point.condition === condition.name);
  const more = [...own.paths.socket, ...own.paths.pins, ...own.paths.elevator];
  for (const state of JUDGED) {
    const found = points.filter((point) => point.state === state);
    if (found.length === 0) continue;
    const paths = state === "single point, socket" ? own.paths.socket : more;
    for (const plane of PLANES) {
      const stateId = `${id}.${state.replaceAll(",", "").replaceAll(" ", "-")}.${plane}`;
      drafts.push(stateFinding(context, found, state, plane, stateId, [...rests.judged[plane], ...paths]));
    }
  }
  if (own.pins !== null) {
    drafts.push(loadFinding(points, `${id}.pin-load`, [...rests.trim, ...own.paths.pins, ...own.paths.elevator]));
    const cycles = result.limitCycles.filter((cycle) => cycle.condition === condition.name);
    drafts.push(cycleFinding(cycles, `${id}.limit-cycle`, [...rests.dynamics.longitudinal, ...more]));
  }
  return drafts.map(findingMaker(context.findings));
}

function restsFor({ groups, inputs }: HoldPartContext, condition: HoldCondition) {
  return restsOf(groups, condition.name, condition.masses, isSymmetric(inputs));
}

function ruleFinding(
  rule: RetractRule,
  own: AttachmentInputs,
  condition: HoldCondition,
  id: string,
  rests: readonly string[],
): FindingDraft {
  const hook = condition.boomAngleDown / DEGREE;
  const criterion: Criterion = {
    text: `single point stable with margin at the boom angle of the condition, ${hook.toFixed(1)} deg`,
    sense: "at most",
    limit: hook,
    source: own.marginSource,
  };
  const base = {
    ...{ id, unit: "deg", criterion, rests },
    title: `Boom angle past which the boom must not come up (to smaller angles) before the aft pins are latched, ${rule.plane} motion`,
  };
  const where = rule.mass === null ? "" : ` at mass ${rule.mass} and ${rule.airspeed_m_s_EAS!.toFixed(1)} m/s EAS`;
  if (rule.outcome === "unstable extended") {
    const note = `single point is unstable${where} already with the boom extended: no pose is enough, and latching the pins is no remedy for the time before`;
    return { ...base, value: null, verdict: "not met", note };
  }
  const off = rule.drivers.filter(({ low_deg, high_deg }) => low_deg === null || high_deg === null);
  if (off.length > 0) {
    const names = off.map(({ path }) => path).join(", ");
    const nominal =
      rule.outcome === "lost" ? `lost at ${rule.nominal_deg!.toFixed(1)} deg${where}` : "stable along the whole stroke";
    const note = `with all values as stated ${nominal}; off by ${rule.deviations} σ, ${names} makes single point unstable with the boom extended: then no pose is enough`;
    return { ...base, value: null, verdict: "not met", note };
  }
  if (rule.rule_deg === null) {
    const note =
      "single point is stable along the whole stroke at every mass and airspeed of the band: no pose is lost";
    return { ...base, value: null, verdict: "met", note };
  }
  const nominal =
    rule.outcome === "lost"
      ? `stability is lost at ${rule.nominal_deg!.toFixed(2)} deg${where}, the worst of the band`
      : "stable along the whole stroke with all values as stated";
  const largest = rule.drivers.slice(0, 3).map(({ path }) => path);
  const drivers = largest.length === 0 ? "" : `, most by ${largest.join(", ")}`;
  const note = `${nominal}; values off by ${rule.deviations} σ one at a time add ${rule.uncertainty_deg!.toFixed(2)} deg as root-sum-square${drivers}; margin ${rule.margin_deg.toFixed(1)} deg; rounded up to the whole degree. Larger angles lie further down.`;
  return { ...base, value: rule.rule_deg, note };
}

function stateFinding(
  context: HoldPartContext,
  points: readonly StatePoint[],
  state: AttachmentState,
  plane: ModePlane,
  id: string,
  rests: readonly string[],
): FindingDraft {
  const { inputs } = context;
  const title = `Attached by ${WORDS[state]}, ${plane} motion: worst over masses and poses`;
  const none = points.filter((point) => point.outcome === "no trim");
  if (none.length > 0) {
    const where = none.map(({ mass, boomAngle_deg }) => `${mass} at ${boomAngle_deg.toFixed(0)} deg`).join(", ");
    const note = `no balance found within 30 deg of the mechanism's attitude: ${where}`;
    return {
      ...{ id, title, unit: "1", rests, note },
      value: null,
      verdict: "not met",
      criterion: dampingCriterion(inputs, false),
    };
  }
  let worst: { point: StatePoint; mode: Mode; margin: number } | null = null;
  for (const point of points) {
    for (const mode of point.modes) {
      if (mode.plane !== plane) continue;
      const margin = marginOf(context, mode);
      if (worst === null || margin < worst.margin) worst = { point, mode, margin };
    }
  }
  if (worst === null) {
    const note = `no motion in the ${plane} plane`;
    return {
      ...{ id, title, unit: "1", rests, note },
      value: null,
      verdict: "met",
      criterion: dampingCriterion(inputs, false),
    };
  }
  const { point, mode } = worst;
  const real = mode.imag_rad_s === 0;
  const where = `mass ${point.mass}, boom ${point.boomAngle_deg.toFixed(0)} deg`;
  if (real && mode.timeToDouble_s === null) {
    const note = `no oscillation in the ${plane} plane, and no real root grows`;
    return {
      ...{ id, title, unit: "1", rests, note },
      value: null,
      verdict: "met",
      criterion: dampingCriterion(inputs, false),
    };
  }
  return {
    ...{ id, title, rests, unit: real ? "s" : "1" },
    value: real ? mode.timeToDouble_s : mode.dampingRatio,
    criterion: real ? doublingCriterion(inputs) : dampingCriterion(inputs, mode.class === "structural"),
    verdict: meetsCriteria(inputs, mode) ? "met" : "not met",
    note: `${mode.name}, ${real ? "real root" : `${mode.frequency_Hz.toFixed(3)} Hz, ${mode.class}`}, ${where}: of all modes of this plane the one nearest to its criterion or furthest beyond`,
  };
}

/** Damping above the criterion of the mode's class; a real root by its growth against what is allowed [1/s], decaying ones last. */
function marginOf({ inputs }: HoldPartContext, mode: Mode): number {
  const { criteria } = inputs;
  if (mode.imag_rad_s === 0) return Math.LN2 / criteria.timeToDouble.value - mode.real_1_s;
  return (
    mode.dampingRatio - (mode.class === "structural" ? criteria.structuralDamping : criteria.rigidBodyDamping).value
  );
}

const WORDS: Readonly<Record<AttachmentState, string>> = {
  free: "nothing",
  "single point": "the probe alone",
  "single point, socket": "the probe, with friction and centring of the socket",
  "left aft pin": "probe and left aft pin",
  "right aft pin": "probe and right aft pin",
  "three point": "probe and both aft pins",
  "three point, in clearance": "probe, both aft pins inside their clearance",
};

function loadFinding(points: readonly StatePoint[], id: string, rests: readonly string[]): FindingDraft {
  const title = "Largest load on one leg of the yoke at three points, level flight, elevator as declared";
  let found: { value: number; note: string } | null = null;
  for (const { state, loads, mass, boomAngle_deg } of points) {
    if (state !== "three point" || loads === null) continue;
    for (const pin of loads.pins) {
      if (found !== null && Math.abs(pin.tension_N) <= Math.abs(found.value)) continue;
      const kind = pin.tension_N >= 0 ? "tension" : "compression";
      const note = `${kind} in the ${pin.name} leg, mass ${mass}, boom ${boomAngle_deg.toFixed(0)} deg; socket ${(loads.socketForward_N / 1e3).toFixed(1)} kN forward and ${(loads.socketUp_N / 1e3).toFixed(1)} kN up on the aircraft; ${(100 * loads.weightShare_1).toFixed(0)} % of the weight on the mechanism`;
      found = { value: Math.abs(pin.tension_N), note };
    }
  }
  if (found === null)
    return { ...{ id, title, unit: "N", rests }, value: null, verdict: "information", note: "no trim at three points" };
  return { ...{ id, title, unit: "N", rests }, ...found };
}

function cycleFinding(cycles: readonly LimitCycle[], id: string, rests: readonly string[]): FindingDraft {
  const title = "Steady oscillation of latched but unloaded aft pins in their clearance: largest travel of a pin";
  const stable = cycles.filter((cycle) => cycle.outcome === "found" && cycle.stable === true);
  if (stable.length === 0) {
    const outcomes = [
      ...new Set(cycles.map(({ outcome, stable: kind }) => (kind === false ? "none stable" : outcome))),
    ];
    return {
      ...{ id, title, unit: "m", rests },
      value: null,
      verdict: "information",
      note: `none: ${outcomes.join(", ")}`,
    };
  }
  const worst = stable.reduce((a, b) => (b.travelOverClearance_1! > a.travelOverClearance_1! ? b : a));
  const time =
    worst.inTime === null
      ? ""
      : `; in time ${worst.inTime.travel_mm.toFixed(3)} mm at ${worst.inTime.frequency_Hz.toFixed(3)} Hz, pin loads up to ${worst.inTime.pinLoad_N.toFixed(0)} N`;
  const rubbing = worst.withFriction === null ? "" : `; with the socket's friction it ${worst.withFriction.outcome}`;
  return {
    ...{ id, title, unit: "m", rests },
    value: worst.travel_mm! / 1e3,
    note: `${worst.plane}, boom ${worst.boomAngle_deg.toFixed(0)} deg, mass ${worst.mass}: ${worst.frequency_Hz!.toFixed(3)} Hz by harmonic balance${time}${rubbing}. No published criterion is known; the load is for the life of pins and latches.`,
  };
}

/** Boom angles that may be used at single point, from the rules of one condition. */
export function attachmentLimits(own: AttachmentInputs, condition: HoldCondition, result: AttachmentResult): Limit[] {
  const rules = result.rules.filter((rule) => rule.condition === condition.name);
  const id = `hold.${condition.name}.attachment`;
  const because = rules.map(({ plane }) => `${id}.retract.${plane}`);
  const [stowed, extended] = [own.stroke.from / DEGREE, own.stroke.to / DEGREE];
  const base = {
    title: "Boom angle at single point, aft pins not latched",
    quantity: "boom angle",
    unit: "deg",
    because,
  };
  const open = rules.some(({ uncertainty_deg }) => uncertainty_deg === null);
  const angle = Math.max(stowed, ...rules.map(({ rule_deg }) => rule_deg ?? stowed));
  const note = "larger angles lie further down; at the airspeeds of the band while the boom moves";
  if (open || angle > extended) {
    const never = rules.some(({ outcome }) => outcome === "unstable extended") || angle > extended;
    const status = never ? "prohibited" : "not cleared";
    return [{ ...base, id: `${id}.boom-angle`, lower: stowed, upper: extended, status, note }];
  }
  if (angle === stowed)
    return [{ ...base, id: `${id}.boom-angle`, lower: stowed, upper: extended, status: "analysed", note }];
  return [
    { ...base, id: `${id}.boom-angle-1`, lower: stowed, upper: angle, status: "prohibited", note },
    { ...base, id: `${id}.boom-angle-2`, lower: angle, upper: extended, status: "analysed", note },
  ];
}
