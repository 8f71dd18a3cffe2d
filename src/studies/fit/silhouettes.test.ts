import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { createPose } from "../../physics/shapes/index.ts";
import type { ShapeForm } from "./inputs.ts";
import { computeFit } from "./run.ts";
import { partSurface } from "./shape-mesh.ts";
import { cut, hull } from "./silhouettes.ts";
import { part, rig } from "./testing/rigs.ts";
import type { Line2 } from "./types.ts";

/** Area inside a closed line. */
function area(line: Line2): number {
  let twice = 0;
  line.forEach(([x, y], i) => {
    const [u, v] = line[(i + 1) % line.length];
    twice += x * v - u * y;
  });
  return Math.abs(0.5 * twice);
}

const surfaceOf = (form: ShapeForm) => partSurface(part("carrier.thing", "carrier", form)).mesh;

describe("outlines", () => {
  it("hull keeps the corners only", () => {
    const found = hull([
      [0, 0],
      [2, 0],
      [1, 0],
      [2, 1],
      [0, 1],
      [1, 0.5],
    ]);
    expect(found).toHaveLength(4);
    expect(area(found)).toBe(2);
  });

  it("cut of a strut is its circle, of a bay its walls, and nothing where the plane misses", () => {
    const strut = surfaceOf({ kind: "strut", from: [0, 0, 1], to: [2, 0, 1], radius: 0.5 });
    const [circle, ...others] = cut(strut, createPose(), 1.2);
    expect(others).toEqual([]);
    // A polygon of 24 corners on the circle.
    expectClose(area(circle), 12 * 0.25 * Math.sin(Math.PI / 12), { rtol: 1e-9, why: "inscribed polygon" }, "area");
    expect(cut(strut, createPose(), 3)).toEqual([]);
    const bay = surfaceOf({ kind: "bay", from: [0, -1, 0], to: [4, 1, 1.5], wall: 0.1 });
    const walls = cut(bay, createPose(), 2);
    expect(walls).toHaveLength(1);
    expectClose(area(walls[0]), 2 * 1.5 - 1.8 * 1.4, { rtol: 1e-9, why: "outer less inner" }, "walls");
  });

  it("shows every part at the three poses, a fuselage by its outermost line", () => {
    const body: ShapeForm = {
      kind: "fuselage",
      stations: { FS: [0, 2, 4], halfWidth: [0.1, 0.5, 0.2], halfHeight: [0.1, 0.6, 0.2], WL: [1, 1, 1.4] },
      BL: 0,
    };
    const { pictures } = computeFit(rig([part("carried.body", "carried", body)]), "base");
    expect(pictures.map(({ pose }) => pose)).toEqual(["stowed", "mid", "extended"]);
    const [stowed] = pictures;
    const [line] = stowed.parts[0].elevation;
    // Two trapezoids: the outline of a body that is not convex.
    expectClose(
      area(line),
      0.5 * (0.2 + 1.2) * 2 + 0.5 * (1.2 + 0.4) * 2,
      { rtol: 1e-3, why: "rounded to 0.1 mm" },
      "side",
    );
    expectClose(stowed.sectionFS_m, 18.034, { atol: 1e-3, why: "c.g. of the demonstration" }, "section");
    expect(pictures[2].parts[0].section.length).toBe(0);
  });
});
