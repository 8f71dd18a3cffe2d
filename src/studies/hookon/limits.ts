import type { Limit, LimitStatus } from "../finding/index.ts";
import { isDesign } from "./findings.ts";
import type { HookonInputs } from "./inputs.ts";
import { missingDisturbances } from "./texts.ts";
import type { ComputedHookon, HookonCase } from "./types.ts";

/** Limits of operation: closure, turbulence, attempts; not cleared where a disturbance has no data. */
export function hookonLimits(inputs: HookonInputs, computed: ComputedHookon): Limit[] {
  const missing = missingDisturbances(inputs);
  const open = missing.length > 0;
  const why = open ? `not cleared: no data for ${missing.join(", ")}` : "";
  return [
    closureLimit(inputs, computed, open, why),
    ...sigmaLimits(inputs, computed, open, why),
    ...computed.cases.filter((each) => isDesign(inputs, each)).map((each) => attemptLimit(inputs, each, open, why)),
  ];
}

const noted = (...words: readonly string[]): string => words.filter((word) => word !== "").join("; ");

function closureLimit(inputs: HookonInputs, { window }: ComputedHookon, open: boolean, why: string): Limit {
  const { lower_m_s, upper_m_s, upperBecause } = window.simulated;
  const practice = inputs.criteria.closure.value;
  const upper = Math.min(practice, upper_m_s ?? inputs.map.closure);
  const exists = lower_m_s !== null && lower_m_s < upper;
  const status: LimitStatus = !exists ? "prohibited" : open ? "not cleared" : "analysed";
  const because = upper < practice ? upperBecause : "published practice";
  return {
    id: "hookon.closure",
    title: "Closure at contact",
    quantity: "closure",
    lower: exists ? lower_m_s : null,
    upper: exists ? upper : null,
    unit: "m/s",
    status,
    because: ["hookon.window.lower", "hookon.window.upper", "hookon.window.planned"],
    note: noted(exists ? `upper end: ${because}; still air, on the axis` : "no closure latches soundly", why),
  };
}

/** Largest intensity up to which a controller meets the criterion of success in every case run. */
function sigmaLimits(inputs: HookonInputs, { cases }: ComputedHookon, open: boolean, why: string): Limit[] {
  return inputs.conditions.controllers.map((controller): Limit => {
    const own = cases
      .filter((each) => each.controller === controller && each.light === null && !each.bothAtOnce)
      .sort((a, b) => a.sigma_m_s - b.sigma_m_s);
    const first = own.findIndex(({ success }) => success.exact_1.lower < inputs.criteria.success.value);
    const met = first < 0 ? own : own.slice(0, first);
    const upper = met.at(-1)?.sigma_m_s ?? null;
    const status: LimitStatus = upper === null ? "prohibited" : open ? "not cleared" : "analysed";
    const tried = own.map(({ sigma_m_s }) => `${sigma_m_s}`).join(", ");
    return {
      id: `hookon.sigma.${own[0]?.key.replace(/-[a-z0-9]+$/, "") ?? controller}`,
      title: `Turbulence for hook-on, ${controller}`,
      quantity: "σ of the vertical gusts",
      ...{ lower: upper === null ? null : 0, upper, unit: "m/s", status },
      because: own.map(({ key }) => `hookon.success.${key}`),
      note: noted(
        upper === null ? "the criterion of success is met in no intensity that was run" : "",
        `intensities run: ${tried} m/s`,
        why,
      ),
    };
  });
}

function attemptLimit(inputs: HookonInputs, each: HookonCase, open: boolean, why: string): Limit {
  const { byBound } = each.attempts;
  const share = (100 * inputs.attemptsFor).toFixed(0);
  return {
    id: `hookon.attempts.${each.key}`,
    title: `Approaches to carry fuel for, ${each.title}`,
    quantity: `number of approaches, one success with ${share} %`,
    ...{ lower: byBound, upper: null, unit: "1" },
    status: byBound === null ? "prohibited" : open ? "not cleared" : "analysed",
    because: [`hookon.attempts.${each.key}`],
    note: noted(byBound === null ? "no number of approaches is enough" : "by the lower bound of the share", why),
  };
}
