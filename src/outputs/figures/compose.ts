/** Puts panels, legend, title and description together into one figure with stable bytes. */
import { FONT, FONT_SIZE, GRID, INK, type SymbolName } from "./style.ts";
import { escapeXml, textWidth } from "./text.ts";
import type { Figure } from "./types.ts";

export interface Panel {
  /** `<svg>` text of `plotFrame`. */
  readonly svg: string;
  readonly width: number;
  readonly height: number;
  /** Printed bold above the panel. */
  readonly heading?: string;
}

export interface LegendItem {
  readonly label: string;
  readonly kind: "line" | "area" | "symbol";
  readonly stroke?: string;
  readonly dash?: string;
  readonly width?: number;
  readonly fill?: string;
  readonly symbol?: SymbolName;
  /** Symbol upside down. */
  readonly flip?: boolean;
}

export interface FigureSpec {
  readonly id: string;
  readonly title: string;
  readonly caption: string;
  readonly description: string;
  readonly panels: readonly Panel[];
  readonly legend: readonly LegendItem[];
  /** `<pattern>` elements that the panels use. */
  readonly defs?: string;
  /** Panels beside each other, or how many stand in each row. Default 1. */
  readonly columns?: number | readonly number[];
}

const LEGEND_LINE = 20;
const HEADING = 20;

/** Outline of a symbol with the area of a circle of radius `r`, centred at (0, 0). */
export function symbolPath(symbol: SymbolName, r: number): string {
  const area = Math.PI * r * r;
  if (symbol === "square") {
    const s = Math.sqrt(area) / 2;
    return `M${-s} ${-s}H${s}V${s}H${-s}Z`;
  }
  if (symbol === "diamond") {
    const h = Math.sqrt(area / (2 * Math.tan(Math.PI / 6)));
    const w = h * Math.tan(Math.PI / 6);
    return `M0 ${-h}L${w} 0L0 ${h}L${-w} 0Z`;
  }
  if (symbol === "triangle") {
    const h = Math.sqrt(area / (3 * Math.sqrt(3)));
    return `M0 ${-2 * h}L${h * Math.sqrt(3)} ${h}H${-h * Math.sqrt(3)}Z`;
  }
  return `M${r} 0A${r} ${r} 0 1 1 ${-r} 0A${r} ${r} 0 1 1 ${r} 0Z`;
}

function swatch(item: LegendItem): string {
  const { stroke = INK, dash = "none", width = 2, fill = "none", symbol } = item;
  const dashed = dash === "none" ? "" : ` stroke-dasharray="${dash}"`;
  if (item.kind === "area")
    return `<rect x="0" y="-7" width="30" height="12" fill="${fill}" stroke="${stroke}" stroke-width="0.8"/>`;
  const line =
    item.kind === "line" ? `<path d="M0 -1H30" fill="none" stroke="${stroke}" stroke-width="${width}"${dashed}/>` : "";
  if (symbol === undefined) return line;
  const outline = `<path d="${symbolPath(symbol, 4.2)}" transform="translate(15,-1)${item.flip === true ? " scale(1,-1)" : ""}" fill="${fill}" stroke="${stroke}" stroke-width="1.4"/>`;
  return line + outline;
}

function drawLegend(items: readonly LegendItem[], width: number): { readonly svg: string; readonly height: number } {
  if (items.length === 0) return { svg: "", height: 0 };
  let x = 8;
  let y = 16;
  const parts: string[] = [];
  for (const item of items) {
    const size = 38 + textWidth(item.label, FONT_SIZE);
    if (x > 8 && x + size > width - 8) {
      x = 8;
      y += LEGEND_LINE;
    }
    const label = `<text x="37" y="3" text-anchor="start">${escapeXml(item.label)}</text>`;
    parts.push(`<g transform="translate(${x},${y})">${swatch(item)}${label}</g>`);
    x += size + 20;
  }
  return { svg: `<g class="legend">${parts.join("")}</g>`, height: y + 12 };
}

/** Turns the outer `<svg>` of a panel into a nested one at its place. */
function place(panel: Panel, x: number, y: number): string {
  const inner = panel.svg
    .replace(/^<svg[^>]*>/, "")
    .replace(/^<style>[\s\S]*?<\/style>/, "")
    .replace(/<\/svg>$/, "");
  const size = `x="${x}" y="${y}" width="${panel.width}" height="${panel.height}" viewBox="0 0 ${panel.width} ${panel.height}"`;
  return `<svg ${size} overflow="visible" text-anchor="middle" fill="currentColor">${inner}</svg>`;
}

/** Ids that the plotting library counts up per process become ids counted per figure. */
function stableIds(svg: string, id: string): string {
  const known = new Map<string, string>();
  return svg.replace(/\bplot-(clip|marker|pattern)-\d+/g, (found) => {
    const name = known.get(found) ?? `${id}-${known.size + 1}`;
    known.set(found, name);
    return name;
  });
}

/** Two decimals are below what any printer resolves. */
function roundCoordinates(svg: string): string {
  return svg.replace(
    / (d|transform|x|y|x1|x2|y1|y2|cx|cy|width|height)="([^"]*)"/g,
    (_, name: string, value: string) => {
      const rounded = value.replace(/-?\d+\.\d{3,}(e-?\d+)?/g, (number) =>
        String(Math.round(Number(number) * 100) / 100),
      );
      return ` ${name}="${rounded}"`;
    },
  );
}

/** The finished figure: white ground, legend on top, panels in rows, title and description for screen readers. */
export function composeFigure(spec: FigureSpec): Figure {
  const columns = spec.columns ?? 1;
  const width = Math.max(...rowsOf(spec.panels, columns).map((row) => row.reduce((sum, one) => sum + one.width, 0)));
  const legend = drawLegend(spec.legend, width);
  let y = legend.height;
  const parts: string[] = [];
  for (const row of rowsOf(spec.panels, columns)) {
    const headed = row.some((panel) => panel.heading !== undefined) ? HEADING : 0;
    let x = 0;
    for (const panel of row) {
      if (panel.heading !== undefined) {
        const attributes = `x="${x + 8}" y="${y + 15}" font-weight="700" text-anchor="start"`;
        parts.push(`<text ${attributes}>${escapeXml(panel.heading)}</text>`);
      }
      parts.push(place(panel, x, y + headed));
      x += panel.width;
    }
    y += headed + Math.max(...row.map((panel) => panel.height));
  }
  const height = Math.ceil(y + 2);
  const { id } = spec;
  const root =
    `<svg xmlns="http://www.w3.org/2000/svg" class="davit-figure" id="${id}" viewBox="0 0 ${width} ${height}" ` +
    `width="${width}" height="${height}" role="img" aria-labelledby="${id}-title ${id}-desc" ` +
    `font-family="${FONT}" font-size="${FONT_SIZE}" color="${INK}" fill="${INK}" style="white-space:pre">`;
  const drawing =
    `${root}<title id="${id}-title">${escapeXml(spec.title)}</title>` +
    `<desc id="${id}-desc">${escapeXml(spec.description)}</desc>` +
    `<defs>${spec.defs ?? ""}</defs><rect width="${width}" height="${height}" fill="#ffffff" stroke="${GRID}" stroke-width="0"/>` +
    `${stableIds(roundCoordinates(legend.svg + parts.join("")), id)}</svg>`;
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are not allowed in a drawing
  const svg = drawing.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/g, "\ufffd");
  return { id, title: spec.title, caption: spec.caption, description: spec.description, svg, width, height };
}

function rowsOf(panels: readonly Panel[], columns: number | readonly number[]): Panel[][] {
  const rows: Panel[][] = [];
  for (let i = 0, row = 0; i < panels.length; row++) {
    const count = typeof columns === "number" ? columns : (columns[row] ?? 1);
    rows.push(panels.slice(i, i + count));
    i += count;
  }
  return rows;
}
