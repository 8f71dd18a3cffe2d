/** Fixture: sweeps, map and curves of the made-up pair. Not physics. */
import type {
  PilotTime,
  SnubberCurve,
  StabilityMap,
  StiffnessInterval,
  StiffnessNeed,
  Sweep,
} from "../../studies/hold/types.ts";
import { isolines } from "../figures/index.ts";
import { type FixtureState, fixtureModes, heavePitchDamping, worstDamping } from "./fixture-modes.ts";

function linear(from: number, to: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
}

export function logarithmic(from: number, to: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => from * (to / from) ** (i / (count - 1)));
}

interface SweepPlan {
  readonly id: string;
  readonly title: string;
  readonly axis: Sweep["axis"];
  readonly values: readonly number[];
  readonly at: number;
  readonly change: (state: FixtureState, value: number) => FixtureState;
}

function plans(state: FixtureState): SweepPlan[] {
  return [
    {
      id: "airspeed",
      title: "Modes along airspeed",
      axis: { label: "airspeed", unit: "m/s EAS", scale: "linear" },
      values: linear(70, 140, 36),
      at: state.airspeed,
      change: (base, airspeed) => ({ ...base, airspeed }),
    },
    {
      id: "boomAngle",
      title: "Modes along boom angle",
      axis: { label: "boom angle under load", unit: "deg", scale: "linear" },
      values: linear(14, 60, 24),
      at: state.boomAngle,
      change: (base, boomAngle) => ({ ...base, boomAngle }),
    },
    {
      id: "bending",
      title: "Modes along boom bending stiffness",
      axis: { label: "boom bending stiffness at the tip", unit: "N/m", scale: "log" },
      values: logarithmic(5e3, 5e6, 31),
      at: state.bending,
      change: (base, bending) => ({ ...base, bending }),
    },
  ];
}

export function fixtureSweeps(state: FixtureState, mass: string): Sweep[] {
  return plans(state).map((plan) => {
    const rows = plan.values.map((value) => fixtureModes(plan.change(state, value)));
    const tracks = rows[0]!.map((first, i) => ({
      name: first.name,
      class: first.class,
      plane: first.plane,
      real_1_s: rows.map((row) => row[i]!.real_1_s),
      imag_rad_s: rows.map((row) => row[i]!.imag_rad_s),
      dampingRatio: rows.map((row) => row[i]!.dampingRatio),
    }));
    return {
      id: plan.id,
      title: plan.title,
      axis: plan.axis,
      condition: "hook",
      mass,
      values: plan.values,
      at: plan.at,
      tracks,
    };
  });
}

export function fixtureMap(state: FixtureState, mass: string): StabilityMap {
  const x = logarithmic(100, 1e5, 46);
  const y = logarithmic(5e3, 5e6, 40);
  const worst = y.flatMap((bending) =>
    x.map((snubber) => worstDamping(fixtureModes({ ...state, bending, snubber }), "longitudinal")),
  );
  return {
    id: `snubber-bending.longitudinal.${mass}`,
    title: "Least damping ratio over snubber rate and boom bending stiffness",
    condition: "hook",
    mass,
    x: { label: "snubber rate at the tip", unit: "N*s/m", values: x },
    y: { label: "boom bending stiffness at the tip", unit: "N/m", values: y },
    plane: "longitudinal",
    worst,
    boundaries: [0, 0.03].map((level) => ({ level, lines: isolines(x, y, worst, level) })),
    marks: [
      { label: "Rev A", x: 2000, y: 60e3 },
      { label: "Rev B", x: 3500, y: 90e3 },
    ],
  };
}

export function fixtureSnubber(state: FixtureState, mass: string): SnubberCurve {
  const rates = logarithmic(100, 1e5, 61);
  const worst = rates.map((snubber) => worstDamping(fixtureModes({ ...state, snubber }), "longitudinal"));
  const best = worst.indexOf(Math.max(...worst));
  return {
    mass,
    rate_N_s_m: rates,
    worstDampingRatio: worst,
    optimum: { rate_N_s_m: rates[best]!, dampingRatio: worst[best]!, atAirspeed_m_s_EAS: 85 },
    at_N_s_m: state.snubber,
  };
}

function intervalsAbove(k: readonly number[], zeta: readonly number[], level: number): StiffnessInterval[] {
  const found: StiffnessInterval[] = [];
  let from: number | null = null;
  for (let i = 0; i < k.length; i++) {
    const inside = zeta[i]! >= level;
    if (inside && from === null) from = i === 0 ? 0 : k[i]!;
    if (!inside && from !== null) {
      found.push({ from_N_m: from, to_N_m: k[i - 1]! });
      from = null;
    }
  }
  if (from !== null) found.push({ from_N_m: from, to_N_m: null });
  return found;
}

export function fixtureStiffness(state: FixtureState, mass: string): StiffnessNeed {
  const k = logarithmic(100, 1e7, 101);
  const zeta = k.map(
    (value) => heavePitchDamping(value, 0, state.airspeed, state.boomAngle) + (state.mass - 2600) * 1e-5,
  );
  const meets = intervalsAbove(k, zeta, 0.03);
  return {
    mass,
    criterion_1: 0.03,
    stable: intervalsAbove(k, zeta, 0),
    meetsCriterion: meets,
    headline_N_m: meets.find((one) => one.to_N_m === null)?.from_N_m ?? null,
    classChanges_N_m: [],
    curve: { stiffness_N_m: k, worstDampingRatio: zeta },
  };
}

export function fixturePilotTime(state: FixtureState, pointId: string): PilotTime[] {
  const modes = fixtureModes(state);
  return (["longitudinal", "lateral"] as const).map((plane) => {
    const mode = modes.find((one) => one.plane === plane)!;
    const upset = plane === "longitudinal" ? 1 : 2;
    const limit = plane === "longitudinal" ? 10 : 30;
    const time: number[] = [];
    const angle: number[] = [];
    let reached: number | null = null;
    for (let t = 0; t <= 60 && reached === null; t += 0.05) {
      const value = upset * Math.exp(mode.real_1_s * t) * Math.cos(mode.imag_rad_s * t);
      time.push(Math.round(t * 1e6) / 1e6);
      angle.push(value);
      if (Math.abs(value) >= limit) reached = t;
    }
    return {
      pointId,
      plane,
      outcome: reached === null ? "stays inside" : "limit reached",
      time_s: reached,
      linearEstimate_s: mode.real_1_s > 0 ? Math.log(limit / upset) / mode.real_1_s : null,
      upset_deg: upset,
      limit_deg: limit,
      history: { time_s: time, angle_deg: angle },
    };
  });
}
