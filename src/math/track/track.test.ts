import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { coupledModes } from "../../../reference/analytic/coupled-oscillators/closed-form.ts";
import { oscillatorRoots } from "../../../reference/analytic/damped-oscillator/closed-form.ts";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { correlation, type Root, type TrackSettings, trackRoots } from "./index.ts";

// Cases from analytic/coupled-oscillators and analytic/damped-oscillator.
const grid = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
const root = (real: number, imag: number, shape: readonly number[]): Root => ({
  real,
  imag,
  shape: Float64Array.from(shape),
});
/** Roots of the coupled oscillators along δ. */
const coupled = (onFirst: number, onSecond: number) => (half: number) =>
  coupledModes({ mean: 40, half, onFirst, onSecond }).map(({ real, imag, first, second }) =>
    root(real, imag, [...first, ...second]),
  );
/** Tracks and the values at which roots were asked for. */
function follow(values: number[], evaluate: (value: number) => Root[], settings?: TrackSettings) {
  const asked: number[] = [];
  const tracks = trackRoots(
    values,
    (value) => {
      asked.push(value);
      return evaluate(value);
    },
    settings,
  );
  return { tracks, asked };
}
const imags = (track: readonly (Root | null)[]): (number | null)[] => track.map((r) => r?.imag ?? null);
const exact = { rtol: 1e-14, why: "the same closed form" };

describe("correlation", () => {
  const shapes = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 8, maxLength: 8 });
  const solid = shapes.filter((shape) => Math.hypot(...shape) > 1e-3).map((shape) => Float64Array.from(shape));
  const turned = (a: Float64Array, size: number, phase: number): Float64Array => {
    const out = new Float64Array(a.length);
    const [c, s] = [size * Math.cos(phase), size * Math.sin(phase)];
    for (let i = 0; i < a.length; i += 2) {
      out[i] = c * a[i] - s * a[i + 1];
      out[i + 1] = s * a[i] + c * a[i + 1];
    }
    return out;
  };
  const rounding = { atol: 1e-12, why: "round-off" };

  it("is 1 for the same shape at any scale and phase, and does not care which comes first", () => {
    const phases = fc.double({ min: -4, max: 4, noNaN: true });
    fc.assert(
      fc.property(solid, solid, fc.double({ min: 0.01, max: 100, noNaN: true }), phases, (a, b, size, phase) => {
        expectClose(correlation(a, turned(a, size, phase)), 1, rounding);
        expectClose(correlation(turned(a, size, phase), b), correlation(a, b), rounding);
        expectClose(correlation(b, a), correlation(a, b), rounding);
        expect(correlation(a, b)).toBeLessThanOrEqual(1 + 1e-12);
        expect(correlation(a, b)).toBeGreaterThanOrEqual(0);
      }),
      { seed: 51 },
    );
  });

  it("is the squared cosine between real shapes, and 0 between motions in quadrature", () => {
    const [c, s] = [Math.cos(0.7), Math.sin(0.7)];
    expectClose(correlation(Float64Array.of(1, 0, 0, 0), Float64Array.of(c, 0, s, 0)), c * c, exact);
    // (1, i) turns one way, (1, −i) the other
    expect(correlation(Float64Array.of(1, 0, 0, 1), Float64Array.of(1, 0, 0, -1))).toBe(0);
    expect(correlation(new Float64Array(4), Float64Array.of(1, 0, 0, 0))).toBe(0);
  });

  it("refuses shapes that do not belong together", () => {
    expect(() => correlation(new Float64Array(4), new Float64Array(6))).toThrow(DomainError);
    expect(() => correlation(new Float64Array(3), new Float64Array(3))).toThrow("equal and even");
  });
});

describe("crossing", () => {
  const evaluate = coupled(0, 0);
  const values = grid(-5, 6, 12); // no value at δ = 0, where the closed form has no shape

  it("keeps each root with its own oscillator, without a closer look", () => {
    const { tracks, asked } = follow(
      values.filter((value) => value !== 0),
      evaluate,
    );
    const kept = values.filter((value) => value !== 0);
    expect(tracks).toHaveLength(2);
    const slope = (sign: number): number[] => kept.map((half) => Math.sqrt(40 + sign * half));
    const starts = tracks.map((track) => track[0]!.imag);
    const rising = starts[0] < starts[1] ? 0 : 1;
    kept.forEach((_, i) => {
      expectClose(tracks[rising][i]!.imag, slope(1)[i], exact);
      expectClose(tracks[1 - rising][i]!.imag, slope(-1)[i], exact);
    });
    expect(asked).toEqual(kept);
  });

  it("gets through a value at which both roots are the same", () => {
    const both = (p: number): Root[] => [root(0, 5 + p, [1, 0, 0, 0]), root(0, 5 - p, [0, 0, 1, 0])];
    const { tracks, asked } = follow([-1, 0, 1], both);
    expect(tracks.map(imags)).toEqual([
      [4, 5, 6],
      [6, 5, 4],
    ]);
    expect(asked).toHaveLength(3);
  });

  it("does not depend on the order in which roots are listed", () => {
    const both = (p: number): Root[] => [root(-0.1, 5 + p, [1, 0, 0, 0]), root(-0.2, 5 - p, [0, 0, 1, 0])];
    const swapped = (p: number): Root[] => (Math.round(7 * p) % 2 === 0 ? both(p).reverse() : both(p));
    const values2 = grid(-1, 1, 8);
    const sorted = (tracks: (Root | null)[][]) => tracks.map(imags).sort((a, b) => a[0]! - b[0]!);
    expect(sorted(trackRoots(values2, swapped))).toEqual(sorted(trackRoots(values2, both)));
  });
});

describe("veering", () => {
  const evaluate = coupled(0.4, 0.4);
  const branch = (half: number, sign: number): number => Math.sqrt(40 + sign * Math.hypot(half, 0.4));

  it("stays on its branch although the shapes change places", () => {
    const values = grid(-5, 5, 6); // steps of 2: the whole exchange lies within one
    const { tracks, asked } = follow(values, evaluate);
    expect(tracks).toHaveLength(2);
    values.forEach((half, i) => {
      expectClose(tracks[0][i]!.imag, branch(half, -1), exact, "lower branch");
      expectClose(tracks[1][i]!.imag, branch(half, 1), exact, "upper branch");
    });
    // the shapes did change places: the lower branch ends in what the upper one began with
    expect(correlation(tracks[0][0]!.shape, tracks[1][5]!.shape)).toBeGreaterThan(0.99);
    // and only the doubtful interval was halved, evaluated between its ends only
    const extra = asked.filter((value) => !values.includes(value));
    expect(extra.length).toBeGreaterThan(0);
    for (const value of extra) expect(Math.abs(value)).toBeLessThan(1);
  });

  it("would follow the shape across without halving: this is what the closer look is for", () => {
    const values = grid(-5, 5, 6);
    const { tracks, asked } = follow(values, evaluate, { halvings: 0 });
    expect(asked).toEqual(values);
    expectClose(tracks[0][0]!.imag, branch(-5, -1), exact);
    expectClose(tracks[0][5]!.imag, branch(5, 1), exact, "changed branch");
  });

  it("passes a veering much narrower than the step as a crossing, unless asked for more", () => {
    const last = (settings?: TrackSettings): number => follow([-5, 5], evaluate, settings).tracks[0][1]!.imag;
    expectClose(last(), branch(5, 1), exact, "the shape goes on");
    expectClose(last({ believed: 1 }), branch(5, -1), exact, "the branch goes on");
  });

  it("halves as often as belief asks, and no more than allowed", () => {
    const values = [-1, 1];
    const count = (settings: TrackSettings): number => follow(values, evaluate, settings).asked.length;
    expect(count({ believed: 0 })).toBe(2);
    expect(count({ halvings: 1 })).toBe(3);
    expect(count({ halvings: 2 })).toBe(5);
    expect(count({ believed: 0.99 })).toBeGreaterThan(count({ believed: 0.9 }));
    expect(count({ believed: 1, halvings: 5 })).toBeLessThanOrEqual(2 + 31);
  });
});

describe("coalescence", () => {
  const evaluate = coupled(2, -2); // frequencies are one for |δ| < 2

  it.each([40, 41, 13])("follows two frequencies into one growing and one dying motion, %i values", (count) => {
    const values = grid(6, 0.3, count); // falling: towards coalescence
    const { tracks } = follow(values, evaluate);
    expect(tracks).toHaveLength(2);
    values.forEach((half, i) => {
      const expected = evaluate(half).map((r) => [r.real, r.imag]);
      const found = tracks.map((track) => [track[i]!.real, track[i]!.imag]);
      const order = (a: number[], b: number[]): number => a[0] - b[0] || a[1] - b[1];
      expect(found.sort(order)).toEqual(expected.sort(order));
      if (half > 2) expect(tracks.map((track) => track[i]!.real)).toEqual([0, 0]);
    });
    // once apart in damping, each goes on growing or dying
    const inside = values.findIndex((half) => half < 2);
    for (const track of tracks) {
      const sign = Math.sign(track[inside]!.real);
      expect(sign).not.toBe(0);
      for (const r of track.slice(inside)) expect(Math.sign(r!.real)).toBe(sign);
    }
    expect(Math.sign(tracks[0].at(-1)!.real)).toBe(-Math.sign(tracks[1].at(-1)!.real));
    // and before, each keeps its frequency: low stays below high
    for (let i = 0; i < inside; i++) {
      expect(tracks[0][i]!.imag < tracks[1][i]!.imag).toBe(tracks[0][0]!.imag < tracks[1][0]!.imag);
    }
  });

  it("comes out on the other side as two frequencies again", () => {
    const values = grid(-6, 6, 49);
    const { tracks } = follow(values, evaluate);
    expect(tracks).toHaveLength(2);
    expect(tracks.flat()).not.toContain(null);
    const ends = tracks.map((track) => track.at(-1)!.imag).sort();
    expectClose(ends[0], Math.sqrt(40 - Math.sqrt(32)), exact);
    expectClose(ends[1], Math.sqrt(40 + Math.sqrt(32)), exact);
    // no track jumps: neighbours are as near as the closed form allows, √(2·2·step) at the branch point
    for (const track of tracks) {
      for (let i = 1; i < track.length; i++) {
        const jump = Math.hypot(track[i]!.real - track[i - 1]!.real, track[i]!.imag - track[i - 1]!.imag);
        expect(jump).toBeLessThan(0.12);
      }
    }
  });
});

describe("splitting into real roots", () => {
  /** An oscillator of growing damping beside one that stays as it is; listed now this way round, now that. */
  const evaluate = (damping: number): Root[] => {
    const roots = [
      ...oscillatorRoots(damping, 4).map((r) => root(r.real, r.imag, [1, 0, 0.05, 0])),
      root(-0.3, 2.2, [0.05, 0, 1, 0]),
    ];
    return Math.floor(37 * damping) % 2 === 0 ? roots : roots.reverse();
  };
  const values = grid(0.5, 7.5, 29); // the pair splits at d = 4

  it("goes on as one of the real roots and starts a track for the other", () => {
    const { tracks, asked } = follow(values, evaluate);
    expect(tracks).toHaveLength(3);
    const split = values.findIndex((damping) => damping >= 4);
    const [pair, beside, fresh] = tracks;
    values.forEach((damping, i) => {
      const expected = oscillatorRoots(damping, 4).map((r) => r.real);
      expect([beside[i]!.real, beside[i]!.imag]).toEqual([-0.3, 2.2]);
      if (i < split) {
        expect(pair[i]!.imag).toBeGreaterThan(0);
        expect(fresh[i]).toBeNull();
        expect(pair[i]!.real).toBe(expected[0]);
      } else {
        expect([pair[i]!.imag, fresh[i]!.imag]).toEqual([0, 0]);
        expect([pair[i]!.real, fresh[i]!.real].sort()).toEqual(expected.sort());
      }
    });
    // each real root keeps to its side: one slows down, the other quickens
    const slower = pair[split + 1]!.real > fresh[split + 1]!.real ? pair : fresh;
    for (let i = split + 1; i < values.length; i++) {
      expect(slower[i]!.real).toBe(oscillatorRoots(values[i], 4)[0].real);
    }
    expect(asked.length).toBeGreaterThan(values.length);
  });

  it("joins two real roots into one track and ends the other, in falling values too", () => {
    const falling = [...values].reverse();
    const { tracks } = follow(falling, evaluate);
    expect(tracks).toHaveLength(3);
    const joined = falling.findIndex((damping) => damping < 4);
    const real = tracks.filter((track) => track[0]!.imag === 0);
    expect(real).toHaveLength(2);
    const ended = real.filter((track) => track[joined] === null);
    expect(ended).toHaveLength(1);
    expect(ended[0].slice(joined).every((r) => r === null)).toBe(true);
    const [goesOn] = real.filter((track) => track[joined] !== null);
    for (const r of goesOn.slice(joined)) expect(r!.imag).toBeGreaterThan(0);
  });

  it("splits and joins again within one sweep", () => {
    const there = grid(0.5, 8.5, 33).map((x) => x - 4.5);
    const { tracks } = follow(there, (x) => evaluate(7 - Math.abs(x) * 1.5));
    const pairAtEnds = tracks.filter((track) => track[0] !== null && track.at(-1) !== null);
    expect(pairAtEnds).toHaveLength(2);
    const passing = tracks.filter((track) => track[0] === null && track.at(-1) === null);
    expect(passing).toHaveLength(1);
    for (const r of passing[0]) expect(r?.imag ?? 0).toBe(0);
  });
});

describe("bookkeeping", () => {
  it("gives the same answer twice, and the same tracks backwards", () => {
    const evaluate = coupled(0.4, 0.4);
    const values = grid(-5, 5, 12);
    const forward = trackRoots(values, evaluate);
    expect(trackRoots(values, evaluate)).toEqual(forward);
    const backward = trackRoots([...values].reverse(), evaluate).map((track) => imags(track).reverse());
    const byStart = (a: (number | null)[], b: (number | null)[]): number => a[0]! - b[0]!;
    expect(backward.sort(byStart)).toEqual(forward.map(imags).sort(byStart));
  });

  it("gives every root to exactly one track", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 1, max: 1000 }),
        (counts, salt) => {
          const evaluate = (value: number): Root[] =>
            Array.from({ length: counts[Math.round(value)] }, (_, i) =>
              root(Math.sin(salt * (i + 1) + value), i, [Math.cos(salt + i), 0.3, Math.sin(value + i), 0]),
            );
          const values = counts.map((_, i) => i);
          const tracks = trackRoots(values, evaluate, { halvings: 2 });
          values.forEach((value, step) => {
            const found = tracks.map((track) => track[step]).filter((r) => r !== null);
            expect(found).toHaveLength(counts[value]);
            expect(new Set(found.map((r) => r.imag)).size).toBe(counts[value]);
          });
          for (const track of tracks) {
            expect(track).toHaveLength(values.length);
            // a track has no holes
            const there = track.map((r) => (r === null ? "." : "x")).join("");
            expect(there).toMatch(/^\.*x+\.*$/);
          }
        },
      ),
      { seed: 52 },
    );
  });

  it("follows roots without a shape by their nearness alone, and does not search for one", () => {
    const evaluate = (x: number): Root[] => [root(-10, 0, [0, 0]), root(-1 - x, 0, [0, 0]), root(0, 3 + x, [1, 0])];
    const { tracks, asked } = follow([0, 0.5, 1], evaluate);
    expect(tracks.map((track) => track.map((r) => r!.real))).toEqual([
      [-10, -10, -10],
      [-1, -1.5, -2],
      [0, 0, 0],
    ]);
    expect(asked).toHaveLength(3);
  });

  it("has no tracks without values or roots", () => {
    expect(trackRoots([], () => [])).toEqual([]);
    expect(trackRoots([1, 2, 3], () => [])).toEqual([]);
    expect(trackRoots([1], () => [root(1, 2, [1, 0])])).toHaveLength(1);
  });

  it.each([[[1, 1]], [[1, 2, 1.5]], [[3, 2, 2]], [[1, Number.NaN]], [[Number.NaN]], [[0, Number.POSITIVE_INFINITY]]])(
    "refuses %j as values",
    (values) => {
      expect(() => trackRoots(values, () => [])).toThrow(DomainError);
      expect(() => trackRoots(values, () => [])).toThrow("parameter values of a track");
    },
  );

  it("refuses settings that make no sense", () => {
    for (const halvings of [-1, 0.5, Number.NaN]) {
      expect(() => trackRoots([1], () => [], { halvings })).toThrow("halvings of a track's interval");
    }
    for (const believed of [-0.1, 1.1, Number.NaN]) {
      expect(() => trackRoots([1], () => [], { believed })).toThrow("believed correlation");
    }
  });
});
