/** What a report needs besides the result document. */
import type { ResultDocument } from "../result/index.ts";

export interface ReportMeta {
  /** The pair's own notice, printed in the title block. */
  readonly notice?: string;
  /** The pair's own cautions, printed after the standing ones. */
  readonly cautions: readonly string[];
  /** SHA-256 (hex) over all inputs and files of the result. */
  readonly inputHash: string;
  /** What was deliberately left out of the whole clearance, besides what each study lists. */
  readonly notAnalysed?: readonly string[];
}

export interface ReportContext {
  readonly document: ResultDocument;
  readonly meta: ReportMeta;
}
