import { describe, expect, it } from "vitest";
import {
  balancedAngle,
  divergencePressure,
  pendulumAngle,
  strutAngle,
} from "../../../reference/analytic/torsion-divergence/closed-form.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { eigenSystem } from "../../math/eigen/index.ts";
import { DomainError } from "../../math/errors.ts";
import { bracketedRoot } from "../../math/roots/index.ts";
import { quaternionFromEuler } from "../../math/rotation/index.ts";
import { type DerivativeSet, derivativeModel } from "../airloads/index.ts";
import { hookedPair, linearise, PairMotion, STANDARD_GRAVITY, uniformAir } from "../bodies/index.ts";
import {
  type Balance,
  balanceBranches,
  balancesAt,
  foldsOf,
  HookedStatics,
  type StaticsSettings,
  staticDeterminant,
  staticState,
} from "./index.ts";

const DEGREE = Math.PI / 180;

function staticsOf(settings: ReturnType<typeof longshore>, change: Partial<StaticsSettings> = {}) {
  const { boom, air, mass, probe, airloads, thrust } = settings;
  const pair = hookedPair(settings);
  const given: StaticsSettings = {
    ...{ airloads, mass: mass.mass, probe, density: air.density, soundSpeed: air.soundSpeed, thrust },
    boom: {
      length: boom.length,
      stiffness: 1 / (1 / boom.bending + 1 / boom.accumulator),
      unloadedAngleDown: pair.unloadedAngleDown!,
      ownMass: boom.ownMass,
      ownCentre: boom.ownCentre,
    },
    ...change,
  };
  return { pair, statics: new HookedStatics(given) };
}

/** Airloads that are a pitching moment about the c.g. alone: Cm_0 + Cm_α·α. */
function momentOnly(atZero: number, slope: number): DerivativeSet {
  const { derivatives } = longshore();
  return {
    ...derivatives,
    referencePoint: [0, 0, 0],
    lift: { atReference: 0, alpha: 0, pitchRate: 0, alphaRate: 0, elevator: 0 },
    drag: { kind: "parabolic", zeroLift: 0, efficiency: 1, elevator: 0 },
    pitch: { atReference: atZero, alpha: slope, pitchRate: -5, alphaRate: 0, elevator: -1 },
  };
}
const HANGING = { mass: 2600, probe: [0, 0, -0.85] as const, density: 1, soundSpeed: 330, thrust: 0 };
const BOOM = { length: 5.6, stiffness: 30e3, unloadedAngleDown: 52 * DEGREE, ownMass: 0, ownCentre: 0 };
const speedAt = (pressure: number): number => Math.sqrt(2 * pressure);

describe("a body on its gravity spring in an airstream", () => {
  const derivatives = momentOnly(0, 0.4);
  const body = {
    ...{ spring: 2600 * STANDARD_GRAVITY * 0.85, momentSlope: 0.4 },
    ...{ area: derivatives.area, chord: derivatives.chord },
  };
  const limit = divergencePressure(body);
  const statics = new HookedStatics({ ...HANGING, airloads: derivativeModel(derivatives), boom: BOOM });
  const alphas = (part: number): number[] =>
    balancesAt(statics, { kind: "fixed", elevator: 0 }, speedAt(part * limit)).map(({ alpha }) => alpha);

  it("has one balance far below divergence, three just below, one above", () => {
    expect(alphas(0.5)).toHaveLength(1);
    expect(alphas(1.1)).toHaveLength(1);
    for (const part of [0.91, 0.95, 0.99]) {
      const side = pendulumAngle(part)!;
      expectAllClose(alphas(part), [-side, 0, side], { atol: 1e-9, why: "bracketed roots" });
    }
  });

  it("feeds on itself as 1/(1 − q/q_D) when the stream also turns it at zero", () => {
    const atZero = 1e-4;
    const turned = new HookedStatics({
      ...{ ...HANGING, boom: BOOM },
      airloads: derivativeModel(momentOnly(atZero, 0.4)),
    });
    for (const part of [0.2, 0.5, 0.8]) {
      const [balance] = balancesAt(turned, { kind: "fixed", elevator: 0 }, speedAt(part * limit));
      const expected = balancedAngle(body, atZero, part * limit);
      expectClose(balance.alpha, expected, { rtol: 1e-5, why: "sin α against α at angles below 0.001" });
    }
  });

  it("loses two of its three balances at a fold when it is turned a little at zero", () => {
    const turned = new HookedStatics({
      ...{ ...HANGING, boom: BOOM },
      airloads: derivativeModel(momentOnly(0.002, 0.4)),
    });
    const rule = { kind: "fixed", elevator: 0 } as const;
    const [from, to] = [speedAt(0.9 * limit), speedAt(1.05 * limit)];
    const branches = balanceBranches(turned, rule, from, to, 7);
    expect(branches.every(({ complete }) => complete)).toBe(true);
    const folds = branches.flatMap(foldsOf);
    expect(folds).toHaveLength(1);
    const count = (speed: number): number => balancesAt(turned, rule, speed).length;
    expect([count(folds[0] * 0.999), count(folds[0] * 1.001)].sort()).toEqual([1, 3]);
    // closed form of the fold: Cm_0 + Cm_α·α = n·sin α with n·cos α = Cm_α, so tan α − α = Cm_0/Cm_α
    const alpha = -bracketedRoot((x) => Math.tan(x) - x - 0.002 / 0.4, 0, 1, 1e-14).x;
    const exact = speedAt((0.4 * body.spring) / (body.area * body.chord * 0.4 * 0.4) * Math.cos(alpha)); // biome-ignore format: q = W·h·cos α/(S·c·Cm_α)
    expectClose(folds[0], exact, { rtol: 1e-5, why: "vertex of a parabola through three points" });
  });
});

describe("a strut under a push along itself", () => {
  // level boom, thrust forward, nothing else: f on the tip pushes it towards the hinge
  const at = (thrust: number): number[] => {
    const statics = new HookedStatics({
      ...{ ...HANGING, thrust, probe: [0, 0, 0] },
      airloads: derivativeModel({ ...momentOnly(0, -1), thrust: { direction: [1, 0, 0], point: [0, 0, 0] } }),
      boom: { ...BOOM, stiffness: 3e3, unloadedAngleDown: 0, ownMass: 0 },
    });
    return balancesAt(statics, { kind: "fixed", elevator: 0 }, 30).map(({ angleDown }) => angleDown);
  };

  it("hangs by its weight when it is not pushed: k·L·Γ = W·cos Γ", () => {
    const [angle, ...more] = at(0);
    expect(more).toEqual([]);
    expectClose(3e3 * 5.6 * angle, HANGING.mass * STANDARD_GRAVITY * Math.cos(angle), { rtol: 1e-9, why: "balance" });
  });

  it("of no weight has one balance up to P = k·L and three beyond, as buckling says", () => {
    const springForce = 3e3 * 5.6;
    for (const push of [0.5, 0.95, 1.05, 1.3]) {
      const light = new HookedStatics({
        ...{ ...HANGING, mass: 1e-6, thrust: push * springForce, probe: [0, 0, 0] },
        airloads: derivativeModel({ ...momentOnly(0, -1), thrust: { direction: [1, 0, 0], point: [0, 0, 0] } }),
        boom: { ...BOOM, stiffness: 3e3, unloadedAngleDown: 0 },
      });
      const angles = balancesAt(light, { kind: "fixed", elevator: 0 }, 30).map(({ angleDown }) => angleDown);
      const side = push > 1 ? strutAngle(push * springForce, springForce)! : null;
      const expected = side === null ? [0] : [-side, 0, side];
      expectAllClose(angles, expected, { atol: 1e-6, why: "a weight of 1e-5 N" });
    }
  });
});

describe("balances of the demo pair", () => {
  it.each(["Rev A", "Rev B"] as const)("%s: at its own airspeed there is one, the trim", (revision) => {
    const settings = longshore({ revision });
    const { pair, statics } = staticsOf(settings);
    const { alpha, controls } = pair.trim;
    const own = balancesAt(statics, { kind: "fixed", elevator: controls.elevator }, settings.air.trueAirspeed);
    expect(own).toHaveLength(1);
    expectClose(own[0].alpha, alpha, { atol: 1e-9, why: "tolerances of both searches" });
    expectClose(own[0].angleDown, settings.boom.angleDown, { atol: 1e-9, why: "tolerances of both searches" });
    const held = balancesAt(statics, { kind: "holds weight share", weightShare: 0 }, settings.air.trueAirspeed);
    expect(held).toHaveLength(1);
    expectClose(held[0].elevator, controls.elevator, { atol: 1e-8, why: "tolerances of both searches" });
    const at = staticState();
    statics.at(settings.air.trueAirspeed, alpha, controls.elevator, settings.boom.angleDown, at);
    const [forward, , down] = pair.trim.f_onV_byTip_H;
    expectAllClose([at.forward, at.down], [forward, down], { atol: 1e-6, why: "the same loads" });
  });

  it("are rest of the equations of motion at other airspeeds, jack and controls as they were", () => {
    const base = longshore();
    // a boom that hardly stretches: the statics leaves its length alone
    const settings = { ...base, boom: { ...base.boom, axial: 1e10, ownMass: 180, ownCentre: 2.4 } };
    const { pair, statics } = staticsOf(settings);
    const rule = { kind: "fixed", elevator: pair.trim.controls.elevator } as const;
    for (const factor of [0.7, 0.9, 1.2, 1.4]) {
      const speed = factor * settings.air.trueAirspeed;
      const balances = balancesAt(statics, rule, speed);
      expect(balances.length).toBeGreaterThan(0);
      for (const balance of balances) {
        const accelerations = restOf(pair, statics, settings, balance);
        for (const a of accelerations) expect(Math.abs(a)).toBeLessThan(1e-5);
      }
      // and not by chance: half a degree off is no rest
      const off = { ...balances[0], angleDown: balances[0].angleDown + 0.5 * DEGREE };
      expect(Math.max(...restOf(pair, statics, settings, off).map(Math.abs))).toBeGreaterThan(0.1);
    }
  });

  it("follow one branch over airspeed, on which every point is a balance", () => {
    const settings = longshore({ revision: "Rev B" });
    const { pair, statics } = staticsOf(settings);
    const rule = { kind: "fixed", elevator: pair.trim.controls.elevator } as const;
    const branches = balanceBranches(statics, rule, 40, 160, 7);
    expect(branches).toHaveLength(1);
    const at = staticState();
    for (const { speed, alpha, elevator, angleDown } of branches[0].balances) {
      statics.at(speed, alpha, elevator, angleDown, at);
      expect(Math.abs(at.moment)).toBeLessThan(1e-9);
      expect(Math.abs(at.boom)).toBeLessThan(1e-9);
    }
    expect(foldsOf(branches[0])).toEqual([]);
  });

  it("stay where the jack holds them when the boom is rigid", () => {
    const settings = longshore();
    const { pair, statics } = staticsOf(settings, {
      boom: { ...BOOM, length: settings.boom.length, stiffness: Infinity, unloadedAngleDown: 0.7 },
    });
    const [balance] = balancesAt(statics, { kind: "fixed", elevator: pair.trim.controls.elevator }, 100);
    expectClose(balance.angleDown, 0.7, { atol: 1e-12, why: "rigid" });
  });

  it("refuse what makes no sense", () => {
    const { statics } = staticsOf(longshore());
    expect(() => balancesAt(statics, { kind: "fixed", elevator: 0 }, 0)).toThrow(DomainError);
    expect(() => balanceBranches(statics, { kind: "fixed", elevator: 0 }, 90, 80, 3)).toThrow(DomainError);
    const { settings } = statics;
    expect(() => new HookedStatics({ ...settings, boom: { ...settings.boom, stiffness: 0 } })).toThrow(DomainError);
  });
});

/** Accelerations of aircraft and tip at a balance, airspeed as given, everything else of the pair as built. */
function restOf(
  pair: ReturnType<typeof hookedPair>,
  statics: HookedStatics,
  settings: ReturnType<typeof longshore>,
  { speed, alpha, elevator, angleDown }: Balance,
): number[] {
  const moved = new PairMotion({
    ...pair.motion.settings,
    environment: uniformAir({ ...settings.air, trueAirspeed: speed }),
  });
  const { probe, boom } = settings;
  const state = new Float64Array(moved.stateCount);
  quaternionFromEuler(0, alpha, 0, state, 3);
  // the stretch that the statics leaves out, so that the boom carries its tension
  const at = staticState();
  statics.at(speed, alpha, elevator, angleDown, at);
  const tension = at.forward * Math.cos(angleDown) - at.down * Math.sin(angleDown);
  const length = boom.length + (tension - pair.tipLoad.tension) / boom.axial;
  const tip = [-length * Math.cos(angleDown), 0, length * Math.sin(angleDown)];
  state.set(tip, moved.layout.tip);
  const [c, s] = [Math.cos(alpha), Math.sin(alpha)];
  state[0] = tip[0] - (c * probe[0] + s * probe[2]);
  state[2] = tip[2] - (-s * probe[0] + c * probe[2]);
  // travel across the snubber when bending and accumulator share the load
  const share = boom.bending / (boom.bending + boom.accumulator);
  if (moved.layout.carrier > moved.layout.snubber) {
    state[moved.layout.snubber] = share * boom.length * (angleDown - boom.angleDown);
  }
  moved.derivative(0, state, new Float64Array(moved.stateCount));
  return Array.from(moved.acceleration);
}

describe("determinant of the linear model", () => {
  it("is the product of −λ, with its sign", () => {
    const settings = longshore();
    const pair = hookedPair(settings);
    const { matrix, size } = linearise(pair.motion, pair.state);
    const { re, im } = eigenSystem(matrix, size);
    let log = 0;
    let sign = 1;
    for (let k = 0; k < size; k++) {
      log += Math.log(Math.hypot(re[k], im[k]));
      if (im[k] === 0 && re[k] > 0) sign = -sign;
    }
    const found = staticDeterminant(matrix, size);
    expectClose(found.log, log, { rtol: 1e-9, why: "round-off of the eigenvalues" });
    expect(found.sign).toBe(sign);
    expect(staticDeterminant(Float64Array.of(-2, 0, 0, 3), 2).sign).toBe(-1);
    expect(staticDeterminant(Float64Array.of(0, 1, 1, 0), 2)).toEqual({ sign: -1, log: 0 });
    expect(staticDeterminant(new Float64Array(4), 2).sign).toBe(0);
  });

  it("passes zero at the dynamic pressure of the torsion spring in closed form", () => {
    const settings = longshore();
    const derivatives: DerivativeSet = {
      ...momentOnly(0, 0.4),
      lift: { ...settings.derivatives.lift, atReference: 0 },
    };
    const at = (pressure: number): number => {
      const pair = hookedPair({
        ...settings,
        airloads: derivativeModel(derivatives),
        ...{ probe: [0, 0, -0.85], weightShare: 1, thrust: 0 },
        air: { density: 1, soundSpeed: 330, trueAirspeed: speedAt(pressure) },
      });
      expectClose(pair.trim.alpha, 0, { atol: 1e-9, why: "symmetric section" });
      const { matrix, size, names } = linearise(pair.motion, pair.state);
      const kept = names.flatMap((name, i) => (/^(x|z|pitch|snubber)/.test(name) ? [i] : []));
      const part = Float64Array.from(kept.flatMap((i) => kept.map((j) => matrix[i * size + j])));
      const { sign, log } = staticDeterminant(part, kept.length);
      return sign * Math.exp(log / 7);
    };
    const body = { spring: settings.mass.mass * STANDARD_GRAVITY * 0.85, momentSlope: 0.4 };
    const exact = divergencePressure({ ...body, area: derivatives.area, chord: derivatives.chord });
    const found = bracketedRoot(at, 0.8 * exact, 1.2 * exact, 1e-6 * exact);
    expect(found.outcome).toBe("converged");
    expectClose(found.x, exact, { rtol: 1e-5, why: "differences of the linearisation" });
  });
});
