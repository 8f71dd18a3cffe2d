/** Limits of the hooked pair: nothing holds it, everything is rigid, or it slides along the arc of the boom. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { linearise, PairMotion, trimFree, uniformAir } from "../../src/physics/bodies/index.ts";
import { expectClose } from "../support/close.ts";
import { type LongshoreOptions, longshore, REVISION_NAMES } from "../support/longshore.ts";
import { constrainedRoots } from "./hooked-constrained.ts";
import { linearPair, type Root, rootGap, rootsOf } from "./hooked-support.ts";

const size = (root: Root): number => Math.hypot(root.re, root.im);
const slowest = (roots: readonly Root[], count: number): Root[] =>
  [...roots].sort((a, b) => size(a) - size(b)).slice(0, count);
const hookedRoots = (options: LongshoreOptions): Root[] => {
  const { linear } = linearPair(longshore(options));
  return rootsOf(linear.matrix, linear.size);
};
function expectFirstOrder(gaps: readonly number[]): void {
  for (let i = 1; i < gaps.length; i++) expectClose(gaps[i - 1] / gaps[i], 10, { rtol: 0.12, why: "first order" });
}

describe("nothing holds the aircraft", () => {
  const settings = longshore();
  const free = trimFree({ airloads: settings.airloads, mass: settings.mass.mass, ...settings.air });
  const motion = new PairMotion({
    mass: settings.mass,
    airloads: settings.airloads,
    trim: free.controls,
    law: settings.law,
    environment: uniformAir(settings.air),
    attachment: "free",
  });
  const state = new Float64Array(motion.stateCount);
  state[3] = Math.cos(free.alpha / 2);
  state[5] = Math.sin(free.alpha / 2);
  const linear = linearise(motion, state);
  // position, height and heading are neutral
  const modes = rootsOf(linear.matrix, linear.size).filter((root) => size(root) > 1e-3);

  it("has the eight roots of free flight", () => {
    expect(modes).toHaveLength(8);
    expect(modes.filter((root) => root.im === 0)).toHaveLength(2);
  });

  /** Everything that the boom does, scaled down together: stiffness, snubber, tip mass, tow load, weight share. */
  const faint = (scale: number): LongshoreOptions => ({
    weightShare: 0.1 * scale,
    thrust: free.controls.thrust * (1 - scale),
    boom: {
      axial: scale,
      lateral: scale,
      bending: scale,
      accumulator: scale,
      snubber: scale,
      structuralDamping: 0,
      effectiveTipMass: 120 * scale,
    },
  });
  it("returns its free modes as stiffness, tip mass, tow load and weight share vanish together", () => {
    const gaps = [1e-6, 1e-7, 1e-8].map((scale) => {
      const hooked = hookedRoots(faint(scale));
      // spiral apart: position and heading, which the last trace of a spring couples, are near to it
      return modes.map((mode) => {
        const nearest = Math.min(...hooked.map((root) => size({ re: root.re - mode.re, im: root.im - mode.im })));
        return nearest / size(mode);
      });
    });
    const spiral = modes.findIndex((mode) => mode.im === 0 && size(mode) < 0.1);
    modes.forEach((_, i) => {
      if (i !== spiral) expectFirstOrder(gaps.map((gap) => gap[i]));
      expect(gaps[2][i]).toBeLessThan(i === spiral ? 0.01 : 1e-5);
    });
    expectFirstOrder(gaps.slice(1).map((gap) => gap[spiral]));
  });

  it("differs from it by far when the boom holds: the test can see", () => {
    expect(rootGap(slowest(modes, 8), slowest(hookedRoots({}), 8))).toBeGreaterThan(0.3);
  });
});

describe("everything is rigid", () => {
  const rigid = (k: number) => ({ axial: k, lateral: k, bending: k, accumulator: k });

  it.each(REVISION_NAMES.flatMap((revision) => [0, 0.2].map((weightShare) => ({ revision, weightShare }))))(
    "becomes an aircraft on a ball joint: $revision, share $weightShare",
    (options) => {
      const joint = constrainedRoots(longshore(options), "fixed");
      const gaps = [1e8, 1e9, 1e10].map((k) => rootGap(joint, slowest(hookedRoots({ ...options, boom: rigid(k) }), 6)));
      expect(gaps[2]).toBeLessThan(2e-6);
      expectFirstOrder(gaps);
    },
  );

  it("has the ball joint's roots of generated/hooked-independent", () => {
    const file = new URL("../../reference/generated/hooked-independent/values.json", import.meta.url);
    const { limits } = JSON.parse(readFileSync(file, "utf8"));
    for (const revision of REVISION_NAMES) {
      const { longitudinal, lateral } = limits[revision].pinned as Record<string, [number, number][]>;
      const expected = [...longitudinal, ...lateral].map(([re, im]) => ({ re, im }));
      expect(rootGap(expected, constrainedRoots(longshore({ revision }), "fixed"))).toBeLessThan(1e-8);
    }
  });

  it("refuses a path in which nothing yields", () => {
    const boom = { bending: Number.POSITIVE_INFINITY, accumulator: Number.POSITIVE_INFINITY };
    expect(() => hookedRoots({ boom })).toThrow("at least one finite stiffness");
  });
});

describe("the tangential stiffness alone vanishes", () => {
  it.each([
    { revision: "Rev A", weightShare: 0 },
    { revision: "Rev A", weightShare: 0.4 },
    { revision: "Rev B", weightShare: 0.2 },
    { revision: "Rev B", mass: "empty", weightShare: 0.1 },
  ] as const)("lets the tip slide along the arc of the boom: $revision, share $weightShare", (options) => {
    const arc = constrainedRoots(longshore(options), "on the arc");
    const gaps = [1e8, 1e9, 1e10].map((k) => {
      const boom = { axial: k, lateral: k, bending: 0, accumulator: 0, snubber: 0 };
      return rootGap(arc, slowest(hookedRoots({ ...options, boom }), 8));
    });
    expect(gaps[2]).toBeLessThan(5e-6);
    expectFirstOrder(gaps);
  });

  it("slides the more easily the less the boom pulls", () => {
    // tension over length is all that holds it: slow, and faster with a larger share
    const swing = [0, 0.2, 0.4].map((weightShare) =>
      size(slowest(constrainedRoots(longshore({ weightShare }), "on the arc"), 1)[0]),
    );
    expect(swing[0]).toBeLessThan(0.5);
    expect(swing[1]).toBeGreaterThan(1.5 * swing[0]);
    expect(swing[2]).toBeGreaterThan(swing[1]);
  });
});
