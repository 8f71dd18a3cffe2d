import { readFileSync } from "node:fs";
import { perUnit } from "./units.ts";

/** How well a reference is known. Only the first two may gate; values from memory guide. */
export type ReferenceStatus = "read in the primary" | "read second-hand" | "from memory";

/** Birth certificate of a published entry: `source.json`. */
export interface ReferenceSource {
  readonly title: string;
  readonly authors: string;
  readonly edition: string;
  readonly report: string;
  readonly places: string;
  readonly status: ReferenceStatus;
}

/** A number as it was printed, digit for digit. */
export class PrintedNumber {
  readonly printed: string;
  readonly unit: string;
  /** Page, table or figure. */
  readonly place: string;

  constructor(printed: string, unit: string, place: string) {
    if (!/^[-+]?\d*\.?\d+(e[-+]?\d+)?$/.test(printed)) throw new Error(`"${printed}" is not a printed number`);
    if (!(unit in perUnit)) throw new Error(`unit "${unit}" of ${printed} is not known to reference/units.ts`);
    this.printed = printed;
    this.unit = unit;
    this.place = place;
  }
  /** In the printed unit. */
  get value(): number {
    return Number(this.printed);
  }
  /** One unit of the last printed digit, in the printed unit. */
  get lastDigit(): number {
    const [mantissa, exponent = "0"] = this.printed.split("e");
    const point = mantissa.indexOf(".");
    const decimals = point < 0 ? 0 : mantissa.length - point - 1;
    return 10 ** (Number(exponent) - decimals);
  }
  /** In SI and radians. */
  get si(): number {
    return this.value * perUnit[this.unit];
  }
  /** One unit of the last printed digit, in SI and radians. */
  get lastDigitSi(): number {
    return this.lastDigit * perUnit[this.unit];
  }
}

interface ValuesFile {
  /** name → [printed, unit, place] */
  readonly quantities?: Readonly<Record<string, readonly [string, string, string]>>;
  readonly tables?: Readonly<Record<string, PrintedTable>>;
}

interface PrintedTable {
  readonly place: string;
  readonly columns: readonly (readonly [name: string, unit: string])[];
  /** `null` where the cell is blank or was not read. */
  readonly rows: readonly (readonly (string | null)[])[];
}

/** A row of a published table; asking for a blank or unknown cell is an error. */
export type PrintedRow = (column: string) => PrintedNumber;

/** One published entry, opened. */
export interface Reference {
  readonly source: ReferenceSource;
  readonly quantity: (name: string) => PrintedNumber;
  readonly table: (name: string) => readonly PrintedRow[];
  /** The rows of a table as records of the cells that are not blank. */
  readonly cells: (name: string) => readonly Readonly<Record<string, PrintedNumber>>[];
}

/**
 * Reads a published entry that was read, not recalled.
 *
 * @param slug  folder under `reference/published`
 * @throws {Error} if the entry, a quantity or a cell does not exist, or the entry is from memory
 */
export function loadPublished(slug: string): Reference {
  const reference = open(slug);
  if (reference.source.status === "from memory") throw new Error(`published/${slug} is from memory: use guide`);
  return reference;
}

/** Reads an entry that is from memory, for `guide` alone. */
export function openRecalled(slug: string): Reference {
  const reference = open(slug);
  if (reference.source.status !== "from memory") throw new Error(`published/${slug} was read: use loadPublished`);
  return reference;
}

function open(slug: string): Reference {
  const read = (file: string): unknown =>
    JSON.parse(readFileSync(new URL(`./published/${slug}/${file}`, import.meta.url), "utf8"));
  const source = read("source.json") as ReferenceSource;
  const values = read("values.json") as ValuesFile;
  const tableOf = (name: string) => {
    const table = values.tables?.[name];
    if (table === undefined) throw new Error(`published/${slug} has no table "${name}"`);
    return table;
  };
  return {
    source,
    quantity(name) {
      const entry = values.quantities?.[name];
      if (entry === undefined) throw new Error(`published/${slug} has no quantity "${name}"`);
      return new PrintedNumber(...entry);
    },
    table(name) {
      return cellsOf(tableOf(name)).map((row, index) => (column) => {
        const cell = row[column];
        if (cell === undefined)
          throw new Error(`published/${slug}, table "${name}", row ${index + 1} has no "${column}"`);
        return cell;
      });
    },
    cells: (name) => cellsOf(tableOf(name)),
  };
}

function cellsOf({ place, columns, rows }: PrintedTable): Record<string, PrintedNumber>[] {
  return rows.map((row) => {
    if (row.length !== columns.length) throw new Error(`${place}: ${row.length} cells under ${columns.length} titles`);
    const cells: Record<string, PrintedNumber> = {};
    columns.forEach(([title, unit], i) => {
      const cell = row[i];
      if (cell !== null) cells[title] = new PrintedNumber(cell, unit, place);
    });
    return cells;
  });
}
