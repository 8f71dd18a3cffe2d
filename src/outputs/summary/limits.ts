/** Limits of operation in words that cannot be read two ways. */
import type { Limit, LimitStatus } from "../../studies/finding/types.ts";
import { formatShort, scaleUnit } from "../numbers/index.ts";

export interface RangeStyle {
  readonly minus?: "−" | "-";
  /** Significant digits. Default 4. */
  readonly digits?: number;
}

/** Parts of the last digit that are arithmetic, not a digit more. */
const NOISE = 1e-6;

/**
 * Rounds an end of a range to `digits` in a chosen direction.
 *
 * @param up towards larger values
 */
function roundEnd(value: number, digits: number, up: boolean): number {
  if (value === 0) return 0;
  const decimals = digits - 1 - Math.floor(Math.log10(Math.abs(value)));
  const scale = 10 ** Math.abs(decimals);
  const steps = decimals >= 0 ? value * scale : value / scale;
  const nearest = Math.round(steps);
  const whole = Math.abs(steps - nearest) < NOISE ? nearest : up ? Math.ceil(steps) : Math.floor(steps);
  return decimals >= 0 ? whole / scale : whole * scale;
}

/**
 * The range of a limit: `from 70 m/s to 112.3 m/s`, `up to 112.3 m/s`, `from 70 m/s upwards`.
 *
 * Ends are rounded to the safe side: a range that may be used shrinks, one that may not grows, so that neighbours
 * still meet at one number.
 */
export function limitRange({ lower, upper, unit, status }: Limit, style: RangeStyle = {}): string {
  if (lower === null && upper === null) return "no range stated";
  const { minus = "−", digits = 4 } = style;
  const shrinks = status === "demonstrated" || status === "analysed";
  const scale = scaleUnit(unit, Math.max(Math.abs(lower ?? 0), Math.abs(upper ?? 0)));
  const end = (value: number, up: boolean): string =>
    `${formatShort(roundEnd(value * scale.factor, digits, up), minus)} ${scale.unit}`.trimEnd();
  if (lower === null) return `up to ${end(upper!, !shrinks)}`;
  if (upper === null) return `from ${end(lower, shrinks)} upwards`;
  return `from ${end(lower, shrinks)} to ${end(upper, !shrinks)}`;
}

const INSIDE: Readonly<Record<LimitStatus, string>> = {
  demonstrated: "shown by test inside this range",
  analysed: "computed to meet every criterion inside this range (not flown)",
  prohibited: "forbidden inside this range",
  "not cleared": "not cleared inside this range",
};

/** What the status says about the range; nothing where no range is stated. */
export function limitMeaning({ lower, upper, status }: Limit): string {
  return lower === null && upper === null ? "" : INSIDE[status];
}
