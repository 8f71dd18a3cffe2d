import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { type BowWaveRows, bowWaveTable, type WakeRows, wakeTable } from "./flow-tables.ts";

const grid = (...axes: readonly (readonly number[])[]): number[][] =>
  axes.reduce<number[][]>((rows, axis) => rows.flatMap((row) => axis.map((x) => [...row, x])), [[]]);
const column = (rows: readonly number[][], f: (row: number[]) => number): Float64Array => Float64Array.from(rows, f);

const places = grid([0, 1, 4], [-1, 0, 2]).reverse();
const bow: BowWaveRows = {
  aft: column(places, ([a]) => a),
  below: column(places, ([, b]) => b),
  // bilinear, nowhere zero
  forward: column(places, ([a, b]) => 0.02 - 0.004 * a + 0.001 * a * b),
  down: column(places, ([a, b]) => -0.03 + 0.005 * b + 0.002 * a),
};

describe("bow wave from a table", () => {
  const wave = bowWaveTable(bow, 100);
  const out = new Float64Array(3);

  it("follows its rows and what is bilinear between them, as a share of the airspeed", () => {
    for (const [a, b] of [...places, [0.3, 1.1], [2.9, -0.4]]) {
      expect(wave.evaluate(a, b, out)).toBe(true);
      const exact = [100 * (0.02 - 0.004 * a + 0.001 * a * b), 0, 100 * (-0.03 + 0.005 * b + 0.002 * a)];
      for (let i = 0; i < 3; i++) expectClose(out[i], exact[i], { atol: 1e-12, why: "bilinear" });
    }
  });

  it("says that it is left, on any side, and then holds the edge: it never invents a zero", () => {
    for (const [a, b, x, y] of [
      [-0.1, 0, 0, 0],
      [4.1, 0, 4, 0],
      [1, -1.1, 1, -1],
      [1, 50, 1, 2],
      [99, 99, 4, 2],
    ]) {
      expect(wave.evaluate(a, b, out)).toBe(false);
      const there = out.slice();
      expect(wave.evaluate(x, y, out)).toBe(true);
      expect(there).toEqual(out);
      expect(there[2]).not.toBe(0);
    }
  });

  it("refuses an empty table, one place, a hole, a repetition, numbers that are not finite", () => {
    const rows = (keep: (i: number) => boolean): BowWaveRows => ({
      aft: bow.aft.filter((_, i) => keep(i)),
      below: bow.below.filter((_, i) => keep(i)),
      forward: bow.forward.filter((_, i) => keep(i)),
      down: bow.down.filter((_, i) => keep(i)),
    });
    expect(() =>
      bowWaveTable(
        rows(() => false),
        100,
      ),
    ).toThrow("rows of the table");
    expect(() =>
      bowWaveTable(
        rows((i) => bow.aft[i] === 1),
        100,
      ),
    ).toThrow("places along one axis");
    expect(() =>
      bowWaveTable(
        rows((i) => i !== 4),
        100,
      ),
    ).toThrow("full grid");
    expect(() => bowWaveTable({ ...bow, down: bow.down.map(() => Number.NaN) }, 100)).toThrow(DomainError);
    expect(() => bowWaveTable(bow, 0)).toThrow("airspeed");
  });
});

describe("wake from a table", () => {
  const rows = grid([5, 10], [-3, 0, 3], [1, 4, 8]);
  const wake: WakeRows = {
    aft: column(rows, ([a]) => a),
    right: column(rows, ([, r]) => r),
    below: column(rows, ([, , b]) => b),
    forward: column(rows, ([a, r, b]) => 0.001 * a - 0.002 * r + 0.003 * b),
    sideways: column(rows, ([, r]) => 0.01 * r),
    down: column(rows, ([a, , b]) => 0.02 - 0.0001 * a * b),
    turbulence: column(rows, ([, r]) => 1 + 0.1 * (r + 3)),
  };

  it("follows its rows in three directions, and says where it ends", () => {
    const table = wakeTable(wake, 50);
    const out = new Float64Array(4);
    expect(table.evaluate(7, -1, 5, out)).toBe(true);
    const exact = [50 * (0.007 + 0.002 + 0.015), 50 * -0.01, 50 * (0.02 - 0.0035), 1.2];
    for (let i = 0; i < 4; i++) expectClose(out[i], exact[i], { atol: 1e-12, why: "trilinear" });
    expect(table.evaluate(4.9, 0, 5, out)).toBe(false);
    expect(table.evaluate(7, 3.1, 5, out)).toBe(false);
    expect(table.evaluate(7, 0, 8.1, out)).toBe(false);
    expect(out[2]).not.toBe(0);
  });

  it("refuses a negative factor on turbulence", () => {
    expect(() => wakeTable({ ...wake, turbulence: wake.turbulence.map(() => -1) }, 50)).toThrow("turbulence");
  });
});
