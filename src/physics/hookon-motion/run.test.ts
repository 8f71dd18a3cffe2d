import { describe, expect, it } from "vitest";
import { bareMotion, placeHead } from "../../../test/support/bare-contact.ts";
import { expectClose } from "../../../test/support/close.ts";
import { testLatch, testPair, testSocket } from "../../../test/support/hookon-pair.ts";
import type { LongshoreOptions } from "../../../test/support/longshore.ts";
import { APPROACH_PHASES, type ApproachGuide } from "../approach/types.ts";
import { tripSpeed } from "../latch/index.ts";
import { socketAxes } from "../socket/index.ts";
import { drydenFilter, turbulenceScales } from "../turbulence/index.ts";
import { COLUMN, HOOKON_COLUMNS } from "./columns.ts";
import * as at from "./layout.ts";
import { HookonRun } from "./run.ts";
import { straightGuide, straightStart } from "./straight-guide.ts";
import { HOOKON_OUTCOMES, type HookonSettings } from "./types.ts";

const AXES = socketAxes(testSocket().restAxis_H);
const near = (closure: number, right = 0, up = 0, distance = 0.2) =>
  straightStart(AXES, { distance, closure, right, up });

/** Thrust idle once the latch has tripped, as while hooked. */
function idleWhenTripped(options: LongshoreOptions = {}): ApproachGuide {
  const straight = straightGuide(testPair({}, options).trim.controls);
  return {
    ...straight,
    step(truth, out) {
      straight.step(truth, out);
      if (truth.tripped) out.thrust = 0;
    },
  };
}

function outcomeOf(settings: HookonSettings, start = near(1), seed = 1, index = 0) {
  const run = new HookonRun(settings);
  const row = new Float64Array(HOOKON_COLUMNS.length);
  run.run(seed, index, row, start);
  const value = (name: string): number => row[COLUMN[name]];
  return { outcome: HOOKON_OUTCOMES[value("outcome")], value, row, run };
}

describe("outcomes", () => {
  it("a straight approach locks, in order: mouth, contact, trip, lock, ring-down", () => {
    const limits = { ...testPair().limits, ringTime: 5 };
    const pair = testPair({ guide: idleWhenTripped({ revision: "Rev B" }), limits }, { revision: "Rev B" });
    const { outcome, value, run } = outcomeOf(pair, near(0.8));
    expect(outcome).toBe("locked, stable");
    expect(value("locked")).toBe(1);
    expect(value("contact_s")).toBeLessThan(value("trip_s"));
    expectClose(value("lock_s") - value("trip_s"), 0.05, { rtol: 1e-9, why: "lock time of the latch" });
    expectClose(value("duration_s"), value("lock_s") + 5, { atol: 0.011, why: "ring time, to the tick" });
    expectClose(value("closure_m_s"), 0.8, { rtol: 0.03, why: "it drifts a little without control" });
    expect(value("ringDamping")).toBeGreaterThan(0.1);
    const { events, values, columns, row } = run.replay(1, 0, 20, near(0.8));
    expect(row[COLUMN.lock_s]).toBe(value("lock_s"));
    const words = events.map(({ what }) => what);
    const order = ["head comes to the mouth", "contact", "latch trips", "latch locks", "ring-down is over"];
    expect(order.map((what) => words.indexOf(what))).toEqual(
      [...order.map((what) => words.indexOf(what))].sort((a, b) => a - b),
    );
    expect(words.indexOf("contact")).toBeGreaterThanOrEqual(0);
    const width = columns.length;
    const rows = values.length / width;
    expectClose(rows, 20 * value("duration_s"), { atol: 2, why: "20 rows a second" });
    // where the run starts: head 0.2 m from the mouth
    const along = columns.findIndex(({ name }) => name === "along_m");
    expectClose(values[along], 0.2, { rtol: 1e-12, why: "the start" });
  });

  it("the same pair of Rev A swings up", () => {
    const pair = testPair({ guide: idleWhenTripped() });
    const limits = { ...pair.limits, axialLoad: 2e5, sideLoad: 2e5, ringTime: 12 };
    const socket = testSocket({ buffer: { ...testSocket().buffer, preload: 40e3 } });
    const { outcome, value } = outcomeOf({ ...pair, limits, socket }, near(0.5));
    expect(outcome).toBe("locked, diverging");
    expect(value("ringDamping")).toBeLessThan(-0.02);
    // the growing mode of the linear model has 0.846 Hz; turns of the first, faster one are counted too
    expect(value("ringFrequency_Hz")).toBeGreaterThan(0.7);
    expect(value("ringFrequency_Hz")).toBeLessThan(1.4);
  });

  it("passes outside: missed, with the miss at the mouth", () => {
    const { outcome, value } = outcomeOf(testPair(), near(1, 0.3, 0.35));
    expect(outcome).toBe("missed");
    expectClose(value("missRight_m"), 0.3, { atol: 1e-3, why: "straight flight" });
    expectClose(value("missUp_m"), 0.35, { atol: 0.01, why: "straight flight, some drift" });
    expectClose(value("miss_m"), Math.hypot(0.3, 0.35), { atol: 0.01, why: "both" });
    expect(value("contact_s")).toBeNaN();
    expect(value("impulse_N_s")).toBe(0);
  });

  it("too slow to trip: bounced; on the lip: a touch", () => {
    expect(outcomeOf(testPair(), near(0.15)).outcome).toBe("bounced");
    const lip = outcomeOf(testPair(), near(1, 0.32));
    expect(lip.outcome).toBe("bounced");
    expect(lip.value("touches")).toBeGreaterThan(0);
  });

  it("too fast: overloaded", () => {
    const { outcome, value } = outcomeOf(testPair(), near(3));
    expect(outcome).toBe("overloaded");
    expect(Math.max(value("axialLoad_N") / 60e3, value("sideLoad_N") / 30e3)).toBeGreaterThan(1);
  });

  it("a funnel without centring tumbles where one with it does not", () => {
    const start = near(1, 0.15, 0.1);
    const gimbal = { ...testSocket().gimbal, centring: 0, damping: 2, friction: 0, stop: 1.2 };
    expect(outcomeOf(testPair({ socket: testSocket({ gimbal }) }), start).outcome).toBe("socket tumbled");
    const firm = { ...gimbal, centring: 3000, damping: 60, stop: 0.35, stopStiffness: 1e5 };
    expect(outcomeOf(testPair({ socket: testSocket({ gimbal: firm }) }), start).outcome).not.toBe("socket tumbled");
  });

  it("hooks that close late close on the edge or on nothing: half-locked", () => {
    const late = testPair({ latch: testLatch({ lockTime: 0.8, lockWindow: 1e-4 }), guide: idleWhenTripped() });
    const { outcome, value } = outcomeOf(late, near(0.8));
    expect(outcome).toBe("half-locked");
    expect(value("trip_s")).toBeGreaterThan(0);
    expect(value("lock_s")).toBeNaN();
  });

  it("a head that rests in a rough cone: jammed; in a smooth one it goes on", () => {
    // an aircraft that is slow to turn, pushed gently
    const { mass } = testPair();
    const slow = { ...mass, Ixx: 300 * mass.Ixx, Iyy: 300 * mass.Iyy, Izz: 300 * mass.Izz, Ixz: 0 };
    const guide = straightGuide({ ...testPair().trim.controls, thrust: 2600 });
    const gimbal = { ...testSocket().gimbal, centring: 5e4, damping: 500 };
    const settle = (friction: number) => {
      const contact = { ...testSocket().contact, friction, restitution: 0.05 };
      const settings = testPair({ mass: slow, guide, socket: testSocket({ contact, gimbal }) });
      return outcomeOf(settings, near(0.2, 0.12));
    };
    expect(settle(2.5).outcome).toBe("jammed");
    expect(settle(0.05).outcome).not.toBe("jammed");
  });

  it("the guide's breakaway and go-around end as such", () => {
    for (const [phase, expected] of [
      ["breakaway", "broken away"],
      ["going around", "missed"],
    ] as const) {
      const straight = straightGuide(testPair().trim.controls);
      const guide: ApproachGuide = {
        ...straight,
        step(truth, out) {
          straight.step(truth, out);
          if (truth.time > 0.5) out.phase = APPROACH_PHASES.indexOf(phase);
        },
      };
      const { outcome, value } = outcomeOf(testPair({ guide }), near(-2, 0, 0, 3));
      expect(outcome).toBe(expected);
      expect(value("attempts")).toBe(1);
      expectClose(value("closest_m"), 3, { atol: 0.01, why: "it flew away" });
    }
  });
});

describe("numbers", () => {
  const scales = turbulenceScales("MIL-HDBK-1797", "Dryden", 3000);
  const gusts = drydenFilter({ scales, sigma: 1.5, speed: 110, span: 7.4 }, 1.2);
  const limits = { ...testPair().limits, approachTime: 3, ringTime: 0.5 };
  const rough = testPair({ gusts, orbit: { radius: 0.05, period: 4 }, boomRateLimit: 0.1, limits });

  it("depend on seed and index alone, not on order or object", () => {
    const run = new HookonRun(rough);
    const rowOf = (index: number, from = run): string => {
      const row = new Float64Array(HOOKON_COLUMNS.length);
      from.run(9, index, row, near(1, 0.02, 0, 0.6));
      return [...row].join();
    };
    const forward = [0, 1, 2, 3].map((index) => rowOf(index));
    const backward = [3, 2, 1, 0].map((index) => rowOf(index)).reverse();
    expect(backward).toEqual(forward);
    expect(rowOf(2, new HookonRun(rough))).toBe(forward[2]);
    expect(new Set(forward).size).toBe(4);
  });

  it("steps halved change no outcome and little else", () => {
    const fine = new HookonRun(rough);
    fine.motion.refinement = 0.5;
    for (const index of [0, 1]) {
      const row = new Float64Array(HOOKON_COLUMNS.length);
      fine.run(9, index, row, near(1, 0.02, 0, 0.6));
      const { row: coarse } = outcomeOf(rough, near(1, 0.02, 0, 0.6), 9, index);
      for (const name of ["contact_s", "closure_m_s", "miss_m"]) {
        expectClose(coarse[COLUMN[name]], row[COLUMN[name]], { rtol: 1e-4, why: "method of order four" }, name);
      }
      expect(coarse[COLUMN.outcome]).toBe(row[COLUMN.outcome]);
    }
  });

  it("every row is finite or NaN by meaning: no infinity", () => {
    const { row } = outcomeOf(rough, near(1));
    expect(row.some((value) => Math.abs(value) === Number.POSITIVE_INFINITY)).toBe(false);
    expect(HOOKON_COLUMNS.every(({ name, unit }) => unit === "" || name.includes("_"))).toBe(true);
  });
});

describe("closure window from below", () => {
  it.each([
    [1.01, true],
    [0.99, false],
  ])("the latch trips at %d of the closed form: %s", (share, trips) => {
    const latch = testLatch();
    const { speed } = tripSpeed(latch, 600, { friction: 0, preload: 1e9, stiffness: 0 });
    const motion = bareMotion({ mass: 600, tipMass: 1e12 });
    motion.U[at.U_LATCH] = 0;
    placeHead(motion, [0.05, 0, 0], [share * speed, 0, 0]);
    let tripped = false;
    motion.advance(0.5, {
      step: () => true,
      event(which, rising) {
        tripped ||= which === at.EVENT_SEAT && !rising;
        return true;
      },
    });
    expect(tripped).toBe(trips);
  });
});
