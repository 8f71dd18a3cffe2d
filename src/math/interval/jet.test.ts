import fc from "fast-check";
import { expect, it } from "vitest";
import { holds, interval, point } from "./interval.ts";
import { addJets, constantJet, type Jet, multiplyJets, scaleJet, subtractJets } from "./jet.ts";

it("holds value and derivatives of 2(t² − 3t)(t + 5) − t at all members", () => {
  const t = fc.double({ min: -3, max: 3, noNaN: true });
  fc.assert(
    fc.property(t, t, t, (a, b, s) => {
      const [low, high] = [Math.min(a, b), Math.max(a, b)];
      const x = Math.min(high, Math.max(low, low + (Math.abs(s) / 3) * (high - low)));
      const free: Jet = { value: interval(low, high), first: point(1), second: point(0) };
      const square = multiplyJets(free, free);
      const product = multiplyJets(subtractJets(square, scaleJet(3, free)), addJets(free, constantJet(point(5))));
      const f = subtractJets(scaleJet(2, product), free);
      // 2t³ + 4t² − 30t − t.
      const slack = 1e-11;
      const inside = (bounds: { low: number; high: number }, value: number) =>
        holds({ low: bounds.low - slack, high: bounds.high + slack }, value);
      expect(inside(f.value, 2 * x ** 3 + 4 * x ** 2 - 31 * x)).toBe(true);
      expect(inside(f.first, 6 * x ** 2 + 8 * x - 31)).toBe(true);
      expect(inside(f.second, 12 * x + 8)).toBe(true);
    }),
  );
});

it("has the derivatives themselves for a number", () => {
  const free: Jet = { value: point(2), first: point(1), second: point(0) };
  const cube = multiplyJets(free, multiplyJets(free, free));
  for (const [bounds, value] of [
    [cube.value, 8],
    [cube.first, 12],
    [cube.second, 12],
  ] as const) {
    expect(holds(bounds, value)).toBe(true);
    expect(bounds.high - bounds.low).toBeLessThan(1e-13);
  }
});
