import { beforeAll, describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { loadDemo } from "../../../test/support/load-demo.ts";
import { hashInputs, recordReads } from "../../inputs/index.ts";
import { integrate } from "../../math/ode/index.ts";
import { surfaceInputs } from "../../physics/bodies/index.ts";
import { cutLoop, EFFECTORS, SIGNALS } from "../../physics/pilot/index.ts";
import { type HoldPartContext, operatingPoint, PointModel, readHoldInputs, worstDamping } from "../hold/index.ts";
import { heldAt, plantAt } from "./attachments.ts";
import { type HoldControl, runControl } from "./index.ts";
import { judgeLoop, openLoop } from "./loops.ts";
import { learnt, pilotLoop } from "./pilots.ts";
import { channelsOf, readControl } from "./settings.ts";
import { Excursion, upset } from "./simulate.ts";
import { isLatched } from "./types.ts";

/** Context of the part without the modes, which it does not use. */
function contextOf(variant: string, set: string[] = []): HoldPartContext {
  const loaded = loadDemo(variant, set);
  const reads = () => recordReads(loaded);
  const { inputs, groups } = readHoldInputs(reads);
  return {
    ...{ variant, inputs, groups, reads, seed: 1, step: () => {} },
    base: {} as HoldPartContext["base"],
    findings: { study: "hold", version: "test", seed: 1, hash: (paths) => hashInputs(loaded, paths) },
  };
}
function at(variant: string, set: string[] = [], mass = "full") {
  const { inputs, reads } = contextOf(variant, set);
  const settings = readControl(reads)!;
  return { inputs, settings, point: operatingPoint(inputs, inputs.conditions[0], mass) };
}
const SHIFT = Math.LN2 / 20;

let revA: HoldControl;
let revB: NonNullable<ReturnType<typeof runControl>>;
beforeAll(() => {
  revA = runControl(contextOf("Rev A"))!.result;
  revB = runControl(contextOf("Rev B"))!;
}, 120_000);

describe("loops of the demo pair", () => {
  it("are judged alike by roots with Padé and by the exact count, stable or not", () => {
    for (const { loops } of [revA, revB.result]) {
      for (const loop of loops) {
        const { growingRoots, growingRootsExact } = loop;
        expect({ growingRootsExact, loop }).toEqual({ growingRootsExact: growingRoots, loop });
      }
    }
    expect(revA.loops.some(({ stable }) => !stable)).toBe(true);
    expect(revB.result.loops.every(({ stable }) => stable)).toBe(true);
  });

  it("go unstable where their delay margin says, whichever surface and state", () => {
    for (const state of ["free", "single point"] as const) {
      for (const effector of EFFECTORS) {
        const judge = (delay: number) => {
          const { inputs, settings, point } = at("Rev B", [`control.actuators.${effector}.delay=${delay} s`]);
          const plant = plantAt(inputs, point, state)!.plant;
          const channels = channelsOf(settings, settings.gains[state === "free" ? "free" : "hooked"]);
          return judgeLoop(openLoop(cutLoop(plant, channels, effector, 5), 5), 1e-3);
        };
        const { delayMargin } = judge(0.05).margins;
        expect(judge(0.05 + 0.97 * delayMargin!).growing, `${state} ${effector}`).toBe(0);
        expect(judge(0.05 + 1.03 * delayMargin!).growing, `${state} ${effector}`).toBe(2);
      }
    }
  });

  it("go unstable where their gain margin says", () => {
    const judge = (factor: number) => {
      const gains = [`rollGain=${0.8 * factor}`, `rateGain=${0.25 * factor} s`];
      const set = gains.map((gain) => `control.gains.hooked.rollHold.${gain}`);
      const { inputs, settings, point } = at("Rev B", set);
      const channels = channelsOf(settings, settings.gains.hooked);
      return judgeLoop(
        openLoop(cutLoop(plantAt(inputs, point, "single point")!.plant, channels, "aileron", 5), 5),
        1e-3,
      );
    };
    const { gainIncrease } = judge(1).margins;
    expect(judge(0.98 * gainIncrease!).growing).toBe(0);
    expect(judge(1.02 * gainIncrease!).growing).toBe(2);
  });

  it("meet free what they do not meet hooked, or the other way round: the two states are two plants", () => {
    const margin = (state: string, loop: string): number =>
      revB.result.loops.find(
        (each) => each.state === state && each.gains === "free" && each.loop === loop && each.mass === "full",
      )!.gainIncrease_1!;
    expect(Math.abs(Math.log(margin("free", "aileron") / margin("single point", "aileron")))).toBeGreaterThan(0.2);
    // Rev A: neither set holds its pitch; that of free flight only just, and with less of its margin
    const pitch = revA.loops.filter((each) => each.state === "single point" && each.loop === "elevator");
    expect(pitch.filter((each) => each.gains === "hooked").every((each) => !each.stable)).toBe(true);
    expect(
      Math.min(...pitch.filter((each) => each.gains === "free").map((each) => each.phaseMargin_deg!)),
    ).toBeLessThan(10);
  });
});

describe("pilot of crossover type", () => {
  it("crosses where the pair says, with the slope of an integrator, in the state that was learnt", () => {
    const { inputs, settings, point } = at("Rev B");
    const of = plantAt(inputs, point, "free")!;
    for (const axis of ["pitch", "bank"] as const) {
      const pilot = learnt(of, settings, "free", axis)!;
      expectClose(pilot.slopeReached, -1, { atol: 1e-9, why: "rule, lag and lead within their limits" });
      const { judged } = pilotLoop(of, settings, "free", axis, pilot, SHIFT);
      const crossover = judged.margins.gainCrossings.find(
        ({ omega }) => Math.abs(omega - settings.pilot.crossover[axis]) < 1e-6,
      );
      expect(crossover, axis).toBeDefined();
    }
  });

  it("with more delay comes nearer to −1, until the loop oscillates", () => {
    const resonance = (delay: number): number | null => {
      const { inputs, settings, point } = at("Rev B", [`control.pilot.delay=${delay} s`]);
      const of = plantAt(inputs, point, "free")!;
      return pilotLoop(of, settings, "free", "bank", learnt(of, settings, "free", "bank")!, SHIFT).peak?.value ?? null;
    };
    const peaks = [0.1, 0.2, 0.3, 0.4].map(resonance);
    for (let i = 1; i < peaks.length; i++) expect(peaks[i]).toBeGreaterThan(peaks[i - 1]!);
    expect(resonance(1)).toBeNull();
  });

  it("does not cure Rev A in pitch, which grows without a pilot too", () => {
    const hooked = revA.pilots.filter((each) => each.state === "single point");
    for (const each of hooked.filter(({ axis }) => axis === "pitch")) {
      expect(each.stable).toBe(false);
      expect(each.growsWithout).toBe(true);
    }
    // the longitudinal growth is no fault of the loop in bank
    expect(
      hooked.filter(({ axis, tunedFor }) => axis === "bank" && tunedFor === "free").every(({ stable }) => stable),
    ).toBe(true);
  });
});

describe("what is not there", () => {
  it("is said: a surface that moves nothing cannot be learnt, a state without trim is named", () => {
    const dead = ["roll.Claileron=0 1/rad", "yaw.Cnaileron=0 1/rad"].map((each) => `carried.airloads.${each}`);
    const { inputs, settings, point } = at("Rev B", dead);
    expect(learnt(plantAt(inputs, point, "free")!, settings, "free", "bank")).toBeNull();
    const { result, findings } = runControl(contextOf("Rev B", ["carried.airloads.pitch.Cm0=2"]))!;
    expect(result.noTrim.filter(({ state }) => !isLatched(state))).toHaveLength(6);
    const there = [...result.loops, ...result.failures, ...result.pilots];
    expect(there.filter(({ state }) => !isLatched(state))).toEqual([]);
    const said = findings.find(({ id }) => id === "hold.hook.control.free.no-trim")!;
    expect(said.verdict).toBe("not analysed");
    expect(said.note).toBe("no trim at full, return, empty");
    expect(findings.find(({ id }) => id.endsWith("roll-hold.none"))!.note).toBe("no trim in the band");
  });
});

describe("need of the roll hold", () => {
  it("without any function is what the modes of the base say", () => {
    const { inputs } = at("Rev B");
    const { none } = revB.result.rollHold[0];
    const speed = revB.result.rollHold[0].airspeed_m_s_EAS[5];
    const worst = ["full", "return", "empty"].map((mass) => {
      const { point } = at("Rev B", [], mass);
      const model = new PointModel(inputs, { ...point, airspeed: { kind: "EAS", value: speed } });
      return worstDamping(model.modes(), "lateral", 20)!;
    });
    expectClose(none.dampingRatio[5]!, Math.min(...worst), { rtol: 1e-9, why: "the same model" });
  });

  it("is told from what the other functions do", () => {
    const { none, alone, others } = revB.result.rollHold[0];
    expect(none.worst!.value).toBeLessThan(0.03);
    expect(alone!.worst!.value).toBeGreaterThan(0.03);
    const findings = new Map(revB.findings.map((each) => [each.id, each]));
    expect(findings.get("hold.hook.control.roll-hold.none")!.verdict).toBe("not met");
    expect(findings.get("hold.hook.control.roll-hold.alone")!.verdict).toBe("met");
    const said = findings.get("hold.hook.control.roll-hold.others")!.note!;
    expect(said.includes("not needed")).toBe(others.worst!.value >= 0.03);
  });
});

describe("failures", () => {
  const cases = (result: HoldControl) => result.failures;

  it("name a function needed only where its set holds the plane and the rest does not", () => {
    const margin = (result: HoldControl, each: HoldControl["failures"][number]) =>
      result.modes.filter(
        ({ mass, state, gains }) =>
          mass === each.mass && state === each.state && gains === (state === "free" ? "free" : "hooked"),
      );
    for (const result of [revA, revB.result]) {
      for (const each of cases(result).filter(({ needed }) => needed)) {
        expect(margin(result, each).some(({ meetsCriteria }) => meetsCriteria)).toBe(true);
      }
    }
    // nothing that moves the rudder or aileron is needed for a pitch that no set holds
    const hooked = cases(revA).filter(({ state }) => state === "single point");
    expect(hooked.filter(({ function: name }) => name === "yaw damper").some(({ needed }) => needed)).toBe(false);
  });

  it("to the right and to the left take the same time, for the pair is symmetric", () => {
    for (const result of [revA, revB.result]) {
      const hardOver = cases(result).filter(
        ({ kind, function: name, state }) => kind === "hard-over" && name !== "pitch hold" && !state.startsWith("left"),
      );
      expect(hardOver.length).toBeGreaterThan(0);
      for (let i = 0; i < hardOver.length; i += 2) {
        const [right, left] = [hardOver[i], hardOver[i + 1]];
        expect(right.function).toBe(left.function);
        if (right.timeToLimit_s === null || left.timeToLimit_s === null)
          expect(right.timeToLimit_s).toBe(left.timeToLimit_s);
        else expectClose(right.timeToLimit_s, left.timeToLimit_s, { rtol: 1e-4, why: "tolerance of the integration" });
      }
    }
  });

  it("at the pins are those of needed functions at every mass, and runaways of the others at one", () => {
    for (const result of [revA, revB.result]) {
      const held = cases(result).filter(({ state }) => isLatched(state));
      expect(held.length).toBeGreaterThan(0);
      for (const { needed, kind, upset_1 } of held) {
        const begins = kind === "loss" || kind === "wrong gain set";
        if (begins) expect(needed).toBe(true);
        expect(upset_1 === null).toBe(!begins);
      }
      for (const state of new Set(held.map((each) => each.state))) {
        const spare = held.filter((each) => each.state === state && !each.needed);
        expect(new Set(spare.map(({ mass }) => mass)).size).toBeLessThanOrEqual(1);
      }
      expect(cases(result).every(({ state, upset_1 }) => isLatched(state) || upset_1 === null || upset_1 === 1)).toBe(
        true,
      );
    }
    // one latch couples the planes, and the longitudinal one then needs the roll hold
    expect(
      cases(revA).some(
        ({ state, function: name, needed }) => state === "left aft pin" && name === "roll hold" && needed,
      ),
    ).toBe(true);
  });

  it("leave time to release exactly when recognition and release are shorter than the time to the limit", () => {
    const { recognition_s, release_s } = revB.result.failureSettings;
    for (const result of [revA, revB.result]) {
      for (const { state, timeToLimit_s, releaseInTime } of cases(result)) {
        if (state === "free") expect(releaseInTime).toBeNull();
        else expect(releaseInTime).toBe(timeToLimit_s === null || timeToLimit_s > recognition_s + release_s);
      }
    }
  });

  it("are acted upon only if they reach a limit, and too late only if that is before the action", () => {
    const { recognition_s, release_s } = revB.result.failureSettings;
    for (const result of [revA, revB.result]) {
      for (const each of cases(result)) {
        if (each.timeToLimit_s === null) {
          expect(each.recoveries).toEqual([]);
          expect(each.largestShare_1).toBeLessThan(1);
          continue;
        }
        expect(each.recoveries.length).toBeGreaterThan(0);
        for (const { action, outcome } of each.recoveries) {
          const begins = recognition_s + (action === "release" ? release_s : 0);
          expect(outcome === "too late").toBe(each.timeToLimit_s <= begins);
        }
        expect(each.recoveries.some(({ action }) => action === "switch off")).toBe(each.kind !== "loss");
        expect(each.recoveries.some(({ action }) => action === "release")).toBe(each.state !== "free");
      }
    }
  });

  it("carry time histories for the worst of each state, which end at its limit", () => {
    const carried = cases(revB.result).filter(({ histories }) => histories.length > 0);
    expect(new Set(carried.map(({ state }) => state))).toEqual(
      new Set(["free", "single point", "left aft pin, stowed", "three point, stowed"]),
    );
    expect(carried).toHaveLength(4);
    for (const { state, histories, timeToLimit_s } of carried) {
      const own = cases(revB.result).filter((each) => each.state === state && each.timeToLimit_s !== null);
      expect(timeToLimit_s).toBe(Math.min(...own.map((each) => each.timeToLimit_s!)));
      expectClose(histories[0].time_s.at(-1)!, timeToLimit_s!, { rtol: 1e-4, why: "five digits are kept" });
    }
  });

  it("of the aileron, free, run as the linear plant under the same surface does", () => {
    const { inputs, settings, point } = at("Rev B");
    const { plant } = plantAt(inputs, point, "free")!;
    const { travel, rate, lag } = settings.actuators.aileron;
    const n = plant.states;
    const bank = SIGNALS.indexOf("bank");
    const run = integrate({
      derivative: (_t, x, out) => {
        for (let i = 0; i < n; i++) {
          out[i] = plant.B[i * 3 + 1] * x[n];
          for (let j = 0; j < n; j++) out[i] += plant.A[i * n + j] * x[j];
        }
        out[n] = Math.min(rate, (travel - x[n]) / lag);
      },
      y0: new Float64Array(n + 1),
      ...{ from: 0, to: 5, relativeTolerance: 1e-8, absoluteTolerance: 1e-10, maxSteps: 10_000 },
      events: [
        {
          value: (_t, x) => {
            let angle = 0;
            for (let j = 0; j < n; j++) angle += plant.C[bank * n + j] * x[j];
            return angle - settings.failures.bankLimit;
          },
          terminal: true,
        },
      ],
    });
    expect(run.outcome).toBe("event");
    const simulated = cases(revB.result).find(
      (each) =>
        each.mass === "full" && each.state === "free" && each.function === "roll hold" && each.kind === "hard-over",
    )!;
    // the other surfaces work in the simulation; bank of 30° is not small
    expectClose(simulated.timeToLimit_s!, run.t, { rtol: 0.05, why: "yaw damper at work, large angle" });
  });
});

describe("excursions", () => {
  it("see an upset about the probe as what it is, with the probe still in the socket", () => {
    const { inputs, point } = at("Rev B");
    const held = heldAt(inputs, point, "single point", surfaceInputs);
    const reference = plantAt(inputs, point, "single point")!.reference;
    const state = upset(held, reference, 0.02, -0.05);
    const excursion = new Excursion(held, reference, { pitch: 1, bank: 1, load: 1e9 });
    excursion.at(held.state);
    expectClose(excursion.pitch, 0, { atol: 1e-12, why: "trim" });
    expectClose(excursion.load, 0, { atol: 1e-3, why: "trim to 1e-12 of the weight" });
    excursion.at(state);
    expectClose(excursion.pitch, 0.02, { atol: 1e-12, why: "upset" });
    expectClose(excursion.bank, -0.05, { atol: 1e-12, why: "upset" });
    held.motion.derivative(0, state, new Float64Array(held.motion.stateCount));
    // the probe tip has not moved: no recovery force of the joint, which would be of order m·κ²·gap
    expect(excursion.load).toBeLessThan(20e3);
  });
});
