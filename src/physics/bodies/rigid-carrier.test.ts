import { describe, expect, it } from "vitest";
import { loadPublished } from "../../../reference/load.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { hangOnTip, noAir, vacuum, vacuumPair, walk } from "../../../test/support/vacuum.ts";
import { freeModel, printedLongitudinal, zeroLateral } from "../../../test/validation/free-modes-support.ts";
import { linearPair, type Root, rootsOf } from "../../../test/validation/hooked-support.ts";
import { quaternionFromEuler, quaternionMultiply, rotateToParent, rotationMatrix } from "../../math/rotation/index.ts";
import { type DerivativeSet, derivativeModel, dimensionalModel, normalToFlow } from "../airloads/index.ts";
import {
  type CarrierPort,
  carrierAlone,
  carrierAtTrim,
  hookedPair,
  inertiaMatrix,
  linearise,
  type PairMotion,
  relativeToCarrier,
  rigidCarrier,
  STANDARD_GRAVITY,
  uniformAir,
} from "./index.ts";

const still = { elevator: 0, aileron: 0, rudder: 0, thrust: 0 };
const nothing = new Float64Array(6);
const HINGE = [6.6, 0, -0.25] as const;
const BODY = { mass: 58_000, Ixx: 1.2e6, Iyy: 1.9e6, Izz: 2.9e6, Ixy: 2e4, Ixz: 5e4, Iyz: -1e4 };
const lateral = (beta: number, rollRate: number, yawRate: number) => ({
  beta,
  rollRate,
  yawRate,
  aileron: 0,
  rudder: 0,
});
const SET: DerivativeSet = {
  ...{ area: 146, span: 38.6, chord: 4.05, axes: { moments: "stability", sideForce: "wind" } },
  ...{ referencePoint: [0.1, 0, 0.05], referenceAlpha: 0.3 },
  lift: { atReference: 99, alpha: 5.6, pitchRate: 8, alphaRate: 2, elevator: 0 },
  drag: { kind: "parabolic", zeroLift: 0.0265, efficiency: 0.8, elevator: 0 },
  pitch: { atReference: 99, alpha: -1.2, pitchRate: -22, alphaRate: -6, elevator: 0 },
  ...{ side: lateral(-0.9, -0.05, 0.35), roll: lateral(-0.1, -0.52, 0.18), yaw: lateral(0.11, -0.06, -0.17) },
  thrust: { direction: [1, 0, 0], point: [0, 0, 0] },
};

/** The demo pair on a carrier scaled in mass and inertia, its airloads unscaled. */
function onRigid(scale: number, derivatives = SET) {
  const settings = longshore({ revision: "Rev B", weightShare: 0.2, boom: { ownMass: 100, ownCentre: 2.5 } });
  const first = hookedPair(settings);
  first.motion.derivative(0, first.state, new Float64Array(first.state.length));
  const trimLoad = first.motion.hingeLoad.slice();
  const mass = Object.fromEntries(Object.entries(BODY).map(([key, value]) => [key, value * scale])) as typeof BODY;
  const set = carrierAtTrim(derivatives, { mass: mass.mass, ...settings.air }, HINGE, trimLoad);
  const environment = uniformAir(settings.air);
  const airloads = derivativeModel(set);
  const carrier = rigidCarrier({ mass, airloads, controls: still, environment, hinge: HINGE, trimLoad });
  return { settings, set, trimLoad, carrier, pair: hookedPair(settings, carrier) };
}

describe("a rigid carrier without air", () => {
  const mass = { mass: 2600, Ixx: 2050, Iyy: 5700, Izz: 7000, Ixy: 110, Ixz: 250, Iyz: -90 };
  const light = { mass: 9000, Ixx: 3e4, Iyy: 5e4, Izz: 7e4, Ixy: 800, Ixz: 2000, Iyz: -500 };
  const boom = {
    geometry: { length: 5.6, angleDown: 0.9 },
    ...{ axial: 8e5, axialDamping: 900, lateral: 6e5, lateralDamping: 700 },
    tangential: { bending: 9e4, bendingDamping: 300, accumulator: 3e4, snubber: 4000 },
  };
  const undamped = {
    ...boom,
    ...{ axialDamping: 0, lateralDamping: 0 },
    tangential: { bending: 9e4, bendingDamping: 0, accumulator: 3e4, snubber: 0 },
  };
  function thrown(springs: typeof boom | typeof undamped) {
    const environment = vacuum([0, 0, 0]);
    const own = { mass: light, airloads: noAir, controls: still, environment, hinge: HINGE, trimLoad: nothing };
    const carrier = rigidCarrier(own);
    const { motion, state } = vacuumPair({
      ...{ mass, probe: [2.2, 0.15, -0.85], tipMass: 130, boom: springs, environment, carrier },
    });
    quaternionFromEuler(0.3, -0.2, 0.5, state, 3);
    state.set([0.4, -0.3, 0.25], 10);
    const { tip, carrier: at } = motion.layout;
    for (const [i, x] of [0.05, -0.1, 0.2, 0.5, -0.3, 0.4].entries()) state[tip + i] += x;
    state.set([0.1, -0.2, 0.3, 0.05, -0.04, 0.1, 0.3, 0.2, -0.4, 0.05, 0.08, -0.06], at);
    hangOnTip(motion, state);
    return { motion, state, carrier };
  }
  /** Momentum and its moment about the origin of H, and kinetic energy, of aircraft, tip and carrier. */
  function totals(motion: PairMotion, state: Float64Array, carrier: CarrierPort) {
    const { tip, carrier: at } = motion.layout;
    carrier.evaluate(state, at);
    const R = new Float64Array(9);
    rotationMatrix(state, 3, R);
    interface Body {
      readonly m: number;
      readonly p: Float64Array;
      readonly v: Float64Array;
      readonly I?: Float64Array;
      readonly w?: Float64Array;
      readonly R?: Float64Array;
    }
    const bodies: Body[] = [
      { m: mass.mass, I: inertiaMatrix(mass), p: state.slice(0, 3), v: state.slice(7, 10), w: state.slice(10, 13), R },
      { m: 130, p: state.slice(tip, tip + 3), v: state.slice(tip + 3, tip + 6) },
      {
        ...{ m: light.mass, I: inertiaMatrix(light), R: carrier.rotation },
        p: state.slice(at, at + 3).map((x, i) => x - HINGE[i]),
        ...{ v: state.slice(at + 6, at + 9), w: state.slice(at + 9, at + 12) },
      },
    ];
    const sum = new Float64Array(7);
    for (const { m, p, v, ...turning } of bodies) {
      const cross = [p[1] * v[2] - p[2] * v[1], p[2] * v[0] - p[0] * v[2], p[0] * v[1] - p[1] * v[0]];
      for (let i = 0; i < 3; i++) {
        sum[i] += m * v[i];
        sum[3 + i] += m * cross[i];
        sum[6] += 0.5 * m * v[i] ** 2;
      }
      const { I, w, R: turned } = turning;
      if (I === undefined || w === undefined || turned === undefined) continue;
      const h = Float64Array.from([0, 1, 2], (i) => I[3 * i] * w[0] + I[3 * i + 1] * w[1] + I[3 * i + 2] * w[2]);
      sum[6] += 0.5 * (h[0] * w[0] + h[1] * w[1] + h[2] * w[2]);
      rotateToParent(turned, h, 0, h, 0);
      for (let i = 0; i < 3; i++) sum[3 + i] += h[i];
    }
    return sum;
  }

  it("keeps momentum and its moment, springs and dampers between", () => {
    const { motion, state, carrier } = thrown(boom);
    const before = totals(motion, state, carrier);
    const after = totals(
      motion,
      walk(motion, state, 0.002, 1500, () => {}),
      carrier,
    );
    for (let i = 0; i < 6; i++) expectClose(after[i], before[i], { atol: 2e-3, why: "Runge–Kutta over 3 s" }, `${i}`);
    expect(before[6] - after[6]).toBeGreaterThan(10);
  });

  it("keeps energy without dampers, with the order of the integration", () => {
    const { motion, state, carrier } = thrown(undamped);
    const s = undamped;
    const energy = (x: Float64Array): number => {
      const kinetic = totals(motion, x, carrier)[6];
      const d = [0, 1, 2].map((k) =>
        [0, 1, 2].reduce(
          (sum, i) => sum + carrier.rotation[3 * i + k] * (x[motion.layout.tip + i] - carrier.hinge[i]),
          0,
        ),
      );
      const rho = Math.hypot(d[0], d[2]);
      const arc = 5.6 * (Math.atan2(d[2], -d[0]) - 0.9);
      const aside = 5.6 * Math.atan2(d[1], rho);
      // the snubber slips freely: bending and accumulator act as one spring in series
      const series = 1 / (1 / 9e4 + 1 / 3e4);
      return (
        kinetic +
        0.5 * s.axial * (Math.hypot(rho, d[1]) - 5.6) ** 2 +
        0.5 * s.lateral * aside ** 2 +
        0.5 * series * arc ** 2
      );
    };
    const start = energy(state);
    const drift = [0.004, 0.002].map((step) => Math.abs(energy(walk(motion, state, step, 4 / step, () => {})) - start));
    expect(drift[0] / start).toBeLessThan(1e-3);
    expect(drift[0] / drift[1]).toBeGreaterThan(12);
  });

  it("moves alike in a frame that is turned", () => {
    const { motion, state } = thrown(boom);
    const rate = new Float64Array(state.length);
    motion.derivative(0, state, rate);
    const turned = state.slice();
    const yaw = 0.8;
    const [c, s] = [Math.cos(yaw), Math.sin(yaw)];
    const spin = (at: number): void => {
      [turned[at], turned[at + 1]] = [c * state[at] - s * state[at + 1], s * state[at] + c * state[at + 1]];
    };
    const { tip, carrier: at } = motion.layout;
    for (const i of [0, 7, tip, tip + 3, at + 6]) spin(i);
    quaternionMultiply(Float64Array.of(Math.cos(yaw / 2), 0, 0, Math.sin(yaw / 2)), 0, state, 3, turned, 3);
    turned[at + 5] += yaw;
    // the carrier's place counts from its trim place, which stays where it is
    const place = [state[at] - HINGE[0], state[at + 1] - HINGE[1]];
    turned[at] = c * place[0] - s * place[1] + HINGE[0];
    turned[at + 1] = s * place[0] + c * place[1] + HINGE[1];
    const other = new Float64Array(state.length);
    motion.derivative(0, turned, other);
    const scale = Math.max(...rate.map(Math.abs));
    for (const i of [0, 7, tip, tip + 3, at, at + 6]) {
      const back = [c * other[i] + s * other[i + 1], -s * other[i] + c * other[i + 1], other[i + 2]];
      expectAllClose(back, rate.slice(i, i + 3), { atol: 1e-12 * scale, why: "round-off" });
    }
    for (const i of [at + 3, at + 9, 10]) {
      expectAllClose(other.slice(i, i + 3), rate.slice(i, i + 3), { atol: 1e-12 * scale, why: "round-off" });
    }
  });
});

describe("a rigid carrier at the hook condition", () => {
  it("rests, with lift for its weight and the hook load, and a moment against that of the boom", () => {
    const { pair, set, settings, trimLoad } = onRigid(1);
    const rate = new Float64Array(pair.state.length);
    pair.motion.derivative(0, pair.state, rate);
    expect(Math.max(...rate.map(Math.abs))).toBeLessThan(1e-8);
    const { density, trueAirspeed } = settings.air;
    const lift = 0.5 * density * trueAirspeed ** 2 * 146 * set.lift.atReference;
    expectClose(lift, 58_000 * STANDARD_GRAVITY + trimLoad[2], { rtol: 1e-12, why: "balance" });
    // a fifth of 2600 kg and 100 kg of boom, downwards
    expectClose(trimLoad[2], (0.2 * 2600 + 100) * STANDARD_GRAVITY, { rtol: 1e-9, why: "weight" });
    // tip force on the tip's place and boom weight on its own, by hand
    const [fx, , fz] = pair.trim.f_onV_byTip_H;
    const [x, z] = [-5.6 * Math.cos((52 * Math.PI) / 180), 5.6 * Math.sin((52 * Math.PI) / 180)];
    const weight = 100 * STANDARD_GRAVITY;
    expectClose(trimLoad[4], z * -fx - x * -fz - (2.5 / 5.6) * x * weight, { rtol: 1e-9, why: "levers" }, "moment");
  });

  it("becomes the steady carrier in proportion to 1/mass", () => {
    const { settings } = onRigid(1);
    const clean: DerivativeSet = {
      ...SET,
      drag: { kind: "parabolic", zeroLift: 0.0265, efficiency: 1e15, elevator: 0 },
    };
    const steady = linearPair(settings);
    const roots = rootsOf(steady.linear.matrix, steady.linear.size).filter(
      (root) => Math.hypot(root.re, root.im) > 1e-3,
    );
    const gap = (scale: number): number => {
      // lift grows with the weight; drag by lift would grow faster than the mass
      const { motion, state } = onRigid(scale, clean).pair;
      const { linear } = relativeToCarrier(linearise(motion, state), motion);
      const all = rootsOf(linear.matrix, linear.size);
      const far = (a: Root, b: Root): number => Math.hypot(a.re - b.re, a.im - b.im);
      return Math.max(...roots.map((r) => Math.min(...all.map((s) => far(r, s))) / Math.hypot(r.re, r.im)));
    };
    const gaps = [1e3, 1e4].map(gap);
    expect(gaps[0]).toBeLessThan(1e-3);
    expect(gaps[0] / gaps[1]).toBeGreaterThan(9);
    expect(gaps[0] / gaps[1]).toBeLessThan(11);
  });

  it("has the same roots with places counted from it, but for those of the place of the pair", () => {
    const { motion, state } = onRigid(1).pair;
    const whole = linearise(motion, state);
    const { linear, carrier } = relativeToCarrier(whole, motion);
    expect(linear.size).toBe(whole.size - 3);
    expect(linear.names[carrier]).toBe("carrier 3");
    const all = rootsOf(whole.matrix, whole.size);
    for (const root of rootsOf(linear.matrix, linear.size)) {
      const size = Math.hypot(root.re, root.im);
      if (size < 1e-4) continue;
      const nearest = Math.min(...all.map((other) => Math.hypot(other.re - root.re, other.im - root.im)));
      expect(nearest / size, `${root.re} ${root.im}`).toBeLessThan(1e-6);
    }
    expect(() => relativeToCarrier(linearPair(longshore()).linear, linearPair(longshore()).pair.motion)).toThrow();
  });

  it("refuses what has no mass, no inertia or no airspeed", () => {
    const { settings } = onRigid(1);
    expect(() => carrierAtTrim(SET, { mass: 0, ...settings.air }, HINGE, nothing)).toThrow("carrier mass");
    expect(() => carrierAtTrim(SET, { mass: 1, ...settings.air, trueAirspeed: 0 }, HINGE, nothing)).toThrow("pressure");
    const own = { airloads: noAir, controls: still, environment: vacuum(), hinge: HINGE, trimLoad: nothing };
    expect(() => rigidCarrier({ ...own, mass: { ...BODY, Izz: 9e6 } })).toThrow("inertia");
  });
});

describe("a rigid carrier by itself", () => {
  it("has the modes of the free aircraft with the same airloads", () => {
    const air = longshore().air;
    const set = carrierAtTrim({ ...SET, referencePoint: [0, 0, 0] }, { mass: BODY.mass, ...air }, HINGE, nothing);
    const airloads = derivativeModel({ ...set, pitch: { ...set.pitch, atReference: 0 } });
    const environment = uniformAir(air);
    const carrier = rigidCarrier({
      mass: BODY,
      airloads,
      controls: still,
      environment,
      hinge: HINGE,
      trimLoad: nothing,
    });
    const own = rootsOf(carrierAlone(carrier, nothing).matrix, 9);
    const drag =
      set.drag.kind === "parabolic" ? 0.0265 + set.lift.atReference ** 2 / (Math.PI * (38.6 ** 2 / 146) * 0.8) : 0;
    const thrust = 0.5 * air.density * air.trueAirspeed ** 2 * 146 * drag;
    const { linear, residual } = freeModel({
      ...{ mass: BODY, airloads, controls: { ...still, thrust }, alpha: 0 },
      ...{ density: air.density, trueAirspeed: air.trueAirspeed },
    });
    expect(residual).toBeLessThan(1e-9);
    const free = rootsOf(linear.matrix, linear.size).filter((root) => Math.hypot(root.re, root.im) > 1e-4);
    expect(free).toHaveLength(8);
    for (const root of free) {
      const nearest = Math.min(...own.map((other) => Math.hypot(other.re - root.re, other.im - root.im)));
      expect(nearest / Math.hypot(root.re, root.im)).toBeLessThan(1e-6);
    }
    expect(() => carrierAlone({ ...carrier, stateCount: 6 }, nothing)).toThrow("rigid");
  });

  it("flies as the large jet transport of a textbook (published/etkin-reid-747)", () => {
    const reference = loadPublished("etkin-reid-747");
    const v = (name: string): number => reference.quantity(name).si;
    const mass = v("W") / STANDARD_GRAVITY;
    const [u0, rho, S, c, Iyy] = [v("u0"), v("rho"), v("S"), v("c"), v("Iy")];
    const per = 0.5 * rho * u0 * S;
    const given = printedLongitudinal({
      ...{ Xu: (per * v("CXu")) / mass, Xw: (per * v("CXalpha")) / mass },
      Zu: (per * (v("CZu") - (2 * v("W")) / (per * u0))) / mass,
      ...{ Zw: (per * v("CZalpha")) / mass, Zwdot: (0.25 * rho * c * S * v("CZalphadot")) / mass },
      ...{ Zq: (0.5 * per * c * v("CZq")) / mass, Mu: (per * c * v("Cmu")) / Iyy, Mw: (per * c * v("Cmalpha")) / Iyy },
      ...{ Mwdot: (0.25 * rho * c * c * S * v("Cmalphadot")) / Iyy, Mq: (0.5 * per * c * c * v("Cmq")) / Iyy },
    });
    const airloads = dimensionalModel({
      ...{ mass, Ixx: Iyy, Iyy, Izz: Iyy, Ixz: 0, trim: { speed: u0, alpha: 0, pitch: 0, gravity: STANDARD_GRAVITY } },
      ...{
        longitudinal: normalToFlow(given, 0),
        lateral: { ...zeroLateral, Yv: -0.05, Lbeta: -3, Nbeta: 0.6, Lp: -0.5 },
      },
      thrust: { trim: 0, direction: [1, 0, 0], point: [0, 0, 0] },
    });
    const body = { mass, Ixx: Iyy, Iyy, Izz: Iyy, Ixy: 0, Ixz: 0, Iyz: 0 };
    const environment = uniformAir({ density: rho, soundSpeed: 300, trueAirspeed: u0 });
    const carrier = rigidCarrier({
      mass: body,
      airloads,
      controls: still,
      environment,
      hinge: HINGE,
      trimLoad: nothing,
    });
    const { matrix } = carrierAlone(carrier, nothing);
    // states u, w = ż + u₀θ, q, θ of the printed matrix from those of H
    const keep = [3, 5, 7, 1];
    const A = keep.map((i) => keep.map((j) => matrix[9 * i + j]));
    A[1][2] += u0;
    for (const row of A) row[3] -= u0 * row[1];
    const foot = 0.3048;
    const unit = [foot, foot, 1, 1];
    const printed = reference
      .table("longitudinal matrix")
      .map((row) => ["u", "w", "q", "theta"].map((column) => row(column).value));
    for (const [i, row] of A.entries()) {
      for (const [j, value] of row.entries()) {
        const why =
          "SI data of three digits and g, u₀ rounded in feet; test/validation/free-modes has the exact allowance";
        const allowed = { rtol: 6e-3, atol: 1e-6, why };
        expectClose((value * unit[j]) / unit[i], printed[i][j], allowed, `row ${i + 1}, column ${j + 1}`);
      }
    }
  });
});
