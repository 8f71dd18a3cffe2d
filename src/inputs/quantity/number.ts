/** A number read out of a text, and where it ended. */
export type ReadNumber =
  | { readonly ok: true; readonly value: number; readonly end: number }
  | { readonly ok: false; readonly message: string; readonly index: number };

// digits may be grouped in threes by a blank, a no-break blank or a thin blank: 15 000
const NUMBER = /[+\-−]?(?:\d{1,3}(?:[ \u00a0\u2009\u202f]\d{3})+(?!\d)|\d+)?(?:\.\d*)?(?:[eE][+\-−]?\d+)?/y;
const WORD = /[+\-−]?\.?(nan|inf|infinity|∞)\b/iy;

export const ALLOWED_NUMBER = "a number such as 12, 0.5, -3.2e4 or 15 000";

/**
 * Reads the number that starts at `start`.
 *
 * The decimal sign is a point; a comma is refused because it is read in two ways. Thousands may be set off by a blank.
 *
 * @param text   where to read
 * @param start  index of the first character
 */
export function readNumber(text: string, start: number): ReadNumber {
  let at = start;
  while (/\s/.test(text[at] ?? "")) at++;
  WORD.lastIndex = at;
  if (WORD.test(text)) return { ok: false, index: at, message: "is not a finite number" };
  NUMBER.lastIndex = at;
  const found = NUMBER.exec(text)?.[0] ?? "";
  if (!/\d/.test(found)) return { ok: false, index: at, message: "does not start with a number" };
  const end = at + found.length;
  const after = text[end] ?? "";
  if (after === "," || after === "'" || after === "_") {
    return { ok: false, index: end, message: `"${after}" in a number can be read in two ways; use a decimal point` };
  }
  if (/[.\d]/.test(after)) return { ok: false, index: end, message: "has digits that do not form one number" };
  const value = Number(found.replace(/[\s\u00a0\u2009\u202f]/g, "").replace(/−/g, "-"));
  if (!Number.isFinite(value)) return { ok: false, index: at, message: "is too large for a number" };
  return { ok: true, value, end };
}
