/** How firm the inputs are. */
import type { InputRecord } from "../result/types.ts";

/** Maturities that come from a measurement; everything else is an estimate, an analysis or unknown. */
const MEASURED: ReadonlySet<string> = new Set(["wind tunnel", "ground test", "flight"]);

/** True when a value of this maturity was measured; a value that states no maturity was not. */
export function isMeasured(maturity: string | undefined): boolean {
  return maturity !== undefined && MEASURED.has(maturity);
}

/** True for a number or a table: what can be measured at all; names, notices and switches cannot. */
export function isQuantity(record: InputRecord): boolean {
  return record.si !== undefined || record.file !== undefined;
}
