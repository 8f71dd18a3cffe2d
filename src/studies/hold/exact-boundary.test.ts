import { beforeAll, describe, expect, it } from "vitest";
import { loadDemo } from "../../../test/support/load-demo.ts";
import { recordReads } from "../../inputs/index.ts";
import { contourLines } from "../../math/contour/index.ts";
import type { ModeClass, PairMode } from "../../physics/modes/index.ts";
import { allowedGrowth, type BoundaryPiece, ownMode, pathBoundary, piecesOf } from "./exact-boundary.ts";
import type { HoldInputs } from "./inputs.ts";
import { holdMaps } from "./maps.ts";
import { operatingPoint } from "./operating.ts";
import { readHoldInputs } from "./read-pair.ts";
import { PointModel, worstDamping } from "./stability.ts";

let inputs: HoldInputs;
let model: PointModel;
beforeAll(() => {
  const loaded = loadDemo();
  inputs = readHoldInputs(() => recordReads(loaded)).inputs;
  model = new PointModel(inputs, operatingPoint(inputs, inputs.conditions[0], "full"));
});

const piecesAt = (level: number, along: "bending" | "accumulator" = "accumulator"): BoundaryPiece[] =>
  pathBoundary(
    inputs,
    model,
    along,
    { stiffness: inputs.sweeps[along], snubber: inputs.sweeps.snubber },
    { kind: "oscillation", dampingRatio: level },
    level,
  );
const modesAt = (along: "bending" | "accumulator", x: number, y: number): PairMode[] =>
  model.modes(model.ratesWith({ [along]: Math.exp(x), snubber: Math.exp(y) }), "longitudinal");
const worstAt = (along: "bending" | "accumulator", x: number, y: number): number =>
  worstDamping(modesAt(along, x, y), "longitudinal", inputs.criteria.timeToDouble.value) ?? 1;

/** Largest distance of the points of pieces from contour lines of a grid, in the logarithms of the parameters. */
function distanceFromGrid(pieces: readonly BoundaryPiece[], level: number, n: number): number {
  const even = ({ from, to }: { from: number; to: number }): number[] =>
    Array.from({ length: n }, (_, i) => Math.log(from) + (Math.log(to / from) * i) / (n - 1));
  const [xs, ys] = [even(inputs.sweeps.accumulator), even(inputs.sweeps.snubber)];
  const lines = contourLines(xs, ys, ys.flatMap((y) => xs.map((x) => worstAt("accumulator", x, y))), level); // biome-ignore format: one grid
  const distances = pieces.flatMap((piece) =>
    piece.x.map((px, k) => {
      let least = Number.POSITIVE_INFINITY;
      for (const { x, y } of lines) {
        for (let i = 1; i < x.length; i++) {
          const [dx, dy] = [x[i] - x[i - 1], y[i] - y[i - 1]];
          const along = ((px - x[i - 1]) * dx + (piece.y[k] - y[i - 1]) * dy) / (dx * dx + dy * dy);
          const part = Math.min(1, Math.max(0, along));
          least = Math.min(least, Math.hypot(px - x[i - 1] - part * dx, piece.y[k] - y[i - 1] - part * dy));
        }
      }
      return least;
    }),
  );
  return distances.sort((a, b) => a - b)[distances.length >> 1];
}

describe("exact boundary over stiffness and snubber rate", () => {
  it("is what the contour of a grid tends to, with order two in its spacing", () => {
    const pieces = piecesAt(0);
    const [coarse, fine] = [distanceFromGrid(pieces, 0, 17), distanceFromGrid(pieces, 0, 65)];
    expect(fine).toBeLessThan(0.003);
    // four times finer: sixteen times nearer; the curve's own chords leave up to 5e-4
    expect(coarse / fine).toBeGreaterThan(8);
  });

  it.each([0, 0.03, 0.1])(
    "at ζ = %f carries the worst mode wherever it is a border, and something worse where it is not",
    (level) => {
      for (const along of ["accumulator", "bending"] as const) {
        for (const piece of piecesAt(level, along)) {
          // away from the ends, where the state changes
          for (let i = 2; i + 2 < piece.x.length; i += 4) {
            const worst = worstAt(along, piece.x[i], piece.y[i]);
            if (piece.border && piece.class === "rigid-body-type") expect(Math.abs(worst - level)).toBeLessThan(1e-6);
            if (!piece.border) expect(worst).toBeLessThan(level);
            const own = ownMode(modesAt(along, piece.x[i], piece.y[i]), piece.level, piece.frequency[i])!;
            expect(own.class).toBe(piece.class);
          }
        }
      }
    },
  );

  it("is what the maps of the base draw, for both levels", () => {
    for (const map of holdMaps(inputs, model.at, "own")) {
      expect(map.boundaries.map(({ level }) => level)).toEqual([0, inputs.criteria.rigidBodyDamping.value]);
      for (const { level, lines } of map.boundaries) {
        expect(lines.length).toBeGreaterThan(0);
        for (const [x, y] of lines.flat().filter((_, i) => i % 5 === 2)) {
          const key = map.id.startsWith("bending") ? "bending" : "accumulator";
          expect(Math.abs(worstAt(key, Math.log(1e3 * x), Math.log(1e3 * y)) - level)).toBeLessThan(2e-3);
        }
      }
    }
  });
});

describe("piecesOf", () => {
  const mode = (real: number, imag: number, kind: ModeClass = "rigid-body-type"): PairMode => ({
    ...{ real, imag, class: kind, plane: "longitudinal", strainShare: 0 },
    ...{ motion: new Float64Array(7), strain: new Float64Array(4), shape: new Float64Array(0) },
  });
  const curve = {
    ...{ x: Float64Array.of(0, 1, 2, 3, 4), y: new Float64Array(5), frequency: new Float64Array(5).fill(2) },
    ...{ closed: false, complete: true },
  };
  const level = { kind: "oscillation", dampingRatio: 0 } as const;

  it("cuts where another mode gets worse and where the class changes, to a thousandth of a chord", () => {
    const modes = (x: number): PairMode[] => [
      mode(0, 2, x > 2.7 ? "structural" : "rigid-body-type"),
      mode(x - 1.3, 5),
      mode(9, 30, "structural"),
    ];
    const pieces = piecesOf(curve, level, { limit: 0, growth: 0.03, modesAt: modes });
    expect(pieces.map((piece) => [piece.class, piece.border])).toEqual([
      ["rigid-body-type", true],
      ["rigid-body-type", false],
      ["structural", false],
    ]);
    for (const [i, cut] of [1.3, 2.7].entries()) {
      expect(Math.abs(pieces[i].x.at(-1)! - cut)).toBeLessThan(2e-3);
      expect(pieces[i + 1].x[0]).toBe(pieces[i].x.at(-1));
    }
    const sparse = piecesOf(curve, level, { limit: 0, growth: 0.03, modesAt: modes, most: 3 });
    expect(sparse.map((piece) => piece.border)).toEqual([true, false, false]);
    expect(Math.abs(sparse[0].x.at(-1)! - 1.3)).toBeLessThan(2e-3);
  });

  it("counts a real root only when it doubles too fast", () => {
    const border = (real: number): boolean =>
      piecesOf(curve, level, { limit: 0, growth: 0.03, modesAt: () => [mode(0, 2), mode(real, 0)] })[0].border;
    expect([border(0.02), border(0.04)]).toEqual([true, false]);
    expect(allowedGrowth(inputs)).toBeCloseTo(Math.LN2 / 20, 12);
  });
});
