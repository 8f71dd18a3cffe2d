import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import * as z from "zod";
import { InputError } from "../../math/errors.ts";
import type { Quantity } from "../quantity/index.ts";
import type { Pair } from "../schema/index.ts";
import { pairJsonSchema } from "../schema/index.ts";
import { toPlain } from "../tree/index.ts";
import type { ReadFile } from "../yaml/index.ts";
import { readYaml } from "../yaml/index.ts";
import type { LoadOptions } from "./load.ts";
import { loadPair } from "./load.ts";

const DEMO = fileURLToPath(new URL("../../../demo/longshore/", import.meta.url));
const PAIR = "longshore.pair.yaml";
const pairText = readFileSync(`${DEMO}${PAIR}`, "utf8");
const tableText = readFileSync(`${DEMO}tip-per-jack.csv`, "utf8");
const latchText = readFileSync(`${DEMO}latch-trip.csv`, "utf8");
const DEMO_FILES = new Map(readdirSync(DEMO).map((file) => [file, readFileSync(`${DEMO}${file}`, "utf8")]));
/** In the order in which the pair names them. */
const SHAPE_TABLES = [
  "carrier-fuselage-forward.csv",
  "carrier-fuselage-aft.csv",
  "carrier-nacelle-inner.csv",
  "carrier-nacelle-outer.csv",
  "main-gear.csv",
  "main-gear-door.csv",
  "bay-door.csv",
  "carrier-flow.csv",
  "carrier-tank-inner-left.csv",
  "carrier-tank-inner-right.csv",
  "carrier-cg-limits.csv",
  "carried-fuselage.csv",
];
const APPROACH_TABLES = ["bow-wave.csv", "carrier-wake.csv"];
const STUDY_TABLES = ["hook-on-attempts.csv", "release-proximity.csv"];
/** Named by variants only, which are read after the base. */
const VARIANT_TABLES = [
  ...["coefficients", "elevator", "aileron", "rudder", "rates", "near-carrier"].map((name) => `airloads-${name}.csv`),
  "boom-tubes-127.csv",
  "boom-tubes-152.csv",
];

const encode = (text: string) => new TextEncoder().encode(text);

/** The demo's folder with some files replaced or added. */
const folder =
  (files: Readonly<Record<string, string>> = {}): ReadFile =>
  (path) => {
    const text = files[path] ?? DEMO_FILES.get(path);
    return text === undefined ? { ok: false, reason: "there is no such file" } : { ok: true, bytes: encode(text) };
  };

const demo = (options?: LoadOptions, files?: Readonly<Record<string, string>>) =>
  loadPair(PAIR, folder(files), options);

function told(run: () => unknown): readonly string[] {
  try {
    run();
  } catch (caught) {
    if (caught instanceof InputError) return caught.message.split("\n");
    throw caught;
  }
  return [];
}

const si = (value: Quantity) => value.si;

/** Airloads of the demo, which gives derivatives. */
function derivativesOf({ carried: { airloads } }: Pair) {
  if (airloads.kind !== "derivatives") throw new Error("the demo gives derivatives");
  return airloads;
}

describe("the demo", () => {
  it("loads in SI with what was written", () => {
    const { pair, variant, variants, files, notes, values } = demo();
    expect([variant, variants.slice(0, 2), notes]).toEqual(["Rev A", ["Rev A", "Rev B"], []]);
    expect(files.map((file) => file.path)).toEqual([
      PAIR,
      ...SHAPE_TABLES,
      "tip-per-jack.csv",
      "latch-trip.csv",
      ...APPROACH_TABLES,
      ...STUDY_TABLES,
      ...VARIANT_TABLES,
    ]);
    expect(pair.mechanism.boom.bending).toMatchObject({ si: 60000, unit: "kN/m", path: "mechanism.boom.bending" });
    expect(pair.mechanism.boom.bending!.uncertainty).toMatchObject({ stated: "1σ", sigma: 4800 });
    expect(pair.conditions.hook!.airspeed).toMatchObject({ kind: "EAS", si: 95 });
    expect(pair.control?.rollHold?.engaged).toBe(false);
    expect(values.get("carried.massStates.full.mass")).toBe(pair.carried.massStates.full!.mass);
    const ratio = pair.mechanism.jack!.ratio!;
    expect(ratio.columns.boomAngle[0]).toBeCloseTo((14 * Math.PI) / 180, 15);
    expect(ratio.columns.tipPerJack).toEqual(Float64Array.from([4.18, 3.7, 3.56, 3.63, 3.76]));
  });

  it("gives every value its own provenance or that of the file", () => {
    const { pair } = demo();
    expect(derivativesOf(pair).pitch.Cmq.provenance).toEqual({
      source: "invented for the demonstration",
      date: "2026-11-01",
      maturity: "estimate",
      inherited: true,
    });
    const own = derivativesOf(pair).roll.Clbeta.provenance;
    expect([own.inherited, own.date]).toEqual([false, undefined]);
  });

  it("has one value per path, and the path leads to it", () => {
    const { pair, values } = demo({ variant: "Rev B" });
    for (const [path, value] of values) {
      const found = path.split(".").reduce<unknown>((at, key) => (at as Record<string, unknown>)[key], pair);
      expect(found, path).toBe(value);
      if (typeof value === "object") expect(value.path).toBe(path);
    }
  });

  it("Rev A is the base, by name and without", () => {
    const [named, plain] = [demo({ variant: "Rev A" }), demo()];
    expect(named).toEqual(plain);
  });

  it("Rev B changes what it names and nothing else", () => {
    const [base, revB] = [demo(), demo({ variant: "Rev B" })];
    const { boom, accumulator, snubber } = revB.pair.mechanism;
    expect([boom.bending!, boom.effectiveTipMass!, accumulator.stiffness, snubber.C1, snubber.C2].map(si)).toEqual([
      90000, 135, 20000, 3000, 5000,
    ]);
    expect(snubber.equivalent?.si).toBe(3500);
    expect(snubber.equivalent?.provenance.inherited).toBe(false);
    expect(revB.pair.conditions.hook!.airspeed.si).toBe(105);
    const changed = [...base.values.keys()].filter(
      (path) => JSON.stringify(base.values.get(path)) !== JSON.stringify(revB.values.get(path)),
    );
    // a map that the base leaves out
    const added = "mechanism.hydraulics.snubber.bleed";
    expect([base, revB].map(({ values }) => values.has(`${added}.count`))).toEqual([false, true]);
    expect([...changed, added].sort()).toEqual(Object.keys(patchesOfRevB()).sort());
  });

  it("fits its own JSON Schema", () => {
    const schema = z.fromJSONSchema(pairJsonSchema() as Parameters<typeof z.fromJSONSchema>[0]);
    const plain = parse(pairText) as Record<string, unknown>;
    expect(schema.safeParse(plain).error?.issues ?? []).toEqual([]);
    const { carrier: _, ...without } = plain;
    expect(schema.safeParse(without).success).toBe(false);
  });
});

function patchesOfRevB(): Record<string, unknown> {
  const plain = toPlain(readYaml(pairText, PAIR).tree!) as { variants: Record<string, Record<string, unknown>> };
  return plain.variants["Rev B"]!;
}

describe("settings from the command line", () => {
  it("come last, in order, and say where they come from", () => {
    const { pair } = demo({
      variant: "Rev B",
      set: [
        "mechanism.boom.bending=100 kN/m",
        "mechanism.boom.bending=110 kN/m ± 5 % (95 %)",
        "conditions.hook.masses=[full]",
      ],
    });
    expect(pair.mechanism.boom.bending!.si).toBe(110000);
    expect(pair.mechanism.boom.bending!.provenance).toEqual({ source: "set on the command line", inherited: false });
    expect(pair.conditions.hook!.masses).toEqual(["full"]);
    expect(pair.mechanism.boom.effectiveTipMass!.si).toBe(135);
  });

  it("may add what the base leaves out, take out what may be left out, and reach into a map form", () => {
    const { pair } = demo({
      set: [
        "mechanism.boom.ownWeight={ mass: 300 kg, centreFromHinge: 2.6 m }",
        "mechanism.snubber.equivalent=~",
        "carried.airloads.roll.Clbeta.value=-0.03 1/rad",
      ],
    });
    expect(pair.mechanism.boom.ownWeight?.mass.si).toBe(300);
    expect(pair.mechanism.snubber.equivalent).toBeUndefined();
    expect(derivativesOf(pair).roll.Clbeta.si).toBe(-0.03);
    expect(derivativesOf(pair).roll.Clbeta.provenance.source).toContain("canted-down");
  });

  it("are checked with the rest", () => {
    expect(told(() => demo({ set: ["conditions.hook.boomAngle=70 deg"] }))).toEqual([
      "--set: conditions.hook.boomAngle: the boom angle lies outside stowed to extended (found 70 deg; allowed: 14 deg to 52 deg)",
    ]);
  });
});

describe("a pair of several files", () => {
  const mechanismAt = pairText.indexOf("\nmechanism:");
  const controlAt = pairText.indexOf("\ncontrol:");
  const rig = `provenance: { source: rig drawings, maturity: analysis }\n${pairText.slice(mechanismAt + 1, controlAt + 1)}`;
  const top = pairText.slice(0, mechanismAt + 1) + pairText.slice(controlAt + 1);

  it("has the same values as one file; included values carry the provenance of their file", () => {
    const included = loadPair(
      PAIR,
      folder({
        [PAIR]: `include: [rigs/rig.yaml]\n${top}`,
        "rigs/rig.yaml": rig,
        "rigs/tip-per-jack.csv": tableText,
        "rigs/latch-trip.csv": latchText,
      }),
    );
    const whole = demo();
    for (const [path, value] of whole.values) {
      const other = included.values.get(path);
      if (typeof value === "object" && "si" in value) expect(other, path).toMatchObject({ si: value.si });
    }
    expect(included.pair.mechanism.boom.bending!.provenance).toMatchObject({ source: "rig drawings", inherited: true });
    expect(included.pair.carried.CLmax.provenance).toMatchObject({ source: "invented for the demonstration" });
    // the table is looked for beside the file that names it
    expect(included.files.map((file) => file.path).sort()).toEqual(
      [
        PAIR,
        "rigs/rig.yaml",
        "rigs/tip-per-jack.csv",
        "rigs/latch-trip.csv",
        ...SHAPE_TABLES,
        ...APPROACH_TABLES,
        ...STUDY_TABLES,
        ...VARIANT_TABLES,
      ].sort(),
    );
  });

  it("may lie in any folder", () => {
    const nested: ReadFile = (path) => folder()(path.replace("some/where/", ""));
    expect(loadPair(`some/where/${PAIR}`, nested).files.map((file) => file.path)).toEqual([
      PAIR,
      ...SHAPE_TABLES,
      "tip-per-jack.csv",
      "latch-trip.csv",
      ...APPROACH_TABLES,
      ...STUDY_TABLES,
      ...VARIANT_TABLES,
    ]);
    expect(told(() => loadPair("some/where/else.yaml", nested))).toEqual([
      "some/where/else.yaml: the file cannot be read: there is no such file",
    ]);
  });
});

describe("names and defaults", () => {
  it("the pair may name what runs by default", () => {
    const text = pairText.replace("base: Rev A\n", "base: Rev A\ndefaultVariant: Rev B\n");
    expect(demo({}, { [PAIR]: text }).variant).toBe("Rev B");
    expect(demo({ variant: "Rev A" }, { [PAIR]: text }).variant).toBe("Rev A");
    const nameless = pairText.replace("base: Rev A\n", "").replace(/^clearVariants: .*\n/m, "");
    const unnamed = demo({}, { [PAIR]: nameless });
    expect(unnamed.variants.slice(0, 2)).toEqual(["base", "Rev B"]);
    expect(unnamed.clearVariants).toEqual(unnamed.variants);
  });

  it("the pair may name what is cleared, in the order of the file", () => {
    expect(demo().clearVariants).toEqual(["Rev A", "Rev B"]);
    const [own, cleared] = [
      /^clearVariants: .*$/m,
      (names: string) => pairText.replace(own, `clearVariants: ${names}`),
    ];
    expect(demo({}, { [PAIR]: cleared("[Unsnubbed, Rev A]") }).clearVariants).toEqual(["Rev A", "Unsnubbed"]);
    expect(() => demo({}, { [PAIR]: cleared("[Rev A, Rev C]") })).toThrow(/clearVariants[\s\S]*unknown variant/);
    expect(() => demo({}, { [PAIR]: cleared("[]") })).toThrow("clearVariants");
  });

  it("values without provenance are noted, not refused", () => {
    const text = pairText.replace(/^provenance: .*$/m, "");
    const { notes } = demo({}, { [PAIR]: text });
    expect(notes).toHaveLength(1);
    expect(notes[0]).toMatch(
      /^longshore\.pair\.yaml:\d+:\d+: carrier\.shapes\.fuselageForward\.sections: \d+ values state no provenance/,
    );
  });
});

describe("whatever is wrong", () => {
  const lines = pairText.split("\n");
  const junk = fc.constantFrom(
    "",
    "±",
    ": ",
    "[",
    "}",
    "&a",
    "*a",
    "\t",
    "kN",
    "%",
    "'",
    '"',
    "\0",
    "- ",
    "~",
    "{",
    "1e999",
    "é",
    "#",
    "|",
    "\n",
    "  ",
  );

  it("only an InputError comes out, with places inside the text", () => {
    const change = fc.record({ line: fc.nat(lines.length - 1), from: fc.nat(80), cut: fc.nat(12), put: junk });
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
        const mutated = [...lines];
        for (const { line, from, cut, put } of changes) {
          const text = mutated[line]!;
          mutated[line] = text.slice(0, from) + put + text.slice(from + cut);
        }
        const text = mutated.join("\n");
        try {
          demo({ variant: "Rev B" }, { [PAIR]: text });
        } catch (caught) {
          expect(caught).toBeInstanceOf(InputError);
          for (const issue of (caught as InputError).issues) {
            expect(issue.message).not.toMatch(/undefined|\[object|Invalid/);
            if (issue.line !== undefined) expect(issue.line).toBeLessThanOrEqual(text.split("\n").length);
          }
        }
      }),
      { numRuns: 100 },
    );
  });

  it("lines may be dropped, doubled or swapped", () => {
    const line = fc.nat(lines.length - 1);
    fc.assert(
      fc.property(line, line, fc.constantFrom("drop", "double", "swap"), (a, b, how) => {
        const mutated = [...lines];
        if (how === "drop") mutated.splice(a, 1);
        else if (how === "double") mutated.splice(b, 0, lines[a]!);
        else [mutated[a], mutated[b]] = [lines[b]!, lines[a]!];
        told(() => demo({}, { [PAIR]: mutated.join("\n") }));
      }),
      { numRuns: 60 },
    );
  });

  it("settings may be anything", () => {
    const path = fc.constantFrom(
      "mechanism.boom.bending",
      "carried",
      "conditions.hook",
      "a.b",
      "carried.massStates.full.inertia.Ixx",
      "x",
      "studies.hold.conditions.0",
    );
    const value = fc.oneof(fc.string(), fc.constantFrom("~", "[1, 2]", "{ a: 1 }", "60 kN/m", "", "*x", "!t 1"));
    fc.assert(
      fc.property(path, value, (key, text) => {
        told(() => demo({ set: [`${key}=${text}`] }));
      }),
      { numRuns: 50 },
    );
  });
});

describe("hostile sizes end soon and with words", () => {
  const many = (count: number, line: (i: number) => string) =>
    Array.from({ length: count }, (_, i) => line(i)).join("");

  it.each([
    ["unknown keys", pairText + many(7_000, (i) => `k${i}: 1\n`), /6\d{3} more problems are not listed/],
    [
      "unknown variant paths",
      pairText + many(5_000, (i) => `    mechanism.bom.x${i}: 1\n`),
      /4\d{3} more problems are not listed/,
    ],
    ["variants", pairText + many(300, (i) => `  v${i}: {}\n`), /there are too many variants/],
    [
      "loadings",
      pairText.replace("  massStates:\n", `  massStates:\n${many(4_000, (i) => `    m${i}: 1\n`)}`),
      /more problems are not listed/,
    ],
    [
      "names",
      pairText.replace("masses: [full", `masses: [${many(4_000, (i) => `m${i}, `)}full`),
      /more problems are not listed/,
    ],
    ["values", pairText + many(30_000, (i) => `k${i}: 1\n`), /grows too large/],
    [
      "correlations",
      pairText.replace(
        "correlations:\n",
        `correlations:\n${many(2_000, () => "  - { between: [a, b], coefficient: 1 }\n")}`,
      ),
      /too many correlations/,
    ],
  ])("%s", (_, text, expected) => {
    expect(told(() => demo({}, { [PAIR]: text })).join("\n")).toMatch(expected);
  });
});
