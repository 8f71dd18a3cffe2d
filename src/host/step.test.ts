import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";
import { STEP_PACKAGE, stepImporter } from "./step.ts";

const folder = dirname(createRequire(import.meta.url).resolve(`${STEP_PACKAGE}/package.json`));
const cube = (name: string) => new Uint8Array(readFileSync(join(folder, "test", "testfiles", "cube-units", name)));

function size(vertices: Float64Array): number[] {
  return [0, 1, 2].map((k) => {
    const values = Array.from({ length: vertices.length / 3 }, (_, i) => vertices[3 * i + k]);
    return Math.max(...values) - Math.min(...values);
  });
}

describe("STEP files", () => {
  it("come in metres whatever unit they declare", async () => {
    const read = (await stepImporter())!;
    for (const name of ["cube-m.step", "cube-mm.step", "cube-in.step"]) {
      const found = read(cube(name));
      expect(found.ok, name).toBe(true);
      if (!found.ok) continue;
      // the three files draw one cube of 1 m in metres, millimetres and inches
      for (const side of size(found.vertices)) expect(side, name).toBeCloseTo(1, 9);
    }
  });

  it("that are none are refused with words", async () => {
    const read = (await stepImporter())!;
    expect(read(new TextEncoder().encode("no part at all"))).toMatchObject({ ok: false });
  });
});
