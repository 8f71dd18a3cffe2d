import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { integrate } from "../../math/ode/index.ts";
import {
  balanceHarmonics,
  describingRate,
  NonlinearPath,
  plainLaw,
  type SnubberForceLaw,
  speedsWithRate,
} from "./index.ts";

interface Given {
  readonly m: number;
  readonly d: number;
  readonly kb: number;
  readonly cb: number;
  readonly ka: number;
  readonly C1: number;
  readonly C2: number;
  readonly relief: number | null;
  readonly rise: number;
  readonly friction: number;
}
interface Case {
  readonly given: Given;
  readonly tip_m: number;
  readonly omega_rad_s: number;
}

/** reference/generated/snubber-oscillator */
const { cases } = JSON.parse(
  readFileSync(new URL("../../../reference/generated/snubber-oscillator/values.json", import.meta.url), "utf8"),
) as { readonly cases: Readonly<Record<string, Case>> };

const lawOf = ({ C1, C2, relief, rise, friction }: Given): SnubberForceLaw => ({
  linear: C1,
  quadratic: C2,
  relief: relief ?? Number.POSITIVE_INFINITY,
  reliefRate: rise,
  friction,
});

type Complex = readonly [number, number];
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const over = ([a, b]: Complex, [c, d]: Complex): Complex => {
  const square = c * c + d * d;
  return [(a * c + b * d) / square, (b * c - a * d) / square];
};

/** Z of mass and springs: (B·M/(M − B) + k_a)/(iω), M = mω² + iωd, B = k_b + iωc_b. */
function impedanceOf({ m, d, kb, cb, ka }: Given) {
  return (omega: number, out: Float64Array): void => {
    const M: Complex = [m * omega * omega, omega * d];
    const B: Complex = [kb, omega * cb];
    const [re, im] = over(times(B, M), [M[0] - B[0], M[1] - B[1]]);
    [out[0], out[1]] = over([re + ka, im], [0, omega]);
  };
}

/** Frequency and rate at which the oscillator is neutral: Im Z = 0, Re Z = −c, between two frequencies. */
function neutral(given: Given, from: number, to: number): { rate: number; omega: number } {
  const z = new Float64Array(2);
  const imag = (omega: number): number => {
    impedanceOf(given)(omega, z);
    return z[1];
  };
  let [low, high] = [from, to];
  const sign = Math.sign(imag(low));
  for (let i = 0; i < 100; i++) {
    const middle = 0.5 * (low + high);
    if (Math.sign(imag(middle)) === sign) low = middle;
    else high = middle;
  }
  imag(low);
  return { rate: -z[0], omega: low };
}

/** Amplitude of the mass from the harmonics: X_n = S_n + (k_a·S_n + F_n)/B(nω). */
function amplitudeOf({ kb, cb, ka }: Given, balance: ReturnType<typeof balanceHarmonics>): number {
  const { omega, speed, force } = balance;
  let most = 0;
  const X = Array.from({ length: speed.length / 2 }, (_, k): Complex => {
    const w = (2 * k + 1) * omega;
    const S: Complex = [speed[2 * k + 1] / w, -speed[2 * k] / w];
    const [re, im] = over([ka * S[0] + force[2 * k], ka * S[1] + force[2 * k + 1]], [kb, w * cb]);
    return [S[0] + re, S[1] + im];
  });
  for (let j = 0; j < 2000; j++) {
    let x = 0;
    X.forEach(([re, im], k) => {
      const angle = ((2 * k + 1) * Math.PI * j) / 1000;
      x += re * Math.cos(angle) - im * Math.sin(angle);
    });
    most = Math.max(most, Math.abs(x));
  }
  return most;
}

const ORIFICE = cases.orifice;

describe("balanceHarmonics", () => {
  const start = (given: Given) => {
    const { rate, omega } = neutral(given, 3, 7);
    const [{ speed }] = speedsWithRate(lawOf(given), rate, 1e-6, 10);
    return { rate, omega, speed };
  };

  it("with one harmonic is the describing function", () => {
    const { rate, omega, speed } = start(ORIFICE.given);
    const found = balanceHarmonics(lawOf(ORIFICE.given), impedanceOf(ORIFICE.given), { omega, speed }, 1);
    expect(found.outcome).toBe("balanced");
    expectClose(found.omega, omega, { rtol: 1e-6, why: "the rectangle rule of the force" });
    expectClose(describingRate(lawOf(ORIFICE.given), found.speed[0]), rate, { rtol: 1e-5, why: "rectangle rule" });
  });

  it("with more harmonics closes in on the simulated oscillator of generated/snubber-oscillator", () => {
    for (const name of ["orifice", "bleed and relief"]) {
      const { given, tip_m, omega_rad_s } = cases[name];
      const { omega, speed } = start(given);
      const errors = [1, 2, 4].map((harmonics) => {
        const found = balanceHarmonics(lawOf(given), impedanceOf(given), { omega, speed }, harmonics);
        expect(found.outcome).toBe("balanced");
        return {
          tip: Math.abs(amplitudeOf(given, found) / tip_m - 1),
          omega: Math.abs(found.omega / omega_rad_s - 1),
        };
      });
      expect(errors[2].tip, name).toBeLessThan(errors[0].tip);
      expect(errors[2].tip, name).toBeLessThan(2e-3);
      expect(errors[2].omega, name).toBeLessThan(2e-4);
    }
  });

  it("says so when nothing balances: a snubber that is always stiff enough", () => {
    const { omega, speed } = start(ORIFICE.given);
    const stiff = plainLaw({ linear: 5e4, quadratic: 0 });
    expect(balanceHarmonics(stiff, impedanceOf(ORIFICE.given), { omega, speed }, 2).outcome).toBe("not found");
  });

  it("scales exactly with 1/C2 for the pure orifice", () => {
    const { omega, speed } = start(ORIFICE.given);
    const law = lawOf(ORIFICE.given);
    const one = balanceHarmonics(law, impedanceOf(ORIFICE.given), { omega, speed }, 3);
    const tenfold = { ...law, quadratic: 10 * law.quadratic };
    const ten = balanceHarmonics(tenfold, impedanceOf(ORIFICE.given), { omega, speed: speed / 10 }, 3);
    expectClose(ten.speed[0], one.speed[0] / 10, { rtol: 1e-8, why: "tolerance of the balance" });
    expectClose(ten.omega, one.omega, { rtol: 1e-8, why: "tolerance of the balance" });
  });
});

describe("NonlinearPath in time", () => {
  it.each(Object.keys(cases))("settles where scipy settles: %s", (name) => {
    const { given, tip_m, omega_rad_s } = cases[name];
    const rates = { bending: given.kb, bendingDamping: given.cb, accumulator: given.ka, snubber: 0 };
    const path = new NonlinearPath(rates, { law: lawOf(given), freePlay: 0 }, 0);
    const run = integrate({
      derivative: (_t, y, out) => {
        path.evaluate(y[0], y[1], y[2]);
        out[0] = y[1];
        out[1] = (given.d * y[1] - path.force) / given.m;
        out[2] = path.travelRate;
      },
      y0: [1.02 * tip_m, 0, 0],
      from: 0,
      to: 400,
      relativeTolerance: 1e-8,
      absoluteTolerance: 1e-10,
      maxSteps: 200_000,
      maximumStep: 0.05,
      events: [{ value: (_t, y) => y[1] }],
    });
    expect(run.outcome).toBe("reached");
    const last = run.events.slice(-9);
    const half = last.slice(1).map((hit, i) => Math.abs(hit.y[0] - last[i].y[0]) / 2);
    const tip = half.reduce((a, b) => a + b) / half.length;
    expectClose(tip, tip_m, { rtol: 1e-3, why: "both have settled to 1e-4 or better" }, "amplitude");
    const omega = (Math.PI * (last.length - 1)) / (last[last.length - 1].t - last[0].t);
    expectClose(omega, omega_rad_s, { rtol: 1e-4, why: "both have settled" }, "frequency");
  });
});
