import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { loadPublished } from "../../../reference/load.ts";
import { DomainError } from "../errors.ts";
import { attemptsNeeded, furtherSuccesses, lowerBound, trialsNeeded } from "./index.ts";

const generated = JSON.parse(
  readFileSync(new URL("../../../reference/generated/claims-scipy/values.json", import.meta.url), "utf8"),
) as Readonly<Record<"trials" | "further", [number, number, number, number, number][]>>;

describe("trials of a demonstration", () => {
  test("published/demonstration-runs", () => {
    for (const { share, confidence, trials } of loadPublished("demonstration-runs").cells("withoutFailure")) {
      expect(trialsNeeded(share.value, confidence.value)).toBe(trials.value);
    }
  });

  test("up to two failures: found by counting up (generated/claims-scipy)", () => {
    for (const [share, confidence, failures, n] of generated.trials) {
      expect(trialsNeeded(share, confidence, failures), `${share}/${confidence}, ${failures} failures`).toBe(n);
    }
  });

  test("the bound passes the share with the last trial, not before", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.99, noNaN: true }),
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        fc.integer({ min: 0, max: 4 }),
        (share, confidence, failures) => {
          const n = trialsNeeded(share, confidence, failures)!;
          expect(lowerBound(n - failures, n, confidence)).toBeGreaterThanOrEqual(share - 1e-9);
          if (n > failures + 1) expect(lowerBound(n - 1 - failures, n - 1, confidence)).toBeLessThan(share + 1e-9);
        },
      ),
    );
  });

  test("out of reach is said, nonsense is refused", () => {
    expect(trialsNeeded(1 - 1e-9, 0.95)).toBeNull();
    expect(() => trialsNeeded(1, 0.95)).toThrow(DomainError);
    expect(() => trialsNeeded(0.9, 0)).toThrow("confidence");
    expect(() => trialsNeeded(0.9, 0.9, 1.5)).toThrow("failures");
  });
});

describe("further successes", () => {
  test("found by counting up (generated/claims-scipy)", () => {
    for (const [hits, of, share, confidence, m] of generated.further) {
      expect(furtherSuccesses({ hits, of }, share, confidence)).toBe(m);
    }
  });

  test("from nothing they are the whole demonstration; once shown none are needed", () => {
    expect(furtherSuccesses({ hits: 0, of: 0 }, 0.95, 0.95)).toBe(59);
    expect(furtherSuccesses({ hits: 59, of: 59 }, 0.95, 0.95)).toBe(0);
    expect(furtherSuccesses({ hits: 58, of: 58 }, 0.95, 0.95)).toBe(1);
  });
});

describe("attempts to allow for", () => {
  test("the next smaller number misses the probability", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 0.98, noNaN: true }),
        fc.double({ min: 0.3, max: 0.9999, noNaN: true }),
        (share, wanted) => {
          const n = attemptsNeeded(share, wanted)!;
          expect(1 - (1 - share) ** n).toBeGreaterThanOrEqual(wanted - 1e-12);
          if (n > 1) expect(1 - (1 - share) ** (n - 1)).toBeLessThan(wanted + 1e-12);
        },
      ),
    );
  });

  test("whole quotients, ends, and shares that never reach it", () => {
    expect(attemptsNeeded(0.9, 0.99)).toBe(2);
    expect(attemptsNeeded(0.9, 0.999)).toBe(3);
    expect(attemptsNeeded(0.1, 0.9)).toBe(22);
    expect(attemptsNeeded(1, 0.99)).toBe(1);
    expect(attemptsNeeded(0, 0.99)).toBeNull();
    expect(attemptsNeeded(1e-12, 0.99)).toBeNull();
    expect(() => attemptsNeeded(0.5, 1)).toThrow(DomainError);
  });
});
