import type { DrawingDocument } from "./effects.ts";

/** An empty HTML document outside a browser; the library is loaded at the first call. */
export async function emptyDocument(): Promise<DrawingDocument> {
  const { parseHTML } = await import("linkedom");
  return parseHTML("<!doctype html><html><head></head><body></body></html>").document;
}
