import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import {
  quaternionFromEuler,
  quaternionFromRotationVector,
  quaternionMultiply,
  rotationMatrix,
} from "../../math/rotation/index.ts";
import {
  boomAxes,
  equivalentFrictionRate,
  type LinkLoad,
  type LinkPort,
  type LinkSight,
  PinLink,
  SocketHold,
} from "./index.ts";

/** A carrier that stands anyhow and turns, an aircraft and a boom tip that move. */
function scene(): { sight: LinkSight; move: (x: readonly number[]) => LinkSight } {
  const carrierRotation = new Float64Array(9);
  const q = new Float64Array(4);
  quaternionFromEuler(0.4, -0.2, 0.3, q, 0);
  rotationMatrix(q, 0, carrierRotation);
  const carrier = {
    hinge: Float64Array.of(0.3, -0.2, 0.1),
    hingeVelocity: Float64Array.of(0.5, 0.2, -0.3),
    rotation: carrierRotation,
    angularVelocity: Float64Array.of(0.1, -0.2, 0.15),
  };
  const state = Float64Array.of(-5.2, 0.4, 3.1, 1, 0, 0, 0, 0.7, -0.4, 0.9, 0.3, -0.2, 0.25);
  quaternionFromEuler(0.2, 0.15, -0.1, state, 3);
  const build = (x: readonly number[]): LinkSight => {
    const moved = state.slice();
    for (let i = 0; i < 3; i++) moved[i] += x[i];
    const turn = new Float64Array(4);
    quaternionFromRotationVector(x[3], x[4], x[5], turn, 0);
    quaternionMultiply(state, 3, turn, 0, moved, 3);
    const rotation = new Float64Array(9);
    rotationMatrix(moved, 3, rotation);
    const tip = Float64Array.of(-3.4 + x[6], 0.3 + x[7], 4.2 + x[8]);
    return { state: moved, rotation, carrier, tip, tipVelocity: Float64Array.of(0.4, -0.3, 0.6) };
  };
  return { sight: build([0, 0, 0, 0, 0, 0, 0, 0, 0]), move: build };
}

function loadOf(link: LinkPort, sight: LinkSight): LinkLoad {
  const zero = () => new Float64Array(3);
  const load = {
    ...{ f_onV_H: zero(), m_onV_aboutVcm_V: zero(), f_onTip: zero() },
    ...{ f_onCarrier_H: zero(), m_onCarrier_aboutHo_H: zero() },
  };
  link.add(sight, load);
  return load;
}

/** −∂V by position in H, rotation in body axes and tip in carrier axes. */
function byPotential(link: LinkPort, move: (x: readonly number[]) => LinkSight): number[] {
  return Array.from({ length: 9 }, (_, i) => {
    const at = (h: number) => link.energy(move(Array.from({ length: 9 }, (__, j) => (j === i ? h : 0))));
    const slope = (h: number) => (at(h) - at(-h)) / (2 * h);
    return -(4 * slope(5e-4) - slope(1e-3)) / 3;
  });
}
const differences = { rtol: 1e-6, atol: 1e-2, why: "differences of order four of an energy of some kJ" };

const leg = new PinLink({
  ...{ pin: [-0.75, 0.55, -0.62], root: [-2.8, 0.6, 0.2], restLength: 4.1, restLateral: -0.05 },
  along: { stiffness: 4e5, damping: 0, clearance: 0.01 },
  lateral: { stiffness: 2e5, damping: 0, clearance: 0.02 },
});
const socket = new SocketHold({ probeAxis: [0, 0, -1], socketAxis: [0.6, -0.8, 0], centring: 4000, damping: 0 });

describe("a leg with its pin", () => {
  it("pushes as its strain energy says, in any pose of aircraft and carrier", () => {
    const { sight, move } = scene();
    const load = loadOf(leg, sight);
    expect(Math.abs(leg.tension)).toBeGreaterThan(1e4);
    expect(Math.abs(leg.lateralLoad)).toBeGreaterThan(1e4);
    expectAllClose([...load.f_onV_H, ...load.m_onV_aboutVcm_V, ...load.f_onTip], byPotential(leg, move), differences);
  });
  it("loads the carrier with the reaction, along one line for both", () => {
    const { sight } = scene();
    const load = loadOf(leg, sight);
    const R = sight.rotation;
    const [m0, m1, m2] = load.m_onV_aboutVcm_V;
    const mH = [0, 1, 2].map((i) => R[3 * i] * m0 + R[3 * i + 1] * m1 + R[3 * i + 2] * m2);
    const arm = [0, 1, 2].map((i) => sight.state[i] - sight.carrier.hinge[i]);
    const f = load.f_onV_H;
    const cross = [arm[1] * f[2] - arm[2] * f[1], arm[2] * f[0] - arm[0] * f[2], arm[0] * f[1] - arm[1] * f[0]];
    for (let i = 0; i < 3; i++) {
      expectClose(load.f_onCarrier_H[i], -f[i], { rtol: 1e-14, why: "reaction" });
      const why = "no net moment about the hinge";
      expectClose(load.m_onCarrier_aboutHo_H[i], -(mH[i] + cross[i]), { rtol: 1e-11, atol: 1e-7, why });
    }
  });
  it("takes energy with its dampers, whatever moves", () => {
    const { settings } = leg;
    const loose = { stiffness: 0, clearance: 0 };
    const damped = new PinLink({ ...settings, along: { ...loose, damping: 900 }, lateral: { ...loose, damping: 500 } });
    const { sight } = scene();
    const load = loadOf(damped, sight);
    // power on the aircraft and on the carrier together
    const { carrier, state } = sight;
    const dot = (a: ArrayLike<number>, b: ArrayLike<number>) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
    const power =
      dot(load.f_onV_H, state.subarray(7, 10)) +
      dot(load.m_onV_aboutVcm_V, state.subarray(10, 13)) +
      dot(load.f_onCarrier_H, carrier.hingeVelocity) +
      dot(load.m_onCarrier_aboutHo_H, carrier.angularVelocity);
    expect(power).toBeLessThan(-10);
  });
});

describe("a socket that centres", () => {
  it("turns the aircraft and swings the boom as its strain energy says", () => {
    const { sight, move } = scene();
    const load = loadOf(socket, sight);
    expect(Math.hypot(...load.m_onV_aboutVcm_V)).toBeGreaterThan(100);
    expectAllClose(
      [...load.f_onV_H, ...load.m_onV_aboutVcm_V, ...load.f_onTip],
      byPotential(socket, move),
      differences,
    );
  });
  it("has springs whose slopes are those of its tilt", () => {
    // with the axes in line the energy is ½k·(sum of squares of both travels)
    const { sight, move } = scene();
    const U = new Float64Array(9);
    boomAxes(sight.tip, U);
    const C = sight.carrier.rotation;
    const n = [0, 1, 2].map((k) => [0, 1, 2].reduce((sum, i) => sum - C[3 * i + k] * sight.rotation[3 * i + 2], 0));
    const axis = [0, 1, 2].map((k) => U[k] * n[0] + U[3 + k] * n[1] + U[6 + k] * n[2]);
    const settings = { ...socket.settings, socketAxis: [axis[0], axis[1], axis[2]] as const };
    const aligned = new SocketHold(settings);
    expect(aligned.energy(sight)).toBeLessThan(1e-12);
    const springs = aligned.springs(sight);
    const x = [0, 0, 0, 2e-3, -1e-3, 1.5e-3, 4e-3, -3e-3, 2e-3];
    // the slopes of the tip are in H
    const inH = [0, 1, 2].map((i) => C[3 * i] * x[6] + C[3 * i + 1] * x[7] + C[3 * i + 2] * x[8]);
    const travels = springs.map(({ slope }) => [...x.slice(0, 6), ...inH].reduce((sum, v, i) => sum + v * slope[i], 0));
    const energy = travels.reduce((sum, t) => sum + 0.5 * settings.centring * t * t, 0);
    expectClose(aligned.energy(move(x)), energy, { rtol: 5e-3, why: "first order in motions of a few 1e-3" });
  });
  it("rubs against the relative rate alone, with the work of its equivalent rate", () => {
    const [M, theta, omega] = [120, 0.02, 5];
    const c = equivalentFrictionRate(M, theta, omega);
    let [dry, viscous] = [0, 0];
    const n = 20000;
    for (let i = 0; i < n; i++) {
      const rate = theta * omega * Math.cos((2 * Math.PI * (i + 0.5)) / n);
      dry += (M * Math.abs(rate) * 2 * Math.PI) / n;
      viscous += (c * rate * rate * 2 * Math.PI) / n;
    }
    expectClose(viscous, dry, { rtol: 1e-6, why: "midpoint rule over a cycle" });
    const { sight } = scene();
    const friction = { moment: M, fadeRate: 1e-4 };
    const rubbing = loadOf(new SocketHold({ ...socket.settings, centring: 0, friction }), sight);
    expectClose(Math.hypot(...rubbing.m_onV_aboutVcm_V), M, { rtol: 1e-6, why: "a rate far above the one that fades" });
  });
});
