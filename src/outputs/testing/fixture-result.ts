/** Fixture: the whole result document of the made-up pair. Not physics. */
import type { Criterion, Finding, Limit } from "../../studies/finding/types.ts";
import type { HoldPoint, HoldResult } from "../../studies/hold/types.ts";
import { type InputRecord, RESULT_SCHEMA, type ResultDocument } from "../result/index.ts";
import { type FixtureState, fixtureModes, worstDamping } from "./fixture-modes.ts";
import { fixtureMap, fixturePilotTime, fixtureSnubber, fixtureStiffness, fixtureSweeps } from "./fixture-sweeps.ts";

const MASSES = [
  ["full", 2600],
  ["return", 1950],
  ["empty", 1900],
] as const;

const HASH = "7c1f0d5e".repeat(8);
const RESTS_LONGITUDINAL = [
  "carried.airloads.lift.CLalpha",
  "carried.airloads.pitch.Cmalpha",
  "carried.airloads.pitch.Cmq",
  "carried.massStates",
  "conditions.hook",
  "mechanism.accumulator.stiffness",
  "mechanism.boom.bending",
  "mechanism.jack.ratio",
  "mechanism.snubber.equivalent",
  "studies.hold.criteria.rigidBodyDamping",
];
const RESTS_LATERAL = [
  "carried.airloads.roll.Clbeta",
  "carried.airloads.side.CYbeta",
  "carried.airloads.yaw.Cnbeta",
  "carried.massStates",
  "conditions.hook",
  "mechanism.boom.lateral",
  "studies.hold.criteria.rigidBodyDamping",
];

export type FixtureVariant = "Rev A" | "Rev B";

export function fixtureState(variant: FixtureVariant, mass = 2600): FixtureState {
  const common = { mass, boomAngle: 52 };
  return variant === "Rev A"
    ? { ...common, airspeed: 95, bending: 60e3, accumulator: 60e3, snubber: 2000 }
    : { ...common, airspeed: 105, bending: 90e3, accumulator: 20e3, snubber: 3500 };
}

function point(variant: FixtureVariant, name: string, mass: number): HoldPoint {
  const state = fixtureState(variant, mass);
  const q = 0.5 * 1.225 * state.airspeed ** 2;
  const lift = mass * 9.80665;
  const coefficient = lift / (q * 8.2);
  const drag = q * 8.2 * (0.026 + coefficient ** 2 / 16.8);
  return {
    id: `hook.${name}`,
    condition: "hook",
    mass: name,
    airspeed_m_s_EAS: state.airspeed,
    airspeed_m_s_TAS: state.airspeed * 1.1607,
    altitude_m: 3000,
    density_kg_m3: 0.9091,
    boomAngle_deg: 52,
    weightShare_1: 0,
    bendingStiffness_N_m: state.bending,
    accumulatorStiffness_N_m: state.accumulator,
    snubberRate_N_s_m: state.snubber,
    outcome: "trimmed",
    trim: {
      alpha_deg: ((coefficient - 0.18) / 5) * 57.2958,
      elevator_deg: -3.1 + 2600 / mass,
      aileron_deg: 0,
      rudder_deg: 0,
      towLoad_N: drag,
      lift_N: lift,
      supportLoad_N: 0,
      tipAxialLoad_N: -drag * 0.616,
      tipTangentialLoad_N: drag * 0.788,
      jackLoad_N: -drag * 0.788 * 3.63,
      unloadedBoomAngle_deg: 51.6,
      liftCoefficient: coefficient,
      stallMargin: 1 - coefficient / 1.35,
    },
    modes: fixtureModes(state),
  };
}

const PROJECT = "project criterion";
const damping = (text: string, limit: number): Criterion => ({ text, sense: "at least", limit, source: PROJECT });

function base(id: string, title: string, value: number | null, unit: string): Omit<Finding, "verdict" | "rests"> {
  return { id, study: "hold", title, value, unit, inputHash: HASH, version: "0.1.0", seed: null };
}

function findingsOf(points: readonly HoldPoint[], stiffness: HoldResult["stiffness"]): Finding[] {
  const findings: Finding[] = [];
  for (const one of points) {
    for (const plane of ["longitudinal", "lateral"] as const) {
      const worst = worstDamping(one.modes, plane);
      const rests = plane === "lateral" ? RESTS_LATERAL : RESTS_LONGITUDINAL;
      findings.push({
        ...base(
          `hold.${plane}.damping.${one.id}`,
          `Least damping ratio of the ${plane} rigid-body-type oscillations, ${one.condition}, ${one.mass}`,
          worst,
          "1",
        ),
        criterion: damping("damping ratio of every rigid-body-type oscillation at least 0.03", 0.03),
        verdict: worst >= 0.03 ? "met" : "not met",
        rests,
      });
    }
    findings.push({
      ...base(
        `hold.longitudinal.structural.${one.id}`,
        `Damping ratio of the structural modes, hook, ${one.mass}`,
        0.0151,
        "1",
      ),
      criterion: damping("damping ratio of every structural mode at least 0.01", 0.01),
      verdict: "met",
      rests: ["mechanism.boom.structuralDamping", "studies.hold.criteria.structuralDamping"],
    });
    findings.push({
      ...base(
        `hold.lateral.timeToDouble.${one.id}`,
        `Time to double of the fastest growing real root, hook, ${one.mass}`,
        null,
        "s",
      ),
      criterion: {
        text: "time to double of every real root at least 20 s",
        sense: "at least",
        limit: 20,
        source: PROJECT,
      },
      verdict: "met",
      note: "no real root grows",
      rests: RESTS_LATERAL,
    });
  }
  const need = stiffness[0]!;
  findings.push({
    ...base(
      "hold.stiffness.headline.full",
      "Tangential stiffness above which the criterion is met without a snubber",
      need.headline_N_m,
      "N/m",
    ),
    verdict: "information",
    rests: RESTS_LONGITUDINAL,
  });
  findings.push({
    ...base(
      "hold.lateral.neutralSpeed.hook.full",
      "Airspeed at which the lateral oscillation is neutral, controls fixed",
      100,
      "m/s EAS",
    ),
    verdict: "information",
    rests: RESTS_LATERAL,
  });
  findings.push({
    ...base("hold.roughAir.hook.full", "Motion of the hooked aircraft in rough air", null, "deg"),
    verdict: "not analysed",
    note: "turbulence response is not part of this study",
    rests: [],
  });
  return findings;
}

function limitsOf(variant: FixtureVariant): Limit[] {
  return [
    {
      id: "hold.hookSpeed",
      title: "Airspeed while hooked at one point, controls fixed",
      quantity: "airspeed",
      lower: variant === "Rev A" ? null : 123.1,
      upper: variant === "Rev A" ? null : 125,
      unit: "m/s EAS",
      status: variant === "Rev A" ? "not cleared" : "analysed",
      because: ["hold.longitudinal.damping.hook.full", "hold.lateral.damping.hook.full"],
    },
    {
      id: "hold.retraction",
      title: "Retraction while hooked at one point",
      quantity: "boom angle",
      lower: 52,
      upper: null,
      unit: "deg",
      status: "prohibited",
      because: ["hold.longitudinal.damping.hook.full"],
      note: "the damping ratio falls as the boom comes up",
    },
  ];
}

/** A made-up `HoldResult`. */
export function fixtureHold(variant: FixtureVariant): HoldResult {
  const points = MASSES.map(([name, mass]) => point(variant, name, mass));
  const states = MASSES.map(([name, mass]) => ({ name, state: fixtureState(variant, mass) }));
  const full = fixtureState(variant);
  const stiffness = states.map(({ name, state }) => fixtureStiffness(state, name));
  return {
    study: "hold",
    variant,
    points,
    sweeps: fixtureSweeps(full, "full"),
    maps: [fixtureMap(full, "full")],
    snubber: states.map(({ name, state }) => fixtureSnubber(state, name)),
    stiffness,
    pilotTime: states.flatMap(({ name, state }) => fixturePilotTime(state, `hook.${name}`)),
    findings: findingsOf(points, stiffness),
    limits: limitsOf(variant),
    assumptions: [
      "The carrier flies steadily and its mass is infinite against the carried aircraft.",
      "Air loads are quasi-steady; the carrier's flow field is not included.",
      "Controls are fixed; the boom swings without play or friction.",
    ],
    notAnalysed: ["rough air and gusts", "free play of the hinge and the latch", "pilot or autopilot in the loop"],
  };
}

const SOURCE = "invented for the fixture";
const INPUTS: Readonly<Record<string, InputRecord>> = {
  "carried.airloads.lift.CLalpha": { text: "5.0 1/rad", si: 5, unit: "1/rad", maturity: "estimate", source: SOURCE },
  "carried.airloads.pitch.Cmalpha": {
    text: "-0.65 1/rad ± 10 % (1σ)",
    si: -0.65,
    unit: "1/rad",
    maturity: "wind tunnel",
    source: SOURCE,
  },
  "carried.airloads.pitch.Cmq": { text: "-12 ± 15 % (1σ)", si: -12, unit: "1", maturity: "estimate", source: SOURCE },
  "carried.airloads.roll.Clbeta": {
    text: "-0.022 1/rad ± 35 % (1σ)",
    si: -0.022,
    unit: "1/rad",
    maturity: "estimate",
    source: SOURCE,
  },
  "carried.airloads.side.CYbeta": {
    text: "-0.66 1/rad",
    si: -0.66,
    unit: "1/rad",
    maturity: "estimate",
    source: SOURCE,
  },
  "carried.airloads.yaw.Cnbeta": {
    text: "0.085 1/rad ± 10 % (1σ)",
    si: 0.085,
    unit: "1/rad",
    maturity: "estimate",
    source: SOURCE,
  },
  "carried.massStates.full.mass": {
    text: "2600 kg ± 1 % (1σ)",
    si: 2600,
    unit: "kg",
    maturity: "ground test",
    source: SOURCE,
  },
  "conditions.hook.airspeed": { text: "95 m/s EAS", si: 95, unit: "m/s", maturity: "analysis", source: SOURCE },
  "mechanism.accumulator.stiffness": {
    text: "60 kN/m ± 10 % (1σ)",
    si: 60e3,
    unit: "N/m",
    maturity: "estimate",
    source: SOURCE,
  },
  "mechanism.boom.bending": { text: "60 kN/m ± 8 % (1σ)", si: 60e3, unit: "N/m", maturity: "estimate", source: SOURCE },
  "mechanism.boom.lateral": { text: "0.6 MN/m", si: 6e5, unit: "N/m" },
  "mechanism.jack.ratio": { text: "tip-per-jack.csv", file: "tip-per-jack.csv", maturity: "analysis", source: SOURCE },
  "mechanism.snubber.equivalent": {
    text: "2.0 kN*s/m ± 15 % (1σ)",
    si: 2000,
    unit: "N*s/m",
    maturity: "estimate",
    source: SOURCE,
  },
  "studies.hold.criteria.rigidBodyDamping": { text: "0.03", si: 0.03, unit: "1" },
};

/** A made-up document; the first variant is the selected one. */
export function fixtureDocument(variants: readonly FixtureVariant[] = ["Rev A", "Rev B"]): ResultDocument {
  const hold = variants.map(fixtureHold);
  const selected = hold[0]!;
  return {
    schema: RESULT_SCHEMA,
    davit: "0.1.0",
    pair: "Fixture",
    variant: selected.variant,
    overrides: [],
    seed: null,
    inputs: INPUTS,
    files: [
      { path: "tip-per-jack.csv", sha256: "a3".repeat(32) },
      { path: "fixture.pair.yaml", sha256: "5b".repeat(32) },
    ],
    studies: { hold },
    findings: selected.findings,
    limits: selected.limits,
  };
}
