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
    for (const [name, unit] of [
      ["cube-m.step", 1],
      ["cube-mm.step", 1e-3],
      ["cube-in.step", 0.0254],
    ] as const) {
      const found = read(cube(name));
      expect(found.ok, name).toBe(true);
      if (!found.ok) continue;
      const sides = size(found.vertices).map((side) => side / unit);
      // the same number in each file's own unit, a cube
      for (const side of sides) expect(side / sides[0]).toBeCloseTo(1, 6);
      expect(Math.abs(sides[0] - Math.round(sides[0])), `${name}: ${sides[0]}`).toBeLessThan(1e-6);
    }
  });

  it("that are none are refused with words", async () => {
    const read = (await stepImporter())!;
    expect(read(new TextEncoder().encode("no part at all"))).toMatchObject({ ok: false });
  });
});
