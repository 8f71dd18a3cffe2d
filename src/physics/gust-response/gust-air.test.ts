import { describe, expect, it } from "vitest";
import { expectAllClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { derivativeModel } from "../airloads/index.ts";
import { hookedPair, PairMotion } from "../bodies/index.ts";
import { gustAir } from "./index.ts";

/** The aircraft alone, in gusts that do not change, at a state. */
function accelerations(gust: readonly number[], move: readonly number[], alphaRate = true) {
  const settings = longshore({ revision: "Rev B" });
  const { derivatives } = settings;
  const airloads = alphaRate
    ? settings.airloads
    : derivativeModel({
        ...derivatives,
        lift: { ...derivatives.lift, alphaRate: 0 },
        pitch: { ...derivatives.pitch, alphaRate: 0 },
      });
  const pair = hookedPair(settings);
  const { environment, mass, trim, law } = pair.motion.settings;
  const V = settings.air.trueAirspeed;
  const motion = new PairMotion({
    ...{ mass, trim, law, airloads, attachment: "free" as const },
    environment: gustAir(environment, V, (_t, out) => out.set(gust)),
  });
  const state = new Float64Array(13);
  state.set(pair.state.subarray(0, 13));
  for (let i = 0; i < 3; i++) state[7 + i] = move[i]!;
  // rates of the aircraft are asked for in H here; body axes are turned by the angle of attack
  const [cos, sin] = [Math.cos(pair.trim.alpha), Math.sin(pair.trim.alpha)];
  state[10] = cos * move[3]! - sin * move[5]!;
  state[11] = move[4]!;
  state[12] = sin * move[3]! + cos * move[5]!;
  motion.derivative(0, state, new Float64Array(13));
  return [...motion.acceleration.subarray(0, 6)];
}
const still = [0, 0, 0, 0, 0, 0];

describe("gustAir", () => {
  it("no gust leaves every bit as it was", () => {
    const pair = hookedPair(longshore({ revision: "Rev B" }));
    const state = pair.state.slice();
    for (let i = 7; i < 13; i++) state[i] = 0.1 * i;
    const out = new Float64Array(state.length);
    const gusty = new Float64Array(state.length);
    pair.motion.derivative(0, state, out);
    const environment = gustAir(pair.motion.settings.environment, 120, (_t, g) => g.fill(0));
    new PairMotion({ ...pair.motion.settings, environment }).derivative(0, state, gusty);
    expect(gusty).toEqual(out);
  });

  it("moving air is the aircraft moving the other way through still air", () => {
    const close = { atol: 1e-10, why: "round-off" };
    for (let k = 0; k < 3; k++) {
      const gust = still.map((_, i) => (i === k ? 2.5 : 0));
      const move = still.map((_, i) => (i === k ? -2.5 : 0));
      expectAllClose(accelerations(gust, still), accelerations(still, move), close, `component ${k}`);
    }
  });

  it("turning air is the aircraft turning the other way, but for gyroscopic terms of second order and α̇", () => {
    // without the α̇ derivatives; products of inertia times the square of the rate remain
    const rate = 1e-5;
    for (let k = 3; k < 6; k++) {
      const gust = still.map((_, i) => (i === k ? rate : 0));
      const move = still.map((_, i) => (i === k ? -rate : 0));
      const base = accelerations(still, still, false);
      const byGust = accelerations(gust, still, false).map((a, i) => (a - base[i]!) / rate);
      const byMove = accelerations(still, move, false).map((a, i) => (a - base[i]!) / rate);
      expectAllClose(byGust, byMove, { atol: 2e-4, why: "square of the rate, round-off of a difference" }, `rate ${k}`);
    }
  });

  it("the α̇ derivatives see gust and aircraft together: downdraught growing ahead lowers the incidence", () => {
    // aircraft pitching up: α̇ = +q; a field with q of the air −q: the incidence against the air falls at the same rate
    const rate = 1e-4;
    const q = (alphaRate: boolean, gust: number, move: number): number => {
      const at = (sign: number) =>
        accelerations([0, 0, 0, 0, sign * gust, 0], [0, 0, 0, 0, sign * move, 0], alphaRate)[4]!;
      return (at(1) - at(-1)) / 2;
    };
    const byMove = q(true, 0, rate) - q(false, 0, rate);
    const byGust = q(true, -rate, 0) - q(false, -rate, 0);
    expect(byMove).toBeLessThan(0);
    // 1 %: the lift by the rate itself changes α̇ too, alike in both
    expect(Math.abs(byGust / byMove + 1)).toBeLessThan(0.02);
  });
});
