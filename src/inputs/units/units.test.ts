import fc from "fast-check";
import { unit as oracleUnit } from "mathjs";
import { describe, expect, it } from "vitest";
import { unitHint } from "./lookup.ts";
import { parseUnit } from "./parse.ts";
import { PREFIXES, UNITS } from "./units.table.ts";

function factor(text: string): number {
  const parsed = parseUnit(text);
  if (!parsed.ok) throw new Error(`${text}: ${parsed.message} at ${parsed.index}`);
  return parsed.unit.factor;
}

function dimensionOf(text: string): readonly number[] {
  const parsed = parseUnit(text);
  if (!parsed.ok) throw new Error(`${text}: ${parsed.message} at ${parsed.index}`);
  return parsed.unit.dimension;
}

/** Ours, the oracle's spelling, the SI unit in the oracle. */
const AGAINST_ORACLE: readonly (readonly [string, string, string])[] = [
  ["kN*s/m", "kN s/m", "kg/s"],
  ["kN·s/m", "kN s/m", "kg/s"],
  ["kg m^2", "kg m^2", "kg m^2"],
  ["kg m²", "kg m^2", "kg m^2"],
  ["kN*s^2/m^2", "kN s^2/m^2", "kg/m"],
  ["(m/s)^2", "m^2/s^2", "m^2/s^2"],
  ["N/(m/s)^2", "N s^2/m^2", "kg/m"],
  ["lb", "lbm", "kg"],
  ["lbf", "lbf", "kg m/s^2"],
  ["lbf/ft", "lbf/ft", "kg/s^2"],
  ["lbf/in", "lbf/in", "kg/s^2"],
  ["lb ft^2", "lbm ft^2", "kg m^2"],
  ["psi", "lbf/in^2", "kg/(m s^2)"],
  ["hPa", "hPa", "kg/(m s^2)"],
  ["mbar", "mbar", "kg/(m s^2)"],
  ["deg", "deg", "rad"],
  ["rev", "cycle", "rad"],
  ["deg/s", "deg/s", "rad/s"],
  ["ft/min", "ft/min", "m/s"],
  ["mi/h", "mi/hour", "m/s"],
  ["yd", "yd", "m"],
  ["mm", "mm", "m"],
  ["µm", "um", "m"],
  ["L", "L", "m^3"],
  ["gal", "gallon", "m^3"],
  ["kW h", "kW hour", "kg m^2/s^2"],
  ["J/(kg K)", "J/(kg K)", "m^2/(s^2 K)"],
  ["degR", "degR", "K"],
  ["mA V", "mA V", "kg m^2/s^3"],
  ["kmol", "kmol", "mol"],
];

describe("factors", () => {
  it.each(AGAINST_ORACLE)("%s agrees with an independent unit library", (ours, theirs, si) => {
    const expected = oracleUnit(1, theirs).toNumber(si);
    expect(Math.abs(factor(ours) / expected - 1)).toBeLessThan(4e-15);
  });

  // exact by definition; NIST SP 811 (2008), appendix B
  it.each([
    ["lb", 0.45359237],
    ["ft", 0.3048],
    ["in", 0.0254],
    ["nmi", 1852],
    ["kt", 1852 / 3600],
    ["g0", 9.80665],
    ["lbf", 4.4482216152605],
    ["slug", 4.4482216152605 / 0.3048],
    ["slug ft^2", 4.4482216152605 * 0.3048],
    ["psf", 4.4482216152605 / 0.09290304],
    ["kgf", 9.80665],
    ["kip", 4448.2216152605],
    ["hp", 550 * 4.4482216152605 * 0.3048],
    // conventional inch of mercury: 13 595.1 kg/m³, standard gravity, 25.4 mm
    ["inHg", 3386.388640341],
    ["%", 0.01],
    ["t", 1000],
    ["cSt", 1e-6],
  ])("%s is exact", (text, expected) => {
    expect(Math.abs(factor(text) / expected - 1)).toBeLessThan(3e-16);
  });

  it("a slug is what a pound-force accelerates by a foot per second squared", () => {
    expect(Math.abs(factor("slug") / factor("lbf*s^2/ft") - 1)).toBeLessThan(3e-16);
    expect(dimensionOf("slug")).toEqual(dimensionOf("lbf*s^2/ft"));
  });

  it("every prefix is a power of ten and goes with every unit that takes it", () => {
    for (const [name, entry] of UNITS) {
      for (const prefix of entry.prefixes ?? []) {
        expect(Math.log10(PREFIXES.get(prefix)!) % 1).toBeCloseTo(0, 12);
        if (UNITS.has(prefix + name)) continue;
        expect(factor(prefix + name)).toBe(PREFIXES.get(prefix)! * entry.factor);
      }
    }
  });

  it("no two spellings collide through a prefix", () => {
    const clashes: string[] = [];
    for (const [name, entry] of UNITS) {
      for (const prefix of entry.prefixes ?? []) if (UNITS.has(prefix + name)) clashes.push(prefix + name);
    }

    expect(clashes).toEqual([]);
  });
});

describe("grammar", () => {
  const names = [...UNITS.keys()].filter((name) => !/[°]/.test(name));
  const anyUnit = fc.constantFrom(...names);
  const anyPower = fc.integer({ min: 1, max: 3 });

  it("a product is commutative and a division its inverse", () => {
    fc.assert(
      fc.property(anyUnit, anyUnit, (a, b) => {
        expect(factor(`${a}*${b}`) / factor(`${b} ${a}`)).toBeCloseTo(1, 12);
        expect(factor(`(${a}*${b})/${b}`) / factor(a)).toBeCloseTo(1, 12);
        expect(dimensionOf(`(${a}·${b})/${b}`)).toEqual(dimensionOf(a));
      }),
    );
  });

  it("a power is a repeated product, raised digits mean the same, 1/x is x to the minus one", () => {
    fc.assert(
      fc.property(anyUnit, anyPower, (name, power) => {
        const product = Array.from({ length: power }, () => name).join(" ");
        expect(factor(`${name}^${power}`) / factor(product)).toBeCloseTo(1, 12);
        expect(factor(`${name}${["", "¹", "²", "³"][power]}`)).toBe(factor(`${name}^${power}`));
        expect(factor(`1/${name}`) / factor(`${name}⁻¹`)).toBeCloseTo(1, 12);
        expect(dimensionOf(`1/${name}`)).toEqual(dimensionOf(`${name}^-1`));
        expect(dimensionOf(`${name}^(-2)`)).toEqual(dimensionOf(`1/(${name}*${name})`));
      }),
    );
  });

  it("divisions follow each other from left to right", () => {
    expect(factor("m/s/s")).toBe(factor("m/s^2"));
    expect(dimensionOf("kN/mm/s")).toEqual(dimensionOf("N/(m s)"));
  });

  it("temperature scales keep their offset only when they stand alone", () => {
    const alone = parseUnit("degC");
    const inside = parseUnit("J/degC");
    expect(alone.ok && alone.unit.offset).toBe(273.15);
    expect(inside.ok && inside.unit.offset).toBe(0);
  });

  it.each([
    ["", 0, "a unit is missing at the end"],
    ["kN/", 3, "a unit is missing at the end"],
    ["kN*", 3, "a unit is missing at the end"],
    ["kN//m", 3, '"/" does not belong in a unit'],
    ["kN/(m*s", 3, "this bracket does not close"],
    ["kN)", 2, '")" does not belong in a unit'],
    ["m^", 1, "^ needs a whole number after it"],
    ["m^0.5", 1, "a power is a whole number from -9 to 9, not 0"],
    ["m^1.5", 3, '"." does not belong in a unit'],
    ["m^0", 1, "a power is a whole number from -9 to 9, not 0"],
    ["m^99", 1, "a power is a whole number from -9 to 9, not 0"],
    ["m^(2", 1, "the bracket of the power does not close"],
    ["N/m*s", 3, "a product after a division can be read in two ways: put what is divided by in brackets"],
    ["N/m s", 4, "a product after a division can be read in two ways: put what is divided by in brackets"],
    ["2 m", 0, '"2" does not belong in a unit'],
    ["12/s", 0, '"1" does not belong in a unit'],
    ["kN m foo", 5, 'unknown unit "foo"'],
    ["m$", 1, '"$" does not belong in a unit'],
  ])("%j is refused at character %i", (text, index, message) => {
    const parsed = parseUnit(text);
    expect(parsed.ok).toBe(false);
    if (parsed.ok) return;
    expect(parsed.index).toBe(index);
    expect(parsed.message.startsWith(message)).toBe(true);
  });

  it("never throws and never points outside the text", () => {
    const letters = fc.constantFrom(..."kNms /*·^()²⁻1g%°2-.");
    fc.assert(
      fc.property(fc.array(letters, { maxLength: 30 }), fc.string(), (parts, other) => {
        for (const text of [parts.join(""), other]) {
          const parsed = parseUnit(text);
          if (parsed.ok) expect(Number.isFinite(parsed.unit.factor)).toBe(true);
          else expect(parsed.index).toBeLessThanOrEqual(text.length);
        }
      }),
      { numRuns: 500 },
    );
    expect(parseUnit("(".repeat(500)).ok).toBe(false);
  });
});

describe("hints", () => {
  it.each([
    ["KN", "did you mean kN?"],
    ["kts", "did you mean kt?"],
    ["knots", "did you mean kt?"],
    ["m2", "did you mean m^2?"],
    ["kNm", "did you mean kN*m?"],
    ["hpa", "did you mean hPa?"],
    ["Lbf", "did you mean lbf?"],
    ["slgu", "did you mean slug?"],
    ["degrees", "did you mean deg?"],
    ["g", "g may mean gram or standard gravity: write kg, or g0 for 9.80665 m/s^2"],
    ["lbs", "write lb for mass or lbf for force"],
    ["parsecs", undefined],
  ])("%s", (name, hint) => {
    expect(unitHint(name)).toBe(hint);
  });
});
