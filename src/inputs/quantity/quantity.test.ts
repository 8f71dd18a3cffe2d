import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readAirspeed } from "./airspeed.ts";
import { allowedUnits, KINDS, nameDimension } from "./kinds.ts";
import { readNumber } from "./number.ts";
import { readQuantity } from "./parse.ts";
import { isDate } from "./provenance.ts";
import type { Distribution, Parsed, Uncertainty } from "./types.ts";

function value<T>(parsed: Parsed<T>): T {
  if (!parsed.ok) throw new Error(parsed.problems.map((each) => each.message).join("; "));
  return parsed.value;
}

function problem(parsed: Parsed<unknown>) {
  if (parsed.ok) throw new Error("was accepted");
  return parsed.problems[0]!;
}

const stiffness = (text: string, distribution?: Distribution) => readQuantity(text, KINDS.stiffness, distribution);
const uncertain = (text: string, distribution?: Distribution): Uncertainty =>
  value(stiffness(text, distribution)).uncertainty!;

describe("numbers", () => {
  it.each([
    ["12", 12],
    ["+0.5", 0.5],
    [".5", 0.5],
    ["5.", 5],
    ["-3.2e4", -3.2e4],
    ["−3.2E−4", -3.2e-4],
    ["15 000", 15000],
    ["1 234 567.5", 1234567.5],
    ["15\u202f000", 15000],
  ])("%s", (text, expected) => {
    expect(readNumber(text, 0)).toEqual({ ok: true, value: expected, end: text.length });
  });

  it.each(["1,5", "1'000", "1_000", "1.2.3", "nan", ".inf", "-Infinity", "", "m", "1e999", "--3"])(
    "%s is refused",
    (text) => {
      expect(readNumber(text, 0).ok).toBe(false);
    },
  );

  it("a blank in a number sets off thousands only", () => {
    expect(readNumber("15 00", 0)).toEqual({ ok: true, value: 15, end: 2 });
    expect(value(readQuantity("15 000 lb", KINDS.mass)).si).toBeCloseTo(15000 * 0.45359237, 9);
  });

  it("reads back whatever a double prints as", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (number) => {
        expect(value(readQuantity(`${number} N/m`, KINDS.stiffness)).si).toBe(number === 0 ? 0 : number);
      }),
    );
  });
});

describe("quantities", () => {
  it("convert to SI and keep what was written", () => {
    expect(value(stiffness("60 kN/m"))).toEqual({ si: 60000, text: "60 kN/m", unit: "kN/m" });
    expect(value(readQuantity("2 1/deg", KINDS.perAngle)).si).toBeCloseTo(360 / Math.PI, 12);
    expect(value(readQuantity("52°", KINDS.angle)).si).toBeCloseTo((52 * Math.PI) / 180, 15);
  });

  it("rate derivatives are plain or per radian, and the same number either way", () => {
    expect(value(readQuantity("-12", KINDS.rateDerivative)).si).toBe(-12);
    expect(value(readQuantity("-12 1/rad", KINDS.rateDerivative)).si).toBe(-12);
    expect(problem(readQuantity("-12 s", KINDS.rateDerivative)).message).toContain("is due");
  });

  it("a difference of temperatures has no offset, a temperature on a scale has", () => {
    expect(value(readQuantity("15 degC", KINDS.temperatureDifference)).si).toBe(15);
    expect(value(readQuantity("18 degF", KINDS.temperatureDifference)).si).toBeCloseTo(10, 12);
    expect(value(readQuantity("15 degC", KINDS.temperature)).si).toBe(288.15);
    expect(value(readQuantity("59 degF", KINDS.temperature)).si).toBeCloseTo(288.15, 10);
    expect(problem(readQuantity("-300 degC", KINDS.temperature)).message).toBe("is below absolute zero");
  });

  it("a value that is doubled in text is doubled in SI, whatever its unit", () => {
    const units = fc.constantFrom("N/m", "kN/m", "lbf/ft", "lbf/in", "kg/s^2", "kN/mm");
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1_000_000 }), units, (number, unit) => {
        const [one, two] = [value(stiffness(`${number} ${unit}`)).si, value(stiffness(`${2 * number}${unit}`)).si];
        expect(two).toBe(2 * one);
      }),
    );
  });

  it("every kind names its units and every suggested unit is of that kind", () => {
    for (const kind of Object.values(KINDS)) {
      for (const unit of kind.units) expect(readQuantity(`1 ${unit}`, kind).ok, unit).toBe(true);
      expect(allowedUnits(kind)).toContain(kind.units[0]);
      expect(nameDimension(kind.dimensions[0]!)).not.toContain("a quantity in");
    }
  });

  it("problems point at the character at fault", () => {
    expect(problem(stiffness("60 kN/m ± 8 %")).index).toBe(11);
    expect(problem(stiffness("60 kN/foo")).index).toBe(6);
    expect(problem(stiffness("60 kg")).index).toBe(3);
    expect(problem(stiffness("x60 kg")).index).toBe(0);
    expect(problem(stiffness(`60 ${"k".repeat(400)}`)).message).toBe("is longer than 300 characters");
  });
});

describe("uncertainty", () => {
  it("says what it means: one sigma, 95 %, bounds", () => {
    expect(uncertain("60 kN/m ± 8 % (1σ)")).toMatchObject({ stated: "1σ", relative: 0.08, sigma: 4800 });
    expect(uncertain("60 kN/m +- 3 kN/m (1 sigma)")).toMatchObject({ stated: "1σ", plusMinus: 3000, sigma: 3000 });
    expect(uncertain("60 kN/m ± 6 kN/m (95 %)").sigma).toBeCloseTo(6000 / 1.959963984540054, 9);
    expect(uncertain("60 kN/m +/- 6 kN/m (bounds)")).toMatchObject({ distribution: "uniform", halfWidth: 6000 });
  });

  it("takes its own unit", () => {
    expect(uncertain("60 kN/m ± 100 N/(m) (1σ)").sigma).toBe(100);
    expect(value(readQuantity("0.2 ± 0.03 (1σ)", KINDS.number)).uncertainty?.sigma).toBe(0.03);
    expect(value(readQuantity("-0.022 1/rad ± 35 % (1σ)", KINDS.perAngle)).uncertainty?.sigma).toBeCloseTo(0.0077, 12);
  });

  it.each([
    ["normal", Math.sqrt(1), 1.959963984540054],
    ["uniform", 1 / Math.sqrt(3), 0.95],
    ["triangular", 1 / Math.sqrt(6), 1 - Math.sqrt(0.05)],
  ] as const)("%s: the stated 95 %% interval holds 95 %% of the distribution", (distribution, perWidth, width95) => {
    // width of the distribution such that its central 95 % reaches ± 10
    const scale = 10 / width95;
    expect(uncertain("100 N/m ± 10 N/m (95 %)", distribution).sigma).toBeCloseTo(scale * perWidth, 12);
  });

  it("uniform and triangular keep their half width whichever way it was stated", () => {
    for (const distribution of ["uniform", "triangular"] as const) {
      const half = uncertain("100 N/m ± 12 N/m (bounds)", distribution);
      const sigma = uncertain(`100 N/m ± ${half.sigma} N/m (1σ)`, distribution);
      expect(sigma.halfWidth).toBeCloseTo(12, 12);
    }
  });

  it("a triangular 95 % interval leaves 2.5 % in each tail", () => {
    const { halfWidth } = uncertain("100 N/m ± 10 N/m (95 %)", "triangular");
    const tail = (halfWidth! - 10) ** 2 / (2 * halfWidth! ** 2);
    expect(tail).toBeCloseTo(0.025, 12);
  });

  it("lognormal: the value is the median, the upper end as stated, sigma close for small spread", () => {
    const narrow = uncertain("100 N/m ± 1 % (1σ)", "lognormal");
    expect(narrow.sigma).toBeCloseTo(1, 1);
    const wide = uncertain("100 N/m ± 50 % (95 %)", "lognormal");
    expect(100 * Math.exp(1.959963984540054 * wide.logSigma!)).toBeCloseTo(150, 10);
    // variance of a lognormal from its moments: E x² − (E x)²
    const s2 = wide.logSigma! ** 2;
    const variance = 1e4 * (Math.exp(2 * s2) - Math.exp(s2));
    expect(wide.sigma ** 2).toBeCloseTo(variance, 6);
  });

  it.each([
    ["60 kN/m ±", undefined, "± stands alone"],
    ["60 kN/m ± 8 %", undefined, "an uncertainty must say what it means"],
    ["60 kN/m ± 8 % (2σ)", undefined, "an uncertainty must say what it means"],
    ["60 kN/m ± 8 % (1σ) more", undefined, "an uncertainty must say what it means"],
    ["60 kN/m ± 8 (1σ)", undefined, "the uncertainty needs a unit or %"],
    ["60 kN/m ± 0 % (1σ)", undefined, "the uncertainty must be larger than zero"],
    ["60 kN/m ± -1 % (1σ)", undefined, "the uncertainty must be larger than zero"],
    ["60 kN/m ± x % (1σ)", undefined, "the uncertainty does not start with a number"],
    ["60 kN/m ± 1 kg (1σ)", undefined, "the uncertainty is a mass, the value a stiffness"],
    ["60 kN/m ± 1 foo (1σ)", undefined, 'the unit of the uncertainty: unknown unit "foo"'],
    ["0 kN/m ± 1 % (1σ)", undefined, "a share of a value of zero says nothing; give it in the unit"],
    ["60 kN/m ± 1 % (bounds)", "normal", "a normal distribution has no bounds"],
    ["-60 kN/m ± 1 % (1σ)", "lognormal", "a lognormal distribution needs a value larger than zero"],
    ["60 kN/m", "uniform", "a distribution needs an uncertainty in the value"],
  ] as const)("%s is refused", (text, distribution, message) => {
    expect(problem(stiffness(text, distribution)).message).toBe(message);
  });

  it("a temperature on a scale takes degrees, no share", () => {
    expect(value(readQuantity("15 degC ± 2 degC (1σ)", KINDS.temperature)).uncertainty?.sigma).toBe(2);
    expect(problem(readQuantity("15 degC ± 2 % (1σ)", KINDS.temperature)).message).toContain("give degrees");
  });
});

describe("airspeeds", () => {
  it.each([
    ["95 m/s EAS", "EAS", 95, "m/s"],
    ["150 kt CAS", "CAS", (150 * 1852) / 3600, "kt"],
    ["180kt TAS", "TAS", (180 * 1852) / 3600, "kt"],
    ["0.4 Mach", "Mach", 0.4, undefined],
  ] as const)("%s", (text, kind, si, unit) => {
    const read = value(readAirspeed(text));
    expect(read.kind).toBe(kind);
    expect(read.si).toBeCloseTo(si, 12);
    expect(read.unit).toBe(unit);
    expect(read.text).toBe(text);
  });

  it("carry uncertainties", () => {
    expect(value(readAirspeed("95 m/s EAS ± 2 kt (95 %)")).uncertainty?.plusMinus).toBeCloseTo(1.0288889, 6);
    expect(value(readAirspeed("0.4 Mach ± 0.01 (1σ)")).uncertainty?.sigma).toBe(0.01);
  });

  it.each([
    ["95 m/s", "the kind of airspeed is missing"],
    ["95", "needs a unit and a kind of airspeed"],
    ["95 EAS", "needs a unit"],
    ["95 kg EAS", "kg is a mass, but a speed is due"],
    ["0 m/s EAS", "must be larger than zero"],
    ["-5 m/s EAS", "must be larger than zero"],
    ["1.2 Mach", "must be below Mach 1"],
    ["150 KCAS", '"KCAS" is not a kind of airspeed; did you mean kt CAS?'],
    ["150 kt IAS", '"IAS" depends on the instrument; give CAS'],
    ["150 kt GS", '"GS" depends on the wind; give an airspeed'],
    ["150 kt eas", '"eas" is not a kind of airspeed; did you mean kt EAS?'],
    ["0.4 M", '"M" is not a kind of airspeed; did you mean Mach?'],
    ["fast", "does not start with a number"],
  ])("%s is refused", (text, message) => {
    expect(problem(readAirspeed(text)).message).toBe(message);
  });
});

describe("dates", () => {
  it.each(["2026", "2026-11", "2026-11-01", "2024-02-29"])("%s exists", (text) => expect(isDate(text)).toBe(true));
  it.each(["26", "2026-13", "2026-02-29", "2026-11-00", "1.11.2026", "2026-11-01T00:00"])("%s does not", (text) =>
    expect(isDate(text)).toBe(false),
  );
});

it("reading never throws", () => {
  const soup = fc.array(fc.constantFrom(..."0123456789.,eE+-±%()σ kNms/^²EASMach°".split("")), { maxLength: 25 });
  fc.assert(
    fc.property(soup, fc.string(), (parts, other) => {
      for (const text of [parts.join(""), other]) {
        for (const kind of Object.values(KINDS)) {
          const read = readQuantity(text, kind);
          if (read.ok) expect(Number.isFinite(read.value.si)).toBe(true);
        }
        readAirspeed(text);
      }
    }),
    { numRuns: 300 },
  );
});
