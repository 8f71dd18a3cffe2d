/**
 * Time of one exact minimum distance of two moving surfaces of 50 000 triangles each, trees built.
 *
 *     tsx --expose-gc bench/distance/distance.bench.ts
 *
 * Kinds of neighbourhood: far apart, near, all but touching, crossing. For each pose the bodies are turned and then slid along a
 * line until the surfaces are a wanted gap apart. Cold starts know nothing; warm starts follow a slow motion and begin at the
 * last nearest pair. Fails if a median is not below 10 ms. Correctness is the business of the tests; that
 * cold and warm agree is checked here too.
 */
import { loadavg } from "node:os";
import { quaternionFromRotationVector, rotationMatrix } from "../../src/math/rotation/index.ts";
import {
  closerThan,
  createDistanceQuery,
  createPose,
  createTree,
  type DistanceOptions,
  type DistanceTree,
  minimumDistance,
  type Pose,
} from "../../src/physics/shapes/index.ts";
import { bumpyRing, bumpySphere } from "./meshes.ts";

const LIMIT_MS = 10;
const POSES = 60;
const ORIGIN = createPose();

/** Wanted gap [m] and the line of the slide; a negative gap pushes the bodies into each other by as much. */
const KINDS = [
  { kind: "far apart", gap: 3, line: [1, 0.3, 0.2] },
  { kind: "near, beside", gap: 0.03, line: [1, 0.3, 0.2] },
  { kind: "near, above", gap: 0.03, line: [0.2, 0.3, 1] },
  { kind: "all but touching", gap: 1e-5, line: [1, 0.3, 0.2] },
  { kind: "crossing", gap: -0.1, line: [1, 0.3, 0.2] },
] as const;

function timed(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((x, y) => x - y);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

/** Poses of B about A: turned by `step` from one to the next, slid in along the line until the gap is as wanted. */
function posesOf(a: DistanceTree, b: DistanceTree, kind: (typeof KINDS)[number], step: number): Pose[] {
  const query = createDistanceQuery();
  const size = Math.hypot(...kind.line);
  return Array.from({ length: POSES }, (_, i) => {
    const pose = createPose();
    const q = new Float64Array(4);
    const turn = 0.5 + step * i;
    const wobble = Math.sin(step * i);
    const length = Math.hypot(1, 2, wobble);
    quaternionFromRotationVector(turn / length, (2 * turn) / length, (wobble * turn) / length, q, 0);
    rotationMatrix(q, 0, pose.rotation);
    let at = 8;
    // The gap never shrinks faster than the slide, so this cannot overshoot.
    for (let round = 0; round < 60; round++) {
      for (let k = 0; k < 3; k++) pose.translation[k] = (at / size) * kind.line[k]!;
      const left = minimumDistance(a, ORIGIN, b, pose, query).distance - Math.max(kind.gap, 1e-5);
      if (left < 1e-6) break;
      at -= left;
    }
    if (kind.gap < 0) for (let k = 0; k < 3; k++) pose.translation[k] = ((at + kind.gap) / size) * kind.line[k]!;
    return pose;
  });
}

function measure(a: DistanceTree, b: DistanceTree, poses: readonly Pose[], options: DistanceOptions) {
  const query = createDistanceQuery();
  const distances: number[] = [];
  // One pass to warm the compiler, one that counts.
  for (const pose of poses) minimumDistance(a, ORIGIN, b, pose, query, options);
  minimumDistance(a, ORIGIN, b, poses[0]!, query, options);
  let pairs = 0;
  const times = poses.map((pose) =>
    timed(() => {
      const { distance, nodePairs } = minimumDistance(a, ORIGIN, b, pose, query, options);
      distances.push(distance);
      pairs += nodePairs;
    }),
  );
  return { times, distances, pairs: pairs / poses.length };
}

/** Bytes that one query takes, from many; needs --expose-gc. */
function bytesPerQuery(a: DistanceTree, b: DistanceTree, pose: Pose): number | undefined {
  const collect = (globalThis as { gc?: () => void }).gc;
  if (collect === undefined) return undefined;
  const query = createDistanceQuery();
  const options = { warmStart: false };
  for (let i = 0; i < 200; i++) minimumDistance(a, ORIGIN, b, pose, query, options);
  collect();
  const before = process.memoryUsage().heapUsed;
  for (let i = 0; i < 200; i++) minimumDistance(a, ORIGIN, b, pose, query, options);
  return (process.memoryUsage().heapUsed - before) / 200;
}

const sphere = bumpySphere(158, 160, 1, 0.03, 9);
const ring = bumpyRing(250, 100, 1.5, 0.5, 0.02, 7);
createTree(bumpySphere(60, 60, 1, 0.03, 9));
let [a, b] = [createTree(ring), createTree(ring)];
const build = timed(() => {
  [a, b] = [createTree(sphere), createTree(ring)];
});
console.log(
  `load ${loadavg()[0]!.toFixed(2)}; ${sphere.triangles.length / 3} and ${ring.triangles.length / 3} triangles`,
);
console.log(`both trees built in ${build.toFixed(0)} ms`);
console.log("kind              start          median ms   p90 ms  node pairs");
let failed = 0;
for (const kind of KINDS) {
  const seen: number[][] = [];
  const motion = posesOf(a, b, kind, 0.004);
  for (const [start, poses, warmStart] of [
    ["cold, turns", posesOf(a, b, kind, 0.37), false],
    ["cold, motion", motion, false],
    ["warm, motion", motion, true],
  ] as const) {
    const { times, distances, pairs } = measure(a, b, poses, { warmStart });
    seen.push(distances);
    const median = quantile(times, 0.5);
    if (!(median < LIMIT_MS)) failed += 1;
    const numbers = [
      median.toFixed(3).padStart(9),
      quantile(times, 0.9).toFixed(3).padStart(8),
      pairs.toFixed(0).padStart(11),
    ];
    console.log(kind.kind.padEnd(17), start.padEnd(14), ...numbers);
  }
  if (kind.gap > 0 && seen[1]!.some((d, i) => d !== seen[2]![i])) throw new Error(`${kind.kind}: warm and cold differ`);
  const query = createDistanceQuery();
  const poses = posesOf(a, b, kind, 0.37);
  for (const limit of [0.025, 0.035]) {
    let yes = 0;
    const times = poses.map((pose) =>
      timed(() => {
        if (closerThan(a, ORIGIN, b, pose, limit, query)) yes += 1;
      }),
    );
    const numbers = [quantile(times, 0.5).toFixed(3).padStart(9), quantile(times, 0.9).toFixed(3).padStart(8)];
    console.log(kind.kind.padEnd(17), `< ${limit} m?`.padEnd(14), ...numbers, `  ${yes} of ${POSES} yes`);
  }
}
const bytes = bytesPerQuery(a, b, posesOf(a, b, KINDS[1], 0.37)[3]!);
console.log(
  bytes === undefined ? "memory per query: run with --expose-gc" : `memory per query: ${bytes.toFixed(0)} bytes`,
);
console.log(failed === 0 ? `every median below ${LIMIT_MS} ms` : `${failed} medians not below ${LIMIT_MS} ms`);
process.exitCode = failed === 0 ? 0 : 1;
