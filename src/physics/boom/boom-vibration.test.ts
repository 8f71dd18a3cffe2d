import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { hangOnTip, vacuum, vacuumPair, walk } from "../../../test/support/vacuum.ts";
import { rotateToParent, rotationMatrix } from "../../math/rotation/index.ts";
import { inertiaMatrix } from "../bodies/index.ts";
import { type BoomMotions, BoomVibration, boundTravel, innerMass } from "./index.ts";

/** A Gram matrix of six motions that have nothing in common; tip, jack travel, one motion in each plane. */
function motions(): BoomMotions {
  const rows = [
    [9, 0.4, -0.6, 0.3, 0.2, -0.1],
    [0.5, 10, 0.7, 2, 1.5, 0.3],
    [-0.3, 0.8, 8, -0.5, 0.4, 1.6],
    [0.2, 1.1, -0.4, 2.5, -0.3, 0.2],
    [0.1, 0.2, 0.3, 0.1, 1, 0],
    [0.2, -0.1, 0.1, 0.3, 0, 1],
  ];
  const mass = Float64Array.from(
    rows.flatMap((a) => rows.map((b) => a.reduce((sum, value, i) => sum + value * b[i], 0))),
  );
  return { order: 6, mass, frequency: Float64Array.of(60, 90), inSwingPlane: 1 };
}

const mass = { mass: 400, Ixx: 205, Iyy: 570, Izz: 700, Ixy: 11, Ixz: 25, Iyz: -9 };
const L = 5.6;
const springs = {
  geometry: { length: L, angleDown: 0.9 },
  axial: 8e5,
  lateral: 6e4,
  tangential: { bending: 9e4, bendingDamping: 0, accumulator: 3e4, snubber: 0 },
};

/** A swinging, vibrating start far from rest: every term that follows velocities acts. */
function thrown(damping: number, tangential = springs.tangential) {
  const own = { mass, probe: [0.9, 0.1, -0.4] as const, tipMass: 130, environment: vacuum([0, 0, 0]) };
  const pair = vacuumPair({ ...own, boom: { ...springs, tangential }, motions: motions(), motionDamping: damping });
  const { motion, state } = pair;
  const { tip, snubber, vibration, carrier } = motion.layout;
  state.set([0.4, -0.3, 0.25], 10);
  [0.05, 0.6, 0.2, 1.5, -1.3, 2.4].forEach((x, i) => {
    state[tip + i] += x;
  });
  for (let i = snubber; i < carrier; i++) state[i] = i < vibration ? 0.02 : 0.01 * (1 + (i % 3));
  hangOnTip(motion, state);
  return pair;
}

/** Energy written down apart from the code: T of the tip's coordinates (length, L·swing, L·aside), travel and motions. */
function energy({ motion }: ReturnType<typeof thrown>, state: Float64Array): number {
  const { tip, snubber, vibration } = motion.layout;
  const s = motion.settings.boom!.settings;
  const I = inertiaMatrix(mass);
  let total = 0;
  for (let i = 0; i < 3; i++) {
    total += 0.5 * mass.mass * state[7 + i] ** 2 + 0.5 * 130 * state[tip + 3 + i] ** 2;
    for (let j = 0; j < 3; j++) total += 0.5 * state[10 + i] * I[3 * i + j] * state[10 + j];
  }
  const [x, y, z, u, v, w] = state.subarray(tip, tip + 6);
  const rho = Math.hypot(x, z);
  const ell = Math.hypot(rho, y);
  const rhoRate = (x * u + z * w) / rho;
  const free = motion.settings.vibration!.freeTravel;
  const n = 2;
  const at = vibration + (free ? 1 : 0);
  const rates = [
    (x * u + y * v + z * w) / ell,
    (L * (z * u - x * w)) / (rho * rho),
    (L * (rho * v - y * rhoRate)) / (ell * ell),
    ...(free ? [state[vibration]] : []),
    state[at + n],
    state[at + n + 1],
  ];
  const { mass: M, inner } = innerMass(motions(), free ? undefined : 0);
  const order = 3 + inner;
  for (let i = 0; i < order; i++) {
    for (let j = 0; j < order; j++) {
      const own = M[i * order + j] - (i === j && i < 3 ? 130 : 0);
      total += 0.5 * rates[i] * own * rates[j];
    }
  }
  const swing = L * (Math.atan2(z, -x) - s.geometry.angleDown);
  const travel = free ? state[snubber] : 0;
  total += 0.5 * s.axial * (ell - L) ** 2 + 0.5 * s.lateral * (L * Math.atan2(y, rho)) ** 2;
  total += 0.5 * s.tangential.bending * (swing - travel) ** 2;
  if (free) total += 0.5 * s.tangential.accumulator * travel ** 2;
  return total + 0.5 * (60 * state[at]) ** 2 + 0.5 * (90 * state[at + 1]) ** 2;
}

describe("bending motions of the boom in time", () => {
  it.each([
    { jack: "free", path: springs.tangential },
    { jack: "rigid", path: { ...springs.tangential, accumulator: Infinity } },
  ])("keep the energy of a wild motion, jack $jack", ({ path }) => {
    const pair = thrown(0, path);
    const start = energy(pair, pair.state);
    const drift = (step: number): number => {
      let worst = 0;
      walk(pair.motion, pair.state, step, Math.round(0.4 / step), (state) => {
        worst = Math.max(worst, Math.abs(energy(pair, state) / start - 1));
      });
      return worst;
    };
    const [coarse, fine] = [drift(4e-4), drift(2e-4)];
    expect(fine).toBeLessThan(1e-7);
    // order four and better: what is left is the step's
    expect(coarse / Math.max(fine, 1e-13)).toBeGreaterThan(8);
  });

  it("lose it with structural damping, at every step", () => {
    const pair = thrown(0.02);
    let before = Infinity;
    walk(pair.motion, pair.state, 2e-4, 1000, (state, index) => {
      if (index % 20 !== 0) return;
      const now = energy(pair, state);
      expect(now).toBeLessThan(before);
      before = now;
    });
  });

  it("leave the joint closed", () => {
    const { motion, state } = thrown(0);
    const end = walk(motion, state, 2e-4, 1000, () => {});
    const R = new Float64Array(9);
    rotationMatrix(end, 3, R);
    const arm = Float64Array.of(0.9, 0.1, -0.4);
    rotateToParent(R, arm, 0, arm, 0);
    for (let i = 0; i < 3; i++)
      expectClose(end[i] + arm[i], end[motion.layout.tip + i], { atol: 1e-6, why: "drawn back" });
  });
});

describe("inertia with a bound jack travel", () => {
  it("is that of the shape in which the travel follows the tip", () => {
    const own = motions();
    const { inner, mass: M } = innerMass(own, 1);
    expect(inner).toBe(2);
    // s = x: the sum of the two shapes
    const m = (i: number, j: number) => own.mass[6 * i + j];
    expectClose(M[5 + 1], m(1, 1) + 2 * m(1, 3) + m(3, 3), { rtol: 1e-14, why: "sum" });
    expectClose(M[5 + 4], m(1, 5) + m(3, 5), { rtol: 1e-14, why: "sum" });
    expectAllClose(innerMass(own, 0).mass.subarray(0, 3), own.mass.subarray(0, 3), { rtol: 0, why: "the same" });
    expect(innerMass(own, undefined).inner).toBe(3);
  });

  it("follows from the path", () => {
    const rates = { bending: 1, bendingDamping: 0, accumulator: 1, snubber: 1 };
    expect(boundTravel(rates)).toBe(undefined);
    expect(boundTravel({ ...rates, snubber: Infinity })).toBe(0);
    expect(boundTravel({ ...rates, accumulator: Infinity })).toBe(0);
    expect(boundTravel({ ...rates, bending: Infinity })).toBe(1);
  });

  it("needs a jack to travel", () => {
    const { order, mass: whole, ...rest } = motions();
    const still = whole.map((value, at) => (Math.floor(at / order) === 3 || at % order === 3 ? 0 : value));
    const rates = { bending: 1, bendingDamping: 0, accumulator: 1, snubber: 1 };
    const build = () =>
      new BoomVibration({ order, mass: still, ...rest }, rates, { tipMass: 1, length: 5, damping: 0 });
    expect(build).toThrow("the boom needs a jack");
  });
});
