import type { Dimension } from "./dimension.ts";
import { combine, NONE } from "./dimension.ts";
import { unitHint, unitNamed } from "./lookup.ts";

/** A unit expression in SI terms: SI value = (written value + offset) · factor. */
export interface Unit {
  readonly factor: number;
  /** Only for a temperature scale that stands alone; leave it out for a difference. */
  readonly offset: number;
  readonly dimension: Dimension;
}

export type ParsedUnit =
  | { readonly ok: true; readonly unit: Unit }
  | { readonly ok: false; readonly index: number; readonly message: string };

const LONGEST = 120;
const SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const NAME = /[A-Za-zµμ°%][A-Za-z0-9µμ]*/y;
const POWER = /\^\s*(\(\s*)?([+\-−]?\d+)(\s*\))?/y;
const RAISED = /(⁻?)([⁰¹²³⁴⁵⁶⁷⁸⁹]+)/y;

/**
 * Reads a unit expression such as `kN*s/m`, `kg m²`, `(m/s)^2` or `1/rad`.
 *
 *     expression = power { ("*" | "·" | blank) power } { "/" power }
 *     power      = ("1" | name | "(" expression ")") [ "^" integer | raised integer ]
 *
 * Several divisions follow each other from left to right; a product after a division is refused, because
 * `N/m s` is read in two ways. Digits in a name belong to the name (`g0`).
 *
 * @param text  the expression
 * @returns     the unit, or the index of the character at fault and what is wrong there
 * @source      own derivation, README of `units`, eq. 1
 * @verified    units.test.ts: every accepted expression against an independent unit library
 */
export function parseUnit(text: string): ParsedUnit {
  if (text.length > LONGEST) return { ok: false, index: LONGEST, message: `is longer than ${LONGEST} characters` };
  const reader: Reader = { text, at: 0, fault: undefined };
  const unit = expression(reader);
  if (reader.at < text.length) fail(reader, reader.at, `"${text[reader.at]!}" does not belong in a unit`);
  return reader.fault === undefined ? { ok: true, unit } : { ok: false, ...reader.fault };
}

interface Reader {
  readonly text: string;
  at: number;
  /** The first fault; once set, the reader stands at the end so that every loop stops. */
  fault: { readonly index: number; readonly message: string } | undefined;
}

const ONE: Unit = { factor: 1, offset: 0, dimension: NONE };

function fail(reader: Reader, index: number, message: string): Unit {
  reader.fault ??= { index, message };
  reader.at = reader.text.length;
  return ONE;
}

function blanks(reader: Reader): void {
  while (/\s/.test(reader.text[reader.at] ?? "")) reader.at++;
}

function expression(reader: Reader): Unit {
  let left = power(reader);
  let divided = false;
  for (;;) {
    blanks(reader);
    const at = reader.at;
    const next = reader.text[at];
    if (next === undefined || next === ")") return left;
    const divide = next === "/";
    const times = next === "*" || next === "·" || next === "⋅" || next === "×";
    if (divide || times) {
      reader.at++;
      blanks(reader);
    }
    if (!divide && divided) {
      return fail(reader, at, "a product after a division can be read in two ways: put what is divided by in brackets");
    }
    divided ||= divide;
    const right = power(reader);
    left = {
      factor: divide ? left.factor / right.factor : left.factor * right.factor,
      offset: 0,
      dimension: combine(left.dimension, right.dimension, divide ? -1 : 1),
    };
  }
}

function power(reader: Reader): Unit {
  const base = primary(reader);
  const exponent = exponentAt(reader);
  if (exponent === undefined) return base;
  return { factor: base.factor ** exponent, offset: 0, dimension: combine(NONE, base.dimension, exponent) };
}

function exponentAt(reader: Reader): number | undefined {
  const { text, at } = reader;
  POWER.lastIndex = at;
  const plain = POWER.exec(text);
  if (plain !== null) {
    if ((plain[1] === undefined) !== (plain[3] === undefined))
      return failPower(reader, at, "the bracket of the power does not close");
    reader.at += plain[0].length;
    return checkedPower(reader, at, Number(plain[2]!.replace("−", "-")));
  }
  if (text[at] === "^") return failPower(reader, at, "^ needs a whole number after it");
  RAISED.lastIndex = at;
  const raised = RAISED.exec(text);
  if (raised === null) return undefined;
  reader.at += raised[0].length;
  const digits = [...raised[2]!].map((digit) => SUPERSCRIPTS.indexOf(digit)).join("");
  return checkedPower(reader, at, Number(digits) * (raised[1] === "" ? 1 : -1));
}

function checkedPower(reader: Reader, at: number, exponent: number): number {
  if (exponent !== 0 && Math.abs(exponent) <= 9) return exponent;
  return failPower(reader, at, "a power is a whole number from -9 to 9, not 0");
}

function failPower(reader: Reader, at: number, message: string): number {
  fail(reader, at, message);
  return 1;
}

function primary(reader: Reader): Unit {
  const { text, at } = reader;
  if (text[at] === "(") {
    reader.at++;
    blanks(reader);
    const inside = expression(reader);
    if (text[reader.at] !== ")") return fail(reader, at, "this bracket does not close");
    reader.at++;
    return { ...inside, offset: 0 };
  }
  if (text[at] === "1" && !/[0-9.]/.test(text[at + 1] ?? "")) {
    reader.at++;
    return ONE;
  }
  NAME.lastIndex = at;
  const name = NAME.exec(text)?.[0];
  if (name === undefined) {
    const message = at >= text.length ? "a unit is missing at the end" : `"${text[at]!}" does not belong in a unit`;
    return fail(reader, at, message);
  }
  const found = unitNamed(name);
  if (found === undefined) {
    const hint = unitHint(name);
    return fail(reader, at, `unknown unit "${name}"${hint === undefined ? "" : `; ${hint}`}`);
  }
  reader.at += name.length;
  return { factor: found.factor, offset: found.offset ?? 0, dimension: found.dimension };
}
