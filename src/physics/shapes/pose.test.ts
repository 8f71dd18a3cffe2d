import { describe, expect, it } from "vitest";
import { quaternionFromRotationVector, rotationMatrix } from "../../math/rotation/index.ts";
import { carryPoint, createPose, relativePose, requirePose } from "./pose.ts";

function poseOf(rotation: readonly [number, number, number], translation: readonly [number, number, number]) {
  const pose = createPose();
  const q = new Float64Array(4);
  quaternionFromRotationVector(...rotation, q, 0);
  rotationMatrix(q, 0, pose.rotation);
  pose.translation.set(translation);
  return pose;
}

describe("poses", () => {
  it("carry a point the same way directly and through the other body", () => {
    const [a, b] = [poseOf([0.3, -1.2, 0.4], [1, 2, 3]), poseOf([-0.7, 0.1, 2], [-4, 0.5, 1])];
    const relative = createPose();
    relativePose(a, b, relative);
    const direct = new Float64Array(3);
    const through = new Float64Array(3);
    carryPoint(b, Float64Array.of(0.2, -3, 1), 0, direct, 0);
    carryPoint(relative, Float64Array.of(0.2, -3, 1), 0, through, 0);
    carryPoint(a, through, 0, through, 0);
    for (let k = 0; k < 3; k++) expect(through[k]).toBeCloseTo(direct[k]!, 14);
  });

  it("refuse mirrors, scales, NaN", () => {
    expect(() => requirePose("A", poseOf([0.3, 0.2, 1], [1, 2, 3]))).not.toThrow();
    const mirror = createPose();
    mirror.rotation[0] = -1;
    expect(() => requirePose("A", mirror)).toThrow("rotation of A");
    const scaled = createPose();
    scaled.rotation[4] = 1.001;
    expect(() => requirePose("B", scaled)).toThrow("rotation of B");
    const lost = createPose();
    lost.translation[1] = Number.NaN;
    expect(() => requirePose("B", lost)).toThrow("translation of B");
    lost.rotation[3] = Number.NaN;
    expect(() => requirePose("B", lost)).toThrow("rotation of B");
  });
});
