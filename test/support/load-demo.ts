/** Loads the demo pair from disk for tests, with variant and overrides. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { hashInputs, type LoadedPair, loadPair, type ReadFile, recordReads } from "../../src/inputs/index.ts";
import { type FitResult, runFit } from "../../src/studies/fit/index.ts";
import { type HoldDepthResult, runHoldInDepth } from "../../src/studies/hold-depth/index.ts";
import { type HookonResult, runHookon } from "../../src/studies/hookon/index.ts";

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

/** @param only parts to run beside the modes; none by default, which is fast */
export function holdDemo(variant?: string, set: string[] = [], only: string[] = []): HoldDepthResult {
  const loaded = loadDemo(variant, set);
  return runHoldInDepth({
    variant: loaded.variant,
    reads: () => recordReads(loaded),
    hash: (paths) => hashInputs(loaded, paths),
    version: "test",
    only,
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

/** Few approaches of one controller, a coarse map: seconds, not minutes. */
export const FEW_APPROACHES = [
  "studies.hookon.samples=16",
  "studies.hookon.controllers=[precision autopilot]",
  "studies.hookon.light=~",
  "studies.hookon.bothAtOnce=~",
  "studies.hookon.map.steps=4",
  "studies.hookon.map.angles=[0 deg]",
];

export function hookonDemo(variant?: string, set: string[] = []): HookonResult {
  const loaded = loadDemo(variant, [...FEW_APPROACHES, ...set]);
  return runHookon({
    variant: loaded.variant,
    reads: () => recordReads(loaded),
    hash: (paths) => hashInputs(loaded, paths),
    version: "test",
  });
}
