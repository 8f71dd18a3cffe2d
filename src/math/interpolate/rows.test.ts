import { describe, expect, it } from "vitest";
import { gridFromRows } from "./index.ts";

describe("a grid given row by row", () => {
  it("is found in rows of any order", () => {
    const found = gridFromRows([
      [2, 1, 2, 1],
      [5, 7, 7, 5],
    ]);
    expect(found.ok && found.axes.map((axis) => [...axis])).toEqual([
      [1, 2],
      [5, 7],
    ]);
    // points (1,5) (1,7) (2,5) (2,7)
    expect(found.ok && [...found.order]).toEqual([3, 1, 0, 2]);
  });

  it("names the points that are missing and the rows that come twice", () => {
    const found = gridFromRows([
      [1, 1, 2, 1],
      [5, 7, 5, 5],
    ]);
    expect(found).toEqual({ ok: false, missing: [[2, 7]], missingCount: 1, repeated: [3] });
  });

  it("does not spell out a grid that is none", () => {
    const column = Array.from({ length: 3000 }, (_, i) => i);
    const found = gridFromRows([column, column]);
    expect(!found.ok && found.missingCount).toBe(3000 * 3000 - 3000);
    const few = gridFromRows([column.slice(0, 50), column.slice(0, 50)]);
    expect(!few.ok && few.missing.length).toBe(10);
    expect(!few.ok && few.missingCount).toBe(2450);
  });
});
