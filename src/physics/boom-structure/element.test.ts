import { describe, expect, it } from "vitest";
import { taperedBarStiffness, taperedStiffness } from "../../../reference/analytic/beam-statics/closed-form.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { barElement, beamElement } from "./element.ts";
import { gaussLegendre } from "./quadrature.ts";
import { SectionTable } from "./section-table.ts";
import { ODD, uniform, unitSection } from "./test-booms.ts";

const round = { rtol: 1e-12, atol: 1e-13, why: "round-off" };
const constant = (value: number) => () => value;

function uniformBeam(h: number, shear: number, rotary: number) {
  return beamElement(new SectionTable(uniform(unitSection, h), "Timoshenko"), 0, h, {
    ...{ bendingFlexibility: constant(1 / 3), shearFlexibility: constant(shear) },
    ...{ mass: constant(5), rotaryInertia: constant(rotary) },
  });
}

describe("gaussLegendre", () => {
  it("is exact to degree 2n − 1, and not beyond", () => {
    for (const n of [2, 4, 8, 10]) {
      const { points, weights } = gaussLegendre(n);
      const moment = (power: number) => points.reduce((sum, x, i) => sum + weights[i] * x ** power, 0);
      for (let power = 0; power < 2 * n; power++) {
        const exact = power % 2 === 1 ? 0 : 2 / (power + 1);
        expectClose(moment(power), exact, { atol: 1e-14, why: "round-off" }, `n ${n}, power ${power}`);
      }
      expect(Math.abs(moment(2 * n) - 2 / (2 * n + 1))).toBeGreaterThan(1e-7);
    }
  });
});

describe("beamElement", () => {
  it("is the Hermite element of a uniform beam", () => {
    const h = 0.7;
    const { stiffness, mass } = uniformBeam(h, 0, 0);
    const k = 3 / h ** 3;
    const hermite = [12, 6 * h, -12, 6 * h, 6 * h, 4 * h * h, -6 * h, 2 * h * h];
    const lower = [-12, -6 * h, 12, -6 * h, 6 * h, 2 * h * h, -6 * h, 4 * h * h];
    const expected = [...hermite, ...lower].map((x) => k * x);
    expectAllClose(stiffness, expected, { ...round, atol: 1e-11 }, "k");
    const m = (5 * h) / 420;
    const rows = [
      [156, 22 * h, 54, -13 * h],
      [22 * h, 4 * h * h, 13 * h, -3 * h * h],
      [54, 13 * h, 156, -22 * h],
      [-13 * h, -3 * h * h, -22 * h, 4 * h * h],
    ];
    expectAllClose(
      mass,
      rows.flat().map((x) => m * x),
      round,
      "m",
    );
  });

  it("is the classical element with shear of a uniform beam, and does not lock", () => {
    const h = 0.7;
    const shear = 0.02;
    const phi = (12 * 3 * shear) / h ** 2;
    const { stiffness } = uniformBeam(h, shear, 0);
    const k = 3 / (h ** 3 * (1 + phi));
    expectClose(stiffness[0], 12 * k, round);
    expectClose(stiffness[5], (4 + phi) * h * h * k, round);
    expectClose(stiffness[7], (2 - phi) * h * h * k, round);
    expectAllClose(uniformBeam(h, 1e-15, 0).stiffness, uniformBeam(h, 0, 0).stiffness, {
      rtol: 1e-12,
      why: "Φ = 1e-13",
    });
  });

  it("carries rotary inertia: the Hermite slopes of a uniform beam", () => {
    const h = 0.7;
    const difference = uniformBeam(h, 0, 2).mass.map((x, i) => x - uniformBeam(h, 0, 0).mass[i]);
    const c = 2 / (30 * h);
    expectAllClose(
      [difference[0], difference[1], difference[5], difference[7]],
      [36 * c, 3 * h * c, 4 * h * h * c, -h * h * c],
      { rtol: 1e-11, why: "round-off of differences" },
    );
  });

  it("is exact for a linear taper of any steepness in one element", () => {
    for (const p of [0.9, 0.3, 0.02]) {
      const table = new SectionTable(
        [
          { station: 0, ...unitSection, axial: 4 },
          { station: 2, ...unitSection, bendingSwing: p, axial: 4 * p },
        ],
        "Euler-Bernoulli",
      );
      const flexibility = (column: "bendingSwing" | "axial") => (row: number, x: number) =>
        1 / table.at(column, row, x, Number.NaN);
      const { stiffness: k } = beamElement(table, 0, 2, {
        ...{ bendingFlexibility: flexibility("bendingSwing"), shearFlexibility: constant(0) },
        ...{ mass: constant(1), rotaryInertia: constant(0) },
      });
      // tip of the clamped element: rotation free
      const tip = k[10] - (k[11] * k[14]) / k[15];
      expectClose(tip, taperedStiffness(1, 2, p), { rtol: 1e-9, why: "quadrature of 1/EI at a taper of 50" }, `p ${p}`);
      const bar = barElement(table, 0, 2, flexibility("axial"), constant(1));
      const stretch = { rtol: 1e-8, why: "quadrature of 1/EA at a taper of 50" };
      expectClose(bar.stiffness[3], taperedBarStiffness(4, 2, p), stretch, `bar, p ${p}`);
    }
  });

  it("of any section does not strain in rigid motions and has their mass", () => {
    const table = new SectionTable(ODD, "Timoshenko");
    const [from, to] = [-0.2, 2.7];
    const h = to - from;
    const inverse = (column: "bendingSwing" | "shearSwing") => (row: number, x: number) =>
      1 / table.at(column, row, x, Number.NaN);
    const value = (column: "massPerLength" | "rotaryInertiaSwing") => (row: number, x: number) =>
      table.at(column, row, x, Number.NaN);
    const { stiffness, mass } = beamElement(table, from, to, {
      bendingFlexibility: inverse("bendingSwing"),
      shearFlexibility: inverse("shearSwing"),
      mass: value("massPerLength"),
      rotaryInertia: value("rotaryInertiaSwing"),
    });
    const motions = [
      [1, 0, 1, 0],
      [0, 1, h, 1],
    ];
    const product = (a: Float64Array, x: number[], y: number[]): number =>
      x.reduce((sum, xi, i) => sum + xi * y.reduce((inner, yj, j) => inner + a[4 * i + j] * yj, 0), 0);
    for (const motion of motions) {
      const forces = [0, 1, 2, 3].map((i) => motion.reduce((sum, x, j) => sum + stiffness[4 * i + j] * x, 0));
      expectAllClose(forces, [0, 0, 0, 0], { atol: 1e-8, why: "round-off of 1e7 N/m" });
    }
    let [total, first, second] = [0, 0, 0];
    const n = 20_000;
    for (const piece of table.pieces(from, to)) {
      for (let i = 0; i < n; i++) {
        const x = piece.from + ((i + 0.5) / n) * (piece.to - piece.from);
        const step = (piece.to - piece.from) / n;
        const m = step * table.at("massPerLength", piece.row, x, 0);
        total += m;
        first += m * (x - from);
        second += m * (x - from) ** 2 + step * table.at("rotaryInertiaSwing", piece.row, x, 0);
      }
    }
    const midpoint = { rtol: 1e-8, why: "midpoint rule, 20 000 steps a piece" };
    expectClose(product(mass, motions[0], motions[0]), total, midpoint);
    expectClose(product(mass, motions[0], motions[1]), first, midpoint);
    expectClose(product(mass, motions[1], motions[1]), second, midpoint);
  });
});
