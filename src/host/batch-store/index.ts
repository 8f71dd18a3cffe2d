/** Where rows are kept: shards, exports and the lock of a batch folder. Parquet goes through DuckDB in memory; no database file exists. */
export { PARQUET_PACKAGE, parquetLibrary, withDatabase } from "./duckdb.ts";
export { EXPORTS, exportRows, readTable, writeHistory } from "./exports.ts";
export { FolderLock } from "./lock.ts";
export { isTemporary, makeFolder } from "./put.ts";
export { SHARDS, ShardStore, shardPath } from "./shards.ts";
