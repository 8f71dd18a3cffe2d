import type { WordSpec } from "../schema/index.ts";
import { nearest } from "../text/index.ts";

const DAY = /^(\d{4})-(\d{2})-(\d{2})$/;
const LENGTHS = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Whether a text is a day of the calendar, YYYY-MM-DD. */
export function isDay(text: string): boolean {
  const [year, month, day] = (DAY.exec(text) ?? []).slice(1).map(Number);
  if (year === undefined || month === undefined || day === undefined) return false;
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const length = month === 2 && !leap ? 28 : LENGTHS[month - 1];
  return length !== undefined && day >= 1 && day <= length;
}

/** What is wrong with a cell of a column of words. */
export function wordProblem(word: string, spec: WordSpec): { message: string; allowed: string } | undefined {
  const allowed = spec.choices?.join(", ") ?? (spec.day ? "a day as 2026-10-31" : "words");
  if (word === "") return spec.gaps ? undefined : { message: "a cell is empty", allowed };
  if (spec.day && !isDay(word)) return { message: "is not a day", allowed };
  if (spec.choices === undefined || spec.choices.includes(word)) return undefined;
  const near = nearest(word, spec.choices);
  return { message: `is not one of the choices${near === undefined ? "" : `; did you mean ${near}?`}`, allowed };
}
