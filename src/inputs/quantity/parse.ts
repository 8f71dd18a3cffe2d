import type { Unit } from "../units/index.ts";
import { parseUnit, sameDimension } from "../units/index.ts";
import type { Kind } from "./kinds.ts";
import { allowedUnits, nameDimension } from "./kinds.ts";
import { ALLOWED_NUMBER, readNumber } from "./number.ts";
import type { Distribution, Parsed, Uncertainty } from "./types.ts";
import { readUncertainty } from "./uncertainty.ts";

/** What a value's text says, before it knows its place in the pair. */
export interface Reading {
  readonly si: number;
  readonly text: string;
  readonly unit?: string;
  readonly uncertainty?: Uncertainty;
}

export const LONGEST_VALUE = 300;

const SIGN = /±|\+\/-|\+-/;

/** The three parts of a value's text with the index where each starts. */
export interface Parts {
  readonly value: number;
  /** Between the number and the uncertainty. */
  readonly unitText: string;
  readonly unitStart: number;
  /** Index after `±`, or undefined when there is none. */
  readonly uncertaintyStart: number | undefined;
}

/** Splits `60 kN/m ± 8 % (1σ)` into number, unit and uncertainty. */
export function splitValue(text: string): Parsed<Parts> {
  if (text.length > LONGEST_VALUE) {
    return { ok: false, problems: [{ message: `is longer than ${LONGEST_VALUE} characters` }] };
  }
  const number = readNumber(text, 0);
  if (!number.ok) {
    return { ok: false, problems: [{ message: number.message, allowed: ALLOWED_NUMBER, index: number.index }] };
  }
  const sign = SIGN.exec(text.slice(number.end));
  const unitEnd = sign === null ? text.length : number.end + sign.index;
  const raw = text.slice(number.end, unitEnd);
  const unitStart = number.end + (raw.length - raw.trimStart().length);
  const uncertaintyStart = sign === null ? undefined : unitEnd + sign[0].length;
  return { ok: true, value: { value: number.value, unitText: raw.trim(), unitStart, uncertaintyStart } };
}

/**
 * Reads a value of a given kind, e.g. a stiffness out of `60 kN/m ± 8 % (1σ)`.
 *
 * @param text          as written
 * @param kind          what is due
 * @param distribution  declared beside the value, if any
 * @returns             the SI value, or every problem with the index of the character at fault
 * @source              units: NIST SP 811 (exact definitions); uncertainty: README of `quantity`
 */
export function readQuantity(text: string, kind: Kind, distribution?: Distribution): Parsed<Reading> {
  const parts = splitValue(text);
  if (!parts.ok) return parts;
  const { value, unitText, unitStart, uncertaintyStart } = parts.value;
  const unit = readUnit(unitText, unitStart, kind);
  if (!unit.ok) return unit;
  const absolute = kind.scale === "absolute";
  const si = (value + (absolute ? (unit.value?.offset ?? 0) : 0)) * (unit.value?.factor ?? 1);
  if (!Number.isFinite(si)) return { ok: false, problems: [{ message: "is too large for a number" }] };
  if (absolute && si < 0)
    return { ok: false, problems: [{ message: "is below absolute zero", allowed: "0 K or more" }] };
  const base: Reading = unitText === "" ? { si, text } : { si, text, unit: unitText };
  if (uncertaintyStart === undefined) {
    if (distribution === undefined) return { ok: true, value: base };
    const message = "a distribution needs an uncertainty in the value";
    return { ok: false, problems: [{ key: "distribution", message, allowed: "a value such as 90 kN/m ± 5 % (95 %)" }] };
  }
  const stated = { si, unit: unit.value, percent: unitText.includes("%"), absoluteScale: absolute };
  const uncertainty = readUncertainty(text, uncertaintyStart, stated, distribution);
  if (!uncertainty.ok) return uncertainty;
  return { ok: true, value: { ...base, uncertainty: uncertainty.value } };
}

/** The unit of a value, undefined for a plain number. */
function readUnit(text: string, start: number, kind: Kind): Parsed<Unit | undefined> {
  const allowed = allowedUnits(kind);
  if (text === "") {
    if (kind.plain) return { ok: true, value: undefined };
    return { ok: false, problems: [{ message: "needs a unit", allowed }] };
  }
  const unit = parseUnit(text);
  if (!unit.ok) return { ok: false, problems: [{ message: unit.message, allowed, index: start + unit.index }] };
  if (kind.dimensions.some((due) => sameDimension(due, unit.unit.dimension))) return { ok: true, value: unit.unit };
  const found = nameDimension(unit.unit.dimension);
  const message = `${text} is ${found}, but ${kind.article} ${kind.name} is due`;
  return { ok: false, problems: [{ message, allowed, index: start }] };
}
