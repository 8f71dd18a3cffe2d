import { hashInputs, loadPair, recordReads } from "../../src/inputs/index.ts";
import { canonicalJson } from "../../src/outputs/result/index.ts";
import { runHoldInDepth } from "../../src/studies/hold-depth/index.ts";

/** Files by name; plain data, so that it can be sent to a thread or a browser. */
export type FileSet = Readonly<Record<string, Uint8Array>>;

/** The study `hold` on a pair, as canonical text: pair file in, bytes out, nothing else touched. */
export function holdBytes(files: FileSet, pair: string, variant: string): string {
  const read = (path: string) => {
    const bytes = files[path];
    return bytes === undefined ? ({ ok: false, reason: "no such file" } as const) : ({ ok: true, bytes } as const);
  };
  const loaded = loadPair(pair, read, { variant });
  const result = runHoldInDepth({
    variant,
    reads: () => recordReads(loaded),
    hash: (paths) => hashInputs(loaded, paths),
    version: "test",
  });
  return canonicalJson(result);
}
