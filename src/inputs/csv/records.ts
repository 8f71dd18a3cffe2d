import { CsvError, parse } from "csv-parse/sync";
import type { Issue } from "../../math/errors.ts";

/** One line of a CSV file. */
export interface Row {
  readonly cells: readonly string[];
  /** Counting from 1. */
  readonly line: number;
}

const QUOTE_WORDS: Readonly<Record<string, string>> = {
  CSV_QUOTE_NOT_CLOSED: "a quotation mark does not close",
  CSV_INVALID_CLOSING_QUOTE: "something follows a closing quotation mark",
  INVALID_OPENING_QUOTE: "a quotation mark stands inside a cell",
};

/** The rows of a CSV text; lines that are empty or start with # are passed over. */
export function readRows(text: string, file: string, issues: Issue[]): readonly Row[] | undefined {
  try {
    const records = parse(text, {
      bom: true,
      comment: "#",
      comment_no_infix: true,
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
      trim: true,
    }) as unknown as { record: string[]; info: { lines: number } }[];
    return records.map(({ record, info }) => ({ cells: record, line: info.lines }));
  } catch (caught) {
    if (!(caught instanceof CsvError)) throw caught;
    const open = caught.code === "CSV_QUOTE_NOT_CLOSED" ? openQuote(text) : undefined;
    const line = open ?? (typeof caught.lines === "number" ? { line: caught.lines, column: 1 } : {});
    const message = QUOTE_WORDS[caught.code] ?? "the file is not well-formed CSV";
    issues.push({ path: "", file, ...line, message, allowed: "cells separated by commas" });
    return undefined;
  }
}

/** Place of the quotation mark that does not close. */
function openQuote(text: string): { line: number; column: number } {
  let quoted = false;
  let at = 0;
  for (let index = text.indexOf('"'); index >= 0; index = text.indexOf('"', index + 1)) {
    quoted = !quoted;
    if (quoted) at = index;
  }
  const before = text.slice(0, at);
  return { line: before.split("\n").length, column: at - before.lastIndexOf("\n") };
}
