import { describe, expect, it } from "vitest";
import { approachSettings } from "../../../test/support/approach-settings.ts";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { StraightPath } from "./path.ts";
import { Schedule } from "./schedule.ts";
import type { ApproachSettings, ApproachTrim, BreakawaySettings, ScheduleSettings } from "./settings.ts";
import { ABORT_REASONS, APPROACH_PHASES } from "./types.ts";

const TICK = 0.02;
const trim: ApproachTrim = {
  ...{ alpha: 0.07, liftAlpha: 0.11, elevator: 0, aileron: 0, rudder: 0, thrust: 2000, mass: 2600, trueAirspeed: 110 },
};
const base: ApproachSettings = approachSettings(trim);

interface Flight {
  readonly schedule?: Partial<ScheduleSettings>;
  readonly breakaway?: Partial<BreakawaySettings>;
  /** Error of an aircraft that otherwise is where it is to be. */
  readonly off?: (time: number, plan: Schedule) => readonly [number, number, number];
  readonly age?: (time: number) => number;
  readonly locked?: (plan: Schedule) => boolean;
  readonly time?: number;
}

/** Flies an aircraft that follows the demanded point, and lists the phases with their times. */
function fly(flight: Flight): { phases: [string, number][]; plan: Schedule } {
  const plan = new Schedule({ ...base.schedule, ...flight.schedule }, { ...base.breakaway, ...flight.breakaway }, TICK);
  plan.restart();
  const place = plan.path.point.slice();
  const velocity = new Float64Array(3);
  const phases: [string, number][] = [];
  for (let k = 0; k * TICK < (flight.time ?? 60); k++) {
    const time = k * TICK;
    const off = flight.off?.(time, plan) ?? [0, 0, 0];
    const seen = { place: place.map((x, i) => x + off[i]), velocity, age: flight.age?.(time) ?? 0 };
    const locked = flight.locked?.(plan) ?? false;
    plan.step(time, seen, { touching: false, tripped: locked, locked });
    place.set(plan.path.point);
    velocity.set(plan.path.velocity);
    const name = APPROACH_PHASES[plan.phase];
    if (phases.at(-1)?.[0] !== name) phases.push([name, time]);
  }
  return { phases, plan };
}
const names = ({ phases }: { phases: [string, number][] }): string[] => phases.map(([name]) => name);

describe("path along a line", () => {
  it("takes the time of a trapezoid, keeps to speed and acceleration and stops at the end", () => {
    const path = new StraightPath(0.4);
    path.begin([-10, 0, 0], [0, 0, 0], [0, 0, 0]);
    let time = 0;
    let last = 0;
    while (path.left > 0 && time < 100) {
      path.step(1.2, TICK);
      time += TICK;
      expect(path.speed).toBeLessThanOrEqual(1.2 + 1e-12);
      expect(Math.abs(path.speed - last)).toBeLessThanOrEqual(0.4 * TICK + 1e-9);
      last = path.speed;
      if (path.left < 1e-6) break;
    }
    expectClose(time, 10 / 1.2 + 1.2 / 0.4, { atol: 10 * TICK, why: "steps of time at the end of the braking" });
    expectClose(path.point[0], 0, { atol: 1e-6, why: "stops at the end" });
  });

  it("turns first when it begins with speed away from the end", () => {
    const path = new StraightPath(0.5);
    path.begin([0, 0, 0], [1, 0, 0], [-5, 0, 0]);
    expect(path.speed).toBe(-1);
    let farthest = 0;
    for (let k = 0; k < 1000; k++) {
      path.step(1, TICK);
      farthest = Math.max(farthest, path.point[0]);
    }
    expectClose(farthest, 1 / (2 * 0.5), { atol: 0.02, why: "v²/2a, to half a tick of way" });
    expectClose(path.point[0], -5, { atol: 1e-3, why: "arrives" });
    expect(() => new StraightPath(0)).toThrow(DomainError);
  });
});

describe("schedule", () => {
  it("goes from observation to pre-contact to closing, each once settled, and is hooked at the lock", () => {
    const result = fly({
      schedule: { start: "observation" },
      locked: (plan) => plan.now.closing && plan.now.remaining < -0.3,
    });
    expect(names(result)).toEqual(["observation", "pre-contact", "closing", "hooked"]);
    const at = Object.fromEntries(result.phases);
    expectClose(at["pre-contact"], base.schedule.settled.time, { atol: 2 * TICK, why: "begins in place" });
    const way = Math.hypot(14, 3);
    const { transit, acceleration: a, closure } = base.schedule;
    const transfer = way / transit + transit / a + base.schedule.settled.time;
    expectClose(at.closing - at["pre-contact"], transfer, {
      atol: 0.4,
      why: "trapezoid, then settled; end of braking",
    });
    const closing = (Math.hypot(6, 1) + 0.3) / closure + 0.5 * (closure / a);
    expectClose(at.hooked - at.closing, closing, { atol: 3 * TICK, why: "start of a trapezoid, then constant; ticks" });
    expect(result.plan.attempt).toBe(1);
  });

  it("waits outside the alignment while far, and goes on when back", () => {
    const late = fly({
      off: (time) => (time > 3 && time < 13 ? [0, 0.18, 0] : [0, 0, 0]),
      time: 30,
      locked: (p) => p.now.remaining < -0.3,
    });
    const free = fly({ time: 30, locked: (p) => p.now.remaining < -0.3 });
    expect(names(late)).toEqual(names(free));
    const delay = late.phases.at(-1)![1] - free.phases.at(-1)![1];
    expect(delay).toBeGreaterThan(8);
    expect(delay).toBeLessThan(12);
  });

  it("gives up outside the gate, retreats, tries again, and gives up for good after the last attempt", () => {
    const off = (_: number, plan: Schedule): [number, number, number] =>
      plan.now.closing && plan.now.remaining < 1.4 ? [0, 0.3, 0] : [0, 0, 0];
    const result = fly({ off, schedule: { attempts: 2 }, time: 120 });
    expect(names(result)).toEqual(["pre-contact", "closing", "going around", "pre-contact", "closing", "going around"]);
    expect(ABORT_REASONS[result.plan.reason]).toBe("outside the gate");
    expect(result.plan.givenUp).toBe(true);
    expect(result.plan.attempt).toBe(2);
    expectClose(result.plan.path.point[0], base.schedule.observation[0], {
      atol: 0.01,
      why: "ends at the observation",
    });
  });

  it("passes the mouth and goes around when nothing trips", () => {
    const result = fly({ schedule: { through: 1 }, time: 20 });
    expect(names(result)).toEqual(["pre-contact", "closing", "going around"]);
    expect(ABORT_REASONS[result.plan.reason]).toBe("overrun");
  });

  it("breaks away by command after the reaction time, and stays away", () => {
    const result = fly({ breakaway: { commandedAt: 4, reaction: 0.8 }, time: 30 });
    expect(names(result)).toEqual(["pre-contact", "closing", "breakaway"]);
    expectClose(result.phases[2][1], 4.8, { atol: 1.5 * TICK, why: "one tick" });
    expect(ABORT_REASONS[result.plan.reason]).toBe("breakaway commanded");
    expect(result.plan.givenUp).toBe(true);
  });

  it("goes around when navigation is lost and breaks away when it stays lost", () => {
    const age = (time: number) => Math.max(0, time - 5);
    const around = fly({ age, breakaway: { dropout: 99 }, time: 7 });
    expect(names(around)).toEqual(["pre-contact", "closing", "going around"]);
    expect(ABORT_REASONS[around.plan.reason]).toBe("navigation lost");
    const away = fly({ age, breakaway: { dropout: 0.5, reaction: 0.3 }, time: 7 });
    expect(names(away)).toEqual(["pre-contact", "closing", "breakaway"]);
  });

  it.each<[Partial<ScheduleSettings>, string]>([
    [{ preContact: [1, 0, 0] }, "pre-contact"],
    [{ observation: [-3, 0, 0] }, "pre-contact"],
    [{ closure: 0 }, "closure"],
    [{ attempts: 0 }, "attempts"],
    [{ alignment: -1 }, "alignment"],
  ])("refuses %j", (change, word) => {
    expect(() => new Schedule({ ...base.schedule, ...change }, base.breakaway, TICK)).toThrow(DomainError);
    expect(() => new Schedule({ ...base.schedule, ...change }, base.breakaway, TICK)).toThrow(word);
  });
});
