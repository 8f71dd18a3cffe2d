import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import {
  type LongshoreOptions,
  longshore,
  MASS_NAMES,
  REVISION_NAMES,
  WEIGHT_SHARES,
} from "../../../test/support/longshore.ts";
import {
  type HookedPair,
  hookedPair,
  PairMotion,
  STANDARD_GRAVITY,
  trimFree,
  trimHooked,
  uniformAir,
} from "./index.ts";

const cases = REVISION_NAMES.flatMap((revision) =>
  MASS_NAMES.flatMap((mass) => WEIGHT_SHARES.map((weightShare) => ({ revision, mass, weightShare }))),
);

/** Largest acceleration at the state of rest, in parts of g (per metre for the turning). */
function residual(pair: HookedPair): number {
  const rate = new Float64Array(pair.state.length);
  pair.motion.derivative(0, pair.state, rate);
  return Math.max(...rate.map(Math.abs)) / STANDARD_GRAVITY;
}

describe("trim of the hooked aircraft", () => {
  it.each(cases)("rests: $revision, $mass, share $weightShare", (options) => {
    const settings = longshore(options);
    const pair = hookedPair(settings);
    expect(pair.trim.outcome).toBe("trimmed");
    expect(residual(pair)).toBeLessThan(1e-9);

    // by hand: the tip tows the drag of the lift that is left, and carries its share
    const { air, derivatives, mass } = settings;
    const pressureArea = 0.5 * air.density * air.trueAirspeed ** 2 * derivatives.area;
    const weight = mass.mass * STANDARD_GRAVITY;
    const lift = ((1 - options.weightShare) * weight) / pressureArea;
    const drag = pressureArea * (0.026 + lift ** 2 / (Math.PI * (7.4 ** 2 / 8.2) * 0.8));
    const [forward, right, down] = pair.trim.f_onV_byTip_H;
    const close = { rtol: 1e-9, why: "balance solved to 1e-12 of the weight" };
    expectClose(forward, drag, close, "tow load = drag at idle");
    expectClose(down, -options.weightShare * weight, { ...close, atol: 1e-9 }, "support load");
    expect(Math.abs(right)).toBe(0);
    expectClose(
      0.18 + 5 * pair.trim.alpha + 0.4 * pair.trim.controls.elevator,
      lift,
      { rtol: 1e-9, why: "lift by hand" },
      "lift coefficient",
    );
    // the equations of motion find the same joint force
    for (let i = 0; i < 3; i++) {
      expectClose(pair.motion.jointForce[i], pair.trim.f_onV_byTip_H[i], { atol: 1e-6, why: "solved again" }, "joint");
    }
  });

  it("gives back thrust as slack in the tow", () => {
    const idle = hookedPair(longshore());
    const pushed = hookedPair(longshore({ thrust: 500 }));
    // 500 N along body x, whose vertical part takes lift off the wing: a little less induced drag
    const saved = idle.trim.f_onV_byTip_H[0] - pushed.trim.f_onV_byTip_H[0];
    expect(saved).toBeGreaterThan(500 * Math.cos(idle.trim.alpha));
    expect(saved).toBeLessThan(510);
    expect(residual(pushed)).toBeLessThan(1e-9);
  });

  it("pushes the boom up when it only tows and down when it carries, with one share between", () => {
    const at = (weightShare: number) => hookedPair(longshore({ weightShare }));
    // by hand: f·e_Γ = 0 where s·W·cos Γ = D(s)·sin Γ, a quadratic in 1 − s
    const { air, derivatives, mass } = longshore();
    const pressureArea = 0.5 * air.density * air.trueAirspeed ** 2 * derivatives.area;
    const weight = mass.mass * STANDARD_GRAVITY;
    const induced = weight ** 2 / (Math.PI * (7.4 ** 2 / 8.2) * 0.8 * pressureArea);
    const slope = weight / Math.tan((52 * Math.PI) / 180);
    const rest = 0.026 * pressureArea - slope;
    const left = (-slope + Math.sqrt(slope ** 2 - 4 * induced * rest)) / (2 * induced);
    const share = 1 - left;
    expect(share).toBeGreaterThan(0.05);
    expect(share).toBeLessThan(0.1);
    expectClose(at(share).tipLoad.tangential, 0, { atol: 1e-5, why: "closed form" }, "tangential load");
    expect(at(share - 0.01).tipLoad.tangential).toBeLessThan(-100);
    expect(at(share + 0.01).tipLoad.tangential).toBeGreaterThan(100);
    // the boom yields towards a larger angle when it is pushed down
    const loaded = (52 * Math.PI) / 180;
    expect(at(share - 0.01).unloadedAngleDown).toBeGreaterThan(loaded);
    expect(at(share + 0.01).unloadedAngleDown).toBeLessThan(loaded);
    expectClose(at(share).unloadedAngleDown!, loaded, { atol: 1e-9, why: "no load, no travel" }, "unloaded angle");
    expect(at(share).tipLoad.tension).toBeGreaterThan(2000);
  });

  it("balances an aircraft whose c.g. is off its plane with aileron and rudder", () => {
    for (const weightShare of [0, 0.2]) {
      const pair = hookedPair(longshore({ cgRight: 0.04, weightShare }));
      expect(pair.trim.outcome).toBe("trimmed");
      expect(residual(pair)).toBeLessThan(1e-9);
      const { aileron, rudder } = pair.trim.controls;
      // lift and tip together hold the whole weight 40 mm left of the c.g.: the aileron lifts the right wing,
      // and the rudder goes left against the yaw that the aileron makes
      const { air, mass, derivatives } = longshore();
      const rolling = 0.5 * air.density * air.trueAirspeed ** 2 * derivatives.area * derivatives.span * 0.12;
      const alone = (-0.04 * mass.mass * STANDARD_GRAVITY) / rolling;
      expectClose(aileron, alone, { rtol: 0.05, why: "without rudder and angle of attack" }, "aileron");
      expect(rudder).toBeGreaterThan(1e-4);
      const mirrored = hookedPair(longshore({ cgRight: -0.04, weightShare })).trim;
      expectClose(mirrored.controls.aileron, -aileron, { rtol: 1e-8, why: "mirror" }, "aileron");
      expectClose(mirrored.controls.rudder, -rudder, { rtol: 1e-8, why: "mirror" }, "rudder");
      expectClose(mirrored.alpha, pair.trim.alpha, { rtol: 1e-9, why: "mirror" }, "alpha");
    }
  });

  it.each<[string, LongshoreOptions]>([
    ["the elevator has no power", elevatorPower(0)],
    ["the elevator would have to move by more than 60°", elevatorPower(0.06)],
    ["the c.g. is off the plane and the aileron has no power", { ...noAileron(), cgRight: 0.04 }],
    ["it flies so slowly that no angle of attack carries it", { equivalentAirspeed: 20 }],
  ])("says so when %s", (_why, options) => {
    const { airloads, mass, air, probe, weightShare, thrust } = longshore(options);
    const trim = trimHooked({ airloads, mass: mass.mass, ...air }, { probe, weightShare, thrust });
    expect(trim.outcome).toBe("no trim");
    expect([trim.alpha, ...Object.values(trim.controls), ...trim.f_onV_byTip_H].every(Number.isFinite)).toBe(true);
  });

  it("refuses to stand still or to weigh nothing", () => {
    const { airloads, air, probe } = longshore();
    const hook = { probe, weightShare: 0, thrust: 0 };
    expect(() => trimHooked({ airloads, mass: 0, ...air }, hook)).toThrow("mass");
    expect(() => trimHooked({ airloads, mass: 1, ...air, trueAirspeed: 0 }, hook)).toThrow("true airspeed");
    expect(() => trimFree({ airloads, mass: 1, ...air, trueAirspeed: Number.NaN })).toThrow("true airspeed");
  });
});

describe("trim of the free aircraft", () => {
  it("flies level with thrust against drag", () => {
    const { airloads, mass, air, law } = longshore();
    const trim = trimFree({ airloads, mass: mass.mass, ...air });
    expect(trim.outcome).toBe("trimmed");
    const motion = new PairMotion({
      mass,
      airloads,
      trim: trim.controls,
      law,
      environment: uniformAir(air),
      attachment: "free",
    });
    const state = new Float64Array(13);
    state[3] = Math.cos(trim.alpha / 2);
    state[5] = Math.sin(trim.alpha / 2);
    const rate = new Float64Array(13);
    motion.derivative(0, state, rate);
    expect(Math.max(...rate.map(Math.abs))).toBeLessThan(1e-9 * STANDARD_GRAVITY);
    expect(trim.controls.thrust).toBeGreaterThan(1500);
  });

  it("says so when it cannot fly", () => {
    const { airloads, mass, air } = longshore({ equivalentAirspeed: 20 });
    expect(trimFree({ airloads, mass: mass.mass, ...air }).outcome).toBe("no trim");
  });

  it("says so when its c.g. is off the plane: wings level will not do", () => {
    const { airloads, mass, air } = longshore({ cgRight: 0.04 });
    expect(trimFree({ airloads, mass: mass.mass, ...air }).outcome).toBe("no trim");
  });
});

/** The demo aircraft with a part of its elevator power, or without aileron. */
function elevatorPower(left: number): LongshoreOptions {
  const { lift, pitch } = longshore().derivatives;
  return {
    derivatives: {
      lift: { ...lift, elevator: left * lift.elevator },
      pitch: { ...pitch, elevator: left * pitch.elevator },
    },
  };
}
function noAileron(): LongshoreOptions {
  const { roll, yaw } = longshore().derivatives;
  return { derivatives: { roll: { ...roll, aileron: 0 }, yaw: { ...yaw, aileron: 0 } } };
}
