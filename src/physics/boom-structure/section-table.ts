import { DomainError } from "../../math/errors.ts";
import type { BeamTheory, BoomSection } from "./types.ts";

type Column = Exclude<keyof BoomSection, "station">;

const REQUIRED: readonly Column[] = ["bendingSwing", "bendingLateral", "torsion", "axial"];
const POSITIVE_IF_GIVEN: readonly Column[] = [
  "shearSwing",
  "shearLateral",
  "fibreSwing",
  "fibreLateral",
  "youngsModulus",
];
const INERTIAS: readonly Column[] = ["rotaryInertiaSwing", "rotaryInertiaLateral", "polarInertia"];

/** A stretch of the boom on which every property is linear: between rows `row` and `row` + 1 of the table. */
export interface Piece {
  readonly row: number;
  readonly from: number;
  readonly to: number;
}

/**
 * The section table, checked: every property along the boom, linear between rows.
 *
 * @throws {DomainError} for fewer than two stations, stations that fall, more than two rows at one station, a property
 *   that is not finite or has the wrong sign, or a column that is given in some rows only
 */
export class SectionTable {
  readonly rows: readonly BoomSection[];
  readonly first: number;
  readonly last: number;
  private readonly columns: ReadonlyMap<Column, Float64Array>;

  constructor(rows: readonly BoomSection[], theory: BeamTheory) {
    requireStations(rows);
    const columns = new Map<Column, Float64Array>();
    const take = (column: Column, needed: boolean, zeroAllowed: boolean): void => {
      const values = columnOf(rows, column, needed, zeroAllowed);
      if (values !== undefined) columns.set(column, values);
    };
    for (const column of REQUIRED) take(column, true, false);
    take("massPerLength", true, true);
    for (const column of POSITIVE_IF_GIVEN) take(column, false, false);
    for (const column of INERTIAS) take(column, false, true);
    if (theory === "Euler-Bernoulli") {
      columns.delete("shearSwing");
      columns.delete("shearLateral");
    }
    const [swing, lateral] = [columns.get("rotaryInertiaSwing"), columns.get("rotaryInertiaLateral")];
    if (!columns.has("polarInertia") && swing !== undefined && lateral !== undefined) {
      columns.set(
        "polarInertia",
        swing.map((value, i) => value + lateral[i]),
      );
    }
    this.rows = rows;
    this.columns = columns;
    this.first = rows[0].station;
    this.last = rows[rows.length - 1].station;
  }

  has(column: Column): boolean {
    return this.columns.has(column);
  }

  /** Property at a station of the piece that begins with `row`; `absent` where the column is not given. */
  at(column: Column, row: number, station: number, absent: number): number {
    const values = this.columns.get(column);
    if (values === undefined) return absent;
    const from = this.rows[row].station;
    const share = (station - from) / (this.rows[row + 1].station - from);
    return values[row] + share * (values[row + 1] - values[row]);
  }

  /** The stretches between two stations on which the properties are linear, in order. */
  pieces(from: number, to: number): Piece[] {
    const pieces: Piece[] = [];
    for (let row = 0; row < this.rows.length - 1; row++) {
      const start = Math.max(from, this.rows[row].station);
      const end = Math.min(to, this.rows[row + 1].station);
      if (end > start) pieces.push({ row, from: start, to: end });
    }
    return pieces;
  }

  /** Row that begins the piece just inboard or just outboard of a station. */
  rowAt(station: number, side: "inboard" | "outboard"): number {
    const { rows } = this;
    let row = rows.length - 2;
    while (row > 0 && (side === "outboard" ? rows[row].station > station : rows[row].station >= station)) row--;
    while (rows[row + 1].station === rows[row].station) row += side === "outboard" && row + 2 < rows.length ? 1 : -1;
    return row;
  }
}

function requireStations(rows: readonly BoomSection[]): void {
  if (rows.length < 2) throw new DomainError("rows of the boom's section table", rows.length, "at least 2");
  rows.forEach(({ station }, i) => {
    if (!Number.isFinite(station)) throw new DomainError(`section station, row ${i + 1}`, station, "a finite number");
    if (i > 0 && station < rows[i - 1].station) {
      throw new DomainError(
        `section station, row ${i + 1}`,
        station,
        `at least ${rows[i - 1].station}, the one before`,
      );
    }
    const alone = i === 1 || i === rows.length - 1 ? 1 : 2;
    if (i >= alone && station === rows[i - alone].station) {
      throw new DomainError(
        `section station, row ${i + 1}`,
        station,
        "two rows at most at one station, one at the ends",
      );
    }
  });
}

function columnOf(
  rows: readonly BoomSection[],
  column: Column,
  needed: boolean,
  zeroAllowed: boolean,
): Float64Array | undefined {
  const given = rows.filter((row) => row[column] !== undefined).length;
  if (given === 0 && !needed) return undefined;
  return Float64Array.from(rows, (row, i) => {
    const value = row[column];
    const label = `section ${column}, row ${i + 1}`;
    if (value === undefined) throw new DomainError(label, value, "a value in every row or in none");
    const good = Number.isFinite(value) && (zeroAllowed ? value >= 0 : value > 0);
    if (!good) throw new DomainError(label, value, `a finite number${zeroAllowed ? ", at least 0" : " above zero"}`);
    return value;
  });
}
