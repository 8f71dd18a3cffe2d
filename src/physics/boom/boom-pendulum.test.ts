import { describe, expect, it } from "vitest";
import { heldPendulumSquare, pendulumPeriod } from "../../../reference/analytic/pendulum/closed-form.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { type EventSpec, integrate } from "../../math/ode/index.ts";
import { BoomSprings, type BoomSpringsSettings } from "./index.ts";

const GRAVITY = 9.80665;
const MASS = 200;
const LENGTH = 7;
const slack = { bending: 0, bendingDamping: 0, accumulator: 0, snubber: 0 };

/** A mass on the tip under gravity: load that the boom carries at rest at an angle, its own weight included. */
function boomAtRest(angleDown: number, change: Partial<BoomSpringsSettings> = {}): BoomSprings {
  const { ownMass = 0, ownCentre = 0 } = change;
  const normal = GRAVITY * Math.cos(angleDown);
  return new BoomSprings({
    geometry: { length: LENGTH, angleDown },
    preload: {
      tension: MASS * GRAVITY * Math.sin(angleDown),
      tangential: MASS * normal + ((ownMass * ownCentre) / LENGTH) * normal,
      lateral: 0,
    },
    ...{ axial: 1e8, axialDamping: 0, lateral: 0, lateralDamping: 0, ownMass, ownCentre },
    tangential: slack,
    ...change,
  });
}

/** State: tip position and velocity, and the snubber travel when the path has one. */
function motionOf(boom: BoomSprings) {
  const gravity = Float64Array.of(0, 0, GRAVITY);
  return (_t: number, y: Float64Array, out: Float64Array): void => {
    boom.evaluate(y.subarray(0, 3), y.subarray(3, 6), gravity, boom.stateCount === 1 ? y[6] : 0);
    for (let i = 0; i < 3; i++) {
      out[i] = y[3 + i];
      out[3 + i] = boom.force[i] / MASS + gravity[i];
    }
    if (boom.stateCount === 1) out[6] = boom.snubberRate;
  };
}
function swingUntil(boom: BoomSprings, y0: number[], to: number, value?: EventSpec["value"]) {
  return integrate({
    derivative: motionOf(boom),
    ...{ y0, from: 0, to, relativeTolerance: 1e-10, absoluteTolerance: 1e-11, maxSteps: 200_000 },
    ...(value === undefined ? {} : { events: [{ value, terminal: true }] }),
  });
}
/** Quarter of a period: from rest aside of the hanging position until the tip passes below the hinge. */
function quarter(boom: BoomSprings, amplitude: number, plane: "swing" | "lateral"): number {
  const [away, below] = [LENGTH * Math.sin(amplitude), LENGTH * Math.cos(amplitude)];
  const y0 = plane === "swing" ? [-away, 0, below, 0, 0, 0] : [0, away, below, 0, 0, 0];
  const passed = swingUntil(boom, y0, 5, (_t, y) => (plane === "swing" ? y[0] : y[1]));
  expect(passed.outcome).toBe("event");
  return passed.t;
}

describe("a mass on a boom without swing stiffness", () => {
  it.each(["swing", "lateral"] as const)("is a pendulum of any amplitude, %s", (plane) => {
    for (const amplitude of [0.05, 1]) {
      const period = pendulumPeriod(GRAVITY, LENGTH, amplitude);
      const found = 4 * quarter(boomAtRest(Math.PI / 2), amplitude, plane);
      expectClose(
        found,
        period,
        { rtol: 1e-5, why: "the boom stretches by m·g/k_r = 2e-5 m of 7 m" },
        `${amplitude} rad`,
      );
    }
  });

  it("nears the rigid rod with order one in the axial compliance", () => {
    const period = pendulumPeriod(GRAVITY, LENGTH, 1);
    const error = (axial: number): number => 4 * quarter(boomAtRest(Math.PI / 2, { axial }), 1, "swing") - period;
    expectClose(error(1e6) / error(2e6), 2, { rtol: 0.02, why: "next order and the ringing of the stretch" });
  });

  it("keeps its energy", () => {
    const boom = boomAtRest(Math.PI / 2, { axial: 1e5, lateral: 3e3 });
    const energy = (y: ArrayLike<number>): number => {
      const length = Math.hypot(y[0], y[1], y[2]);
      const kinetic = 0.5 * MASS * (y[3] ** 2 + y[4] ** 2 + y[5] ** 2);
      const aside = LENGTH * Math.asin(y[1] / length);
      const stretch = length - LENGTH;
      return (
        kinetic - MASS * GRAVITY * y[2] + MASS * GRAVITY * stretch + 0.5 * 1e5 * stretch ** 2 + 0.5 * 3e3 * aside ** 2
      );
    };
    const start = [-3, 1, 6, 0.5, -1, 0.3];
    const end = swingUntil(boom, start, 20);
    expect(end.outcome).toBe("reached");
    expectClose(energy(end.y), energy(start), {
      atol: 1e-3,
      why: "tolerance 1e-10 of the steps over 20 s; energy 8e3 J",
    });
  });
});

describe("a mass on a held boom", () => {
  const cases = [
    ["hanging, heavy boom", Math.PI / 2, { ownMass: 150, ownCentre: 3.2 }, 0],
    ["52°, spring and heavy boom", (52 * Math.PI) / 180, { ownMass: 150, ownCentre: 3.2 }, 30e3],
    ["52°, light boom", (52 * Math.PI) / 180, { ownMass: 0, ownCentre: 0 }, 30e3],
    ["above the hinge", -0.6, { ownMass: 150, ownCentre: 3.2 }, 2e3],
  ] as const;

  it.each(cases)("rests at trim: %s", (_name, angleDown, own) => {
    const boom = boomAtRest(angleDown, own);
    const out = new Float64Array(6);
    motionOf(boom)(0, Float64Array.from([...boom.tipAtTrim(), 0, 0, 0]), out);
    expectAllClose(
      out,
      new Float64Array(6),
      { atol: 1e-8, why: "round-off of the length times 1e8 N/m" },
      "rate of the state",
    );
  });

  it.each(cases)("swings about trim at the closed-form frequency: %s", (_name, angleDown, own, stiffness) => {
    const tangential = { ...slack, bending: 2 * stiffness, accumulator: 2 * stiffness };
    const boom = boomAtRest(angleDown, { ...own, tangential, axial: 1e9 });
    const square = heldPendulumSquare({
      ...{ mass: MASS, length: LENGTH, angleDown, gravity: GRAVITY, stiffness },
      ...own,
    });
    expect(square).toBeGreaterThan(0);
    const amplitude = 1e-3;
    const angle = angleDown + amplitude;
    const y0 = [-LENGTH * Math.cos(angle), 0, LENGTH * Math.sin(angle), 0, 0, 0];
    // two passes of the trim angle are half a period apart; the first is a quarter from the start
    const passed = swingUntil(boom, y0, 10, (_t, y) => Math.atan2(y[2], -y[0]) - angleDown);
    expect(passed.outcome).toBe("event");
    const found = Math.PI / (2 * passed.t);
    expectClose(found, Math.sqrt(square), { rtol: 2e-4, why: "amplitude 1 mrad and a boom of 1e9 N/m" }, "ω");
  });

  it("loses energy to the snubber, and comes to rest at trim", () => {
    const tangential = { bending: 60e3, bendingDamping: 0, accumulator: 60e3, snubber: 4e3 };
    const boom = boomAtRest(0.9, { tangential, axial: 1e6, axialDamping: 8e3 });
    const start = [-LENGTH * Math.cos(0.95), 0, LENGTH * Math.sin(0.95), 0, 0, 0, 0];
    const end = swingUntil(boom, start, 30);
    expect(end.outcome).toBe("reached");
    expectAllClose(end.y, [...boom.tipAtTrim(), 0, 0, 0, 0], { atol: 1e-5, why: "decayed over 30 s" }, "state");
  });
});
