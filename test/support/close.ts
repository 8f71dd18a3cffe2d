import { openRecalled, type PrintedNumber, type Reference } from "../../reference/load.ts";

/**
 * Comparison with a reference value that says how close and why that close.
 *
 * @param rtol  allowed |actual − expected| / |expected| [1]
 * @param atol  allowed |actual − expected|, in the unit of the values; the larger of the two allowances counts
 * @param why   what the allowance stands for, e.g. "one unit of the last printed digit"
 */
export interface Closeness {
  readonly rtol?: number;
  readonly atol?: number;
  readonly why: string;
}

function allowance(expected: number, { rtol, atol, why }: Closeness): number {
  if (rtol === undefined && atol === undefined) throw new Error("a comparison needs rtol or atol");
  const allowed = Math.max(atol ?? 0, (rtol ?? 0) * Math.abs(expected));
  if (!(allowed >= 0 && allowed < Number.POSITIVE_INFINITY) || why.trim() === "") {
    throw new Error(`a comparison needs finite allowances of 0 or more and a reason (rtol ${rtol}, atol ${atol})`);
  }
  return allowed;
}

/** Fails, with both numbers, the deviation and the reason, unless `actual` is as close to `expected` as stated. */
export function expectClose(actual: number, expected: number, closeness: Closeness, label = "value"): void {
  const allowed = allowance(expected, closeness);
  const deviation = Math.abs(actual - expected);
  if (deviation <= allowed) return;
  const relative = expected === 0 ? "" : ` (${(deviation / Math.abs(expected)).toExponential(2)} of it)`;
  throw new Error(
    `${label}: ${actual}, reference ${expected}, off by ${deviation.toExponential(3)}${relative}, ` +
      `allowed ${allowed.toExponential(3)} (${closeness.why})`,
  );
}

/** Checks two arrays of equal length element by element, see `expectClose`. */
export function expectAllClose(
  actual: ArrayLike<number>,
  expected: ArrayLike<number>,
  closeness: Closeness,
  label = "value",
): void {
  if (actual.length !== expected.length) {
    throw new Error(`${label}: ${actual.length} values, reference has ${expected.length}`);
  }
  for (let i = 0; i < expected.length; i++) expectClose(actual[i], expected[i], closeness, `${label}[${i}]`);
}

/** One comparison with a recalled value. */
export interface Guided {
  readonly label: string;
  readonly actual: number;
  readonly recalled: PrintedNumber;
}

/**
 * Compares with values that were recalled from memory. Such values guide and never gate: a deviation of more than one
 * unit of the last recalled digit is printed, and fails nothing.
 *
 * @param entry        reference entry with the status "from memory", `published/<slug>`; opened here and nowhere else
 * @param comparisons  makes the comparisons from the opened entry
 * @returns the largest deviation, in units of the last recalled digit
 */
export function guide(entry: string, comparisons: (opened: Reference) => readonly Guided[]): number {
  const opened = openRecalled(entry.replace(/^published\//, ""));
  let worst = 0;
  for (const { label, actual, recalled } of comparisons(opened)) {
    const units = Math.abs(actual - recalled.si) / recalled.lastDigitSi;
    worst = Math.max(worst, units);
    if (!(units <= 1 + 1e-9))
      console.warn(`guide ${entry}, ${label}: ${actual}, recalled ${recalled.printed} ${recalled.unit}`);
  }
  return worst;
}
