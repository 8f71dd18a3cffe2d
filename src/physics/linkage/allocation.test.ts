import { expect, test } from "vitest";
import { rockerAngle } from "../../../reference/analytic/four-bar/closed-form.ts";
import { createWork, settle } from "./settle.ts";
import { fourBarLinkage } from "./test-linkages.ts";

/** Counts the arrays of doubles that are made, by `new`, `slice`, `map` or `subarray`, while something runs. */
function arraysMade(work: () => void): number {
  const Original = Float64Array;
  let made = 0;
  const counting = new Proxy(Original, {
    construct(target, args, newTarget) {
      made++;
      return Reflect.construct(target, args, newTarget);
    },
  });
  const scope = globalThis as { Float64Array: typeof Float64Array };
  Object.defineProperty(Original, Symbol.species, { configurable: true, get: () => counting });
  scope.Float64Array = counting;
  try {
    work();
  } finally {
    scope.Float64Array = Original;
    Reflect.deleteProperty(Original, Symbol.species);
  }
  return made;
}

test("closing the loops makes no array", () => {
  const bar = { ground: 4, crank: 1.2, coupler: 3.5, rocker: 2.4 };
  const linkage = fourBarLinkage(bar, 0.7, rockerAngle(bar, 0.7, 1));
  const work = createWork(linkage, [0]);
  const state = linkage.stated.slice();
  const solve = () => {
    for (const alpha of [0.7, 0.75, 1.2, 3, 12]) {
      work.rows.values[0] = alpha;
      state.set(linkage.stated);
      settle(work, state);
      expect(work.iterations).toBeGreaterThanOrEqual(alpha === 0.7 ? 0 : 2);
    }
  };
  expect(arraysMade(solve)).toBe(0);
  // The counter sees what it should.
  expect(arraysMade(() => void state.slice())).toBe(1);
  expect(arraysMade(() => void new Float64Array(7))).toBe(1);
  expect(arraysMade(() => void state.subarray(1))).toBe(1);
});
