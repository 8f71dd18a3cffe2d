import type { HookonResult } from "../../studies/hookon/types.ts";
import { caseWords } from "../names/index.ts";
import { countVerdicts } from "./key-numbers.ts";
import type { HookonNumbers } from "./types.ts";

/** The numbers of `hookon` that variants are compared by; `null` when no case was run. */
export function hookonNumbers(result: HookonResult): HookonNumbers | null {
  const plain = result.cases.filter(({ light, bothAtOnce }) => light === null && !bothAtOnce);
  const own = plain.find(({ sigma }) => sigma === result.design) ?? plain[0];
  if (own === undefined) return null;
  const { lower_m_s, upper_m_s } = result.window.simulated;
  return {
    verdict: countVerdicts(result.findings),
    case: caseWords(own),
    success_1: own.success.share_1,
    success_1_interval: [own.success.exact_1.lower, own.success.exact_1.upper],
    attempts: own.attempts.byBound,
    closure_m_s: [lower_m_s, upper_m_s],
    captureRadius_m: result.maps[0]?.captureRadius_m ?? null,
    axialLoad_N: own.quantities.find(({ key }) => key === "axialLoad_N")?.p99 ?? null,
  };
}
