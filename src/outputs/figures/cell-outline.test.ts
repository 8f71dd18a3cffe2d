import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellOutlines } from "./cell-outline.ts";

/** Signed area, counter-clockwise positive. */
function area(loop: readonly (readonly [number, number])[]): number {
  return loop.reduce((sum, [x, y], i) => {
    const [nx, ny] = loop[(i + 1) % loop.length]!;
    return sum + (x * ny - nx * y) / 2;
  }, 0);
}

describe("outlines of cells", () => {
  const grid = fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 })).chain(([columns, rows]) =>
    fc.record({
      columns: fc.constant(columns),
      rows: fc.constant(rows),
      cells: fc.array(fc.boolean(), { minLength: columns * rows, maxLength: columns * rows }),
    }),
  );

  it("enclose as much as there are cells, holes taken off", () => {
    fc.assert(
      fc.property(grid, ({ columns, rows, cells }) => {
        const loops = cellOutlines(columns, rows, (c, r) => cells[r * columns + c]!);
        const total = loops.reduce((sum, loop) => sum + area(loop), 0);
        expect(total).toBe(cells.filter(Boolean).length);
      }),
    );
  });

  it("wind once round wanted cells and never round others", () => {
    fc.assert(
      fc.property(grid, ({ columns, rows, cells }) => {
        const loops = cellOutlines(columns, rows, (c, r) => cells[r * columns + c]!);
        for (let r = 0; r < rows; r++) {
          for (let c = 0; c < columns; c++) {
            // signed crossings of the ray from the middle of the cell to the right
            let winding = 0;
            for (const loop of loops) {
              loop.forEach(([x, y], i) => {
                const [nx, ny] = loop[(i + 1) % loop.length]!;
                if (x !== nx || x < c + 0.5) return;
                if (Math.min(y, ny) < r + 0.5 && Math.max(y, ny) > r + 0.5) winding += Math.sign(ny - y);
              });
            }
            expect(winding).toBe(cells[r * columns + c] ? 1 : 0);
          }
        }
      }),
    );
  });

  it("has four corners for a full grid and a second loop for a hole", () => {
    expect(cellOutlines(5, 3, () => true)).toEqual([
      [
        [0, 0],
        [5, 0],
        [5, 3],
        [0, 3],
      ],
    ]);
    const ring = cellOutlines(3, 3, (c, r) => c !== 1 || r !== 1);
    expect(ring.map(area).sort((a, b) => a - b)).toEqual([-1, 9]);
  });
});
