import { describe, expect, test } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { assemble, createLinkage, transmissionAngle, transmissionAt } from "./index.ts";
import { leverLinkage } from "./test-linkages.ts";

const ROUNDING = { rtol: 1e-11, why: "closed form" };

describe("transmissionAt", () => {
  test("lever: ratio is tip arm over the jack's arm, angle is that between jack and lever", () => {
    const linkage = leverLinkage([2, 0, 0], [0, 1, 0]);
    for (const angle of [-0.8, -0.2, 0.4, 1.1]) {
      const { state } = assemble(linkage, [{ joint: "A", value: angle }]);
      const found = transmissionAt(linkage, state, "jack", { body: "lever", at: [5, 0, 0] });
      if (found.outcome !== "moves") throw new Error(found.outcome);
      const lug = [-Math.sin(angle), Math.cos(angle)];
      const jack = [lug[0] - 2, lug[1]];
      const arm = Math.abs(lug[0] * jack[1] - lug[1] * jack[0]) / Math.hypot(...jack);
      expectClose(found.tipTravelPerJackTravel, 5 / arm, ROUNDING);
      expectClose(found.jackTransmissionAngle, Math.asin(arm), ROUNDING);
      const between = transmissionAngle(
        linkage,
        state,
        { joint: "jack", on: "first" },
        { joint: "jack", on: "second" },
        { joint: "A", on: "first" },
      );
      expectClose(between, Math.asin(arm), ROUNDING);
    }
  });

  test("in line it is a dead point", () => {
    const linkage = leverLinkage([2, 0, 0], [0, 1, 0]);
    const { state } = assemble(linkage, [{ joint: "A", value: Math.PI / 2 }]);
    expect(transmissionAt(linkage, state, "jack", { body: "lever", at: [5, 0, 0] }).outcome).toBe("dead point");
  });

  test("the angle is that seen from the jack's own moving body", () => {
    // The whole lever is carried by a turning arm that another drive holds: nothing changes.
    const build = (carried: boolean) =>
      createLinkage({
        fixed: "carrier",
        bodies: [{ name: "arm" }, { name: "lever" }],
        joints: [
          {
            kind: "hinge",
            name: "arm hinge",
            first: "carrier",
            second: "arm",
            pointOnFirst: [-3, 1, 0],
            axisOnFirst: [0, 0, 1],
          },
          { kind: "hinge", name: "A", first: "arm", second: "lever", pointOnFirst: [0, 0, 0], axisOnFirst: [0, 0, 1] },
          {
            kind: "jack",
            name: "jack",
            first: carried ? "arm" : "carrier",
            second: "lever",
            pointOnFirst: [2, 0, 0],
            pointOnSecond: [0, 1, 0],
          },
        ],
      });
    const drives = [
      { joint: "arm hinge", value: 0 },
      { joint: "A", value: 0.3 },
    ];
    const [one, two] = [true, false].map((carried) => {
      const linkage = build(carried);
      const { state } = assemble(linkage, drives);
      return transmissionAt(linkage, state, "jack", { body: "lever", at: [5, 0, 0] }, ["arm hinge"]);
    });
    if (one.outcome !== "moves" || two.outcome !== "moves") throw new Error("dead point");
    expectClose(one.jackTransmissionAngle, two.jackTransmissionAngle, ROUNDING);
    // With the arm free instead and the lever fast on it, the jack on the arm cannot turn it.
    const linkage = build(true);
    const { state } = assemble(linkage, drives);
    expect(transmissionAt(linkage, state, "jack", { body: "lever", at: [5, 0, 0] }, ["A"]).outcome).toBe("dead point");
  });

  test("only a jack has one", () => {
    const linkage = leverLinkage([2, 0, 0], [0, 1, 0]);
    expect(() => transmissionAt(linkage, linkage.stated, "A", { body: "lever", at: [1, 0, 0] })).toThrow(DomainError);
    const here = { body: "lever", at: [1, 0, 0] } as const;
    expect(() => transmissionAngle(linkage, linkage.stated, here, here, here)).toThrow("length of a link is 0");
  });
});
