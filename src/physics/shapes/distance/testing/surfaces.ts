import { rotationMatrix } from "../../../../math/rotation/index.ts";
import { createMesh } from "../../mesh.ts";
import { createPose } from "../../pose.ts";
import type { Mesh, Pose } from "../../types.ts";

/** Pose from a quaternion of any length (not zero) and a translation [m]. For tests. */
export function poseOf(quaternion: readonly number[], translation: readonly number[]): Pose {
  const pose = createPose();
  const size = Math.hypot(...quaternion);
  rotationMatrix(Float64Array.from(quaternion.map((x) => x / size)), 0, pose.rotation);
  pose.translation.set(translation);
  return pose;
}

/** A segment as a mesh of one triangle without area. For tests. */
export function segmentMesh(from: readonly number[], to: readonly number[]): Mesh {
  return createMesh(Float64Array.from([...from, ...to]), Uint32Array.of(0, 1, 1));
}

/** Sphere with waves of a closed form: a closed surface that is neither convex nor symmetric. For tests. */
export function wavySphere(around: number, radius: number, wave: number): Mesh {
  const rows = around / 2;
  const vertices: number[] = [0, 0, radius];
  const triangles: number[] = [];
  for (let i = 1; i < rows; i++) {
    for (let j = 0; j < around; j++) {
      const [theta, phi] = [(Math.PI * i) / rows, (2 * Math.PI * j) / around];
      const r = radius * (1 + wave * Math.sin(3 * theta + 1) * Math.cos(4 * phi + 0.5));
      vertices.push(r * Math.sin(theta) * Math.cos(phi), r * Math.sin(theta) * Math.sin(phi), r * Math.cos(theta));
    }
  }
  vertices.push(0, 0, -radius);
  const last = vertices.length / 3 - 1;
  const at = (i: number, j: number): number => 1 + (i - 1) * around + (j % around);
  for (let j = 0; j < around; j++) {
    triangles.push(0, at(1, j), at(1, j + 1), last, at(rows - 1, j + 1), at(rows - 1, j));
    for (let i = 1; i + 1 < rows; i++) {
      triangles.push(at(i, j), at(i + 1, j), at(i, j + 1), at(i, j + 1), at(i + 1, j), at(i + 1, j + 1));
    }
  }
  return createMesh(Float64Array.from(vertices), Uint32Array.from(triangles));
}
