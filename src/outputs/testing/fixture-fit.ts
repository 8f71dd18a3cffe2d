/** Fixture: a whole made-up `FitResult`. A formula, not physics, and never a reference. */
import type { Criterion, Finding, Limit, Verdict } from "../../studies/finding/types.ts";
import type {
  FitResult,
  GroundState,
  GroundStateName,
  LoadingResult,
  ToleranceResult,
} from "../../studies/fit/types.ts";
import { FIXTURE_ANGLES, fixtureClearances, fixtureMap, fixtureStroke } from "./fixture-fit-motion.ts";
import {
  FIXTURE_EXTENDED,
  FIXTURE_STOWED,
  fixtureCarriedPoint,
  fixtureParts,
  fixturePictures,
} from "./fixture-fit-shapes.ts";

const HASH = "1b2e77a0".repeat(8);
const RESTS = ["carrier.ground.line", "carrier.moving", "mechanism.linkage", "studies.fit.criteria"];
const PROJECT = "project criterion";

function finding(
  id: string,
  title: string,
  value: number | null,
  unit: string,
  verdict: Verdict,
  criterion?: Criterion,
): Finding {
  const rest = { rests: RESTS, inputHash: HASH, version: "0.1.0", seed: null };
  return { id, study: "fit", title, value, unit, verdict, ...(criterion === undefined ? {} : { criterion }), ...rest };
}

function findingsOf(): Finding[] {
  const clearances = fixtureClearances().flatMap(({ pair, kind, leastAfterStack_m, criterion }) => {
    if (criterion === null || kind !== "moving") return [];
    const limit = criterion.value_m;
    const value = leastAfterStack_m.worst;
    return [
      finding(
        `fit.clearance.${pair.join("+")}`,
        `Least clearance of ${pair[0]} to ${pair[1]} along the stroke, less the worst-case stack`,
        value,
        "m",
        value >= limit ? "met" : "not met",
        {
          text: "clearance in motion at least 75 mm after the worst-case stack",
          sense: "at least",
          limit,
          source: PROJECT,
        },
      ),
    ];
  });
  return [
    ...clearances,
    finding(
      "fit.clearance.at-rest.stowed",
      "Least clearance at rest, stowed, less the worst-case stack",
      -0.006,
      "m",
      "not met",
      {
        text: "clearance at rest at least 25.4 mm after the worst-case stack",
        sense: "at least",
        limit: 0.0254,
        source: PROJECT,
      },
    ),
    finding("fit.transmission-angle", "Least transmission angle along the stroke", 27, "deg", "not met", {
      text: "transmission angle at least 30°",
      sense: "at least",
      limit: 30,
      source: PROJECT,
    }),
    finding("fit.jack-load", "Greatest jack load along the stroke", 103e3, "N", "met", {
      text: "jack load at most the jack's capacity",
      sense: "at most",
      limit: 142e3,
      source: PROJECT,
    }),
    finding(
      "fit.ground.flat-tyre-and-bottomed-strut.rotation.stowed",
      "Rotation limit, stowed, worst ground",
      8.1,
      "deg",
      "met",
      {
        text: "rotation with the carried aircraft stowed at least 8°",
        sense: "at least",
        limit: 8,
        source: PROJECT,
      },
    ),
    finding("fit.loading.raise", "Height by which the carrier is raised for loading", 0.4, "m", "information"),
    finding("fit.map.gear.path", "Shortest safe order of moves", 0.162, "m", "information"),
  ];
}

function limitsOf(): Limit[] {
  return [
    {
      id: "fit.gear.boom-angle",
      title: "Moving the gear",
      quantity: "boom angle",
      lower: 38.5,
      upper: null,
      unit: "deg",
      status: "analysed",
      because: ["fit.map.gear.path"],
    },
  ];
}

const STATES: readonly (readonly [GroundStateName, number, number])[] = [
  ["static", -1.6, 15.5],
  ["flat tyre", -1.4, 11.7],
  ["bottomed strut", -1.42, 12.1],
  ["flat tyre and bottomed strut", -1.22, 8.1],
];

function groundStates(): GroundState[] {
  return STATES.map(([name, line, rotation]) => {
    const tail = fixtureCarriedPoint(FIXTURE_STOWED, [5.9, 0.7, -1.6]);
    const belly = fixtureCarriedPoint(FIXTURE_STOWED, [2.4, 0, -1.4]);
    const limit = (Math.atan2(tail[2] - line, tail[0] - 18.6) * 180) / Math.PI;
    return {
      name,
      groundLine_m: line,
      clearance_m: tail[2] - line,
      at: { part: "carried.tail", point: tail },
      alongStroke: FIXTURE_ANGLES.map((angle) => ({
        boomAngle_deg: angle,
        clearance_m: fixtureCarriedPoint(angle, [5.9, 0, -1.6])[2] - line,
        part: "carried.tail",
      })),
      parts: [
        { part: "carried.tail", clearance_m: tail[2] - line, point: tail },
        { part: "carried.fuselage", clearance_m: belly[2] - line, point: belly },
      ],
      rotationLimits: [
        {
          pose: "stowed",
          boomAngle_deg: FIXTURE_STOWED,
          limit_deg: Math.min(limit, rotation),
          part: "carried.tail",
          point: tail,
        },
        { pose: "stuck at 33°", boomAngle_deg: 33, limit_deg: -6.1, part: "carried.tail", point: tail },
        {
          pose: "stuck extended",
          boomAngle_deg: FIXTURE_EXTENDED,
          limit_deg: -14.2,
          part: "carried.tail",
          point: tail,
        },
      ],
      tipBack_deg: 12.4,
    };
  });
}

function loading(): LoadingResult {
  const plan: readonly (readonly [string, number, number, number])[] = [
    ["on the dolly, behind the carrier", 9, 1.25, 2.1],
    ["under the tail", 5, 1.25, 0.42],
    ["probe passes the belly edge", 1.2, 1.25, 0.05],
    ["below the bay", 0, 1.25, 0.11],
    ["raised to the hooks", 0, 2.345, 0.16],
  ];
  return {
    requiredJacking_m: 0.4,
    margin_m: 0.05,
    steps: plan.map(([name, aft, height, least]) => ({
      name,
      aftOfStowed_m: aft,
      height_m: height,
      leastClearance_m: least,
      pair: ["carrier.fuselage", "carried.probe"],
      pointA: [15.9 + aft, 0, 0.02],
      pointB: [15.9 + aft, 0, 0.02 - least],
    })),
    governing: ["carrier.fuselage", "carried.probe"],
    unraisedClearance_m: -0.25,
  };
}

const DIMENSIONS: readonly (readonly [string, number])[] = [
  ["boom length, hinge to socket", 0.31],
  ["aft yoke length", 0.24],
  ["aft pin, up from socket", 0.12],
  ["yoke hinge, WL", 0.09],
  ["boom hinge, WL", 0.06],
  ["aft pin, aft of socket", 0.035],
  ["yoke hinge, FS", 0.02],
];

function toleranceAt(pose: string, boomAngle: number, scale: number): ToleranceResult {
  const total = DIMENSIONS.reduce((sum, [, part]) => sum + part * scale, 0);
  const squares = DIMENSIONS.reduce((sum, [, part]) => sum + (part * scale) ** 2, 0);
  return {
    pose,
    boomAngle_deg: boomAngle,
    worst_deg: total,
    rss_deg: Math.sqrt(squares),
    monteCarlo: {
      samples: 2000,
      seed: 7,
      notClosed: 0,
      standardDeviation_deg: Math.sqrt(squares) / 3,
      within99_73_deg: Math.sqrt(squares) * 1.02,
      largest_deg: Math.sqrt(squares) * 1.3,
    },
    contributors: DIMENSIONS.map(([dimension, part]) => ({
      dimension,
      tolerance_m: 0.002,
      derivative_deg_mm: (part * scale) / 2,
      contribution_deg: part * scale,
      shareOfSquares_1: (part * scale) ** 2 / squares,
      shareOfWorst_1: (part * scale) / total,
    })),
  };
}

/** A made-up `FitResult`. */
export function fixtureFit(variant = "Rev A"): FitResult {
  return {
    study: "fit",
    variant,
    parts: fixtureParts(),
    strokeOutcome: "complete",
    stroke: fixtureStroke(),
    strokeEvents: [],
    gear: [
      { body: "mainGearRight", group: "gear", fractions: [0, 0.5, 1], angles_deg: [0, 48, 95] },
      { body: "mainDoorRight", group: "gear", fractions: [0, 0.3, 0.8, 1], angles_deg: [0, 80, 80, 0] },
    ],
    groups: [
      { group: "gear", standsAt_1: 0 },
      { group: "bayDoors", standsAt_1: 1 },
    ],
    clearances: fixtureClearances(),
    gearClearances: [
      {
        pair: ["mainDoorRight.door", "mainGearRight.leg"],
        group: "gear",
        alongFraction: [0, 0.25, 0.5, 0.75].map((fraction) => ({
          fraction_1: fraction,
          lower_m: 0.09 + 0.2 * fraction,
          upper_m: 0.095 + 0.2 * fraction,
        })),
        least_m: 0.09,
        at: { fraction_1: 0, pointA: [18.4, 3.9, 0.4], pointB: [18.4, 4.0, 0.4] },
        state: "clear",
      },
    ],
    leftOut: [{ pair: ["boom.leg", "carried.probe"], because: "their bodies are joined and they touch as drawn" }],
    maps: [fixtureMap(), fixtureMap(0.6)],
    tolerance: [
      toleranceAt("stowed", FIXTURE_STOWED, 1),
      toleranceAt("mid", 33, 0.34),
      toleranceAt("extended", FIXTURE_EXTENDED, 0.21),
    ],
    stack: {
      terms: [
        { name: "build", value_m: 0.012 },
        { name: "deflection", value_m: 0.02 },
        { name: "thermal", value_m: 0.015 },
      ],
      worst_m: 0.047,
      rss_m: 0.0277,
    },
    ground: { mainContact_m: [18.6, 4.5], states: groundStates() },
    loading: loading(),
    zones: [
      {
        zone: "carrier.exhaustRight",
        part: "carried.tail",
        inside: false,
        angles_deg: [],
        least_m: 1.9,
        at_boomAngle_deg: FIXTURE_STOWED,
      },
      {
        zone: "carrier.exhaustRight",
        part: "carried.wing",
        inside: true,
        angles_deg: [[14, 21.5]],
        least_m: 0,
        at_boomAngle_deg: FIXTURE_STOWED,
      },
    ],
    pictures: fixturePictures(),
    findings: findingsOf(),
    limits: limitsOf(),
    assumptions: ["Bodies are rigid; deflections enter as a stack of stated sizes."],
    notAnalysed: ["side loads on the gear", "flaps and control surfaces in between their stated positions"],
  };
}
