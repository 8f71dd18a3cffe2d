/**
 * Speed of the hook-on motion on the invented pair against the same equations in C (gcc -O3 -march=native, one thread): the stages are
 * translated, the loop is loop.c. Both do the same steps on the same samples, in alternating rounds of one run; final states are compared
 * first. Bundled first, as the program is shipped. Without a C compiler it prints the own times alone and says so.
 */
import { spawnSync } from "node:child_process";
import { copyFileSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import { equationsInC, equationsInPython } from "./translate.ts";

/** The yardstick's program; undefined without a compiler. */
function compile(folder: string): string | undefined {
  const program = join(folder, "loop");
  writeFileSync(join(folder, "equations.c"), equationsInC());
  copyFileSync(fileURLToPath(new URL("./loop.c", import.meta.url)), join(folder, "loop.c"));
  const flags = ["-O3", "-march=native", "-o", program, join(folder, "loop.c"), "-lm"];
  for (const compiler of ["gcc", "cc"]) {
    const built = spawnSync(compiler, flags, { encoding: "utf8" });
    if (built.status === 0) return program;
    console.log(`${compiler} -O3 -march=native failed (${built.error?.message ?? built.stderr.trim()})`);
  }
  console.log("no comparison with C: no compiler here");
  return undefined;
}

const folder = mkdtempSync(join(tmpdir(), "davit-"));
try {
  const bundled = (name: string): string => {
    const outfile = join(folder, `${name}.mjs`);
    const entryPoints = [fileURLToPath(new URL(`./${name}.ts`, import.meta.url))];
    const how = { bundle: true, minify: true, platform: "node", format: "esm", logLevel: "error" } as const;
    buildSync({ ...how, entryPoints, outfile });
    return outfile;
  };
  const program = compile(folder);
  console.log(`load ${loadavg()[0]!.toFixed(2)} before the start; Node ${process.version}`);
  writeFileSync(join(folder, "equations.py"), equationsInPython());
  const script = fileURLToPath(new URL("./scipy_run.py", import.meta.url));
  const words = program === undefined ? [folder, script] : [folder, script, program];
  for (const [name, given] of [
    ["measure", words],
    ["threads", []],
  ] as const) {
    const { status } = spawnSync(process.execPath, [bundled(name), ...given], { stdio: "inherit" });
    if (status !== 0) process.exitCode = 1;
  }
} finally {
  rmSync(folder, { recursive: true });
}
