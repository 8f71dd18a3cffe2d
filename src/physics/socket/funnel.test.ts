import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { testSocket } from "../../../test/support/hookon-pair.ts";
import { checkSocket, funnelGeometry, socketAxes } from "./index.ts";

describe("funnel", () => {
  it("mouth, throat, seat along the axis; side by Pythagoras", () => {
    const { mouth, throat, seat, halfAngle, side } = funnelGeometry(testSocket());
    expect([mouth, throat, seat].map((s) => s.toFixed(3))).toEqual(["0.430", "0.080", "-0.040"]);
    expectClose(side * Math.sin(halfAngle), 0.3 - 0.044, { rtol: 1e-12, why: "rise of the side" });
    expectClose(side * Math.cos(halfAngle), 0.35, { rtol: 1e-12, why: "depth of the cone" });
  });

  it.each([
    ["throat radius", { funnel: { ...testSocket().funnel, throatRadius: 0.039 } }],
    ["mouth radius", { funnel: { ...testSocket().funnel, mouthRadius: 0.044 } }],
    ["radius of the stem", { probe: { ...testSocket().probe, stemRadius: 0.05 } }],
  ])("refuses a wrong %s", (words, change) => {
    expect(() => funnelGeometry(testSocket(change))).toThrow(words);
  });

  it.each([
    ["gimbal damping", { gimbal: { ...testSocket().gimbal, damping: -1 } }],
    ["buffer preload", { buffer: { ...testSocket().buffer, preload: 0 } }],
    ["axis of the socket", { restAxis_H: [0, 1, 0] as const }],
    ["friction of the contact", { contact: { ...testSocket().contact, friction: -0.1 } }],
  ])("refuses a wrong %s", (words, change) => {
    expect(() => checkSocket(testSocket(change))).toThrow(words);
  });

  it("axes are right-handed, k2 to the right", () => {
    const size = Math.hypot(-0.8, 0.1, 0.5);
    const k = socketAxes([-0.8 / size, 0.1 / size, 0.5 / size]);
    const dot = (i: number, j: number): number => [0, 1, 2].reduce((sum, n) => sum + k[3 * i + n] * k[3 * j + n], 0);
    for (const [i, j] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ])
      expectClose(dot(i, j), 0, { atol: 1e-15, why: "across" });
    for (const i of [0, 1, 2]) expectClose(dot(i, i), 1, { rtol: 1e-14, why: "unit vectors" });
    expect(k[4]).toBeGreaterThan(0.9);
    // facing aft: k3 = k1 × k2 points up
    expect([...socketAxes([-1, 0, 0])].map((value) => value + 0)).toEqual([-1, 0, 0, 0, 1, 0, 0, 0, -1]);
  });
});
