/** Terminal text of the part `snubber` of `hold`. */
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import type { Nodding, SnubberPoint } from "../../studies/hold-snubber/types.ts";
import { formatFixed, formatNumber, formatQuantity } from "../numbers/index.ts";
import { type Column, paragraph, table } from "./columns.ts";
import { type Look, PLAIN } from "./study-text.ts";

function noddingWords({ outcome, cycles, reach_m }: Nodding): string {
  const last = cycles.at(-1);
  const size = (metres: number): string => `±${formatNumber(metres * 1e3, PLAIN)} mm`;
  if (outcome === "grows") return `${outcome} past ${size(reach_m)}`;
  if (last === undefined) return outcome;
  return `${outcome}: ${last.attracts ? "" : "beyond "}${size(last.orbit?.tipAmplitude_m ?? last.tipAmplitude_m)}`;
}

function pointRow(point: SnubberPoint): string[] {
  const zeta = (value: number | null): string => (value === null ? "" : formatFixed(value, 4, "-"));
  return [
    `${point.condition} × ${point.mass}`,
    formatFixed(point.temperature_degC, 0, "-"),
    formatFixed(point.pressure_Pa / 1e6, 2, "-"),
    `${point.accumulator === "gas" ? "" : "! "}${formatNumber(point.accumulatorStiffness_N_m / 1e3, PLAIN)}`,
    formatNumber(point.rate_N_s_m / 1e3, PLAIN),
    zeta(point.dampingRatio),
    zeta(point.smallDampingRatio),
    noddingWords(point.nodding),
  ];
}

/** Points by oil temperature, the slow stroke, the failed states. */
export function holdSnubberText({ parts }: HoldDepthResult, { width }: Look): string[] {
  const snubber = parts?.snubber;
  if (snubber === undefined) return [];
  const columns: Column[] = [
    { heading: "point", width: 14 },
    { heading: "oil, °C", width: 7, align: "right" },
    { heading: "p, MPa", width: 6, align: "right" },
    { heading: "ka, kN/m", width: 8, align: "right" },
    { heading: "c, kN·s/m", width: 9, align: "right" },
    { heading: "ζ", width: 7, align: "right" },
    { heading: "ζ small", width: 7, align: "right" },
    { heading: "nodding, tip", width: width - 74 },
  ];
  const slow = snubber.slow.map(({ temperature_degC, jackForce_N, capacityShare_1, strokeTime_s }) => {
    const share = capacityShare_1 === null ? "" : ` (${formatFixed(100 * capacityShare_1, 1, "-")} % of the capacity)`;
    const time = strokeTime_s === null ? ", the load stops it" : `, ${formatNumber(strokeTime_s, PLAIN)} s`;
    return `${formatFixed(temperature_degC, 0, "-")} °C ${formatQuantity(jackForce_N, "N", PLAIN)}${share}${time}`;
  });
  const failed = snubber.failed.map(({ state, mass, dampingRatio, timeToDouble_s, outcome }) => {
    const zeta = dampingRatio === null ? "" : ` ζ ${formatFixed(dampingRatio, 4, "-")}`;
    const grows = timeToDouble_s === null ? "" : `, x2 in ${formatNumber(timeToDouble_s, PLAIN)} s`;
    return `${state} ${mass}${outcome === "no balance" ? ": no balance" : `:${zeta}${grows}`}`;
  });
  return [
    "SNUBBER AS HARDWARE (values at the tip)",
    ...table(columns, snubber.points.map(pointRow), "  "),
    ...paragraph(`slow stroke at the jack: ${slow.join("; ")}`, width, "  ", "    "),
    ...paragraph(`failed: ${failed.join("; ")}`, width, "  ", "    "),
    "",
  ];
}
