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
    makeFolders(dirname(path));
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
    if (error instanceof CannotWrite) throw new CannotWrite(path, error.message);
    throw new CannotWrite(path, systemWords(error));
  }
}

/**
 * Makes a folder and those above it that are missing, one plain step for each; a step that fails ends it.
 *
 * (Node's own recursive way tries again for ever in places such as /proc, where no folder can be made.)
 *
 * @throws {CannotWrite} naming the folder that could not be made
 */
export function makeFolders(folder: string): void {
  const missing: string[] = [];
  let at = folder;
  while (statSync(at, { throwIfNoEntry: false }) === undefined) {
    missing.push(at);
    const above = dirname(at);
    if (above === at) break;
    at = above;
  }
  for (const step of missing.reverse()) {
    try {
      mkdirSync(step);
    } catch (error) {
      // another process may have made it meanwhile; the path may also lead back up (`a/..`)
      if (statSync(step, { throwIfNoEntry: false })?.isDirectory() === true) continue;
      const why = systemCode(error) === "ENOENT" ? "no folder can be made there" : systemWords(error);
      throw new CannotWrite(step, `the folder ${step} is missing and cannot be made: ${why}`);
    }
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
