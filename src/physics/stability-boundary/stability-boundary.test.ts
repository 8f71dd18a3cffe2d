import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  divergenceStiffness,
  frequencyOnBoundary,
  stiffnessOnBoundary,
  type TwoModes,
} from "../../../reference/analytic/two-mode-boundary/closed-form.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { eigenSystem } from "../../math/eigen/index.ts";
import { BugError, DomainError } from "../../math/errors.ts";
import { bracketedRoot } from "../../math/roots/index.ts";
import { hookedPair, type Linearisation, linearise, TangentialModel } from "../bodies/index.ts";
import { dynamicStiffness } from "../snubber/index.ts";
import {
  boomAtRoot,
  jackAtRoot,
  type Level,
  levelCurves,
  type MapWindow,
  PathFlexibility,
  type PathMap,
  pathProblem,
  pathSeeds,
  SwingResponse,
  swingSystem,
} from "./index.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const log = (from: number, to: number) => ({ from: Math.log(from), to: Math.log(to) });

/** The demo pair without path, and its matrix with any. */
function demo(revision: "Rev A" | "Rev B") {
  const settings = longshore({ revision });
  const { boom } = settings;
  const empty = hookedPair({ ...settings, boom: { ...boom, bending: 0, accumulator: 0, snubber: 0 } });
  const base = linearise(empty.motion, empty.state);
  const damping = 2 * boom.structuralDamping * Math.sqrt(empty.hookedMass.tangential);
  const swing = swingSystem(base, boom.length);
  return { base, damping, swing, boom, model: new TangentialModel(base, boom.length) };
}
type Demo = ReturnType<typeof demo>;

function rootsOf({ model, damping }: Demo, bending: number, accumulator: number, snubber: number) {
  const rates = { bending, bendingDamping: damping * Math.sqrt(bending), accumulator, snubber };
  const n = model.sizeFor(rates);
  const A = new Float64Array(n * n);
  model.assemble(rates, A);
  const { re, im } = eigenSystem(A, n);
  return Array.from(re, (real, i) => ({ real, imag: im[i] }));
}
/** Distance of the nearest root to |s| and ζ, relative. */
function nearest(roots: readonly { real: number; imag: number }[], frequency: number, zeta: number): number {
  return Math.min(
    ...roots
      .filter(({ imag }) => imag > 0)
      .map(({ real, imag }) => {
        const size = Math.hypot(real, imag);
        return Math.hypot(Math.log(size / frequency), -real / size - zeta);
      }),
  );
}
function mapOf({ swing, damping, boom }: Demo, along: PathMap["along"]): PathMap {
  const { bending, accumulator, snubber } = boom;
  return { swing, along, parts: { bending, accumulator, snubber }, damping };
}
const WINDOWS: Record<PathMap["along"], MapWindow> = {
  accumulator: { x: log(1e3, 1e6), y: log(1e2, 1e5) },
  bending: { x: log(5e3, 5e6), y: log(1e2, 1e5) },
};
function curvesOf(map: PathMap, level: Level, window = WINDOWS[map.along], deviation = 5e-4) {
  return levelCurves(pathProblem(map), level, window, pathSeeds(map, level, window), { deviation });
}

/** A linearised pair made of two motions, whose first is the tip with L = 1. */
function twoModes({ m1, m2, d2, k2, a, b }: TwoModes): Linearisation {
  const matrix = Float64Array.of(0, 0, 1, 0, 0, 0, 0, 1, 0, -a / m1, 0, 0, -b / m2, -k2 / m2, 0, -d2 / m2);
  return {
    ...{ size: 4, matrix, coordinates: 2, basis: new Float64Array(4), names: ["tip", "other"] },
    swing: { perMoment: Float64Array.of(1 / m1, 0), angle: Float64Array.of(1, 0) },
  };
}

describe("receptance of the tip", () => {
  it("of a mass is 1/(m·s²), and its slope that of the closed form", () => {
    const base = twoModes({ m1: 40, m2: 1, d2: 1, k2: 1, a: 0, b: 0 });
    const swing = swingSystem(base, 1);
    expect(swing.kept).toEqual([0, 2]);
    const response = new SwingResponse(2);
    expect(response.evaluate(swing, 3, 4)).toBe(true);
    // s = 3 + 4i: s² = −7 + 24i, 1/s² = (−7 − 24i)/625, s³ = −117 + 44i, −2/s³ = −2·(−117 − 44i)/15625
    expectAllClose(
      [response.re, response.im, response.slopeRe, response.slopeIm],
      [-7 / 625 / 40, -24 / 625 / 40, 234 / 15625 / 40, 88 / 15625 / 40],
      { rtol: 1e-13, why: "round-off" },
    );
    expect(response.evaluate(swing, 0, 0)).toBe(false);
    expect(() => new SwingResponse(3).evaluate(swing, 1, 1)).toThrow(DomainError);
  });

  it("keeps the longitudinal motions of a symmetric pair and all of one whose c.g. is off its middle plane", () => {
    expect(demo("Rev A").swing.kept.map((i) => demo("Rev A").base.names[i])).toEqual(
      ["x", "z", "pitch", "x rate", "z rate", "pitch rate"], // biome-ignore format: a list
    );
    const off = longshore({ cgRight: 0.1 });
    const empty = hookedPair({ ...off, boom: { ...off.boom, bending: 0, accumulator: 0, snubber: 0 } });
    const base = linearise(empty.motion, empty.state);
    expect(swingSystem(base, off.boom.length).size).toBe(base.size);
    const { swing: _, ...without } = base;
    expect(() => swingSystem(without, 1)).toThrow(BugError);
  });

  it("has the slope that differences have", () => {
    const { swing } = demo("Rev B");
    const response = new SwingResponse(swing.size);
    const value = (re: number, im: number): [number, number] => {
      response.evaluate(swing, re, im);
      return [response.re, response.im];
    };
    const h = 1e-4;
    for (const [re, im] of [
      [0, 2],
      [-0.4, 5],
      [0.2, 30],
    ] as const) {
      const [ahead, behind] = [value(re + h, im), value(re - h, im)];
      value(re, im);
      const scale = Math.hypot(response.slopeRe, response.slopeIm);
      const expected = [(ahead[0] - behind[0]) / (2 * h), (ahead[1] - behind[1]) / (2 * h)];
      expectAllClose([response.slopeRe, response.slopeIm], expected, { atol: 1e-6 * scale, why: "differences" });
    }
  });
});

describe("flexibility of the path", () => {
  it("is one over its dynamic stiffness on the imaginary axis, and has exact derivatives off it", () => {
    const path = new PathFlexibility();
    const damping = 0.9;
    const values = fc.tuple(number(3, 7), number(3, 7), number(2, 5), number(-5, 5), number(0.1, 40));
    fc.assert(
      fc.property(values, ([b, a, c, sRe, sIm]) => {
        const parts = { bending: 10 ** b, accumulator: 10 ** a, snubber: 10 ** c };
        path.evaluate(parts, damping, 0, sIm);
        const rates = { ...parts, bendingDamping: damping * Math.sqrt(parts.bending) };
        const [kr, ki] = dynamicStiffness(rates, sIm);
        const square = kr * kr + ki * ki;
        const size = 1 / Math.sqrt(square);
        expectAllClose(path.value, [kr / square, -ki / square], { atol: 1e-12 * size, why: "round-off" });
        const h = 1e-5;
        const slope = (change: (by: number) => void): number[] => {
          change(h);
          const ahead = Array.from(path.value);
          change(-h);
          return ahead.map((value, i) => (value - path.value[i]) / (2 * h));
        };
        const keys = { bending: path.byBending, accumulator: path.byAccumulator, snubber: path.bySnubber };
        for (const [key, derivative] of Object.entries(keys) as [keyof typeof parts, Float64Array][]) {
          const differences = slope((by) =>
            path.evaluate({ ...parts, [key]: parts[key] * Math.exp(by) }, damping, sRe, sIm),
          );
          path.evaluate(parts, damping, sRe, sIm);
          const scale = Math.hypot(...path.value);
          expectAllClose(derivative, differences, { atol: 1e-7 * scale, why: "differences, step 1e-5" });
        }
        const differences = slope((by) => path.evaluate(parts, damping, sRe + by, sIm));
        path.evaluate(parts, damping, sRe, sIm);
        const scale = Math.hypot(...path.value) + Math.hypot(...path.bySlope);
        expectAllClose(path.bySlope, differences, { atol: 1e-7 * scale, why: "differences, step 1e-5" });
      }),
      { seed: 91, numRuns: 100 },
    );
  });

  it("counts nothing for a rigid boom or a locked jack", () => {
    const path = new PathFlexibility();
    path.evaluate({ bending: Infinity, accumulator: 4, snubber: 3 }, 1, 0, 1);
    expect(Array.from(path.value)).toEqual([4 / 25, -3 / 25]);
    expect(Array.from(path.byBending)).toEqual([0, 0]);
    path.evaluate({ bending: 4, accumulator: 4, snubber: Infinity }, 1.5, 0, 1);
    expect(Array.from(path.value)).toEqual([4 / 25, -3 / 25]);
    expect(Array.from(path.bySnubber)).toEqual([0, 0]);
  });
});

describe("closed-form solutions", () => {
  const rays = fc.tuple(number(-0.05, 0.3), number(-1, 2));

  it("put an eigenvalue of the assembled matrix exactly where it was asked for", () => {
    let checked = 0;
    for (const revision of ["Rev A", "Rev B"] as const) {
      const pair = demo(revision);
      const response = new SwingResponse(pair.swing.size);
      fc.assert(
        fc.property(rays, ([zeta, decade]) => {
          const frequency = 10 ** decade;
          const [sRe, sIm] = [-zeta * frequency, Math.sqrt(1 - zeta * zeta) * frequency];
          response.evaluate(pair.swing, sRe, sIm);
          const { bending, accumulator } = pair.boom;
          const jack = jackAtRoot(response.re, response.im, sRe, sIm, bending, pair.damping);
          if (jack !== null && jack.stiffness > 0 && jack.snubber > 0) {
            checked++;
            const roots = rootsOf(pair, bending, jack.stiffness, jack.snubber);
            expect(nearest(roots, frequency, zeta)).toBeLessThan(1e-8);
          }
          for (const found of boomAtRoot(response.re, response.im, sRe, sIm, accumulator, pair.damping)) {
            if (!(found.snubber > 0)) continue;
            checked++;
            const roots = rootsOf(pair, found.stiffness, accumulator, found.snubber);
            expect(nearest(roots, frequency, zeta)).toBeLessThan(1e-8);
          }
        }),
        { seed: 92, numRuns: 200 },
      );
    }
    expect(checked).toBeGreaterThan(100);
  });

  it("find every boom of a quartic: as many as sign changes of a fine scan over stiffness", () => {
    const { swing, damping, boom } = demo("Rev A");
    const response = new SwingResponse(swing.size);
    for (const frequency of [1.5, 2.5, 3.5, 4.5, 5.3, 8, 20]) {
      response.evaluate(swing, 0, frequency);
      const found = boomAtRoot(response.re, response.im, 0, frequency, boom.accumulator, damping);
      const mismatch = (decade: number): number =>
        jackAtRoot(response.re, response.im, 0, frequency, 10 ** decade, damping)!.stiffness - boom.accumulator;
      let zeros = 0;
      for (let i = 0; i < 40000; i++) {
        const search = bracketedRoot(mismatch, -1 + i / 4000, -1 + (i + 1) / 4000, 1e-13);
        // a pole of the mismatch changes its sign too, far from zero
        if (search.outcome === "converged" && Math.abs(search.value) < 1) zeros++;
      }
      expect(found.filter(({ stiffness }) => stiffness > 0.1 && stiffness < 1e9)).toHaveLength(zeros);
    }
  });

  it("give nothing where the boom alone would have to yield without limit", () => {
    expect(jackAtRoot(-0.25, 0, 0, 1, 4, 0)).toBeNull();
  });
});

describe("boundary of two motions", () => {
  // a mass on a rigid boom, so that the path is k_a and c alone
  const flutter: TwoModes = { m1: 1300, m2: 5700, d2: 900, k2: 52e3, a: -14e3, b: 11e3 };
  const window: MapWindow = { x: log(300, 3e5), y: log(1, 1e5) };
  const rigid = (modes: TwoModes): PathMap => ({
    ...{ swing: swingSystem(twoModes(modes), 1), along: "accumulator", damping: 0 },
    parts: { bending: Infinity, accumulator: 1, snubber: 1 },
  });
  const onAxis: Level = { kind: "oscillation", dampingRatio: 0 };

  it("is that of Routh and Hurwitz, point by point, with its frequency", () => {
    const curves = curvesOf(rigid(flutter), onAxis, window);
    expect(curves.length).toBeGreaterThan(0);
    let points = 0;
    for (const { x, y, frequency, complete } of curves) {
      expect(complete).toBe(true);
      x.forEach((u, i) => {
        const [k, c] = [Math.exp(u), Math.exp(y[i])];
        const exact = stiffnessOnBoundary(flutter, c).filter((value) => value > 0);
        const off = Math.min(...exact.map((value) => Math.abs(Math.log(value / k))));
        // near a fold in k the closed form itself loses half the digits
        expect(off).toBeLessThan(1e-7);
        expectClose(frequency[i], frequencyOnBoundary(flutter, k, c), { rtol: 1e-8, why: "corrector" });
        points++;
      });
    }
    expect(points).toBeGreaterThan(40);
  });

  it("has every piece that the closed form has, within the deviation of its chords", () => {
    const curves = curvesOf(rigid(flutter), onAxis, window, 5e-4);
    for (let i = 0; i <= 60; i++) {
      const c = 1 * 1e5 ** (i / 60);
      for (const k of stiffnessOnBoundary(flutter, c)) {
        const p = [Math.log(k), Math.log(c)];
        if (!(k > 0) || p[0] < window.x.from || p[0] > window.x.to) continue;
        let miss = Number.POSITIVE_INFINITY;
        for (const { x, y } of curves) {
          for (let j = 1; j < x.length; j++) {
            const [dx, dy] = [x[j] - x[j - 1], y[j] - y[j - 1]];
            const along = ((p[0] - x[j - 1]) * dx + (p[1] - y[j - 1]) * dy) / (dx * dx + dy * dy);
            const part = Math.min(1, Math.max(0, along));
            miss = Math.min(miss, Math.hypot(p[0] - x[j - 1] - part * dx, p[1] - y[j - 1] - part * dy));
          }
        }
        expect(miss).toBeLessThan(6e-4);
      }
    }
  });

  it("is the half-slope line of one mass, c = 2ζ√(k·m), for any damping ratio", () => {
    const alone = rigid({ ...flutter, a: 0, b: 0 });
    for (const zeta of [0.01, 0.1, 0.5, 0.9]) {
      const curves = curvesOf(alone, { kind: "oscillation", dampingRatio: zeta }, window);
      expect(curves).toHaveLength(1);
      curves[0].x.forEach((u, i) => {
        const exact = 2 * zeta * Math.sqrt(Math.exp(u) * flutter.m1);
        expectClose(Math.exp(curves[0].y[i]), exact, { rtol: 1e-8, why: "corrector" });
      });
    }
    expect(curvesOf(alone, onAxis, window)).toEqual([]);
    expect(() => curvesOf(alone, { kind: "oscillation", dampingRatio: 1 }, window)).toThrow(DomainError);
  });

  it("of divergence is a line of constant stiffness, and of a growing real root bends with the snubber", () => {
    const driven: TwoModes = { ...flutter, a: 14e3 };
    const [line, ...more] = curvesOf(rigid(driven), { kind: "real root", growth: 0 }, window);
    expect(more).toEqual([]);
    for (const u of line.x) {
      expectClose(Math.exp(u), divergenceStiffness(driven), { rtol: 1e-9, why: "closed form" });
    }
    const growth = 0.3;
    const [curve] = curvesOf(rigid(driven), { kind: "real root", growth }, window);
    curve.x.forEach((u, i) => {
      const c = Math.exp(curve.y[i]);
      const second = driven.m2 * growth ** 2 + driven.d2 * growth + driven.k2;
      const exact = (driven.a * driven.b) / second - driven.m1 * growth ** 2 - c * growth;
      expectClose(Math.exp(u), exact, { rtol: 1e-8, why: "characteristic polynomial at σ" });
    });
    expect(curvesOf(rigid(flutter), { kind: "real root", growth: 0 }, window)).toEqual([]);
  });
});

describe("boundary of the demo pair", () => {
  it.each(["Rev A", "Rev B"] as const)(
    "%s: every point is an eigenvalue, and the count of roots changes by one pair",
    (revision) => {
      const pair = demo(revision);
      for (const along of ["accumulator", "bending"] as const) {
        for (const zeta of [0, 0.03, 0.1]) {
          const curves = curvesOf(mapOf(pair, along), { kind: "oscillation", dampingRatio: zeta });
          if (zeta === 0) expect(curves.length).toBeGreaterThan(0);
          for (const { x, y, frequency, complete } of curves) {
            expect(complete).toBe(true);
            for (let i = 1; i + 1 < x.length; i += 5) {
              const [b, a] = along === "bending" ? [Math.exp(x[i]), pair.boom.accumulator] : [pair.boom.bending, Math.exp(x[i])]; // biome-ignore format: one choice
              expect(nearest(rootsOf(pair, b, a, Math.exp(y[i])), frequency[i], zeta)).toBeLessThan(1e-8);
              // a step across the curve takes one pair of roots over the ray
              const [tx, ty] = [x[i + 1] - x[i - 1], y[i + 1] - y[i - 1]];
              const size = Math.hypot(tx, ty);
              const below = (side: number): number => {
                const [u, v] = [x[i] - (side * 2e-3 * ty) / size, y[i] + (side * 2e-3 * tx) / size];
                const roots =
                  along === "bending"
                    ? rootsOf(pair, Math.exp(u), pair.boom.accumulator, Math.exp(v))
                    : rootsOf(pair, pair.boom.bending, Math.exp(u), Math.exp(v));
                return roots.filter((r) => r.imag > 0 && -r.real < zeta * Math.hypot(r.real, r.imag)).length;
              };
              expect(Math.abs(below(1) - below(-1))).toBe(1);
            }
          }
        }
      }
    },
  );
});
