import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { cantileverStiffness, supportedCantilever, taperedBarStiffness, taperedStiffness } from "./closed-form.ts";

describe("closed forms of deflections", () => {
  it("reach one another in their limits", () => {
    const round = { rtol: 1e-12, why: "round-off" };
    expectClose(supportedCantilever(7, 2, 1.2, 0).stiffness, cantileverStiffness(7, 2), round, "support that yields");
    expectClose(supportedCantilever(7, 2, 2, 10).stiffness, cantileverStiffness(7, 2) + 10, round, "spring at the tip");
    expect(cantileverStiffness(7, 2, 5)).toBeLessThan(cantileverStiffness(7, 2));
    const nearly = { rtol: 1e-3, why: "taper of 0.1 %" };
    expectClose(taperedStiffness(7, 2, 0.999), cantileverStiffness(7, 2), nearly, "hardly any taper");
    expectClose(taperedBarStiffness(7, 2, 0.999), 3.5, nearly, "hardly any taper");
  });

  it("of tapers are the integral of the compliance", () => {
    const n = 200_000;
    let bend = 0;
    let stretch = 0;
    for (let i = 0; i < n; i++) {
      const x = (i + 0.5) / n;
      bend += (1 - x) ** 2 / (1 - 0.7 * x) / n;
      stretch += 1 / (1 - 0.7 * x) / n;
    }
    const midpoint = { rtol: 1e-9, why: "midpoint rule, 200 000 steps" };
    expectClose(1 / taperedStiffness(1, 1, 0.3), bend, midpoint);
    expectClose(1 / taperedBarStiffness(1, 1, 0.3), stretch, midpoint);
  });
});
