/** Loads the demo pair from disk for tests, with variant and overrides. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { hashInputs, type LoadedPair, loadPair, type ReadFile, recordReads } from "../../src/inputs/index.ts";
import { type FitResult, runFit } from "../../src/studies/fit/index.ts";
import { type HoldResult, runHold } from "../../src/studies/hold/index.ts";

export const DEMO = fileURLToPath(new URL("../../demo/longshore/longshore.pair.yaml", import.meta.url));

export const readDisk: ReadFile = (path) => {
  try {
    return { ok: true, bytes: new Uint8Array(readFileSync(path)) };
  } catch (error) {
    return { ok: false, reason: (error as Error).message };
  }
};

export function loadDemo(variant?: string, set: string[] = []): LoadedPair {
  return loadPair(DEMO, readDisk, { ...(variant === undefined ? {} : { variant }), set });
}

export function holdDemo(variant?: string, set: string[] = []): HoldResult {
  const loaded = loadDemo(variant, set);
  return runHold({
    variant: loaded.variant,
    reads: () => recordReads(loaded),
    hash: (paths) => hashInputs(loaded, paths),
    version: "test",
  });
}

export function fitDemo(variant?: string, set: string[] = []): FitResult {
  const loaded = loadDemo(variant, set);
  return runFit({
    variant: loaded.variant,
    reads: () => recordReads(loaded),
    hash: (paths) => hashInputs(loaded, paths),
    version: "test",
  });
}
