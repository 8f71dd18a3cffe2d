import type { Issue } from "../../math/errors.ts";
import type { Kind } from "../quantity/index.ts";
import { ALLOWED_NUMBER, KINDS, nameDimension, outside, readNumber } from "../quantity/index.ts";
import type { ColumnSpec, Columns, WordColumn, WordSpec } from "../schema/index.ts";
import { nearest } from "../text/index.ts";
import { parseUnit, sameDimension } from "../units/index.ts";
import { cellNumber, cellStart, lineOf } from "./cells.ts";
import type { Row } from "./records.ts";
import { readRows } from "./records.ts";
import { wordProblem } from "./words.ts";

/** A CSV file: columns in SI, shape (rows) each, and what stands in those of words. */
export interface ReadTable {
  readonly columns: Readonly<Record<string, Float64Array>>;
  readonly words: Readonly<Record<string, WordColumn>>;
}

const MOST_ISSUES = 20;

interface Reader {
  readonly text: string;
  readonly file: string;
  readonly path: string;
  readonly spec: Columns<string>;
  readonly issues: Issue[];
  count: number;
}

/** A column of numbers with the scale that its unit gives. */
interface Column {
  readonly name: string;
  readonly cell: number;
  readonly spec: ColumnSpec;
  readonly factor: number;
  readonly offset: number;
  /** False when the unit is at fault, so that the size of the numbers means nothing. */
  readonly sized: boolean;
}

/**
 * Reads a table: a row of column names, a row of units, then rows of numbers and words.
 *
 * @param text    the file
 * @param file    its name in messages
 * @param path    path in the pair that asks for it
 * @param spec    columns that must stand there, in any order
 * @param issues  every problem found, the first 20 of them
 * @returns       SI columns and words, or undefined when something is wrong
 */
export function readTable(
  text: string,
  file: string,
  path: string,
  spec: Columns<string>,
  issues: Issue[],
): ReadTable | undefined {
  const reader: Reader = { text, file, path, spec, issues, count: 0 };
  const rows = readRows(text, file, issues);
  if (rows === undefined) return undefined;
  const [header, units, ...body] = rows;
  if (header === undefined) return wrong(reader, undefined, undefined, "the file is empty", "names, units, rows");
  const names = header.cells;
  if (!checkHeader(reader, header)) return undefined;
  const example = `${exampleUnits(reader, names)} in the second row`;
  if (units === undefined) return wrong(reader, header, undefined, "has no units row and no rows", example);
  if (isNumeric(units) && units.cells.some((cell) => cell !== "1")) {
    return wrong(reader, units, 0, "has no units row", example);
  }
  const columns = readUnits(reader, names, units);
  const least = Object.values(spec).some((each) => isNumbers(each) && each.breakpoints === true) ? 2 : 1;
  const enough = least === 2 ? "two rows or more" : "a row or more";
  if (body.length < least) wrong(reader, units, undefined, "has too few rows", enough);
  const data = readBody(reader, names, columns, body);
  const words = readWords(reader, names, body);
  const lacking = Object.keys(spec).filter((name) => !names.includes(name));
  for (const name of lacking) data[name] = new Float64Array(body.length).fill(isNumbers(spec[name]!) ? Number.NaN : -1);
  for (const [name, { codes }] of words) data[name] = codes;
  if (reader.count > 0) return undefined;
  return { columns: data, words: Object.fromEntries([...words].map(([name, { column }]) => [name, column])) };
}

function isNumbers(spec: ColumnSpec | WordSpec): spec is ColumnSpec {
  return spec.kind !== "words";
}

function wrong(
  reader: Reader,
  row: Row | undefined,
  cell: number | undefined,
  message: string,
  allowed?: string,
  at = 0,
): undefined {
  reader.count++;
  if (reader.count > MOST_ISSUES) return undefined;
  if (reader.count === MOST_ISSUES) {
    const more = "the file has more problems than are listed";
    reader.issues.push({ path: reader.path, file: reader.file, ...(row ? { line: row.line } : {}), message: more });
    return undefined;
  }
  const column = row === undefined ? undefined : cellStart(lineOf(reader.text, row.line), cell ?? 0) + 1 + at;
  const place = row === undefined || column === undefined ? {} : { line: row.line, column };
  const value = row !== undefined && cell !== undefined ? row.cells[cell] : undefined;
  reader.issues.push({
    path: reader.path,
    file: reader.file,
    ...place,
    message,
    ...(value === undefined || value === "" ? {} : { value }),
    ...(allowed === undefined ? {} : { allowed }),
  });
  return undefined;
}

function isNumeric(row: Row): boolean {
  return row.cells.every((cell) => Number.isFinite(cellNumber(cell)));
}

function exampleUnits(reader: Reader, names: readonly string[]): string {
  return names.map((name) => unitExample(reader.spec[name])).join(",");
}

/** What stands in the units row over words. */
const NO_UNIT = "-";

function unitExample(spec: ColumnSpec | WordSpec | undefined): string {
  if (spec === undefined) return "1";
  if (!isNumbers(spec)) return NO_UNIT;
  const kind: Kind = KINDS[spec.kind];
  return kind.plain ? "1" : kind.units[0]!;
}

/** True when every column that must be there stands there once and nothing else does. */
function checkHeader(reader: Reader, header: Row): boolean {
  const known = Object.keys(reader.spec);
  const allowed = known.join(", ");
  if (header.cells.length === 1 && /[;\t]/.test(header.cells[0]!)) {
    const sign = header.cells[0]!.includes(";") ? "semicolons" : "tabs";
    wrong(reader, header, 0, `the cells are separated by ${sign}`, "commas between cells, points in numbers");
    return false;
  }
  if (isNumeric(header)) {
    wrong(reader, header, 0, "has no row of column names", allowed);
    return false;
  }
  header.cells.forEach((name, cell) => {
    if (header.cells.indexOf(name) < cell)
      wrong(reader, header, cell, `duplicate column "${name}"`, "each column once");
    else if (!known.includes(name)) {
      const near = nearest(name, known);
      wrong(
        reader,
        header,
        cell,
        `unknown column "${name}"${near === undefined ? "" : `; did you mean ${near}?`}`,
        allowed,
      );
    }
  });
  for (const name of known) {
    if (!header.cells.includes(name) && !reader.spec[name]!.optional)
      wrong(reader, header, undefined, `the column "${name}" is missing`, allowed);
  }
  return reader.count === 0;
}

function readUnits(reader: Reader, names: readonly string[], row: Row): readonly Column[] {
  if (row.cells.length !== names.length) ragged(reader, row, names.length);
  return names.flatMap((name, cell): Column[] => {
    const spec = reader.spec[name]!;
    const written = row.cells[cell] ?? "";
    if (!isNumbers(spec)) {
      const whole = row.cells.length === names.length;
      if (whole && written !== NO_UNIT) wrong(reader, row, cell, `${name} holds words, which have no unit`, NO_UNIT);
      return [];
    }
    const kind: Kind = KINDS[spec.kind];
    const allowed = `${name}: ${kind.plain ? "1, " : ""}${kind.units.join(", ")}`;
    if (written === "") {
      if (row.cells.length === names.length) wrong(reader, row, cell, "a unit is missing", allowed);
      return [{ name, cell, spec, factor: 1, offset: 0, sized: false }];
    }
    const unit = parseUnit(written);
    if (!unit.ok) {
      wrong(reader, row, cell, unit.message, allowed, unit.index);
      return [{ name, cell, spec, factor: 1, offset: 0, sized: false }];
    }
    const sized = kind.dimensions.some((due) => sameDimension(due, unit.unit.dimension));
    if (!sized) {
      const found = nameDimension(unit.unit.dimension);
      wrong(reader, row, cell, `${written} is ${found}, but ${kind.article} ${kind.name} is due`, allowed);
    }
    const offset = kind.scale === "absolute" ? unit.unit.offset : 0;
    return [{ name, cell, spec, factor: unit.unit.factor, offset, sized }];
  });
}

function ragged(reader: Reader, row: Row, due: number): void {
  const cells = row.cells.length;
  const hint = cells === 2 * due ? "; a comma separates cells, so a decimal sign must be a point" : "";
  wrong(reader, row, undefined, `the row has ${cells} ${cells === 1 ? "cell" : "cells"}${hint}`, `${due} cells`);
}

function readBody(
  reader: Reader,
  names: readonly string[],
  columns: readonly Column[],
  body: readonly Row[],
): Record<string, Float64Array> {
  const out: Record<string, Float64Array> = {};
  for (const { name } of columns) out[name] = new Float64Array(body.length);
  body.forEach((row, i) => {
    if (row.cells.length !== names.length) {
      ragged(reader, row, names.length);
      for (const column of columns) out[column.name]![i] = Number.NaN;
      return;
    }
    for (const column of columns) {
      const missing = column.spec.gaps === true && row.cells[column.cell] === "";
      const written = missing ? Number.NaN : readCell(reader, row, column.cell);
      const si = (written + column.offset) * column.factor;
      out[column.name]![i] = si;
      checkCell(reader, row, column, si, i === 0 ? undefined : out[column.name]![i - 1]);
    }
  });
  return out;
}

/** Columns of words: for each row the number of its word among those of the column. */
function readWords(reader: Reader, names: readonly string[], body: readonly Row[]) {
  const found = new Map<string, { readonly codes: Float64Array; readonly column: WordColumn }>();
  names.forEach((name, cell) => {
    const spec = reader.spec[name]!;
    if (isNumbers(spec)) return;
    const words: string[] = [];
    const codes = Float64Array.from(body, (row) => {
      const word = row.cells[cell];
      if (word === undefined || row.cells.length !== names.length) return -1;
      const problem = wordProblem(word, spec);
      if (problem !== undefined) wrong(reader, row, cell, problem.message, problem.allowed);
      if (word === "") return -1;
      if (!words.includes(word)) words.push(word);
      return words.indexOf(word);
    });
    const places = body.map(({ line }) => {
      const column = cellStart(lineOf(reader.text, line), cell) + 1;
      return { file: reader.file, line, column };
    });
    found.set(name, { codes, column: { words, places } });
  });
  return found;
}

function readCell(reader: Reader, row: Row, cell: number): number {
  const written = row.cells[cell]!;
  const value = cellNumber(written);
  if (Number.isFinite(value)) return value;
  if (written === "") wrong(reader, row, cell, "a cell is empty", ALLOWED_NUMBER);
  else {
    const read = readNumber(written, 0);
    const message = read.ok ? "is not a number alone; the unit stands in the units row" : read.message;
    wrong(reader, row, cell, message, ALLOWED_NUMBER);
  }
  return Number.NaN;
}

function checkCell(reader: Reader, row: Row, column: Column, si: number, before: number | undefined): void {
  const { breakpoints, rising, range } = column.spec;
  if (rising && before !== undefined && si <= before) {
    wrong(reader, row, column.cell, `${column.name} does not rise`, "larger from row to row");
  }
  if (breakpoints && before !== undefined && si <= before) {
    wrong(reader, row, column.cell, `the breakpoints of ${column.name} do not rise`, "larger from row to row");
  }
  const far = range === undefined || !column.sized || Number.isNaN(si) ? undefined : outside(si, undefined, range);
  if (far !== undefined) wrong(reader, row, column.cell, `${column.name} ${far.message}`, far.allowed);
}
