import type { Effects } from "../../host/index.ts";
import { hashInputs, type LoadedPair } from "../../inputs/index.ts";
import { type ResultDocument, writeResult } from "../../outputs/result/index.ts";
import { during } from "./during.ts";

/**
 * Writes `NAME.json` and `NAME.html` into a folder, with the card `hold-here.html` of the selected variant where `hold` ran and
 * its `loading-sheet.html` where `balance` ran, and says where they lie.
 *
 * @param name without ending, e.g. `clearance`
 */
export async function writeReport(
  folder: string,
  name: string,
  document: ResultDocument,
  loaded: LoadedPair,
  effects: Effects,
): Promise<string> {
  effects.progress("drawing the report");
  // drawing is heavy to load, so only who wants a report pays for it
  const { renderHoldHere, renderLoadingSheet, renderReport } = await import("../../outputs/report/index.ts");
  const { notice } = loaded.pair;
  const meta = {
    ...(notice === undefined ? {} : { notice }),
    cautions: [],
    inputHash: hashInputs(loaded, [...loaded.values.keys()]),
  };
  const dom = { document: await effects.document() };
  const page = during(
    () => `report of ${document.pair}`,
    () => renderReport(document, dom, meta),
  );
  const base = folder.endsWith("/") ? folder : `${folder}/`;
  await effects.files.write(`${base}${name}.json`, writeResult(document));
  await effects.files.write(`${base}${name}.html`, page);
  let places = `Report: ${base}${name}.html\nResult: ${base}${name}.json\n`;
  const [hold] = document.studies.hold ?? [];
  if (hold !== undefined) {
    await effects.files.write(`${base}hold-here.html`, renderHoldHere(document, hold, meta));
    places += `Card: ${base}hold-here.html\n`;
  }
  const [balance] = document.studies.balance ?? [];
  if (balance !== undefined) {
    await effects.files.write(`${base}loading-sheet.html`, renderLoadingSheet(document, balance, meta));
    places += `Loading sheet: ${base}loading-sheet.html\n`;
  }
  return places;
}
