import { describe, expect, it } from "vitest";
import { loadDemo } from "../../../test/support/load-demo.ts";
import { recordReads } from "../../inputs/index.ts";
import { ratioAlongStroke } from "./index.ts";

const DEGREE = Math.PI / 180;

describe("ratio along the stroke", () => {
  it("is that of the jack's triangle", () => {
    const loaded = loadDemo();
    const { angles, ratios, paths } = ratioAlongStroke(() => recordReads(loaded), 10 * DEGREE, 60 * DEGREE);
    expect(angles[0]).toBeCloseTo(10 * DEGREE, 12);
    expect(angles.at(-1)).toBeCloseTo(60 * DEGREE, 12);
    // own closed form: law of cosines with hinge A, anchor J and lug at its radius from A
    const { jack } = loaded.pair.mechanism.linkage!;
    const { hinge, length } = loaded.pair.mechanism.boom;
    const plane = (p: { FS: { si: number }; WL: { si: number } }): [number, number] => [
      p.FS.si - hinge.FS.si,
      p.WL.si - hinge.WL.si,
    ];
    const [j, lug] = [plane(jack.from), plane(jack.to)];
    const [a, b] = [Math.hypot(...j), Math.hypot(...lug)];
    const drawn = Math.atan2(j[1], j[0]) - Math.atan2(lug[1], lug[0]);
    angles.forEach((angle, i) => {
      const between = drawn + (angle - 14 * DEGREE);
      const jackLength = Math.sqrt(a * a + b * b - 2 * a * b * Math.cos(between));
      const jackPerAngle = (a * b * Math.sin(between)) / jackLength;
      expect(ratios[i]).toBeCloseTo(length.si / jackPerAngle, 9);
    });
    expect(paths.some((path) => path.startsWith("mechanism.linkage.jack"))).toBe(true);
  });

  it("may begin where the mechanism is drawn", () => {
    const loaded = loadDemo();
    const { angles } = ratioAlongStroke(() => recordReads(loaded), 14 * DEGREE, 52 * DEGREE);
    expect(angles.length).toBeGreaterThan(30);
    for (let i = 1; i < angles.length; i++) expect(angles[i]).toBeGreaterThan(angles[i - 1]);
  });
});
