import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { liftLag, liftLagResponse } from "./index.ts";

it("the two lags follow the exact growth of the lift (generated/kussner)", () => {
  const file = new URL("../../../reference/generated/kussner/values.json", import.meta.url);
  const { rows } = JSON.parse(readFileSync(file, "utf8")) as { rows: [number, number][] };
  // V 60 m/s on a chord of 2 m: 60 semichords a second
  const { share, rates } = liftLag(60, 2);
  for (const [s, exact] of rows) {
    const own = 1 - rates.reduce((sum, rate) => sum + share * Math.exp((-rate * s) / 60), 0);
    expectClose(own, exact, { atol: 0.04, why: "error of the usual two-term fit" }, `${s} semichords`);
  }
});

it("passes a slow gust whole and a fast one less", () => {
  const lag = liftLag(100, 1);
  const size = (omega: number): number => Math.hypot(...liftLagResponse(lag, omega));
  expectClose(size(1e-6), 1, { rtol: 1e-9, why: "limit" });
  let before = 1;
  for (const omega of [1, 10, 100, 1000]) {
    expect(size(omega)).toBeLessThan(before);
    before = size(omega);
  }
});
