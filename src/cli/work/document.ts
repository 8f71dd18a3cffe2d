import type { LoadedPair, Value } from "../../inputs/index.ts";
import { type InputRecord, RESULT_SCHEMA, type ResultDocument } from "../../outputs/result/index.ts";
import type { HoldResult } from "../../studies/hold/index.ts";
import { VERSION } from "../version.ts";
import { siUnit } from "./si-unit.ts";

/**
 * The result document of one run.
 *
 * @param loaded the pair with the selected variant
 * @param set    the `PATH=VALUE` texts of the command line
 * @param hold   results of the study `hold`, the selected variant first
 */
export function resultDocument(
  loaded: LoadedPair,
  set: readonly string[],
  hold: readonly [HoldResult, ...HoldResult[]],
): ResultDocument {
  const [selected] = hold;
  return {
    schema: RESULT_SCHEMA,
    davit: VERSION,
    pair: loaded.pair.pair,
    variant: loaded.variant,
    overrides: [...set],
    seed: null,
    inputs: Object.fromEntries([...loaded.values].map(([path, value]) => [path, inputRecord(value)])),
    files: loaded.files.map(({ path, sha256 }) => ({ path, sha256 })),
    studies: { hold },
    findings: selected.findings,
    limits: selected.limits,
  };
}

function inputRecord(value: Value): InputRecord {
  if (typeof value !== "object") return { text: String(value) };
  const { maturity, source } = value.provenance;
  const origin = {
    ...(maturity === undefined ? {} : { maturity }),
    ...(source === undefined ? {} : { source }),
  };
  if (value.type === "table") return { text: value.file, file: value.file, ...origin };
  const speed = value.type === "airspeed" && value.kind !== "Mach";
  return { text: value.text, si: value.si, unit: speed ? "m/s" : siUnit(value.unit), ...origin };
}
