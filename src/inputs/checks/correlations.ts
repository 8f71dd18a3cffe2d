import { nearest } from "../text/index.ts";
import type { Context } from "./context.ts";
import { isFaulty, lengthAt, quantityAt, report, wordAt } from "./context.ts";

/** Slack on the smallest pivot: coefficients are rounded figures. */
const SLACK = 1e-9;
/** Correlations of one pair. */
const MOST = 500;

/** Correlations: both values exist and are uncertain, no pair twice, and all of them can hold together. */
export function checkCorrelations(context: Context): void {
  const count = lengthAt(context, ["correlations"]);
  if (count > MOST) {
    report(context, ["correlations"], "there are too many correlations", `up to ${MOST}`);
    return;
  }
  const names = new Set<string>();
  const coefficients = new Map<string, number>();
  for (let i = 0; i < count; i++) {
    const path = ["correlations", i] as const;
    const [a, b] = [0, 1].map((end) => uncertainPath(context, [...path, "between", end]));
    const coefficient = quantityAt(context, [...path, "coefficient"])?.si;
    if (a === undefined || b === undefined || coefficient === undefined) continue;
    if (a === b) report(context, [...path, "between", 1], "correlates a value with itself", "two different values");
    else if (coefficients.has(`${a} ${b}`)) {
      report(context, [...path, "between"], `correlates ${a} and ${b} a second time`, "each pair of values once");
    } else {
      coefficients.set(`${a} ${b}`, coefficient).set(`${b} ${a}`, coefficient);
      names.add(a).add(b);
    }
  }
  const matrix = [...names].map((row) =>
    [...names].map((column) => (row === column ? 1 : (coefficients.get(`${row} ${column}`) ?? 0))),
  );
  if (isPositiveSemidefinite(matrix)) return;
  const message = "the correlations contradict each other: no values can be correlated like this together";
  report(context, ["correlations"], message, "a matrix of coefficients without negative eigenvalues");
}

function uncertainPath(context: Context, path: readonly (string | number)[]): string | undefined {
  const wanted = wordAt(context, path);
  if (wanted === undefined) return undefined;
  const value = context.values.get(wanted);
  const carries =
    typeof value === "object" && value.type !== "table" && value.type !== "mesh"
      ? value.uncertainty !== undefined
      : false;
  if (value === undefined && isFaulty(context, wanted)) return undefined;
  if (value === undefined) {
    const near = nearest(wanted, context.values.keys());
    const hint = near === undefined ? "" : `; did you mean ${near}?`;
    report(context, path, `no value has this path${hint}`, "the path of a value that carries an uncertainty");
  } else if (!carries) report(context, path, "the value carries no uncertainty", "a value with ±");
  return carries ? wanted : undefined;
}

/**
 * Whether a symmetric matrix with unit diagonal has no negative eigenvalue, up to rounding of its entries.
 *
 * Cholesky factorisation of the matrix with `SLACK` added to the diagonal (README of `checks`, eq. 4).
 *
 * @param matrix  shape (n, n)
 */
export function isPositiveSemidefinite(matrix: readonly (readonly number[])[]): boolean {
  const n = matrix.length;
  const lower: number[][] = [];
  for (let i = 0; i < n; i++) {
    const row: number[] = [];
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i]![j]! + (i === j ? SLACK : 0);
      for (let k = 0; k < j; k++) sum -= (i === j ? row[k]! : lower[j]![k]!) * row[k]!;
      if (i !== j) row.push(sum / lower[j]![j]!);
      else if (sum <= 0) return false;
      else row.push(Math.sqrt(sum));
    }
    lower.push(row);
  }
  return true;
}
