import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { coupledModes } from "../../../reference/analytic/coupled-oscillators/closed-form.ts";
import { oscillatorRoots } from "../../../reference/analytic/damped-oscillator/closed-form.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { BugError } from "../../math/errors.ts";
import { dominantMotion, type EnergyModel, MOTIONS, ModeAnalysis, modesOf, type PairMode } from "./index.ts";

// Closed forms: analytic/coupled-oscillators, analytic/damped-oscillator.
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const BODY = { mass: 2600, Ixx: 2050, Iyy: 5700, Izz: 7000, Ixy: 0, Ixz: 0, Iyz: 0 };
const [SWAY, HEAVE, PITCH, TIP_X, TIP_Y, TIP_Z] = [1, 2, 4, 6, 7, 8];
const boom = { angleDown: 0.91, length: 6.8, axial: 0, lateral: 0, bending: 0, accumulator: 0, snubberState: -1 };

/** Basis that gives each independent coordinate its place among all of them. */
function basisOf(full: number, places: readonly number[]): Float64Array {
  const basis = new Float64Array(full * places.length);
  places.forEach((i, k) => {
    basis[i * places.length + k] = 1;
  });
  return basis;
}
/** A of η̈ = −K·η − D·η̇, states [η, η̇]. */
function secondOrder(stiffness: readonly number[][], damping?: readonly number[][]): Float64Array {
  const n = stiffness.length;
  const A = new Float64Array(4 * n * n);
  for (let i = 0; i < n; i++) {
    A[i * 2 * n + n + i] = 1;
    for (let j = 0; j < n; j++) {
      A[(n + i) * 2 * n + j] = -stiffness[i][j];
      A[(n + i) * 2 * n + n + j] = -(damping?.[i][j] ?? 0);
    }
  }
  return A;
}
const byFrequency = (modes: PairMode[]): PairMode[] => [...modes].sort((a, b) => a.imag - b.imag || a.real - b.real);
const sum = (values: ArrayLike<number>): number => Array.from(values).reduce((a, b) => a + b, 0);
const computed = { rtol: 1e-9, atol: 1e-10, why: "eigenvalues and vectors of small matrices" };

describe("two masses on springs", () => {
  // carrier –k_y– boom tip (m_t) –k– aircraft (m), both moving sideways
  const closedForm = (m: number, tipMass: number, lateral: number, between: number) => {
    const mean = 0.5 * (between / m + (lateral + between) / tipMass);
    const half = 0.5 * ((lateral + between) / tipMass - between / m);
    return coupledModes({ mean, half, onFirst: -between / m, onSecond: -between / tipMass }).map((mode) => {
      const [x, y] = [mode.first[0], mode.second[0]];
      const kinetic = 0.5 * mode.imag ** 2 * (m * x * x + tipMass * y * y);
      return {
        imag: mode.imag,
        sway: (0.5 * mode.imag ** 2 * m * x * x) / kinetic,
        stored: (0.5 * lateral * y * y) / kinetic,
      };
    });
  };
  const analyse = (m: number, tipMass: number, lateral: number, between: number): PairMode[] => {
    const energy: EnergyModel = {
      mass: { ...BODY, mass: m },
      tipMass,
      basis: basisOf(9, [SWAY, TIP_Y]),
      coordinates: 2,
      boom: { ...boom, lateral },
    };
    const A = secondOrder([
      [between / m, -between / m],
      [-between / tipMass, (lateral + between) / tipMass],
    ]);
    return byFrequency(modesOf(A, 4, energy));
  };

  it("have the frequencies and energy shares of the closed form", () => {
    fc.assert(
      fc.property(
        number(500, 5000),
        number(50, 500),
        number(1e4, 1e6),
        number(1e4, 1e6),
        (m, tipMass, lateral, between) => {
          const modes = analyse(m, tipMass, lateral, between);
          expect(modes).toHaveLength(2);
          closedForm(m, tipMass, lateral, between).forEach((expected, k) => {
            expectClose(modes[k].imag, expected.imag, computed, "frequency");
            expectClose(modes[k].real, 0, { atol: 1e-9 * expected.imag, why: "no damper" });
            const motion = new Float64Array(8);
            motion[SWAY] = expected.sway;
            motion[6] = 1 - expected.sway;
            expectAllClose(modes[k].motion, motion, computed, "kinetic shares");
            expectClose(
              modes[k].strainShare,
              expected.stored,
              { ...computed, rtol: 1e-8 },
              "stored in the lateral spring",
            );
            expect(Array.from(modes[k].strain)).toEqual([0, 1, 0, 0, 0]);
            expect(modes[k].plane).toBe("lateral");
            expect(modes[k].class).toBe(modes[k].strainShare >= 0.75 ? "structural" : "rigid-body-type");
          });
        },
      ),
      { seed: 61, numRuns: 100 },
    );
  });

  it("are structural where the boom's spring restores most of the motion, and only there", () => {
    // the slow motion bends the soft link, the fast one the boom
    const [slow, fast] = analyse(2600, 120, 1e6, 1e4);
    expect([slow.class, fast.class]).toEqual(["rigid-body-type", "structural"]);
    expect(dominantMotion(slow).name).toBe("sway");
    expect(dominantMotion(fast).name).toBe("boom tip");
    // soft boom, hard link: the slow motion is both masses on the boom
    expect(analyse(2600, 120, 1e4, 1e6)[0].class).toBe("structural");
  });

  it("have shapes, weighted by mass, that are orthogonal and of unit length", () => {
    const [slow, fast] = analyse(2600, 120, 4e5, 3e5);
    for (const mode of [slow, fast]) {
      expect(mode.shape).toHaveLength(18);
      expectClose(sum(mode.shape.map((x) => x * x)), 1, computed);
    }
    let re = 0;
    let im = 0;
    for (let i = 0; i < 18; i += 2) {
      re += slow.shape[i] * fast.shape[i] + slow.shape[i + 1] * fast.shape[i + 1];
      im += slow.shape[i] * fast.shape[i + 1] - slow.shape[i + 1] * fast.shape[i];
    }
    expectClose(Math.hypot(re, im), 0, { atol: 1e-9, why: "motions of undamped masses on springs" });
  });
});

describe("a rigid body on one spring", () => {
  // probe p ahead of the centre of mass, tangential spring k at a level boom: z_tip = z − p·θ
  const [p, k, tipMass] = [2.2, 30e3, 120];
  const m = BODY.mass;
  const I = BODY.Iyy;
  const basis = new Float64Array(9 * 2);
  basis[HEAVE * 2] = 1;
  basis[PITCH * 2 + 1] = 1;
  basis[TIP_Z * 2] = 1;
  basis[TIP_Z * 2 + 1] = -p;
  const energy: EnergyModel = {
    mass: BODY,
    tipMass,
    basis,
    coordinates: 2,
    boom: { ...boom, angleDown: 0, bending: k },
  };
  // mass matrix [m + m_t, −m_t·p; −m_t·p, I + m_t·p²], stiffness k·[1, −p; −p, p²]
  const [a, b, d] = [m + tipMass, -tipMass * p, I + tipMass * p * p];
  const det = a * d - b * b;
  const K = [
    [(k * (d + b * p)) / det, (-k * p * (d + b * p)) / det],
    [(k * (-b - a * p)) / det, (k * p * (b + a * p)) / det],
  ];

  it("has the frequency of the mass that the tip feels, and leaves out the free motion", () => {
    const modes = modesOf(secondOrder(K), 4, energy);
    expect(modes).toHaveLength(1);
    const felt = tipMass + 1 / (1 / m + (p * p) / I);
    expectClose(modes[0].imag, Math.sqrt(k / felt), computed);
    // a force at the tip moves heave by 1/m and pitch by −p/I
    const [heave, pitch] = [1 / m, (p * p) / I];
    const total = heave + pitch + tipMass * (heave + pitch) ** 2;
    const expected = [0, 0, heave / total, 0, pitch / total, 0, (tipMass * (heave + pitch) ** 2) / total, 0];
    expectAllClose(modes[0].motion, expected, computed, "kinetic shares");
    expect(Array.from(modes[0].strain)).toEqual([0, 0, 1, 0, 0]);
    expectClose(modes[0].strainShare, 1, computed, "nothing else restores");
    expect([modes[0].class, modes[0].plane]).toEqual(["structural", "longitudinal"]);
  });

  it("does not care about the unit or the sign in which a coordinate is counted", () => {
    const [reference] = modesOf(secondOrder(K), 4, energy);
    const scales = fc.tuple(number(0.01, 100), number(-100, -0.01));
    fc.assert(
      fc.property(scales, (scale) => {
        // η' = scale·η: K' = S·K·S⁻¹, basis' = basis·S⁻¹
        const stiffness = K.map((row, i) => row.map((value, j) => (value * scale[i]) / scale[j]));
        const scaled = basis.map((value, i) => value / scale[i % 2]);
        const [mode] = modesOf(secondOrder(stiffness), 4, { ...energy, basis: scaled });
        expectClose(mode.imag, reference.imag, computed);
        expectAllClose(mode.motion, reference.motion, computed);
        expectAllClose(mode.strain, reference.strain, computed);
        let [re, im] = [0, 0];
        for (let i = 0; i < 18; i += 2) {
          re += mode.shape[i] * reference.shape[i] + mode.shape[i + 1] * reference.shape[i + 1];
          im += mode.shape[i] * reference.shape[i + 1] - mode.shape[i + 1] * reference.shape[i];
        }
        expectClose(Math.hypot(re, im), 1, computed, "correlation of the shapes");
      }),
      { seed: 62, numRuns: 50 },
    );
  });
});

describe("a tip on the boom's springs", () => {
  const heavy = { mass: BODY, tipMass: 2600, basis: basisOf(9, [TIP_X, TIP_Z]), coordinates: 2 };

  it("shares strain by direction along and normal to the boom", () => {
    const { angleDown } = boom;
    const [c, s] = [Math.cos(angleDown), Math.sin(angleDown)];
    const [axial, bending] = [8e6, 60e3];
    // stiffness in x and z of two springs along (−c, s) and (s, c)
    const K = [
      [(axial * c * c + bending * s * s) / 2600, ((-axial + bending) * c * s) / 2600],
      [((-axial + bending) * c * s) / 2600, (axial * s * s + bending * c * c) / 2600],
    ];
    const [swing, along] = byFrequency(modesOf(secondOrder(K), 4, { ...heavy, boom: { ...boom, axial, bending } }));
    expectClose(swing.imag, Math.sqrt(bending / 2600), computed);
    expectClose(along.imag, Math.sqrt(axial / 2600), computed);
    expectAllClose(swing.strain, [0, 0, 1, 0, 0], { atol: 1e-9, why: "all of it bends" });
    expectAllClose(along.strain, [1, 0, 0, 0, 0], { atol: 1e-9, why: "all of it stretches" });
    expect([swing.class, along.class]).toEqual(["structural", "structural"]);
    expect([swing.plane, along.plane]).toEqual(["longitudinal", "longitudinal"]);
    expectClose(along.strainShare, 1, computed);
    for (const mode of [swing, along]) expectAllClose(mode.motion, [0, 0, 0, 0, 0, 0, 1, 0], computed);
  });

  it("shares strain between bending and accumulator as the path does at the mode's own root", () => {
    fc.assert(
      fc.property(number(10, 1e5), number(-0.4, 1.5), (snubber, angleDown) => {
        const [bending, accumulator, tipMass] = [60e3, 20e3, 2600];
        // states x, z, their rates and the snubber travel s; F = k_b·(e_Γ·(x, z) − s)
        const e = [Math.sin(angleDown), Math.cos(angleDown)];
        const n = 5;
        const A = new Float64Array(n * n);
        const axial = 9e5;
        const along = [-Math.cos(angleDown), Math.sin(angleDown)];
        for (let i = 0; i < 2; i++) {
          A[i * n + 2 + i] = 1;
          for (let j = 0; j < 2; j++)
            A[(2 + i) * n + j] = -(bending * e[i] * e[j] + axial * along[i] * along[j]) / tipMass;
          A[(2 + i) * n + 4] = (bending * e[i]) / tipMass;
          A[4 * n + i] = (bending * e[i]) / snubber;
        }
        A[4 * n + 4] = -(bending + accumulator) / snubber;
        const energy = { ...heavy, boom: { ...boom, angleDown, axial, bending, accumulator, snubberState: 4 } };
        const modes = modesOf(A, n, energy);
        expect(modes.reduce((count, mode) => count + (mode.imag === 0 ? 1 : 2), 0)).toBe(n);
        for (const mode of modes) {
          expectClose(sum(mode.strain), 1, computed);
          if (mode.strain[0] > 0.5) continue;
          // s = k_b·x/(k_a + k_b + c·λ): relative travels of accumulator and boom
          const yields = [accumulator + bending + snubber * mode.real, snubber * mode.imag];
          const bent = bending * ((yields[0] - bending) ** 2 + yields[1] ** 2);
          const held = accumulator * bending ** 2;
          const expected = [0, 0, bent / (bent + held), held / (bent + held), 0];
          expectAllClose(mode.strain, expected, { rtol: 1e-5, atol: 1e-7, why: "roots near −(k_a + k_b)/c cancel" });
        }
      }),
      { seed: 63, numRuns: 100 },
    );
  });

  it("counts no strain in a boom that is rigid in bending", () => {
    const rigid = { ...heavy, boom: { ...boom, bending: Number.POSITIVE_INFINITY } };
    const [mode] = modesOf(secondOrder([[4, 0], [0, 9]]), 4, rigid); // biome-ignore format: a matrix
    expect(Array.from(mode.strain)).toEqual([0, 0, 0, 0, 0]);
    expect([mode.strainShare, mode.class]).toEqual([0, "rigid-body-type"]);
  });

  it.each([
    [0.249, "structural"],
    [0.251, "rigid-body-type"],
  ] as const)("is classed by what restores it: %f of it not the boom's makes it %s", (foreign, expected) => {
    const bending = 60e3;
    const K = [
      [bending / 2600 / (1 - foreign), 0],
      [0, 1e4],
    ];
    const energy = { ...heavy, basis: basisOf(9, [TIP_Z, TIP_X]), boom: { ...boom, angleDown: 0, bending } };
    const [mode] = byFrequency(modesOf(secondOrder(K), 4, energy));
    expectClose(mode.strainShare, 1 - foreign, computed);
    expect(mode.class).toBe(expected);
  });
});

describe("a free aircraft", () => {
  const free = (places: readonly number[], mass = BODY): EnergyModel => ({
    mass,
    tipMass: 0,
    basis: basisOf(6, places),
    coordinates: places.length,
  });

  it.each([0, 1, 2, 3, 4, 5])("names motion %i after itself, in its plane", (place) => {
    const modes = modesOf(secondOrder([[9]], [[0.6]]), 2, free([place]));
    expect(modes).toHaveLength(1);
    const [pair] = oscillatorRoots(0.6, 9);
    expectClose(modes[0].real, pair.real, computed);
    expectClose(modes[0].imag, pair.imag, computed);
    expect(dominantMotion(modes[0])).toEqual({ name: MOTIONS[place], share: 1 });
    expect(modes[0].plane).toBe([0, 2, 4].includes(place) ? "longitudinal" : "lateral");
    expect(modes[0].class).toBe("rigid-body-type");
  });

  it("counts a pair once and each real root", () => {
    const modes = modesOf(secondOrder([[9]], [[10]]), 2, free([HEAVE]));
    const expected = oscillatorRoots(10, 9);
    expect(modes.map((mode) => mode.imag)).toEqual([0, 0]);
    const found = modes.map((mode) => mode.real).sort((a, b) => b - a);
    expectAllClose(found, [expected[0].real, expected[1].real], computed);
  });

  it("leaves out neutral roots, and keeps slow ones", () => {
    // heading that nothing holds (0 and −0.5) beside a spiral of 1e-4 1/s
    const A = secondOrder([[0, 0], [0, 1e-4]], [[0.5, 0], [0, 1.0001]]); // biome-ignore format: matrices
    const modes = modesOf(A, 4, free([5, 3]));
    const found = modes.map((mode) => mode.real).sort((a, b) => a - b);
    expectAllClose(found, [-1, -0.5, -1e-4], { rtol: 1e-9, why: "roots of the quadratic" });
    // and a position that only drifts, a double root without a second vector
    expect(modesOf(secondOrder([[0]]), 2, free([SWAY]))).toEqual([]);
    const analysis = new ModeAnalysis(4);
    expect(analysis.modes(A, free([5, 3]), 0.01)).toHaveLength(2);
  });

  it("splits the product of inertia evenly, so that the shares are those of ½ωᵀIω", () => {
    const mass = { ...BODY, Ixz: 600 };
    // roll and yaw in one motion with r = ratio·p
    const ratio = 0.4;
    const basis = new Float64Array(6);
    basis[3] = 1;
    basis[5] = ratio;
    const [mode] = modesOf(secondOrder([[4]]), 2, { mass, tipMass: 0, basis, coordinates: 1 });
    const roll = BODY.Ixx - 600 * ratio;
    const yaw = ratio * (BODY.Izz * ratio - 600);
    expectAllClose(mode.motion, [0, 0, 0, roll / (roll + yaw), 0, yaw / (roll + yaw), 0, 0], computed);
  });

  it("has shares that add up to 1 whatever moves", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 72, maxLength: 72 }), (tenths) => {
        const entries = tenths.map((x) => x / 10 - 1.55);
        const A = new Float64Array(144);
        for (let i = 0; i < 6; i++) A[i * 12 + 6 + i] = 1;
        A.set(entries, 72);
        const mass = { ...BODY, Ixy: 100, Ixz: 250, Iyz: -80 };
        for (const mode of modesOf(A, 12, free([0, 1, 2, 3, 4, 5], mass))) {
          expectClose(sum(mode.motion), 1, { atol: 1e-12, why: "round-off" });
          expect(mode.imag).toBeGreaterThanOrEqual(0);
          const lateral = mode.motion[1] + mode.motion[3] + mode.motion[5];
          expect(mode.plane).toBe(lateral > 0.5 ? "lateral" : "longitudinal");
          expect(Array.from(mode.strain)).toEqual([0, 0, 0, 0, 0]);
          for (const x of mode.shape) expect(Number.isFinite(x)).toBe(true);
        }
      }),
      { seed: 64, numRuns: 50 },
    );
  });

  it("has no share in a root of a law that acts on nothing", () => {
    const A = Float64Array.of(0, 1, 0, -9, 0, 0, 0, 0, -10);
    const modes = modesOf(A, 3, free([HEAVE]));
    const law = modes.find((mode) => mode.imag === 0)!;
    expectClose(law.real, -10, computed);
    expect(sum(law.motion)).toBe(0);
    expect(dominantMotion(law)).toEqual({ name: "no motion", share: 0 });
  });

  it("refuses a matrix that is not finite", () => {
    expect(() => modesOf(Float64Array.of(0, 1, Number.NaN, 0), 2, free([HEAVE]))).toThrow(BugError);
    expect(() => modesOf(Float64Array.of(0, 1, Number.NaN, 0), 2, free([HEAVE]))).toThrow("eigenvalues: not finite");
  });

  it("gives the same roots alone", () => {
    const analysis = new ModeAnalysis(2);
    expect(analysis.roots(secondOrder([[9]], [[0.6]]))).toBe("converged");
    const [pair] = oscillatorRoots(0.6, 9);
    expectAllClose(analysis.re, [pair.real, pair.real], computed);
    expectAllClose(analysis.im, [pair.imag, -pair.imag], computed);
  });
});

describe("dominantMotion", () => {
  const named = (shares: Partial<Record<(typeof MOTIONS)[number], number>>) =>
    dominantMotion({ motion: Float64Array.from(MOTIONS, (name) => shares[name] ?? 0) } as unknown as PairMode);

  it("is one motion from 60 % on", () => {
    expect(named({ pitch: 0.601, heave: 0.399 })).toEqual({ name: "pitch", share: 0.601 });
    expect(named({ pitch: 0.6, heave: 0.4 })).toEqual({ name: "pitch", share: 0.6 });
    expect(named({ yaw: 0.7, roll: 0.2, sway: 0.1 })).toEqual({ name: "yaw", share: 0.7 });
  });

  it("is coupled below, in the order of the list, whichever is larger", () => {
    expect(named({ pitch: 0.599, heave: 0.401 })).toEqual({ name: "coupled heave–pitch", share: 1 });
    expect(named({ heave: 0.599, pitch: 0.401 })).toEqual({ name: "coupled heave–pitch", share: 1 });
    const { name, share } = named({ yaw: 0.5, sway: 0.3, roll: 0.2 });
    expect(name).toBe("coupled sway–yaw");
    expectClose(share, 0.8, { rtol: 1e-15, why: "sum of two shares" });
  });
});
