import type { ImportStep } from "../inputs/index.ts";

/**
 * Everything a command may do to the world, as one argument, so that tests run every command silently and in memory.
 */

/** Where words go. */
export interface Sink {
  write(text: string): void;
}

/** Files, read at once and written atomically: a reader sees the old file or the whole new one. */
export interface Files {
  /**
   * Content of the file at `path`.
   * @throws {CannotRead} in plain words: missing, a folder, too large, no permission
   */
  read(path: string, maximumBytes?: number): Uint8Array;
  /**
   * Writes `data` to `path` and makes the folders above it.
   * @throws {CannotWrite} in plain words: disk full, no permission, read-only
   */
  write(path: string, data: string | Uint8Array): Promise<void>;
}

/** How words may look where they go. */
export interface Look {
  /** Colours are understood and wanted. */
  readonly colour: boolean;
  /** Columns; absent when the output is not a terminal. */
  readonly width?: number;
}

/** The members of a document that drawing needs. */
export interface DrawingDocument {
  createElement(name: string): unknown;
  createElementNS(namespace: string, name: string): unknown;
}

export interface Effects {
  readonly stdout: Sink;
  readonly stderr: Sink;
  /** Of the standard output. */
  readonly look: Look;
  readonly files: Files;
  /** A line that replaces itself on a terminal and is not shown elsewhere; `undefined` wipes it. */
  progress(line: string | undefined): void;
  /** An empty HTML document to draw figures in. */
  document(): Promise<DrawingDocument>;
  now(): Date;
  /** Reader of STEP files, or `undefined` when its optional package is not installed. */
  stepImporter(): Promise<ImportStep | undefined>;
  /** Aborted when the user wants to stop; only a command that ends itself in order listens. */
  readonly interrupt: AbortSignal;
  /** Where the code of threads that compute samples lies; absent: they are computed in the caller's own thread. */
  readonly samplerEntry?: URL;
}

/** The file cannot be read; the user can mend it. */
export class CannotRead extends Error {
  override readonly name = "CannotRead";
  readonly path: string;
  constructor(path: string, why: string) {
    super(why);
    this.path = path;
  }
}

/** The result cannot be put where the user wants it. */
export class CannotWrite extends Error {
  override readonly name = "CannotWrite";
  readonly path: string;
  constructor(path: string, why: string) {
    super(why);
    this.path = path;
  }
}

/** It cannot go on for a reason outside the pair: a package, a server or a lock. */
export class CannotRun extends Error {
  override readonly name = "CannotRun";
}
