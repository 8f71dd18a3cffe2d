/**
 * Wall time of the commands an engineer waits for, start to exit, on the demo pair.
 *
 * Rounds are interleaved: one `davit check`, one `davit hold` of the modes alone, again. Limits: check 0.4 s, hold 3 s with two free cores; the
 * figure that counts is the share of the limit, and the load before the start stands beside it.
 */
import { spawnSync } from "node:child_process";
import { loadavg } from "node:os";
import { fileURLToPath } from "node:url";

const davit = fileURLToPath(new URL("../../davit", import.meta.url));
const pair = fileURLToPath(new URL("../../demo/longshore/longshore.pair.yaml", import.meta.url));
const ROUNDS = 7;
const commands = [
  { name: "davit check", args: ["check", pair], limit: 0.4 },
  { name: "davit hold, modes alone", args: ["hold", pair, "--parts", "none", "--json", "-"], limit: 3 },
];
const seconds = commands.map(() => [] as number[]);
console.log(`load ${loadavg()[0].toFixed(2)} before the start, ${ROUNDS} interleaved rounds`);
for (let round = 0; round < ROUNDS; round++) {
  commands.forEach(({ args }, i) => {
    const start = process.hrtime.bigint();
    const run = spawnSync(davit, args, { stdio: "ignore" });
    if (run.error !== undefined) throw run.error;
    seconds[i].push(Number(process.hrtime.bigint() - start) / 1e9);
  });
}
commands.forEach(({ name, limit }, i) => {
  const sorted = [...seconds[i]].sort((a, b) => a - b);
  const median = sorted[Math.floor(ROUNDS / 2)];
  const share = (100 * median) / limit;
  console.log(
    `${name}: median ${median.toFixed(3)} s, ${sorted[0].toFixed(3)} to ${sorted[ROUNDS - 1].toFixed(3)} s, ${share.toFixed(0)} % of the limit of ${limit} s`,
  );
});
