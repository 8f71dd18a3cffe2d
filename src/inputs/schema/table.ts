import type { KindName, Provenance, Range } from "../quantity/index.ts";
import { NO_PROVENANCE } from "../quantity/index.ts";
import { nearest } from "../text/index.ts";
import type { Place } from "../tree/index.ts";
import { unknownKey } from "./forms.ts";
import type { Leaf } from "./leaf.ts";
import { isMap, leaf } from "./leaf.ts";

/** What columns of numbers and of words share. */
interface MayLack {
  /** The column may be left out. */
  readonly optional?: boolean;
  /** Single cells may be empty. */
  readonly gaps?: boolean;
}

/** A column of numbers; what is left out becomes NaN. */
export interface ColumnSpec extends MayLack {
  readonly kind: KindName;
  /** Values must rise from row to row. */
  readonly breakpoints?: boolean;
  /** The same for numbers that only count the rows: one row is enough. */
  readonly rising?: boolean;
  /** Allowed range of the values in SI. */
  readonly range?: Range;
}

/** A column of words; its numbers count in `words` of the table, −1 for what is left out. */
export interface WordSpec extends MayLack {
  readonly kind: "words";
  /** The only words that may stand there. */
  readonly choices?: readonly string[];
  /** Each cell is a day, YYYY-MM-DD. */
  readonly day?: boolean;
}

export type Columns<N extends string> = Readonly<Record<N, ColumnSpec | WordSpec>>;

/** What stands in a column of words. */
export interface WordColumn {
  /** Each word once, in the order of their first rows. */
  readonly words: readonly string[];
  /** Where the cell of each row stands. */
  readonly places: readonly Place[];
}

/** A table read from a CSV file, column by column in SI. */
export interface Table<N extends string = string> {
  readonly type: "table";
  readonly path: string;
  /** Relative to the folder of the pair. */
  readonly file: string;
  /** SHA-256 of the file, hexadecimal. */
  readonly sha256: string;
  readonly rows: number;
  /** SI values, shape (rows) each. */
  readonly columns: Readonly<Record<N, Float64Array>>;
  /** Columns of words, where the table has some. */
  readonly words?: Readonly<Partial<Record<N, WordColumn>>>;
  readonly provenance: Provenance;
}

/** A table that the schema has accepted but whose file has not been read. */
export interface PendingTable extends Table {
  readonly spec: Columns<string>;
}

const NO_COLUMNS = new Float64Array(0);

/** A reference to a CSV file with given columns. */
export function table<N extends string>(describe: string, example: string, spec: Columns<N>): Leaf<Table<N>> {
  const names = Object.keys(spec) as N[];
  const allowed = `a map { file: ${example} }`;
  const json = {
    type: "object",
    properties: { file: { description: "CSV file: names, units, rows.", type: "string", pattern: "^[^/\\\\~].*$" } },
    required: ["file"],
    additionalProperties: false,
  };
  const due = names.map((name) => (spec[name].optional ? `${name} (may be left out)` : name));
  const text = `${describe} A CSV file with the columns ${due.join(", ")}, a row of names and a row of units.`;
  return leaf<Table<N>>({ describe: text, examples: [{ file: example }] }, json, allowed, (raw) => {
    if (!isMap(raw)) return [{ message: "must name a CSV file" }];
    const problems = Object.keys(raw)
      .filter((key) => key !== "file")
      .map((key) => ({ key, message: unknownKey(key, nearest(key, ["file"])), allowed: "file" }));
    if (problems.length > 0) return problems;
    if (typeof raw.file !== "string" || raw.file.trim() === "") return [{ message: "must name a CSV file" }];
    const columns = Object.fromEntries(names.map((name) => [name, NO_COLUMNS])) as Record<N, Float64Array>;
    const pending = { type: "table" as const, path: "", file: raw.file.trim(), sha256: "", rows: 0, columns, spec };
    return { ...pending, provenance: NO_PROVENANCE };
  });
}
