import type { Look } from "../host/index.ts";
import type { ExitCode } from "./exit.ts";
import type { Request } from "./types.ts";

/** What a worker thread is started with. */
export interface ThreadTask {
  readonly command: string;
  readonly request: Request;
  readonly debug: boolean;
  readonly look: Look;
}

/** What a worker thread says; only the main thread touches streams and writes files. */
export type FromThread =
  | { readonly kind: "stdout"; readonly text: string }
  | { readonly kind: "stderr"; readonly text: string }
  | { readonly kind: "progress"; readonly line: string | undefined }
  | { readonly kind: "write"; readonly ticket: number; readonly path: string; readonly data: string | Uint8Array }
  | { readonly kind: "done"; readonly code: ExitCode };

/** Answer to a `write`. */
export interface ToThread {
  readonly ticket: number;
  /** Why it could not be written; absent when it was. */
  readonly why?: string;
}
