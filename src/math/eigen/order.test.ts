import fc from "fast-check";
import { expect, test } from "vitest";
import { sortEigenvalues } from "./order.ts";

const units = fc.array(fc.tuple(fc.integer({ min: -3, max: 3 }), fc.integer({ min: 0, max: 2 })), { maxLength: 12 });

function spread(parts: readonly (readonly [number, number])[]) {
  const re = parts.flatMap(([x, y]) => (y === 0 ? [x] : [x, x]));
  const im = parts.flatMap(([, y]) => (y === 0 ? [0] : [y, -y]));
  return { re: Float64Array.from(re), im: Float64Array.from(im) };
}

test("sorting orders the units, keeps pairs together and depends on the numbers alone", () => {
  fc.assert(
    fc.property(units, (parts) => {
      const { re, im } = spread(parts);
      sortEigenvalues(re, im, re.length);
      const sorted = [...parts].sort((a, b) => b[0] - a[0] || a[1] - b[1]);
      const expected = spread(sorted);
      expect(re).toEqual(expected.re);
      expect(im).toEqual(expected.im);
    }),
  );
});
