import { describe, expect, it } from "vitest";
import { MESH_AXES, MESH_UNITS } from "../schema/index.ts";
import { checkLength, inStations, longestSide, METRES } from "./place.ts";
import { readMesh } from "./read.ts";
import { encode, WEDGE } from "./test-files.ts";

const surface = { vertices: Float64Array.from(WEDGE.vertices), triangles: Uint32Array.from(WEDGE.triangles) };
/** x, y, z of the file along the axes of the file. */
const unit = { vertices: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1), triangles: Uint32Array.of(0, 1, 2) };

describe("placing", () => {
  it.each([
    ["stations", { x: "aft", y: "right", z: "up" }],
    ["body", { x: "forward", y: "right", z: "down" }],
    ["aft up left", { x: "aft", y: "up", z: "left" }],
    ["left up forward", { x: "left", y: "up", z: "forward" }],
  ] as const)("%s points where it says", (axes, { x, y, z }) => {
    const stations = {
      aft: [1, 0, 0],
      forward: [-1, 0, 0],
      right: [0, 1, 0],
      left: [0, -1, 0],
      up: [0, 0, 1],
      down: [0, 0, -1],
    };
    const placed = [...inStations(unit, 1, axes, [0, 0, 0])].map((value) => value + 0);
    expect(placed).toEqual([...stations[x], ...stations[y], ...stations[z]]);
  });

  it("no choice of axes mirrors", () => {
    for (const axes of MESH_AXES) {
      const [a, b, c, d, e, f, g, h, i] = inStations(unit, 1, axes, [0, 0, 0]) as unknown as number[];
      const determinant = a! * (e! * i! - f! * h!) - b! * (d! * i! - f! * g!) + c! * (d! * h! - e! * g!);
      expect(determinant, axes).toBe(1);
    }
  });

  it("scales first and moves then", () => {
    expect([...inStations(unit, 0.001, "stations", [5, 6, 7])]).toEqual([5.001, 6, 7, 5, 6.001, 7, 5, 6, 7.001]);
  });
});

describe("length", () => {
  it("is the longest side of the corners that are used", () => {
    expect(longestSide(surface)).toBe(8);
    const stray = { vertices: Float64Array.of(...surface.vertices, 500, 0, 0), triangles: surface.triangles };
    expect(longestSide(stray)).toBe(8);
  });

  it("a wrong unit is found out, and the right one named", () => {
    for (const right of MESH_UNITS) {
      for (const stated of MESH_UNITS) {
        const found = checkLength(8.2 / METRES[right], stated, 8.2);
        expect(found, `${right} given as ${stated}`).toEqual(
          stated === right ? { ok: true } : { ok: false, fitting: right },
        );
      }
    }
  });

  it("agrees up to a tenth", () => {
    expect(checkLength(9.01, "m", 8.2).ok).toBe(true);
    expect(checkLength(7.39, "m", 8.2).ok).toBe(true);
    expect(checkLength(9.1, "m", 8.2)).toEqual({ ok: false, fitting: undefined });
  });
});

describe("STEP", () => {
  const effects = (found: ReturnType<NonNullable<Parameters<typeof readMesh>[2]["importStep"]>>) => ({
    sibling: () => ({ ok: false, reason: "none" }) as const,
    importStep: () => found,
  });
  const read = (found: Parameters<typeof effects>[0]) => readMesh(encode("ISO-10303-21;"), "STEP", effects(found));

  it("goes through the importer that is handed in", () => {
    expect(read({ ok: true, ...surface })).toEqual({ ok: true, mesh: surface });
    expect(read({ ok: false, reason: "no solid" })).toMatchObject({
      problems: [{ message: "the STEP file cannot be read: no solid" }],
    });
  });

  it("what the importer gives is checked", () => {
    const { vertices, triangles } = surface;
    for (const wrong of [
      { vertices, triangles: new Uint32Array(0) },
      { vertices, triangles: Uint32Array.of(0, 1, 4) },
      { vertices, triangles: Uint32Array.of(0, 1) },
      { vertices: vertices.map((value, i) => (i === 4 ? Number.NaN : value)), triangles },
    ]) {
      expect(read({ ok: true, ...wrong }).ok).toBe(false);
    }
  });

  it("is refused with a way out when there is no importer", () => {
    const none = { sibling: () => ({ ok: false, reason: "none" }) as const, importStep: undefined };
    const refused = readMesh(encode("ISO-10303-21;"), "STEP", none);
    expect(refused).toMatchObject({ ok: false, problems: [{ allowed: expect.stringContaining("STL, OBJ or glTF") }] });
  });
});
