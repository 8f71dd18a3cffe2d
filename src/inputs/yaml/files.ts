import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import type { Issue } from "../../math/errors.ts";
import { decodeUtf8, fileNameOf, folderOf, joinPath } from "../text/index.ts";
import type { Place } from "../tree/index.ts";
import { spellBytes } from "./limits.ts";

/** Reads a file, or says why not. The only door to the outside. */
export type ReadFile = (
  path: string,
) => { readonly ok: true; readonly bytes: Uint8Array } | { readonly ok: false; readonly reason: string };

/** One file that a pair is made of. */
export interface FileUsed {
  /** Relative to the folder of the pair. */
  readonly path: string;
  /** Hexadecimal. */
  readonly sha256: string;
}

/** The files of one pair: reads each once and remembers its hash. */
export interface Files {
  /** Name for messages: the pair's folder joined with the path inside it. */
  shown(inside: string): string;
  /** Text of a file; problems are reported at `from`, where the file is asked for. */
  text(inside: string, limit: number, issues: Issue[], from?: Place & { path: string }): string | undefined;
  /** Bytes of a file, read anew each time; problems as for `text`. */
  bytes(inside: string, limit: number, issues: Issue[], from: Place & { path: string }): Uint8Array | undefined;
  used(): readonly FileUsed[];
  hash(inside: string): string;
}

type Opened =
  | { readonly ok: true; readonly bytes: Uint8Array }
  | { readonly ok: false; readonly issue: Omit<Issue, "path"> };

/** Opens the folder of the pair file at `pairPath`. */
export function openFiles(pairPath: string, read: ReadFile): Files {
  const folder = folderOf(pairPath);
  const known = new Map<string, { text: string | undefined; sha256: string; issue: Omit<Issue, "path"> | undefined }>();
  const shown = (inside: string) => joinPath(folder, inside);

  /** Hashes of files that were read as bytes. */
  const hashes = new Map<string, string>();
  const open = (inside: string, limit: number): Opened => {
    const result = read(shown(inside));
    if (!result.ok) return { ok: false, issue: { message: `the file cannot be read: ${result.reason}` } };
    const { bytes } = result;
    if (bytes.length <= limit) return { ok: true, bytes };
    const message = `the file ${fileNameOf(inside)} is too large`;
    const issue = { message, value: spellBytes(bytes.length), allowed: `up to ${spellBytes(limit)}` };
    return { ok: false, issue };
  };
  const load = (inside: string, limit: number) => {
    const opened = open(inside, limit);
    if (!opened.ok) return refused(opened.issue);
    const decoded = decodeUtf8(opened.bytes);
    if (!decoded.ok) return refused({ message: `the file ${decoded.reason}`, allowed: "UTF-8 text" });
    return { text: decoded.text, sha256: bytesToHex(sha256(opened.bytes)), issue: undefined };
  };

  return {
    shown,
    text(inside, limit, issues, from) {
      const entry = known.get(inside) ?? load(inside, limit);
      known.set(inside, entry);
      if (entry.issue === undefined) return entry.text;
      if (from === undefined) issues.push({ path: "", file: shown(inside), ...entry.issue });
      else issues.push({ ...from, ...entry.issue, value: entry.issue.value ?? inside });
      return undefined;
    },
    bytes(inside, limit, issues, from) {
      const opened = open(inside, limit);
      if (opened.ok) {
        if (!hashes.has(inside)) hashes.set(inside, bytesToHex(sha256(opened.bytes)));
        return opened.bytes;
      }
      issues.push({ ...from, ...opened.issue, value: opened.issue.value ?? inside });
      return undefined;
    },
    used() {
      const texts = [...known].map(([path, entry]) => ({ path, sha256: entry.sha256 }));
      const others = [...hashes].filter(([path]) => !known.has(path)).map(([path, hash]) => ({ path, sha256: hash }));
      return [...texts, ...others].filter((file) => file.sha256 !== "");
    },
    hash: (inside) => known.get(inside)?.sha256 || (hashes.get(inside) ?? ""),
  };
}

function refused(issue: Omit<Issue, "path">) {
  return { text: undefined, sha256: "", issue };
}
