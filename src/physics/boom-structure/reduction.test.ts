import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { generalisedSymmetricEigen } from "../../math/symmetric-eigen/index.ts";
import {
  type BoomStructureSettings,
  boomModes,
  holdBoom,
  reduceToTip,
  type TipReduction,
  tipCompliance,
} from "./index.ts";
import { ODD, SWING } from "./test-booms.ts";

const settings: BoomStructureSettings = {
  sections: ODD,
  attachments: [
    { kind: "hinge", station: 0 },
    { kind: "jack", station: 1.5, direction: [-0.5, -1, 0.2], offset: [0, -0.28, 0], stiffness: 3e6 },
  ],
  elements: 12,
};

function reduced(motions: number): TipReduction {
  const found = reduceToTip(holdBoom(settings), motions);
  if (found.outcome !== "found") throw new Error(found.outcome);
  return found;
}
/** Frequencies with a mass on the tip added to the reduction. */
function withBody({ order, stiffness, mass }: TipReduction, body: number): number[] {
  const m = mass.slice();
  for (const i of [0, 1, 2]) m[i * order + i] += body;
  const values = new Float64Array(order);
  const outcome = generalisedSymmetricEigen(stiffness.slice(), m, order, values, new Float64Array(order * order));
  if (outcome !== "found") throw new Error(outcome);
  return Array.from(values, Math.sqrt);
}

describe("reduceToTip", () => {
  it("keeps the static stiffness of the tip exactly, and is symmetric", () => {
    const tip = tipCompliance(holdBoom(settings));
    if (tip.outcome !== "solved") throw new Error(tip.outcome);
    const { order, stiffness, mass } = reduced(4);
    expect(order).toBe(7);
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        let sum = 0;
        for (let k = 0; k < 3; k++) sum += stiffness[i * order + k] * tip.translation[3 * k + j];
        expectClose(sum, i === j ? 1 : 0, { atol: 1e-10, why: "round-off" });
      }
    }
    for (const a of [stiffness, mass]) {
      for (let i = 0; i < order; i++) for (let j = 0; j < i; j++) expect(a[i * order + j]).toBe(a[j * order + i]);
    }
  });

  it("comes down to the frequencies of the whole boom with a body on its tip", () => {
    const body = 300;
    const vibration = boomModes(holdBoom({ ...settings, masses: [{ station: 4, mass: body }] }), 4);
    if (vibration.outcome !== "found") throw new Error(vibration.outcome);
    const exact = vibration.modes.map(({ frequency }) => frequency);
    let before = [Infinity, Infinity, Infinity, Infinity];
    for (const motions of [1, 2, 4, 8, 16]) {
      const found = withBody(reduced(motions), body).slice(0, 4);
      found.forEach((f, i) => {
        expect(f).toBeGreaterThan(exact[i] * (1 - 1e-7));
        expect(f).toBeLessThan(before[i] * (1 + 1e-9));
      });
      before = found;
    }
    expectAllClose(before, exact, { rtol: 1e-4, why: "16 motions with the tip held" });
  });

  it("needs a boom that is held and a tip that is free", () => {
    const loose = holdBoom({ ...settings, attachments: [{ kind: "hinge", station: 0 }] });
    expect(reduceToTip(loose, 2)).toEqual({ outcome: "not held" });
    const propped = [...settings.attachments, { kind: "prop", station: 4, direction: SWING } as const];
    expect(() => reduceToTip(holdBoom({ ...settings, attachments: propped }), 2)).toThrow("held by a support");
  });
});
