/** Verdicts as words, and the colours that may go with them. */
import type { Verdict } from "../../studies/finding/types.ts";

export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  met: "MET",
  "not met": "NOT MET",
  "not analysed": "NOT ANALYSED",
  information: "information",
};

const ESCAPE = String.fromCharCode(27);
const CODES: Readonly<Record<string, string>> = { MET: "32", "NOT MET": "1;31", "NOT ANALYSED": "33", GROWS: "1;31" };

/** Paints cells that are verdict words; leaves everything else as it is. */
export function verdictPaint(colour: boolean): (padded: string, cell: string) => string {
  return (padded, cell) => {
    const code = CODES[cell];
    return colour && code !== undefined ? `${ESCAPE}[${code}m${padded}${ESCAPE}[0m` : padded;
  };
}

export interface TextOptions {
  /** ANSI colours around the verdict words. Default false. */
  readonly colour?: boolean;
  /** Columns, 80 to 100. Default 100. */
  readonly width?: number;
}

/** Usable width: what was asked for, kept between 80 and 100 columns. */
export function widthOf(options: TextOptions): number {
  return Math.min(100, Math.max(80, Math.floor(options.width ?? 100)));
}
