import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { heldPendulumSquare, pendulumPeriod } from "./closed-form.ts";

const GRAVITY = 9.80665;

describe("pendulumPeriod", () => {
  it("equals the energy integral by quadrature", () => {
    // T = 4√(L/g)·∫₀^{π/2} dφ/√(1 − κ² sin²φ), κ = sin(θ/2): periodic and analytic, so that equal weights converge fast
    for (const amplitude of [0.1, 1, 2, 3]) {
      const square = Math.sin(amplitude / 2) ** 2;
      const count = 4096;
      let sum = 0;
      for (let i = 0; i < count; i++) sum += 1 / Math.sqrt(1 - square * Math.sin((Math.PI * (i + 0.5)) / count) ** 2);
      const period = 2 * Math.sqrt(7 / GRAVITY) * (Math.PI / count) * sum;
      expectClose(pendulumPeriod(GRAVITY, 7, amplitude), period, { rtol: 1e-13, why: "both are exact to rounding" });
    }
  });

  it("grows from the small-swing period as 1 + θ²/16", () => {
    const small = 2 * Math.PI * Math.sqrt(7 / GRAVITY);
    expect(pendulumPeriod(GRAVITY, 7, 0)).toBe(small);
    const growth = pendulumPeriod(GRAVITY, 7, 0.02) / small - 1;
    expectClose(growth, 0.02 ** 2 / 16, { rtol: 1e-3, why: "next term of the series, 11θ²/192" });
  });
});

describe("heldPendulumSquare", () => {
  const rod = { mass: 200, length: 7, gravity: GRAVITY, ownMass: 0, ownCentre: 0 };

  it("is g/L hanging free and k/m lying level", () => {
    const hanging = { ...rod, angleDown: Math.PI / 2, stiffness: 0 };
    expectClose(heldPendulumSquare(hanging), GRAVITY / 7, { rtol: 1e-15, why: "same expression" });
    const level = { ...rod, angleDown: 0, stiffness: 5e4 };
    expectClose(heldPendulumSquare(level), 250, { rtol: 1e-15, why: "same expression" });
  });

  it("is unstable standing upright", () => {
    const upright = { ...rod, angleDown: -Math.PI / 2, stiffness: 0 };
    expectClose(heldPendulumSquare(upright), -GRAVITY / 7, { rtol: 1e-15, why: "same expression" });
  });

  it("is the second derivative of the potential over the inertia", () => {
    const held = { ...rod, angleDown: 0.9, stiffness: 3e4, ownMass: 150, ownCentre: 3.2 };
    const weightMoment = (held.mass * held.length + held.ownMass * held.ownCentre) * GRAVITY;
    const potential = (angle: number): number =>
      -weightMoment * (Math.sin(angle) - Math.cos(held.angleDown) * (angle - held.angleDown)) +
      0.5 * held.stiffness * held.length ** 2 * (angle - held.angleDown) ** 2;
    const h = 1e-3;
    const at = (steps: number): number => potential(held.angleDown + steps * h);
    const second = (-at(2) + 16 * at(1) - 30 * at(0) + 16 * at(-1) - at(-2)) / (12 * h * h);
    const square = second / (held.mass * held.length ** 2);
    expectClose(heldPendulumSquare(held), square, { rtol: 1e-8, why: "differences of order four, step 1e-3" });
  });
});
