import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { type Root, rootsOf } from "../../../test/validation/hooked-support.ts";
import {
  airNearCarrier,
  type CarrierFlow,
  type HookedPair,
  hookedPair,
  linearise,
  STANDARD_GRAVITY,
  steadyCarrier,
  uniformAir,
} from "./index.ts";

/** Downwash ε at the full speed, changing by so much per metre farther below than 5.4 m. */
function downwash(speed: number, angle: number, perMetre = 0): CarrierFlow {
  return {
    evaluate(below, out) {
      const e = angle + perMetre * (below - 5.4);
      out.set([speed * (1 - Math.cos(e)), 0, speed * Math.sin(e)]);
    },
  };
}
const settings = longshore({ revision: "Rev B", weightShare: 0.1 });
const V = settings.air.trueAirspeed;
const rest = (pair: HookedPair): number => {
  const rate = new Float64Array(pair.state.length);
  pair.motion.derivative(0, pair.state, rate);
  return Math.max(...rate.map(Math.abs));
};
const longitudinal = (pair: HookedPair): Root[] => {
  const linear = linearise(pair.motion, pair.state);
  return rootsOf(linear.matrix, linear.size).filter((root) => root.im > 0.5);
};

describe("air that the carrier moves", () => {
  it("leaves everything as it is when it does not move", () => {
    const plain = hookedPair(settings);
    const none = hookedPair({ ...settings, flow: downwash(V, 0) });
    expectAllClose(none.state, plain.state, { atol: 0, why: "nothing changed" });
    expect(none.trim.controls.elevator).toBe(plain.trim.controls.elevator);
  });

  it("is in the trim: everything rests, and the deflected stream tilts lift into drag", () => {
    const e = 0.02;
    const pair = hookedPair({ ...settings, flow: downwash(V, e) });
    expect(rest(pair)).toBeLessThan(1e-8);
    const plain = hookedPair(settings);
    expectClose(pair.trim.alpha - plain.trim.alpha, e, {
      rtol: 0.05,
      why: "lift for the same weight, drag tilted too",
    });
    const lift = 0.9 * settings.mass.mass * STANDARD_GRAVITY;
    const more = pair.trim.f_onV_byTip_H[0] - plain.trim.f_onV_byTip_H[0];
    expectClose(more, lift * e, { rtol: 0.05, why: "first order in the angle" }, "tow load");
  });

  it("is balanced by aileron and rudder where it comes from the side", () => {
    const side: CarrierFlow = {
      evaluate(_below, out) {
        out.set([0, 0.02 * V, 0]);
      },
    };
    const pair = hookedPair({ ...settings, flow: side });
    expect(pair.trim.outcome).toBe("trimmed");
    expect(rest(pair)).toBeLessThan(1e-8);
    // air that goes right comes from the left: sideslip −0.02, which the directional stability turns into rudder
    const { yaw } = settings.derivatives;
    expect(Math.sign(pair.trim.controls.rudder)).toBe(Math.sign((yaw.beta * 0.02) / yaw.rudder));
    // and the side force by it goes into the tip: pushed right, held left
    expect(pair.trim.f_onV_byTip_H[1]).toBeLessThan(0);
  });

  it("turns a stream with the carrier and takes the place below it in carrier axes", () => {
    const carrier = steadyCarrier();
    const [c, s] = [Math.cos(0.3), Math.sin(0.3)];
    // nose up by 0.3 rad, hinge moved
    carrier.rotation.set([c, 0, s, 0, 1, 0, -s, 0, c]);
    carrier.hinge.set([1, 2, 3]);
    const seen: number[] = [];
    const flow: CarrierFlow = {
      evaluate(below, out) {
        seen.push(below);
        out.set([1, 2, 5]);
      },
    };
    const air = { ...settings.air };
    const out = {
      ...{ gravity: new Float64Array(3), airVelocity: new Float64Array(3), airRotation: new Float64Array(3) },
      ...{ airAcceleration: new Float64Array(3), density: 0, soundSpeed: 0 },
    };
    airNearCarrier(uniformAir(air), carrier, flow).evaluate(Float64Array.of(1 - 4, 2, 3 + 5), out, 0);
    expectClose(seen[0], -4 * s + 5 * c, { rtol: 1e-12, why: "projection" });
    const expected = [-V + c + 5 * s, 2, -s + 5 * c];
    expectAllClose(out.airVelocity, expected, { atol: 1e-12, why: "rotation" });
  });

  it("acts as a spring by its gradient: more downwash below presses down, the c.g. held by the air less", () => {
    const at = (perMetre: number): Root[] =>
      longitudinal(hookedPair({ ...settings, flow: downwash(V, 0.02, perMetre) }));
    const soft = at(0.02).map((root) => Math.hypot(root.re, root.im));
    const plain = at(0).map((root) => Math.hypot(root.re, root.im));
    const hard = at(-0.02).map((root) => Math.hypot(root.re, root.im));
    const least = (sizes: number[]): number => Math.min(...sizes.filter((size) => size > 2.8));
    expect(least(soft)).not.toBe(least(plain));
    expect(Math.sign(least(hard) - least(plain))).toBe(-Math.sign(least(soft) - least(plain)));
    // the trim is that of the place and does not see the gradient but through the place itself
    const [a, b] = [0.02, -0.02].map((slope) => hookedPair({ ...settings, flow: downwash(V, 0.02, slope) }));
    expect(rest(a)).toBeLessThan(1e-8);
    expect(rest(b)).toBeLessThan(1e-8);
  });
});
