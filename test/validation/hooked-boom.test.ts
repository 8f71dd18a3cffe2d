/** The pair with bending motions of its boom against the whole beam with a body at its tip: closed forms and the full finite-element model. */
import { describe, expect, it } from "vitest";
import { tipMassRoots } from "../../reference/analytic/beam-vibration/closed-form.ts";
import { eigenSystem } from "../../src/math/eigen/index.ts";
import { hookedPair, linearise, TangentialModel } from "../../src/physics/bodies/index.ts";
import {
  type BoomStructureSettings,
  boomModes,
  holdBoom,
  tipEquivalent,
  tipVibration,
} from "../../src/physics/boom-structure/index.ts";
import { twinTubes, uniform, unitSection } from "../../src/physics/boom-structure/test-booms.ts";
import type { TangentialRates } from "../../src/physics/snubber/index.ts";
import { expectAllClose, expectClose } from "../support/close.ts";
import { longshore } from "../support/longshore.ts";
import { vacuum, vacuumPair } from "../support/vacuum.ts";

const noRates: TangentialRates = { bending: 0, bendingDamping: 0, accumulator: 0, snubber: 0 };

/** A point-like body hooked on the boom in vacuum, no weight; path and bending motions as given. */
function hooked(settings: BoomStructureSettings, body: number, motions: number, path: Partial<TangentialRates>) {
  const tip = tipEquivalent(settings);
  const vibration = motions === 0 ? undefined : tipVibration(settings, motions);
  if (tip.outcome !== "found" || vibration?.outcome === "not held") throw new Error("not held");
  const inertia = { Ixx: body, Iyy: body, Izz: body, Ixy: 0, Ixz: 0, Iyz: 0 };
  const pair = vacuumPair({
    mass: { mass: body, ...inertia },
    probe: [0, 0, 0],
    tipMass: tip.effectiveTipMass.tangential,
    environment: vacuum([0, 0, 0]),
    boom: {
      geometry: { length: tip.length, angleDown: 0.9 },
      axial: tip.axial,
      lateral: tip.lateral,
      tangential: { ...noRates, bending: tip.bending, ...path },
    },
    ...(vibration === undefined ? {} : { motions: vibration }),
  });
  return { ...pair, tip };
}

/** Oscillating roots of a matrix, by rising frequency. */
function roots(matrix: Float64Array, size: number): { real: number; imag: number }[] {
  const { re, im } = eigenSystem(matrix, size);
  return Array.from(re, (real, i) => ({ real, imag: im[i] }))
    .filter(({ imag, real }) => imag > 1e-3 * Math.abs(real) && imag > 1e-3)
    .sort((a, b) => a.imag - b.imag);
}

/** Frequencies of the pair in one plane: which tip states take part in the vector is left to the caller's boom. */
function frequencies(pair: ReturnType<typeof hooked>): number[] {
  const { matrix, size } = linearise(pair.motion, pair.state);
  return roots(matrix, size).map(({ imag }) => imag);
}

describe("a uniform cantilever with a body at its tip", () => {
  // sideways and along so stiff that the first motions are those of the swing plane
  const settings: BoomStructureSettings = {
    sections: uniform({ ...unitSection, bendingLateral: 1e6, axial: 1e7 }, 1),
    attachments: [{ kind: "clamp", station: 0 }],
    theory: "Euler-Bernoulli",
  };

  it.each([0.5, 1, 2, 5, 10])("has the roots of the closed form beam-vibration, mass ratio %d", (ratio) => {
    const expected = tipMassRoots(ratio, 3).map((beta) => beta * beta);
    const found = frequencies(hooked(settings, ratio, 5, { accumulator: Infinity })).slice(0, 3);
    expectAllClose(found, expected, { rtol: 3e-4, why: "five motions with the tip held, from above" });
    found.forEach((value, i) => void expect(value).toBeGreaterThan(expected[i] * (1 - 1e-6)));
  });

  it("comes down to them with the number of motions, and without motions has the first one alone", () => {
    const expected = tipMassRoots(1, 2).map((beta) => beta * beta);
    const errors = [1, 2, 3, 4].map((motions) => {
      const found = frequencies(hooked(settings, 1, motions, { accumulator: Infinity }));
      return found.slice(0, 2).map((value, i) => value / expected[i] - 1);
    });
    for (let i = 1; i < errors.length; i++) {
      for (const k of [0, 1]) expect(errors[i][k]).toBeLessThan(errors[i - 1][k]);
    }
    expect(errors[0][0]).toBeLessThan(2e-3);
    // root 2 of a tip held instead of heavy is 8 % away from this one
    expect(errors[3][1]).toBeLessThan(3e-4);
    const [only] = frequencies(hooked(settings, 1, 0, { accumulator: Infinity }));
    expectClose(only, expected[0], { rtol: 2e-3, why: "effective mass of the static shape" });
  });
});

const BODY = 1900;
const tubes: BoomStructureSettings = {
  sections: uniform(twinTubes(0.127, 0.006), 5.6),
  attachments: [
    { kind: "hinge", station: 0 },
    { kind: "jack", station: 1.55, direction: [-0.3, -1, 0], offset: [0, -0.28, 0], stiffness: 4e6 },
  ],
  masses: [{ station: 5.6, mass: 50 }],
};

describe("two tubes on hinge and jack with a body at the tip", () => {
  const whole = (jack: number): number[] => {
    const attachments = tubes.attachments.map((one) => (one.kind === "jack" ? { ...one, stiffness: jack } : one));
    const masses = [{ station: 5.6, mass: 50 + BODY }];
    const found = boomModes(holdBoom({ ...tubes, attachments, masses }), 40);
    if (found.outcome !== "found") throw new Error(found.outcome);
    // without its torsion, which the tip does not feel, and without what stretches
    return found.modes.filter(({ kind }) => kind === "swing" || kind === "lateral").map(({ frequency }) => frequency);
  };

  it.each([5e4, 1e6, 2e7])("vibrates as the whole beam does on a jack of %d N/m", (jack) => {
    const i = tipEquivalent(tubes);
    if (i.outcome !== "found") throw new Error(i.outcome);
    const accumulator = jack / i.jack!.tipPerJack ** 2;
    const expected = whole(jack).slice(0, 6);
    const pair = hooked(tubes, BODY, 4, { accumulator });
    const found = frequencies(pair);
    const stretch = Math.sqrt(pair.tip.axial / (BODY + 50));
    expected.forEach((value) => {
      const gap = Math.min(...found.map((own) => Math.abs(own / value - 1)));
      // near the stretching of the boom the two mix: springs at the tip leave out the little that the leaning jack couples
      const mixed = Math.abs(value / stretch - 1) < 0.15;
      expect({ value, close: gap < (mixed ? 1e-2 : 2e-3) }).toEqual({ value, close: true });
    });
    // the first motion, on springs alone, is far off the tolerance of the one with bending
    const [lumped] = frequencies(hooked(tubes, BODY, 0, { accumulator }));
    if (jack < 1e6) expect(Math.abs(lumped / expected[0] - 1)).toBeGreaterThan(5e-3);
    expect(Math.abs(found[0] / expected[0] - 1)).toBeLessThan(1e-6);
  });

  it("decays as the whole beam does with a dashpot beside the jack's spring", () => {
    const jack = 2.5e5;
    for (const snubber of [300, 3000, 30000]) {
      const i = hooked(tubes, BODY, 1, { accumulator: 1 }).tip.jack!.tipPerJack;
      const pair = hooked(tubes, BODY, 5, { accumulator: jack / i ** 2, snubber: snubber / i ** 2 });
      const { matrix, size } = linearise(pair.motion, pair.state);
      const found = roots(matrix, size);
      const lowest = beamWithDashpot(jack, snubber).slice(0, 4);
      for (const { real, imag } of lowest) {
        const gap = Math.min(...found.map((own) => Math.hypot(own.real - real, own.imag - imag)));
        // eight elements of the whole beam against twenty-four of the reduction
        expect(gap / Math.hypot(real, imag)).toBeLessThan(1e-3);
      }
    }
  });
});

/** Roots of the whole beam with body, spring and dashpot at the jack: [0 1; −M⁻¹K −M⁻¹C], swing plane and sideways. */
function beamWithDashpot(jack: number, snubber: number) {
  const coarse = { ...tubes, elements: 8, masses: [{ station: 5.6, mass: 50 + BODY }] };
  const held = (stiffness: number) =>
    holdBoom({
      ...coarse,
      attachments: tubes.attachments.map((one) => (one.kind === "jack" ? { ...one, stiffness } : one)),
    });
  const beam = held(jack);
  // K is linear in the jack's stiffness: what one N/m adds is what one N·s/m adds to C
  const more = held(jack + 1e6).reducedStiffness;
  const n = beam.freedoms.length;
  const A = new Float64Array(4 * n * n);
  const columns = new Float64Array(2 * n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      columns[2 * n * i + j] = -beam.reducedStiffness[n * i + j];
      columns[2 * n * i + n + j] = (-snubber * (more[n * i + j] - beam.reducedStiffness[n * i + j])) / 1e6;
    }
  }
  solveWith(beam.reducedMass, n, columns);
  for (let i = 0; i < n; i++) {
    A[2 * n * i + n + i] = 1;
    A.set(columns.subarray(2 * n * i, 2 * n * (i + 1)), 2 * n * (n + i));
  }
  return roots(A, 2 * n);
}

/** Gauss–Jordan with row pivots on n × 2n right sides, in place. */
function solveWith(mass: Float64Array, n: number, right: Float64Array): void {
  const m = mass.slice();
  const width = 2 * n;
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c; r < n; r++) if (Math.abs(m[r * n + c]) > Math.abs(m[pivot * n + c])) pivot = r;
    for (let j = 0; j < n; j++) [m[c * n + j], m[pivot * n + j]] = [m[pivot * n + j], m[c * n + j]];
    for (let j = 0; j < width; j++) {
      [right[c * width + j], right[pivot * width + j]] = [right[pivot * width + j], right[c * width + j]];
    }
    for (let r = 0; r < n; r++) {
      const factor = r === c ? 0 : m[r * n + c] / m[c * n + c];
      if (factor === 0) continue;
      for (let j = 0; j < n; j++) m[r * n + j] -= factor * m[c * n + j];
      for (let j = 0; j < width; j++) right[r * width + j] -= factor * right[c * width + j];
    }
  }
  for (let r = 0; r < n; r++) for (let j = 0; j < width; j++) right[r * width + j] /= m[r * n + r];
}

describe("the path added to the linear model", () => {
  it.each([
    { path: { accumulator: 4e4, snubber: 2e3, bendingDamping: 300 } },
    { path: { accumulator: 4e4, snubber: 0 } },
    { path: { accumulator: Infinity, bendingDamping: 300 } },
    { path: { accumulator: 4e4, snubber: Infinity, bendingDamping: 300 } },
    { path: { bending: Infinity, accumulator: 4e4, snubber: 2e3 } },
  ])("is what linearising the same pair gives: %j", ({ path }) => {
    const pair = hooked(tubes, BODY, 2, path);
    const empty = hooked(tubes, BODY, 2, { bending: 0 });
    const model = new TangentialModel(linearise(empty.motion, empty.state), pair.tip.length);
    const rates = { ...noRates, bending: pair.tip.bending, ...path };
    const n = model.sizeFor(rates);
    const A = new Float64Array(n * n);
    expect(model.assemble(rates, A)).toBe(n);
    const direct = linearise(pair.motion, pair.state);
    expect(direct.size).toBe(n);
    for (let i = 0; i < n; i++) {
      const row = direct.matrix.subarray(i * n, (i + 1) * n);
      const scale = Math.max(...row.map(Math.abs));
      expectAllClose(
        A.subarray(i * n, (i + 1) * n),
        row,
        { atol: 1e-6 * scale + 1e-9, why: "differences" },
        `row ${i}`,
      );
    }
  });
});

describe("a pair in flight", () => {
  const tip = tipEquivalent(tubes);
  const motions = tipVibration(tubes, 2);
  if (tip.outcome !== "found" || motions.outcome !== "found") throw new Error("not held");
  const flying = longshore({ weightShare: 0.2, rollHold: true });
  const own = { bending: tip.bending, axial: tip.axial, lateral: tip.lateral };
  const boom = { ...flying.boom, ...own, effectiveTipMass: tip.effectiveTipMass.tangential, motions };
  const settings = { ...flying, boom };

  it("is the same whether its path is linearised with it or added, law and preload included", () => {
    const pair = hookedPair(settings);
    const direct = linearise(pair.motion, pair.state);
    const empty = hookedPair({ ...settings, boom: { ...boom, bending: 0, accumulator: 0, snubber: 0 } });
    const model = new TangentialModel(linearise(empty.motion, empty.state), boom.length);
    const A = new Float64Array(direct.size ** 2);
    model.assemble(pair.motion.settings.boom!.settings.tangential, A);
    const [a, b] = [roots(A, direct.size), roots(direct.matrix, direct.size)];
    expect(a.length).toBe(b.length);
    a.forEach((root, i) => {
      const size = Math.hypot(root.real, root.imag);
      expect(Math.hypot(root.real - b[i].real, root.imag - b[i].imag)).toBeLessThan(1e-6 * size);
    });
  });

  it("becomes the pair with a mass on springs as the boom's own mass goes", () => {
    const lumped = hookedPair({ ...settings, boom: { ...flying.boom, ...own, effectiveTipMass: 1e-3 } });
    const { matrix, size } = linearise(lumped.motion, lumped.state);
    const light = { ...motions, mass: motions.mass.map((m, at) => thinned(m, at, motions.order)) };
    const pair = hookedPair({ ...settings, boom: { ...boom, effectiveTipMass: 1e-3, motions: light } });
    const bent = linearise(pair.motion, pair.state);
    const found = roots(bent.matrix, bent.size);
    for (const { real, imag } of roots(matrix, size)) {
      const gap = Math.min(...found.map((root) => Math.hypot(root.real - real, root.imag - imag)));
      expect(gap / Math.hypot(real, imag)).toBeLessThan(1e-4);
    }
  });

  /** The same shapes on a boom with a millionth of the mass per length; its motions keep their unit mass. */
  function thinned(m: number, at: number, order: number): number {
    const motion = (i: number): boolean => i >= 4;
    const [i, j] = [Math.floor(at / order), at % order];
    return m * (motion(i) ? 1 : 1e-3) * (motion(j) ? 1 : 1e-3);
  }
});
