/**
 * Numbers as people read them: significant digits, unit prefixes, signs.
 *
 * Only for print; results are stored by the canonical writer of `result`.
 */
import { DomainError } from "../../math/errors.ts";

export interface NumberStyle {
  /** Significant digits; whole digits before the point are never rounded away. Default 3. */
  readonly digits?: number;
  /** Sign put before negative numbers: typographic on pages, plain in a terminal. Default "−". */
  readonly minus?: "−" | "-";
}

const SUPERSCRIPT = "⁰¹²³⁴⁵⁶⁷⁸⁹";

function power(exponent: number, minus: string): string {
  const digits = [...String(Math.abs(exponent))].map((digit) => SUPERSCRIPT[Number(digit)]).join("");
  if (minus === "-") return `e${exponent}`;
  return `×10${exponent < 0 ? "⁻" : ""}${digits}`;
}

/**
 * A number with a stated count of significant digits; powers of ten outside 1e-4 … 1e7.
 *
 * @param value any finite number, any unit
 * @throws {DomainError} if `value` is not finite
 */
export function formatNumber(value: number, style: NumberStyle = {}): string {
  if (!Number.isFinite(value)) throw new DomainError("printed number", value, "a finite number");
  const { digits = 3, minus = "−" } = style;
  if (value === 0) return "0";
  const size = Math.abs(value);
  const sign = value < 0 ? minus : "";
  if (size >= 1e7 || size < 1e-4) {
    const [mantissa, exponent] = size.toExponential(digits - 1).split("e");
    return `${sign}${mantissa}${power(Number(exponent), minus)}`;
  }
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(size)));
  return sign + size.toFixed(Math.min(decimals, 20));
}

/**
 * A number with a fixed count of decimals, a true zero instead of "−0.00".
 *
 * @throws {DomainError} if `value` is not finite
 */
export function formatFixed(value: number, decimals: number, minus: "−" | "-" = "−"): string {
  if (!Number.isFinite(value)) throw new DomainError("printed number", value, "a finite number");
  const digits = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(digits) !== 0 ? minus + digits : digits;
}

/**
 * A number as short as it can be, up to six significant digits and without padding zeros: 95, 0.03, 1.2×10⁷.
 *
 * @throws {DomainError} if `value` is not finite
 */
export function formatShort(value: number, minus: "−" | "-" = "−"): string {
  if (!Number.isFinite(value)) throw new DomainError("printed number", value, "a finite number");
  const size = Math.abs(value);
  if (size !== 0 && (size >= 1e7 || size < 1e-4)) return formatNumber(value, { digits: 2, minus });
  return String(Number(value.toPrecision(6))).replace("-", minus);
}

/**
 * A value to be read against a limit: as many digits as it takes to see on which side it lies.
 *
 * @param value the number to print, unit of `limit`
 * @param limit what it will be compared with
 */
export function formatAgainst(value: number, limit: number, style: NumberStyle = {}): string {
  const first = style.digits ?? 3;
  // nearer than this the difference is one of rounding, and more digits would say nothing
  if (Math.abs(value - limit) > 1e-9 * Math.abs(limit)) {
    for (let digits = first; digits <= 15; digits++) {
      const text = formatNumber(value, { ...style, digits });
      if (text !== formatNumber(limit, { ...style, digits })) return text;
    }
  }
  return formatNumber(value, style);
}
