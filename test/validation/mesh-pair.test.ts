/** Two real meshes, read by our OBJ reader, through the tree and over all pairs of triangles. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { loadPublished } from "../../reference/load.ts";
import { readMesh } from "../../src/inputs/meshes/index.ts";
import { cornersOf, hullDistance } from "../../src/physics/shapes/distance/testing/min-norm.ts";
import { createTriangleScratch, triangleTriangle } from "../../src/physics/shapes/distance/triangles.ts";
import {
  closerThan,
  createDistanceQuery,
  createMesh,
  createPose,
  createTree,
  inspectMesh,
  type Mesh,
  minimumDistance,
  movedMesh,
  type Pose,
} from "../../src/physics/shapes/index.ts";
import { expectClose } from "../support/close.ts";

const SLUG = "collision-library-distance-cases";
const published = loadPublished(SLUG);
const { cases } = JSON.parse(
  readFileSync(new URL("../../reference/generated/mesh-pair-distances/values.json", import.meta.url), "utf8"),
) as { cases: { shift: [number, number, number]; features: number; weights: number; crossings: number }[] };

function open(name: string): Mesh {
  const bytes = new Uint8Array(readFileSync(new URL(`../../reference/published/${SLUG}/${name}`, import.meta.url)));
  const read = readMesh(bytes, "OBJ", {
    sibling: () => ({ ok: false, reason: "no file is named" }),
    importStep: undefined,
  });
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join("; "));
  return createMesh(read.mesh.vertices, read.mesh.triangles);
}

const [rob, env] = [open("rob.obj"), open("env.obj")];
const [robTree, envTree] = [createTree(rob), createTree(env)];
const ORIGIN = createPose();

function shifted(shift: readonly number[]): Pose {
  const pose = createPose();
  pose.translation.set(shift);
  return pose;
}

/** Least distance over all pairs of triangles. */
function allPairs(a: Mesh, b: Mesh): number {
  const [one, other] = [cornersOf(a), cornersOf(b)];
  const out = new Float64Array(7);
  out[0] = Infinity;
  const work = createTriangleScratch();
  for (let i = 0; i < one.length; i += 9) {
    for (let j = 0; j < other.length; j += 9) triangleTriangle(one, i, other, j, work, out);
  }
  return Math.sqrt(out[0]);
}

describe("two meshes of a collision library", () => {
  it("are read whole, and said to be unsound", () => {
    for (const [name, mesh, fault] of [
      ["rob", rob, "edge of more than two faces"],
      ["env", env, "open edge"],
    ] as const) {
      expect(mesh.triangles.length / 3).toBe(published.quantity(`${name} triangles`).value);
      expect(mesh.vertices.length / 3).toBe(published.quantity(`${name} corners`).value);
      const { closed, problems } = inspectMesh(mesh);
      expect(closed).toBe(false);
      expect(problems.map((problem) => problem.fault)).toContain(fault);
    }
  });

  it("are as far apart as two independent computations say: generated/mesh-pair-distances", () => {
    expect(cases).toHaveLength(4);
    const why = "the two computations agree to 1e-12; coordinates of 1e4 carry rounding of that size";
    for (const { shift, features } of cases) {
      const query = createDistanceQuery();
      const found = minimumDistance(robTree, shifted(shift), envTree, ORIGIN, query);
      const { distance, triangleA, triangleB } = found;
      expectClose(distance, features, { atol: 1e-9, why }, `moved by ${shift}`);
      expectClose(allPairs(movedMesh(rob, shifted(shift)), env), distance, { atol: 1e-9, why }, "all pairs");
      const corners = cornersOf(movedMesh(rob, shifted(shift)));
      const hull = hullDistance(corners, 9 * triangleA, cornersOf(env), 9 * triangleB);
      expectClose(hull, distance, { atol: 1e-8, why: "the hull of corner differences of the pair found" }, "hull");
      const back = minimumDistance(envTree, ORIGIN, robTree, shifted(shift), createDistanceQuery());
      expectClose(back.distance, distance, { atol: 1e-9, why }, "the other way round");
    }
  });

  it("intersect where edges pierce faces, and only there", () => {
    for (const { shift, features, crossings } of cases) {
      const query = createDistanceQuery();
      expect(crossings > 0).toBe(features === 0);
      const contact = minimumDistance(robTree, shifted(shift), envTree, ORIGIN, query).distance === 0;
      expect(contact).toBe(crossings > 0);
      expect(closerThan(robTree, shifted(shift), envTree, ORIGIN, Math.max(features, 1e-6) - 1e-7, query)).toBe(
        contact,
      );
      expect(closerThan(robTree, shifted(shift), envTree, ORIGIN, features + 1e-6, query)).toBe(true);
    }
  });
});
