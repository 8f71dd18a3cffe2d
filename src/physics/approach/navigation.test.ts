import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { RelativeNavigation } from "./navigation.ts";
import type { NavigationSettings } from "./settings.ts";
import { DelayLine, ticksOf } from "./ticks.ts";

const clean: NavigationSettings = {
  ...{ interval: 0.02, latency: 0, bias: [0, 0, 0], placeNoise: 0, velocityNoise: 0 },
  ...{ dropouts: null, without: "hold", attitudeNoise: 0, rateNoise: 0 },
};
const TICK = 0.02;
const still = new Float64Array(3);
/** Runs a number of ticks with place and velocity of each, and looks after each. */
function run(
  settings: NavigationSettings,
  ticks: number,
  look: (navigation: RelativeNavigation, k: number) => void,
  at: (k: number) => number = () => 0,
  index = 0,
): void {
  const navigation = new RelativeNavigation(settings, TICK);
  navigation.restart(5, index);
  const p = new Float64Array(3);
  const v = Float64Array.of(1, 2, 3);
  for (let k = 0; k < ticks; k++) {
    p.fill(at(k));
    navigation.step(k * TICK, p, v);
    look(navigation, k);
  }
}

describe("relative navigation", () => {
  it("without errors gives the truth", () => {
    run(
      clean,
      50,
      (n, k) => {
        expect([...n.place]).toEqual([k ** 2, k ** 2, k ** 2]);
        expect([...n.velocity]).toEqual([1, 2, 3]);
        expect(n.age).toBe(0);
      },
      (k) => k ** 2,
    );
  });

  it.each([0, 1, 5, 17])("is late by exactly %d ticks", (n) => {
    run(
      { ...clean, latency: n * TICK },
      60,
      ({ place }, k) => expect(place[0]).toBe(Math.max(0, k - n) ** 2),
      (k) => k ** 2,
    );
  });

  it("measures at its interval and holds or propagates between", () => {
    const at = (k: number) => k * TICK;
    run({ ...clean, interval: 5 * TICK }, 40, ({ place }, k) => expect(place[0]).toBe(at(k - (k % 5))), at);
    const propagate: NavigationSettings = { ...clean, interval: 5 * TICK, without: "propagate" };
    run(
      propagate,
      40,
      ({ place }, k) =>
        expectClose(place[0], at(k), { atol: 1e-12, why: "moves at the velocity that is measured, 1 m/s" }),
      at,
    );
  });

  it("has noise and bias of the stated deviation", () => {
    const noisy = { ...clean, placeNoise: 0.05, velocityNoise: 0.2 };
    const count = 20_000;
    const sums = [0, 0, 0];
    run(noisy, count, ({ place, velocity }) => {
      sums[0] += place[1] ** 2;
      sums[1] += (velocity[2] - 3) ** 2;
      sums[2] += place[0] * place[1];
    });
    const relative = 5 * Math.sqrt(2 / count);
    expectClose(sums[0] / count, 0.05 ** 2, { rtol: relative, why: "five standard deviations of a variance" });
    expectClose(sums[1] / count, 0.2 ** 2, { rtol: relative, why: "five standard deviations of a variance" });
    expectClose(sums[2] / count, 0, { atol: (5 * 0.05 ** 2) / Math.sqrt(count), why: "axes independent" });
    let square = 0;
    for (let index = 0; index < 4000; index++) {
      run(
        { ...clean, bias: [0.1, 0, 0] },
        2,
        ({ place }, k) => {
          if (k === 1) square += place[0] ** 2;
        },
        () => 0,
        index,
      );
    }
    expectClose(square / 4000, 0.01, { rtol: 5 * Math.sqrt(2 / 4000), why: "five standard deviations of a variance" });
  });

  it("is interrupted for the stated share of time and length", () => {
    const dropouts = { meanBetween: 4, meanLength: 1 };
    const ticks = 400_000;
    let away = 0;
    let gaps = 0;
    let before = true;
    run({ ...clean, dropouts }, ticks, ({ available }) => {
      if (!available) away++;
      if (before && !available) gaps++;
      before = available;
    });
    // 8000 s: about 1600 cycles; the share has the deviation 0.2·0.8·√(2/1600)
    expectClose(away / ticks, 0.2, { atol: 5 * 0.16 * Math.sqrt(2 / 1600), why: "five standard deviations" });
    expectClose((away * TICK) / gaps, 1, {
      rtol: 5 / Math.sqrt(1600),
      why: "five deviations; gaps under a tick unseen",
    });
  });

  it("while interrupted holds or propagates, counts the time, and leaves the later noise alone", () => {
    const dropouts = { meanBetween: 0.4, meanLength: 0.4 };
    const noisy: NavigationSettings = { ...clean, placeNoise: 0.05 };
    const whole: number[] = [];
    run(noisy, 500, ({ place }) => whole.push(place[2]));
    let seen = 0;
    let age = 0;
    run({ ...noisy, dropouts }, 500, (n, k) => {
      age = n.available || k === 0 ? 0 : age + TICK;
      expectClose(n.age, age, { atol: 1e-12, why: "sum of ticks" });
      if (n.available) expect(n.place[2]).toBe(whole[k]);
      else seen++;
    });
    expect(seen).toBeGreaterThan(50);
  });

  it("repeats a sample from seed and index, whatever came between", () => {
    const settings = {
      ...clean,
      placeNoise: 0.1,
      bias: [0.1, 0.2, 0.3] as const,
      dropouts: { meanBetween: 1, meanLength: 1 },
    };
    const navigation = new RelativeNavigation(settings, TICK);
    const take = (index: number): number[] => {
      navigation.restart(9, index);
      return Array.from({ length: 200 }, (_, k) => {
        navigation.step(k * TICK, still, still);
        return navigation.place[0];
      });
    };
    const first = take(3);
    expect(take(4)).not.toEqual(first);
    expect(take(3)).toEqual(first);
  });

  it.each([
    [{ latency: 0.03 }, "latency"],
    [{ latency: -0.02 }, "latency"],
    [{ interval: 0 }, "interval"],
    [{ placeNoise: -1 }, "placeNoise"],
    [{ bias: [0, Number.NaN, 0] as const }, "bias, y"],
    [{ dropouts: { meanBetween: 0, meanLength: 1 } }, "meanBetween"],
  ])("refuses %j", (change, word) => {
    expect(() => new RelativeNavigation({ ...clean, ...change }, TICK)).toThrow(DomainError);
    expect(() => new RelativeNavigation({ ...clean, ...change }, TICK)).toThrow(word);
  });
});

describe("ticks", () => {
  it("are whole, to rounding", () => {
    expect(ticksOf("t", 0.3, 0.1)).toBe(3);
    expect(() => ticksOf("t", 0.35, 0.1)).toThrow(DomainError);
    expect(() => ticksOf("t", 1, 0)).toThrow("tick");
  });

  it("a delay line gives the first value until its delay is over, and starts anew", () => {
    const line = new DelayLine(2, 1);
    const pass = (x: number) => {
      const values = Float64Array.of(x);
      line.pass(values);
      return values[0];
    };
    expect([7, 8, 9, 10, 11].map(pass)).toEqual([7, 7, 7, 8, 9]);
    line.restart();
    expect([1, 2].map(pass)).toEqual([1, 1]);
  });
});
