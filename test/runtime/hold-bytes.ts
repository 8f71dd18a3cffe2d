import { hashInputs, loadPair, recordReads } from "../../src/inputs/index.ts";
import { canonicalJson } from "../../src/outputs/result/index.ts";
import { partNames, runHoldInDepth } from "../../src/studies/hold-depth/index.ts";

/** Files by name; plain data, so that it can be sent to a thread or a browser. */
export type FileSet = Readonly<Record<string, Uint8Array>>;

/**
 * The study `hold` on a pair, as canonical text: pair file in, bytes out, nothing else touched.
 *
 * @param smooth without states of attachment: their motion in time goes through hundreds of contacts of a pin in its clearance, each
 *               of which magnifies the last bit in which two engines differ
 */
export function holdBytes(files: FileSet, pair: string, variant: string, smooth = false): string {
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
    ...(smooth ? { only: partNames().filter((name) => name !== "attachment") } : {}),
  });
  return canonicalJson(result);
}
