import { carryPoint, type Mesh, type Pose } from "../../physics/shapes/index.ts";
import { hull, type Line2 } from "../fit/index.ts";
import { EVERY, type JudgedRun } from "./run-case.ts";
import type { ReleaseInputs } from "./settings.ts";
import type { SeparationStrip } from "./types.ts";

/** Times at which the aircraft is drawn after the command [s], besides the moment in which it comes free. */
const TIMES = [0, 1, 1.5, 2, 2.5, 3, 4] as const;

/** Outlines of everything else and of the aircraft at a few times, from the left and from behind; `null` without bodies. */
export function stripOf(
  { hinge }: ReleaseInputs,
  name: string,
  mass: string,
  { run, scene, built }: JudgedRun,
): SeparationStrip | null {
  if (scene === null) return null;
  const others = scene.parts.filter(({ owner }) => owner !== "carried");
  const own = scene.parts.filter(({ owner }) => owner === "carried");
  const rows = TIMES.map((time) => Math.round((time + built.settle) / EVERY)).filter((row) => row < run.rows);
  return {
    ...{ case: name, mass },
    still: viewsOf(
      others.map(({ mesh, pose }) => [mesh, pose] as const),
      hinge,
    ),
    frames: rows.map((row) => {
      const pose = scene.poseAt(run.values, row);
      return {
        time_s: Math.round((row * EVERY - built.settle) * 1e6) / 1e6,
        ...viewsOf(
          own.map(({ mesh }) => [mesh, pose] as const),
          hinge,
        ),
      };
    }),
  };
}

/** Convex outlines of parts from the left (aft, up) and from behind (right, up), from the hinge [m]. */
function viewsOf(
  parts: readonly (readonly [Mesh, Pose])[],
  hinge: readonly [number, number, number],
): { side: Line2[]; rear: Line2[] } {
  const at = new Float64Array(3);
  const seen = parts.map(([mesh, pose]) => {
    const side: (readonly [number, number])[] = [];
    const rear: (readonly [number, number])[] = [];
    for (let i = 0; i < mesh.vertices.length; i += 3) {
      carryPoint(pose, mesh.vertices, i, at, 0);
      const up = hinge[2] - at[2];
      side.push([hinge[0] - at[0], up]);
      rear.push([at[1] - hinge[1], up]);
    }
    return { side: drawn(side), rear: drawn(rear) };
  });
  return { side: seen.map(({ side }) => side), rear: seen.map(({ rear }) => rear) };
}

/** Hull to 1 cm, thinned to what a picture shows. */
function drawn(points: Line2): Line2 {
  const cm = (x: number): number => Math.round(100 * x) / 100 + 0;
  const line = hull(points.map(([x, y]) => [cm(x), cm(y)] as const));
  const stride = Math.max(1, Math.ceil(line.length / 40));
  return line.filter((_, i) => i % stride === 0);
}
