import type { Unit } from "../units/index.ts";
import { parseUnit, sameDimension } from "../units/index.ts";
import { nameDimension } from "./kinds.ts";
import { ALLOWED_NUMBER, readNumber } from "./number.ts";
import type { Distribution, Parsed, Problem, Uncertainty } from "./types.ts";

export const ALLOWED_UNCERTAINTY = "± 6 % (1σ), ± 6 % (95 %) or ± 6 % (bounds), or a figure in the unit of the value";

/** Half of the central 95 % interval of a normal distribution in standard deviations (quantile of 0.975). */
const NORMAL_95 = 1.959963984540054;
/** Half of the central 95 % interval of a symmetric triangular distribution in half widths. */
const TRIANGULAR_95 = 1 - Math.sqrt(0.05);

const MEANINGS: readonly (readonly [RegExp, Uncertainty["stated"]])[] = [
  [/^1\s*(?:σ|sigma)$/i, "1σ"],
  [/^95\s*%$/, "95 %"],
  [/^bounds$/i, "bounds"],
];

/** Largest stated figure of a lognormal distribution as a share of its median: a factor of ten. */
const MOST_LOGNORMAL = 9;

/** What the value itself is, as far as its uncertainty needs it. */
export interface Stated {
  readonly si: number;
  readonly unit: Unit | undefined;
  /** The value was written in %. */
  readonly percent: boolean;
  /** Temperatures on a scale take no relative uncertainty. */
  readonly absoluteScale: boolean;
}

const wrong = (message: string, index: number, allowed = ALLOWED_UNCERTAINTY): Parsed<never> => ({
  ok: false,
  problems: [{ message, allowed, index }],
});

/**
 * Reads what follows `±`: a figure, its unit or %, and in brackets what it means.
 *
 * @param text          the whole value
 * @param start         index after the sign
 * @param value         the value it belongs to
 * @param distribution  declared in the map form, if any
 */
export function readUncertainty(
  text: string,
  start: number,
  value: Stated,
  distribution: Distribution | undefined,
): Parsed<Uncertainty> {
  if (text.slice(start).trim() === "") return wrong("± stands alone", start);
  const number = readNumber(text, start);
  if (!number.ok) return wrong(`the uncertainty ${number.message}`, number.index, ALLOWED_NUMBER);
  if (!(number.value > 0)) return wrong("the uncertainty must be larger than zero", start);
  // a bracket may also belong to a unit; the meaning is the last one
  const last = text.lastIndexOf("(");
  const bracket = last > number.end ? /^\(([^()]*)\)\s*$/.exec(text.slice(last))?.[1] : undefined;
  const stated = MEANINGS.find(([form]) => form.test((bracket ?? "").trim()))?.[1];
  if (stated === undefined) {
    const message = "an uncertainty must say what it means";
    return wrong(message, bracket === undefined ? number.end : last);
  }
  const unitStart = number.end + (/^\s*/.exec(text.slice(number.end))?.[0].length ?? 0);
  const size = plusMinus(text.slice(unitStart, last).trim(), number.value, value, unitStart);
  if (!size.ok) return size;
  if (!Number.isFinite(size.value.plusMinus))
    return wrong("the uncertainty is too large for a number", start, ALLOWED_NUMBER);
  return spread({ ...size.value, stated, text: `± ${text.slice(start).trim()}` }, value.si, distribution, start);
}

/** SI size of the stated figure. */
function plusMinus(
  unitText: string,
  figure: number,
  value: Stated,
  index: number,
): Parsed<{ plusMinus: number; relative?: number }> {
  if (unitText === "%") {
    if (value.percent) {
      const allowed = "the value and its uncertainty as plain numbers, e.g. 0.20 ± 0.03 (1σ)";
      return wrong("% of a value in % may be a share of it or percentage points", index, allowed);
    }
    if (value.absoluteScale) return wrong("a share of a temperature says nothing; give degrees", index);
    if (value.si === 0) return wrong("a share of a value of zero says nothing; give it in the unit", index);
    return { ok: true, value: { plusMinus: (Math.abs(value.si) * figure) / 100, relative: figure / 100 } };
  }
  if (unitText === "") {
    if (value.unit === undefined) return { ok: true, value: { plusMinus: figure } };
    return wrong("the uncertainty needs a unit or %", index);
  }
  const unit = parseUnit(unitText);
  if (!unit.ok) return wrong(`the unit of the uncertainty: ${unit.message}`, index + unit.index);
  if (value.unit === undefined || !sameDimension(unit.unit.dimension, value.unit.dimension)) {
    const due = value.unit === undefined ? "a plain number" : nameDimension(value.unit.dimension);
    return wrong(`the uncertainty is ${nameDimension(unit.unit.dimension)}, the value ${due}`, index);
  }
  return { ok: true, value: { plusMinus: figure * unit.unit.factor } };
}

type Size = Pick<Uncertainty, "plusMinus" | "stated" | "text"> & { readonly relative?: number };

/** Standard deviation and shape from the stated figure (README of `quantity`, eq. 1 to 4). */
function spread(size: Size, value: number, declared: Distribution | undefined, index: number): Parsed<Uncertainty> {
  const distribution = declared ?? (size.stated === "bounds" ? "uniform" : "normal");
  const problem = mismatch(size, value, distribution);
  if (problem !== undefined) return { ok: false, problems: [{ ...problem, index }] };
  const p = size.plusMinus;
  if (distribution === "normal") {
    return { ok: true, value: { ...size, distribution, sigma: size.stated === "1σ" ? p : p / NORMAL_95 } };
  }
  if (distribution === "lognormal") {
    const upper = Math.log1p(p / value);
    const logSigma = size.stated === "1σ" ? upper : upper / NORMAL_95;
    const sigma = value * Math.exp(logSigma ** 2 / 2) * Math.sqrt(Math.expm1(logSigma ** 2));
    return { ok: true, value: { ...size, distribution, sigma, logSigma } };
  }
  const perSigma = distribution === "uniform" ? Math.sqrt(3) : Math.sqrt(6);
  const per95 = distribution === "uniform" ? 1 / 0.95 : 1 / TRIANGULAR_95;
  const halfWidth = size.stated === "bounds" ? p : size.stated === "1σ" ? p * perSigma : p * per95;
  return { ok: true, value: { ...size, distribution, sigma: halfWidth / perSigma, halfWidth } };
}

function mismatch(size: Size, value: number, distribution: Distribution): Problem | undefined {
  if (size.stated === "bounds" && (distribution === "normal" || distribution === "lognormal")) {
    return {
      message: `a ${distribution} distribution has no bounds`,
      allowed: "bounds with uniform or triangular, or 1σ or 95 %",
    };
  }
  if (distribution === "lognormal" && !(value > 0)) {
    return {
      message: "a lognormal distribution needs a value larger than zero",
      allowed: "normal, uniform, triangular",
    };
  }
  if (distribution === "lognormal" && size.plusMinus > MOST_LOGNORMAL * value) {
    return { message: "the uncertainty spans more than a factor of ten", allowed: "up to ± 900 % with lognormal" };
  }
  return undefined;
}
