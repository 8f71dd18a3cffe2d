import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { CannotRead } from "../effects.ts";
import { systemCode, systemWords } from "./words.ts";

/** Largest file that is read unless the caller allows another size [bytes]. */
export const DEFAULT_MAXIMUM_BYTES = 64 * 1024 * 1024;

/**
 * Content of a file; symbolic links are followed.
 *
 * The size is checked before anything is read and the descriptor is the one that was checked, so a file that grows
 * or is swapped meanwhile cannot pass the limit.
 *
 * @throws {CannotRead} missing, not a plain file, larger than `maximumBytes`, or no permission
 */
export function readFile(path: string, maximumBytes: number = DEFAULT_MAXIMUM_BYTES): Uint8Array {
  let descriptor: number | undefined;
  try {
    descriptor = openSync(path, "r");
    const status = fstatSync(descriptor);
    if (status.isDirectory()) throw new CannotRead(path, "is a folder, not a file");
    if (!status.isFile()) throw new CannotRead(path, "is not a plain file");
    if (status.size > maximumBytes) {
      throw new CannotRead(path, `is larger than ${sizeWords(maximumBytes)} (it has ${sizeWords(status.size)})`);
    }
    return readWhole(descriptor, status.size);
  } catch (error) {
    if (error instanceof CannotRead) throw error;
    throw new CannotRead(path, systemCode(error) === "ENOENT" ? "no such file" : systemWords(error));
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}

function readWhole(descriptor: number, size: number): Uint8Array {
  const bytes = new Uint8Array(size);
  let filled = 0;
  while (filled < size) {
    const count = readSync(descriptor, bytes, filled, size - filled, filled);
    if (count === 0) break;
    filled += count;
  }
  return filled === size ? bytes : bytes.subarray(0, filled);
}

/** `65536` → "64 kB". */
export function sizeWords(bytes: number): string {
  if (bytes >= 1024 * 1024) return `${Math.ceil((bytes / 1024 / 1024) * 10) / 10} MB`;
  if (bytes >= 1024) return `${Math.ceil((bytes / 1024) * 10) / 10} kB`;
  return `${bytes} bytes`;
}
