/** Units as printed, and the decimal prefix that keeps a number readable. */
import { formatAgainst, formatNumber, formatShort, type NumberStyle } from "./format.ts";

/** Units that take a prefix in reports; all others are printed as they are. */
const PREFIXED = new Set(["N", "N/m", "N·s/m", "N·m", "Pa"]);

/** `N*s/m` → `N·s/m`, `m^2` → `m²`; "1" → "" (dimensionless). */
export function prettyUnit(unit: string): string {
  if (unit === "1") return "";
  return unit.replaceAll("*", "·").replace(/\^2\b/g, "²").replace(/\^3\b/g, "³");
}

export interface UnitScale {
  /** Printed number = value × factor. */
  readonly factor: number;
  /** Printed unit. */
  readonly unit: string;
}

/**
 * Prefix for printing values of about `size`: none below 1000, then k, then M; lengths below a metre in millimetres.
 *
 * @param unit as stored, e.g. "N*s/m"
 * @param size typical absolute value in `unit`
 */
export function scaleUnit(unit: string, size: number): UnitScale {
  const pretty = prettyUnit(unit);
  const magnitude = Math.abs(size);
  if (pretty === "m" && magnitude < 1 && magnitude > 0) return { factor: 1e3, unit: "mm" };
  if (!PREFIXED.has(pretty) || magnitude < 1e3) return { factor: 1, unit: pretty };
  return magnitude < 1e6 ? { factor: 1e-3, unit: `k${pretty}` } : { factor: 1e-6, unit: `M${pretty}` };
}

/** Number and unit in one string: `52.4 kN/m`, `0.031`. */
export function formatQuantity(value: number, unit: string, style: NumberStyle = {}): string {
  const scale = scaleUnit(unit, value);
  return withUnit(formatNumber(value * scale.factor, style), scale.unit);
}

/** As `formatQuantity` without padding zeros and with lengths in metres throughout: `95 m/s`, `0.6 MN/m`, `0.02 m`. */
export function formatShortQuantity(value: number, unit: string, minus: "−" | "-" = "−"): string {
  const scale = unit === "m" ? { factor: 1, unit } : scaleUnit(unit, value);
  return withUnit(formatShort(value * scale.factor, minus), scale.unit);
}

/** A value and its limit in one common unit, with enough digits to tell them apart. */
export function formatPair(
  value: number,
  limit: number,
  unit: string,
  style: NumberStyle = {},
): { readonly value: string; readonly limit: string } {
  const scale = scaleUnit(unit, Math.max(Math.abs(value), Math.abs(limit)));
  return {
    value: withUnit(formatAgainst(value * scale.factor, limit * scale.factor, style), scale.unit),
    limit: withUnit(formatShort(limit * scale.factor, style.minus), scale.unit),
  };
}

function withUnit(number: string, unit: string): string {
  if (unit === "") return number;
  return unit === "°" || unit === "%" ? `${number}${unit === "%" ? " %" : "°"}` : `${number} ${unit}`;
}
