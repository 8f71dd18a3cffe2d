import { createRequire } from "node:module";
import type { DuckDBConnection } from "@duckdb/node-api";
import { CannotRead, CannotRun, CannotWrite } from "../effects.ts";

/** Optional package that reads and writes Parquet; large and native, installed by whoever runs batches. */
export const PARQUET_PACKAGE = "@duckdb/node-api";
/** The version that the exports were compared with. */
const TESTED = "1.5.6-r.1";

type Library = typeof import("@duckdb/node-api");
let library: Library | undefined;

/**
 * The library, loaded when first needed.
 *
 * @throws {CannotRun} saying what to install
 */
export function parquetLibrary(): Library {
  if (library !== undefined) return library;
  try {
    library = createRequire(import.meta.url)(PARQUET_PACKAGE) as Library;
    return library;
  } catch (error) {
    const why = (error as NodeJS.ErrnoException).code === "MODULE_NOT_FOUND" ? "is not installed" : "cannot be loaded";
    throw new CannotRun(
      `rows are kept as Parquet by the package ${PARQUET_PACKAGE}, which ${why}; ` +
        `install it beside davit: npm install ${PARQUET_PACKAGE}@${TESTED}`,
    );
  }
}

/** A database in memory that lasts as long as `work`; one thread, so that what it writes does not depend on the machine. */
export async function withDatabase<T>(work: (connection: DuckDBConnection) => Promise<T>): Promise<T> {
  const { DuckDBInstance } = parquetLibrary();
  const instance = await DuckDBInstance.create(":memory:", {
    threads: "1",
    // a damaged shard that is replaced must not be remembered
    enable_external_file_cache: "false",
    // it never asks the network for anything
    autoinstall_known_extensions: "false",
    autoload_known_extensions: "false",
  });
  try {
    const connection = await instance.connect();
    try {
      return await work(connection);
    } finally {
      connection.closeSync();
    }
  } finally {
    instance.closeSync();
  }
}

/** A text in SQL. */
export const quoted = (text: string): string => `'${text.replaceAll("'", "''")}'`;

/** A name in SQL. */
export const named = (name: string): string => `"${name.replaceAll('"', '""')}"`;

/** Files to read, in SQL, in this order; their names are taken as they are and never as patterns. */
export function fileList(paths: readonly string[]): string {
  return `read_parquet([${paths.map((path) => quoted(path.replace(/[[*?]/g, "[$&]"))).join(", ")}])`;
}

/** What went wrong while writing `path`, in plain words. */
export function writeFailure(path: string, error: unknown): CannotWrite {
  const text = String(error);
  if (/No space left/.test(text)) return new CannotWrite(path, "the disk is full");
  if (/Permission denied/.test(text)) return new CannotWrite(path, "no permission");
  if (/Read-only file system/.test(text)) return new CannotWrite(path, "the disk is read-only");
  if (/No such file or directory/.test(text)) return new CannotWrite(path, "the folder does not exist");
  return new CannotWrite(path, firstLine(error));
}

export function readFailure(path: string, error: unknown): CannotRead {
  return new CannotRead(path, `cannot be read as Parquet: ${firstLine(error)}`);
}

const firstLine = (error: unknown): string => (error instanceof Error ? error.message : String(error)).split("\n")[0]!;
