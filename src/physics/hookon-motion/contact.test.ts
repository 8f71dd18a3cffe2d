import { describe, expect, it } from "vitest";
import {
  frictionExtremes,
  slideAlongWall,
  springStop,
  twoBodies,
} from "../../../reference/analytic/contact-cases/closed-form.ts";
import { loadPublished } from "../../../reference/load.ts";
import { bareEnergy, bareMotion, placeHead, unwatched } from "../../../test/support/bare-contact.ts";
import { expectClose } from "../../../test/support/close.ts";
import { testSocket } from "../../../test/support/hookon-pair.ts";
import { bufferPeak, twoMassImpact } from "../socket/index.ts";
import * as at from "./layout.ts";
import * as by from "./parameter-layout.ts";

const elastic = { stiffness: 2e6, restitution: 1, restitutionAt: 1, friction: 0, creepSpeed: 0.02 };
const socket = testSocket();
const seated = socket.funnel.mouthFromGimbal - socket.funnel.coneDepth - socket.funnel.boreDepth + socket.probe.radius;

describe("two bodies meet on the seat", () => {
  it.each([0.2, 0.5, 0.8, 1])("give back the share %d of the speed at which it holds", (restitution) => {
    const contact = { ...elastic, restitution, restitutionAt: 2 };
    const motion = bareMotion({ mass: 1000, tipMass: 5000, socket: { contact } });
    placeHead(motion, [seated + 0.01, 0, 0], [2, 0, 0]);
    motion.advance(1, unwatched);
    const { after1, after2, lost } = twoBodies(1000, 5000, 2, 0, restitution);
    const why = "integration of the contact";
    expectClose(motion.X[at.X_VELOCITY], after1, { rtol: 2e-5, atol: 1e-4, why }, "probe");
    expectClose(motion.X[at.X_TIP_VELOCITY], after2, { rtol: 2e-5, why }, "socket");
    const { impulse, energyLost } = twoMassImpact([1000, 5000], 2, restitution);
    expectClose(motion.X[at.X_IMPULSE], impulse, { rtol: 2e-5, why }, "impulse");
    expectClose(energyLost, lost, { rtol: 1e-12, atol: 1e-9, why: "two closed forms" });
  });

  it("never pulls: a body that leaves fast feels nothing", () => {
    const motion = bareMotion({ mass: 1000, tipMass: 5000, socket: { contact: { ...elastic, restitution: 0.1 } } });
    placeHead(motion, [seated - 0.001, 0, 0], [-5, 0, 0]);
    motion.refresh();
    expect(motion.W[at.W_EVENTS + at.EVENT_SEAT]).toBeLessThan(0);
    expect(Math.hypot(...motion.W.subarray(at.W_FORCE, at.W_FORCE + 3))).toBe(0);
  });
});

describe("a mass on a spring", () => {
  it("against an elastic stop: published/spring-stop-case", () => {
    const [row] = loadPublished("spring-stop-case").cells("data");
    const [m, k, K, v] = [row.mass.si, row.spring.si, row.stop.si, row.speed.si];
    const expected = springStop(m, k, K, v);
    // the tip on its axial spring, boom along −x, runs the seat against a probe that does not move
    const motion = bareMotion({
      ...{ mass: 1e15, tipMass: m },
      socket: { contact: { ...elastic, stiffness: K } },
      change: (P) => {
        P[by.P_AXIAL] = k;
        P[by.P_ANGLE] = 0;
      },
    });
    motion.X.set([-motion.P[by.P_LENGTH], 0, 0], at.X_TIP);
    motion.X.set([-motion.P[by.P_LENGTH] - seated, 0, 0]);
    motion.X[at.X_TIP_VELOCITY] = -v;
    let [travel, force] = [0, 0];
    const marks: number[] = [];
    motion.refinement = 0.1;
    motion.advance(0.05, {
      step() {
        travel = Math.max(travel, -motion.X[at.X_TIP] - motion.P[by.P_LENGTH]);
        force = Math.max(force, motion.W[at.W_NORMAL]);
        return true;
      },
      event(which, rising) {
        if (which === at.EVENT_SEAT && rising) marks.push(motion.time);
        return true;
      },
    });
    expectClose(travel, expected.travel, { rtol: 1e-4, why: "peak between steps" });
    expectClose(force, expected.force, { rtol: 1e-4, why: "peak between steps" });
    expectClose(marks[0], expected.time, { rtol: 1e-7, why: "event location" });
    expectClose(motion.X[at.X_IMPULSE], expected.impulse, { rtol: 1e-6, why: "integration of order four" });
  });

  it("with Coulomb friction: extremes of the tilting funnel fall by 2·M_f/k each half cycle", () => {
    const gimbal = { ...socket.gimbal, centring: 400, damping: 0, friction: 8, inertia: 1.5, stop: 1 };
    const motion = bareMotion({
      ...{ mass: 1000, tipMass: 1e9, socket: { gimbal } },
      change: (P) => {
        P[by.P_GIMBAL + 3] = 1e-3;
      },
    });
    placeHead(motion, [3, 0, 0], [0, 0, 0]);
    motion.U[at.U_NEAR] = 0;
    motion.X[at.X_TILT] = 0.3;
    const extremes = [0.3];
    let before = 0;
    motion.refinement = 0.5;
    motion.advance(1.2, {
      step() {
        const rate = motion.X[at.X_TILT_RATE];
        if (before * rate < 0) extremes.push(motion.X[at.X_TILT]);
        before = rate;
        return true;
      },
      event: () => true,
    });
    const expected = frictionExtremes(0.3, 8, 400, 5);
    expect(extremes.length).toBeGreaterThanOrEqual(5);
    expected.forEach((value, i) => {
      expectClose(extremes[i], value, { atol: 4e-4, why: "friction fades over 1 mrad/s" }, `extreme ${i}`);
    });
  });

  it("with friction under a pressed contact: a head that slides on the seat", () => {
    // the tip is pushed onto a probe that does not move, and swings sideways on its lateral spring
    const [push, k, mu] = [4000, 2e4, 0.1];
    const motion = bareMotion({
      ...{ mass: 1e15, tipMass: 200 },
      socket: {
        contact: { ...elastic, restitution: 0.3, friction: mu, creepSpeed: 2e-3 },
        funnel: { ...socket.funnel, throatRadius: 0.25 },
      },
      change: (P) => {
        P[by.P_PRELOAD] = -push;
        P[by.P_LATERAL] = k;
        P[by.P_ANGLE] = 0;
        P[by.P_LENGTH] = 1e4;
      },
    });
    motion.X.set([-1e4, 0.08, 0], at.X_TIP);
    motion.X.set([-1e4 - seated + push / elastic.stiffness, 0, 0]);
    // pushed outwards along −x, the length's own geometric stiffness is push/L: nothing
    const extremes = [0.08];
    let before = 0;
    motion.refinement = 0.5;
    motion.advance(1.0, {
      step() {
        const rate = motion.X[at.X_TIP_VELOCITY + 1];
        if (before * rate < 0) extremes.push(motion.X[at.X_TIP + 1]);
        before = rate;
        return true;
      },
      event: () => true,
    });
    const expected = frictionExtremes(0.08, mu * push, k, 2);
    expectClose(extremes[1], expected[1], { atol: 8e-4, why: "friction fades over 2 mm/s" });
  });
});

describe("the cone", () => {
  it.each([
    [0.2, 0.4],
    [0.6, 0.15],
    [0.9, 1.5],
  ])("half angle %d rad, friction %d: slides in, or sticks", (alpha, friction) => {
    const coneDepth = 0.25 / Math.tan(alpha);
    const force = 2000;
    const motion = bareMotion({
      ...{ mass: 500, tipMass: 1e12 },
      socket: {
        contact: { ...elastic, restitution: 0.05, friction, creepSpeed: 5e-3 },
        funnel: { ...socket.funnel, mouthRadius: 0.3, throatRadius: 0.05, coneDepth, mouthFromGimbal: coneDepth + 0.1 },
      },
      change: (P) => {
        // the thrust presses along the axis
        P[by.P_THRUST] = 1;
        P[by.P_ENGINE + 1] = force;
        P[by.P_ENGINE + 2] = force;
      },
    });
    const along = 0.1 + 0.6 * coneDepth;
    const wall = 0.05 + 0.25 * 0.6;
    const depth = (force * Math.sin(alpha)) / elastic.stiffness;
    placeHead(motion, [along, wall - (socket.probe.radius - depth) / Math.cos(alpha), 0], [0, 0, 0]);
    motion.X[at.X_CONTROLS + 3] = force;
    motion.advance(0.15, unwatched);
    const speed = Math.hypot(motion.X[at.X_VELOCITY], motion.X[at.X_VELOCITY + 1]);
    const expected = slideAlongWall(500, force, alpha, friction) * 0.15;
    // creep: μ·sin α·v/√(v² + v_c²) = cos α where it sticks
    expectClose(speed, expected, { rtol: 0.03, atol: 8e-3, why: "friction fades below 5 mm/s" });
  });
});

describe("the buffer", () => {
  it("takes the energy of the probe: travel and force in closed form", () => {
    const buffer = {
      ...{ preload: 1500, stiffness: 4e4, compressionDamping: 0, extensionDamping: 0 },
      ...{ stroke: 0.12, bottomStiffness: 2e6, headMass: 0.5 },
    };
    for (const [speed, bottomed] of [
      [0.6, false],
      [1.3, true],
    ] as const) {
      const contact = { ...elastic, stiffness: 5e7, restitution: 0.2 };
      const motion = bareMotion({ mass: 600, tipMass: 1e12, socket: { contact, buffer } });
      placeHead(motion, [seated + 1e-4, 0, 0], [speed, 0, 0]);
      let [travel, force, struck] = [0, 0, false];
      motion.advance(1.2, {
        step() {
          travel = Math.max(travel, motion.X[at.X_BUFFER]);
          if (motion.X[at.X_BUFFER] > 0.9 * travel) force = Math.max(force, motion.W[at.W_NORMAL]);
          return true;
        },
        event(which, rising) {
          struck ||= which === at.EVENT_BOTTOM && rising;
          return true;
        },
      });
      const peak = bufferPeak(buffer, 0.5 * 600 * speed * speed);
      expect(struck).toBe(bottomed);
      expect(peak.bottomed).toBe(bottomed);
      expectClose(travel, peak.travel, { rtol: 0.01, why: "energy in the light head and in the contact" });
      expect(force).toBeGreaterThan(0.97 * peak.force);
    }
  });

  it("comes back to its stop without rebound, and keeps the momentum", () => {
    const buffer = { ...socket.buffer, compressionDamping: 300, extensionDamping: 300, stiffness: 4e3 };
    const motion = bareMotion({
      mass: 600,
      tipMass: 120,
      socket: { buffer, contact: { ...elastic, restitution: 0.6 } },
    });
    placeHead(motion, [seated + 0.01, 0, 0], [1.5, 0, 0]);
    const switched: number[] = [];
    motion.advance(1.5, {
      step: () => true,
      event(which, rising) {
        if (which === at.EVENT_BUFFER && (motion.U[at.U_BUFFER_HELD] > 0 || rising)) switched.push(motion.time);
        return true;
      },
    });
    expect(switched.length).toBeGreaterThanOrEqual(2);
    expect(motion.U[at.U_BUFFER_HELD]).toBe(1);
    const momentum = 600 * motion.X[at.X_VELOCITY] + 120 * motion.X[at.X_TIP_VELOCITY];
    expectClose(momentum, 900, { rtol: 1e-9, why: "nothing outside" });
  });
});

describe("energy and order", () => {
  /** A head that bounces about in a funnel that tilts, the tip on springs: energy and state after a time. */
  function bounce(refinement: number, contact: typeof elastic, watch?: (energy: number) => void, turned = 1) {
    const gimbal = { ...socket.gimbal, damping: 0, friction: 0, centring: 900, inertia: 4 };
    const motion = bareMotion({
      ...{ mass: 300, tipMass: 150, socket: { contact, gimbal } },
      change: (P) => {
        P[by.P_AXIAL] = 8e5;
        P[by.P_LATERAL] = 3e5;
        P[by.P_ELASTIC + 1] = 1e5;
        P[by.P_GIMBAL + 4] = 0.05;
        P[by.P_CONTACT + 2] *= turned;
      },
    });
    placeHead(motion, [0.3, 0.08, 0.1], [1.2, -0.4, 0.2]);
    motion.refinement = refinement;
    motion.refresh();
    const start = bareEnergy(motion);
    let events = 0;
    motion.advance(0.12, {
      step() {
        watch?.(bareEnergy(motion) / start);
        return true;
      },
      event() {
        events++;
        return true;
      },
    });
    return { drift: Math.abs(bareEnergy(motion) / start - 1), state: motion.X.slice(), events };
  }

  it("without friction the energy is kept with order four, through contacts and stops", () => {
    const runs = [2, 1, 0.5].map((refinement) => bounce(refinement, { ...elastic, stiffness: 4e5 }));
    expect(runs[0].events).toBeGreaterThan(3);
    expect(runs[1].drift).toBeLessThan(1e-5);
    // order five for the energy where there is no dissipation but the method's own
    expect(runs[0].drift / runs[1].drift).toBeGreaterThan(10);
    expect(runs[1].drift / runs[2].drift).toBeGreaterThan(10);
  });

  it("the state converges with order four across events", () => {
    const contact = { ...elastic, stiffness: 4e5, restitution: 0.6, friction: 0.1, creepSpeed: 0.2 };
    const [a, b, c, fine] = [1, 0.5, 0.25, 0.0625].map((refinement) => bounce(refinement, contact).state);
    const gap = (x: Float64Array): number => Math.hypot(...[0, 1, 2, 13, 14, 15, 21, 22].map((i) => x[i] - fine[i]));
    const orders = [Math.log2(gap(a) / gap(b)), Math.log2(gap(b) / gap(c))];
    for (const order of orders) expect(order).toBeGreaterThan(3.5);
  });

  it("friction and dissipation never make energy", () => {
    let largest = 1;
    let rise = 0;
    let before = 1;
    bounce(0.5, { ...elastic, restitution: 0.4, friction: 0.3, creepSpeed: 0.05 }, (energy) => {
      rise = Math.max(rise, energy - before);
      before = energy;
      largest = Math.max(largest, energy);
    });
    expect(rise).toBeLessThan(1e-9);
    expect(before).toBeLessThan(0.9);
    // a sign turned in the friction would give energy
    let wrong = 1;
    const give = (energy: number): void => {
      wrong = Math.max(wrong, energy);
    };
    bounce(0.5, { ...elastic, restitution: 1, friction: 0.3, creepSpeed: 0.05 }, give, -1);
    expect(wrong).toBeGreaterThan(1.001);
  });
});

it("refuses a funnel that the head does not pass", () => {
  const { funnel } = socket;
  const motion = () => bareMotion({ mass: 1, tipMass: 1e3, socket: { funnel: { ...funnel, throatRadius: 0.03 } } });
  expect(motion).toThrow("throat radius");
});
