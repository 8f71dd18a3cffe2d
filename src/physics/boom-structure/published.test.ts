import { describe, expect, it } from "vitest";
import {
  simplySupportedFrequency,
  stretchingFrequency,
} from "../../../reference/analytic/timoshenko-beam/closed-form.ts";
import { loadPublished } from "../../../reference/load.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { type BoomAttachment, type BoomSection, type BoomStructureSettings, boomModes, holdBoom } from "./index.ts";
import { ALONG, RIGHT, SWING, uniform, unitSection } from "./test-booms.ts";
import type { MotionKind } from "./vibration.ts";

const INF = Number.POSITIVE_INFINITY;
const clamp: BoomAttachment = { kind: "clamp", station: 0 };

/** Frequencies in cycles per second, all or of one kind. */
function hertz(settings: BoomStructureSettings, count: number, kind?: MotionKind): number[] {
  const vibration = boomModes(holdBoom(settings), 60);
  if (vibration.outcome !== "found") throw new Error(vibration.outcome);
  const modes = vibration.modes.filter((mode) => kind === undefined || mode.kind === kind);
  return modes.slice(0, count).map(({ frequency }) => frequency / (2 * Math.PI));
}

interface Material {
  readonly modulus: number;
  readonly poisson: number;
  readonly density: number;
}
/** Solid section of area A, second moment I both ways and torsion constant J, with a shear factor. */
function solid(
  m: Material,
  area: number,
  inertia: number,
  torsion: number,
  factor: number,
): Omit<BoomSection, "station"> {
  const shearModulus = m.modulus / (2 * (1 + m.poisson));
  return {
    ...{ bendingSwing: m.modulus * inertia, bendingLateral: m.modulus * inertia, torsion: shearModulus * torsion },
    ...{ axial: m.modulus * area, massPerLength: m.density * area },
    ...{ shearSwing: factor * shearModulus * area, shearLateral: factor * shearModulus * area },
    ...{ rotaryInertiaSwing: m.density * inertia, rotaryInertiaLateral: m.density * inertia },
  };
}
/** No displacement and no twist at the root, no displacement across at the other end. */
function pinnedEnds(length: number): BoomAttachment[] {
  const prop = (station: number, direction: typeof SWING): BoomAttachment => ({ kind: "prop", station, direction });
  const twist: BoomAttachment = { kind: "turning spring", station: 0, direction: ALONG, stiffness: INF };
  const [root, end] = [0, length];
  return [prop(root, ALONG), prop(root, SWING), prop(root, RIGHT), twist, prop(end, SWING), prop(end, RIGHT)];
}

describe("published benchmarks of beams", () => {
  it("nafems-fv5: deep simply supported beam", () => {
    const material = { modulus: 200e9, poisson: 0.3, density: 8000 };
    const cowper = (10 * 1.3) / (12 + 11 * 0.3);
    const section = solid(material, 4, 16 / 12, 2.25, cowper);
    const settings = { sections: uniform(section, 10), attachments: pinnedEnds(10), elements: 140 };
    const rows = loadPublished("nafems-fv5").cells("closed form");
    const kinds = [
      ["bending", "swing", 1.5e-4, "printed 42.650, closed form 42.645; 140 elements of order 2 with shear"],
      ["bending", "lateral", 1.5e-4, "as the swing plane"],
      ["torsion", "torsion", 2e-4, "printed 71.20 and 213.61, St-Venant 71.208 and 213.625; order 2"],
      ["along", "along", 1e-4, "half a unit of the last digit is 4e-5; order 2"],
    ] as const;
    for (const [column, kind, rtol, why] of kinds) {
      const printed = rows.flatMap((row) => (row[column] === undefined ? [] : [row[column].value]));
      expectAllClose(hertz(settings, printed.length, kind), printed, { rtol, why }, kind);
    }
  });

  it("nafems-fv4: cantilever with masses on arms", () => {
    const radius = 0.25;
    const inertia = (Math.PI * radius ** 4) / 4;
    const material = { modulus: 200e9, poisson: 0.3, density: 8000 };
    const section = solid(material, Math.PI * radius ** 2, inertia, 2 * inertia, (6 * 1.3) / (7 + 6 * 0.3));
    const masses = [
      { station: 10, mass: 10_000, offset: [0, 0, 2] as const },
      { station: 10, mass: 1000, offset: [0, 0, -2] as const },
    ];
    const settings = { sections: uniform(section, 10), attachments: [clamp], masses, elements: 20 };
    // the targets have rotary inertia and no shear strain
    const rayleigh: BoomStructureSettings = { ...settings, theory: "Euler-Bernoulli" };
    const rows = loadPublished("nafems-fv4").table("frequencies");
    const found = hertz(rayleigh, rows.length);
    rows.forEach((row, i) => {
      const closeness = {
        atol: 6e-4,
        why: "half a unit of the last printed digit and a little; geometry recalled (note.md)",
      };
      expectClose(found[i], row("f").value, closeness, `mode ${i + 1}`);
    });
    const sheared = hertz(settings, rows.length);
    sheared.forEach((f, i) => {
      expect(f).toBeLessThan(found[i]);
      expectClose(f, found[i], { rtol: 0.011, why: "what shear strain makes at a length of 20 diameters" });
    });
  });

  it.each([4, 5])("sdll09-tapered-cantilever: breadth ratio %s", (beta) => {
    const rows = 160;
    const end = 0.01;
    const material = { modulus: 200e9, density: 7800 };
    const sections = Array.from({ length: rows + 1 }, (_, i): BoomSection => {
      const station = i / rows;
      const height = end * (4 - 3 * station);
      const breadth = end * (beta - (beta - 1) * station);
      const bendingSwing = (material.modulus * breadth * height ** 3) / 12;
      return {
        ...{ station, bendingSwing, bendingLateral: 1e4 * bendingSwing, torsion: 1e4 * bendingSwing },
        ...{ axial: material.modulus * breadth * height, massPerLength: material.density * breadth * height },
      };
    });
    const found = hertz({ sections, attachments: [clamp], elements: 40 }, 5, "swing");
    const scale = (end / (2 * Math.PI)) * Math.sqrt(material.modulus / (12 * material.density));
    const row = loadPublished("sdll09-tapered-cantilever")
      .table("factors")
      .find((one) => one("beta").value === beta);
    for (const [i, f] of found.entries()) {
      const printed = row?.(`lambda${i + 1}`).value ?? Number.NaN;
      const why = "factors as printed are low by up to 4e-4 (note.md)";
      expectClose(f / scale, printed, { rtol: 4e-4, why }, `λ${i + 1}`);
    }
  });

  it("timoshenko-simply-supported: bending and stretching, and the closed form they come from", () => {
    const material = { modulus: 210e9, poisson: 0.3, density: 7800 };
    const [area, inertia] = [0.04, 0.2 ** 4 / 12];
    const section = solid(material, area, inertia, 2 * inertia, 5 / 6);
    const beam = { length: 2, ...material, area, inertia, shearModulus: ((5 / 6) * 210e9) / 2.6 };
    const rows = loadPublished("timoshenko-simply-supported").cells("frequencies");
    const settings = { sections: uniform(section, 2), attachments: pinnedEnds(2), elements: 140 };
    const bending = rows.flatMap((row) => (row.bending === undefined ? [] : [row.bending.value]));
    const found = hertz(settings, bending.length, "swing");
    const exact = bending.map((_, i) => simplySupportedFrequency(beam, i + 1) / (2 * Math.PI));
    expectAllClose(found, exact, { rtol: 1e-4, why: "fourth mode in 140 elements, order 2 with shear" }, "closed form");
    expectAllClose(
      found,
      bending,
      { rtol: 4e-4, why: "140 elements; inputs inferred; the last is printed 2.3e-4 high (note.md)" },
      "bending",
    );
    const along = rows.flatMap((row) => (row.along === undefined ? [] : [row.along.value]));
    expectAllClose(hertz(settings, 1, "along"), along, { rtol: 1e-4, why: "last printed digit; order 2" }, "along");
    const one = stretchingFrequency(beam, 1) / (2 * Math.PI);
    expectClose(one, along[0], { rtol: 1e-4, why: "last printed digit" }, "closed form, along");
  });

  it("clamped-free-roots: the first two roots", () => {
    const found = hertz({ sections: uniform(unitSection, 1), attachments: [clamp], elements: 60 }, 2, "swing");
    loadPublished("clamped-free-roots")
      .table("roots")
      .forEach((row, i) => {
        const root = Math.sqrt(2 * Math.PI * found[i]);
        expectClose(root, row("betaL").value, { rtol: 2e-8, why: "60 elements, order 4" }, `root ${i + 1}`);
      });
  });
});
