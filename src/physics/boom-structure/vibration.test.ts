import fc from "fast-check";
import { describe, expect, it } from "vitest";
// values of analytic/beam-vibration and analytic/timoshenko-beam
import {
  clampedFreeRoots,
  clampedPinnedRoots,
  freeFreeRoots,
  overhangRoots,
  tipMassRoots,
  tipSpringRoots,
} from "../../../reference/analytic/beam-vibration/closed-form.ts";
import { simplySupportedFrequency } from "../../../reference/analytic/timoshenko-beam/closed-form.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { type BoomAttachment, type BoomStructureSettings, boomModes, holdBoom } from "./index.ts";
import { apply, dot } from "./matrix.ts";
import { ODD, SWING, twinTubes, uniform, unitSection } from "./test-booms.ts";
import type { BoomVector } from "./types.ts";
import type { MotionKind } from "./vibration.ts";

const clamp: BoomAttachment = { kind: "clamp", station: 0 };
const hinge: BoomAttachment = { kind: "hinge", station: 0 };

function modesOf(settings: BoomStructureSettings, count = 30) {
  const vibration = boomModes(holdBoom(settings), count);
  if (vibration.outcome !== "found") throw new Error(vibration.outcome);
  return vibration.modes;
}
/** Roots √ω of the unit beam in one plane. */
function roots(settings: Omit<BoomStructureSettings, "sections">, count: number, kind: MotionKind = "swing"): number[] {
  const modes = modesOf({ sections: uniform(unitSection, 1), ...settings }, 60);
  const ofKind = modes.filter((mode) => mode.kind === kind && mode.frequency > 1e-2);
  return ofKind.slice(0, count).map(({ frequency }) => Math.sqrt(frequency));
}
const at = (station: number, stiffness: number): BoomAttachment => ({
  kind: "spring",
  station,
  stiffness,
  direction: SWING,
});
const INF = Number.POSITIVE_INFINITY;

describe("roots of uniform booms", () => {
  const fine = { rtol: 6e-6, why: "40 elements, order 4, β to 14; the order is checked below" };

  it("clamped and free, clamped and pinned, clamped at both ends", () => {
    const elements = 40;
    expectAllClose(roots({ attachments: [clamp], elements }, 5), clampedFreeRoots(5), fine, "cantilever");
    expectAllClose(roots({ attachments: [clamp, at(1, INF)], elements }, 4), clampedPinnedRoots(4), fine, "propped");
    const both: BoomAttachment = { kind: "clamp", station: 1 };
    expectAllClose(roots({ attachments: [clamp, both], elements }, 4), freeFreeRoots(4), fine, "clamped twice");
  });

  it.each([0, 0.1, 0.2, 0.5, 1, 2, 5, 10])("with the mass %s on the tip", (mass) => {
    const settings = { attachments: [clamp], masses: [{ station: 1, mass }], elements: 40 };
    expectAllClose(roots(settings, 2), tipMassRoots(mass, 2), { rtol: 1e-7, why: "40 elements, β ≤ 4.7, order 4" });
  });

  it.each([1, 10, 100, 1000])("with the spring %s on the tip", (k) => {
    const settings = { attachments: [clamp, at(1, k)], elements: 40 };
    expectAllClose(roots(settings, 2), tipSpringRoots(k, 2), { rtol: 5e-7, why: "40 elements, β ≤ 6.9, order 4" });
  });

  it.each([
    ["pinned", 0.5, INF],
    ["pinned", 0.75, INF],
    ["pinned", 0.8, INF],
    ["clamped", 0.5, INF],
    ["clamped", 0.75, INF],
    ["clamped", 0.8, INF],
    ["clamped", 0.75, 100],
    ["clamped", 0.75, 1000],
  ] as const)("over an overhang: %s, support at %s of stiffness %s", (root, station, support) => {
    const settings = { attachments: [root === "clamped" ? clamp : hinge, at(station, support)], elements: 40 };
    expectAllClose(roots(settings, 3), overhangRoots({ root, at: station, support }, 3), fine);
  });

  it("are the same sideways, and the motions of both planes are told apart though they coincide", () => {
    const sections = uniform({ ...unitSection, bendingLateral: 1 }, 1);
    const modes = modesOf({ sections, attachments: [clamp], elements: 20 }, 6);
    expect(modes.map(({ kind }) => kind).sort()).toEqual(["lateral", "lateral", "lateral", "swing", "swing", "swing"]);
    for (let i = 0; i < 6; i += 2) {
      expectClose(modes[i].frequency, modes[i + 1].frequency, { rtol: 1e-9, why: "one matrix, two signs" });
      const { shares } = modes[i];
      expectClose(Math.max(shares.swing, shares.lateral), 1, { atol: 1e-12, why: "planes are solved apart" });
    }
  });

  it("converge with order 4, from above", () => {
    const exact = clampedFreeRoots(3);
    const errors = [4, 8, 16].map((elements) => {
      const found = roots({ attachments: [clamp], elements }, 3);
      return found.map((root, i) => root ** 2 - exact[i] ** 2);
    });
    for (const i of [0, 1, 2]) {
      expect(errors[2][i]).toBeGreaterThan(0);
      expectClose(Math.log2(errors[1][i] / errors[2][i]), 4, { atol: 0.1, why: "next order" }, `mode ${i + 1}`);
    }
    expectClose(Math.log2(errors[0][0] / errors[1][0]), 4, { atol: 0.1, why: "next order" });
  });

  it("of the simply supported Timoshenko beam converge with order 2 to the closed form: shear is constant in an element", () => {
    const beam = { length: 2, modulus: 1, shearModulus: 0.32, density: 1, area: 1, inertia: 0.02 };
    const section = {
      ...unitSection,
      ...{ bendingSwing: 0.02, shearSwing: 0.32, massPerLength: 1, rotaryInertiaSwing: 0.02 },
    };
    const exact = simplySupportedFrequency(beam, 2);
    const errors = [4, 8, 16].map((elements) => {
      const settings = { sections: uniform(section, 2), attachments: [hinge, at(2, INF)], elements };
      const found = modesOf(settings, 20).filter(({ kind }) => kind === "swing")[1];
      return found.frequency - exact;
    });
    expect(errors[2]).toBeGreaterThan(0);
    expectClose(Math.log2(errors[1] / errors[2]), 2, { atol: 0.05, why: "next order" });
  });
});

describe("modes", () => {
  const odd: BoomStructureSettings = {
    sections: ODD,
    attachments: [
      hinge,
      { kind: "jack", station: 1.5, direction: [-0.5, -1, 0.2], offset: [0, -0.28, 0.05], stiffness: 3e6 },
    ],
    masses: [{ station: 4, mass: 55, offset: [0.1, -0.2, 0.05], inertia: [1, 2, 3] }],
    elements: 12,
  };

  it("are orthonormal in mass, orthogonal in stiffness, and their energies agree: ω² = φᵀKφ", () => {
    const boom = holdBoom(odd);
    const modes = modesOf(odd, 8);
    for (const [i, a] of modes.entries()) {
      const [momentum, force] = [apply(boom.mesh.mass, a.shape), apply(boom.stiffness, a.shape)];
      for (const [j, b] of modes.entries()) {
        const scale = a.frequency * b.frequency;
        expectClose(dot(momentum, b.shape), i === j ? 1 : 0, { atol: 1e-7, why: "round-off" }, `M ${i} ${j}`);
        expectClose(dot(force, b.shape) / scale, i === j ? 1 : 0, { atol: 1e-6, why: "round-off" }, `K ${i} ${j}`);
      }
      const total = Object.values(a.shares).reduce((sum, share) => sum + share, 0);
      expectClose(total, 1, { atol: 1e-9, why: "they are shares" });
    }
  });

  it("do not care how the axes across the boom are turned", () => {
    const section = { ...twinTubes(0.127, 0.006) };
    const spun = (angle: number): BoomStructureSettings => {
      const turn = ([a, y, z]: BoomVector): BoomVector => [
        a,
        y * Math.cos(angle) - z * Math.sin(angle),
        y * Math.sin(angle) + z * Math.cos(angle),
      ];
      return {
        sections: uniform(section, 5.6),
        attachments: [
          clamp,
          {
            kind: "strut",
            station: 3,
            direction: turn([-1, 1, 0.3]),
            offset: turn([0, 0.1, 0]),
            axialStiffness: 1e6,
            length: 2,
          },
          { kind: "prop", station: 1.5, direction: turn(SWING) },
        ],
        masses: [{ station: 5.6, mass: 30, offset: turn([0.1, 0.3, -0.1]), inertia: [1, 1, 1] }],
        elements: 8,
      };
    };
    const reference = modesOf(spun(0), 8).map(({ frequency }) => frequency);
    for (const angle of [0.7, Math.PI / 2, 4]) {
      const found = modesOf(spun(angle), 8).map(({ frequency }) => frequency);
      expectAllClose(
        found,
        reference,
        { rtol: 1e-8, why: "round-off of axial against bending stiffness" },
        `${angle} rad`,
      );
    }
  });

  it("rise with every spring and fall with every mass", () => {
    const reference = modesOf(odd, 6);
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 3.9, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (station, share) => {
          const stiffer = modesOf({ ...odd, attachments: [...odd.attachments, { ...at(station, 1e6 * share) }] }, 6);
          const direction = [stiffer.map((m) => m.frequency), reference.map((m) => m.frequency)];
          for (const i of [0, 1, 2, 3]) expect(direction[0][i]).toBeGreaterThan(direction[1][i] * (1 - 1e-4));
          const heavier = modesOf({ ...odd, masses: [...(odd.masses ?? []), { station, mass: 100 * share }] }, 6);
          for (const i of [0, 1, 2, 3]) expect(heavier[i].frequency).toBeLessThan(direction[1][i] * (1 + 1e-4));
        },
      ),
      { seed: 72, numRuns: 8 },
    );
  });

  it("of torsion and of stretching are those of a bar, and torsion needs polar inertia", () => {
    const section = { ...unitSection, torsion: 4, polarInertia: 0.25, axial: 9 };
    const modes = modesOf({ sections: uniform(section, 1), attachments: [clamp], elements: 40 }, 40);
    const first = (kind: MotionKind) => modes.find((mode) => mode.kind === kind)?.frequency ?? Number.NaN;
    const bar = { rtol: 1e-4, why: "order 2 in 40 elements: (π/80)²/24 = 6e-5" };
    expectClose(first("torsion"), (Math.PI / 2) * 4, bar, "torsion");
    expectClose(first("along"), (Math.PI / 2) * 3, bar, "along");
    const without = modesOf({ sections: uniform(unitSection, 1), attachments: [clamp], elements: 4 }, 40);
    expect(without.some(({ kind }) => kind === "torsion")).toBe(false);
  });

  it("of an offset body couple torsion with sway", () => {
    const settings = { sections: ODD, attachments: [clamp], elements: 8 };
    const plain = modesOf({ ...settings, masses: [{ station: 4, mass: 55 }] }, 8);
    for (const { shares } of plain) expectClose(Math.max(...Object.values(shares)), 1, { atol: 1e-9, why: "apart" });
    const offset = modesOf({ ...settings, masses: [{ station: 4, mass: 55, offset: [0, 0.3, 0] }] }, 8);
    expect(offset.some(({ shares }) => shares.torsion > 0.02 && shares.lateral > 0.02)).toBe(true);
  });
});
