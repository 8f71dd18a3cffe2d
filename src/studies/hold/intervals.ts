/** An interval of a parameter; `to` is `null` when it reaches the end of the search. */
export interface Interval {
  readonly from: number;
  readonly to: number | null;
}

const BISECTIONS = 60;

/**
 * Intervals of a grid in which a function is at least a level; ends between grid points by bisection.
 *
 * @param grid   rising values
 * @param values f at the grid
 * @param f      the function; it may jump
 * @param scale  scale on which the bisection halves
 */
export function intervalsAbove(
  grid: readonly number[],
  values: readonly number[],
  f: (x: number) => number,
  level: number,
  scale: "linear" | "log",
): Interval[] {
  const found: { from: number; to: number | null }[] = [];
  grid.forEach((x, i) => {
    const inside = values[i] >= level;
    const before = i > 0 && values[i - 1] >= level;
    if (inside && !before) found.push({ from: i === 0 ? x : crossing(f, grid[i - 1], x, level, scale), to: null });
    if (!inside && before) found[found.length - 1].to = crossing(f, grid[i - 1], x, level, scale);
  });
  return found;
}

/** Where `f` crosses `level` between two values of which exactly one meets it. */
function crossing(f: (x: number) => number, a: number, b: number, level: number, scale: "linear" | "log"): number {
  const forward = (x: number): number => (scale === "log" ? Math.log(x) : x);
  const back = (x: number): number => (scale === "log" ? Math.exp(x) : x);
  const insideAtA = f(a) >= level;
  let low = forward(a);
  let high = forward(b);
  const enough = (scale === "log" ? 1e-9 : 1e-6) * Math.max(Math.abs(low), Math.abs(high));
  for (let i = 0; i < BISECTIONS && high - low > enough; i++) {
    const middle = 0.5 * (low + high);
    if (f(back(middle)) >= level === insideAtA) low = middle;
    else high = middle;
  }
  return back(0.5 * (low + high));
}
