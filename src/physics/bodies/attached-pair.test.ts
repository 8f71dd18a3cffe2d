import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { hangOnTip, noAir, vacuum, vacuumPair, walk } from "../../../test/support/vacuum.ts";
import { createEigenWorkspace, eigenvalues } from "../../math/eigen/index.ts";
import { quaternionFromEuler, rotationMatrix } from "../../math/rotation/index.ts";
import { PinLink, SocketHold } from "../links/index.ts";
import {
  type AttachedPin,
  type AttachedSettings,
  attachedPair,
  freeMassCarrier,
  hookedPair,
  linearise,
  type PairMotion,
  pairOnTrim,
  STANDARD_GRAVITY,
  socketLinks,
} from "./index.ts";

const mass = { mass: 2600, Ixx: 2050, Iyy: 5700, Izz: 7000, Ixy: 0, Ixz: 250, Iyz: 0 };
const rigid = (stiffness: number) => ({ stiffness, damping: 0, clearance: 0 });

/** ω² of a motion without dampers, rising. */
function squares(motion: PairMotion, state: Float64Array): number[] {
  const { matrix, size, coordinates: n } = linearise(motion, state);
  const K = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) K[i * n + j] = -matrix[(n + i) * size + j];
  const [re, im] = [new Float64Array(n), new Float64Array(n)];
  expect(eigenvalues(K, n, createEigenWorkspace(n), re, im)).toBe("converged");
  return Array.from(re).sort((a, b) => a - b);
}

describe("generated/attached-independent", () => {
  const file = new URL("../../../reference/generated/attached-independent/values.json", import.meta.url);
  interface Case {
    readonly name: string;
    readonly pins: readonly ("left" | "right")[];
    readonly gravity: number;
    readonly along: Readonly<Record<"left" | "right", number>>;
    readonly position: readonly number[];
    readonly rotation: readonly number[];
    readonly omegaSquared: readonly number[];
    readonly tension: Readonly<Partial<Record<"left" | "right", number>>>;
  }
  const { cases } = JSON.parse(readFileSync(file, "utf8")) as { cases: readonly Case[] };
  it.each(cases.map((one) => [one.name, one] as const))(
    "%s: rests there, with those tensions and frequencies",
    (_, one) => {
      const pitch = 0.0128;
      const boom = {
        geometry: { length: 5.6, angleDown: 0.7 },
        ...{ axial: 6e6, lateral: 6e5 },
        tangential: { bending: 9e4, bendingDamping: 0, accumulator: 0, snubber: Number.POSITIVE_INFINITY },
      };
      const body = { mass, probe: [2.2, 0, -0.85] as const, tipMass: 120, boom, pitch };
      const drawn = vacuumPair(body).state;
      const R = new Float64Array(9);
      rotationMatrix(drawn, 3, R);
      const links = one.pins.map((name) => {
        const side = name === "left" ? -1 : 1;
        const pin = [-0.75, 0.55 * side, -0.62] as const;
        const root = [-2.843, 0.55 * side, 0.23] as const;
        const arm = [0, 1, 2].map(
          (i) => drawn[i] + R[3 * i] * pin[0] + R[3 * i + 1] * pin[1] + R[3 * i + 2] * pin[2] - root[i],
        );
        const along = rigid(one.along[name]);
        return new PinLink({ pin, root, restLength: Math.hypot(...arm), restLateral: 0, along, lateral: rigid(5e5) });
      });
      const { motion, state } = vacuumPair({ ...body, links, environment: vacuum([0, 0, one.gravity]) });
      const r = one.rotation;
      const w = 0.5 * Math.sqrt(1 + r[0] + r[4] + r[8]);
      state.set(one.position);
      state.set([w, (r[7] - r[5]) / (4 * w), (r[2] - r[6]) / (4 * w), (r[3] - r[1]) / (4 * w)], 3);
      rotationMatrix(state, 3, R);
      const [x, , z] = [2.2, 0, -0.85];
      for (let i = 0; i < 3; i++) state[motion.layout.tip + i] = state[i] + R[3 * i] * x + R[3 * i + 2] * z;
      motion.derivative(0, state, new Float64Array(motion.stateCount));
      for (let i = 0; i < 6; i++) expect(Math.abs(motion.acceleration[i])).toBeLessThan(2e-5);
      one.pins.forEach((name, i) => {
        const why = "rest by differences of a potential";
        expectClose(links[i].tension, one.tension[name]!, { rtol: 1e-6, atol: 0.05, why });
      });
      const found = squares(motion, state);
      const why = "second differences of a potential";
      expectAllClose(found, one.omegaSquared, { rtol: 2e-6, atol: 1e-5, why });
    },
  );
});

/** A body that hangs level from a boom that stands straight aft and from legs straight above its pins. */
function level(stiffness: number, change: Partial<AttachedPin> = {}): AttachedSettings {
  const side = (name: string, y: number): AttachedPin => ({
    ...{ name, pin: [-0.75, y, -0.62], root: [-5.6 - 2.95, y, -3.77] },
    ...{ along: rigid(stiffness), lateral: rigid(5e5) },
    ...change,
  });
  return {
    pair: {
      ...longshore(),
      ...{ mass, airloads: noAir, probe: [2.2, 0, -0.62] },
      boom: {
        ...longshore().boom,
        angleDown: 0,
        length: 5.6,
        bending: 9e4,
        snubber: Number.POSITIVE_INFINITY,
        structuralDamping: 0,
        effectiveTipMass: 0,
      },
    },
    ...{ pitch: 0, elevator: 0, pins: [side("left", -0.55), side("right", 0.55)] },
  };
}

describe("held at three points", () => {
  it("shares its weight as statics by hand says: 0.75 m and 2.20 m from the c.g.", () => {
    const { outcome, f_onV_bySocket_H: f, pins } = attachedPair(level(1e7));
    const weight = mass.mass * STANDARD_GRAVITY;
    expect(outcome).toBe("trimmed");
    const exact = { rtol: 1e-9, atol: 1e-5, why: "two unknowns in closed form" };
    expectAllClose(f, [0, 0, (-weight * 0.75) / 2.95], exact);
    for (const pin of pins) expectAllClose(pin.f_onV_H, [0, 0, (-weight * 2.2) / 2.95 / 2], exact);
    expectClose(pins[0].tension, (weight * 2.2) / 2.95 / 2, exact);
  });
  it("bounces and pitches with the closed form of a body on two springs", () => {
    const [k1, k2, a, b] = [9e4, 1e6, 2.2, 0.75];
    const leg = (y: number) =>
      new PinLink({
        ...{ pin: [-b, y, 0], root: [-5.6 - a - b, y, -3.15], restLength: 3.15, restLateral: 0 },
        ...{ along: rigid(k2), lateral: rigid(0) },
      });
    const { motion, state } = vacuumPair({
      ...{
        mass: { ...mass, Ixz: 0 },
        probe: [a, 0, 0],
        links: [leg(-0.55), leg(0.55)],
        environment: vacuum([0, 0, 0]),
      },
      boom: {
        geometry: { length: 5.6, angleDown: 0 },
        tangential: { bending: k1, bendingDamping: 0, accumulator: 0, snubber: Number.POSITIVE_INFINITY },
      },
    });
    const [m, I] = [mass.mass, mass.Iyy];
    const trace = (k1 + 2 * k2) / m + (k1 * a * a + 2 * k2 * b * b) / I;
    const split = Math.sqrt(0.25 * trace * trace - (2 * k1 * k2 * (a + b) ** 2) / (m * I));
    const found = squares(motion, state);
    const roll = (2 * k2 * 0.55 ** 2) / mass.Ixx;
    const expected = [0, 0, 0, 0.5 * trace - split, roll, 0.5 * trace + split].sort((x, y) => x - y);
    expectAllClose(found, expected, { rtol: 1e-8, atol: 1e-6, why: "differences of order four of exact laws" });
  });
  it("takes up a misfit as load that adds to nothing", () => {
    const settings = level(1e7);
    const [left, right] = settings.pins;
    const found = attachedPair({
      ...settings,
      pins: [
        { ...left, misfit: { along: 2e-4, lateral: -1e-3 } },
        { ...right, misfit: { along: 0, lateral: 1e-3 } },
      ],
    });
    expect(found.outcome).toBe("trimmed");
    const total = [0, 1, 2].map((i) => found.f_onV_bySocket_H[i] + found.pins[0].f_onV_H[i] + found.pins[1].f_onV_H[i]);
    const why = "rest to 1e-9 g";
    expectAllClose(total, [0, 0, -mass.mass * STANDARD_GRAVITY], { atol: 1e-3, why });
    expect(found.pins[0].tension).toBeLessThan(found.pins[1].tension);
    expectClose(found.pins[1].lateral, -found.pins[0].lateral, {
      rtol: 0.05,
      why: "the socket takes hardly any of it",
    });
    expect(Math.abs(found.pins[0].lateral)).toBeGreaterThan(100);
  });
  it("leans with one pin until it rests", () => {
    const settings = level(1e7);
    const found = attachedPair({ ...settings, pins: [settings.pins[0]] });
    // a body that hangs from two points in line turns until its c.g. is below that line: a quarter of a turn is no trim here
    expect(found.outcome).toBe("no trim");
    const light = longshore({ revision: "Rev B", equivalentAirspeed: 105 });
    const flying = {
      pair: light,
      pitch: 0.0128,
      elevator: 0,
      pins: [{ ...settings.pins[0], root: [-2.843, -0.55, 0.23] as const }],
    };
    const flown = attachedPair({ ...flying, pair: { ...light, boom: { ...light.boom, angleDown: 0.7 } } });
    expect(flown.outcome).toBe("trimmed");
    expect(flown.attitude[2]).toBeGreaterThan(0.02);
    motionRests(flown.motion, flown.state);
  });
  it("unloads its pins by the elevator, and is then the pair at single point", () => {
    const pair = longshore({ revision: "Rev B" });
    const pins = level(0).pins.map((pin) => ({ ...pin, lateral: rigid(0), root: [-2.843, pin.pin[1], 0.23] as const }));
    const open = attachedPair({ pair, pitch: 0.0175, elevator: "pins unloaded", pins });
    expect(open.outcome).toBe("trimmed");
    const weightShare = -open.f_onV_bySocket_H[2] / (pair.mass.mass * STANDARD_GRAVITY);
    const single = hookedPair({ ...pair, weightShare });
    expectClose(single.trim.alpha, 0.0175, { rtol: 1e-9, why: "two balances of one state" });
    expectClose(single.trim.controls.elevator, open.elevator, { rtol: 1e-9, why: "two balances of one state" });
    const [a, b] = [linearise(open.motion, open.state), linearise(single.motion, single.state)];
    expect(a.names).toEqual(b.names);
    expectAllClose(a.matrix, b.matrix, { rtol: 1e-7, atol: 1e-6, why: "linearised at two roundings of one rest" });
  });
  it("refuses no pin at all", () => {
    expect(() => attachedPair({ ...level(1e7), pins: [] })).toThrow("number of pins");
  });
});

function motionRests(motion: PairMotion, state: Float64Array): void {
  motion.derivative(0, state, new Float64Array(motion.stateCount));
  for (let i = 0; i < 6; i++) expect(Math.abs(motion.acceleration[i])).toBeLessThan(1e-6);
}

describe("links in motion", () => {
  const springs = {
    geometry: { length: 5.6, angleDown: 0.9 },
    preload: { tension: 2000, tangential: 900, lateral: -300 },
    ...{ axial: 8e5, lateral: 6e5 },
    tangential: { bending: 9e4, bendingDamping: 0, accumulator: 0, snubber: Number.POSITIVE_INFINITY },
  };
  const leg = (y: number) =>
    new PinLink({
      ...{ pin: [-0.75, y, -0.62], root: [-2.8, y, 0.2], restLength: 5.2, restLateral: 0 },
      along: { stiffness: 2e5, damping: 0, clearance: 0.02 },
      lateral: { stiffness: 1e5, damping: 0, clearance: 0.03 },
    });
  const socket = new SocketHold({ probeAxis: [0, 0, -1], socketAxis: [0.6, -0.8, 0], centring: 6000, damping: 0 });
  const thrown = (links: readonly (PinLink | SocketHold)[], carrier = {}) => {
    const pair = vacuumPair({ mass, probe: [2.2, 0.1, -0.85], tipMass: 130, boom: springs, links, ...carrier });
    quaternionFromEuler(0.1, 0.1, 0.2, pair.state, 3);
    pair.state.set([0.3, -0.2, 0.25], 10);
    hangOnTip(pair.motion, pair.state);
    return pair;
  };
  const kinetic = (motion: PairMotion, s: Float64Array): number => {
    const { tip } = motion.layout;
    const [p, q, r] = s.subarray(10, 13);
    let sum = 0.5 * (2050 * p * p + 5700 * q * q + 7000 * r * r - 500 * p * r);
    for (let i = 0; i < 3; i++) sum += 0.5 * 2600 * s[7 + i] ** 2 + 0.5 * 130 * s[tip + 3 + i] ** 2;
    return sum;
  };

  it("keep the energy of the whole", () => {
    const links = [leg(-0.55), leg(0.55), socket];
    const { motion, state } = thrown(links);
    const energy = (s: Float64Array): number => {
      motion.derivative(0, s, new Float64Array(motion.stateCount));
      const { tip } = motion.layout;
      const [x, y, z] = s.subarray(tip, tip + 3);
      const rho = Math.hypot(x, z);
      const ell = Math.hypot(rho, y);
      const swing = 5.6 * (Math.atan2(z, -x) - 0.9);
      const aside = Math.atan2(y, rho);
      let sum = kinetic(motion, s) - 2600 * STANDARD_GRAVITY * s[2];
      sum += 2000 * (ell - 5.6) + 0.5 * 8e5 * (ell - 5.6) ** 2 + 900 * swing + 0.5 * 9e4 * swing * swing;
      sum += 5.6 * -300 * aside + 0.5 * 6e5 * (5.6 * aside) ** 2;
      for (const link of links) sum += link.energy(motion.linkLoads!.view);
      return sum;
    };
    const before = energy(state);
    let [worst, pinned] = [0, 0];
    walk(motion, state, 0.001, 3000, (s) => {
      worst = Math.max(worst, Math.abs(energy(s) - before));
      pinned = Math.max(
        pinned,
        links.slice(0, 2).reduce((sum, link) => sum + link.energy(motion.linkLoads!.view), 0),
      );
    });
    expect(pinned).toBeGreaterThan(50);
    expect(worst).toBeLessThan(2e-3 * pinned);
  });

  it("give the carrier what they take from the aircraft", () => {
    const carrier = freeMassCarrier(58000, new Float64Array(3));
    const { motion, state } = thrown([leg(-0.55), leg(0.55), socket], { carrier, environment: vacuum([0, 0, 0]) });
    const at = motion.layout.carrier;
    const momentum = (s: Float64Array, i: number): number =>
      2600 * s[7 + i] + 130 * s[motion.layout.tip + 3 + i] + 58000 * s[at + 3 + i];
    const before = [0, 1, 2].map((i) => momentum(state, i));
    const end = walk(motion, state, 0.002, 800, () => {});
    expect(Math.abs(2600 * (end[7] - state[7]))).toBeGreaterThan(100);
    expectAllClose(
      [0, 1, 2].map((i) => momentum(end, i)),
      before,
      { atol: 1e-5, why: "round-off of some 1e3 N·s" },
    );
  });

  it("without stiffness leave the single point as it is", () => {
    const pair = longshore();
    const plain = hookedPair(pair);
    const none = { centring: 0, damping: 0 };
    const linked = pairOnTrim(plain.settings, plain.trim, undefined, (rest, tip) => socketLinks(none, rest, tip));
    expect(linked.motion.linkLoads).not.toBeNull();
    const [a, b] = [linearise(linked.motion, linked.state), linearise(plain.motion, plain.state)];
    expect(Array.from(a.matrix)).toEqual(Array.from(b.matrix));
  });

  it("stiffen and damp the pitch about the socket", () => {
    const pair = longshore();
    const plain = hookedPair(pair);
    const turning = { centring: 5e4, damping: 2e3 };
    const linked = pairOnTrim(plain.settings, plain.trim, undefined, (rest, tip) => socketLinks(turning, rest, tip));
    const [a, b] = [linearise(linked.motion, linked.state), linearise(plain.motion, plain.state)];
    const n = a.coordinates;
    const at = (row: number, column: number) => (n + row) * a.size + column;
    expect(a.matrix[at(4, 4)]).toBeLessThan(b.matrix[at(4, 4)]);
    expect(a.matrix[at(4, n + 4)]).toBeLessThan(b.matrix[at(4, n + 4)]);
    expect(a.matrix[at(3, n + 3)]).toBeLessThan(b.matrix[at(3, n + 3)]);
  });
});
