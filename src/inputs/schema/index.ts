export { VALUE_KEYS } from "./forms.ts";
export { explainIssues, keysAt } from "./issues.ts";
export { pairJsonSchema } from "./json.ts";
export { ALLOWED_NAME, isReserved, NAME_FORM, RESERVED_NAME } from "./names.ts";
export type { Pair } from "./pair.ts";
export { PATCHABLE, pairSchema } from "./pair.ts";
export type { ColumnSpec, Columns, PendingTable, Table } from "./table.ts";
export type { Below, Schema, Visit } from "./walk.ts";
export { below, decidingKey, isOptional, visitValues } from "./walk.ts";
