import type { LoadedPair, Value } from "../../inputs/index.ts";
import { type InputRecord, RESULT_SCHEMA, type ResultDocument } from "../../outputs/result/index.ts";
import { VERSION } from "../version.ts";
import { findingsOf, limitsOf, type StudyRun } from "./run-studies.ts";
import { siUnit } from "./si-unit.ts";

/**
 * The result document of one run.
 *
 * @param loaded the pair with the selected variant
 * @param set    the `PATH=VALUE` texts of the command line
 * @param runs   results by variant, the selected one first
 */
export function resultDocument(
  loaded: LoadedPair,
  set: readonly string[],
  runs: readonly [StudyRun, ...StudyRun[]],
): ResultDocument {
  const [selected] = runs;
  const fit = runs.map((run) => run.fit).filter((result) => result !== undefined);
  const hold = runs.map((run) => run.hold).filter((result) => result !== undefined);
  const hookon = runs.map((run) => run.hookon).filter((result) => result !== undefined);
  const release = runs.map((run) => run.release).filter((result) => result !== undefined);
  const balance = runs.map((run) => run.balance).filter((result) => result !== undefined);
  return {
    schema: RESULT_SCHEMA,
    davit: VERSION,
    pair: loaded.pair.pair,
    variant: loaded.variant,
    overrides: [...set],
    seed: selected.hookon?.seed ?? selected.release?.seed ?? null,
    inputs: Object.fromEntries([...loaded.values].map(([path, value]) => [path, inputRecord(value)])),
    files: loaded.files.map(({ path, sha256 }) => ({ path, sha256 })),
    studies: {
      ...(fit.length > 0 ? { fit } : {}),
      ...(hold.length > 0 ? { hold } : {}),
      ...(hookon.length > 0 ? { hookon } : {}),
      ...(release.length > 0 ? { release } : {}),
      ...(balance.length > 0 ? { balance } : {}),
    },
    findings: findingsOf(selected),
    limits: limitsOf(selected),
  };
}

function inputRecord(value: Value): InputRecord {
  if (typeof value !== "object") return { text: String(value) };
  const { maturity, source } = value.provenance;
  const origin = {
    ...(maturity === undefined ? {} : { maturity }),
    ...(source === undefined ? {} : { source }),
  };
  if (value.type === "table" || value.type === "mesh") return { text: value.file, file: value.file, ...origin };
  const speed = value.type === "airspeed" && value.kind !== "Mach";
  return { text: value.text, si: value.si, unit: speed ? "m/s" : siUnit(value.unit), ...origin };
}
