/** Fixture: a whole made-up `HookonResult`. Formulas, not physics, and never a reference. */
import type { Finding, Limit } from "../../studies/finding/types.ts";
import {
  type CaptureMap,
  HOOKON_OUTCOMES,
  type HookonCase,
  type HookonOutcome,
  type HookonReplay,
  type HookonResult,
  type OutcomeShare,
} from "../../studies/hookon/types.ts";

const HASH = "7c41d2e9".repeat(8);
const RESTS = ["approach.schedule", "mechanism.socket.funnel", "studies.hookon.sigmas.light"];
const OF = 200;

/** Bounds of the usual width; not an interval of any method. */
function share(count: number): OutcomeShare {
  const value = count / OF;
  const half = 0.02 + Math.sqrt((value * (1 - value)) / OF);
  const bounds = { lower: Math.max(0, value - 2 * half), upper: Math.min(1, value + 2 * half) };
  return { count, of: OF, share_1: value, exact_1: bounds, score_1: { ...bounds, lower: 0.99 * bounds.lower } };
}

/** Points on a spiral whose size grows with the turbulence. */
function shownOf(spread: number): HookonCase["shown"] {
  return Array.from({ length: 60 }, (_, i) => {
    const [turn, radius] = [2.4 * i, spread * Math.sqrt((i + 0.5) / 60)];
    const outcome: HookonOutcome = radius < 0.2 ? "locked, stable" : radius < 0.35 ? "bounced" : "missed";
    const closure = outcome === "missed" ? null : 1.1 + 0.3 * Math.sin(1.7 * i);
    return {
      index: i,
      outcome,
      missRight_m: radius * Math.cos(turn),
      missDown_m: radius * Math.sin(turn),
      closure_m_s: closure,
      peakAxial_N: closure === null ? null : 9000 * closure,
    };
  });
}

function caseOf(
  controller: string,
  sigma: string,
  sigma_m_s: number,
  success: number,
  special: Pick<HookonCase, "light" | "bothAtOnce"> = { light: null, bothAtOnce: false },
): HookonCase {
  const spread = 0.12 + 0.15 * sigma_m_s;
  const bounced = Math.round((OF - success) / 2);
  const counts: Partial<Record<HookonOutcome, number>> = {
    "locked, stable": success,
    bounced,
    missed: OF - success - bounced,
  };
  const key = [controller, sigma, special.light ?? "", special.bothAtOnce ? "both" : ""]
    .filter((w) => w !== "")
    .join("-");
  return {
    ...{
      key: key.replaceAll(" ", "-"),
      title: `${controller}, ${sigma} (σ ${sigma_m_s} m/s)`,
      sigma,
      sigma_m_s,
      controller,
    },
    ...special,
    samples: OF,
    outcomes: HOOKON_OUTCOMES.map((outcome) => ({ outcome, ...share(counts[outcome] ?? 0) })),
    success: share(success),
    miss: {
      ...{ count: 190, meanRight_m: 0.01, meanDown_m: -0.03, sigmaRight_m: 0.6 * spread, sigmaDown_m: spread },
      ...{ correlation_1: 0.2, radius_m: { p50: spread, p90: 1.8 * spread, p95: 2.1 * spread, p99: 2.8 * spread } },
      ...{ captureRadius_m: 0.4, inside_1: 0.95, normal_1: 0.94, rayleigh_1: 0.93 },
    },
    quantities: [
      {
        ...{ key: "closure_m_s", title: "Closure speed at first contact", unit: "m/s", count: 180, mean: 1.1 },
        ...{ p05: 0.8, p50: 1.1, p95: 1.4, p99: 1.5, largest: 1.6, mean3Sigma: 1.7 },
      },
      {
        ...{ key: "axialLoad_N", title: "Largest load on the probe along its axis", unit: "N", count: 180, mean: 9900 },
        ...{ p05: 7000, p50: 9800, p95: 14_000, p99: 16_500, largest: 17_100, mean3Sigma: 16_400 },
      },
    ],
    attempts: { byShare: success === 0 ? null : 3, byBound: success === 0 ? null : 4 },
    shown: shownOf(spread),
  };
}

function mapOf(angle: number): CaptureMap {
  const offset_m = Array.from({ length: 8 }, (_, i) => 0.05 * i);
  const closure_m_s = Array.from({ length: 8 }, (_, i) => 0.3 * (i + 1));
  const outcome = closure_m_s.map((v) =>
    offset_m.map((r): HookonOutcome => {
      if (r > 0.32) return "missed";
      if (v > 2) return "overloaded";
      return v < 0.5 || r > 0.12 * v ? "bounced" : "locked, stable";
    }),
  );
  return { angle_deg: angle, offset_m, closure_m_s, outcome, captureRadius_m: 0.2 };
}

function replay(): HookonReplay {
  const time_s = Array.from({ length: 80 }, (_, i) => 0.1 * i);
  const contact = 5;
  const after = (t: number): number => Math.max(0, t - contact);
  const wave = (t: number): number => Math.exp(-after(t)) * Math.sin(5 * after(t));
  return {
    ...{ case: "autopilot, light (σ 1.5 m/s)", index: 3, outcome: "locked, stable", time_s },
    mouth_m: time_s.map((t) => [0.1 * wave(t), 0, 0.05 * wave(t)] as const),
    head_m: time_s.map((t) => [Math.max(0, contact - t), 0.1 * Math.sin(t), 0.2 * Math.max(0, contact - t)] as const),
    closure_m_s: time_s.map((t) => (t < contact ? 1.1 : wave(t))),
    axial_kN: time_s.map((t) => -9 * wave(t)),
    side_kN: time_s.map((t) => 3 * Math.abs(wave(t))),
    buffer_mm: time_s.map((t) => 80 * Math.abs(wave(t))),
    gimbal_deg: time_s.map((t) => 6 * Math.abs(wave(t))),
    events: [
      { time_s: contact, what: "contact" },
      { time_s: contact + 0.2, what: "latch trips" },
      { time_s: contact + 0.25, what: "latch locks" },
    ],
  };
}

function findings(design: HookonCase): Finding[] {
  const common = { study: "hookon", rests: RESTS, inputHash: HASH, version: "0.1.0", seed: 7 };
  return [
    {
      ...common,
      id: `hookon.success.${design.key}`,
      title: "Lower bound of the share that ends locked and stable, autopilot, light",
      ...{ value: design.success.exact_1.lower, unit: "1", verdict: "met" },
      criterion: { text: "share of approaches", sense: "at least", limit: 0.8, source: "project criterion" },
    },
    {
      ...common,
      id: "hookon.window.margin",
      title: "Distance of the planned closure from the nearer end of the closure window",
      ...{ value: 0.1, unit: "m/s", verdict: "not met" },
      criterion: { text: "distance from either end", sense: "at least", limit: 0.2, source: "project criterion" },
    },
    {
      ...common,
      id: "hookon.disturbances.bow-wave-of-the-nose",
      title: "Effect of the bow wave of the nose",
      ...{ value: null, unit: "1", verdict: "not analysed", note: "the pair has no data for it" },
    },
  ];
}

const LIMITS: readonly Limit[] = [
  {
    ...{ id: "hookon.closure", title: "Closure at contact", quantity: "closure", lower: 0.5, upper: 1.9, unit: "m/s" },
    ...{ status: "not cleared", because: ["hookon.window.lower"], note: "no data for bow wave of the nose" },
  },
];

/** A made-up result of the study `hookon`. */
export function fixtureHookon(variant = "Rev A"): HookonResult {
  const cases = [
    caseOf("autopilot", "light", 1.5, 184),
    caseOf("autopilot", "moderate", 3, 120),
    caseOf("autopilot", "severe", 6.4, 22),
    caseOf("ground pilot", "light", 1.5, 96),
    caseOf("ground pilot", "moderate", 3, 30),
    caseOf("ground pilot", "severe", 6.4, 0),
    caseOf("autopilot", "light", 1.5, 160, { light: "night", bothAtOnce: false }),
    caseOf("autopilot", "light", 1.5, 140, { light: null, bothAtOnce: true }),
  ];
  const closures = Array.from({ length: 12 }, (_, i) => 0.2 * (i + 1));
  return {
    study: "hookon",
    variant,
    point: {
      ...{ condition: "hook", mass: "return", airspeed_m_s_EAS: 95, altitude_m: 3000 },
      ...{ boomAngle_deg: 52, mass_kg: 1950 },
    },
    ...{ seed: 7, samples: OF, confidence_1: 0.95, attemptsFor_1: 0.99, design: "light" },
    criteria: {
      ...{ success_1: 0.8, closure_m_s: 2.57, windowMargin_m_s: 0.2, axialLoad_N: 24_000, sideLoad_N: 20_000 },
      breakawayDistance_m: 0.5,
    },
    cases,
    window: {
      closedForm: { lower_m_s: 0.45, upper_m_s: 1.7, upperBecause: "buffer comes to its stop" },
      simulated: { lower_m_s: 0.5, upper_m_s: 1.9, upperBecause: "load along the probe" },
      agreement_1: { lower: -0.1, upper: -0.105 },
      planned_m_s: 1.2,
      sweep: closures.map((closure) => ({
        closure_m_s: closure,
        outcome: closure < 0.5 ? "bounced" : closure > 1.9 ? "overloaded" : "locked, stable",
        tripped: closure >= 0.5,
        locked: closure >= 0.5,
        peakAxial_N: 12_000 * closure,
        bufferTravel_m: 0.08 * closure,
      })),
    },
    maps: [mapOf(0), mapOf(5)],
    breakaway: {
      ...{ gap_m: 2, closing_m_s: 0.5, planned_m: 1.1, longestReaction_s: 1.6 },
      points: [0.3, 1, 2, 3].map((reaction) => ({
        reaction_s: reaction,
        alone_m: 1.9 - 0.9 * reaction,
        both_m: 1.95 - 0.8 * reaction,
      })),
    },
    replay: replay(),
    claims: null,
    findings: findings(cases[0]!),
    limits: LIMITS,
    assumptions: ["A sample is one approach."],
    notAnalysed: ["Hook-on: bow wave of the nose: the pair has no data."],
  };
}
