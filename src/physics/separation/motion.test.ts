import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { noAir, vacuum, vacuumPair } from "../../../test/support/vacuum.ts";
import {
  attachedPair,
  type CarrierPort,
  type Environment,
  freeMassCarrier,
  STANDARD_GRAVITY,
  steadyCarrier,
  uniformAir,
} from "../bodies/index.ts";
import { controlsFixed } from "../pilot/index.ts";
import {
  dropWithLift,
  loadFactorStep,
  SeparationAirloads,
  SeparationMotion,
  type SeparationSettings,
  type SeparationStep,
  separationColumn,
  withdrawalTime,
} from "./index.ts";

const SIZE = separationColumn("inside") + 1;
const mass = { mass: 2600, Ixx: 2050, Iyy: 5700, Izz: 7000, Ixy: 0, Ixz: 250, Iyz: 0 };
const ANGLE = 0.9;
const [cosine, sine] = [Math.cos(ANGLE), Math.sin(ANGLE)];
/** Straight aft, in boom axes. */
const AFT = [cosine, -sine, 0] as const;
const DEPTH = 0.15;

interface Options {
  /** Acceleration aft that stands for the drag [m/s²]. */
  readonly drag?: number;
  readonly friction?: number;
  readonly sealFriction?: number;
  readonly carrier?: CarrierPort;
  readonly steps: readonly SeparationStep[];
  readonly side?: number;
  readonly arm?: number;
}

/** A body on a stiff boom that is pulled aft like a flag, nothing else acting. */
function flag({
  drag = 2,
  friction = 0,
  sealFriction = 0,
  carrier,
  steps,
  side = 0,
  arm = 2.2,
}: Options): SeparationMotion {
  const environment: Environment = vacuum([-drag, side, 0]);
  const pull = mass.mass * drag;
  const held = vacuumPair({
    ...{ mass, probe: [arm, 0, 0] as const, tipMass: 120, environment },
    boom: {
      geometry: { length: 5.6, angleDown: ANGLE },
      // the tip's effective mass has inertia alone
      preload: { tension: pull * cosine, tangential: -pull * sine, lateral: side * mass.mass },
      ...{ axial: 4e7, axialDamping: 4e4, lateral: 4e7, lateralDamping: 4e4 },
      tangential: { bending: 4e7, bendingDamping: 4e4, accumulator: 0, snubber: Number.POSITIVE_INFINITY },
    },
  });
  return new SeparationMotion({
    held: { motion: held.motion, state: held.state, links: [] },
    socket: [],
    bore: {
      ...{ axis: AFT, depth: DEPTH, axial: 2e7, axialDamping: 2e4, lateral: 2e7, lateralDamping: 2e4 },
      ...{ friction, sealFriction, creepSpeed: 0.002 },
    },
    carrier: carrier ?? steadyCarrier(),
    environment,
    airloads: new SeparationAirloads(noAir, null),
    law: controlsFixed,
    ...{ steps, startWithin: 0.5, startTravel: 0.01 },
  });
}
const openNose: SeparationStep = { time: 0, kind: "open nose" };

describe("withdrawal", () => {
  it.each([0.8, 2, 5])("takes the time of uniform acceleration without friction: %s m/s²", (drag) => {
    const run = flag({ drag, steps: [openNose] }).run(2, 0.1);
    expect(run.withdrawal).toBe("withdrawn");
    const expected = withdrawalTime(DEPTH, mass.mass * drag, mass.mass)!;
    expectClose(run.leftAt!, expected, {
      rtol: 0.02,
      why: "steps of 1 ms; the boom tip springs back by its stretch of a fraction of a millimetre",
    });
    expectClose(run.exitSpeed!, Math.sqrt(2 * drag * DEPTH), { rtol: 0.03, why: "as above" });
  });

  it("is slowed by friction by just what friction takes", () => {
    const sealFriction = 2000;
    const run = flag({ drag: 2, sealFriction, steps: [openNose] }).run(2, 0.1);
    expectClose(run.leftAt!, withdrawalTime(DEPTH, mass.mass * 2 - sealFriction, mass.mass)!, {
      rtol: 0.02,
      why: "creep below 2 mm/s; steps of 1 ms",
    });
    expect(run.offered!).toBeGreaterThan(run.needed!);
  });

  it("hangs up when friction can hold what the drag offers", () => {
    const run = flag({ drag: 0.5, sealFriction: 1600, steps: [openNose] }).run(1, 0.1);
    expect(run.withdrawal).toBe("hang-up");
    expect(run.leftAt).toBeNull();
    expectClose(run.offered!, 1300, { rtol: 0.01, why: "m·a" });
    expectClose(run.needed!, 1600, { rtol: 1e-12, why: "declared" });
  });

  it("side load times friction holds too", () => {
    const held = flag({ drag: 0.5, side: 4, arm: 0, friction: 0.2, steps: [openNose] }).run(1, 0.1);
    expectClose(held.needed!, 0.2 * mass.mass * 4, { rtol: 0.01, why: "side load m·a of the body" });
    expect(held.withdrawal).toBe("hang-up");
    expect(flag({ drag: 0.5, side: 4, arm: 0, friction: 0.05, steps: [openNose] }).run(1.5, 0.1).withdrawal).toBe(
      "withdrawn",
    );
  });

  it("starts only when the nose is commanded, and a cut probe does not slide", () => {
    const late = flag({ steps: [{ time: 0.4, kind: "open nose" }] }).run(2, 0.1);
    expectClose(late.leftAt! - 0.4, withdrawalTime(DEPTH, 2, 1)!, { rtol: 0.02, why: "as above" });
    const cut = flag({ steps: [{ time: 0.4, kind: "cut probe" }] }).run(1, 0.1);
    expect(cut.withdrawal).toBe("cut");
    expectClose(cut.leftAt!, 0.4, { atol: 1e-9, why: "at once" });
  });
});

describe("both bodies", () => {
  it("keep their common momentum whatever opens", () => {
    const carrierMass = 50e3;
    const load = new Float64Array(6);
    // nothing balances the pull of the flag, so that the sum of momenta grows by the outer force alone
    const carrier = freeMassCarrier(carrierMass, load);
    const run = flag({ drag: 2, sealFriction: 500, carrier, steps: [{ time: 0.3, kind: "open nose" }] });
    const course = run.run(1.2, 0.05);
    const { layout } = run.motion;
    expect(layout.carrier).toBeGreaterThan(0);
    const at = (row: number, name: Parameters<typeof separationColumn>[0]): number =>
      course.values[row * SIZE + separationColumn(name)];
    const momentum = (row: number): number => {
      const before = Math.max(0, row - 1);
      const dt = at(row, "time") - at(before, "time");
      const hinge = dt > 0 ? (at(row, "hingeX") - at(before, "hingeX")) / dt : 0;
      const tip = dt > 0 ? (at(row, "tipX") - at(before, "tipX")) / dt : 0;
      return mass.mass * at(row, "vx") + 120 * tip + carrierMass * hinge;
    };
    const last = course.rows - 1;
    expectClose(momentum(last), -2 * mass.mass * at(last, "time"), {
      rtol: 0.03,
      why: "velocities of hinge and tip from rows 50 ms apart lag by half a row",
    });
  });
});

/** The demo pair, three point. */
function threePoint(steps: readonly SeparationStep[], change: Partial<SeparationSettings> = {}): SeparationMotion {
  const settings = longshore({ revision: "Rev B" });
  const leg = { stiffness: 12e6, damping: 2e4, clearance: 0 };
  const pin = (y: number) => ({
    name: y < 0 ? "left" : "right",
    pin: [-0.75, y, -0.62] as const,
    root: [-2.843, y > 0 ? 0.6 : -0.6, 0.23] as const,
    along: leg,
    lateral: { stiffness: 5e5, damping: 4e3, clearance: 0 },
  });
  const held = attachedPair({ pair: settings, pitch: 0.02, elevator: 0, pins: [pin(-0.55), pin(0.55)] });
  expect(held.outcome).toBe("trimmed");
  const angle = settings.boom.angleDown;
  return new SeparationMotion({
    held,
    socket: [],
    bore: {
      axis: [Math.cos(angle), -Math.sin(angle), 0],
      ...{ depth: DEPTH, axial: 5e6, axialDamping: 4e3, lateral: 2e7, lateralDamping: 8e3 },
      ...{ friction: 0.1, sealFriction: 100, creepSpeed: 0.005 },
    },
    carrier: steadyCarrier(),
    environment: uniformAir(settings.air),
    airloads: new SeparationAirloads(settings.airloads, null),
    law: controlsFixed,
    ...{ steps, startWithin: 0.5, startTravel: 0.01 },
    ...change,
  });
}

describe("the demo pair", () => {
  it("rests on bore, hooks and pins as it hung", () => {
    const run = threePoint([]).run(0.5, 0.1);
    const first = run.values.subarray(1, 17);
    const last = run.values.subarray((run.rows - 1) * SIZE + 1, (run.rows - 1) * SIZE + 17);
    expectAllClose(last, first, { atol: 5e-5, why: "balance of the trim 1e-9; stiff springs settle" });
    expect(run.withdrawal).toBe("held");
  });

  it("turns about a pin that is stuck", () => {
    const steps: SeparationStep[] = [
      { time: 0, kind: "open pin", pin: 0 },
      { time: 0.2, kind: "cut probe" },
    ];
    // the leg points aft: it holds against the drag, and the probe would not even come out of its bore
    const nose: SeparationStep = { time: 0.2, kind: "open nose" };
    expect(threePoint([steps[0], nose]).run(1.5, 0.5).withdrawal).toBe("hang-up");
    const stuck = threePoint(steps).run(2.5, 0.05);
    const clean = threePoint([...steps, { time: 0, kind: "open pin", pin: 1 }]).run(2.5, 0.05);
    const yaw = (run: typeof stuck): number => {
      const q = run.values.subarray((run.rows - 1) * SIZE + 4, (run.rows - 1) * SIZE + 8);
      return Math.abs(Math.atan2(2 * (q[0] * q[3] + q[1] * q[2]), 1 - 2 * (q[2] ** 2 + q[3] ** 2)));
    };
    expect(yaw(stuck)).toBeGreaterThan(0.05);
    expect(yaw(clean)).toBeLessThan(0.01);
    // it stays on the leg: root to pin and pin to c.g. at most
    const at = (stuck.rows - 1) * SIZE;
    const [x, y, z] = [stuck.values[at + 1] + 2.843, stuck.values[at + 2] - 0.6, stuck.values[at + 3] - 0.23];
    expect(Math.hypot(x, y, z)).toBeLessThan(7.2);
    expect(Math.hypot(x, y, z)).toBeGreaterThan(4.5);
  });

  it("leaves faster with an airbrake and slower with thrust", () => {
    const nose: SeparationStep[] = [
      { time: 0, kind: "open pin", pin: 0 },
      { time: 0, kind: "open pin", pin: 1 },
      { time: 0.3, kind: "open nose" },
    ];
    const left = (more: readonly SeparationStep[]): number => threePoint([...nose, ...more]).run(3, 0.5).leftAt ?? 99;
    const plain = left([]);
    expect(plain).toBeLessThan(3);
    expect(left([{ time: 0.2, kind: "airbrake", dragArea: 0.3 }])).toBeLessThan(plain);
    expect(left([{ time: 0.2, kind: "move control", control: "thrust", by: 1000 }])).toBeGreaterThan(plain);
  });
});

describe("drop", () => {
  it("of a body without lift is the parabola, and the carrier's load factor steps by the weight it lost", () => {
    const environment = vacuum();
    const held = vacuumPair({
      ...{ mass, probe: [0, 0, -1] as const, tipMass: 120, environment },
      boom: {
        geometry: { length: 5.6, angleDown: Math.PI / 2 },
        preload: { tension: (mass.mass + 120) * STANDARD_GRAVITY, tangential: 0, lateral: 0 },
        ...{ axial: 4e7, axialDamping: 4e4, lateral: 0, lateralDamping: 0 },
      },
    });
    const run = new SeparationMotion({
      held: { motion: held.motion, state: held.state, links: [] },
      ...{ socket: [], carrier: steadyCarrier(), environment, law: controlsFixed },
      airloads: new SeparationAirloads(noAir, null),
      bore: {
        axis: [1, 0, 0],
        ...{ depth: 0.1, axial: 2e7, axialDamping: 2e4, lateral: 2e7, lateralDamping: 2e4 },
        ...{ friction: 0, sealFriction: 0, creepSpeed: 0.002 },
      },
      steps: [{ time: 0, kind: "cut probe" }],
      ...{ startWithin: 0.5, startTravel: 0.01 },
    }).run(1, 0.25);
    for (let row = 0; row < run.rows; row++) {
      const fallen = run.values[row * SIZE + 3] - run.values[3];
      expectClose(fallen, dropWithLift(0, STANDARD_GRAVITY, 0.25 * row), { atol: 1e-9, why: "fourth order is exact" });
    }
    expectClose(loadFactorStep(2600, 58e3, 1), 2600 / 58e3, { rtol: 1e-15, why: "definition" });
  });
});

describe("the same again", () => {
  it("gives the same bytes, also after another run", () => {
    const motion = threePoint([
      { time: 0, kind: "open pin", pin: 0 },
      { time: 0, kind: "open pin", pin: 1 },
      { time: 0.1, kind: "open nose" },
    ]);
    const first = motion.run(0.8, 0.1);
    motion.run(0.4, 0.2, (state) => {
      state[11] = 0.1;
    });
    expect(motion.run(0.8, 0.1).values).toEqual(first.values);
  });
});
