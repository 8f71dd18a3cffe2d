/** Clearances along the stroke: a rod past a point (closed form), thin things between the poses, doors in the way. */
import { describe, expect, it } from "vitest";
import type { PartInput } from "../../src/studies/fit/inputs.ts";
import { computeFit } from "../../src/studies/fit/run.ts";
import { mover, part, rig } from "../../src/studies/fit/testing/rigs.ts";
import type { PairClearance } from "../../src/studies/fit/types.ts";
import { expectClose } from "../support/close.ts";

const DEGREE = Math.PI / 180;
const HINGE = [10.4, 2.15] as const;
const RADIUS = 0.04;
/** The boom as a round rod from 1 m to 5.4 m from its hinge, drawn stowed. */
const rod = part("boom.rod", "mechanism", {
  kind: "strut",
  from: along(1, 14 * DEGREE),
  to: along(5.4, 14 * DEGREE),
  radius: RADIUS,
});

function along(distance: number, angle: number, aside = 0): [number, number, number] {
  return [HINGE[0] + distance * Math.cos(angle), aside, HINGE[1] - distance * Math.sin(angle)];
}

/** A small cube, its middle at a distance and angle from the boom hinge. */
function cube(half: number, at: readonly [number, number, number]): PartInput {
  const corner = (sign: number) => at.map((value) => value + sign * half) as [number, number, number];
  return part("carrier.cube", "carrier", { kind: "box", from: corner(-1), to: corner(1) });
}

function moving(parts: readonly PartInput[]): PairClearance {
  const found = computeFit(rig(parts), "base").clearances.find((one) => one.kind === "moving");
  if (found === undefined) throw new Error("no clearance");
  return found;
}

describe("a rod that turns past a point", () => {
  it.each([0.2, 0.35, 1.2])("keeps the distance aside, %s m, when it goes by", (aside) => {
    const half = 0.005;
    const found = moving([cube(half, along(3, 31.3 * DEGREE, aside)), rod]);
    // The nearest face of the cube looks at the round rod.
    const exact = aside - half - RADIUS;
    const faceting = RADIUS * (1 - Math.cos(Math.PI / 24));
    expect(found.least_m).toBeLessThanOrEqual(exact);
    expectClose(
      found.least_m,
      exact,
      { atol: 2 * faceting + Math.max(1e-3, 0.15 * exact), why: "tolerance of the bounds" },
      "least",
    );
    // Flat near the least: the angle is known as well as the bounds are close.
    expectClose(found.at.boomAngle_deg, 31.3, { atol: aside > 1 ? 8 : 1, why: "flat at the least" }, "angle");
    for (const { lower_m, upper_m } of found.alongStroke) expect(lower_m).toBeLessThanOrEqual(upper_m);
  });

  it("is bounded at every angle by the distance from the axis of the rod", () => {
    const half = 0.005;
    const [aside, distance, angle] = [0.35, 3, 31.3 * DEGREE];
    const { alongStroke } = moving([cube(half, along(distance, angle, aside)), rod]);
    for (let i = 0; i + 1 < alongStroke.length; i++) {
      const [from, to] = [alongStroke[i].boomAngle_deg * DEGREE, alongStroke[i + 1].boomAngle_deg * DEGREE];
      for (let k = 0; k <= 10; k++) {
        const turn = from + (k / 10) * (to - from) - angle;
        // From the middle of the cube to the rod's axis, less the radius: right to the size of the cube.
        const middle = Math.hypot(aside, distance * Math.sin(turn)) - RADIUS;
        expect(alongStroke[i].lower_m).toBeLessThanOrEqual(middle + Math.sqrt(3) * half);
      }
      const best = Math.max(from, Math.min(to, angle)) - angle;
      const least = Math.hypot(aside, distance * Math.sin(best)) - RADIUS;
      expect(alongStroke[i].upper_m).toBeGreaterThanOrEqual(least - Math.sqrt(3) * half - 1e-4);
      expect(alongStroke[i].lower_m).toBeGreaterThan(0.8 * (least - Math.sqrt(3) * half));
    }
  });

  it("does not jump over a thin plate between two poses", () => {
    // 0.4 mm thick, far out: the rod crosses it within a hundredth of a degree, between the poses of the result.
    const [x, , z] = along(5, 31.47 * DEGREE);
    const plate = part("carrier.plate", "carrier", {
      kind: "box",
      from: [x - 2e-4, 0.03, z - 2e-4],
      to: [x + 2e-4, 0.5, z + 2e-4],
    });
    const thin = part("boom.rod", "mechanism", {
      kind: "strut",
      from: along(1, 14 * DEGREE),
      to: along(5.4, 14 * DEGREE),
      radius: 0.035,
    });
    const found = moving([plate, thin]);
    expect(found.least_m).toBe(0);
    expect(["contact", "unresolved"]).toContain(found.state);
    expectClose(found.at.boomAngle_deg, 31.47, { atol: 0.5, why: "half the width of the rod" }, "angle");
  });
});

describe("groups in the way of the boom", () => {
  const pod = part("carried.pod", "carried", { kind: "box", from: [3, -0.3, 1], to: [4, 0.3, 1.4] });
  const lid = part(
    "lid.plate",
    "gear",
    { kind: "box", from: [16, -0.2, -0.42], to: [18, 1.5, -0.38] },
    { group: "doors" },
  );
  const hinge = { ...mover("lid", [17, 1.5, -0.4], [1, 0, 0], 100 * DEGREE), group: "doors" };

  it("stand open while it moves, and are measured so", () => {
    const fit = computeFit(rig([lid, pod], [hinge]), "base");
    expect(fit.groups).toEqual([{ group: "doors", standsAt_1: 1 }]);
    const [own] = fit.clearances;
    expect(own.state).not.toBe("contact");
    // At rest stowed they are closed: the pod's bottom at WL −0.055 over the plate at WL −0.38.
    expectClose(own.atEnds_m.stowed, 0.3252, { atol: 2e-3, why: "drawn gap, tolerance of the bound" }, "closed");
  });

  it("stay as drawn when they are not, or when open they are in the way as well", () => {
    const aside = rig([{ ...lid, form: { kind: "box", from: [16, 2, 5], to: [18, 3, 5.1] } }, pod], [hinge]);
    expect(computeFit(aside, "base").groups[0].standsAt_1).toBe(0);
    const stuck = rig([lid, pod], [{ ...hinge, angles: Float64Array.of(0, 0.05) }]);
    const fit = computeFit(stuck, "base");
    expect(fit.groups[0].standsAt_1).toBe(0);
    expect(fit.clearances[0].state).toBe("contact");
  });
});

describe("zones", () => {
  it("tell where the part is in them, also when it is wholly inside", () => {
    const zone = part(
      "carrier.jet",
      "carrier",
      { kind: "jet cone", exit: [12, 0, -2.2], exitRadius: 1.5, halfAngle: 0, length: 12 },
      { zone: true },
    );
    const bead = part("carried.bead", "carried", { kind: "box", from: [3.9, -0.1, 0.9], to: [4.1, 0.1, 1.1] });
    const { zones, clearances, maps } = computeFit(rig([zone, bead]), "base");
    expect(clearances).toEqual([]);
    expect(maps).toEqual([]);
    expect(zones).toHaveLength(1);
    expect(zones[0].inside).toBe(true);
    const [[from, to]] = zones[0].angles_deg;
    // In when its lower edge comes down to WL −0.7: a little after 19°. Still in at the end.
    expect(from).toBeGreaterThan(18);
    expect(from).toBeLessThan(21.5);
    expectClose(to, 52, { atol: 1e-9, why: "end of the stroke" }, "until");
  });
});
