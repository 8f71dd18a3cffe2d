import { type BatchProgress, shareInterval } from "../../host/batch/index.ts";
import { percent } from "../../outputs/text/index.ts";

/** A progress line is renewed at most this often [ms]. */
const RENEWED = 200;

/** Turns the states of a batch into a line that replaces itself. */
export function progressLine(
  head: string,
  success: string,
  show: (line: string) => void,
): (state: BatchProgress) => void {
  let shown = Number.NEGATIVE_INFINITY;
  return (state) => {
    const now = performance.now();
    if (now - shown < RENEWED && state.rows < state.of) return;
    shown = now;
    show(`${head}: ${progressWords(state, success)}`);
  };
}

/** Rows, rate, time left, and the share of the condition that is known least well. */
export function progressWords(state: BatchProgress, success: string): string {
  const parts = [`${state.rows} of ${state.of} rows`];
  if (state.rate !== undefined) parts.push(`${state.rate < 10 ? state.rate.toFixed(1) : state.rate.toFixed(0)}/s`);
  if (state.remaining !== undefined) parts.push(`${timeWords(state.remaining)} left`);
  const widest = state.counts
    .map((count) => ({ count, interval: shareInterval(count) }))
    .filter(({ interval }) => interval !== undefined)
    .map(({ count, interval }) => ({ count, interval: interval!, width: interval!.upper - interval!.lower }))
    .reduce<
      { count: BatchProgress["counts"][number]; interval: { lower: number; upper: number }; width: number } | undefined
    >((most, one) => (most === undefined || one.width > most.width ? one : most), undefined);
  if (widest !== undefined) {
    const { count, interval } = widest;
    const of = state.counts.length > 1 ? ` in ${count.condition}` : "";
    parts.push(
      `${success}${of} ${percent(count.hits / count.rows)} (${percent(interval.lower)} to ${percent(interval.upper)})`,
    );
  }
  return parts.join(", ");
}

/** `75` → "1 min 15 s". */
export function timeWords(seconds: number): string {
  const whole = Math.ceil(seconds);
  if (whole < 60) return `${whole} s`;
  if (whole < 3600) return `${Math.floor(whole / 60)} min ${whole % 60} s`;
  return `${Math.floor(whole / 3600)} h ${Math.floor((whole % 3600) / 60)} min`;
}
