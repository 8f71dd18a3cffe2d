/**
 * Dispersed separations of the demo: 5 s each, with turbulence, scatter and the distance of all surfaces.
 *
 * Limit: 1 000 in 20 s on two cores, so 40 ms of one core each. The figure that carries over to another machine is the ratio: time of a
 * separation against that of 10 000 evaluations of the equations of motion of its pair, in the same run. The load before the start stands
 * beside it.
 */
import { readFileSync } from "node:fs";
import { loadavg } from "node:os";
import { fileURLToPath } from "node:url";
import { loadPair, recordReads } from "../../src/inputs/index.ts";
import { buildRelease } from "../../src/studies/release/build.ts";
import { caseOf, NORMAL } from "../../src/studies/release/cases.ts";
import { batchConditions, ReleaseSampler, sampleColumns } from "../../src/studies/release/samples.ts";
import { readRelease } from "../../src/studies/release/settings.ts";

const SAMPLES = 100;
const EVALUATIONS = 10_000;
const LIMIT = 40;

const pair = fileURLToPath(new URL("../../demo/longshore/longshore.pair.yaml", import.meta.url));
const loaded = loadPair(pair, (path) => ({ ok: true, bytes: new Uint8Array(readFileSync(path)) }), {
  variant: "Rev B",
});
const inputs = readRelease(() => recordReads(loaded))!;
const before = loadavg()[0]!.toFixed(2);
/** Time of this process alone [ms]. */
const spent = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

const point = { mass: inputs.settings.masses[0]!, boomAngle: inputs.settings.boomAngles[0]!.si };
const { motion } = buildRelease(inputs, caseOf(inputs.settings, NORMAL, {}), point)!.motion;
const state = new Float64Array(motion.stateCount);
const rate = new Float64Array(motion.stateCount);
state[3] = 1;
state[motion.layout.tip] = -4;
state[motion.layout.tip + 2] = 4;
function evaluations(): number {
  const start = spent();
  for (let i = 0; i < EVALUATIONS; i++) motion.derivative(0, state, rate);
  return spent() - start;
}
evaluations();

for (const [order, condition] of batchConditions(inputs).entries()) {
  const sampler = new ReleaseSampler(inputs, condition, order, 1);
  const row = new Float64Array(sampleColumns(inputs).length);
  for (let i = 0; i < 10; i++) sampler.run(i, row);
  const unit = evaluations();
  const start = spent();
  for (let i = 0; i < SAMPLES; i++) sampler.run(i, row);
  const each = (spent() - start) / SAMPLES;
  const said = `${each.toFixed(1)} ms a separation, ${(each / unit).toFixed(2)} of ${EVALUATIONS} evaluations`;
  console.log(`${condition.title}: ${said}; limit ${LIMIT} ms of one core; load before ${before}`);
}
