import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { multiply } from "../dense/index.ts";
import { DomainError } from "../errors.ts";
import {
  eulerFromQuaternion,
  normaliseQuaternion,
  quaternionFromEuler,
  quaternionFromRotationVector,
  quaternionMultiply,
  quaternionRate,
  rotateToBody,
  rotateToParent,
  rotationMatrix,
} from "./index.ts";

const part = fc.double({ min: -1, max: 1, noNaN: true });
const unitQuaternion = fc
  .tuple(part, part, part, part)
  .filter((parts) => Math.hypot(...parts) > 0.1)
  .map((parts) => {
    const q = Float64Array.from(parts);
    normaliseQuaternion(q, 0);
    return q;
  });
const angle = fc.double({ min: -3.1, max: 3.1, noNaN: true });

function matrixOf(q: Float64Array, offset = 0): Float64Array {
  const matrix = new Float64Array(9);
  rotationMatrix(q, offset, matrix);
  return matrix;
}

function product(a: Float64Array, b: Float64Array): Float64Array {
  const out = new Float64Array(9);
  multiply(a, b, out, 3, 3, 3);
  return out;
}

function expectClose(actual: Float64Array, expected: ArrayLike<number>, limit: number): void {
  expect(actual.length).toBe(expected.length);
  actual.forEach((value, i) => {
    expect(Math.abs(value - expected[i]!)).toBeLessThan(limit);
  });
}

describe("rotationMatrix", () => {
  test("R Rᵀ = 1 and det R = 1", () => {
    fc.assert(
      fc.property(unitQuaternion, (q) => {
        const r = matrixOf(q);
        const transposed = Float64Array.from(r, (_, at) => r[(at % 3) * 3 + Math.floor(at / 3)]!);
        expectClose(product(r, transposed), [1, 0, 0, 0, 1, 0, 0, 0, 1], 1e-14);
        const determinant =
          r[0]! * (r[4]! * r[8]! - r[5]! * r[7]!) -
          r[1]! * (r[3]! * r[8]! - r[5]! * r[6]!) +
          r[2]! * (r[3]! * r[7]! - r[4]! * r[6]!);
        expect(Math.abs(determinant - 1)).toBeLessThan(1e-14);
      }),
    );
  });

  test("positive yaw turns the nose (body x) to the right (parent y)", () => {
    const q = new Float64Array(4);
    quaternionFromEuler(Math.PI / 2, 0, 0, q, 0);
    const out = new Float64Array(3);
    rotateToParent(matrixOf(q), Float64Array.of(1, 0, 0), 0, out, 0);
    expectClose(out, [0, 1, 0], 1e-15);
  });

  test("positive pitch lifts the nose (parent −z), positive roll lowers the right wing (body y to parent z)", () => {
    const q = new Float64Array(4);
    const out = new Float64Array(3);
    quaternionFromEuler(0, 0.3, 0, q, 0);
    rotateToParent(matrixOf(q), Float64Array.of(1, 0, 0), 0, out, 0);
    expectClose(out, [Math.cos(0.3), 0, -Math.sin(0.3)], 1e-15);
    quaternionFromEuler(0, 0, 0.3, q, 0);
    rotateToParent(matrixOf(q), Float64Array.of(0, 1, 0), 0, out, 0);
    expectClose(out, [0, Math.cos(0.3), Math.sin(0.3)], 1e-15);
  });

  test("to body and back is the identity, in place and with offsets", () => {
    fc.assert(
      fc.property(unitQuaternion, fc.tuple(part, part, part), (q, v) => {
        const vector = Float64Array.of(7, ...v);
        rotateToBody(matrixOf(q), vector, 1, vector, 1);
        rotateToParent(matrixOf(q), vector, 1, vector, 1);
        expectClose(vector, [7, ...v], 1e-14);
      }),
    );
  });
});

describe("quaternions", () => {
  test("the matrix of a product is the product of the matrices", () => {
    fc.assert(
      fc.property(unitQuaternion, unitQuaternion, (a, b) => {
        const both = Float64Array.of(0, ...a, ...b);
        quaternionMultiply(both, 1, both, 5, both, 1);
        expectClose(matrixOf(both, 1), product(matrixOf(a), matrixOf(b)), 1e-14);
      }),
    );
  });

  test("Ṙ = R [ω×] with ω in body axes, by central differences", () => {
    fc.assert(
      fc.property(unitQuaternion, fc.tuple(part, part, part), (q, [p, q_, r]) => {
        const rate = new Float64Array(4);
        quaternionRate(q, 0, p, q_, r, rate, 0);
        const step = 1e-5;
        const ahead = matrixOf(q.map((value, i) => value + step * rate[i]!));
        const behind = matrixOf(q.map((value, i) => value - step * rate[i]!));
        const slope = ahead.map((value, i) => (value - behind[i]!) / (2 * step));
        const cross = Float64Array.of(0, -r, q_, r, 0, -p, -q_, p, 0);
        expectClose(slope, product(matrixOf(q), cross), 1e-9);
        const dot = q.reduce((sum, value, i) => sum + value * rate[i]!, 0);
        expect(Math.abs(dot)).toBeLessThan(1e-15);
      }),
    );
  });

  test("the rate may overwrite its quaternion", () => {
    const q = Float64Array.of(0.5, 0.5, -0.5, 0.5);
    const apart = new Float64Array(4);
    quaternionRate(q, 0, 0.1, -0.2, 0.3, apart, 0);
    quaternionRate(q, 0, 0.1, -0.2, 0.3, q, 0);
    expect(q).toEqual(apart);
  });

  test("a constant body rate turns by its rotation vector: q̇ of the rotation vector's quaternion", () => {
    fc.assert(
      fc.property(fc.tuple(angle, angle, angle), ([x, y, z]) => {
        // q(t) of the vector t·ω; its derivative at t = 1 by central differences.
        const ahead = new Float64Array(4);
        const behind = new Float64Array(4);
        const here = new Float64Array(4);
        const rate = new Float64Array(4);
        const step = 1e-5;
        quaternionFromRotationVector(x, y, z, here, 0);
        quaternionFromRotationVector(x * (1 + step), y * (1 + step), z * (1 + step), ahead, 0);
        quaternionFromRotationVector(x * (1 - step), y * (1 - step), z * (1 - step), behind, 0);
        quaternionRate(here, 0, x, y, z, rate, 0);
        expect(Math.abs(Math.hypot(...here) - 1)).toBeLessThan(1e-15);
        expectClose(
          rate,
          ahead.map((value, i) => (value - behind[i]!) / (2 * step)),
          1e-8,
        );
      }),
    );
  });

  test("small rotation vectors join the closed form without a step", () => {
    const small = new Float64Array(4);
    for (const size of [0, 1e-300, 1e-9, 9.99e-5, 1.001e-4]) {
      quaternionFromRotationVector(0, size, 0, small, 0);
      expect(small[0]).toBeCloseTo(Math.cos(size / 2), 15);
      expect(Math.abs(small[2]! - Math.sin(size / 2))).toBeLessThanOrEqual(2e-16 * size);
    }
  });

  test("normalising returns the old length and refuses what has none", () => {
    const q = Float64Array.of(9, 3, 0, 4, 0);
    expect(normaliseQuaternion(q, 1)).toBe(5);
    expect([...q]).toEqual([9, 0.6, 0, 0.8, 0]);
    expect(() => normaliseQuaternion(new Float64Array(4), 0)).toThrow(DomainError);
    expect(() => normaliseQuaternion(Float64Array.of(1, Number.NaN, 0, 0), 0)).toThrow("quaternion length is NaN");
  });
});

describe("3-2-1 angles", () => {
  test("are yaw, then pitch, then roll about the turned axes", () => {
    fc.assert(
      fc.property(angle, angle, angle, (yaw, pitch, roll) => {
        const all = new Float64Array(4);
        const turn = new Float64Array(4);
        const chain = Float64Array.of(1, 0, 0, 0);
        quaternionFromEuler(yaw, pitch, roll, all, 0);
        for (const [x, y, z] of [
          [0, 0, yaw],
          [0, pitch, 0],
          [roll, 0, 0],
        ] as const) {
          quaternionFromRotationVector(x, y, z, turn, 0);
          quaternionMultiply(chain, 0, turn, 0, chain, 0);
        }
        expectClose(all, chain, 1e-14);
      }),
    );
  });

  test("come back from the quaternion", () => {
    const pitchAngle = fc.double({ min: -1.57, max: 1.57, noNaN: true });
    fc.assert(
      fc.property(angle, pitchAngle, angle, (yaw, pitch, roll) => {
        const q = new Float64Array(5);
        const angles = new Float64Array(4);
        quaternionFromEuler(yaw, pitch, roll, q, 1);
        eulerFromQuaternion(q, 1, angles, 1);
        expectClose(angles, [0, yaw, pitch, roll], 1e-11);
      }),
    );
  });

  test.each([Math.PI / 2, -Math.PI / 2])("at the pole %d roll is zero and the attitude is kept", (pitch) => {
    const q = new Float64Array(4);
    const again = new Float64Array(4);
    const angles = new Float64Array(3);
    quaternionFromEuler(0.7, pitch, -0.4, q, 0);
    eulerFromQuaternion(q, 0, angles);
    expect(angles[2]).toBe(0);
    quaternionFromEuler(angles[0]!, angles[1]!, angles[2]!, again, 0);
    expectClose(matrixOf(again), matrixOf(q), 2e-8);
  });
});
