/**
 * What bundles of the command line need beyond plain settings; used by the build and by tests that bundle a program of their own.
 */
import { readFileSync } from "node:fs";

/** Native or never used here: found beside the program if somebody installed them. */
export const EXTERNAL = [
  "@duckdb/node-api",
  "@napi-rs/nice",
  "pg",
  "redis",
  "bullmq-otel",
  "msgpackr-extract",
  "@valkey/valkey-glide",
];

/** Libraries written for CommonJS reach Node's own modules through `require`. */
export const BANNER =
  'import{createRequire as __davitRequire}from"node:module";const __davitHere=__davitRequire(import.meta.url),require=__davitHere;';

/** The code that the pool of threads starts each thread with; it lies among the parts, where the pool itself is. */
export const POOL_THREAD = { in: "node_modules/piscina/dist/worker.js", out: "parts/pool-thread" };

/** The pool looks for that code beside itself, under this name since `worker.js` says too little; `__davitHere` is the banner's. */
export const poolOfThreads = {
  name: "pool of threads",
  setup(build) {
    build.onLoad({ filter: /piscina[\\/]dist[\\/]index\.js$/ }, ({ path }) => {
      const text = readFileSync(path, "utf8");
      const theirs = "(0, node_path_1.resolve)(__dirname, 'worker.js')";
      if (!text.includes(theirs))
        throw new Error("the pool of threads no longer names its thread as the bundle expects");
      return { contents: text.replace(theirs, "__davitHere.resolve('./pool-thread.js')") };
    });
  },
};
