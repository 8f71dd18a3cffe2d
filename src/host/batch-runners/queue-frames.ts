import { decodeRows, encodeRows, type Failure, type TaskRows } from "../batch-plan/index.ts";

/** What a worker sends to the coordinator of a batch. */
export type Frame =
  | { readonly kind: "rows"; readonly rows: TaskRows }
  | { readonly kind: "failed"; readonly failure: Failure };

const ROWS = 1;
const FAILED = 2;

export function rowsFrame(rows: TaskRows, width: number): Buffer {
  return Buffer.concat([Buffer.of(ROWS), encodeRows(rows, width)]);
}

export function failedFrame(failure: Failure): Buffer {
  return Buffer.concat([Buffer.of(FAILED), Buffer.from(JSON.stringify(failure))]);
}

/** `undefined` for bytes that are damaged: the task is then computed again. */
export function readFrame(bytes: Buffer, width: number): Frame | undefined {
  try {
    if (bytes[0] === FAILED) return { kind: "failed", failure: JSON.parse(bytes.toString("utf8", 1)) as Failure };
    const rows = bytes[0] === ROWS ? decodeRows(bytes.subarray(1), width) : undefined;
    return rows === undefined ? undefined : { kind: "rows", rows };
  } catch {
    return undefined;
  }
}
