import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { type BoomStructureSettings, tipEquivalent, withLength } from "./index.ts";
import { ODD, SWING, uniform, unitSection } from "./test-booms.ts";

function equivalent(settings: BoomStructureSettings) {
  const found = tipEquivalent(settings);
  if (found.outcome !== "found") throw new Error(found.outcome);
  return found;
}
const power = { rtol: 1e-8, why: "a law of powers; round-off" };

describe("withLength", () => {
  it("scales stiffness with length⁻³, mass with length, frequency with length⁻² when all goes along", () => {
    const settings: BoomStructureSettings = {
      sections: uniform(unitSection, 1),
      attachments: [
        { kind: "hinge", station: 0 },
        { kind: "jack", station: 0.3, direction: SWING, stiffness: 7 },
      ],
    };
    const [short, long] = [0.7, 1.4].map((factor) => equivalent(withLength(settings, factor, "go along")));
    expectClose(long.length, 1.4, power);
    expectClose(short.bending / long.bending, 8, power, "bending");
    expectClose(short.axial / long.axial, 2, power, "axial");
    expectClose(long.ownMass / short.ownMass, 2, power, "mass");
    expectClose(long.effectiveTipMass.locked / short.effectiveTipMass.locked, 2, power, "effective mass");
    expectClose(short.lockedModes[0].frequency / long.lockedModes[0].frequency, 4, power, "frequency");
    expectClose(long.jack?.atTip ?? 0, short.jack?.atTip ?? 1, power, "the same lever ratio");
  });

  it("leaves a jack that stays with a poorer lever, and keeps what is behind the hinge", () => {
    const settings: BoomStructureSettings = {
      sections: ODD,
      attachments: [
        { kind: "hinge", station: 0 },
        { kind: "jack", station: 1.2, direction: SWING, stiffness: 1e6 },
      ],
      masses: [{ station: 4, mass: 20 }],
      nodes: [2],
    };
    const longer = withLength(settings, 1.25, "stay");
    expect(longer.sections.map(({ station }) => station)).toEqual([-0.4, 0, 1.875, 1.875, 5]);
    expect(longer.masses?.[0].station).toBe(5);
    expect(longer.nodes).toEqual([2.5]);
    const [now, then] = [equivalent(settings), equivalent(longer)];
    expectClose((then.jack?.tipPerJack ?? 0) / (now.jack?.tipPerJack ?? 1), 1.25, power, "lever");
    expect(then.bending).toBeLessThan(now.bending / 1.25 ** 2);
    expect(() => withLength(settings, 0, "stay")).toThrow("factor of the boom's length");
    expect(() => tipEquivalent(withLength(settings, 0.2, "stay"))).toThrow("station on the boom is 1.2");
  });
});
