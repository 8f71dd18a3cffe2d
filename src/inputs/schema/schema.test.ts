import { describe, expect, it } from "vitest";
import * as z from "zod";
import { pairJsonSchema } from "./json.ts";
import { mirroredName } from "./moving.ts";
import { name } from "./names.ts";
import { pairSchema } from "./pair.ts";
import { pointOrName } from "./point.ts";
import { quantity } from "./value.ts";
import type { Schema } from "./walk.ts";
import { below, isOptional, visitValues } from "./walk.ts";

type Json = Readonly<Record<string, unknown>>;

function* parts(json: Json, path: string): Generator<readonly [string, Json]> {
  yield [path, json];
  for (const [key, part] of Object.entries((json.properties ?? {}) as Record<string, Json>))
    yield* parts(part, `${path}.${key}`);
  for (const option of (json.oneOf ?? []) as Json[]) yield* parts(option, path);
  if (typeof json.additionalProperties === "object") yield* parts(json.additionalProperties as Json, `${path}.*`);
  if (typeof json.items === "object") yield* parts(json.items as Json, `${path}.0`);
}

describe("JSON Schema", () => {
  const schema = pairJsonSchema();

  it("is of draft 2020-12 and closed against unknown keys", () => {
    expect(schema.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
    expect(schema.additionalProperties).toBe(false);
    expect(schema.required).toEqual(["davit", "pair", "carrier", "carried", "mechanism", "conditions"]);
  });

  it("describes every key", () => {
    const silent: string[] = [];
    for (const [path, json] of parts(schema, "pair")) {
      if (typeof json.description !== "string" || json.description.length < 5) silent.push(path);
    }
    expect(silent.filter((path) => !path.startsWith("pair.variants."))).toEqual([]);
  });

  it("every example of a value is accepted by the pattern and by the reader", () => {
    const definitions = schema.$defs as Record<string, Json>;
    const walk = (part: Schema, path: string): void => {
      const under = below(part, undefined);
      if (under.kind === "keys") for (const [key, child] of Object.entries(under.shape)) walk(child, `${path}.${key}`);
      if (under.kind === "names") walk(under.value, path);
      if (under.kind === "list") walk(under.element, path);
      if (under.kind !== "value") return;
      const inner = part instanceof z.ZodOptional ? part.def.innerType : part;
      const meta = z.globalRegistry.get(inner as z.ZodType) as Json | undefined;
      for (const example of (meta?.examples ?? []) as unknown[]) {
        expect(z.safeParse(part, example).success, `${path}: ${String(example)}`).toBe(true);
        const form = typeof meta?.$ref === "string" ? definitions[meta.$ref.replace("#/$defs/", "")] : undefined;
        if (form === undefined || typeof example !== "string") continue;
        const text = (form.anyOf as Json[]).find((option) => option.type === "string");
        expect(example).toMatch(new RegExp(text!.pattern as string, "u"));
      }
    };
    walk(pairSchema, "pair");
  });

  it("patterns refuse a bare ±, a missing unit and a speed without its kind", () => {
    const definitions = schema.$defs as Record<string, Json>;
    const pattern = (form: string) => {
      const text = (definitions[form]!.anyOf as Json[]).find((option) => option.type === "string");
      return new RegExp(text!.pattern as string, "u");
    };
    for (const text of ["60", "60 kN/m ± 8 %", "kN/m", "± 8 % (1σ)"]) expect(text).not.toMatch(pattern("withUnit"));
    for (const text of ["60 kN/m", "15 000 lb", "60 kN/m ± 8 % (1σ)", "5 1/rad"])
      expect(text).toMatch(pattern("withUnit"));
    for (const text of ["95 m/s", "95"]) expect(text).not.toMatch(pattern("airspeed"));
    expect("0.4 Mach ± 0.01 (95 %)").toMatch(pattern("airspeed"));
  });
});

describe("limits", () => {
  /** Every value below a part with its path and the examples written beside it. */
  function* values(part: Schema, path: string): Generator<readonly [string, Schema, readonly unknown[]]> {
    const under = below(part, undefined);
    if (under.kind === "keys")
      for (const [key, child] of Object.entries(under.shape)) yield* values(child, `${path}.${key}`);
    if (under.kind === "names") yield* values(under.value, `${path}.*`);
    if (under.kind === "list") yield* values(under.element, `${path}.0`);
    if (under.kind !== "value") return;
    const inner = part instanceof z.ZodOptional ? part.def.innerType : part;
    const meta = z.globalRegistry.get(inner as z.ZodType) as Json | undefined;
    const form = typeof meta?.$ref === "string" || Array.isArray(meta?.anyOf);
    if (form) yield [path, part, (meta?.examples ?? []) as unknown[]];
  }
  const all = [...values(pairSchema, "pair")];
  const withFigure = (example: unknown, figure: string) => String(example).replace(/^[\d. ]*\d|^-[\d.]+/, figure);

  it("stand at every number of the pair, on both sides and for its uncertainty", () => {
    expect(all.length).toBeGreaterThan(80);
    for (const [path, part, examples] of all) {
      const example = examples.find((each) => /^-?\d/.test(String(each)));
      expect(example, path).toBeDefined();
      const bare = String(example).replace(/ ±.*$/, "");
      for (const figure of ["1e100", "-1e100"]) {
        const text = withFigure(bare, figure);
        expect(text, path).toContain(figure);
        expect(z.safeParse(part, text).success, `${path}: ${text}`).toBe(false);
      }
      const unit = /^-?[\d. ]*\d *(.*?) *(EAS|CAS)?$/.exec(bare)![1]!;
      const wide = `${bare} ± 1e100 ${unit === "%" ? "" : unit} (1σ)`;
      expect(z.safeParse(part, wide).success, `${path}: ${wide}`).toBe(false);
      expect(z.safeParse(part, bare).success, `${path}: ${bare}`).toBe(true);
    }
  });

  it("keep an uncertain positive value positive, or ask for a distribution that does", () => {
    const mass = pairSchema.shape.mechanism.shape.boom.shape.effectiveTipMass;
    const told = (raw: unknown) => z.safeParse(mass, raw).success;
    expect([told("90 kg ± 99 % (1σ)"), told("90 kg ± 100 % (1σ)"), told("90 kg ± 100 % (95 %)")]).toEqual([
      true,
      false,
      false,
    ]);
    const lognormal = (share: number) => told({ value: `90 kg ± ${share} % (1σ)`, distribution: "lognormal" });
    expect([lognormal(200), lognormal(900), lognormal(901)]).toEqual([true, true, false]);
  });
});

describe("names", () => {
  it("of loadings and conditions are none of the words that every object knows", () => {
    for (const word of ["constructor", "prototype", "__proto__", "toString", "hasOwnProperty"])
      expect(z.safeParse(name, word).success, word).toBe(false);
    for (const word of ["full", "Rev A", "constructor 2", "Prototype", "voll-beladen"])
      expect(z.safeParse(name, word).success, word).toBe(true);
  });

  it("of a variant's values start, for editors, with a part that may change", () => {
    const variants = (pairJsonSchema().properties as Record<string, Json>).variants as Json;
    const patches = (variants.additionalProperties as Json).propertyNames as Json;
    const form = new RegExp(patches.pattern as string, "u");
    for (const path of ["mechanism.boom.bending", "conditions.hook.masses.0", "notice"]) expect(path).toMatch(form);
    for (const path of ["boom.bending", "mechanism..boom", "mechanism.", "carriers.x"]) expect(path).not.toMatch(form);
  });
});

describe("walking", () => {
  it("reaches every value and leaves the shape alone", () => {
    const schema = z.strictObject({
      a: quantity("length", "A length.", ["1 m"]),
      list: z.array(quantity("mass", "A mass.", ["1 kg"])),
      names: z.record(z.string(), z.strictObject({ b: quantity("force", "A force.", ["1 N"]).optional() })),
    });
    const seen: string[] = [];
    const data = { a: "1 m", list: ["1 kg", "2 kg"], names: { x: { b: "3 N" }, y: {} }, other: 1 };
    visitValues(schema, data, [], (path, raw) => {
      seen.push(path.join("."));
      return `(${String(raw)})`;
    });
    expect(seen).toEqual(["a", "list.0", "list.1", "names.x.b"]);
    expect(data).toEqual({ a: "(1 m)", list: ["(1 kg)", "(2 kg)"], names: { x: { b: "(3 N)" }, y: {} }, other: 1 });
  });

  it("passes over parts of the wrong shape", () => {
    const visit = () => "x";
    expect(visitValues(pairSchema, { carried: 5, mechanism: [], conditions: null }, [], visit)).toEqual({
      carried: 5,
      mechanism: [],
      conditions: null,
    });
    expect(visitValues(pairSchema, undefined, [], visit)).toBeUndefined();
  });

  it("knows what may be left out", () => {
    const under = below(pairSchema, undefined);
    expect(under.kind === "keys" && isOptional(under.shape.control!)).toBe(true);
    expect(under.kind === "keys" && isOptional(under.shape.carried!)).toBe(false);
  });

  it("a union shows the form that the data chooses, or all forms", () => {
    const mechanism = below(pairSchema, undefined);
    const snubber = below((mechanism as { shape: Record<string, Schema> }).shape.mechanism!, undefined);
    const part = (snubber as { shape: Record<string, Schema> }).shape.snubber!;
    const keys = (data: unknown) => Object.keys((below(part, data) as { shape: object }).shape);
    expect(keys({ referredTo: "jack" })).not.toContain("atBoomAngle");
    expect(keys({ referredTo: "tip" })).toContain("atBoomAngle");
    expect(keys(undefined)).toContain("atBoomAngle");
  });
});

describe("a name or a map", () => {
  const schema = z.strictObject({ at: pointOrName("Somewhere.") });
  const visited = (data: unknown) => {
    const seen: string[] = [];
    visitValues(schema, data, [], (path, value) => {
      seen.push(path.join("."));
      return value;
    });
    return seen;
  };

  it("is one value as a name and three as a map", () => {
    expect(visited({ at: "probeTip" })).toEqual(["at"]);
    expect(visited({ at: { FS: "1 m", BL: "0 m", WL: "2 m" } })).toEqual(["at.FS", "at.BL", "at.WL"]);
    expect(schema.parse({ at: "aftPinCentre" })).toEqual({ at: "aftPinCentre" });
    expect(schema.parse({ at: { FS: "1 m", BL: "0 m", WL: "2 ft" } })).toMatchObject({ at: { WL: { si: 0.6096 } } });
  });

  it.each(["nose", "", null, 3, ["1 m"], { FS: "1 m" }, { FS: "1 m", BL: "0 m", WL: "2" }])("%j is refused", (at) => {
    expect(schema.safeParse({ at }).success).toBe(false);
  });
});

describe("the mirrored name", () => {
  it.each([
    ["mainGearRight", "mainGearLeft"],
    ["LeftDoor", "RightDoor"],
    ["inner Right door", "inner Left door"],
    ["gear", undefined],
    ["bright", undefined],
    ["RightLeft", undefined],
    ["RightDoorRight", undefined],
  ])("of %s is %s", (name, other) => {
    expect(mirroredName(name)).toBe(other);
    if (other !== undefined) expect(mirroredName(other)).toBe(name);
  });
});
