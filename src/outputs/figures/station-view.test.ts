import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { toPixelX, toPixelY } from "./frame.ts";
import { boundsOf, cutToFrame, joined, stationFrame } from "./station-view.ts";

const margins = { left: 50, right: 10, top: 5, bottom: 40 };
const size = fc.double({ min: 0.2, max: 40, noNaN: true });
const place = fc.double({ min: -30, max: 30, noNaN: true });

describe("frames in stations", () => {
  it("have one scale for both axes and hold everything", () => {
    fc.assert(
      fc.property(place, place, size, size, (x, y, w, h) => {
        const bounds = { x: [x, x + w], y: [y, y + h] } as const;
        const frame = stationFrame("elevation", bounds, 760, 400, margins);
        const across = (toPixelX(frame, x + 1) - toPixelX(frame, x)) / 1;
        const up = (toPixelY(frame, y) - toPixelY(frame, y + 1)) / 1;
        expect(up).toBeCloseTo(across, 6);
        expect(frame.x.from).toBeLessThanOrEqual(x + 1e-9);
        expect(frame.x.to).toBeGreaterThanOrEqual(x + w - 1e-9);
        // the height is rounded to whole pixels
        expect(frame.y.from).toBeLessThanOrEqual(y + 1 / across);
        expect(frame.y.to).toBeGreaterThanOrEqual(y + h - 1 / across);
        expect(frame.height).toBeLessThanOrEqual(400 + margins.top + margins.bottom + 1);
      }),
    );
  });

  it("draw FS growing aft to the right and say so", () => {
    const frame = stationFrame("plan", { x: [10, 20], y: [-4, 4] }, 500, 300, margins);
    expect(toPixelX(frame, 20)).toBeGreaterThan(toPixelX(frame, 10));
    expect(toPixelY(frame, 4)).toBeLessThan(toPixelY(frame, -4));
    expect([frame.x.label, frame.y.label]).toEqual(["FS (m), aft →", "BL (m), right wing up"]);
  });

  it("cut outlines to their area and leave what is inside alone", () => {
    const frame = stationFrame("elevation", { x: [0, 10], y: [0, 5] }, 560, 1000, margins);
    const inner: [number, number][] = [
      [1, 1],
      [4, 1],
      [2, 3],
    ];
    expect(cutToFrame(inner, frame)).toEqual(inner);
    const large: [number, number][] = [
      [-50, -50],
      [50, -50],
      [50, 50],
      [-50, 50],
    ];
    const cut = boundsOf(cutToFrame(large, frame))!;
    expect([cut.x[0], cut.x[1]]).toEqual([frame.x.from, frame.x.to]);
    expect([cut.y[0], cut.y[1]]).toEqual([frame.y.from, frame.y.to]);
    expect(
      cutToFrame(
        inner.map(([x, y]): [number, number] => [x + 100, y]),
        frame,
      ),
    ).toEqual([]);
  });

  it("joins bounds, and nothing with something", () => {
    expect(boundsOf([])).toBeNull();
    expect(joined(null, { x: [0, 1], y: [2, 3] })).toEqual({ x: [0, 1], y: [2, 3] });
    expect(joined({ x: [-1, 0], y: [5, 6] }, { x: [0, 1], y: [2, 3] })).toEqual({ x: [-1, 1], y: [2, 6] });
  });
});
