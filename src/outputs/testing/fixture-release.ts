/** Fixture: a whole made-up `ReleaseResult`. Formulas, not physics, and never a reference. */
import type { Finding, Limit } from "../../studies/finding/types.ts";
import {
  RELEASE_OUTCOMES,
  type ReleaseBatch,
  type ReleaseCaseResult,
  type ReleaseOutcome,
  type ReleaseResult,
} from "../../studies/release/types.ts";

const HASH = "5a90b3c4".repeat(8);
const RESTS = ["mechanism.socket.funnel", "studies.release"];
const MASSES = ["full", "empty"] as const;

function caseOf(name: string, mass: string, outcome: ReleaseOutcome, boomAngle_deg = 52): ReleaseCaseResult {
  const free = outcome !== "hang-up";
  const time = Array.from({ length: 51 }, (_, i) => i / 10);
  const fall = (t: number): number => Math.max(0, t - 0.8) ** 2 * (outcome === "touches" ? Math.max(0, 3 - t) : 2.5);
  const known = free && outcome !== "not analysed";
  return {
    ...{ name, what: `from three point, ${name}`, mass, boomAngle_deg, attachment: "three point", outcome },
    ...{ withdrawal: free ? "withdrawn" : "hang-up", leftAt_s: free ? 0.8 : null, noseAt_s: 0.3 },
    ...{ exitSpeed_m_s: free ? 0.7 : null, exitPitchRate_deg_s: free ? -8.5 : null, offered_N: 1500, needed_N: 620 },
    clearance_m: known ? (outcome === "touches" ? 0 : 0.18) : null,
    clearanceAt_s: known ? (outcome === "touches" ? 3 : 0.9) : null,
    nearest: known ? { carried: "airframe", other: "boom" } : null,
    ...{ carrierLoadFactor_1: 0.06, carrierPitch_deg: 1.1 },
    proximity: outcome === "not analysed" ? "left the grid" : "inside",
    course: {
      time_s: time,
      aft_m: time.map((t) => 0.4 * t),
      right_m: time.map(() => 0),
      below_m: time.map(fall),
      pitch_deg: time.map((t) => 2 - t),
      bank_deg: time.map(() => 0),
      distance_m: time.map((t) => (t < 0.8 || !free ? null : 0.2 + fall(t))),
    },
  };
}

function batchOf(mass: string, sigma: string, sigma_m_s: number, clean: number): ReleaseBatch {
  const time = Array.from({ length: 8 }, (_, i) => 1 + i / 2);
  return {
    ...{ key: `${sigma}-${mass}`, sigma, sigma_m_s, mass, samples: 60 },
    outcomes: RELEASE_OUTCOMES.map((outcome) => ({
      outcome,
      count: outcome === "clean" ? clean : outcome === "touches" ? 60 - clean : 0,
    })),
    clean: { count: clean, of: 60, share_1: clean / 60, lower_1: clean / 60 - 0.05, upper_1: 1 },
    clearance_m: { p05: 0.11, p50: 0.18, p95: 0.2 },
    exitSpeed_m_s: { p05: 0.5, p50: 0.7, p95: 0.9 },
    band: {
      time_s: time,
      p05_m: time.map((t) => 0.5 * t * t),
      p50_m: time.map((t) => t * t),
      p95_m: time.map((t) => 1.5 * t * t),
    },
  };
}

const BOX = [
  [0, 0],
  [4, 0],
  [4, 1],
  [0, 1],
] as const;
const at = (x: number, y: number) => [BOX.map(([a, b]) => [a + x, b + y] as const)];

const found = (id: string, title: string, value: number | null, verdict: Finding["verdict"]): Finding => ({
  ...{ id, study: "release", title, value, unit: "m", verdict, rests: RESTS },
  criterion: {
    ...{ text: "distance once free at least 0.1 m", sense: "at least", limit: 0.1, source: "project criterion" },
  },
  ...{ inputHash: HASH, version: "0.1.0", seed: 1 },
});

const LIMITS: readonly Limit[] = [
  {
    ...{ id: "release.turbulence", title: "Turbulence of a release", quantity: "intensity", lower: null, upper: null },
    ...{ unit: "m/s", status: "not cleared", because: ["release.normal.full.52-deg"] },
    note: "no increments near the carrier: not analysed",
  },
];

/** Made-up result of one variant. */
export function fixtureRelease(variant = "Rev B"): ReleaseResult {
  return {
    ...{ study: "release", variant, seed: 1, design: "light" },
    point: {
      ...{ condition: "hook", airspeed_m_s_EAS: 105, altitude_m: 3000 },
      ...{ boomAngles_deg: [52, 40], masses: MASSES },
    },
    criteria: {
      ...{ clearance_m: 0.1, exitSpeed_m_s: 0.3, exitPitchRate_deg_s: 20, clean_1: 0.95, confidence_1: 0.9 },
      carrierLoadFactor_1: 0.2,
    },
    cases: MASSES.flatMap((mass) => [
      caseOf("normal", mass, "clean"),
      caseOf("normal", mass, "clean", 40),
      caseOf("right aft pin stuck", mass, "hang-up"),
      caseOf("hard over", mass, mass === "full" ? "touches" : "not analysed"),
    ]),
    edges: MASSES.flatMap((mass) => [
      { mass, quantity: "airspeed", limit: 86.2, unit: "m/s EAS", wholeRange: false, because: "touches" } as const,
      { mass, quantity: "thrust", limit: 3000, unit: "N", wholeRange: true, because: null } as const,
    ]),
    envelopes: MASSES.map((mass) => ({
      ...{ mass, airspeed_m_s_EAS: [80, 100, 120], loadFactor_1: [0.5, 1, 1.5] },
      outcome: [
        ["clean", "clean", "clean"],
        ["too near", "clean", "clean"],
        ["touches", "hang-up", "not analysed"],
      ],
      clearance_m: [
        [0.2, 0.21, 0.22],
        [0.05, 0.2, 0.2],
        [0, null, null],
      ],
    })),
    limiting: "full, 80 m/s EAS, load factor 1.5: touches, 0.00 m",
    batches: MASSES.flatMap((mass) => [batchOf(mass, "light", 1.5, 59), batchOf(mass, "moderate", 3, 51)]),
    hangUps: MASSES.map((mass) => ({
      ...{ left: "nose and left aft pin: it does not open", mass, outcome: "balanced", bank_deg: 5.7 },
      ...{ socketLoad_N: 2100, pins: [{ name: "left", tension_N: 5320, lateral_N: 445 }] },
      ...{ worstMode: "sway", dampingRatio_1: -0.02, timeToDouble_s: 4.2 },
      waysOut: [
        { way: "draw back the nose latch all the same", outcome: "hang-up" },
        { way: "the pin opens late, then the nose", outcome: "clean" },
      ],
    })),
    jettison: [600, 3000].map((height_m) => ({
      ...{ thing: "boom with socket", height_m, terminal_m_s: 79 },
      still: { along_m: 770, right_m: 0, time_s: 14, speed_m_s: 72 },
      inWind: { along_m: 590, right_m: 124, time_s: 14, speed_m_s: 72 },
      footprint: { along_m: 772, right_m: 0, halfAlong_m: 219, halfRight_m: 224 },
    })),
    stub: { length_m: 0.3, clearance_m: 0.19, aboveLowest_m: 1.6 },
    paths: MASSES.map((mass) => ({
      ...{ path: "normal", mass, command_s: 0.3, free_s: 0.8, clear_s: 0.9, outcome: "clean" },
    })),
    carrier: MASSES.map((mass) => ({
      ...{ mass, closedForm_1: 0.011, loadFactor_1: 0.06, pitch_deg: 1.1, trimMoment_N_m: -28000 },
      ...{ time_s: [0, 1, 2], loadFactorCourse_1: [0, 0.06, 0.01], pitchCourse_deg: [0, 0.4, 1.1] },
    })),
    strips: [
      {
        ...{ case: "normal", mass: "full", still: { side: at(-2, 4), rear: at(-2, 4) } },
        frames: [0, 1, 2].map((time_s) => ({ time_s, side: at(2, -3 * time_s), rear: at(-2, -3 * time_s) })),
      },
    ],
    findings: [
      found("release.normal.full.52-deg", "Least distance once free, normal, full", 0.18, "met"),
      found("release.failure.hard-over.full", "Least distance once free, hard over, full", 0, "not met"),
      found("release.failure.hard-over.empty", "Least distance once free, hard over, empty", null, "not analysed"),
    ],
    limits: LIMITS,
    assumptions: ["release: made up"],
    notAnalysed: ["release: whether the two means of release are isolated from each other"],
  };
}
