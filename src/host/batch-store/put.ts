import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { CannotWrite } from "../effects.ts";
import { makeFolders, systemWords } from "../files/index.ts";

let counter = 0;

/** How temporaries are called: a reader skips them, a later coordinator removes them. */
export const isTemporary = (name: string): boolean => name.startsWith(".") && name.endsWith(".tmp");

/**
 * Lets `fill` write a temporary in the same folder, forces it to the disk and renames it to `path`, so that a reader, or a
 * power cut, finds the old file or the whole new one.
 *
 * @throws {CannotWrite} as thrown by `fill`, or in plain words; the temporary is gone then
 */
export async function putFile(path: string, fill: (temporary: string) => Promise<void>): Promise<void> {
  counter += 1;
  const temporary = join(dirname(path), `.${basename(path)}.${process.pid}-${counter}.tmp`);
  try {
    await fill(temporary);
    force(temporary, "r+");
    renameSync(temporary, path);
    forceFolder(dirname(path));
  } catch (error) {
    rmSync(temporary, { force: true });
    if (error instanceof CannotWrite) throw new CannotWrite(path, error.message);
    throw new CannotWrite(path, systemWords(error));
  }
}

/** Makes a folder; those above it too. */
export function makeFolder(path: string): void {
  try {
    makeFolders(path);
    // by now it is there: this only finds that it is no folder
    mkdirSync(path, { recursive: true });
  } catch (error) {
    if (error instanceof CannotWrite) throw new CannotWrite(path, error.message);
    throw new CannotWrite(path, systemWords(error));
  }
}

function force(path: string, flags: "r" | "r+"): void {
  const descriptor = openSync(path, flags);
  try {
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

function forceFolder(path: string): void {
  try {
    force(path, "r");
  } catch {
    // Not every system can open a folder; the content is safe either way.
  }
}
