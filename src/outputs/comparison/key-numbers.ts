import type { Finding } from "../../studies/finding/types.ts";
import type { HoldResult, ModePlane, Sweep } from "../../studies/hold/types.ts";
import { overallVerdict } from "../summary/index.ts";
import type { BoomBending, HoldNumbers, PlaneNumbers, VerdictCount, WorstMode } from "./types.ts";

/** How many findings meet their criterion; those that only inform are left out. */
export function countVerdicts(findings: readonly Finding[]): VerdictCount {
  const count = (verdict: Finding["verdict"]): number =>
    findings.filter((finding) => finding.verdict === verdict).length;
  return {
    verdict: overallVerdict(findings),
    met: count("met"),
    notMet: count("not met"),
    notAnalysed: count("not analysed"),
  };
}

/** The numbers of `hold` that variants are compared by; `null` when there is no operating point. */
export function holdNumbers(result: HoldResult): HoldNumbers | null {
  const [first] = result.points;
  if (first === undefined) return null;
  const sweep = result.sweeps.find(({ id }) => id === "airspeed");
  const needs = result.stiffness.map((need) => need.headline_N_m);
  const boomAlone = result.findings.find(({ id }) => id.endsWith(".boom-first-mode"))?.value ?? null;
  return {
    verdict: countVerdicts(result.findings),
    bendingStiffness_N_m: first.bendingStiffness_N_m,
    accumulatorStiffness_N_m: first.accumulatorStiffness_N_m,
    snubberRate_N_s_m: first.snubberRate_N_s_m,
    planes: { longitudinal: planeNumbers(result, "longitudinal"), lateral: planeNumbers(result, "lateral") },
    neutralSearch:
      sweep === undefined
        ? null
        : { mass: sweep.mass, from_m_s_EAS: sweep.values[0]!, to_m_s_EAS: sweep.values.at(-1)! },
    stiffnessNeed_N_m: needs.length === 0 || needs.includes(null) ? null : Math.max(...needs.map(Number)),
    snubberOptimum: snubberOptimum(result),
    boomAlone_Hz: boomAlone,
    boomBending: boomBending(result),
  };
}

/** Best rate over all masses, which the study puts last. */
function snubberOptimum({ snubber }: HoldResult): HoldNumbers["snubberOptimum"] {
  const curve = snubber.at(-1);
  if (curve === undefined) return null;
  const { rate_N_s_m: rate, dampingRatio } = curve.optimum;
  const [from, to] = [curve.rate_N_s_m[0]!, curve.rate_N_s_m.at(-1)!];
  return { rate_N_s_m: rate, dampingRatio_1: dampingRatio, atEnd: rate <= 1.001 * from || rate >= 0.999 * to };
}

function planeNumbers(result: HoldResult, plane: ModePlane): PlaneNumbers {
  const sweep = result.sweeps.find(({ id }) => id === "airspeed");
  return {
    worst: worstMode(result, plane),
    neutralAirspeeds_m_s_EAS: sweep === undefined ? [] : neutralValues(sweep, plane),
    clearAirspeeds_m_s_EAS: result.limits
      .filter(({ id, status }) => status === "analysed" && id.includes(`airspeed-${plane}`))
      .flatMap(({ lower, upper }): [number, number][] => (lower === null || upper === null ? [] : [[lower, upper]])),
  };
}

function worstMode(result: HoldResult, plane: ModePlane): WorstMode | null {
  let worst: WorstMode | null = null;
  for (const { condition, mass, modes } of result.points) {
    for (const mode of modes) {
      if (mode.plane !== plane || mode.class === "structural" || mode.imag_rad_s === 0) continue;
      if (worst !== null && mode.dampingRatio >= worst.dampingRatio_1) continue;
      const { name, frequency_Hz, dampingRatio } = mode;
      worst = { dampingRatio_1: dampingRatio, mode: name, frequency_Hz, condition, mass };
    }
  }
  return worst;
}

/** Where a track of the plane passes through zero damping, by straight lines between the samples of the sweep. */
function neutralValues({ values, tracks }: Sweep, plane: ModePlane): number[] {
  const found: number[] = [];
  for (const track of tracks) {
    if (track.plane !== plane || track.class === "structural") continue;
    for (let i = 1; i < values.length; i++) {
      const [a, b] = [track.dampingRatio[i - 1], track.dampingRatio[i]];
      const oscillates = (track.imag_rad_s[i - 1] ?? 0) > 0 && (track.imag_rad_s[i] ?? 0) > 0;
      if (a == null || b == null || !oscillates || a < 0 === b < 0) continue;
      found.push(values[i - 1]! + ((values[i]! - values[i - 1]!) * a) / (a - b));
    }
  }
  return found.sort((a, b) => a - b);
}

const BENDING = /^boom bending/;

function boomBending(result: HoldResult): HoldNumbers["boomBending"] {
  const modes = result.points.flatMap((point) => point.modes).filter(({ name }) => BENDING.test(name));
  if (modes.length === 0) return "none taken in";
  let lowest: BoomBending | "does not oscillate" = "does not oscillate";
  for (const { plane, frequency_Hz, dampingRatio, imag_rad_s } of modes) {
    if (imag_rad_s === 0 || (lowest !== "does not oscillate" && frequency_Hz >= lowest.frequency_Hz)) continue;
    lowest = { plane, frequency_Hz, dampingRatio_1: dampingRatio };
  }
  return lowest;
}
