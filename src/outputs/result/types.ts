/** The result document: what one run of Davit computed, from which inputs, with which verdicts. */
import type { BalanceResult } from "../../studies/balance/types.ts";
import type { Finding, Limit } from "../../studies/finding/types.ts";
import type { FitResult } from "../../studies/fit/types.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import type { HookonResult } from "../../studies/hookon/types.ts";
import type { ReleaseResult } from "../../studies/release/types.ts";

/** Version of the document's form; a reader refuses every other. */
export const RESULT_SCHEMA = "davit.result/1";

/** One value of the pair as it stood when the result was computed. */
export interface InputRecord {
  /** As the user wrote it. */
  readonly text: string;
  /** SI value; absent for words and tables. */
  readonly si?: number;
  /** SI unit of `si`. */
  readonly unit?: string;
  /** estimate, analysis, wind tunnel, ground test, flight. */
  readonly maturity?: string;
  readonly source?: string;
  /** Path of the file that holds the value, one of `files`; absent when the pair file itself does. */
  readonly file?: string;
}

export interface FileRecord {
  /** Relative to the pair file. */
  readonly path: string;
  /** Of the bytes, hex. */
  readonly sha256: string;
}

/** One result of each study per variant that was computed, the selected one first. */
export interface StudyResults {
  readonly fit?: readonly FitResult[];
  readonly hold?: readonly HoldDepthResult[];
  readonly hookon?: readonly HookonResult[];
  readonly release?: readonly ReleaseResult[];
  readonly balance?: readonly BalanceResult[];
}

export interface ResultDocument {
  readonly schema: typeof RESULT_SCHEMA;
  /** Version of Davit. */
  readonly davit: string;
  /** Name of the pair. */
  readonly pair: string;
  /** Selected variant, or the base's name. */
  readonly variant: string;
  /** `PATH=VALUE` overrides in the order they were given. */
  readonly overrides: readonly string[];
  readonly seed: number | null;
  /** Keyed by path in the pair file. */
  readonly inputs: Readonly<Record<string, InputRecord>>;
  readonly files: readonly FileRecord[];
  readonly studies: StudyResults;
  /** Of the selected variant, all studies together. */
  readonly findings: readonly Finding[];
  readonly limits: readonly Limit[];
}
