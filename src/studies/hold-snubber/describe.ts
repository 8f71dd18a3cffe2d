import type { Confirmation } from "./confirm.ts";
import type { Lasting, LastingCycle } from "./lasting.ts";
import type { Cycle, RefinedCycle } from "./nodding.ts";
import type { LinearCycle, NoddingCycle, NoddingGrowth, NoddingSimulation } from "./types.ts";

const DEGREE = Math.PI / 180;
const TURN = 2 * Math.PI;

export function describeLinear({ rate, omega, tip, attracts }: Cycle, refined: RefinedCycle | null): LinearCycle {
  return {
    rate_N_s_m: rate,
    frequency_Hz: omega / TURN,
    tipAmplitude_m: tip,
    attracts,
    harmonics: refined === null ? null : { frequency_Hz: refined.omega / TURN, tipAmplitude_m: refined.tip },
  };
}

export function describeCycle({ motion, size, attracts, orbit }: LastingCycle): NoddingCycle {
  return {
    frequency_Hz: motion.omega / TURN,
    snubberAmplitude_m: size.travel,
    tipAmplitude_m: size.tip,
    pitchAmplitude_deg: size.pitch / DEGREE,
    attracts,
    orbit:
      orbit === null
        ? null
        : {
            frequency_Hz: 1 / orbit.period,
            tipAmplitude_m: orbit.tip,
            largestMultiplier_1: orbit.multipliers.largest,
            amplitudeDifference_1: orbit.tip / size.tip - 1,
            frequencyDifference_1: TURN / (orbit.period * motion.omega) - 1,
          },
  };
}

export function describeGrowth({ curve }: Lasting): NoddingGrowth {
  return {
    tipAmplitude_m: curve.map(({ size }) => size.tip),
    growth_1_s: curve.map(({ motion }) => motion.parameter),
    frequency_Hz: curve.map(({ motion }) => motion.omega / TURN),
  };
}

export function describeSimulation(confirmation: Confirmation): NoddingSimulation {
  const { side, start, settled, agrees } = confirmation;
  const isSettled = settled.outcome === "settles";
  return {
    ...{ side, startAmplitude_m: start, outcome: settled.outcome, agrees },
    // what has died out or left has none that lasts
    frequency_Hz: isSettled ? settled.omega / TURN : null,
    tipAmplitude_m: isSettled ? settled.tip : null,
    pitchAmplitude_deg: isSettled ? settled.pitch / DEGREE : null,
    time_s: settled.time,
    amplitudeDifference_1: confirmation.amplitudeDifference,
    frequencyDifference_1: confirmation.frequencyDifference,
    timeDifference_1: confirmation.timeDifference,
  };
}
