import {
  closeSync,
  fsyncSync,
  mkdirSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import { CannotWrite } from "../effects.ts";
import { systemCode, systemWords } from "./words.ts";

let counter = 0;

/**
 * Writes a file so that a reader, or a power cut, finds the old content or the whole new one.
 *
 * A temporary file in the same folder is filled, forced to the disk and renamed over the old one. A symbolic link stays
 * one: the file it points at is replaced. A device or pipe is written directly.
 *
 * @throws {CannotWrite} in plain words; the temporary file is gone then
 */
export function writeFile(path: string, data: string | Uint8Array): void {
  const bytes = typeof data === "string" ? new TextEncoder().encode(data) : data;
  try {
    mkdirSync(dirname(path), { recursive: true });
    const target = linkTarget(path);
    if (isSpecial(target)) {
      fill(target, bytes, "w", false);
      return;
    }
    counter += 1;
    const temporary = join(dirname(target), `.${basename(target)}.${process.pid}-${counter}.tmp`);
    try {
      fill(temporary, bytes, "wx", true);
      renameSync(temporary, target);
    } catch (error) {
      rmSync(temporary, { force: true });
      throw error;
    }
    syncFolder(dirname(target));
  } catch (error) {
    throw new CannotWrite(path, systemWords(error));
  }
}

/** The file behind symbolic links; the path itself when nothing stands there yet. */
function linkTarget(path: string): string {
  try {
    return realpathSync(path);
  } catch (error) {
    if (systemCode(error) === "ENOENT") return path;
    throw error;
  }
}

function isSpecial(path: string): boolean {
  const status = statSync(path, { throwIfNoEntry: false });
  return status !== undefined && !status.isFile() && !status.isDirectory();
}

function fill(path: string, bytes: Uint8Array, flags: "w" | "wx", toDisk: boolean): void {
  const descriptor = openSync(path, flags);
  try {
    let written = 0;
    while (written < bytes.length) written += writeSync(descriptor, bytes, written);
    if (toDisk) fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

/** Forces the rename itself to the disk; not every system can open a folder, and the content is safe either way. */
function syncFolder(folder: string): void {
  try {
    const descriptor = openSync(folder, "r");
    try {
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
  } catch {
    // The rename is done; only its durability across a power cut is unconfirmed.
  }
}
