import { beforeAll, describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { loadDemo } from "../../../test/support/load-demo.ts";
import { recordReads } from "../../inputs/index.ts";
import { swingSystem } from "../../physics/stability-boundary/index.ts";
import { type HoldInputs, type Operating, operatingPoint, PointModel, readHoldInputs } from "../hold/index.ts";
import type { BoundaryMap } from "./index.ts";
import { airspeedAxis, boomAngleAxis, type MapAxis, snubberAxis } from "./map-axes.ts";
import { ModelLattice } from "./model-lattice.ts";
import { pointAt } from "./trim-family.ts";
import { trimMaps } from "./trim-maps.ts";

// a part of the map that has corners of the tables in it, at angles of attack of 8, 10 and 12 deg
const SET = [
  "studies.hold.sweeps.airspeed.from=72 m/s EAS",
  "studies.hold.sweeps.airspeed.to=86 m/s EAS",
  "studies.hold.sweeps.boomAngle.from=49 deg",
  "studies.hold.sweeps.boomAngle.to=56 deg",
];

let inputs: HoldInputs;
let at: Operating;
let maps: readonly BoundaryMap[];
beforeAll(() => {
  const loaded = loadDemo("Rev B tables", SET);
  inputs = readHoldInputs(() => recordReads(loaded)).inputs;
  at = operatingPoint(inputs, inputs.conditions[0], "full");
  maps = trimMaps(inputs, at, []).maps;
}, 300_000);

/** Worst damping ratio of the longitudinal rigid-body-type modes of the pair itself. */
function worst(axes: readonly [MapAxis, MapAxis], x: number, y: number): number {
  const model = new PointModel(inputs, pointAt(axes, at, x, y));
  const ratios = model
    .modes(model.rates, "longitudinal")
    .filter((mode) => mode.imag > 0 && mode.class !== "structural")
    .map(({ real, imag }) => -real / Math.hypot(real, imag));
  return Math.min(...ratios);
}

/** Zeros of a function by a dense scan and bisection. */
function zerosOf(f: (u: number) => number, [from, to]: readonly [number, number], count: number): number[] {
  const us = Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
  const values = us.map(f);
  return us.slice(1).flatMap((end, i) => {
    if (values[i] > 0 === values[i + 1] > 0) return [];
    let [low, high] = [us[i], end];
    for (let k = 0; k < 24; k++) {
      const middle = 0.5 * (low + high);
      if (f(middle) > 0 === values[i] > 0) low = middle;
      else high = middle;
    }
    return [0.5 * (low + high)];
  });
}

/** Where the borders of a level cross u = at, along the other axis. */
function crossed(map: BoundaryMap, axes: readonly [MapAxis, MapAxis], level: number, u: number): number[] {
  return map.curves
    .filter((curve) => curve.kind === "oscillation" && curve.level === level && curve.border)
    .flatMap((curve) => {
      const [x, y] = [curve.x, curve.y].map((values, k) => values.map((v) => axes[k].toLength(v * axes[k].per)));
      return x.slice(1).flatMap((end, i) => {
        const [a, b] = [x[i] - u, end - u];
        return a > 0 === b > 0 ? [] : [y[i] + (a / (a - b)) * (y[i + 1] - y[i])];
      });
    })
    .sort((a, b) => a - b);
}

describe("boundaries of a pair with airloads from tables", () => {
  it("are where a dense bisection on the pair itself finds them, within 0.1 %", () => {
    const cases = [
      ["airspeed-snubber", [airspeedAxis(inputs, at), snubberAxis(inputs, at)]],
      ["boomAngle-airspeed", [boomAngleAxis(inputs, at), airspeedAxis(inputs, at)]],
    ] as const;
    for (const [id, axes] of cases) {
      const map = maps.find((each) => each.id === id)!;
      const [x, y] = axes.map(({ toLength, from, to }) => [toLength(from), toLength(to)] as const);
      let compared = 0;
      for (const level of [0, 0.03]) {
        for (const part of [0.06, 0.13, 0.29, 0.47, 0.61, 0.83]) {
          const u = x[0] + part * (x[1] - x[0]);
          const exact = zerosOf((v) => worst(axes, u, v) - level, y, 60);
          const drawn = crossed(map, axes, level, u);
          expect(drawn.length).toBe(exact.length);
          expectAllClose(drawn, exact, { atol: 1e-3, why: "0.1 % of the value, which is a logarithm" });
          compared += exact.length;
        }
      }
      expect(compared).toBeGreaterThan(4);
      expect(map.check!.largestMiss_1).toBeLessThan(1e-3);
    }
  }, 300_000);

  it("lie within 0.1 % of the zero along the normal at every chord, corners included", () => {
    const axes = [airspeedAxis(inputs, at), snubberAxis(inputs, at)] as const;
    const map = maps.find(({ id }) => id === "airspeed-snubber")!;
    let checked = 0;
    for (const curve of map.curves) {
      if (curve.kind !== "oscillation" || !curve.border || curve.class === "structural") continue;
      const [x, y] = [curve.x, curve.y].map((values, k) => values.map((v) => axes[k].toLength(v * axes[k].per)));
      for (let i = 0; i + 1 < x.length; i++) {
        const size = Math.hypot(x[i + 1] - x[i], y[i + 1] - y[i]);
        // the tip of a corner has no normal
        if (size < 1e-3) continue;
        const off = (t: number): number =>
          worst(
            axes,
            0.5 * (x[i] + x[i + 1]) - (t * (y[i + 1] - y[i])) / size,
            0.5 * (y[i] + y[i + 1]) + (t * (x[i + 1] - x[i])) / size,
          ) - curve.level;
        expect(off(-1e-3) > 0).toBe(off(1e-3) < 0);
        checked++;
      }
    }
    expect(checked).toBeGreaterThan(30);
  }, 300_000);
});

describe("lattice of models", () => {
  const lattice = (scan: number): ModelLattice => {
    const axes = [airspeedAxis(inputs, at), snubberAxis(inputs, at)] as const;
    const like = swingSystem(new PointModel(inputs, at).base, inputs.boom.length);
    return new ModelLattice(inputs, at, { axes, like, scan });
  };
  const direct = (models: ModelLattice, x: number): Float64Array => {
    const axes = [airspeedAxis(inputs, at), snubberAxis(inputs, at)] as const;
    const own = new PointModel(inputs, pointAt(axes, at, x, Math.log(at.snubber)));
    return swingSystem(own.base, inputs.boom.length, models.swing.kept).matrix;
  };

  it("stands for models of its own, corners within a cell, and makes only what is asked for", () => {
    const models = lattice(21);
    const scale = Math.max(...direct(models, Math.log(85)).map(Math.abs));
    for (const speed of [72, 80.31, 84.7, 85.9, 85.99]) {
      expect(models.at(Math.log(speed), 0)).toBe(true);
      expectAllClose(models.swing.matrix, direct(models, Math.log(speed)), { atol: 2e-5 * scale, why: "(cell)²/8" });
    }
    expect(models.count).toBeLessThanOrEqual(15);
    expect(models.near(Math.log(85), 0)).toBe(true);
    expectAllClose(models.swing.matrix, direct(models, Math.log(85)), { atol: 1e-3 * scale, why: "half a cell away" });
  });

  it("has no jump of value or slope from cell to cell, and goes on straight beyond its ends", () => {
    const models = lattice(2);
    const [from, to] = [Math.log(72), Math.log(86)];
    const value = (u: number): number => {
      models.at(u, 0);
      return models.swing.matrix[models.swing.size * (models.swing.size - 1)] + models.damping;
    };
    const cell = (to - from) / 128;
    const h = 1e-3 * cell;
    const slope = (u: number): number => (value(u + h) - value(u - h)) / (2 * h);
    const scale = Math.abs(slope(from + 40 * cell)) + 1e-9;
    for (const edge of [20.5, 63.5, 100.5]) {
      const u = from + edge * cell;
      expectClose(slope(u + 2 * h), slope(u - 2 * h), { atol: 0.05 * scale, why: "slope of a parabola over 4 h" });
    }
    const [one, two] = [value(to + 5 * cell) - value(to), value(to + 10 * cell) - value(to + 5 * cell)];
    expectClose(two, one, { atol: 1e-6 * Math.abs(value(to)), why: "a straight line" });
  });
});
