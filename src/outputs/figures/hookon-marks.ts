/** What the figures of hook-on share: one look for each outcome, words of a case. */
import { HOOKON_OUTCOMES, type HookonCase, type HookonOutcome } from "../../studies/hookon/types.ts";
import type { LegendItem } from "./compose.ts";
import { type Hatch, INK, pattern, type SymbolName } from "./style.ts";

export interface OutcomeLook {
  /** Letter in a cell of a map. */
  readonly letter: string;
  readonly tint: string;
  readonly hatch: Hatch;
  readonly symbol: SymbolName;
  readonly fill: string;
  readonly stroke: string;
}

const look = (letter: string, tint: string, hatch: Hatch, symbol: SymbolName, fill: string, stroke: string) => ({
  ...{ letter, tint, hatch, symbol, fill, stroke },
});

/** Filled symbols latched, hollow ones did not. */
export const OUTCOME_LOOKS: Readonly<Record<HookonOutcome, OutcomeLook>> = {
  "locked, stable": look("L", "#d5e6dd", "none", "circle", "#1c7d6b", "#1c7d6b"),
  "locked, diverging": look("V", "#bfe0d6", "dots", "triangle", "#551f4d", "#551f4d"),
  "half-locked": look("H", "#fbe9c6", "level", "diamond", "#b9530e", "#b9530e"),
  overloaded: look("X", "#e9c3bd", "cross", "square", "#8f1d22", "#8f1d22"),
  missed: look("M", "#ffffff", "none", "circle", "#ffffff", "#2459a8"),
  bounced: look("B", "#c9d8ee", "rising", "square", "#ffffff", "#2459a8"),
  "socket tumbled": look("T", "#dcc8da", "falling", "diamond", "#ffffff", "#551f4d"),
  jammed: look("J", "#e3e5e8", "upright", "triangle", "#ffffff", "#68707c"),
  "broken away": look("A", "#f7f7f7", "dots", "triangle", "#ffffff", "#2459a8"),
  lost: look("?", "#aebfd6", "upright", "square", "#68707c", "#68707c"),
};

/** Outcomes of a set in their standing order. */
export function inOrder(found: Iterable<HookonOutcome>): HookonOutcome[] {
  const set = new Set(found);
  return HOOKON_OUTCOMES.filter((outcome) => set.has(outcome));
}

const code = (outcome: HookonOutcome): number => HOOKON_OUTCOMES.indexOf(outcome);

export function areaFill(id: string, outcome: HookonOutcome): string {
  return OUTCOME_LOOKS[outcome].hatch === "none" ? OUTCOME_LOOKS[outcome].tint : `url(#${id}-o${code(outcome)})`;
}

export function areaPatterns(id: string, outcomes: readonly HookonOutcome[]): string {
  return outcomes
    .filter((outcome) => OUTCOME_LOOKS[outcome].hatch !== "none")
    .map((outcome) => {
      const { hatch, tint } = OUTCOME_LOOKS[outcome];
      return pattern(`${id}-o${code(outcome)}`, hatch, tint, "#39404a", 0.4);
    })
    .join("");
}

export function areaLegend(id: string, outcomes: readonly HookonOutcome[], letters: boolean): LegendItem[] {
  return outcomes.map((outcome) => ({
    kind: "area" as const,
    label: letters ? `${OUTCOME_LOOKS[outcome].letter}: ${outcome}` : outcome,
    fill: areaFill(id, outcome),
    stroke: INK,
  }));
}

export function symbolLegend(outcomes: readonly HookonOutcome[]): LegendItem[] {
  return outcomes.map((outcome) => {
    const { symbol, fill, stroke } = OUTCOME_LOOKS[outcome];
    return { kind: "symbol" as const, label: outcome, symbol, fill, stroke };
  });
}

/** A case of the plain grid of turbulence and controller. */
export function isPlain({ light, bothAtOnce }: HookonCase): boolean {
  return light === null && !bothAtOnce;
}
