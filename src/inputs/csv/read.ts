import type { Issue } from "../../math/errors.ts";
import type { Kind } from "../quantity/index.ts";
import { ALLOWED_NUMBER, KINDS, nameDimension, outside, readNumber } from "../quantity/index.ts";
import type { Columns } from "../schema/index.ts";
import { nearest } from "../text/index.ts";
import { parseUnit, sameDimension } from "../units/index.ts";
import { cellNumber, cellStart, lineOf } from "./cells.ts";
import type { Row } from "./records.ts";
import { readRows } from "./records.ts";

/** Columns of a CSV file in SI, shape (rows) each. */
export type ReadColumns = Readonly<Record<string, Float64Array>>;

const MOST_ISSUES = 20;

interface Reader {
  readonly text: string;
  readonly file: string;
  readonly path: string;
  readonly spec: Columns<string>;
  readonly issues: Issue[];
  count: number;
}

/** A column of the file with the scale that its unit gives. */
interface Column {
  readonly name: string;
  readonly cell: number;
  readonly factor: number;
  readonly offset: number;
  /** False when the unit is at fault, so that the size of the numbers means nothing. */
  readonly sized: boolean;
}

/**
 * Reads a table: a row of column names, a row of units, then rows of numbers.
 *
 * @param text    the file
 * @param file    its name in messages
 * @param path    path in the pair that asks for it
 * @param spec    columns that must stand there, in any order
 * @param issues  every problem found, the first 20 of them
 * @returns       SI columns, or undefined when something is wrong
 */
export function readTable(
  text: string,
  file: string,
  path: string,
  spec: Columns<string>,
  issues: Issue[],
): ReadColumns | undefined {
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
  if (body.length < 2) wrong(reader, units, undefined, "has too few rows", "two rows or more");
  const data = readBody(reader, names, columns, body);
  return reader.count === 0 ? data : undefined;
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
  return names.map((name) => unitExample(reader.spec[name] && KINDS[reader.spec[name].kind])).join(",");
}

function unitExample(kind: Kind | undefined): string {
  return kind === undefined || kind.plain ? "1" : kind.units[0]!;
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
    if (!header.cells.includes(name)) wrong(reader, header, undefined, `the column "${name}" is missing`, allowed);
  }
  return reader.count === 0;
}

function readUnits(reader: Reader, names: readonly string[], row: Row): readonly Column[] {
  if (row.cells.length !== names.length) ragged(reader, row, names.length);
  return names.map((name, cell) => {
    const kind: Kind = KINDS[reader.spec[name]!.kind];
    const written = row.cells[cell] ?? "";
    const allowed = `${name}: ${kind.plain ? "1, " : ""}${kind.units.join(", ")}`;
    if (written === "") {
      if (row.cells.length === names.length) wrong(reader, row, cell, "a unit is missing", allowed);
      return { name, cell, factor: 1, offset: 0, sized: false };
    }
    const unit = parseUnit(written);
    if (!unit.ok) {
      wrong(reader, row, cell, unit.message, allowed, unit.index);
      return { name, cell, factor: 1, offset: 0, sized: false };
    }
    const sized = kind.dimensions.some((due) => sameDimension(due, unit.unit.dimension));
    if (!sized) {
      const found = nameDimension(unit.unit.dimension);
      wrong(reader, row, cell, `${written} is ${found}, but ${kind.article} ${kind.name} is due`, allowed);
    }
    const offset = kind.scale === "absolute" ? unit.unit.offset : 0;
    return { name, cell, factor: unit.unit.factor, offset, sized };
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
): ReadColumns {
  const out: Record<string, Float64Array> = {};
  for (const name of names) out[name] = new Float64Array(body.length);
  body.forEach((row, i) => {
    if (row.cells.length !== names.length) {
      ragged(reader, row, names.length);
      for (const column of columns) out[column.name]![i] = Number.NaN;
      return;
    }
    for (const column of columns) {
      const si = (readCell(reader, row, column.cell) + column.offset) * column.factor;
      out[column.name]![i] = si;
      checkCell(reader, row, column, si, i === 0 ? undefined : out[column.name]![i - 1]);
    }
  });
  return out;
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
  const { breakpoints, range } = reader.spec[column.name]!;
  if (breakpoints && before !== undefined && si <= before) {
    wrong(reader, row, column.cell, `the breakpoints of ${column.name} do not rise`, "larger from row to row");
  }
  const far = range === undefined || !column.sized || Number.isNaN(si) ? undefined : outside(si, undefined, range);
  if (far !== undefined) wrong(reader, row, column.cell, `${column.name} ${far.message}`, far.allowed);
}
