import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { symbolPath } from "./compose.ts";
import { type Frame, fromPixelX, fromPixelY, padded, ticksOf, toPixelX, toPixelY } from "./frame.ts";
import { spread } from "./labels.ts";
import { interpolate } from "./sweep-tracks.ts";
import { escapeXml, fitText, slug, textWidth } from "./text.ts";

const margins = { left: 40, right: 60, top: 5, bottom: 30 };

describe("frame", () => {
  it("maps pixels back to data on linear and logarithmic axes", () => {
    const frame: Frame = {
      width: 400,
      height: 300,
      margins,
      x: { label: "", from: 0.1, to: 100, log: true },
      y: { label: "", from: -2, to: 6, log: false },
    };
    expect(toPixelX(frame, 0.1)).toBeCloseTo(40, 9);
    expect(toPixelX(frame, 100)).toBeCloseTo(340, 9);
    expect(toPixelY(frame, -2)).toBeCloseTo(270, 9);
    fc.assert(
      fc.property(fc.double({ min: -50, max: 500, noNaN: true }), (pixel) => {
        expect(toPixelX(frame, fromPixelX(frame, pixel))).toBeCloseTo(pixel, 6);
        expect(toPixelY(frame, fromPixelY(frame, pixel))).toBeCloseTo(pixel, 6);
      }),
    );
  });

  it("chooses round ticks inside the range, never fewer than three", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e3, max: 1e3, noNaN: true }),
        fc.double({ min: 1e-3, max: 1e4, noNaN: true }),
        (from, size) => {
          const ticks = ticksOf({ label: "", from, to: from + size, log: false });
          expect(ticks.length).toBeGreaterThanOrEqual(3);
          expect(ticks.length).toBeLessThanOrEqual(11);
          expect(ticks[0]!).toBeGreaterThanOrEqual(from - 1e-6 * size);
          expect(ticks.at(-1)!).toBeLessThanOrEqual(from + size * (1 + 1e-6));
        },
      ),
    );
    expect(ticksOf({ label: "", from: 0.1, to: 100, log: true })).toEqual([0.1, 0.3, 1, 3, 10, 30, 100]);
    expect(ticksOf({ label: "", from: 1, to: 1e6, log: true })).toEqual([1, 10, 100, 1e3, 1e4, 1e5, 1e6]);
  });

  it("pads a range and makes one of a single value", () => {
    expect(padded([0, 10], 0.1)).toEqual([-1, 11]);
    expect(padded([3])).toEqual([2, 4]);
    expect(padded([])).toEqual([-1, 1]);
  });
});

describe("labels", () => {
  it("keeps order, distance and bounds, and moves nothing that is already clear", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { minLength: 1, maxLength: 18 }), (wanted) => {
        const placed = spread(wanted, 0, 300, 14);
        const sorted = [...placed].sort((a, b) => a - b);
        for (let i = 1; i < sorted.length; i++) expect(sorted[i]! - sorted[i - 1]!).toBeGreaterThanOrEqual(14 - 1e-9);
        expect(sorted[0]!).toBeGreaterThanOrEqual(-1e-9);
        expect(sorted.at(-1)!).toBeLessThanOrEqual(300 + 1e-9);
        wanted.forEach((a, i) => {
          wanted.forEach((b, k) => {
            if (a < b) expect(placed[i]!).toBeLessThan(placed[k]!);
          });
        });
      }),
    );
    expect(spread([10, 50, 200], 0, 300, 14)).toEqual([10, 50, 200]);
  });

  it("shares the room when there is too little", () => {
    expect(spread([5, 5, 5, 5, 5], 0, 40, 14)).toEqual([0, 10, 20, 30, 40]);
  });

  it("shortens to the width asked for and keeps what fits", () => {
    expect(fitText("short", 200)).toBe("short");
    const cut = fitText("a very long name of a condition", 80);
    expect(cut.endsWith("…")).toBe(true);
    expect(textWidth(cut)).toBeLessThanOrEqual(80);
  });

  it("makes ids of any text and escapes all five characters", () => {
    expect(slug("Rev A / späte Änderung")).toBe("rev-a-spa-te-a-nderung");
    expect(slug("日本")).toBe("x");
    expect(escapeXml(`<a href="x" title='y'>&`)).toBe("&lt;a href=&quot;x&quot; title=&#39;y&#39;&gt;&amp;");
  });
});

describe("small geometry", () => {
  it("gives every symbol the same area", () => {
    const area = (path: string): number => {
      const points: [number, number][] = [];
      let at: [number, number] = [0, 0];
      for (const [, command, body] of path.matchAll(/([MLHV])([^MLHVZ]*)/g)) {
        const numbers = body!.trim().split(/[ ,]+/).map(Number);
        if (command === "H") at = [numbers[0]!, at[1]];
        else if (command === "V") at = [at[0], numbers[0]!];
        else at = [numbers[0]!, numbers[1]!];
        points.push(at);
      }
      return (
        Math.abs(
          points.reduce((sum, [x, y], i) => {
            const [nx, ny] = points[(i + 1) % points.length]!;
            return sum + x * ny - nx * y;
          }, 0),
        ) / 2
      );
    };
    for (const symbol of ["square", "diamond", "triangle"] as const) {
      expect(area(symbolPath(symbol, 4))).toBeCloseTo(Math.PI * 16, 6);
    }
  });

  it("reads a sampled curve between its samples, not outside and not over a gap", () => {
    expect(interpolate([0, 1, 3], [0, 10, 30], 2)).toBe(20);
    expect(interpolate([0, 1, 3], [0, null, 30], 2)).toBeNull();
    expect(interpolate([0, 1, 3], [0, 10, null], 1)).toBe(10);
    expect(interpolate([0, 1, 3], [0, 10, 30], 4)).toBeNull();
  });
});
