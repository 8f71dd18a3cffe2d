import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { generalisedSymmetricEigen } from "../../math/symmetric-eigen/index.ts";
import { type BoomStructureSettings, type TipVibration, tipEquivalent, tipVibration } from "./index.ts";
import { ODD, twinTubes, uniform, unitSection } from "./test-booms.ts";

const odd: BoomStructureSettings = {
  sections: ODD,
  attachments: [
    { kind: "hinge", station: 0 },
    { kind: "jack", station: 1.5, direction: [-0.5, -1, 0.2], offset: [0, -0.28, 0], stiffness: 3e6 },
  ],
  elements: 12,
};
const tubes: BoomStructureSettings = {
  sections: uniform(twinTubes(0.127, 0.006), 5.6),
  attachments: [
    { kind: "hinge", station: 0 },
    { kind: "jack", station: 1.55, direction: [0, -1, 0], stiffness: 3e6 },
  ],
};

function found(settings: BoomStructureSettings, motions: number): TipVibration {
  const result = tipVibration(settings, motions);
  if (result.outcome !== "found") throw new Error(result.outcome);
  return result;
}
function equivalent(settings: BoomStructureSettings) {
  const result = tipEquivalent(settings);
  if (result.outcome !== "found") throw new Error(result.outcome);
  return result;
}
const same = { rtol: 1e-6, why: "the same static shapes, solved twice" };

describe("tipVibration", () => {
  it("carries the effective masses of the tip: jack locked, swinging freely, and on any jack between", () => {
    for (const settings of [odd, tubes]) {
      for (const stiffness of [2e4, 3e6, 4e8]) {
        const attachments = settings.attachments.map((one) => (one.kind === "jack" ? { ...one, stiffness } : one));
        const tip = equivalent({ ...settings, attachments });
        const { mass, order } = found({ ...settings, attachments }, 2);
        const m = (i: number, j: number): number => mass[i * order + j];
        expectClose(m(1, 1), tip.effectiveTipMass.locked, same, "locked");
        expectClose(m(1, 1) + 2 * m(1, 3) + m(3, 3), tip.effectiveTipMass.swinging, same, "swinging");
        expectClose(m(0, 0), tip.effectiveTipMass.axial, same, "along");
        expectClose(m(2, 2), tip.effectiveTipMass.lateral, same, "sideways");
        // the travel's share of the tip's under a static force
        const share = tip.tangential / tip.jack!.atTip;
        const between = m(1, 1) + 2 * share * m(1, 3) + share * share * m(3, 3);
        expectClose(between, tip.effectiveTipMass.tangential, same, "on its jack");
      }
    }
  });

  it("has motions of unit mass apart from one another, in their planes", () => {
    const { mass, order, frequency, inSwingPlane } = found(tubes, 3);
    expect([order, frequency.length, inSwingPlane]).toEqual([10, 6, 3]);
    for (let i = 4; i < order; i++) {
      for (let j = 4; j <= i; j++) {
        expectClose(mass[i * order + j], i === j ? 1 : 0, { atol: 1e-6, why: "orthogonal shapes" });
      }
      // a jack in the swing plane: lateral motions touch neither swing nor travel
      for (const j of i < 7 ? [2] : [0, 1, 3]) expectClose(mass[i * order + j], 0, { atol: 1e-6, why: "other plane" });
      if (i !== 4 && i !== 7) expect(frequency[i - 4]).toBeGreaterThan(frequency[i - 5]);
    }
  });

  it("is the inertia of something: no motion has none", () => {
    const { mass, order } = found(odd, 4);
    const unit = Float64Array.from({ length: order * order }, (_, at) => (at % (order + 1) === 0 ? 1 : 0));
    const values = new Float64Array(order);
    expect(generalisedSymmetricEigen(mass.slice(), unit, order, values, new Float64Array(order * order))).toBe("found");
    expect(Math.min(...values)).toBeGreaterThan(0);
  });

  it("has no jack travel without a jack, and gives what the mesh has of motions", () => {
    const settings: BoomStructureSettings = {
      sections: uniform(unitSection, 1),
      attachments: [{ kind: "clamp", station: 0 }],
      elements: 2,
    };
    const { mass, order, frequency } = found(settings, 50);
    for (let i = 0; i < order; i++) expect(mass[3 * order + i]).toBe(0);
    expect(frequency.length).toBeLessThan(12);
  });

  it("needs a boom that is held and at least one motion", () => {
    const loose = { ...odd, attachments: [{ kind: "hinge", station: 0 } as const] };
    expect(tipVibration(loose, 2)).toEqual({ outcome: "not held" });
    expect(() => tipVibration(odd, 0)).toThrow("bending motions of the boom");
    expect(() => tipVibration(odd, 1.5)).toThrow("bending motions of the boom");
  });
});
