import type { Pose } from "../../physics/shapes/index.ts";
import type { Station3 } from "./types.ts";

/** Three components along x forward, y right, z down. */
export type Axes3 = readonly [number, number, number];

/**
 * From stations (FS aft, BL right, WL up) to axes x forward, y right, z down with the same datum; points and directions alike. It is a
 * half turn about BL, so that right-handed turns stay right-handed, and its own inverse.
 *
 *     (x, y, z) = (−FS, BL, −WL)                                               (README eq. 1)
 */
export function toAxes(station: Station3): Axes3 {
  return [-station[0], station[1], -station[2]];
}

/** From axes x forward, y right, z down to stations. */
export function toStation(axes: ArrayLike<number>, offset = 0): Station3 {
  // Adding zero keeps −0 out of the result document.
  return [0 - axes[offset], axes[offset + 1] + 0, 0 - axes[offset + 2]];
}

/** Carries a point by a pose: R·r + p. */
export function carried(pose: Pose, point: Axes3): Axes3 {
  const { rotation: r, translation: p } = pose;
  const [x, y, z] = point;
  return [
    r[0] * x + r[1] * y + r[2] * z + p[0],
    r[3] * x + r[4] * y + r[5] * z + p[1],
    r[6] * x + r[7] * y + r[8] * z + p[2],
  ];
}

/** Direction in body axes of one in the pose's parent axes: Rᵀ·v. */
export function turnedBack(pose: Pose, [x, y, z]: Axes3): Axes3 {
  const r = pose.rotation;
  return [r[0] * x + r[3] * y + r[6] * z, r[1] * x + r[4] * y + r[7] * z, r[2] * x + r[5] * y + r[8] * z];
}

/** Point in body axes of one in the pose's parent axes: Rᵀ·(x − p). */
export function broughtBack(pose: Pose, point: Axes3): Axes3 {
  const p = pose.translation;
  return turnedBack(pose, [point[0] - p[0], point[1] - p[1], point[2] - p[2]]);
}

/** Pose of a body that is turned nose up by `pitch` and whose point `from` (body axes) stands at `to`. */
export function pitchedPose(pitch: number, from: Axes3, to: Axes3): Pose {
  const [c, s] = [Math.cos(pitch), Math.sin(pitch)];
  const pose: Pose = { rotation: Float64Array.of(c, 0, s, 0, 1, 0, -s, 0, c), translation: new Float64Array(3) };
  const at = carried(pose, from);
  for (let k = 0; k < 3; k++) pose.translation[k] = to[k] - at[k];
  return pose;
}

export const DEGREE = Math.PI / 180;
