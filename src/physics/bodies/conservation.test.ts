import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { hangOnTip, type VacuumPair, vacuum, vacuumPair, walk } from "../../../test/support/vacuum.ts";
import { quaternionFromEuler, rotateToParent, rotationMatrix } from "../../math/rotation/index.ts";
import { freeMassCarrier, inertiaMatrix, type PairMotion } from "./index.ts";

const mass = { mass: 2600, Ixx: 2050, Iyy: 5700, Izz: 7000, Ixy: 110, Ixz: 250, Iyz: -90 };
const G = [0.4, -0.3, 9.7] as const;
const springs = {
  geometry: { length: 5.6, angleDown: 0.9 },
  preload: { tension: 2000, tangential: 900, lateral: -300 },
  axial: 8e5,
  axialDamping: 0,
  lateral: 6e5,
  lateralDamping: 0,
  tangential: { bending: 9e4, bendingDamping: 0, accumulator: 3e4, snubber: 0 },
  ownMass: 85,
  ownCentre: 2.5,
};
const hooked: VacuumPair = { mass, probe: [2.2, 0.15, -0.85], tipMass: 130, boom: springs, environment: vacuum(G) };

/** A swinging, turning start that has nothing to do with a trim. */
function thrown(pair: VacuumPair): { motion: PairMotion; state: Float64Array } {
  const { motion, state } = vacuumPair(pair);
  quaternionFromEuler(0.3, -0.2, 0.5, state, 3);
  state.set([0.4, -0.3, 0.25], 10);
  const { tip, snubber, carrier } = motion.layout;
  for (const [i, x] of [0.05, -0.1, 0.2, 0.5, -0.3, 0.4].entries()) state[tip + i] += x;
  if (carrier > snubber) state[snubber] = 0.03;
  hangOnTip(motion, state);
  return { motion, state };
}

/** Tip in polar coordinates about a hinge at rest, and their rates. */
function polar(motion: PairMotion, state: Float64Array) {
  const [x, y, z, u, v, w] = state.subarray(motion.layout.tip);
  const rho = Math.hypot(x, z);
  const length = Math.hypot(rho, y);
  const rhoRate = (x * u + z * w) / rho;
  return {
    length,
    swing: Math.atan2(z, -x),
    aside: Math.atan2(y, rho),
    lengthRate: (x * u + y * v + z * w) / length,
    swingRate: (z * u - x * w) / (rho * rho),
    asideRate: (rho * v - y * rhoRate) / (length * length),
  };
}

/** Kinetic energy, strain, work against the preload and height of everything, written down apart from the code. */
function energy(motion: PairMotion, state: Float64Array): number {
  const I = inertiaMatrix(mass);
  const s = motion.settings.boom!.settings;
  const { tip, snubber } = motion.layout;
  const w = state.subarray(10, 13);
  let total = 0;
  for (let i = 0; i < 3; i++) {
    total += 0.5 * mass.mass * state[7 + i] ** 2 + 0.5 * motion.settings.tipMass! * state[tip + 3 + i] ** 2;
    total -= mass.mass * G[i] * state[i];
    for (let j = 0; j < 3; j++) total += 0.5 * w[i] * I[3 * i + j] * w[j];
  }
  const at = polar(motion, state);
  const L = s.geometry.length;
  const x = L * (at.swing - s.geometry.angleDown);
  total += s.preload.tension * (at.length - L) + 0.5 * s.axial * (at.length - L) ** 2;
  total += L * s.preload.lateral * at.aside + 0.5 * s.lateral * (L * at.aside) ** 2;
  total += s.preload.tangential * x;
  const { bending, accumulator } = s.tangential;
  if (motion.layout.carrier > snubber) {
    total += 0.5 * bending * (x - state[snubber]) ** 2 + 0.5 * accumulator * state[snubber] ** 2;
  } else total += (0.5 * x * x) / (1 / bending + 1 / accumulator);
  for (let i = 0; i < 3; i++) total -= s.ownMass * G[i] * (state[tip + i] / at.length) * s.ownCentre;
  return total;
}

describe("hooked pair without air", () => {
  it("keeps energy over many cycles without damping, with the order of the integration", () => {
    const { motion, state } = thrown(hooked);
    const before = energy(motion, state);
    const steps = [0.008, 0.004];
    // 8 s: more than ten swings of the body on the boom, over 100 cycles of the axial spring
    const drift = steps.map((step) => {
      let worst = 0;
      walk(motion, state, step, 8 / step, (x) => {
        worst = Math.max(worst, Math.abs(energy(motion, x) - before));
      });
      return worst / 1e4;
    });
    expect(drift[1]).toBeLessThan(2e-3);
    expect(Math.log2(drift[0] / drift[1])).toBeGreaterThan(3.7);
  });

  it("loses energy exactly as fast as its dampers burn it, at any state", () => {
    const damped = {
      ...springs,
      axialDamping: 3000,
      lateralDamping: 700,
      tangential: { bending: 9e4, bendingDamping: 240, accumulator: 3e4, snubber: 3500 },
    };
    const { motion, state } = thrown({ ...hooked, boom: damped });
    const rate = new Float64Array(state.length);
    motion.derivative(0, state, rate);
    // dE/dt along the motion by central differences
    const step = 1e-5;
    const [ahead, back] = [1, -1].map((sign) => state.map((x, i) => x + sign * step * rate[i]));
    const power = (energy(motion, ahead) - energy(motion, back)) / (2 * step);
    const at = polar(motion, state);
    const L = 5.6;
    const acrossSnubber = rate[motion.layout.snubber];
    const burnt =
      3000 * at.lengthRate ** 2 +
      700 * (L * at.asideRate) ** 2 +
      240 * (L * at.swingRate - acrossSnubber) ** 2 +
      3500 * acrossSnubber ** 2;
    expect(burnt).toBeGreaterThan(100);
    expectClose(power, -burnt, { rtol: 1e-6, why: "central difference of the energy" }, "power");
  });

  it("keeps the angular momentum about the hinge when the boom only pulls", () => {
    const rope = { ...springs, preload: { tension: 2000, tangential: 0, lateral: 0 }, lateral: 0, ownMass: 0 };
    const none = { bending: 0, bendingDamping: 0, accumulator: 0, snubber: 0 };
    const pair = { ...hooked, boom: { ...rope, axialDamping: 4000, tangential: none }, environment: vacuum([0, 0, 0]) };
    const { motion, state } = thrown(pair);
    const R = new Float64Array(9);
    const I = inertiaMatrix(mass);
    const about = (x: Float64Array): number[] => {
      const spin = new Float64Array(3);
      for (let i = 0; i < 3; i++) for (let j = 0; j < 3; j++) spin[i] += I[3 * i + j] * x[10 + j];
      rotationMatrix(x, 3, R);
      rotateToParent(R, spin, 0, spin, 0);
      const moment = (m: number, at: number, v: number): number[] => [
        m * (x[at + 1] * x[v + 2] - x[at + 2] * x[v + 1]),
        m * (x[at + 2] * x[v] - x[at] * x[v + 2]),
        m * (x[at] * x[v + 1] - x[at + 1] * x[v]),
      ];
      const [body, tip] = [moment(mass.mass, 0, 7), moment(130, motion.layout.tip, motion.layout.tip + 3)];
      return body.map((h, i) => h + tip[i] + spin[i]);
    };
    const end = walk(motion, state, 0.004, 1000, () => {});
    const size = Math.hypot(...about(state));
    expectAllClose(about(end), about(state), { atol: 1e-7 * size, why: "integration error, order four" });
  });

  it("exchanges momentum with a carrier of finite mass and loses none", () => {
    const carrier = freeMassCarrier(50_000, new Float64Array(3));
    const tangential = { bending: 9e4, bendingDamping: 240, accumulator: 3e4, snubber: 3500 };
    const boom = { ...springs, ownMass: 0, axialDamping: 3000, lateralDamping: 700, tangential };
    const { motion, state } = thrown({ ...hooked, boom, carrier, environment: vacuum([0, 0, 0]) });
    state.set([0.2, 0.1, -0.3], motion.layout.carrier + 3);
    const { tip, carrier: at } = motion.layout;
    const total = (x: Float64Array): number[] =>
      [0, 1, 2].map((i) => mass.mass * x[7 + i] + 130 * x[tip + 3 + i] + 50_000 * x[at + 3 + i]);
    const before = total(state);
    const end = walk(motion, state, 0.005, 800, () => {});
    expectAllClose(total(end), before, { atol: 1e-10 * 50_000, why: "round-off" }, "momentum");
    // and the carrier did move: the test sees more than two constants
    expect(Math.abs(end[at + 5] - state[at + 5])).toBeGreaterThan(1e-3);
  });

  it("hands the boom's weight and the hook load to the carrier", () => {
    const carrier = freeMassCarrier(50_000, new Float64Array(3));
    const { motion, state } = vacuumPair({ ...hooked, carrier });
    const rate = new Float64Array(state.length);
    motion.derivative(0, state, rate);
    // at the trim place the boom puts its preload on the hinge, and its own weight hangs on both ends
    const [c, s] = [Math.cos(0.9), Math.sin(0.9)];
    const { tension: T, tangential: F, lateral: Y } = springs.preload;
    const along = -c * G[0] + s * G[2];
    const share = 2.5 / 5.6;
    const e = [-c, 0, s];
    const onTip = [0, 1, 2].map((i) => 85 * share * (G[i] - along * e[i]));
    const pull = [-T * c + F * s, Y, T * s + F * c];
    const expected = [0, 1, 2].map((i) => (pull[i] + 85 * G[i] - onTip[i]) / 50_000);
    const at = motion.layout.carrier + 3;
    expectAllClose(rate.subarray(at, at + 3), expected, { rtol: 1e-12, why: "round-off" }, "carrier acceleration");
  });

  it("holds probe and tip together through a violent motion", () => {
    const { motion, state } = thrown(hooked);
    const end = walk(motion, state, 0.004, 2000, () => {});
    const joined = end.slice();
    hangOnTip(motion, joined);
    expectAllClose(end.subarray(0, 3), joined.subarray(0, 3), { atol: 1e-6, why: "drift of the joint in 8 s" });
  });
});
