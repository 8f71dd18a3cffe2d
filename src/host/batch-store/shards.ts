import { existsSync } from "node:fs";
import { join } from "node:path";
import type { DuckDBConnection } from "@duckdb/node-api";
import { BugError } from "../../math/errors.ts";
import type { SampleColumn } from "../../studies/samples/types.ts";
import { type BatchPlan, type BatchTask, rowsHash, type TaskRows } from "../batch-plan/index.ts";
import { fileList, named, parquetLibrary, quoted, writeFailure } from "./duckdb.ts";
import { putFile } from "./put.ts";

/** Rows that the library takes at once. */
const CHUNK = 2048;

/** Folder of the shards inside that of the batch. */
export const SHARDS = "shards";

/** `shards/calm-000000300.parquet`: condition and index of its first sample. */
export function shardPath(folder: string, task: BatchTask): string {
  return join(folder, SHARDS, `${task.condition}-${String(task.first).padStart(9, "0")}.parquet`);
}

/** Keeps tables of one batch: one connection, one table to fill, used by one caller at a time. */
export class ShardStore {
  readonly #connection: DuckDBConnection;
  readonly #folder: string;
  readonly #plan: BatchPlan;
  readonly #planHash: string;

  constructor(connection: DuckDBConnection, batch: { folder: string; plan: BatchPlan; planHash: string }) {
    this.#connection = connection;
    this.#folder = batch.folder;
    this.#plan = batch.plan;
    this.#planHash = batch.planHash;
  }

  /**
   * Writes the rows of a task as its shard; the shard names its plan and carries a hash over its values.
   *
   * @throws {CannotWrite} in plain words
   */
  async write(rows: TaskRows): Promise<void> {
    const { columns } = this.#plan;
    const path = shardPath(this.#folder, rows.task);
    const kept = `plan: ${quoted(this.#planHash)}, rows: ${quoted(rowsHash(rows.values))}`;
    await fillTable(this.#connection, columns, rows);
    await putFile(path, async (temporary) => {
      const options = `FORMAT parquet, COMPRESSION zstd, KV_METADATA {${kept}}`;
      try {
        await this.#connection.run(`COPY one_shard TO ${quoted(temporary)} (${options})`);
      } catch (error) {
        throw writeFailure(path, error);
      }
    });
  }

  /** Whether the columns that the hash does not cover are those of the task. */
  async #hasRowsOf(path: string, { condition, first, count }: BatchTask): Promise<boolean> {
    const found = await this.#connection.runAndReadAll(`SELECT condition, sample FROM ${fileList([path])}`);
    const rows = found.getRows();
    return rows.length === count && rows.every(([key, sample], i) => key === condition && sample === BigInt(first + i));
  }

  /** The rows of a task from its shard, unless there is none, or it is damaged or belongs to another plan. */
  async read(task: BatchTask): Promise<TaskRows | "missing" | "damaged"> {
    const path = shardPath(this.#folder, task);
    if (!existsSync(path)) return "missing";
    try {
      const kept = await this.#connection.runAndReadAll(
        `SELECT key::VARCHAR, value::VARCHAR FROM parquet_kv_metadata(${quoted(path.replace(/[[*?]/g, "[$&]"))})`,
      );
      const metadata = new Map(kept.getRows().map(([key, value]) => [String(key), String(value)]));
      if (metadata.get("plan") !== this.#planHash) return "damaged";
      if (!(await this.#hasRowsOf(path, task))) return "damaged";
      const values = await readValues(this.#connection, this.#plan.columns, [path]);
      if (values.length !== task.count * this.#plan.columns.length) return "damaged";
      return rowsHash(values) === metadata.get("rows") ? { task, values } : "damaged";
    } catch {
      // whatever is wrong with it, its rows are computed again
      return "damaged";
    }
  }
}

/** Columns of every Parquet and CSV file of a batch: condition, sample, then those of the study. */
export function tableColumns(columns: readonly SampleColumn[]): string {
  const own = columns.map(({ name, words }) => `${named(name)} ${words === undefined ? "DOUBLE" : "VARCHAR"}`);
  return ["condition VARCHAR", "sample BIGINT", ...own].join(", ");
}

async function fillTable(
  connection: DuckDBConnection,
  columns: readonly SampleColumn[],
  { task, values }: TaskRows,
): Promise<void> {
  const { BIGINT, DOUBLE, DuckDBDataChunk, VARCHAR } = parquetLibrary();
  await connection.run(`CREATE OR REPLACE TEMP TABLE one_shard (${tableColumns(columns)})`);
  const types = [VARCHAR, BIGINT, ...columns.map(({ words }) => (words === undefined ? DOUBLE : VARCHAR))];
  const appender = await connection.createAppender("one_shard");
  const width = columns.length;
  for (let start = 0; start < task.count; start += CHUNK) {
    const count = Math.min(CHUNK, task.count - start);
    const each = <T>(make: (i: number) => T): T[] => Array.from({ length: count }, (_, i) => make(start + i));
    const chunk = DuckDBDataChunk.create(types, count);
    chunk.setColumns([
      each(() => task.condition),
      each((i) => BigInt(task.first + i)),
      ...columns.map(({ words }, k) => each((i) => cell(values[i * width + k], words))),
    ]);
    appender.appendDataChunk(chunk);
  }
  appender.closeSync();
}

function cell(value: number, words: readonly string[] | undefined): number | string | null {
  if (Number.isNaN(value)) return null;
  return words === undefined ? value : (words[value] ?? null);
}

/**
 * Values of the study's columns from files, in the order of the files.
 *
 * @returns shape (rows, columns), row-major; NaN where a cell is empty
 */
export async function readValues(
  connection: DuckDBConnection,
  columns: readonly SampleColumn[],
  paths: readonly string[],
  where = "",
): Promise<Float64Array> {
  const names = columns.map(({ name }) => named(name)).join(", ");
  const result = await connection.runAndReadAll(`SELECT ${names} FROM ${fileList(paths)} ${where}`);
  const values = new Float64Array(result.currentRowCount * columns.length);
  const found = result.getColumns();
  columns.forEach(({ name, words }, k) => {
    const numbers = words === undefined ? undefined : new Map(words.map((word, i) => [word, i]));
    found[k]!.forEach((value, i) => {
      const number = value === null ? Number.NaN : numbers === undefined ? Number(value) : numbers.get(String(value));
      if (number === undefined) throw new BugError(`${name} holds a word that the plan does not know`);
      values[i * columns.length + k] = number;
    });
  });
  return values;
}
