/** A piece of a motion between two computed distances. */
export interface OpenSpan {
  readonly from: number;
  readonly to: number;
  /** Distances at both ends [m]. */
  readonly d0: number;
  readonly d1: number;
  /** The distance is nowhere below this [m]. */
  readonly lowerBound: number;
}

/** Open pieces, the lowest bound first; of equal bounds the widest, of equal widths the earliest. */
export interface SpanHeap {
  readonly items: OpenSpan[];
}

/** @returns a heap without pieces */
export function createSpanHeap(): SpanHeap {
  return { items: [] };
}

function before(a: OpenSpan, b: OpenSpan): boolean {
  if (a.lowerBound !== b.lowerBound) return a.lowerBound < b.lowerBound;
  const [widthA, widthB] = [a.to - a.from, b.to - b.from];
  return widthA === widthB ? a.from < b.from : widthA > widthB;
}

/** Adds a piece; its bound is max(0, ½(d₀ + d₁ − travel)). */
export function pushSpan(heap: SpanHeap, from: number, to: number, d0: number, d1: number, travel: number): void {
  const span = { from, to, d0, d1, lowerBound: Math.max(0, 0.5 * (d0 + d1 - travel)) };
  const { items } = heap;
  let i = items.length;
  items.push(span);
  while (i > 0) {
    const up = (i - 1) >> 1;
    if (!before(span, items[up]!)) break;
    items[i] = items[up]!;
    i = up;
  }
  items[i] = span;
}

/** Takes the piece with the lowest bound; undefined when there is none. */
export function popLowest(heap: SpanHeap): OpenSpan | undefined {
  const { items } = heap;
  const lowest = items[0];
  const last = items.pop();
  if (lowest === undefined || last === undefined || items.length === 0) return lowest;
  let i = 0;
  for (;;) {
    let child = 2 * i + 1;
    if (child >= items.length) break;
    if (child + 1 < items.length && before(items[child + 1]!, items[child]!)) child += 1;
    if (!before(items[child]!, last)) break;
    items[i] = items[child]!;
    i = child;
  }
  items[i] = last;
  return lowest;
}
