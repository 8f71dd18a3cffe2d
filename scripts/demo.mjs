#!/usr/bin/env node
/**
 * The main job on the demo pair: every study on the base and each variant, then the report.
 *
 * Exits 0 when each command ended with the code that `demo/longshore/expected.json` states. A criterion that is not met there
 * is the demo's lesson, not a failure of the demo.
 */
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./source.mjs";

const pair = "demo/longshore/longshore.pair.yaml";
const out = "out/longshore";
const expected = JSON.parse(readFileSync(join(root, "demo/longshore/expected.json"), "utf8"));

const quoted = (word) => (/[^\w./=-]/.test(word) ? `"${word}"` : word);

/** A study's text begins with its verdicts; the details after them are for whoever runs it alone. */
const verdictsOf = (text) => text.split(/^(?:MODES|LOADING)$/m)[0].trimEnd();

/** Runs one command in the open; returns whether it ended as expected. */
function run(args, expectedCode) {
  console.log(`\n$ ./davit ${args.map(quoted).join(" ")}`);
  const stdio = ["ignore", "pipe", "inherit"];
  const { status, stdout } = spawnSync(join(root, "davit"), args, { cwd: root, stdio, encoding: "utf8" });
  console.log(verdictsOf(stdout));
  const asExpected = status === expectedCode;
  console.log(`→ exit ${status}${asExpected ? ", as expected" : `, but ${expectedCode} was expected`}`);
  return asExpected;
}

const outcomes = [run(["check", pair], 0)];
for (const [study, variants] of Object.entries(expected.studies)) {
  for (const [variant, code] of Object.entries(variants)) outcomes.push(run([study, pair, "--variant", variant], code));
}
const { study, variants, code } = expected.compare;
outcomes.push(run(["compare", pair, ...variants, "--study", study, "--out", out], code));
outcomes.push(run(["clear", pair, "--out", out], expected.clear));

const report = join(root, out, "clearance.html");
const written = existsSync(report);
const surprises = outcomes.filter((asExpected) => !asExpected).length;
console.log(
  `\nDemo: ${outcomes.length} commands, ${surprises === 0 ? "all" : outcomes.length - surprises} ended as expected.`,
);
console.log(
  "Exit 1 says that some criterion is not met. On this pair that is the finding, not a fault of the program.",
);
console.log(written ? `Report: ${report}` : `The report ${report} was not written.`);
process.exitCode = surprises === 0 && written ? 0 : 1;
