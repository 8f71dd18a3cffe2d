import { describe, expect, it } from "vitest";
import { loadDemo } from "../../../test/support/load-demo.ts";
import { type LoadedPair, recordReads } from "../../inputs/index.ts";
import { InputError } from "../../math/errors.ts";
import { buildBodies } from "./bodies.ts";
import { buildMechanism } from "./mechanism.ts";
import { readFitInputs } from "./read-pair.ts";

const loaded = loadDemo();
const read = (from: LoadedPair) => readFitInputs(() => recordReads(from));

/** A pair whose parts may be taken away and replaced. */
interface Loose {
  [key: string]: Loose;
}
const loose = (value: unknown): Loose => value as Loose;
const NONE = loose(undefined);

/** The demonstration with a part of its data taken away or changed. */
function changed(change: (pair: Loose) => void): LoadedPair {
  const pair = loose(structuredClone(loaded.pair));
  change(pair);
  return { ...loaded, pair: pair as unknown as LoadedPair["pair"] };
}

function issuesOf(from: LoadedPair): string[] {
  try {
    read(from);
  } catch (error) {
    if (error instanceof InputError) return error.issues.map(({ path, message }) => `${path} ${message}`);
    throw error;
  }
  return [];
}

describe("reading the demonstration", () => {
  const { inputs, groups } = read(loaded);

  it("gives bodies, hinges and a mechanism that can be built", () => {
    const bodies = buildBodies(inputs);
    expect(bodies.parts.every(({ faults }) => faults.length === 0)).toBe(true);
    expect(bodies.movers.some(({ body }) => body.endsWith("Left"))).toBe(true);
    const mechanism = buildMechanism(inputs);
    expect(mechanism.boom).toBe("boom");
    expect(mechanism.coupler).toEqual({ pin: "aftPin", root: "yokeHinge" });
    expect(inputs.linkage.joints.find(({ name }) => name === "aftPin")?.place).toEqual({
      in: "carried",
      point: [5.05, 0, 1.62],
    });
  });

  it("knows what each finding may rest on", () => {
    expect(groups.bodies.get("carrier")?.every((path) => path.startsWith("carrier.shapes."))).toBe(true);
    expect(groups.bodies.get("mainGearLeft")).toEqual(groups.bodies.get("mainGearRight"));
    expect(groups.bodies.get("mainGearRight")).toContain("carrier.moving.mainGearRight.travel");
    expect(groups.criteria).toContain("studies.fit.criteria.movingClearance");
    expect(groups.linkage).toContain("mechanism.boom.length");
    expect(groups.linkage.some((path) => path.startsWith("studies."))).toBe(false);
    for (const paths of [groups.ground, groups.loading, groups.masses, groups.tolerances, groups.capacity]) {
      expect(paths.length).toBeGreaterThan(0);
    }
  });

  it("takes the tolerance of a joint before the common one", () => {
    const own = read(
      changed((pair) => {
        const { tolerances } = pair.mechanism.linkage;
        tolerances.each = loose({ boomHinge: { ...tolerances.points, si: 0.001 } });
      }),
    ).inputs.linkage.tolerances;
    expect(own?.boomHinge).toEqual({ FS: 0.001, WL: 0.001 });
    expect(own?.["jack.to"]).toEqual({ FS: 0.002, WL: 0.002 });
  });
});

describe("what a pair may lack or have wrong", () => {
  it("names what is missing, all at once", () => {
    const bare = changed((pair) => {
      pair.studies.fit = NONE;
      pair.mechanism.linkage = NONE;
    });
    const issues = issuesOf(bare);
    expect(issues).toHaveLength(2);
    expect(issues[0]).toContain("studies.fit is missing");
    expect(issues[1]).toContain("mechanism.linkage is missing");
  });

  it("works without shapes, ground and loading", () => {
    const { inputs } = read(
      changed((pair) => {
        pair.carrier = loose({ name: "bare", datum: "any" });
        pair.carried.shapes = NONE;
        pair.studies.fit.loading = NONE;
      }),
    );
    expect(inputs.parts.every(({ owner }) => owner === "mechanism")).toBe(true);
    expect(inputs.ground).toBeNull();
    expect(inputs.loading).toBeNull();
  });

  it("refuses a gear table that runs backwards or does not reach from 0 to 1", () => {
    const table = (fraction: number[]) =>
      changed((pair) => {
        const { travel } = pair.carrier.moving.mainGearRight;
        pair.carrier.moving.mainGearRight.travel = loose({
          ...travel,
          columns: { fraction: Float64Array.from(fraction), angle: Float64Array.from(fraction) },
        });
      });
    expect(issuesOf(table([0, 0.6, 0.4, 1])).join()).toContain("runs backwards");
    expect(issuesOf(table([0.1, 1])).join()).toContain("start at fraction 0");
    expect(issuesOf(table([0, 0.9])).join()).toContain("end at fraction 1");
    expect(issuesOf(table([0, 1]))).toEqual([]);
  });

  it("refuses a mechanism that does not close as drawn", () => {
    const { inputs } = read(
      changed((pair) => {
        const { hinge } = pair.mechanism.boom;
        const at = (FS: number, WL: number) =>
          loose({
            FS: { ...hinge.FS, si: FS },
            BL: hinge.BL,
            WL: { ...hinge.WL, si: WL },
          });
        pair.mechanism.linkage.joints.socket.at = at(15.9, 0.795);
      }),
    );
    expect(() => buildMechanism(inputs)).toThrow("does not close as drawn");
  });
});
