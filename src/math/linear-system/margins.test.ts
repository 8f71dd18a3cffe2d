import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  delayedIntegrator,
  hurwitzFour,
  thirdOrderLimit,
} from "../../../reference/analytic/delayed-integrator/index.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { createEigenWorkspace, eigenvalues } from "../eigen/index.ts";
import { DomainError } from "../errors.ts";
import { bracketedRoot } from "../roots/index.ts";
import {
  type ComplexOf,
  closeLoops,
  type LinearSystem,
  linearSystem,
  loopMargins,
  padeDelay,
  rootsRightOf,
  series,
  TransferFunction,
} from "./index.ts";

interface LoopCase {
  readonly name: string;
  readonly num: readonly number[];
  readonly den: readonly number[];
  readonly tau: number;
  readonly gain: readonly (readonly [number, number, number])[];
  readonly phase: readonly (readonly [number, number])[];
  readonly unstable: number;
}
interface ResponseCase {
  readonly states: number;
  readonly inputs: number;
  readonly outputs: number;
  readonly A: number[];
  readonly B: number[];
  readonly C: number[];
  readonly D: number[];
  readonly rows: readonly { readonly s: [number, number]; readonly re: number[]; readonly im: number[] }[];
}
// reference generated/loop-margins
const reference = JSON.parse(
  readFileSync(new URL("../../../reference/generated/loop-margins/values.json", import.meta.url), "utf8"),
) as { loops: LoopCase[]; response: ResponseCase[] };

/** num/den in falling powers, strictly proper, in companion form. */
function fromPolynomials(num: readonly number[], den: readonly number[]): LinearSystem {
  const n = den.length - 1;
  const A = new Float64Array(n * n);
  for (let i = 0; i < n - 1; i++) A[i * n + i + 1] = 1;
  for (let i = 0; i < n; i++) A[(n - 1) * n + i] = -den[n - i] / den[0];
  const B = new Float64Array(n);
  B[n - 1] = 1;
  const C = Float64Array.from({ length: n }, (_, i) => (num[num.length - 1 - i] ?? 0) / den[0]);
  return linearSystem({ states: n, inputs: 1, outputs: 1 }, { A, B, C });
}
function loopAt(system: LinearSystem, tau: number, gain = 1) {
  const transfer = new TransferFunction(system);
  return (real: number, imag: number, out: Float64Array): void => {
    transfer.evaluate(real, imag, out);
    const size = gain * Math.exp(-tau * real);
    const [c, s] = [size * Math.cos(tau * imag), -size * Math.sin(tau * imag)];
    const [re, im] = [out[0], out[1]];
    out[0] = re * c - im * s;
    out[1] = re * s + im * c;
  };
}
const along =
  (loop: ReturnType<typeof loopAt>): ComplexOf =>
  (omega, out) =>
    loop(0, omega, out);
/** Largest real part of the closed loop's roots, the delay by Padé of order 6. */
function worstRoot(system: LinearSystem, tau: number, gain = 1, order = 6): number {
  const closed = closeLoops(series(padeDelay(tau, order), system), Float64Array.of(-gain));
  const n = closed.states;
  const [re, im] = [new Float64Array(n), new Float64Array(n)];
  eigenvalues(closed.A, n, createEigenWorkspace(n), re, im);
  return re[0];
}
const range = { from: 1e-2, to: 1e2 };

describe("margins of a loop", () => {
  it("of a delayed integrator are those in closed form (analytic/delayed-integrator)", () => {
    const integrator = fromPolynomials([1], [1, 0]);
    for (const [K, tau] of [
      [2, 0.3],
      [0.5, 1.1],
      [4, 0.05],
    ]) {
      const expected = delayedIntegrator(K, tau);
      const found = loopMargins(along(loopAt(integrator, tau, K)), range);
      const close = { rtol: 1e-9, why: "root search to 1e-12 of ln ω" };
      expectClose(found.gainCrossings[0].omega, expected.crossover, close);
      expectClose(found.phaseMargin!, expected.phaseMargin, close);
      expectClose(found.gainIncrease!, expected.gainMargin, close);
      expectClose(found.delayMargin!, expected.delayMargin, close);
      expect(found.gainDecrease).toBeNull();
    }
  });

  it("of K/(s(s + 1)(s + 2)) end at the gain of Routh and Hurwitz", () => {
    const plant = fromPolynomials([1], [1, 3, 2, 0]);
    const found = loopMargins(along(loopAt(plant, 0, 1.5)), range);
    expectClose(1.5 * found.gainIncrease!, thirdOrderLimit(1, 2), { rtol: 1e-9, why: "root search" });
    expectClose(found.phaseCrossings[0].omega, Math.SQRT2, { rtol: 1e-9, why: "√(ab)" });
  });

  it("are all found, also about resonances and unstable plants (generated/loop-margins)", () => {
    for (const { name, num, den, tau, gain, phase } of reference.loops) {
      const found = loopMargins(along(loopAt(fromPolynomials(num, den), tau)), range);
      const close = { rtol: 1e-8, why: "two root searches, each to 1e-12" };
      expectAllClose(
        found.gainCrossings.flatMap((each) => [each.omega, each.phaseMargin, each.delayMargin]),
        gain.flat(),
        close,
        name,
      );
      // Davit does not look for gain factors beyond 50
      const kept = phase.filter(([, factor]) => factor < 40);
      expectAllClose(
        found.phaseCrossings.filter((each) => each.gainFactor < 40).flatMap((each) => [each.omega, each.gainFactor]),
        kept.flat(),
        close,
        name,
      );
    }
  });

  it("by delay is where the roots of the closed loop cross the axis", () => {
    for (const { name, num, den, tau } of reference.loops.filter((each) => each.unstable === 0)) {
      const system = fromPolynomials(num, den);
      const { delayMargin } = loopMargins(along(loopAt(system, tau)), range);
      const crossing = bracketedRoot(
        (more) => worstRoot(system, tau + more),
        0.5 * delayMargin!,
        1.5 * delayMargin!,
        1e-12,
      );
      expect(crossing.outcome).toBe("converged");
      expectClose(delayMargin!, crossing.x, { rtol: 1e-6, why: "Padé of order 6 at ωτ below 2" }, name);
    }
  });

  it("by gain is where the roots of the closed loop cross the axis, both ways", () => {
    const { num, den, tau } = reference.loops.find((each) => each.name === "conditional")!;
    const system = fromPolynomials(num, den);
    const { gainDecrease, gainIncrease } = loopMargins(along(loopAt(system, tau)), range);
    for (const factor of [gainDecrease!, gainIncrease!]) {
      const crossing = bracketedRoot((gain) => worstRoot(system, tau, gain), 0.9 * factor, 1.1 * factor, 1e-12);
      expectClose(factor, crossing.x, { rtol: 1e-7, why: "Padé of order 6 at ωτ below 0.4" });
    }
    expect(gainDecrease).toBeLessThan(1);
  });

  it("includes the peak of the sensitivity: |1 + L| is nowhere smaller", () => {
    const { num, den, tau } = reference.loops[0];
    const loop = along(loopAt(fromPolynomials(num, den), tau));
    const { closest } = loopMargins(loop, range);
    const out = new Float64Array(2);
    let smallest = Number.POSITIVE_INFINITY;
    for (let i = 0; i <= 20000; i++) {
      loop(1e-2 * 1e4 ** (i / 20000), out);
      smallest = Math.min(smallest, Math.hypot(1 + out[0], out[1]));
    }
    expectClose(closest.distance, smallest, { rtol: 1e-5, why: "grid of 20 000" });
  });

  it("refuses a range that is none", () => {
    const loop = along(loopAt(fromPolynomials([1], [1, 0]), 0));
    expect(() => loopMargins(loop, { from: 0, to: 1 })).toThrow(DomainError);
    expect(() => loopMargins(loop, { from: 2, to: 1 })).toThrow(DomainError);
  });
});

describe("count of roots to the right", () => {
  it("is exact with delay and agrees with polynomial roots (generated/loop-margins)", () => {
    for (const { name, num, den, tau, unstable } of reference.loops) {
      const system = fromPolynomials(num, den);
      const n = system.states;
      const [re, im] = [new Float64Array(n), new Float64Array(n)];
      eigenvalues(system.A, n, createEigenWorkspace(n), re, im);
      // a triple root at 0 is scattered by some 1e-5
      const shift = 1e-3;
      const openRight = re.filter((value) => value > shift).length;
      const count = rootsRightOf(loopAt(system, tau), shift, openRight, { from: 1e-4, to: 1e3 });
      expect({ name, ...count }).toEqual({ name, outcome: "counted", count: unstable });
    }
  });

  it("changes at the closed-form limits of a delayed integrator, two roots at a time", () => {
    const integrator = fromPolynomials([1], [1, 0]);
    const count = (K: number) => rootsRightOf(loopAt(integrator, 1, K), 1e-7, 0, { from: 1e-4, to: 1e3 }).count;
    expect([1.5, 1.6, 7.8, 7.9].map(count)).toEqual([0, 2, 2, 4]);
  });
});

describe("transfer functions", () => {
  it("of random systems are those of a dense complex solve (generated/loop-margins)", () => {
    for (const { states, inputs, outputs, rows, ...matrices } of reference.response) {
      const transfer = new TransferFunction(linearSystem({ states, inputs, outputs }, matrices), inputs - 1);
      const out = new Float64Array(2 * outputs);
      for (const { s, re, im } of rows) {
        transfer.evaluate(s[0], s[1], out);
        const close = { rtol: 1e-9, atol: 1e-9, why: "conditioning of the random matrices" };
        expectAllClose(
          out,
          re.flatMap((value, i) => [value, im[i]]),
          close,
          `${states} states`,
        );
      }
    }
  });
});

describe("conditions of Hurwitz", () => {
  it("for order four say the same as the eigenvalues (analytic/delayed-integrator)", () => {
    const workspace = createEigenWorkspace(4);
    const [re, im] = [new Float64Array(4), new Float64Array(4)];
    let stable = 0;
    // a low-discrepancy walk over the coefficients
    for (let i = 1; i <= 400; i++) {
      const [a3, a2, a1, a0] = [0.5545, 0.3079, 0.171, 0.0949].map((step) => 6 * ((i * step * 7.13) % 1) - 0.3);
      eigenvalues(fromPolynomials([1], [1, a3, a2, a1, a0]).A, 4, workspace, re, im);
      const byHurwitz = hurwitzFour(a3, a2, a1, a0).every((value) => value > 0);
      expect(byHurwitz).toBe(re[0] < 0);
      if (byHurwitz) stable++;
    }
    expect(stable).toBeGreaterThan(20);
    expect(stable).toBeLessThan(380);
  });
});
