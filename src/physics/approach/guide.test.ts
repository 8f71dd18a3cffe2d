import { describe, expect, it } from "vitest";
import { approachPlant, emptyTruth, type Plant } from "../../../test/support/approach-plant.ts";
import { approachSettings, INNER, OUTER } from "../../../test/support/approach-settings.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { DomainError } from "../../math/errors.ts";
import { controlPlant, freeAircraft, surfaceInputs } from "../bodies/index.ts";
import {
  APPROACH_PHASES,
  type ApproachSettings,
  approachGuide,
  emptyCommands,
  type InnerGains,
  learntPilot,
  type OuterGains,
} from "./index.ts";

const AT = [-6, 0, 1] as const;
/** Navigation as an instrument gives it: late by 0.1 s, 25 a second. */
const late = { interval: 0.04, latency: 0.1 };
const PLANTS = [
  [95, "full"],
  [105, "full"],
  [95, "empty"],
  [105, "return"],
] as const;

function settingsOf(plant: Plant, change: Partial<ApproachSettings> = {}): ApproachSettings {
  const settings = approachSettings(plant.trim, change);
  return { ...settings, navigation: { ...settings.navigation, ...late } };
}
/** Stays at the pre-contact position. */
function waiting(settings: ApproachSettings): ApproachSettings {
  return { ...settings, schedule: { ...settings.schedule, settled: { distance: 1e-9, speed: 1, time: 1 } } };
}

/** Starts off the pre-contact position and says when it comes within 10 cm for good, and how far past it went. */
function step(plant: Plant, settings: ApproachSettings, off: readonly [number, number, number]) {
  const guide = approachGuide(waiting(settings));
  guide.restart(1, 0);
  plant.place([AT[0] + off[0], AT[1] + off[1], AT[2] + off[2]]);
  let settled = 0;
  let past = 0;
  const size = Math.hypot(...off);
  plant.fly(guide, 20, ({ time, p_RestPh_H: p }) => {
    const error = [p[0] - AT[0], p[1] - AT[1], p[2] - AT[2]];
    if (Math.hypot(...error) > 0.1) settled = time;
    past = Math.max(past, -error.reduce((sum, e, i) => sum + (e * off[i]) / size, 0));
  });
  return { settled, past };
}

/** Flies to the mouth: place and velocity of the probe there. */
function closeIn(plant: Plant, settings: ApproachSettings, index: number, off: readonly [number, number, number]) {
  const guide = approachGuide(settings);
  guide.restart(1, index);
  plant.place([AT[0] + off[0], AT[1] + off[1], AT[2] + off[2]]);
  const hit = { time: Number.NaN, miss: Number.NaN, closure: Number.NaN };
  plant.fly(guide, 45, ({ time, p_RestPh_H: p, v_RestPh_H: v }, { phase }) => {
    if (Number.isNaN(hit.time) && p[0] >= 0 && APPROACH_PHASES[phase] === "closing") {
      Object.assign(hit, { time, miss: Math.hypot(p[1], p[2]), closure: v[0] });
    }
  });
  return hit;
}

describe("the tuned autopilot on the free aircraft in smooth air", () => {
  it.each(PLANTS)("from 5 m off, at %d m/s, %s: within 10 cm in 9 s, 15 cm past at most", (speed, mass) => {
    const plant = approachPlant({ equivalentAirspeed: speed, mass });
    for (const off of [
      [-5, 0, 0],
      [5, 0, 0],
      [0, 5, 0],
      [0, 0, 5],
      [0, 0, -5],
      [3, -3, 3],
    ] as const) {
      const { settled, past } = step(plant, settingsOf(plant), off);
      expect(settled, `settled from ${off.join()}`).toBeLessThan(9);
      expect(past, `past from ${off.join()}`).toBeLessThan(0.15);
    }
  });

  it.each(PLANTS)("comes to the mouth within 10 cm at the scheduled closure, at %d m/s, %s", (speed, mass) => {
    const plant = approachPlant({ equivalentAirspeed: speed, mass });
    const settings = settingsOf(plant);
    for (const off of [
      [0, 0, 0],
      [0, 5, 0],
      [-3, 3, 3],
    ] as const) {
      const { time, miss, closure } = closeIn(plant, settings, 0, off);
      expect(time).toBeLessThan(20);
      expect(miss).toBeLessThan(0.1);
      const line = (settings.schedule.closure * 6) / Math.hypot(6, 1);
      expect(Math.abs(closure - line)).toBeLessThan(0.05);
    }
  });

  it("keeps margins: every gain doubled or halved at the surface, or 0.1 s later, still comes to rest", () => {
    const scaled = (by: number): Partial<ApproachSettings> => {
      const inner = Object.fromEntries(Object.entries(INNER).map(([key, value]) => [key, value * by]));
      return { controller: { kind: "autopilot", outer: OUTER, inner: inner as unknown as InnerGains, delay: 0.04 } };
    };
    const slower: Partial<ApproachSettings> = {
      controller: { kind: "autopilot", outer: OUTER, inner: INNER, delay: 0.14 },
    };
    for (const speed of [95, 105]) {
      const plant = approachPlant({ equivalentAirspeed: speed });
      for (const change of [scaled(2), scaled(0.5), slower]) {
        for (const off of [
          [0, 3, 0],
          [0, 0, 3],
        ] as const) {
          expect(step(plant, settingsOf(plant, change), off).settled).toBeLessThan(16);
        }
      }
    }
  });

  it("is unstable where the outer loops are made four times as fast: the test above can fail", () => {
    const plant = approachPlant();
    const outer: OuterGains = { ...OUTER, lateral: 4 * OUTER.lateral, lateralSpeed: 4 * OUTER.lateralSpeed };
    const change: Partial<ApproachSettings> = { controller: { kind: "autopilot", outer, inner: INNER, delay: 0.14 } };
    expect(step(plant, settingsOf(plant, change), [0, 3, 0]).settled).toBeGreaterThan(16);
  });
});

describe("a pilot who has learnt the aircraft", () => {
  it.each([95, 105])("holds the pre-contact position at %d m/s, worse than the autopilot", (equivalentAirspeed) => {
    const plant = approachPlant({ equivalentAirspeed });
    const free = freeAircraft({ ...longshore({ equivalentAirspeed }), law: surfaceInputs, thrust: "trim" });
    const actuator = { lag: 0.06, rate: 0.7, travel: 0.1, delay: 0 };
    const learnt = learntPilot(controlPlant(free.motion, free.state).plant, {
      actuators: { elevator: actuator, aileron: actuator },
      inner: INNER,
      crossover: { pitch: 0.8, bank: 1.2 },
      ...{ neuromuscularLag: 0.1, largestLead: 2.5, largestLag: 10 },
    });
    const outer: OuterGains = {
      ...OUTER,
      ...{ forward: 0.25, lateral: 0.25, vertical: 0.2, forwardSpeed: 0.6, lateralSpeed: 0.6, path: 0.4 },
    };
    const noise = { remnant: 0.005, placeThreshold: 0.05, speedThreshold: 0.03 };
    const hands = { ...learnt, delay: 0.3, ...noise };
    const settings = waiting(settingsOf(plant, { controller: { kind: "pilot", outer, inner: INNER, hands } }));
    const guide = approachGuide(settings);
    guide.restart(1, 0);
    plant.place([AT[0] - 2, AT[1] + 2, AT[2] + 2]);
    let worst = 0;
    let square = 0;
    plant.fly(guide, 60, ({ time, p_RestPh_H: p }) => {
      if (time < 30) return;
      const error = Math.hypot(p[0] - AT[0], p[1] - AT[1], p[2] - AT[2]);
      worst = Math.max(worst, error);
      square += error * error * guide.tick;
    });
    expect(worst).toBeLessThan(1);
    expect(Math.sqrt(square / 30)).toBeGreaterThan(0.01);
  });
});

describe("commands", () => {
  const plant = approachPlant();
  const rest = () => {
    const truth = emptyTruth();
    truth.p_MoPh_H.set(AT);
    truth.p_RestPh_H.set(AT);
    truth.pitch = plant.trim.alpha;
    return truth;
  };
  const commandsAt = (change: (truth: ReturnType<typeof rest>) => void, settings = approachSettings(plant.trim)) => {
    const truth = rest();
    change(truth);
    const guide = approachGuide(settings);
    guide.restart(1, 0);
    const out = emptyCommands();
    for (let k = 0; k < 5; k++) guide.step({ ...truth, time: k * guide.tick }, out);
    return out;
  };

  it("are those of trim at rest in place", () => {
    const out = commandsAt(() => {});
    for (const key of ["elevator", "aileron", "rudder", "thrust"] as const)
      expect(out[key]).toBeCloseTo(plant.trim[key], 9);
    expect(out.boomRate).toBe(0);
    expect(APPROACH_PHASES[out.phase]).toBe("pre-contact");
  });

  it("have the signs that take an error out", () => {
    const { trim } = plant;
    const off = (i: number, by: number) => (truth: ReturnType<typeof rest>) => {
      truth.p_RestPh_H[i] += by;
    };
    const adding =
      (what: "pitch" | "bank" | "pitchRate" | "rollRate" | "yawRate", by: number) =>
      (truth: ReturnType<typeof rest>) => {
        truth[what] += by;
      };
    expect(commandsAt(off(0, -1)).thrust).toBeGreaterThan(trim.thrust);
    expect(commandsAt(off(1, -1)).aileron).toBeGreaterThan(0); // left of the line: roll right
    expect(commandsAt(off(2, 1)).elevator).toBeLessThan(trim.elevator); // below: nose up
    expect(commandsAt(adding("pitch", 0.02)).elevator).toBeGreaterThan(trim.elevator);
    expect(commandsAt(adding("pitchRate", 0.1)).elevator).toBeGreaterThan(trim.elevator);
    expect(commandsAt(adding("bank", 0.1)).aileron).toBeLessThan(0);
    expect(commandsAt(adding("rollRate", 0.1)).aileron).toBeLessThan(0);
    expect(commandsAt(adding("yawRate", 0.1)).rudder).toBeGreaterThan(0);
  });

  it("aim at the mouth as it moves, or at its place at rest", () => {
    const moved = (truth: ReturnType<typeof rest>) => {
      truth.p_MoPh_H[2] += 1;
    };
    const settings = approachSettings(plant.trim);
    const mouth = { ...settings, schedule: { ...settings.schedule, aim: "mouth" as const } };
    expect(commandsAt(moved, settings).elevator).toBeCloseTo(plant.trim.elevator, 9);
    expect(commandsAt(moved, mouth).elevator).toBeLessThan(plant.trim.elevator);
  });

  it("after lock are the hooked gains about trim, or the controls held", () => {
    const locked = (truth: ReturnType<typeof rest>) => {
      Object.assign(truth, { locked: true, tripped: true, bank: 0.1, pitchRate: 0.1, rollRate: 0.2 });
    };
    const { trim } = plant;
    const gains = commandsAt(locked);
    expect(APPROACH_PHASES[gains.phase]).toBe("hooked");
    expect(gains.elevator).toBeCloseTo(trim.elevator + 0.2 * 0.1, 12);
    expect(gains.aileron).toBeCloseTo(-0.8 * 0.1 - 0.25 * 0.2, 12);
    expect(gains.thrust).toBe(0);
    const held = commandsAt(locked, approachSettings(trim, { hooked: { gains: null, thrust: 500 } }));
    expect([held.elevator, held.aileron, held.rudder, held.thrust]).toEqual([trim.elevator, 0, 0, 500]);
  });

  it("breaking away close the throttle and push the nose down after the reaction", () => {
    const settings = approachSettings(plant.trim);
    const breakaway = { ...settings.breakaway, commandedAt: 0, reaction: 0.1 };
    const early = commandsAt(() => {}, { ...settings, breakaway: { ...breakaway, reaction: 1 } });
    expect(early.thrust).toBeCloseTo(plant.trim.thrust, 9);
    const truth = rest();
    const guide = approachGuide({ ...settings, breakaway });
    guide.restart(1, 0);
    const out = emptyCommands();
    for (let k = 0; k < 12; k++) guide.step({ ...truth, time: k * guide.tick }, out);
    expect(APPROACH_PHASES[out.phase]).toBe("breakaway");
    expect(out.givenUp).toBe(true);
    expect(out.thrust).toBe(0);
    expect(out.elevator).toBeGreaterThan(plant.trim.elevator);
  });

  it("of a sample depend on seed and index alone", () => {
    const settings = settingsOf(plant);
    const noisy: ApproachSettings = {
      ...settings,
      navigation: {
        ...settings.navigation,
        ...{ placeNoise: 0.03, velocityNoise: 0.03, bias: [0.05, 0.05, 0.05], attitudeNoise: 1e-3, rateNoise: 1e-3 },
        dropouts: { meanBetween: 3, meanLength: 0.3 },
      },
    };
    const guide = approachGuide(noisy);
    const take = (seed: number, index: number): number[] => {
      guide.restart(seed, index);
      plant.place(AT);
      const list: number[] = [];
      plant.fly(guide, 4, (_, { elevator, aileron }) => list.push(elevator, aileron));
      return list;
    };
    const first = take(2, 7);
    expect(take(2, 8)).not.toEqual(first);
    expect(take(3, 7)).not.toEqual(first);
    expect(take(2, 7)).toEqual(first);
  });

  it("refuses negative gains, a delay of part of a tick, thrust limits in the wrong order", () => {
    const settings = approachSettings(plant.trim);
    const build = (change: Partial<ApproachSettings>) => () => approachGuide({ ...settings, ...change });
    const controller = { kind: "autopilot", outer: OUTER, inner: INNER, delay: 0.04 } as const;
    expect(build({ controller: { ...controller, inner: { ...INNER, bank: -1 } } })).toThrow(DomainError);
    expect(build({ controller: { ...controller, outer: { ...OUTER, lateral: -1 } } })).toThrow("lateral");
    expect(build({ controller: { ...controller, delay: 0.05 } })).toThrow("ticks");
    expect(build({ thrustLimits: { least: 1, most: 0 } })).toThrow("thrust");
  });
});
