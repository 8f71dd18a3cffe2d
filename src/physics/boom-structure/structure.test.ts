import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { type BoomStructureSettings, boomModes, holdBoom, meshBoom, tipEquivalent } from "./index.ts";
import { apply } from "./matrix.ts";
import { rigidMotions } from "./rigid-motions.ts";
import { ALONG, ODD, SWING, uniform, unitSection } from "./test-booms.ts";
import type { BoomSection } from "./types.ts";

const free: BoomStructureSettings = {
  sections: ODD,
  attachments: [],
  masses: [
    { station: 4, mass: 55, offset: [0.1, -0.2, 0.05], inertia: [1, 2, 3] },
    { station: 2, mass: 12 },
  ],
  elements: 12,
};

describe("a boom held by nothing", () => {
  const mesh = meshBoom(free);
  const motions = rigidMotions(mesh, 0);

  it("has symmetric matrices, a mass that is nowhere negative", () => {
    const n = mesh.order;
    for (const a of [mesh.stiffness, mesh.mass]) {
      for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) expect(a[i * n + j]).toBe(a[j * n + i]);
      for (let i = 0; i < n; i++) expect(a[i * n + i]).toBeGreaterThan(0);
    }
  });

  it("does not strain in any of the six rigid motions", () => {
    for (const motion of motions) {
      const forces = apply(mesh.stiffness, motion);
      expectAllClose(forces, new Float64Array(mesh.order), { atol: 1e-4, why: "round-off of 1e10 N/m" });
    }
  });

  it("has the mass, the centre and the moments of inertia of its parts", () => {
    const kinetic = (a: number, b: number) =>
      apply(mesh.mass, motions[a]).reduce((sum, p, i) => sum + p * motions[b][i], 0);
    let [mass, first, second, rotarySwing, polar] = [0, 0, 0, 0, 0];
    for (const { row, from, to } of mesh.table.pieces(mesh.table.first, mesh.table.last)) {
      for (let i = 0; i < 20_000; i++) {
        const step = (to - from) / 20_000;
        const x = from + (i + 0.5) * step;
        mass += step * mesh.table.at("massPerLength", row, x, 0);
        first += step * x * mesh.table.at("massPerLength", row, x, 0);
        second += step * x * x * mesh.table.at("massPerLength", row, x, 0);
        rotarySwing += step * mesh.table.at("rotaryInertiaSwing", row, x, 0);
        polar += step * mesh.table.at("polarInertia", row, x, 0);
      }
    }
    const midpoint = { rtol: 1e-8, why: "midpoint rule" };
    for (const i of [0, 1, 2]) expectClose(kinetic(i, i), mass + 67, midpoint, "mass");
    expectClose(kinetic(1, 5), first + 55 * 4.1 + 12 * 2, midpoint, "first moment");
    expectClose(kinetic(0, 5), 55 * 0.2, midpoint, "first moment of the offset");
    expectClose(kinetic(5, 5), second + rotarySwing + 55 * (4.1 ** 2 + 0.2 ** 2) + 3 + 12 * 4, midpoint, "about right");
    expectClose(kinetic(3, 3), polar + 55 * (0.2 ** 2 + 0.05 ** 2) + 1, midpoint, "about along");
    expectClose(kinetic(3, 5), -55 * 4.1 * 0.05, midpoint, "product of inertia");
  });

  it("has six motions of frequency zero, and deforms in all others", () => {
    const vibration = boomModes(holdBoom(free), 9);
    if (vibration.outcome !== "found") throw new Error(vibration.outcome);
    const frequencies = vibration.modes.map(({ frequency }) => frequency);
    const elastic = frequencies[6];
    expect(elastic).toBeGreaterThan(10);
    expectAllClose(frequencies.slice(0, 6), new Float64Array(6), {
      atol: 1e-3 * elastic,
      why: "ω² to 1e-7 of the scale of the boom",
    });
  });
});

describe("a boom that is not well described", () => {
  const good = uniform(unitSection, 1);
  const hinge = { kind: "hinge", station: 0 } as const;
  const jack = { kind: "jack", station: 0.3, direction: SWING, stiffness: 5 } as const;
  const sections = (...rows: Partial<BoomSection>[]) => rows.map((row, i) => ({ ...unitSection, station: i, ...row }));
  const refused: [string, BoomStructureSettings, string][] = [
    ["one row", { sections: good.slice(1), attachments: [] }, "rows of the boom's section table is 1"],
    ["falling stations", { sections: sections({}, { station: -1 }), attachments: [] }, "section station, row 2"],
    ["step at the root", { sections: sections({}, { station: 0 }, {}), attachments: [] }, "section station, row 2"],
    ["no stiffness", { sections: sections({}, { bendingSwing: 0 }), attachments: [] }, "section bendingSwing, row 2"],
    ["NaN", { sections: sections({}, { massPerLength: Number.NaN }), attachments: [] }, "section massPerLength, row 2"],
    ["half a column", { sections: sections({ shearSwing: 1 }, {}), attachments: [] }, "in every row or in none"],
    ["off the boom", { sections: good, attachments: [{ ...hinge, station: 1.2 }] }, "station on the boom is 1.2"],
    ["negative spring", { sections: good, attachments: [{ ...jack, stiffness: -1 }] }, "stiffness in series is -1"],
    ["no direction", { sections: good, attachments: [{ ...jack, direction: [0, 0, 0] }] }, "a vector that is not zero"],
    ["held twice", { sections: good, attachments: [hinge, { ...hinge, kind: "clamp" }] }, "at one station is 11"],
    ["negative mass", { sections: good, attachments: [], masses: [{ station: 1, mass: -2 }] }, "mass or inertia"],
    ["no elements", { sections: good, attachments: [], elements: 0 }, "number of elements"],
    ["too fine", { sections: good, attachments: [], elements: 1e6 }, "nodes of the boom"],
  ];
  it.each(refused)("is refused: %s", (_name, settings, words) => {
    expect(() => holdBoom(settings)).toThrow(DomainError);
    expect(() => holdBoom(settings)).toThrow(words);
  });

  it("has no tip equivalent without root, with two jacks, or with its tip on a support", () => {
    const equivalent = (...attachments: BoomStructureSettings["attachments"]) =>
      tipEquivalent({ sections: good, attachments });
    expect(() => equivalent(jack)).toThrow("hinges and clamps of the boom is 0");
    expect(() => equivalent(hinge, jack, { ...jack, station: 0.5 })).toThrow("jacks of the boom is 2");
    expect(() => equivalent(hinge, { ...jack, station: 1 })).toThrow("compliance of the boom's tip");
    expect(() => equivalent(hinge, jack, { kind: "prop", station: 0.6, direction: SWING })).not.toThrow();
    const axialJack = { ...jack, direction: ALONG };
    expect(equivalent(hinge, axialJack)).toEqual({ outcome: "not held" });
    expect(equivalent(hinge)).toEqual({ outcome: "not held" });
  });

  it("is undetermined where a motion has neither stiffness nor mass", () => {
    const massless = sections({ massPerLength: 0 }, { massPerLength: 0 });
    const pin = { kind: "prop", station: 0, direction: SWING } as const;
    const one = holdBoom({ sections: massless, attachments: [pin], masses: [{ station: 0.5, mass: 1 }] });
    expect(boomModes(one, 3)).toEqual({ outcome: "undetermined" });
  });
});
