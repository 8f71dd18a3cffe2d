import { emptyDocument } from "./document.ts";
import { CannotRead, CannotWrite, type Effects } from "./effects.ts";
import { systemWords } from "./files/index.ts";
import { stepImporter } from "./step.ts";

/** Effects that touch nothing: what was written is kept to be looked at. */
export interface MemoryEffects extends Effects {
  readonly said: { stdout: string; stderr: string; progress: (string | undefined)[] };
  /** Content by path; what a command reads and writes. */
  readonly disk: Map<string, Uint8Array>;
}

export interface MemorySettings {
  readonly disk?: Readonly<Record<string, string | Uint8Array>>;
  /** System code by path, e.g. `ENOSPC`: writing there fails. */
  readonly failing?: Readonly<Record<string, string>>;
  readonly now?: Date;
  readonly interrupt?: AbortSignal;
  readonly document?: Effects["document"];
}

/** Effects in memory, for tests that run commands silently. */
export function memoryEffects(settings: MemorySettings = {}): MemoryEffects {
  const said: MemoryEffects["said"] = { stdout: "", stderr: "", progress: [] };
  const encode = (data: string | Uint8Array): Uint8Array =>
    typeof data === "string" ? new TextEncoder().encode(data) : data;
  const disk = new Map(Object.entries(settings.disk ?? {}).map(([path, data]) => [path, encode(data)]));
  return {
    said,
    disk,
    stdout: {
      write(text) {
        said.stdout += text;
      },
    },
    stderr: {
      write(text) {
        said.stderr += text;
      },
    },
    look: { colour: false },
    progress: (line) => void said.progress.push(line),
    files: {
      read(path, maximumBytes) {
        const bytes = disk.get(path);
        if (bytes === undefined) throw new CannotRead(path, "no such file");
        if (maximumBytes !== undefined && bytes.length > maximumBytes) throw new CannotRead(path, "is too large");
        return bytes;
      },
      async write(path, data) {
        const code = settings.failing?.[path];
        if (code !== undefined) throw new CannotWrite(path, systemWords(Object.assign(new Error(code), { code })));
        disk.set(path, encode(data));
      },
    },
    document: settings.document ?? emptyDocument,
    now: () => settings.now ?? new Date(0),
    stepImporter,
    interrupt: settings.interrupt ?? new AbortController().signal,
  };
}
