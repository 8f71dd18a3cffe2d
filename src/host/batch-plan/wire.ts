import { createHash } from "node:crypto";
import { deflateRawSync, gunzipSync, gzipSync, inflateRawSync } from "node:zlib";
import { InputError } from "../../math/errors.ts";
import { type BatchJob, type BatchPlan, type BatchTask, PLAN_FORM, type TaskRows } from "./types.ts";

/** A job as bytes: compressed JSON with the files of the pair in base 64. */
export function encodeJob({ plan, bundle }: BatchJob): Uint8Array {
  const files = bundle.files.map(({ path, bytes }) => ({ path, base64: Buffer.from(bytes).toString("base64") }));
  return gzipSync(JSON.stringify({ plan, files }), { level: 6 });
}

/**
 * @param place for the message, e.g. the file that the bytes come from
 * @throws {InputError} when the bytes are no job
 */
export function decodeJob(bytes: Uint8Array, place: string): BatchJob {
  try {
    const { plan, files } = JSON.parse(gunzipSync(bytes).toString("utf8")) as {
      plan: BatchPlan;
      files: { path: string; base64: string }[];
    };
    if (plan.form !== PLAN_FORM) throw new Error(plan.form);
    return {
      plan,
      bundle: {
        files: files.map(({ path, base64 }) => ({ path, bytes: new Uint8Array(Buffer.from(base64, "base64")) })),
      },
    };
  } catch {
    throw new InputError([
      { path: "", file: place, message: "is not a batch of this version of Davit, or it is damaged" },
    ]);
  }
}

/** SHA-256 over the bits of a task's values: what tells a damaged shard from a good one. */
export function rowsHash(values: Float64Array): string {
  return createHash("sha256").update(littleEndian(values)).digest("hex");
}

/**
 * Rows as bytes, column after column, compressed: [length of head, 4 bytes][head, JSON][columns].
 *
 * Values of one column resemble each other, so that columns compress better than rows.
 */
export function encodeRows(rows: TaskRows, width: number): Buffer {
  const { task, values } = rows;
  const head = Buffer.from(JSON.stringify({ task, sha256: rowsHash(values) }));
  const length = Buffer.alloc(4);
  length.writeUInt32LE(head.length);
  return Buffer.concat([length, head, deflateRawSync(littleEndian(turned(values, task.count, width)), { level: 3 })]);
}

/** The rows, or `undefined` when the bytes are damaged or not those of a task of this width. */
export function decodeRows(bytes: Uint8Array, width: number): TaskRows | undefined {
  try {
    const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const length = buffer.readUInt32LE(0);
    const { task, sha256 } = JSON.parse(buffer.toString("utf8", 4, 4 + length)) as { task: BatchTask; sha256: string };
    const columns = fromLittleEndian(inflateRawSync(buffer.subarray(4 + length)));
    if (columns.length !== task.count * width) return undefined;
    const values = turned(columns, width, task.count);
    return rowsHash(values) === sha256 ? { task, values } : undefined;
  } catch {
    return undefined;
  }
}

/** Transposes a row-major table of `rows` × `columns`. */
function turned(values: Float64Array, rows: number, columns: number): Float64Array {
  const out = new Float64Array(values.length);
  for (let i = 0; i < rows; i++) for (let k = 0; k < columns; k++) out[k * rows + i] = values[i * columns + k];
  return out;
}

const HOST_IS_LITTLE = new Uint8Array(Uint16Array.of(1).buffer)[0] === 1;

function littleEndian(values: Float64Array): Buffer {
  const copy = new Float64Array(values.length);
  // every NaN gets the same bits
  for (let i = 0; i < values.length; i++) copy[i] = Number.isNaN(values[i]) ? Number.NaN : values[i];
  const bytes = Buffer.from(copy.buffer);
  return HOST_IS_LITTLE ? bytes : bytes.swap64();
}

function fromLittleEndian(bytes: Buffer): Float64Array {
  const own = new Uint8Array(bytes);
  if (!HOST_IS_LITTLE) Buffer.from(own.buffer).swap64();
  return new Float64Array(own.buffer);
}
