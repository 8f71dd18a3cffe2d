import { describe, expect, it } from "vitest";
import { cellFrom, cellTo, createGrid, type MapGrid } from "./map-grid.ts";
import { regionsOf, shortestPath } from "./map-path.ts";

/** A map from pictures of rows, the first row at the boom stowed: . free, o near, # collides, ? unresolved. */
function drawn(...rows: readonly string[]): MapGrid {
  const grid = createGrid(rows.length, 0.1);
  rows.forEach((row, j) => {
    [...row].forEach((sign, i) => {
      grid.code[j * rows.length + i] = { ".": 0, o: 1, "?": 2, "#": 3 }[sign] ?? 3;
    });
  });
  return grid;
}

function corners(grid: MapGrid): string | null {
  const end = grid.nodes - 1;
  const found = shortestPath(grid, { i: 0, j: 0 }, { i: end, j: end });
  return found === null ? null : found.corners.map(({ i, j }) => `${i}${j}`).join(" ");
}

describe("shortest path", () => {
  it("moves one thing, then the other, with as few changes as the map allows", () => {
    expect(corners(drawn("..#", "..#", "..."))).toBe("00 02 22");
    expect(corners(drawn("...", "##.", "##."))).toBe("00 20 22");
    expect(corners(drawn("..##", "#..#", "##..", "###."))).toBe("00 10 11 21 22 32 33");
    expect(corners(drawn("....", "....", "....", "...."))?.split(" ")).toHaveLength(3);
  });

  it("goes round through free cells rather than through near ones, and through near ones rather than not at all", () => {
    const round = shortestPath(drawn(".o...", ".#.#.", ".#.#.", "...#.", "####."), { i: 0, j: 0 }, { i: 4, j: 4 });
    expect(round?.throughNear).toBe(false);
    expect(round?.length).toBe(14);
    const through = shortestPath(drawn(".o...", "##.#.", "##.#.", "##.#.", "####."), { i: 0, j: 0 }, { i: 4, j: 4 });
    expect(through?.throughNear).toBe(true);
    expect(through?.length).toBe(8);
  });

  it("finds none through cells that collide or are unresolved, nor across corners", () => {
    expect(corners(drawn(".#", "#."))).toBeNull();
    expect(corners(drawn("..?", "..?", "??."))).toBeNull();
    expect(corners(drawn("#..", "...", "..."))).toBeNull();
  });

  it("gives the same path in the same order every time", () => {
    const grid = drawn(".....", ".....", "..#..", ".....", ".....");
    expect(corners(grid)).toBe(corners(grid));
    expect(shortestPath(grid, { i: 0, j: 0 }, { i: 4, j: 4 })?.length).toBe(8);
  });
});

describe("regions", () => {
  it("hang together by their sides", () => {
    const grid = drawn("..#.", "..#o", "##.#", "#...");
    const { regionOf, count } = regionsOf(grid);
    expect(count).toBe(3);
    expect([...regionOf]).toEqual([0, 0, -1, 1, 0, 0, -1, 1, -1, -1, 2, -1, -1, 2, 2, 2]);
  });
});

describe("cells", () => {
  it("cover everything without a gap", () => {
    expect(cellFrom(0, 11)).toBe(0);
    expect(cellTo(10, 11)).toBe(1);
    for (let i = 1; i < 11; i++) expect(cellFrom(i, 11)).toBe(cellTo(i - 1, 11));
  });
});
