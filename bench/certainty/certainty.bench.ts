/**
 * Uncertainty samples of the demo: 10 000 samples, each with the trim and all modes of every mass state, on one core.
 *
 * Limit: 10 s with two free cores. The figure that carries over to another machine is the ratio: time of a sample and mass state
 * against one full operating point (trim, linear model, all modes) computed from arguments that stand ready, in the same run,
 * in turns. The load before the start stands beside it.
 */
import { readFileSync } from "node:fs";
import { loadavg } from "node:os";
import { fileURLToPath } from "node:url";
import { loadPair, recordReads } from "../../src/inputs/index.ts";
import { operatingPoint, PointModel, readHoldInputs, restsOf } from "../../src/studies/hold/index.ts";
import { patchedPair } from "../../src/studies/hold-certainty/patched-pair.ts";
import { normalPoints } from "../../src/studies/hold-certainty/points.ts";
import { SampledModel } from "../../src/studies/hold-certainty/sampled-model.ts";
import { variablesOf } from "../../src/studies/hold-certainty/variables.ts";

const SAMPLES = 10_000;
const BATCH = 500;
const LIMIT = 10;

const pair = fileURLToPath(new URL("../../demo/longshore/longshore.pair.yaml", import.meta.url));
const loaded = loadPair(pair, (path) => ({ ok: true, bytes: new Uint8Array(readFileSync(path)) }), {
  variant: "Rev B",
});
const { inputs, groups } = readHoldInputs(() => recordReads(loaded));
const condition = inputs.conditions[0]!;
const patched = patchedPair(loaded.pair);
const rests = restsOf(groups, condition.name, condition.masses, false).dynamics.longitudinal;
const variables = variablesOf(patched.uncertain, rests, groups, condition.masses, loaded.pair.correlations ?? []);
const model = new SampledModel(patched, condition, variables, inputs);
const points = normalPoints("Sobol", variables.paths.length, SAMPLES, 1, 0);
const u = new Float64Array(variables.paths.length);
let worst = 0;

function samples(from: number): void {
  for (let i = from; i < from + BATCH; i++) {
    points.point(i, u);
    if (model.evaluate(u) === "modes") worst = Math.min(worst, model.zeta[1]!);
  }
}

function fullPoints(): void {
  for (let i = 0; i < BATCH; i++) {
    const mass = condition.masses[i % condition.masses.length]!;
    worst = Math.min(worst, new PointModel(inputs, operatingPoint(inputs, condition, mass)).modes().length);
  }
}

function seconds(work: () => void): number {
  const start = process.hrtime.bigint();
  work();
  return Number(process.hrtime.bigint() - start) / 1e9;
}

console.log(`load ${loadavg()[0]!.toFixed(2)} before the start`);
samples(0);
fullPoints();
const cpu = process.cpuUsage();
const ratios: number[] = [];
let total = 0;
let other = 0;
for (let from = 0; from < SAMPLES; from += BATCH) {
  const own = seconds(() => samples(from));
  const full = seconds(fullPoints);
  total += own;
  other += full;
  ratios.push(own / condition.masses.length / full);
}
const { user, system } = process.cpuUsage(cpu);
ratios.sort((a, b) => a - b);
const share = total / (total + other);
console.log(
  `${SAMPLES} samples × ${condition.masses.length} mass states, ${variables.paths.length} uncertain values: ${total.toFixed(2)} s on one core ` +
    `(about ${((share * (user + system)) / 1e6).toFixed(2)} s of processor time), ${((100 * total) / LIMIT).toFixed(0)} % of the limit of ${LIMIT} s; worst ζ ${worst.toFixed(4)}`,
);
console.log(
  `one sample and mass state against one full point: median ${ratios[Math.floor(ratios.length / 2)]!.toFixed(2)}, ` +
    `${ratios[0]!.toFixed(2)} to ${ratios[ratios.length - 1]!.toFixed(2)}`,
);
