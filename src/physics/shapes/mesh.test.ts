import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DomainError } from "../../math/errors.ts";
import { rotationMatrix } from "../../math/rotation/index.ts";
import { inspectMesh } from "./inspect.ts";
import { createMesh, joinedMesh, meshProperties, mirroredMesh, movedMesh } from "./mesh.ts";
import { createPose } from "./pose.ts";
import { box } from "./stand-ins/box.ts";
import type { Mesh, Pose } from "./types.ts";
import { weldMesh } from "./weld.ts";
import { windingNumber } from "./winding.ts";

const cube = box({ length: 1, width: 1, height: 1, centre: [0.5, 0.5, 0.5] }).mesh;

function tetrahedron(edge: number): Mesh {
  const s = edge / Math.SQRT2 / 2;
  return createMesh(
    Float64Array.from([s, s, s, s, -s, -s, -s, s, -s, -s, -s, s]),
    Uint32Array.from([0, 1, 2, 0, 3, 1, 0, 2, 3, 1, 3, 2]),
  );
}

/** Every triangle with corners of its own. */
function exploded(mesh: Mesh): Mesh {
  const vertices = [...mesh.triangles].flatMap((corner) => [...mesh.vertices.subarray(3 * corner, 3 * corner + 3)]);
  return createMesh(
    Float64Array.from(vertices),
    mesh.triangles.map((_, index) => index),
  );
}

function turned(mesh: Mesh): Mesh {
  const triangles = mesh.triangles.map((_, i, all) => all[i - (i % 3) + [0, 2, 1][i % 3]!]!);
  return createMesh(mesh.vertices, triangles);
}

const somePose = fc
  .array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 7, maxLength: 7 })
  .filter((q) => Math.hypot(q[0]!, q[1]!, q[2]!, q[3]!) > 0.1)
  .map((q): Pose => {
    const pose = createPose();
    const size = Math.hypot(q[0]!, q[1]!, q[2]!, q[3]!);
    rotationMatrix(Float64Array.from(q.slice(0, 4).map((x) => x / size)), 0, pose.rotation);
    pose.translation.set(q.slice(4).map((x) => 10 * x));
    return pose;
  });

describe("meshProperties", () => {
  it("knows the unit cube and the regular tetrahedron", () => {
    const unit = meshProperties(cube);
    expect(unit.signedVolume).toBeCloseTo(1, 14);
    expect(unit.area).toBeCloseTo(6, 14);
    for (const k of unit.centroid) expect(k).toBeCloseTo(0.5, 14);
    expect([unit.lowest, unit.highest]).toEqual([
      [0, 0, 0],
      [1, 1, 1],
    ]);
    for (const edge of [0.01, 1, 300]) {
      const { signedVolume, area } = meshProperties(tetrahedron(edge));
      // Closed forms s³/(6√2) and √3·s².
      expect(signedVolume / (edge ** 3 / (6 * Math.SQRT2))).toBeCloseTo(1, 13);
      expect(area / (Math.sqrt(3) * edge ** 2)).toBeCloseTo(1, 13);
    }
  });

  it("does not change with the axes; the centroid goes along; a mirror keeps the volume", () => {
    fc.assert(
      fc.property(somePose, (pose) => {
        const properties = meshProperties(movedMesh(cube, pose));
        expect(properties.signedVolume).toBeCloseTo(1, 12);
        expect(properties.area).toBeCloseTo(6, 12);
        const middle = movedMesh(createMesh(Float64Array.of(0.5, 0.5, 0.5), Uint32Array.of(0, 0, 0)), pose).vertices;
        for (let k = 0; k < 3; k++) expect(properties.centroid[k]).toBeCloseTo(middle[k]!, 11);
      }),
      { seed: 3, numRuns: 50 },
    );
    expect(meshProperties(mirroredMesh(cube)).signedVolume).toBeCloseTo(1, 14);
    expect(meshProperties(joinedMesh([cube, tetrahedron(1)])).signedVolume).toBeCloseTo(1 + 1 / (6 * Math.SQRT2), 13);
  });

  it("keeps its digits far from the datum", () => {
    const pose = createPose();
    pose.translation.set([1e6, -2e6, 3e6]);
    expect(meshProperties(movedMesh(cube, pose)).signedVolume).toBeCloseTo(1, 8);
  });
});

describe("createMesh", () => {
  it("refuses what no mesh may have", () => {
    const v = new Float64Array(9);
    expect(() => createMesh(v, Uint32Array.of(0, 1, 3))).toThrow(DomainError);
    expect(() => createMesh(v, Uint32Array.of(0, 1, 3))).toThrow("below the number of vertices, 3");
    expect(() => createMesh(v, Uint32Array.of())).toThrow("length of triangles is 0");
    expect(() => createMesh(new Float64Array(8), Uint32Array.of(0, 1, 1))).toThrow("length of vertices is 8");
    expect(() => createMesh(Float64Array.of(0, 0, Number.NaN), Uint32Array.of(0, 0, 0))).toThrow("finite");
  });
});

describe("inspectMesh", () => {
  const faults = (mesh: Mesh) => inspectMesh(mesh).problems.map(({ fault, count }) => [fault, count]);

  it("finds nothing wrong with sound solids", () => {
    for (const mesh of [cube, tetrahedron(2), exploded(cube), joinedMesh([cube, tetrahedron(1)])]) {
      const found = inspectMesh(mesh);
      expect(found).toMatchObject({ closed: true, oriented: true, inverted: false, problems: [] });
    }
    expect(inspectMesh(exploded(cube)).duplicateVertices).toBe(28);
    expect(inspectMesh(cube).meanThickness).toBeCloseTo(1 / 3, 14);
  });

  it("finds each planted fault", () => {
    expect(faults(turned(cube))).toEqual([["inside out", 1]]);
    expect(faults(createMesh(cube.vertices, cube.triangles.slice(3)))).toEqual([["open edge", 3]]);
    const flipped = cube.triangles.slice();
    [flipped[1], flipped[2]] = [flipped[2]!, flipped[1]!];
    expect(faults(createMesh(cube.vertices, flipped))).toEqual([["neighbours face opposite sides", 3]]);
    const fin = createMesh(
      Float64Array.from([...cube.vertices, 2, 2, 2]),
      Uint32Array.from([...cube.triangles, cube.triangles[0]!, cube.triangles[1]!, 8]),
    );
    expect(faults(fin)).toEqual([
      ["open edge", 2],
      ["edge of more than two faces", 1],
    ]);
    const sheet = createMesh(Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0.5), Uint32Array.of(0, 1, 2, 0, 2, 1));
    expect(faults(sheet)).toEqual([["no thickness", 1]]);
    const pinched = box({ length: 1, width: 1, height: 1e-8 }).mesh;
    expect(faults(pinched)).toEqual([["no thickness", 1]]);
    expect(faults(box({ length: 1, width: 1, height: 1e-10 }).mesh)).toContainEqual(["no thickness", 1]);
    const needle = createMesh(Float64Array.of(0, 0, 0, 1, 1, 1, 2, 2, 2), Uint32Array.of(0, 1, 2));
    expect(faults(needle)).toContainEqual(["triangle without area", 1]);
  });

  it("says where: the middle of the open edges", () => {
    const open = inspectMesh(createMesh(tetrahedron(1).vertices, tetrahedron(1).triangles.slice(3)));
    expect(open.closed).toBe(false);
    const s = 1 / Math.SQRT2 / 2;
    expect(open.problems[0]!.places).toEqual(
      expect.arrayContaining([
        [s, 0, 0],
        [0, s, 0],
      ]),
    );
  });
});

describe("weldMesh", () => {
  it("restores an exploded cube whose corners were shaken within the tolerance", () => {
    const shaken = exploded(cube);
    shaken.vertices.forEach((x, index) => {
      shaken.vertices[index] = x + 1e-4 * Math.sin(7 * index);
    });
    const { mesh, merged, dropped } = weldMesh(shaken, 5e-4);
    expect([mesh.vertices.length / 3, merged, dropped]).toEqual([8, 28, 0]);
    expect(inspectMesh(mesh).problems).toEqual([]);
    expect(inspectMesh(mesh, { weldTolerance: 0 }).closed).toBe(true);
    expect(inspectMesh(shaken, { weldTolerance: 1e-9 }).closed).toBe(false);
  });

  it("drops what collapses, and refuses to drop everything", () => {
    const sliver = createMesh(Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0, 1e-6, 0, 0), Uint32Array.of(0, 1, 2, 0, 3, 2));
    expect(weldMesh(sliver, 1e-5)).toMatchObject({ merged: 1, dropped: 1 });
    expect(() => weldMesh(cube, 5)).toThrow(DomainError);
    expect(() => weldMesh(cube, -1)).toThrow("weld tolerance is -1");
  });
});

describe("windingNumber", () => {
  it("is 1 inside, 0 outside, −1 inside out, and adds up", () => {
    const inside = Float64Array.of(0.9, 0.2, 0.4);
    const outside = Float64Array.of(1.1, 0.2, 0.4);
    expect(windingNumber(cube, inside)).toBeCloseTo(1, 12);
    expect(windingNumber(cube, outside)).toBeCloseTo(0, 12);
    expect(windingNumber(turned(cube), inside)).toBeCloseTo(-1, 12);
    expect(windingNumber(joinedMesh([cube, cube]), inside)).toBeCloseTo(2, 12);
    const open = createMesh(cube.vertices, cube.triangles.slice(6));
    expect(windingNumber(open, Float64Array.of(0.5, 0.5, 0.5))).toBeCloseTo(5 / 6, 12);
  });
});
