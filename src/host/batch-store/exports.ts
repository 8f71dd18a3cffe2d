import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import type { DuckDBConnection } from "@duckdb/node-api";
import type { SampleColumn, SampleHistory, SampleTable } from "../../studies/samples/types.ts";
import type { BatchPlan, BatchTask } from "../batch-plan/index.ts";
import { fileList, named, parquetLibrary, quoted, readFailure, withDatabase, writeFailure } from "./duckdb.ts";
import { putFile } from "./put.ts";
import { readValues, SHARDS, shardPath } from "./shards.ts";

/** Files that "the same bytes" is about, inside the folder of a batch. */
export const EXPORTS = { parquet: "rows.parquet", csv: "rows.csv" } as const;

const FORMATS = {
  parquet: "FORMAT parquet, COMPRESSION zstd",
  csv: "FORMAT csv, HEADER true",
} as const;

/** Shards in the order of the exports: by condition as in the plan, then by sample index. */
function ordered(plan: BatchPlan, tasks: readonly BatchTask[]): BatchTask[] {
  const place = new Map(plan.conditions.map(({ key }, i) => [key, i]));
  return [...tasks].sort((a, b) => place.get(a.condition)! - place.get(b.condition)! || a.first - b.first);
}

/**
 * Writes every row of the given tasks into one file each of Parquet and CSV, sorted by condition and sample index.
 *
 * @throws {CannotWrite} in plain words
 */
export async function exportRows(
  connection: DuckDBConnection,
  batch: { readonly folder: string; readonly plan: BatchPlan; readonly tasks: readonly BatchTask[] },
): Promise<void> {
  const { folder, plan } = batch;
  const paths = ordered(plan, batch.tasks).map((task) => shardPath(folder, task));
  for (const kind of ["parquet", "csv"] as const) {
    const path = `${folder}/${EXPORTS[kind]}`;
    await putFile(path, async (temporary) => {
      try {
        // the order of the list and of the rows in each shard is kept
        await connection.run(`COPY (SELECT * FROM ${fileList(paths)}) TO ${quoted(temporary)} (${FORMATS[kind]})`);
      } catch (error) {
        throw writeFailure(path, error);
      }
    });
  }
}

/**
 * Rows of one condition out of the exports of a finished batch, or out of the shards there are of another.
 *
 * @throws {CannotRead} when a file is damaged
 */
export async function readTable(folder: string, plan: BatchPlan, condition: string): Promise<SampleTable> {
  const { columns } = plan;
  const whole = join(folder, EXPORTS.parquet);
  const own = new RegExp(`^${condition}-\\d{9,}\\.parquet$`);
  const shards = () => readdirSync(join(folder, SHARDS)).filter((name) => own.test(name));
  const paths = existsSync(whole) ? [whole] : shards().map((name) => join(folder, SHARDS, name));
  if (paths.length === 0) return { condition, columns, index: new Float64Array(0), values: new Float64Array(0) };
  const where = `WHERE condition = ${quoted(condition)} ORDER BY sample`;
  try {
    return await withDatabase(async (connection) => {
      const found = await connection.runAndReadAll(`SELECT sample FROM ${fileList(paths)} ${where}`);
      const index = Float64Array.from(found.getRows(), ([sample]) => Number(sample));
      return { condition, columns, index, values: await readValues(connection, columns, paths, where) };
    });
  } catch (error) {
    throw readFailure(folder, error);
  }
}

/**
 * Writes the course of one sample as Parquet.
 *
 * @throws {CannotWrite} in plain words
 */
export async function writeHistory(path: string, history: SampleHistory): Promise<void> {
  const { columns, values } = history;
  const { DOUBLE, DuckDBDataChunk, VARCHAR } = parquetLibrary();
  const width = columns.length;
  const rows = width === 0 ? 0 : values.length / width;
  const isWord = ({ words }: SampleColumn) => words !== undefined;
  await withDatabase(async (connection) => {
    const spelt = columns.map((column) => `${named(column.name)} ${isWord(column) ? "VARCHAR" : "DOUBLE"}`);
    await connection.run(`CREATE TABLE history (${spelt.join(", ")})`);
    const appender = await connection.createAppender("history");
    for (let start = 0; start < rows; start += 2048) {
      const count = Math.min(2048, rows - start);
      const chunk = DuckDBDataChunk.create(
        columns.map((column) => (isWord(column) ? VARCHAR : DOUBLE)),
        count,
      );
      chunk.setColumns(
        columns.map(({ words }, k) =>
          Array.from({ length: count }, (_, i) => {
            const value = values[(start + i) * width + k];
            if (Number.isNaN(value)) return null;
            return words === undefined ? value : (words[value] ?? null);
          }),
        ),
      );
      appender.appendDataChunk(chunk);
    }
    appender.closeSync();
    await putFile(path, async (temporary) => {
      try {
        await connection.run(`COPY history TO ${quoted(temporary)} (${FORMATS.parquet})`);
      } catch (error) {
        throw writeFailure(path, error);
      }
    });
  });
}
