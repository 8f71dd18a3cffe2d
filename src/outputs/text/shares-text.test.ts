import { expect, it } from "vitest";
import { percent, sharesText } from "./shares-text.ts";

it("gives shares with both intervals, and marks what ended early", () => {
  const counts = [
    { title: "calm", rows: 10, hits: 8, early: false },
    { title: "rough", rows: 20, hits: 0, early: true },
    { title: "none yet", rows: 0, hits: 0, early: false },
  ];
  const text = sharesText({ success: "captured", confidence: 0.95, counts });
  // Clopper and Pearson's and Wilson's intervals of 8 of 10, as published/binomial-intervals checks them in math/distributions
  expect(text).toMatch(/calm +10 +8 +80\.0 % +44\.4 % to 97\.5 % +49\.0 % to 94\.3 %/);
  expect(text).toMatch(/rough \* +20 +0 +0\.0 % +0\.0 % to 16\.8 %/);
  expect(text).toMatch(/none yet +0 +0 +– +– +–/);
  expect(text).toContain("* ended early");
  expect(sharesText({ success: "captured", confidence: 0.95, counts: counts.slice(0, 1) })).not.toContain("early");
});

it("never rounds a share to none or all that is not", () => {
  expect(percent(1)).toBe("100.0 %");
  expect(percent(0)).toBe("0.0 %");
  expect(percent(1 - 1e-5)).toBe("99.9990 %");
  expect(percent(1e-5)).toBe("0.0010 %");
});
