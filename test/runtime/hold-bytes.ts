import { hashInputs, loadPair, recordReads } from "../../src/inputs/index.ts";
import { canonicalJson } from "../../src/outputs/result/index.ts";
import { partNames, runHoldInDepth } from "../../src/studies/hold-depth/index.ts";

/** Files by name; plain data, so that it can be sent to a thread or a browser. */
export type FileSet = Readonly<Record<string, Uint8Array>>;

/**
 * The study `hold` on a pair, as canonical text: pair file in, bytes out, nothing else touched.
 *
 * @param smooth without the parts that magnify the last bit in which two engines differ: states of attachment, whose motion in time
 *               goes through hundreds of contacts of a pin in its clearance, and control, where the place of a peak is known to
 *               half its digits
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
    ...(smooth ? { only: partNames().filter((name) => !["attachment", "control"].includes(name)) } : {}),
  });
  return canonicalJson(result);
}
