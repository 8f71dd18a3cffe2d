import type { Sink } from "./effects.ts";

/** The part of a Node output stream that is used here. */
export interface Stream {
  write(text: string): unknown;
  readonly isTTY?: boolean;
  readonly columns?: number;
}

export interface Terminal {
  readonly sink: Sink;
  progress(line: string | undefined): void;
}

const WIPE_LINE = "\r\u001b[2K";

/**
 * A text stream with one line of progress at its end: ordinary text wipes the line first, so the two never mix.
 * Nothing of the progress is written when the stream is not a terminal.
 */
export function terminal(stream: Stream): Terminal {
  let shown = false;
  const wipe = (): void => {
    if (shown) stream.write(WIPE_LINE);
    shown = false;
  };
  return {
    sink: {
      write(text) {
        wipe();
        stream.write(text);
      },
    },
    progress(line) {
      if (stream.isTTY !== true) return;
      wipe();
      if (line === undefined) return;
      stream.write(line.slice(0, (widthOf(stream) ?? 80) - 1));
      shown = true;
    },
  };
}

/** Columns of a terminal; some say 0 or 1 when they do not know. */
export function widthOf(stream: Stream): number | undefined {
  const { columns } = stream;
  return columns !== undefined && columns > 1 ? columns : undefined;
}
