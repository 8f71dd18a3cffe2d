/** Verdict and status as word and shape, so that neither colour nor shape alone carries the meaning. */
import type { LimitStatus, Verdict } from "../../studies/finding/types.ts";
import { type Html, html, trusted } from "./html.ts";

const SHAPES: Readonly<Record<string, string>> = {
  tick: '<path d="M2.6 8.6 6.4 12.2 13.4 3.9" fill="none" stroke="currentColor" stroke-width="2.4" stroke-linecap="round" stroke-linejoin="round"/>',
  cross:
    '<path d="M3.4 3.4 12.6 12.6M12.6 3.4 3.4 12.6" fill="none" stroke="currentColor" stroke-width="2.6" stroke-linecap="round"/>',
  ring: '<circle cx="8" cy="8" r="5.2" fill="none" stroke="currentColor" stroke-width="1.8" stroke-dasharray="3 2.2"/>',
  dot: '<circle cx="8" cy="8" r="2.6" fill="currentColor"/>',
  bar: '<circle cx="8" cy="8" r="6" fill="none" stroke="currentColor" stroke-width="2"/><path d="M4.6 8H11.4" stroke="currentColor" stroke-width="2.4"/>',
  up: '<path d="M8 2.5 14 13H2Z" fill="currentColor"/>',
};

function mark(kind: string, shape: string, word: string): Html {
  const icon = trusted(`<svg class="icon" viewBox="0 0 16 16" aria-hidden="true">${SHAPES[shape]!}</svg>`);
  return html`<span class="mark ${kind}">${icon}${word}</span>`;
}

export function verdictMark(verdict: Verdict): Html {
  if (verdict === "met") return mark("good", "tick", "MET");
  if (verdict === "not met") return mark("bad", "cross", "NOT MET");
  if (verdict === "not analysed") return mark("open", "ring", "NOT ANALYSED");
  return mark("note", "dot", "information");
}

export function statusMark(status: LimitStatus): Html {
  if (status === "demonstrated") return mark("good", "tick", "DEMONSTRATED");
  if (status === "analysed") return mark("note", "dot", "ANALYSED");
  if (status === "prohibited") return mark("bad", "bar", "PROHIBITED");
  return mark("open", "ring", "NOT CLEARED");
}

/** Marks a mode that grows. */
export function growsMark(): Html {
  return mark("bad", "up", "grows");
}

/** Says whether an input was measured, and its maturity. */
export function firmnessMark(measured: boolean, maturity: string | undefined): Html {
  const detail = maturity ?? "not stated";
  return measured ? mark("good", "tick", `measured, ${detail}`) : mark("open", "ring", `unmeasured, ${detail}`);
}

/**
 * State of a clearance.
 *
 * @param state of the study, e.g. "near", "contact"
 * @param short whether it misses its criterion
 */
export function clearanceMark(state: string, short: boolean): Html {
  if (state === "contact") return mark("bad", "cross", "CONTACT");
  if (short) return mark("bad", "cross", `SHORT, ${state}`);
  if (state === "clear" || state === "outside the zone") return mark("good", "tick", state);
  return mark("open", "ring", state);
}

/** Whether a part reaches into a zone. */
export function zoneMark(inside: boolean): Html {
  return inside ? mark("open", "ring", "in the zone") : mark("good", "tick", "outside");
}
