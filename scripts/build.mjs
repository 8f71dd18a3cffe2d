#!/usr/bin/env node
/**
 * Bundles the command line with every library it needs into `dist/`, so that an installed package has no dependencies.
 *
 * The files are made in memory and put in place one by one, entries last, so that a running `davit` is not torn.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { BANNER, EXTERNAL, POOL_THREAD, poolOfThreads } from "./bundling.mjs";
import { thirdPartyLicences } from "./licences.mjs";

const root = resolve(dirname(fileURLToPath(import.meta.url)), "..");
const dist = join(root, "dist");

const esbuild = await import("esbuild").catch(() => undefined);
if (esbuild === undefined) {
  if (existsSync(join(dist, "main.js"))) {
    console.log("build: esbuild is not installed; the existing dist/ stays as it is");
    process.exit(0);
  }
  console.error("build: esbuild is not installed and dist/ is missing; run `npm ci` without --omit=dev");
  process.exit(1);
}

const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const started = performance.now();

const bundle = await esbuild.build({
  absWorkingDir: root,
  entryPoints: [
    { in: "src/cli/main.ts", out: "main" },
    { in: "src/cli/worker.ts", out: "worker" },
    { in: "src/cli/sampler.ts", out: "sampler" },
    POOL_THREAD,
  ],
  outdir: dist,
  bundle: true,
  write: false,
  metafile: true,
  format: "esm",
  platform: "node",
  target: "node20",
  splitting: true,
  minify: true,
  legalComments: "none",
  sourcemap: "linked",
  sourcesContent: false,
  chunkNames: "parts/[name]-[hash]",
  define: { DAVIT_VERSION: JSON.stringify(version) },
  banner: { js: BANNER },
  external: EXTERNAL,
  plugins: [poolOfThreads],
  logLevel: "warning",
});

const files = bundle.outputFiles.map((file) => ({ path: file.path, data: file.contents }));
const licences = thirdPartyLicences(bundle.metafile, root);
files.push({ path: join(dist, "THIRD-PARTY-LICENSES.txt"), data: licences.text });
files.push({ path: join(dist, "version.txt"), data: `${version}\n` });

const isEntry = (path) => dirname(path) === dist;
for (const file of [...files].sort((a, b) => Number(isEntry(a.path)) - Number(isEntry(b.path)))) {
  mkdirSync(dirname(file.path), { recursive: true });
  const temporary = `${file.path}.${process.pid}.tmp`;
  writeFileSync(temporary, file.data);
  renameSync(temporary, file.path);
}
const wanted = new Set(files.map((file) => file.path));
for (const entry of readdirSync(dist, { recursive: true, withFileTypes: true })) {
  const path = join(entry.parentPath ?? entry.path, entry.name);
  if (entry.isFile() && !wanted.has(path)) rmSync(path, { force: true });
}

const size = files.reduce((sum, file) => sum + file.data.length, 0);
const time = Math.round(performance.now() - started);
console.log(
  `build: davit ${version}, ${files.length} files, ${Math.round(size / 1024)} kB, ${licences.count} libraries, ${time} ms → ${relative(root, dist)}/`,
);
