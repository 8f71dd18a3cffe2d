import { Solver } from "odex";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import {
  balanceFourier,
  closeOrbit,
  type FourierMotion,
  fourierStart,
  monodromyOf,
  motionAt,
  type ParametricDerivative,
} from "./index.ts";

const OWN = { period: "own", tolerance: 1e-12, maxSteps: 20_000 } as const;
const DRIVEN = { ...OWN, period: "driven" } as const;

/** ẍ − μ(1 − x²)ẋ + x = 0; the sense of time is turned with a negative one. */
const vanDerPol =
  (mu: number, sense = 1): ParametricDerivative =>
  (_t, y, _p, out) => {
    out[0] = sense * y[1]!;
    out[1] = sense * (mu * (1 - y[0]! ** 2) * y[1]! - y[0]!);
  };

/** Period and amplitude by an independent integrator: time between upward passages of x = 0, largest x between. */
function simulatedVanDerPol(mu: number): { period: number; amplitude: number } {
  const f = vanDerPol(mu);
  const out = new Float64Array(2);
  const solver = (): Solver => {
    const made = new Solver(2);
    made.absoluteTolerance = 1e-13;
    made.relativeTolerance = 1e-13;
    made.maxSteps = 1_000_000;
    return made;
  };
  const advance = (y: number[], time: number): number[] =>
    solver().solve(
      (_t, state) => {
        f(0, Float64Array.from(state), 0, out);
        return Array.from(out);
      },
      0,
      y,
      time,
    ).y;
  // on the cycle, then onto x = 0 by Newton's method in time
  const land = (y: number[], component: 0 | 1): { y: number[]; t: number } => {
    let t = 0;
    let at = y;
    for (let k = 0; k < 8; k++) {
      const rate = component === 0 ? at[1]! : mu * (1 - at[0]! ** 2) * at[1]! - at[0]!;
      const dt = -at[component]! / rate;
      if (Math.abs(dt) < 1e-15) break;
      at = advance(at, dt);
      t += dt;
    }
    return { y: at, t };
  };
  let y = advance([2, 0], 60);
  // to just before an upward passage, near enough for Newton's method
  const isBefore = ([x, v]: number[]): boolean => x! < 0 && x! > -0.4 && v! > 0;
  while (!isBefore(y)) y = advance(y, 0.05);
  const first = land(y, 0);
  let next = advance(first.y, 0.5);
  let t = 0.5;
  let amplitude = 0;
  while (!isBefore(next)) {
    const before = next;
    next = advance(next, 0.05);
    t += 0.05;
    if (before[0]! > 0 && before[1]! > 0 && next[1]! <= 0) amplitude = land(next, 1).y[0]!;
  }
  const last = land(next, 0);
  return { period: t + last.t, amplitude };
}

describe("relaxation oscillator of van der Pol", () => {
  const scales = [2, 2];

  it.each([
    [0.3, 6.3],
    [1, 6.6],
    [2, 7.6],
  ])("orbit for μ = %d is that of an independent integration", (mu, period) => {
    const expected = simulatedVanDerPol(mu);
    const system = { size: 2, derivative: vanDerPol(mu), scales };
    const orbit = closeOrbit(system, { y0: [2, 0], period, parameter: 0 }, OWN);
    expect(orbit.outcome).toBe("closed");
    expectClose(orbit.period, expected.period, { rtol: 1e-8, why: "integrations to 1e-12 and 1e-13" }, "period");
    // it starts where the speed is zero
    expectClose(orbit.y0[0]!, expected.amplitude, { rtol: 1e-7, why: "closed to 1e-10 of the size" }, "amplitude");
    // the multiplier is exp of the integral of the divergence along the orbit (Liouville)
    const [a, b, c, d] = orbit.monodromy;
    expectClose(a! * d! - b! * c!, orbit.multipliers.largest, {
      rtol: 1e-2,
      atol: 3e-4,
      why: "the other multiplier is 1; differences",
    });
    expect(orbit.multipliers.largest).toBeLessThan(1);
    expect(orbit.multipliers.shiftError).toBeLessThan(1e-4);
    // harmonic balance converges to it
    const errors = [5, 9, 15].map((harmonics) => {
      const start = fourierStart([0, 0], [2, 0], [0, -2], { omega: 1, parameter: 0, harmonics });
      const found = balanceFourier(system, start, { kind: "own frequency", measure: 0 });
      expect(found.outcome).toBe("balanced");
      return Math.abs((2 * Math.PI) / found.omega / expected.period - 1);
    });
    expect(errors[1]).toBeLessThan(0.2 * errors[0]! + 1e-9);
    expect(errors[2]).toBeLessThan(2e-4);
  });

  it("is unstable with time turned round: the multiplier is the inverse, and balance finds it all the same", () => {
    const forward = closeOrbit(
      { size: 2, derivative: vanDerPol(0.5), scales },
      { y0: [2, 0], period: 6.4, parameter: 0 },
      OWN,
    );
    const system = { size: 2, derivative: vanDerPol(0.5, -1), scales };
    const backward = closeOrbit(system, { y0: [2, 0], period: 6.4, parameter: 0 }, OWN);
    expect([forward.outcome, backward.outcome]).toEqual(["closed", "closed"]);
    expectClose(backward.period, forward.period, { rtol: 1e-8, why: "the same curve" });
    expect(backward.multipliers.largest).toBeGreaterThan(1);
    expectClose(backward.multipliers.largest * forward.multipliers.largest, 1, { rtol: 1e-3, why: "differences" });
    const start = fourierStart([0, 0], [2, 0], [0, 2], { omega: 1, parameter: 0, harmonics: 9 });
    const found = balanceFourier(system, start, { kind: "own frequency", measure: 0 });
    expect(found.outcome).toBe("balanced");
    expectClose((2 * Math.PI) / found.omega, forward.period, { rtol: 1e-6, why: "nine harmonics" });
  });
});

describe("hardening spring ẍ + x + βx³ = 0", () => {
  /** T = 4K(m)/√(1 + βA²), m = βA²/(2(1 + βA²)); K by the arithmetic-geometric mean. */
  const period = (a2: number): number => {
    let [a, g] = [1, Math.sqrt(1 - a2 / (2 * (1 + a2)))];
    for (let k = 0; k < 8; k++) [a, g] = [(a + g) / 2, Math.sqrt(a * g)];
    return (2 * Math.PI) / (a * Math.sqrt(1 + a2));
  };

  it.each([0.3, 1, 3])("has the elliptic period at amplitude %d, and no growth", (amplitude) => {
    const derivative: ParametricDerivative = (_t, y, mu, out) => {
      out[0] = y[1]! - mu * y[0]!;
      out[1] = -y[0]! - y[0]! ** 3 - mu * y[1]!;
    };
    const omega = Math.sqrt(1 + 0.75 * amplitude ** 2);
    const system = { size: 2, derivative, scales: [amplitude, amplitude * omega] };
    const start = fourierStart([0, 0], [amplitude, 0], [0, -amplitude * omega], {
      omega,
      parameter: 0.1,
      harmonics: 11,
    });
    const found = balanceFourier(system, start, { kind: "of amplitude", measure: 0, amplitude });
    expect(found.outcome).toBe("balanced");
    expectClose(found.parameter, 0, { atol: 1e-9, why: "energy is kept" }, "growth");
    const y = new Float64Array(2);
    motionAt(found, 0, y);
    expectClose((2 * Math.PI) / found.omega, period(y[0]! ** 2), { rtol: 1e-8, why: "eleven harmonics" }, "period");
  });
});

describe("driven mass on a spring", () => {
  const driven =
    (zeta: number, c2: number, force: number, omega: number): ParametricDerivative =>
    (t, y, _p, out) => {
      out[0] = y[1]!;
      out[1] = force * Math.cos(omega * t) - y[0]! - 2 * zeta * y[1]! - c2 * y[1]! * Math.abs(y[1]!);
    };

  it("linear: amplitude and phase of the closed form, multipliers e^(λT)", () => {
    const [zeta, omega] = [0.07, 1.3];
    const system = { size: 2, derivative: driven(zeta, 0, 1, omega), scales: [1, 1] };
    const start = fourierStart([0, 0], [1, 0], [0, 0], { omega, parameter: 0, harmonics: 3 });
    const found = balanceFourier(system, start, { kind: "driven" });
    const [re, im] = [1 - omega ** 2, 2 * zeta * omega];
    const tight = { rtol: 1e-9, atol: 1e-12, why: "linear" };
    expectClose(found.coefficients[2]!, re / (re * re + im * im), tight, "in phase");
    expectClose(found.coefficients[4]!, im / (re * re + im * im), tight, "out of phase");
    const y0 = new Float64Array(2);
    motionAt(found, 0, y0);
    const orbit = closeOrbit(system, { y0, period: (2 * Math.PI) / omega, parameter: 0 }, DRIVEN);
    expect([orbit.outcome, orbit.iterations]).toEqual(["closed", 0]);
    const decay = Math.exp((-zeta * 2 * Math.PI) / omega);
    expectClose(orbit.multipliers.largest, decay, { rtol: 1e-6, why: "integration to 1e-12 over 1e-5" });
    const angle = (Math.sqrt(1 - zeta ** 2) * 2 * Math.PI) / omega;
    expectClose(orbit.multipliers.re[0]!, decay * Math.cos(angle), {
      atol: 1e-6,
      why: "integration to 1e-12 over 1e-5",
    });
    expect(orbit.multipliers.shiftError).toBe(0);
  });

  it("orifice at resonance: X = √(3πF/(8·C2))/ω, better the lighter the damping", () => {
    const errors = [0.2, 0.05, 0.0125].map((force) => {
      const amplitude = Math.sqrt((3 * Math.PI * force) / 8);
      const start = fourierStart([0, 0], [0, amplitude], [amplitude, 0], { omega: 1, parameter: 0, harmonics: 9 });
      const system = { size: 2, derivative: driven(0, 1, force, 1), scales: [amplitude, amplitude] };
      const found = balanceFourier(system, start, { kind: "driven" });
      expect(found.outcome).toBe("balanced");
      return Math.abs(Math.hypot(found.coefficients[2]!, found.coefficients[4]!) / amplitude - 1);
    });
    // what the first harmonic leaves out is of second order in the share of damping
    expect(errors[0]).toBeLessThan(0.01);
    expect(errors[1]! / errors[0]!).toBeLessThan(0.35);
    expect(errors[2]! / errors[1]!).toBeLessThan(0.35);
  });

  it("balance and shooting give the same motion with an orifice", () => {
    const system = { size: 2, derivative: driven(0.01, 0.8, 0.4, 0.9), scales: [1, 1] };
    const start = fourierStart([0, 0], [0.5, 0], [0, 0], { omega: 0.9, parameter: 0, harmonics: 15 });
    const found = balanceFourier(system, start, { kind: "driven" });
    const y0 = new Float64Array(2);
    motionAt(found, 0, y0);
    const orbit = closeOrbit(system, { y0, period: (2 * Math.PI) / 0.9, parameter: 0 }, DRIVEN);
    expect(orbit.outcome).toBe("closed");
    expectClose(orbit.y0[0]!, y0[0]!, { atol: 1e-4, why: "harmonics beyond the fifteenth of a kink" });
    expect(orbit.multipliers.largest).toBeLessThan(1);
  });
});

describe("Floquet multipliers", () => {
  it("of Mathieu's equation: determinant 1, trace by an independent integration", () => {
    const [a, q] = [1.3, 0.4];
    const derivative: ParametricDerivative = (t, y, _p, out) => {
      out[0] = y[1]!;
      out[1] = -(a - 2 * q * Math.cos(2 * t)) * y[0]!;
    };
    const system = { size: 2, derivative, scales: [1, 1] };
    const { reached, monodromy } = monodromyOf(system, { y0: [0, 0], period: Math.PI, parameter: 0 }, OWN);
    expect(reached).toBe(true);
    const out = new Float64Array(2);
    const columns = [
      [1, 0],
      [0, 1],
    ].map((y) => {
      const solver = new Solver(2);
      solver.absoluteTolerance = 1e-13;
      solver.relativeTolerance = 1e-13;
      const f = (t: number, state: number[]): number[] => {
        derivative(t, Float64Array.from(state), 0, out);
        return Array.from(out);
      };
      return solver.solve(f, 0, y, Math.PI).y;
    });
    const close = { rtol: 1e-6, why: "integration to 1e-12 over 1e-5" };
    expectClose(monodromy[0]! + monodromy[3]!, columns[0]![0]! + columns[1]![1]!, close, "trace");
    expectClose(monodromy[0]! * monodromy[3]! - monodromy[1]! * monodromy[2]!, 1, close, "determinant");
    // inside the first tongue the motion grows
    const orbit = closeOrbit(system, { y0: [0, 0], period: Math.PI, parameter: 0 }, DRIVEN);
    expect(orbit.multipliers.largest).toBeGreaterThan(1);
  });

  it("of three decays and an oscillation are e^(λT)", () => {
    const rates = [-0.3, 0.2, -1.1];
    const derivative: ParametricDerivative = (_t, y, _p, out) => {
      // triangular: the eigenvalues stand on the diagonal
      out[0] = rates[0]! * y[0]! + y[1]!;
      out[1] = rates[1]! * y[1]! - y[2]!;
      out[2] = rates[2]! * y[2]!;
    };
    const system = { size: 3, derivative, scales: [1, 1, 1] };
    const { multipliers } = closeOrbit(system, { y0: [0, 0, 0], period: 1.7, parameter: 0 }, DRIVEN);
    [0.2, -0.3, -1.1].forEach((rate, i) => {
      expectClose(multipliers.re[i]!, Math.exp(1.7 * rate), { rtol: 1e-6, why: "integration to 1e-12 over 1e-5" });
    });
  });
});

describe("outcomes and refusals", () => {
  const system = { size: 2, derivative: vanDerPol(1), scales: [1, 1] };
  const start: FourierMotion = fourierStart([0, 0], [2, 0], [0, -2], { omega: 1, parameter: 0, harmonics: 3 });

  it("says when a motion is lost or not finite", () => {
    const pole: ParametricDerivative = (_t, y, _p, out) => {
      out[0] = y[0]! ** 2;
      out[1] = 0;
    };
    const orbit = closeOrbit({ ...system, derivative: pole }, { y0: [1, 0], period: 3, parameter: 0 }, OWN);
    expect(orbit.outcome).toBe("lost");
    const nothing: ParametricDerivative = (_t, _y, _p, out) => out.fill(Number.NaN);
    const found = balanceFourier({ ...system, derivative: nothing }, start, { kind: "driven" });
    expect(found.outcome).toBe("not finite");
  });

  it("refuses what does not fit", () => {
    expect(() => balanceFourier({ ...system, scales: [1, 0] }, start, { kind: "driven" })).toThrow("scale 1 is 0");
    expect(() => closeOrbit(system, { y0: [1], period: 1, parameter: 0 }, OWN)).toThrow(DomainError);
    expect(() => closeOrbit(system, { y0: [1, 0], period: 0, parameter: 0 }, OWN)).toThrow("period is 0");
    expect(() => fourierStart([0], [1], [], { omega: 1, parameter: 0, harmonics: 1 })).toThrow(DomainError);
  });
});
