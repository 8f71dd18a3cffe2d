import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { loadDemo } from "../../../test/support/load-demo.ts";
import { recordReads } from "../../inputs/index.ts";
import { surfaceInputs } from "../../physics/bodies/index.ts";
import { controlSystem, cutLoop, EFFECTORS, SIGNALS } from "../../physics/pilot/index.ts";
import { operatingPoint, pairAt, readHoldInputs } from "../hold/index.ts";
import { type ControlInputs, heldAt, plantAt, pointOf, statesOf } from "./attachments.ts";
import { authorityOf } from "./authority.ts";
import { judgeLoop, openLoop } from "./loops.ts";
import { channelsOf, readControl } from "./settings.ts";
import { boundedUpset, Excursion } from "./simulate.ts";
import { ATTACHMENT_STATES, type AttachmentState, isLatched } from "./types.ts";

const GROWTH = Math.LN2 / 20;
const LATCHED = ATTACHMENT_STATES.filter(isLatched);

function at(variant: string, set: string[] = [], mass = "full") {
  const loaded = loadDemo(variant, set);
  const reads = () => recordReads(loaded);
  const { inputs } = readHoldInputs(reads);
  const settings = readControl(reads)!;
  const latched = settings.latched!;
  return { inputs: { ...inputs, latched }, settings, point: operatingPoint(inputs, inputs.conditions[0], mass) };
}

const judged = (
  of: NonNullable<ReturnType<typeof plantAt>>,
  settings: ReturnType<typeof at>["settings"],
  order = 3,
) => {
  const channels = channelsOf(settings, settings.gains.hooked);
  return EFFECTORS.map((effector) => judgeLoop(openLoop(cutLoop(of.plant, channels, effector, order), order), GROWTH));
};

describe("aft pins without stiffness", () => {
  it.each(["left aft pin", "three point"] as const)(
    "at %s leave the plant and the margins of the single point",
    (state) => {
      const { inputs, settings, point } = at("Rev B");
      const { trim } = pairAt(inputs, point);
      const nothing = { along: 0, lateral: 0 };
      const pins = { ...inputs.latched.pins, stiffness: nothing, misfit: nothing, pitch: () => trim.alpha };
      const loose: ControlInputs = {
        ...inputs,
        latched: { ...inputs.latched, pins, socket: null, elevator: "pins unloaded" },
      };
      const single = judged(plantAt(inputs, point, "single point")!, settings);
      judged(plantAt(loose, point, state)!, settings).forEach(({ margins }, i) => {
        const other = single[i].margins;
        const why = "the same equations, trim found twice to 1e-9 of the weight";
        expectClose(margins.closest.distance, other.closest.distance, { rtol: 1e-5, why });
        if (other.gainIncrease !== null) expectClose(margins.gainIncrease!, other.gainIncrease, { rtol: 1e-5, why });
        if (other.phaseMargin !== null) expectClose(margins.phaseMargin!, other.phaseMargin, { rtol: 1e-4, why });
        if (other.delayMargin !== null) expectClose(margins.delayMargin!, other.delayMargin, { rtol: 1e-4, why });
      });
    },
  );

  it("approach them in proportion as they grow soft", () => {
    const { inputs, settings, point } = at("Rev B");
    const { trim } = pairAt(inputs, point);
    const single = judged(plantAt(inputs, point, "single point")!, settings)[1].margins.closest.distance;
    const off = [80, 40, 20].map((k) => {
      const stiffness = { along: k, lateral: k };
      const pins = { ...inputs.latched.pins, stiffness, structuralDamping: 0, pitch: () => trim.alpha };
      const soft: ControlInputs = {
        ...inputs,
        latched: { ...inputs.latched, pins, socket: null, elevator: trim.controls.elevator },
      };
      return judged(plantAt(soft, point, "three point")!, settings)[1].margins.closest.distance - single;
    });
    expectClose(off[0] / off[1], 2, { rtol: 0.05, why: "first order in the stiffness, itself small" });
    expectClose(off[1] / off[2], 2, { rtol: 0.05, why: "first order in the stiffness, itself small" });
  });
});

describe("planes", () => {
  const crossing = (state: AttachmentState): number => {
    const { inputs, point } = at("Rev B");
    const { plant, names } = plantAt(inputs, point, state)!;
    // what pitch and its rate do to the roll, against the largest that anything does
    const roll = names.indexOf("roll rate");
    const pitch = names.indexOf("pitch");
    const rate = names.indexOf("pitch rate");
    const row = (i: number) => plant.A.subarray(i * plant.states, (i + 1) * plant.states);
    const largest = (i: number): number => row(i).reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const across = Math.max(Math.abs(row(roll)[pitch]), Math.abs(row(roll)[rate]));
    return across / largest(roll);
  };

  it("stay apart at three points of a symmetric pair, which one latch couples", () => {
    for (const state of ["single point", "three point", "three point, stowed"] as const) {
      expect(crossing(state), state).toBeLessThan(1e-9);
    }
    expect(crossing("left aft pin")).toBeGreaterThan(1e-2);
  });

  it("of the elevator: it banks the aircraft at one latch and nowhere else", () => {
    const bank = (state: AttachmentState): number => {
      const { inputs, point } = at("Rev B");
      const { plant } = plantAt(inputs, point, state)!;
      const row = SIGNALS.indexOf("bank");
      // C·B, C·A·B, …: the first of a chain of rates that is not zero shows a way from the elevator to the bank
      let x: Float64Array = Float64Array.from({ length: plant.states }, (_, i) => plant.B[i * plant.inputs]);
      let most = 0;
      for (let power = 0; power < 3; power++) {
        let y = 0;
        let scale = 0;
        for (let j = 0; j < plant.states; j++) {
          y += plant.C[row * plant.states + j] * x[j];
          scale = Math.max(scale, Math.abs(x[j]));
        }
        most = Math.max(most, Math.abs(y) / scale);
        const next = new Float64Array(plant.states);
        for (let i = 0; i < plant.states; i++) {
          for (let j = 0; j < plant.states; j++) next[i] += plant.A[i * plant.states + j] * x[j];
        }
        x = next;
      }
      return most;
    };
    expect(bank("three point")).toBeLessThan(1e-8);
    expect(bank("left aft pin")).toBeGreaterThan(1e-4);
  });
});

describe("rest at the pins", () => {
  it.each(LATCHED)("at %s is one under every law: nothing moves, nothing is commanded", (state) => {
    const { inputs, settings, point } = at("Rev B", [], "return");
    const of = plantAt(inputs, point, state)!;
    const law = controlSystem(channelsOf(settings, settings.gains.hooked), of.reference, 3);
    const { motion, state: rest, tipForce, pins, trimmed } = heldAt(inputs, point, state, law);
    expect(trimmed).toBe(true);
    expect(pins).toHaveLength(state.startsWith("three") ? 2 : 1);
    const rate = new Float64Array(motion.stateCount);
    motion.derivative(0, rest, rate);
    for (const value of rate) expectClose(value, 0, { atol: 1e-6, why: "rest to 1e-9 g, law at its reference" });
    const excursion = new Excursion({ motion, state: rest, tipForce, pins, trimmed }, of.reference, {
      pitch: 1,
      bank: 1,
      load: 1,
    });
    expectClose(excursion.at(rest), 0, { atol: 1e-3, why: "loads in N against a limit of 1 N" });
  });

  it("is not there on one pin, stowed, with the whole mass: no trim, no error", () => {
    const { inputs, point } = at("Rev B");
    expect(plantAt(inputs, point, "left aft pin, stowed")).toBeNull();
    expect(plantAt(inputs, point, "three point, stowed")).not.toBeNull();
  });

  it("stowed has the boom up, else at the angle of the condition", () => {
    const { inputs, point } = at("Rev B");
    expect(pointOf(inputs, point, "three point").boomAngleDown).toBe(point.boomAngleDown);
    expectClose(pointOf(inputs, point, "three point, stowed").boomAngleDown, (14 * Math.PI) / 180, {
      rtol: 1e-12,
      why: "pair",
    });
  });
});

describe("loops at the pins", () => {
  it("go unstable where their delay margin says", () => {
    const judge = (delay: number) => {
      const { inputs, settings, point } = at("Rev B", [`control.actuators.aileron.delay=${delay} s`]);
      return judged(plantAt(inputs, point, "left aft pin")!, settings, 5)[1];
    };
    const { delayMargin } = judge(0.05).margins;
    expect(judge(0.05 + 0.97 * delayMargin!).growing).toBe(0);
    expect(judge(0.05 + 1.03 * delayMargin!).growing).toBe(2);
  });
});

describe("what a surface moves", () => {
  const angle = (state: AttachmentState, set: string[] = []) => {
    const { inputs, settings, point } = at("Rev B", set);
    return authorityOf(inputs, settings, point, plantAt(inputs, point, state)!);
  };

  it("grows with its travel, and falls with the stiffness that it meets", () => {
    const [own] = angle("three point");
    const [twice] = angle("three point", ["control.actuators.elevator.travel=8 deg"]);
    expectClose(twice.angle_deg, 2 * own.angle_deg, { rtol: 1e-9, why: "linear" });
    const soft = angle("three point", ["mechanism.aftPins.stiffness.lateral=0.1 MN/m"]);
    expect(soft[1].angle_deg).toBeGreaterThan(angle("three point")[1].angle_deg);
  });

  it("is nothing in pitch, bank and yaw at three points, and something at one point", () => {
    expect(angle("three point").map(({ movesNothing }) => movesNothing)).toEqual([true, true, true]);
    expect(angle("single point").map(({ movesNothing }) => movesNothing)).toEqual([false, false, false]);
  });
});

describe("upset", () => {
  it("is whole at one point, and at the pins as large as leaves half of the limits", () => {
    const { inputs, settings, point } = at("Rev B");
    const { pitchLimit: pitch, bankLimit: bank, loadLimit: load } = settings.failures;
    for (const state of ["single point", "left aft pin", "three point"] as const) {
      const held = heldAt(inputs, point, state, surfaceInputs);
      const excursion = new Excursion(held, plantAt(inputs, point, state)!.reference, { pitch, bank, load });
      const { reference } = plantAt(inputs, point, state)!;
      const { state: turned, share } = boundedUpset(held, excursion, reference, 0, inputs.upset.roll);
      const reached = excursion.at(turned);
      if (state === "single point") expect(share).toBe(1);
      else {
        expect(share).toBeLessThan(1);
        expectClose(reached, 0.5, { rtol: 1e-6, why: "bisection" });
      }
      expectClose(Math.abs(excursion.bank), share * Math.abs(inputs.upset.roll), {
        rtol: 1e-9,
        why: "turned from rest",
      });
    }
  });
});

describe("a pair without aft pins", () => {
  it("keeps the two states", () => {
    const loaded = loadDemo("Rev B");
    const { aftPins: _, ...mechanism } = loaded.pair.mechanism;
    const bare = { ...loaded, pair: { ...loaded.pair, mechanism } };
    const settings = readControl(() => recordReads(bare))!;
    expect(settings.latched).toBeNull();
    expect(settings.paths.latched).toEqual([]);
    expect(statesOf(at("Rev B").inputs)).toEqual(ATTACHMENT_STATES);
    expect(statesOf(readHoldInputs(() => recordReads(bare)).inputs)).toEqual(["free", "single point"]);
  });
});
