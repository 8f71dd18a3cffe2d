/** Fixture: the part `control` of a made-up result. Not physics. */
import type {
  AttachmentState,
  ControlLoop,
  FailureCase,
  FailureHistory,
  GainSet,
  HoldControl,
  LoopName,
} from "../../studies/hold-control/types.ts";

const OMEGA = Array.from({ length: 60 }, (_, i) => 0.05 * 4000 ** (i / 59));

function loop(name: LoopName, state: AttachmentState, gains: GainSet, stable: boolean): ControlLoop {
  const size = state === "free" ? 3 : 1.5;
  return {
    ...{ condition: "hook", mass: "full", state, gains, loop: name, functions: [name], stable },
    ...{ growingRootsOpen: 0, growingRoots: stable ? 0 : 2, growingRootsExact: stable ? 0 : null },
    ...{ gainIncrease_1: stable ? 4 : null, gainDecrease_1: null, phaseMargin_deg: stable ? 57.3 : null },
    ...{ delayMargin_s: stable ? 0.21 : null, crossover_rad_s: size, closest_1: 0.7 },
    curve: {
      omega_rad_s: OMEGA,
      gain_dB: OMEGA.map((omega) => 20 * Math.log10(size / omega)),
      phase_deg: OMEGA.map((omega) => -90 - 10 * omega),
    },
  };
}

function history(action: FailureHistory["action"], state: AttachmentState): FailureHistory {
  const time_s = Array.from({ length: 41 }, (_, i) => 0.05 * i);
  const grow = action === "none" ? 1 : 0.4;
  return {
    ...{ action, time_s, pitch_deg: time_s.map((t) => grow * t), bank_deg: time_s.map((t) => 15 * grow * t) },
    load_kN: time_s.map((t) => (state === "free" ? 0 : 3 * grow * t)),
    surface_deg: time_s.map((t) => Math.min(6, 40 * t)),
  };
}

function failure(state: AttachmentState, reached: boolean): FailureCase {
  const settled = { from_s: 0.6, limitAt_s: null, limit: null } as const;
  return {
    ...{ condition: "hook", mass: "full", state, function: "roll hold", needed: reached, kind: "hard-over" },
    ...{ detail: "to the right", upset_1: null, timeToLimit_s: reached ? 2 : null, limit: reached ? "bank" : null },
    largestShare_1: reached ? 1 : 0.2,
    recoveries: reached
      ? [
          { action: "switch off", outcome: "held", ...settled },
          { action: "pilot takes over", outcome: "limit reached", from_s: 0.6, limitAt_s: 3.1, limit: "bank" },
        ]
      : [],
    releaseInTime: state === "free" ? null : reached,
    histories: reached ? (["none", "switch off", "pilot takes over"] as const).map((each) => history(each, state)) : [],
  };
}

/** A part with a stable free aircraft, a hooked one of which one loop is not stable, and one failure that reaches its limit in each state. */
export function fixtureControl(): HoldControl {
  const lateral = (value: number) => ({
    dampingRatio: [value, value + 0.01],
    worst: { value, airspeed_m_s_EAS: 85, mass: "full" },
  });
  const states = ["free", "single point"] as const;
  return {
    padeOrder: 3,
    criteria: { gainMargin_1: 2, phaseMargin_deg: 45, delayMargin_s: 0.1, resonance_1: 2.5, phaseDelay_s: 0.2 },
    failureSettings: {
      ...{ recognition_s: 0.6, release_s: 0.5, duration_s: 15 },
      ...{ pitchLimit_deg: 10, bankLimit_deg: 30, loadLimit_kN: 15 },
    },
    loops: states.flatMap((state) =>
      (["elevator", "aileron", "pilot in pitch", "pilot in bank"] as const).map((name) =>
        loop(name, state, state === "free" ? "free" : "hooked", state === "free" || name !== "elevator"),
      ),
    ),
    pilots: states.map((state) => ({
      ...{ condition: "hook", mass: "full", state, gains: state === "free" ? ("free" as const) : ("hooked" as const) },
      ...{ axis: "bank" as const, tunedFor: "free" as const, gain_1: 0.5, lead_s: 0.2, lag_s: 0, slope_1: -1 },
      ...{ stable: state === "free", growsWithout: false, resonance_1: state === "free" ? 1.4 : null },
      ...{ resonanceAt_rad_s: state === "free" ? 2 : null, phaseDelay_s: null, phase180_rad_s: null },
    })),
    modes: states.map((state) => ({
      ...{ condition: "hook", mass: "full", state, gains: "none" as const, plane: "lateral" as const },
      ...{ worstDampingRatio: 0.02, frequency_Hz: 0.4, timeToDouble_s: null, meetsCriteria: false },
    })),
    authority: [...states, "three point" as const].map((state) => ({
      ...{ condition: "hook", mass: "full", state, surface: "elevator" as const },
      ...{ angle_deg: state === "three point" ? 0.02 : 3, load_kN: state === "free" ? 0 : 2 },
      movesNothing: state === "three point",
    })),
    rollHold: [
      {
        ...{ condition: "hook", airspeed_m_s_EAS: [85, 125] },
        ...{ none: lateral(-0.01), alone: lateral(0.06), others: lateral(0.07) },
      },
    ],
    failures: states.flatMap((state) => [failure(state, true), failure(state, false)]),
    noTrim: [],
  };
}
