import { nearest } from "../text/index.ts";
import { KINDS } from "./kinds.ts";
import type { Reading } from "./parse.ts";
import { readQuantity, splitValue } from "./parse.ts";
import type { AirspeedKind, Distribution, Parsed } from "./types.ts";

export const AIRSPEED_KINDS: readonly AirspeedKind[] = ["CAS", "EAS", "TAS", "Mach"];
export const ALLOWED_AIRSPEED = "an airspeed with its kind: 95 m/s EAS, 150 kt CAS, 180 kt TAS or 0.4 Mach";

/** What an airspeed's text says. */
export interface AirspeedReading extends Reading {
  readonly kind: AirspeedKind;
}

/**
 * Reads an airspeed, e.g. `105 m/s EAS ± 1 m/s (1σ)`; the kind is always stated.
 *
 * @param text          as written
 * @param distribution  declared beside the value, if any
 * @returns             m/s for CAS, EAS and TAS; the plain number for Mach
 */
export function readAirspeed(text: string, distribution?: Distribution): Parsed<AirspeedReading> {
  const parts = splitValue(text);
  if (!parts.ok) return { ok: false, problems: parts.problems.map((each) => ({ ...each, allowed: ALLOWED_AIRSPEED })) };
  const { unitText, unitStart } = parts.value;
  const word = /[^\s]*$/.exec(unitText)![0];
  const kind = AIRSPEED_KINDS.find((each) => each === word);
  if (kind === undefined) {
    const message = unitText === "" ? "needs a unit and a kind of airspeed" : kindMessage(word);
    const index = unitText === "" ? unitStart : unitStart + unitText.length - word.length;
    return { ok: false, problems: [{ message, allowed: ALLOWED_AIRSPEED, index }] };
  }
  // the kind is blanked out so that every index still points into the written text
  const at = unitStart + unitText.length - word.length;
  const bare = text.slice(0, at) + " ".repeat(word.length) + text.slice(at + word.length);
  const reading = readQuantity(bare, kind === "Mach" ? KINDS.number : KINDS.speed, distribution);
  if (!reading.ok) return reading;
  if (!(reading.value.si > 0)) {
    return { ok: false, problems: [{ message: "must be larger than zero", allowed: ALLOWED_AIRSPEED }] };
  }
  if (kind === "Mach" && !(reading.value.si < 1)) {
    return { ok: false, problems: [{ message: "must be below Mach 1", allowed: "0 to 1 Mach, subsonic" }] };
  }
  const unit = reading.value.unit;
  return { ok: true, value: { ...reading.value, text, ...(unit === undefined ? {} : { unit }), kind } };
}

function kindMessage(word: string): string {
  const joined = /^(?:K|kt)?(CAS|EAS|TAS)$/i.exec(word)?.[1]?.toUpperCase();
  if (joined !== undefined && joined !== word) return `"${word}" is not a kind of airspeed; did you mean kt ${joined}?`;
  if (/^K?IAS$/i.test(word)) return `"${word}" depends on the instrument; give CAS`;
  if (/^(?:GS|SOG)$/i.test(word)) return `"${word}" depends on the wind; give an airspeed`;
  if (/^(?:mach|M)$/i.test(word)) return `"${word}" is not a kind of airspeed; did you mean Mach?`;
  const near = /^[A-Za-z]{3}$/.test(word) ? nearest(word, AIRSPEED_KINDS) : undefined;
  if (near !== undefined) return `"${word}" is not a kind of airspeed; did you mean ${near}?`;
  return "the kind of airspeed is missing";
}
