import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { hangOnTip, type VacuumPair, vacuum, vacuumPair } from "../../../test/support/vacuum.ts";
import { dampingRatio, type Root, rootsOf } from "../../../test/validation/hooked-support.ts";
import { hookedMass, hookedPair, linearise, type MassProperties } from "./index.ts";

const g = 9.80665;
const mass: MassProperties = { mass: 2600, Ixx: 2050, Iyy: 5700, Izz: 7000, Ixy: 0, Ixz: 250, Iyz: 0 };
const weightless = vacuum([0, 0, 0]);
const GAMMA = 0.9;
const [c, s] = [Math.cos(GAMMA), Math.sin(GAMMA)];

function roots(pair: VacuumPair): Root[] {
  const { motion, state } = vacuumPair(pair);
  const linear = linearise(motion, state);
  return rootsOf(linear.matrix, linear.size);
}
/** The oscillation whose circular frequency |λ| is nearest to a value [rad/s]. */
function near(all: readonly Root[], omega: number): Root {
  const size = (root: Root): number => Math.abs(Math.hypot(root.re, root.im) - omega);
  return all.filter((root) => root.im > 0).sort((a, b) => size(a) - size(b))[0];
}
const omegaOf = (root: Root): number => Math.hypot(root.re, root.im);

/** Boom that carries a weight at its tip: preload by the weight along and across it. */
const carrying = (weight: number) => ({ tension: weight * s, tangential: weight * c, lateral: 0 });
const stiff = (k: number) => ({
  axial: k,
  lateral: k,
  tangential: { bending: k, bendingDamping: 0, accumulator: Number.POSITIVE_INFINITY, snubber: 0 },
});

describe("pendulum", () => {
  const hanging = (probe: readonly [number, number, number], k: number): VacuumPair => {
    // at rest the probe stands above the c.g.: turned by θ about y, (x, z) has to become (0, −d)
    const pitch = Math.atan2(probe[0], -probe[2]);
    return { mass, probe, pitch, tipMass: 100, boom: { preload: carrying(mass.mass * g), ...stiff(k) } };
  };

  it.each([0, 0.6, 2.2])("swings in pitch as √(mgd/(I + md²)), probe %s m ahead of the c.g.", (ahead) => {
    const d = Math.hypot(ahead, 0.85);
    const omega = Math.sqrt((mass.mass * g * d) / (mass.Iyy + mass.mass * d * d));
    const error = [1e9, 1e10].map((k) => omegaOf(near(roots(hanging([ahead, 0, -0.85], k)), omega)) / omega - 1);
    expect(Math.abs(error[1])).toBeLessThan(1e-5);
    // a yielding boom can only be slower, in proportion to 1/k
    expect(error[0]).toBeLessThan(0);
    expectClose(error[0] / error[1], 10, { rtol: 0.02, why: "first order in the compliance" });
  });

  it("swings in roll with the moment of inertia about x, and turns freely in yaw", () => {
    const plain = { ...mass, Ixz: 0 };
    const omega = Math.sqrt((mass.mass * g * 0.85) / (mass.Ixx + mass.mass * 0.85 ** 2));
    const all = roots({ ...hanging([0, 0, -0.85], 1e10), mass: plain });
    expectClose(omegaOf(near(all, omega)), omega, { rtol: 1e-5, why: "compliance of the boom" }, "roll");
    expect(all.filter((root) => omegaOf(root) < 1e-4)).toHaveLength(2);
  });

  it("falls over when it stands on the probe, as fast as it would swing below", () => {
    const d = 0.85;
    const all = roots({ ...hanging([0, 0, d], 1e10), pitch: 0 });
    const omega = Math.sqrt((mass.mass * g * d) / (mass.Iyy + mass.mass * d * d));
    const growing = all.filter((root) => root.im === 0 && root.re > 0.1).map((root) => Math.abs(root.re - omega));
    expect(Math.min(...growing)).toBeLessThan(1e-5);
  });

  it("swings the boom itself on its tension alone", () => {
    // a point mass on a boom that hangs straight down: √(g/L) both ways, from tension over length
    const pair = {
      mass,
      probe: [0, 0, 0] as const,
      boom: {
        geometry: { length: 5, angleDown: Math.PI / 2 },
        preload: { tension: mass.mass * g, tangential: 0, lateral: 0 },
        axial: 1e7,
      },
    };
    const swings = roots(pair).filter((root) => root.im > 0.1 && omegaOf(root) < 10);
    expect(swings).toHaveLength(2);
    for (const root of swings) expectClose(omegaOf(root), Math.sqrt(g / 5), { rtol: 1e-9, why: "closed form" });
  });
});

describe("one spring alone", () => {
  const probe = [2.2, 0, -0.85] as const;
  const directions = {
    axial: [-c, 0, s],
    lateral: [0, 1, 0],
    tangential: [s, 0, c],
  } as const;
  const springOf = {
    axial: (k: number, rate: number) => ({ axial: k, axialDamping: rate }),
    lateral: (k: number, rate: number) => ({ lateral: k, lateralDamping: rate }),
    tangential: (k: number, rate: number) => ({
      tangential: { bending: Number.POSITIVE_INFINITY, bendingDamping: 0, accumulator: k, snubber: rate },
    }),
  };

  it.each(["axial", "lateral", "tangential"] as const)("carries a point mass as a damped spring, %s", (direction) => {
    const [k, rate, tipMass] = [4e5, 9e3, 130];
    const boom = { ...springOf[direction](k, rate), geometry: { length: 5.6, angleDown: GAMMA } };
    const all = roots({ mass, probe: [0, 0, 0], tipMass, boom, environment: weightless });
    const total = mass.mass + tipMass;
    const root = near(all, Math.sqrt(k / total));
    expectClose(omegaOf(root), Math.sqrt(k / total), { rtol: 1e-9, why: "closed form" }, "ω₀ = √(k/m)");
    expectClose(dampingRatio(root), rate / (2 * Math.sqrt(k * total)), { rtol: 1e-9, why: "closed form" }, "ζ");
    // nothing else is held
    expect(all.filter((other) => omegaOf(other) > 1e-3)).toHaveLength(2);
  });

  it.each(["axial", "lateral", "tangential"] as const)("feels the apparent mass at the probe, %s", (direction) => {
    const k = 4e5;
    // the tip's own mass would also move across the spring in the plane, not so sideways
    const tipMass = direction === "lateral" ? 130 : 0;
    const boom = { ...springOf[direction](k, 0), geometry: { length: 5.6, angleDown: GAMMA } };
    const moved = hookedMass(mass, probe, tipMass, directions[direction]);
    const root = near(roots({ mass, probe, tipMass, boom, environment: weightless }), Math.sqrt(k / moved));
    expectClose(omegaOf(root), Math.sqrt(k / moved), { rtol: 1e-9, why: "closed form" });
    expect(moved).toBeLessThan(mass.mass);
  });

  it("gives the apparent mass in any direction to a force at the probe", () => {
    const skew = { ...mass, Ixy: 110, Iyz: -90 };
    const arm = [2.2, 0.4, -0.85] as const;
    // boom pulling along n with 1 kN, hinge far enough behind that nothing turns
    for (const angleDown of [0.2, 1.1, 2.9]) {
      const n = [-Math.cos(angleDown), 0, Math.sin(angleDown)] as const;
      const boom = { geometry: { length: 5, angleDown }, preload: { tension: -1000, tangential: 0, lateral: 0 } };
      const { motion, state } = vacuumPair({ mass: skew, probe: arm, boom, environment: weightless });
      motion.derivative(0, state, new Float64Array(state.length));
      const along = [0, 1, 2].reduce((sum, i) => sum + motion.acceleration[6 + i] * n[i], 0);
      expectClose(along, 1000 / hookedMass(skew, arm, 0, n), { rtol: 1e-10, why: "round-off" }, `Γ ${angleDown}`);
    }
  });

  it("damps each boom spring with the structural damping ratio that was asked for", () => {
    for (const direction of ["axial", "lateral", "tangential"] as const) {
      const settings = longshore({ boom: { effectiveTipMass: direction === "lateral" ? 120 : 0, snubber: 0 } });
      const pair = hookedPair(settings);
      const s = pair.motion.settings.boom!.settings;
      const none = { bending: 0, bendingDamping: 0, accumulator: 0, snubber: 0 };
      const boom = {
        axial: { axial: s.axial, axialDamping: s.axialDamping },
        lateral: { lateral: s.lateral, lateralDamping: s.lateralDamping },
        tangential: { tangential: { ...s.tangential, accumulator: Number.POSITIVE_INFINITY } },
      }[direction];
      const k = { axial: 6e6, lateral: 6e5, tangential: 60e3 }[direction];
      const all = roots({
        mass: settings.mass,
        probe: settings.probe,
        pitch: pair.trim.alpha,
        tipMass: settings.boom.effectiveTipMass,
        boom: { geometry: s.geometry, tangential: none, ...boom },
        environment: weightless,
      });
      const omega = Math.sqrt(k / pair.hookedMass[direction]);
      const root = near(all, omega);
      expectClose(omegaOf(root), omega, { rtol: 1e-8, why: "closed form" }, `${direction} ω₀`);
      expectClose(dampingRatio(root), 0.015, { rtol: 1e-7, why: "closed form" }, `${direction} ζ`);
    }
  });
});

describe("relaxing tangential path", () => {
  const path = { bending: 9e4, bendingDamping: 240, accumulator: 2e4, snubber: 3500 };
  const onPath = (heavy: number): Root[] =>
    roots({
      mass: { ...mass, mass: heavy },
      probe: [0, 0, 0],
      boom: { tangential: path },
      environment: weightless,
    }).filter((root) => omegaOf(root) > 1e-6);

  it("has the three roots of a mass on a spring with a parallel snubber in series", () => {
    // m·λ²·(k_b + k_a + (c + c_b)·λ) + (k_b + c_b·λ)·(k_a + c·λ) = 0
    const m = 2600;
    const { bending: kb, bendingDamping: cb, accumulator: ka, snubber } = path;
    const coefficients = [kb * ka, kb * snubber + cb * ka, m * (kb + ka) + cb * snubber, m * (snubber + cb)];
    const found = onPath(m);
    expect(found).toHaveLength(3);
    // Vieta: sum, sum of pair products, product
    const real = found.find((root) => root.im === 0)!;
    const pair = found.find((root) => root.im > 0)!;
    const size = pair.re ** 2 + pair.im ** 2;
    const close = { rtol: 1e-9, why: "closed form" };
    expectClose(-(2 * pair.re + real.re), coefficients[2] / coefficients[3], close, "sum");
    expectClose(size + 2 * pair.re * real.re, coefficients[1] / coefficients[3], close, "pair products");
    expectClose(-size * real.re, coefficients[0] / coefficients[3], close, "product");
  });

  it("relaxes at (k_b + k_a)/(c + c_b) behind a very heavy aircraft", () => {
    const { bending, bendingDamping, accumulator, snubber } = path;
    const rate = (bending + accumulator) / (snubber + bendingDamping);
    const real = onPath(1e9).filter((root) => root.im === 0);
    expect(real).toHaveLength(1);
    expectClose(real[0].re, -rate, { rtol: 1e-5, why: "mass of 10⁹ kg instead of infinite" });
  });

  it("pulls with its static series stiffness when it has settled", () => {
    const { motion, state } = vacuumPair({
      mass,
      probe: [0, 0, 0],
      boom: { tangential: path },
      environment: weightless,
    });
    const { tip, snubber } = motion.layout;
    // 10 mm towards a larger angle along the arc, of which the accumulator takes k_b/(k_a + k_b)
    const angle = GAMMA + 0.01 / 5;
    state.set([-5 * Math.cos(angle), 0, 5 * Math.sin(angle)], tip);
    state[snubber] = (0.01 * path.bending) / (path.bending + path.accumulator);
    hangOnTip(motion, state);
    const rate = new Float64Array(state.length);
    motion.derivative(0, state, rate);
    expectClose(rate[snubber], 0, { atol: 1e-12, why: "settled" });
    const force = -0.01 / (1 / path.bending + 1 / path.accumulator);
    const e = [Math.sin(angle), 0, Math.cos(angle)];
    for (let i = 0; i < 3; i++) {
      expectClose(rate[tip + 3 + i], (force * e[i]) / mass.mass, { atol: 1e-12, why: "round-off" }, `axis ${i}`);
    }
  });
});
