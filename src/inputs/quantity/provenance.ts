import type { Problem } from "./problem.ts";

export const MATURITIES = ["estimate", "analysis", "wind tunnel", "ground test", "flight"] as const;
export type Maturity = (typeof MATURITIES)[number];

/** Where a value comes from. */
export interface Provenance {
  readonly source?: string;
  /** Day, month or year: 2026-11-01, 2026-11, 2026. */
  readonly date?: string;
  readonly maturity?: Maturity;
  /** True when nothing was stated at the value itself and the file's own `provenance` stands in. */
  readonly inherited: boolean;
}

export const NO_PROVENANCE: Provenance = { inherited: true };

const DATE = /^(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?$/;

/** True for an existing day, month or year in the form 2026-11-01. */
export function isDate(text: string): boolean {
  const match = DATE.exec(text);
  if (match === null) return false;
  const [year, month, day] = [Number(match[1]), Number(match[2] ?? 1), Number(match[3] ?? 1)];
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
  return day >= 1 && day <= days;
}

export const ALLOWED_DATE = "a day, month or year such as 2026-11-01, 2026-11 or 2026";
export const ALLOWED_MATURITY = MATURITIES.join(", ");

/** Reads source, date and maturity out of a map form; undefined when it states none of them. */
export function readProvenance(map: Readonly<Record<string, unknown>>, problems: Problem[]): Provenance | undefined {
  const { source, date, maturity } = map;
  if (source === undefined && date === undefined && maturity === undefined) return undefined;
  const out: { source?: string; date?: string; maturity?: Maturity; inherited: boolean } = { inherited: false };
  if (source !== undefined) {
    if (typeof source === "string" && source.trim() !== "") out.source = source;
    else problems.push({ key: "source", message: "must say where the value comes from", allowed: "words" });
  }
  if (date !== undefined) {
    const text = typeof date === "number" ? String(date) : date;
    if (typeof text === "string" && isDate(text)) out.date = text;
    else problems.push({ key: "date", message: "is not a date", allowed: ALLOWED_DATE });
  }
  if (maturity !== undefined) {
    const known = MATURITIES.find((word) => word === maturity);
    if (known !== undefined) out.maturity = known;
    else problems.push({ key: "maturity", message: "is not a known maturity", allowed: ALLOWED_MATURITY });
  }
  return out;
}
