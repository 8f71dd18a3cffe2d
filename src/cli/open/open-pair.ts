import { CannotRead, type Effects } from "../../host/index.ts";
import { type LoadedPair, type LoadOptions, loadPair, type ReadFile } from "../../inputs/index.ts";
import type { Request } from "../types.ts";

/** Reads each file once, however many variants ask for it. */
export function readOnce(effects: Effects): ReadFile {
  const known = new Map<string, ReturnType<ReadFile>>();
  return (path) => {
    const result = known.get(path) ?? read(effects, path);
    known.set(path, result);
    return result;
  };
}

function read(effects: Effects, path: string): ReturnType<ReadFile> {
  try {
    return { ok: true, bytes: effects.files.read(path) };
  } catch (error) {
    if (error instanceof CannotRead) return { ok: false, reason: error.message };
    throw error;
  }
}

/**
 * The pair that the user asked for.
 *
 * @throws {InputError} with every problem of the file and of the command line's own values
 */
export function openPair(request: Request, read: ReadFile, variant = request.variant): LoadedPair {
  const options: LoadOptions = variant === undefined ? { set: request.set } : { set: request.set, variant };
  return loadPair(request.pair, read, options);
}
