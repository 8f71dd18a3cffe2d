import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import type { LoadOptions } from "../pair/index.ts";
import { loadPair } from "../pair/index.ts";
import { hashInputs } from "./hash.ts";
import { recordReads } from "./record.ts";

const DEMO = fileURLToPath(new URL("../../../demo/longshore/longshore.pair.yaml", import.meta.url));
const demo = (options?: LoadOptions, table?: string) =>
  loadPair(
    DEMO,
    (path) => ({
      ok: true,
      bytes:
        table !== undefined && path.endsWith("tip-per-jack.csv") ? new TextEncoder().encode(table) : readFileSync(path),
    }),
    options,
  );

describe("recorded reads", () => {
  it("are the values that were taken out, and only those", () => {
    const recorded = recordReads(demo());
    expect(recorded.paths()).toEqual([]);
    const { mechanism, conditions, carried } = recorded.pair;
    expect(recorded.paths()).toEqual([]);
    expect(mechanism.boom.bending!.si).toBe(60000);
    for (const name of conditions.hook!.masses) carried.massStates[name]!.mass.si.toFixed(0);
    expect(mechanism.boom.ownWeight).toBeUndefined();
    expect(mechanism.jack!.ratio!.columns.tipPerJack[0]).toBe(4.18);
    expect(recorded.paths()).toEqual([
      "carried.massStates.empty.mass",
      "carried.massStates.full.mass",
      "carried.massStates.return.mass",
      "conditions.hook.masses.0",
      "conditions.hook.masses.1",
      "conditions.hook.masses.2",
      "mechanism.boom.bending",
      "mechanism.jack.ratio",
    ]);
  });

  it("the view holds the same data as the pair", () => {
    const loaded = demo();
    const { pair, paths } = recordReads(loaded);
    expect(JSON.stringify(pair)).toBe(JSON.stringify(loaded.pair));
    const everything = [...loaded.values.keys()].sort();
    expect(paths()).toEqual(everything);
    expect(pair.mechanism).toBe(pair.mechanism);
  });

  it("two records of one pair do not mix", () => {
    const loaded = demo();
    const [one, two] = [recordReads(loaded), recordReads(loaded)];
    one.pair.carried.CLmax.si.toFixed(0);
    expect([one.paths(), two.paths()]).toEqual([["carried.CLmax"], []]);
  });
});

describe("input hash", () => {
  const bending = ["mechanism.boom.bending"];

  it("depends on the values, not on how they are written or where they come from", () => {
    const base = hashInputs(demo(), bending);
    expect(base).toMatch(/^[0-9a-f]{64}$/);
    expect(hashInputs(demo({ set: ["mechanism.boom.bending=0.06 MN/m"] }), bending)).toBe(base);
    expect(hashInputs(demo({ variant: "Rev B" }), bending)).not.toBe(base);
  });

  it("does not depend on order or repetition, and a map stands for all below it", () => {
    const loaded = demo();
    const paths = ["mechanism.boom.axial", "mechanism.boom.bending"];
    expect(hashInputs(loaded, paths)).toBe(hashInputs(loaded, [...paths, ...paths].reverse()));
    const below = [...loaded.values.keys()].filter((path) => path.startsWith("mechanism.boom."));
    expect(hashInputs(loaded, ["mechanism.boom"])).toBe(hashInputs(loaded, below));
  });

  it("tells kinds of airspeed apart, and absent values from present ones", () => {
    const speed = ["conditions.hook.airspeed"];
    const tas = demo({ set: ["conditions.hook.airspeed=95 m/s TAS"] });
    expect(hashInputs(tas, speed)).not.toBe(hashInputs(demo(), speed));
    const equivalent = ["mechanism.snubber.equivalent"];
    const without = demo({ set: ["mechanism.snubber.equivalent=~"] });
    expect(hashInputs(without, equivalent)).not.toBe(hashInputs(demo(), equivalent));
  });

  it("follows the content of a table", () => {
    const table = ["mechanism.jack.ratio"];
    const other = demo({}, "boomAngle,tipPerJack\ndeg,1\n14,4.18\n60,3.7\n");
    expect(hashInputs(other, table)).not.toBe(hashInputs(demo(), table));
    expect(hashInputs(other, ["carried"])).toBe(hashInputs(demo(), ["carried"]));
  });
});
