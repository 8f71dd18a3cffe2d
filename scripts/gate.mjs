#!/usr/bin/env node
/**
 * The whole gate, the same at a desk and in continuous integration: `npm test`.
 *
 * Runs every step even when one fails, says how long each took, and ends with how many tests passed and failed.
 * `npm test -- format types` runs only the steps whose names are given.
 */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { ensureDebianPackages } from "./debian.mjs";
import { root } from "./source.mjs";

const bin = (name) => join(root, "node_modules", ".bin", name);
const node = (...args) => [process.execPath, ...args];
const scratch = mkdtempSync(join(tmpdir(), "davit-gate-"));
const testReport = join(scratch, "tests.json");

/** Steps in order: name, what it asks, and the command; a step without a command has a function. */
const STEPS = [
  { name: "packages", asks: "is what the tests need installed?", run: () => ensureDebianPackages() },
  { name: "format", asks: "format and lint", command: [bin("biome"), "check", "--error-on-warnings", "."] },
  {
    name: "types-pure",
    asks: "types of the pure rooms, no Node and no browser",
    command: [bin("tsc"), "-p", "tsconfig.pure.json"],
  },
  { name: "types-node", asks: "types of everything", command: [bin("tsc"), "-p", "tsconfig.node.json"] },
  { name: "imports", asks: "who imports whom", command: node("scripts/check-imports.mjs") },
  { name: "ratchet", asks: "file sizes", command: node("scripts/check-ratchet.mjs") },
  { name: "reference", asks: "every cited value exists and is used", command: node("scripts/check-reference.mjs") },
  { name: "lockfile", asks: "the lockfile names no registry", command: node("scripts/check-lockfile.mjs") },
  { name: "build", asks: "the bundle", command: node("scripts/build.mjs") },
  { name: "docs", asks: "are the generated pages up to date?", command: node("scripts/docs.mjs", "--check") },
  {
    name: "tests",
    asks: "unit, validation, golden, runtime and end-to-end tests",
    command: [bin("vitest"), "run", "--reporter=dot", "--reporter=json", `--outputFile.json=${testReport}`],
  },
];

function main() {
  const asked = process.argv.slice(2);
  const unknown = asked.filter((name) => !STEPS.some((step) => step.name === name));
  if (unknown.length > 0) {
    console.error(
      `gate: no step is called ${unknown.join(", ")}; there are ${STEPS.map((step) => step.name).join(", ")}`,
    );
    return 2;
  }
  const steps = asked.length === 0 ? STEPS : STEPS.filter((step) => asked.includes(step.name));
  const results = [];
  for (const step of steps) {
    console.log(`\n── ${step.name}: ${step.asks}`);
    const started = performance.now();
    const ok = step.run === undefined ? runCommand(step.command) : step.run();
    const seconds = (performance.now() - started) / 1000;
    results.push({ name: step.name, ok, seconds });
    console.log(`── ${step.name}: ${ok ? "ok" : "FAILED"} in ${seconds.toFixed(1)} s`);
    if (step.name === "packages" && !ok) break;
  }
  return summarise(results);
}

function runCommand([command, ...args]) {
  const { status, error } = spawnSync(command, args, { cwd: root, stdio: ["ignore", "inherit", "inherit"] });
  if (error !== undefined) console.error(`gate: ${command}: ${error.message}`);
  return status === 0;
}

function summarise(results) {
  console.log("\nGate");
  for (const { name, ok, seconds } of results) {
    console.log(`  ${ok ? "ok    " : "FAILED"}  ${name.padEnd(12)}${seconds.toFixed(1).padStart(7)} s`);
  }
  const total = results.reduce((sum, result) => sum + result.seconds, 0);
  console.log(`  total${" ".repeat(15)}${total.toFixed(1).padStart(7)} s`);
  const failed = results.filter((result) => !result.ok).map((result) => result.name);
  if (failed.length > 0) console.log(`Failed: ${failed.join(", ")}`);
  const testsOk = results.some((result) => result.name === "tests") ? tellTests() : true;
  return failed.length === 0 && testsOk ? 0 : 1;
}

/** Prints the closing line; a run in which no test passed is not a good run. */
function tellTests() {
  const report = existsSync(testReport) ? JSON.parse(readFileSync(testReport, "utf8")) : {};
  const { numPassedTests: passed = 0, numFailedTests: failed = 0, numPendingTests = 0, numTodoTests = 0 } = report;
  const skipped = numPendingTests + numTodoTests;
  tellSlowest(report.testResults ?? []);
  tellFailures(report.testResults ?? []);
  if (passed === 0) console.log("No test passed.");
  console.log(`Tests: ${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ""}`);
  return passed > 0;
}

/** The five test files that took longest, so that the gate's length has names. */
function tellSlowest(files) {
  const took = files.map(({ name, startTime, endTime }) => ({ name, seconds: (endTime - startTime) / 1000 }));
  const slowest = took.sort((one, other) => other.seconds - one.seconds).slice(0, 5);
  if (slowest.length > 0) console.log("Slowest test files");
  for (const { name, seconds } of slowest) console.log(`${seconds.toFixed(1).padStart(9)} s  ${relative(root, name)}`);
}

/** Every failure once more at the very end, where a cut log still shows it. */
function tellFailures(files) {
  for (const { name, assertionResults, status, message } of files) {
    const failed = assertionResults.filter((test) => test.status === "failed");
    for (const test of failed) {
      console.log(`FAILED ${relative(root, name)}: ${test.fullName}`);
      console.log(firstLines(test.failureMessages.join("\n"), 12));
    }
    if (failed.length === 0 && status === "failed") console.log(`FAILED ${relative(root, name)}: ${message}`);
  }
}

const firstLines = (text, count) => text.split("\n").slice(0, count).join("\n");

try {
  process.exitCode = main();
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
