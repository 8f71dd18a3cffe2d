/**
 * Colours, dashes, symbols and hatches of all figures.
 *
 * The colours keep apart under the three common colour deficiencies and print as distinct greys; no figure relies on them:
 * every curve also has its own dash, symbol and label, every area its own hatch.
 */

export const FONT = "'Helvetica Neue', Arial, 'Liberation Sans', sans-serif";
export const FONT_SIZE = 12;
export const INK = "#1c2127";
export const SLATE = "#5a626d";
export const GRID = "#e4e7eb";
export const WARN = "#8f1d22";

export type SymbolName = "circle" | "square" | "diamond" | "triangle";

export interface CurveStyle {
  readonly stroke: string;
  readonly dash: string;
  readonly symbol: SymbolName;
}

const CURVES: readonly CurveStyle[] = [
  { stroke: "#2459a8", dash: "none", symbol: "circle" },
  { stroke: "#b9530e", dash: "9 4", symbol: "square" },
  { stroke: "#551f4d", dash: "2.5 3", symbol: "triangle" },
  { stroke: "#1c7d6b", dash: "11 3 2.5 3", symbol: "diamond" },
  { stroke: "#68707c", dash: "5 2.5", symbol: "circle" },
  { stroke: "#1c2127", dash: "14 4 5 4", symbol: "square" },
];

/** Style of the `index`-th curve of a figure; repeats after six. */
export function curveStyle(index: number): CurveStyle {
  return CURVES[index % CURVES.length]!;
}

/** Fills of areas: tint and hatch kind, in order. */
const AREAS = [
  { tint: "#c9d8ee", hatch: "none" },
  { tint: "#f3d3b8", hatch: "rising" },
  { tint: "#bfe0d6", hatch: "dots" },
  { tint: "#dcc8da", hatch: "falling" },
  { tint: "#e3e5e8", hatch: "cross" },
  { tint: "#fbe9c6", hatch: "level" },
  { tint: "#aebfd6", hatch: "upright" },
  { tint: "#f7f7f7", hatch: "none" },
] as const;

export type Hatch = (typeof AREAS)[number]["hatch"];

export function areaStyle(index: number): { readonly tint: string; readonly hatch: Hatch } {
  return AREAS[index % AREAS.length]!;
}

/** `<pattern>` element: lines or dots over a tint. */
export function pattern(id: string, hatch: Hatch, tint: string, ink = "#39404a", opacity = 0.55): string {
  const strokes: Readonly<Record<Hatch, string>> = {
    none: "",
    rising: "M-2 2L2 -2M0 8L8 0M6 10L10 6",
    falling: "M-2 6L2 10M0 0L8 8M6 -2L10 2",
    cross: "M0 8L8 0M0 0L8 8",
    level: "M0 2H8M0 6H8",
    upright: "M2 0V8M6 0V8",
    dots: "M2 2h.01M6 6h.01",
  };
  const width = hatch === "dots" ? 1.8 : 0.8;
  const lines = `<path d="${strokes[hatch]}" fill="none" stroke="${ink}" stroke-opacity="${opacity}" stroke-width="${width}" stroke-linecap="round"/>`;
  return `<pattern id="${id}" width="8" height="8" patternUnits="userSpaceOnUse"><rect width="8" height="8" fill="${tint}"/>${lines}</pattern>`;
}
