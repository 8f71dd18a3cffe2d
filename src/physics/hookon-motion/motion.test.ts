import { describe, expect, it } from "vitest";
import { unwatched } from "../../../test/support/bare-contact.ts";
import { expectClose } from "../../../test/support/close.ts";
import { testPair, testSocket } from "../../../test/support/hookon-pair.ts";
import { quaternionFromEuler } from "../../math/rotation/index.ts";
import { socketAxes } from "../socket/index.ts";
import { COLUMN, HOOKON_COLUMNS } from "./columns.ts";
import * as at from "./layout.ts";
import { HookonMotion, TIMER } from "./motion.ts";
import { hookonParameters } from "./parameters.ts";
import { HookonRun } from "./run.ts";
import { straightStart } from "./straight-guide.ts";
import type { AirZones } from "./types.ts";

/** The whole pair in free flight with gust, steering and moving surfaces, none of them at a limit. */
function flight(refinement: number): Float64Array {
  const motion = new HookonMotion(hookonParameters(testPair({ boomRateLimit: 1, orbit: { radius: 0.1, period: 2 } })));
  const { X, U, parameters } = motion;
  quaternionFromEuler(0.02, 0.06, 0.05, X, at.X_ATTITUDE);
  X.set([-12, 0.3, 6]);
  X.set([0.6, -0.2, 0.1], at.X_VELOCITY);
  X.set(parameters.tip, at.X_TIP);
  // so little that the socket's head stays on its buffer's stop
  X[at.X_TIP + 2] += 0.004;
  X[at.X_TIP + 1] += 0.02;
  X.set([-0.02, 0.01, 0, 2000], at.X_CONTROLS);
  U.set([-0.01, 0.02, 0.01, 2500, 0.1], at.U_COMMANDS);
  U.set([1, -0.5, 2, 0.02, -0.01, 0.01], at.U_GUST);
  U.set([0.5, 0.4, -1, 0.01, 0.02, 0], at.U_GUST_SLOPE);
  motion.refinement = refinement;
  expect(motion.advance(0.4, unwatched)).toBe("reached");
  return X.slice();
}

describe("in time", () => {
  it("free flight of everything converges with order four", () => {
    const [a, b, c, fine] = [0.5, 0.25, 0.125, 1 / 32].map(flight);
    const weight = (i: number): number => (i === at.X_CONTROLS + 3 ? 1e-4 : 1);
    const gap = (x: Float64Array): number => Math.hypot(...Array.from(x, (value, i) => weight(i) * (value - fine[i])));
    expect(gap(a)).toBeLessThan(5e-3);
    expect(Math.log2(gap(a) / gap(b))).toBeGreaterThan(3.7);
    expect(Math.log2(gap(b) / gap(c))).toBeGreaterThan(3.7);
  });

  it("a tip that shakes its socket takes the buffer off its stop and back, each release after a rest", () => {
    const motion = new HookonMotion(hookonParameters(testPair()));
    motion.X[at.X_ATTITUDE] = 1;
    motion.X[0] = -20;
    motion.X.set(motion.parameters.tip, at.X_TIP);
    motion.X[at.X_TIP + 2] += 0.05;
    let worst = 0;
    let moved = 0;
    motion.advance(0.4, {
      step() {
        const held = motion.U[at.U_BUFFER_HELD] > 0;
        const over = motion.W[at.W_EVENTS + at.EVENT_BUFFER];
        // held: the push never stays above the preload; free: never through the stop
        worst = Math.max(worst, held ? over / 1500 : -motion.X[at.X_BUFFER] / 0.12);
        moved = Math.max(moved, motion.X[at.X_BUFFER]);
        return true;
      },
      event: () => true,
    });
    expect(moved).toBeGreaterThan(1e-3);
    expect(worst).toBeLessThan(1e-6);
  });

  it("the timer rings at its time, ends a step there, once", () => {
    const motion = new HookonMotion(hookonParameters(testPair()));
    motion.X[at.X_ATTITUDE] = 1;
    motion.X[0] = -20;
    motion.X.set(motion.parameters.tip, at.X_TIP);
    motion.timer = 0.1234567;
    const rung: number[] = [];
    motion.advance(0.3, {
      step: () => true,
      event(which) {
        if (which === TIMER) rung.push(motion.time);
        return true;
      },
    });
    expect(rung).toEqual([0.1234567]);
    expect(motion.time).toBe(0.3);
  });

  it("a watcher ends it, and what is not finite is told", () => {
    const motion = new HookonMotion(hookonParameters(testPair()));
    motion.X[at.X_ATTITUDE] = 1;
    motion.X[0] = -20;
    motion.X.set(motion.parameters.tip, at.X_TIP);
    expect(motion.advance(1, { step: () => motion.time < 0.05, event: () => true })).toBe("ended");
    expect(motion.time).toBeLessThan(0.06);
    motion.X[at.X_VELOCITY] = Number.NaN;
    expect(motion.advance(1, unwatched)).toBe("not finite");
  });
});

describe("zones of air", () => {
  const axes = socketAxes(testSocket().restAxis_H);
  const missOf = (zones?: AirZones): { right: number; up: number } => {
    const socket = testSocket({ dragArea: 0.5 });
    const run = new HookonRun(testPair({ socket, ...(zones === undefined ? {} : { zones }) }));
    const row = new Float64Array(HOOKON_COLUMNS.length);
    run.run(1, 0, row, straightStart(axes, { distance: 1.5, closure: 1.5, right: 0.05, up: 0 }));
    return { right: row[COLUMN.missRight_m], up: row[COLUMN.missUp_m] };
  };
  const still = missOf();

  it("a bow wave pushes the socket, a wake the aircraft", () => {
    const wave = missOf({
      add(_time, _fromHinge, p_MoPh_H, _aircraft, atSocket) {
        const distance = Math.hypot(...p_MoPh_H);
        atSocket[1] = 20 * Math.exp(-distance);
      },
    });
    // the mouth goes right: the head is left of it
    expect(wave.right).toBeLessThan(still.right - 5e-4);
    const wake = missOf({
      add(_time, _fromHinge, _p, atAircraft) {
        atAircraft[2] = 1;
      },
    });
    // air that goes down takes the aircraft down
    expect(wake.up).toBeLessThan(still.up - 0.02);
  });

  it("zones of nothing change nothing", () => {
    const none = missOf({ add() {} });
    expectClose(none.up, still.up, { atol: 0, why: "the same bytes" });
    expect(none.right).toBe(still.right);
  });
});
