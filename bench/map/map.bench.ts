/**
 * Time of the group × stroke maps of the demo pair, 101 × 101 cells, every pair of bodies.
 *
 *     tsx bench/map/map.bench.ts
 *
 * For each group, in alternating rounds of one run:
 *
 *   certified  the map as the study makes it: every cell proven by the motion bound, rectangles before cells
 *   nodes      what it would take to look at the nodes alone: the distance of every pair at every node of the sides that
 *              move it, from the same trees, warm, looked for up to near only. It proves nothing between the nodes
 *
 * The ratio is certified over nodes. The limit of 5 s is for one nominal map on a quiet machine. It is judged by processor time, which on
 * a quiet machine is no less than the clock, since one thread does the work, and does not grow with what others run. Last
 * come all maps of all groups, those with a member stuck (31 × 31) too. That no cell is called free at whose node something is nearer
 * than near is checked here, since both answers are at hand. The first round pays for the compiler, as a user's one run does.
 */
import { loadavg } from "node:os";
import { recordReads } from "../../src/inputs/index.ts";
import { createDistanceQuery, createPose, minimumDistance } from "../../src/physics/shapes/index.ts";
import { buildBodies } from "../../src/studies/fit/bodies.ts";
import { standingFractions } from "../../src/studies/fit/clearance.ts";
import { groupMaps, nominalMap } from "../../src/studies/fit/gear-map.ts";
import { buildMechanism } from "../../src/studies/fit/mechanism.ts";
import { fractionAt, heldPart, type MovingPart, type Scene } from "../../src/studies/fit/motion.ts";
import { choosePairs, type PartPair } from "../../src/studies/fit/pairs.ts";
import { readFitInputs } from "../../src/studies/fit/read-pair.ts";
import { sceneOf } from "../../src/studies/fit/scene.ts";
import { traceMechanism } from "../../src/studies/fit/stroke.ts";
import type { GearMap } from "../../src/studies/fit/types.ts";
import { loadDemo } from "../../test/support/load-demo.ts";

const LIMIT_S = 5;
const ROUNDS = 5;

const loaded = loadDemo();
const { inputs } = readFitInputs(() => recordReads(loaded));
const bodies = buildBodies(inputs);
const mechanism = buildMechanism(inputs);
const drawn = sceneOf(inputs, bodies, mechanism, traceMechanism(inputs, mechanism));
const { pairs } = choosePairs(inputs, drawn, mechanism.joined);
const scene: Scene = { ...drawn, standsAt: standingFractions(drawn, pairs) };

/** Clock time and processor time of all threads of the process; on a busy machine read the second. */
function timed<T>(work: () => T): { seconds: number; processor: number; value: T } {
  const [start, used] = [performance.now(), process.cpuUsage()];
  const value = work();
  const { user, system } = process.cpuUsage(used);
  return { seconds: (performance.now() - start) / 1000, processor: (user + system) / 1e6, value };
}

const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

/** The group's pairs with the other groups where they stand. */
function pairsOf(group: string): PartPair[] {
  const inCase = (one: MovingPart) =>
    one.drivenBy === "group" && one.part.group !== group ? heldPart(one, fractionAt(scene, one, 1)) : one;
  const own = pairs.map((pair) => ({ ...pair, a: inCase(pair.a), b: inCase(pair.b) }));
  return own.filter(({ a, b }) => a.drivenBy !== "nothing" || b.drivenBy !== "nothing");
}

/** Least distance at every node, near where everything is farther; and how many distances that took. */
function sampled(own: readonly PartPair[]): { least: Float64Array; distances: number } {
  const n = inputs.mapNodes;
  const least = new Float64Array(n * n).fill(inputs.near);
  const [poseA, poseB] = [createPose(), createPose()];
  let distances = 0;
  for (const { a, b } of own) {
    const query = createDistanceQuery();
    const drives = (what: string) => a.drivenBy === what || b.drivenBy === what;
    const [columns, rows] = [drives("group") ? n : 1, drives("stroke") ? n : 1];
    for (let j = 0; j < rows; j++) {
      for (let i = 0; i < columns; i++) {
        a.poseAt(j / (n - 1), i / (n - 1), poseA);
        b.poseAt(j / (n - 1), i / (n - 1), poseB);
        const options = { upperBound: inputs.near };
        const { distance } = minimumDistance(a.part.tree, poseA, b.part.tree, poseB, query, options);
        distances += 1;
        if (distance >= inputs.near) continue;
        for (let v = rows === 1 ? 0 : j; v < (rows === 1 ? n : j + 1); v++) {
          for (let u = columns === 1 ? 0 : i; u < (columns === 1 ? n : i + 1); u++) {
            least[v * n + u] = Math.min(least[v * n + u]!, distance);
          }
        }
      }
    }
  }
  return { least, distances };
}

function requireHonest(map: GearMap, least: Float64Array): void {
  map.state.forEach((state, cell) => {
    if (state === "free" && least[cell]! < inputs.near) throw new Error(`${map.id}: cell ${cell} is called free`);
    if (state === "near" && least[cell]! === 0) throw new Error(`${map.id}: cell ${cell} is called near`);
  });
}

console.log(`load ${loadavg()[0]!.toFixed(2)} before the start, ${ROUNDS} alternating rounds`);
console.log(
  "map        pairs   certified s (first, best)   processor s   nodes s   ratio   distances at nodes   share of the limit",
);
let failed = 0;
for (const group of bodies.groups) {
  const own = pairsOf(group);
  const [certified, processor, nodes]: [number[], number[], number[]] = [[], [], []];
  let distances = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const map = timed(() => nominalMap(inputs, scene, pairs, group));
    const plain = timed(() => sampled(own));
    requireHonest(map.value, plain.value.least);
    certified.push(map.seconds);
    processor.push(map.processor);
    nodes.push(plain.seconds);
    distances = plain.value.distances;
  }
  const [mine, theirs] = [median(certified), median(nodes)];
  const used = median(processor);
  if (!(used < LIMIT_S)) failed += 1;
  const numbers = [
    String(own.length).padStart(5),
    `${mine.toFixed(3)} (${certified[0]!.toFixed(3)}, ${Math.min(...certified).toFixed(3)})`.padStart(27),
    used.toFixed(3).padStart(13),
    theirs.toFixed(3).padStart(9),
    (mine / theirs).toFixed(2).padStart(7),
    String(distances).padStart(20),
    `${((100 * used) / LIMIT_S).toFixed(0)} %`.padStart(20),
  ];
  console.log(group.padEnd(10), ...numbers);
}
const all = timed(() => bodies.groups.flatMap((group) => groupMaps(inputs, scene, pairs, group)));
const cells = all.value.reduce((sum, { state }) => sum + state.length, 0);
console.log(
  `all ${all.value.length} maps, ${cells} cells: ${all.seconds.toFixed(2)} s, processor ${all.processor.toFixed(2)} s`,
);
console.log(`load ${loadavg()[0]!.toFixed(2)} after the end`);
console.log(failed === 0 ? `every map below ${LIMIT_S} s` : `${failed} maps not below ${LIMIT_S} s`);
process.exitCode = failed === 0 ? 0 : 1;
