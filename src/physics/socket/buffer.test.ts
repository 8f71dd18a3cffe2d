import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { testSocket } from "../../../test/support/hookon-pair.ts";
import { bufferEnergy, bufferPeak, bufferSpeed } from "./index.ts";

const buffer = testSocket().buffer;
/** Force at a travel, and its area by the trapezoid. */
const forceAt = (x: number): number =>
  buffer.preload + buffer.stiffness * x + Math.max(0, x - buffer.stroke) * buffer.bottomStiffness;
const area = (x: number, n = 20_000): number =>
  Array.from({ length: n }, (_, i) => forceAt(((i + 0.5) * x) / n)).reduce((a, b) => a + b, 0) * (x / n);

describe("the buffer without damping", () => {
  it.each([20, 200, 467, 480, 1500])("takes %d J", (energy) => {
    const { travel, force, bottomed } = bufferPeak(buffer, energy);
    expectClose(area(travel), energy, { rtol: 1e-6, why: "midpoint rule over a kink" });
    expectClose(force, forceAt(travel), { rtol: 1e-12, why: "its own line" });
    expect(bottomed).toBe(travel > buffer.stroke);
  });

  it("its whole energy is the area to the stop", () => {
    expectClose(bufferEnergy(buffer), area(buffer.stroke), { rtol: 1e-6, why: "midpoint rule" });
  });

  it("the largest speed puts exactly the allowed load or the whole stroke on it", () => {
    const [light, heavy] = [bufferSpeed(buffer, 150, 3000), bufferSpeed(buffer, 150, 1e6)];
    expectClose(bufferPeak(buffer, 75 * light * light).force, 3000, { rtol: 1e-9, why: "put back" });
    expectClose(bufferPeak(buffer, 75 * heavy * heavy).travel, buffer.stroke, { rtol: 1e-9, why: "put back" });
    expect(bufferSpeed(buffer, 150, 1000)).toBe(0);
    expect(() => bufferPeak(buffer, -1)).toThrow("energy into the buffer");
  });
});
