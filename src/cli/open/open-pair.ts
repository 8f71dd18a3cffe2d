import { CannotRead, type Effects } from "../../host/index.ts";
import { type LoadedPair, type LoadOptions, loadPair, type ReadFile, STEP_UNREADABLE } from "../../inputs/index.ts";
import { InputError } from "../../math/errors.ts";
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
 * The pair that the user asked for. What reads STEP is large and is only fetched when a file needs it.
 *
 * @throws {InputError} with every problem of the file and of the command line's own values
 */
export async function openPair(
  request: Request,
  read: ReadFile,
  effects: Effects,
  variant = request.variant,
): Promise<LoadedPair> {
  const options: LoadOptions = variant === undefined ? { set: request.set } : { set: request.set, variant };
  try {
    return loadPair(request.pair, read, options);
  } catch (error) {
    const needsStep =
      error instanceof InputError && error.issues.some(({ message }) => message.includes(STEP_UNREADABLE));
    const importStep = needsStep ? await effects.stepImporter() : undefined;
    if (importStep === undefined) throw error;
    return loadPair(request.pair, read, { ...options, importStep });
  }
}
