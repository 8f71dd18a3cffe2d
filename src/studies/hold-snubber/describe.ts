import type { Cycle, RefinedCycle } from "./nodding.ts";
import type { Settled } from "./simulate.ts";
import type { NoddingCycle, NoddingSimulation } from "./types.ts";

const DEGREE = Math.PI / 180;
const TURN = 2 * Math.PI;

export function describeCycle({ rate, omega, travel, tip, pitch, attracts }: Cycle): NoddingCycle {
  return {
    rate_N_s_m: rate,
    frequency_Hz: omega / TURN,
    snubberAmplitude_m: travel,
    tipAmplitude_m: tip,
    pitchAmplitude_deg: pitch / DEGREE,
    attracts,
  };
}

export function describeSimulation(settled: Settled, cycle: Cycle, refined: RefinedCycle | null): NoddingSimulation {
  const against = refined ?? cycle;
  const isSettled = settled.outcome === "settles" && cycle.attracts;
  return {
    outcome: settled.outcome,
    frequency_Hz: settled.omega / TURN,
    tipAmplitude_m: settled.tip,
    pitchAmplitude_deg: settled.pitch / DEGREE,
    time_s: settled.time,
    amplitudeDifference_1: isSettled ? settled.tip / against.tip - 1 : null,
    frequencyDifference_1: isSettled ? settled.omega / against.omega - 1 : null,
  };
}
