/** Mesh files written by other programs, through our readers: what an independent library measures in the same files. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readMesh } from "../../src/inputs/meshes/index.ts";
import { createMesh, inspectMesh, meshProperties } from "../../src/physics/shapes/index.ts";
import { expectAllClose, expectClose } from "../support/close.ts";

const FOLDER = new URL("../../reference/generated/mesh-files/", import.meta.url);
const bytesOf = (name: string) => new Uint8Array(readFileSync(new URL(name, FOLDER)));

interface ReadBack {
  readonly file: string;
  readonly writer: string;
  readonly triangles: number;
  readonly closed: boolean;
  readonly volume: number;
  readonly area: number;
  readonly bounds: readonly [number[], number[]];
  readonly centroid: readonly number[];
}
const { files } = JSON.parse(readFileSync(new URL("values.json", FOLDER), "utf8")) as { files: ReadBack[] };

function measured(name: string) {
  const format = name.endsWith(".stl") ? "STL" : name.endsWith(".obj") ? "OBJ" : "glTF";
  const read = readMesh(bytesOf(name), format, {
    sibling: (reference) => ({ ok: true, bytes: bytesOf(reference) }),
    importStep: undefined,
  });
  if (!read.ok) throw new Error(`${name}: ${read.problems.map(({ message }) => message).join("; ")}`);
  const mesh = createMesh(read.mesh.vertices, read.mesh.triangles);
  // Files in single precision do not repeat a corner exactly once nodes have moved it.
  return { mesh, properties: meshProperties(mesh), inspection: inspectMesh(mesh, { weldTolerance: 1e-6 }) };
}

describe("generated/mesh-files", () => {
  it("has files of both writers in every format", () => {
    expect(new Set(files.map(({ writer }) => writer))).toEqual(new Set(["trimesh", "meshio"]));
    for (const end of [".text.stl", ".binary.stl", ".obj", ".glb", ".gltf"]) {
      expect(files.some(({ file }) => file.endsWith(end))).toBe(true);
    }
  });

  it.each(files)("$file: triangles, volume, area, bounds and centroid", (expected) => {
    const { mesh, properties, inspection } = measured(expected.file);
    expect(mesh.triangles.length / 3).toBe(expected.triangles);
    const why = "the same numbers of the file, summed in another order";
    expectClose(properties.signedVolume, expected.volume, { rtol: 1e-12, why }, "volume");
    expectClose(properties.area, expected.area, { rtol: 1e-12, why }, "area");
    expectAllClose(properties.lowest, expected.bounds[0], { atol: 1e-12, why }, "lowest");
    expectAllClose(properties.highest, expected.bounds[1], { atol: 1e-12, why }, "highest");
    expectAllClose(properties.centroid, expected.centroid, { atol: 1e-11, why }, "centroid");
    expect(expected.closed).toBe(true);
    expect(inspection.problems).toEqual([]);
  });

  it("holds what the closed forms say of the solids", () => {
    const volumes = {
      cuboid: 3,
      angle: 2.5,
      angles: 8.75,
      cylinder: 0.5 * 12 * 0.4 ** 2 * Math.sin(Math.PI / 6) * 2.5,
    };
    for (const { file } of files) {
      const solid = file.slice(0, file.indexOf(".")) as keyof typeof volumes;
      const closeness = { rtol: 1e-6, why: "corners in single precision, in the text files eight decimals" };
      expectClose(measured(file).properties.signedVolume, volumes[solid], closeness, file);
    }
  });
});
