import { emptyDocument } from "./document.ts";
import type { Effects, Look } from "./effects.ts";
import { readFile, writeFile } from "./files/index.ts";
import { stepImporter } from "./step.ts";
import { type Stream, terminal, widthOf } from "./terminal.ts";

/** What only the started program knows. */
export interface ProgramParts {
  readonly interrupt?: AbortSignal;
  readonly samplerEntry?: URL;
}

/** The real world: the given streams, the disk, and the clock. */
export function nodeEffects(stdout: Stream, stderr: Stream, parts: ProgramParts = {}): Effects {
  const words = terminal(stdout);
  const asides = terminal(stderr);
  return {
    stdout: {
      write(text) {
        asides.progress(undefined);
        words.sink.write(text);
      },
    },
    stderr: asides.sink,
    look: lookOf(stdout),
    progress: (line) => asides.progress(line),
    files: { read: readFile, write: async (path, data) => writeFile(path, data) },
    document: emptyDocument,
    now: () => new Date(),
    stepImporter,
    interrupt: new AbortController().signal,
    ...parts,
  };
}

/** Colours on a terminal, unless the user has asked for none (`NO_COLOR`, or a terminal that calls itself dumb). */
function lookOf(stream: Stream): Look {
  if (stream.isTTY !== true) return { colour: false };
  const colour = (process.env.NO_COLOR ?? "") === "" && process.env.TERM !== "dumb";
  const width = widthOf(stream);
  return { colour, ...(width === undefined ? {} : { width }) };
}
