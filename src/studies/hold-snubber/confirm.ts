import { type Lasting, type LastingCycle, timeBetween } from "./lasting.ts";
import type { NoddingOutcome } from "./nodding.ts";
import type { NoddingMotion } from "./nodding-motion.ts";
import { type Settled, settle } from "./simulate.ts";

/** A simulation that is to confirm what the periodic motions say. */
export interface Confirmation {
  readonly side: "below" | "beyond" | "between";
  /** Amplitude of the tip at its start [m]. */
  readonly start: number;
  readonly settled: Settled;
  readonly agrees: boolean;
  /** Simulated over expected, minus 1: amplitude and frequency of a cycle it settles in, time that growth or decay takes. */
  readonly amplitudeDifference: number | null;
  readonly frequencyDifference: number | null;
  readonly timeDifference: number | null;
}

/** Shares of a cycle's amplitude at which the simulations start: one that attracts from further off. */
const ATTRACTING = [0.8, 1.25] as const;
const REPELLING = [0.9, 1.1] as const;
/** Without a cycle: share of the reach. */
const WITHOUT = { grows: 0.1, "dies out": 0.5 } as const;
/** Settled in a cycle: amplitudes agree within this share. */
const IN_CYCLE = 0.05;
/** Growth is timed from twice the start, decay from the third extreme on over a factor of five. */
const GROWN = 2;
const DECAYED = 5;
const LEAST_SPAN = 1.3;

/** Simulates the pair from both sides of its largest cycle, or from one amplitude where it has none. */
export function confirm(motion: NoddingMotion, lasting: Lasting, outcome: NoddingOutcome): Confirmation[] {
  const { cycles, curve, reach } = lasting;
  const last = cycles.at(-1);
  if (last !== undefined) {
    const [below, beyond] = last.attracts ? ATTRACTING : REPELLING;
    return [
      run(motion, lasting, last, { side: "below", share: below, last, outcome }),
      ...(beyond * last.size.tip < reach
        ? [run(motion, lasting, last, { side: "beyond", share: beyond, last, outcome })]
        : []),
    ];
  }
  const wanted = reach * (outcome === "dies out" ? WITHOUT["dies out"] : WITHOUT.grows);
  const within = curve.filter(({ size }) => size.tip < reach);
  if (within.length === 0) return [];
  const off = (tip: number): number => Math.abs(Math.log(tip / wanted));
  const start = within.reduce((a, b) => (off(b.size.tip) < off(a.size.tip) ? b : a));
  return [run(motion, lasting, start, { side: "between", share: 1, last: undefined, outcome })];
}

function run(
  motion: NoddingMotion,
  { cycles, curve, reach }: Lasting,
  from: Pick<LastingCycle, "motion" | "size">,
  {
    side,
    share,
    last,
    outcome,
  }: {
    readonly side: Confirmation["side"];
    readonly share: number;
    readonly last: LastingCycle | undefined;
    readonly outcome: NoddingOutcome;
  },
): Confirmation {
  const start = share * from.size.tip;
  const { pair } = motion.independent;
  const state = motion.stateIn(from.motion, share);
  const settled = settle(pair, { state, omega: from.motion.omega, tip: start }, reach);
  const grows = settled.outcome === "grows";
  const near = cycles.find(({ size, attracts }) => attracts && Math.abs(settled.tip / size.tip - 1) < IN_CYCLE);
  const inCycle = settled.outcome === "settles" ? near : undefined;
  const isExpected =
    last === undefined
      ? grows === (outcome !== "dies out")
      : last.attracts
        ? inCycle === last
        : grows === (side === "beyond");
  return {
    ...{ side, start, settled, agrees: isExpected },
    amplitudeDifference: inCycle === undefined ? null : settled.tip / tipOf(inCycle) - 1,
    frequencyDifference: inCycle === undefined ? null : settled.omega / omegaOf(inCycle) - 1,
    timeDifference: timeDifference(settled, { curve, reach, start }),
  };
}

/** Amplitude and frequency of a cycle: of its closed orbit, else of the balance. */
export function tipOf({ orbit, size }: LastingCycle): number {
  return orbit?.tip ?? size.tip;
}

export function omegaOf({ orbit, motion }: LastingCycle): number {
  return orbit === null ? motion.omega : (2 * Math.PI) / orbit.period;
}

/** Time of growth or decay over what the growth of each amplitude gives, minus 1. */
function timeDifference(
  { looks, outcome }: Settled,
  { curve, reach, start }: Pick<Lasting, "curve" | "reach"> & { readonly start: number },
): number | null {
  if (outcome !== "grows" && outcome !== "dies out") return null;
  const first = outcome === "grows" ? looks.findIndex(({ tip }) => tip >= GROWN * start) : 2;
  const from = looks[first];
  if (from === undefined) return null;
  const covered = Math.min(reach, curve.at(-1)?.size.tip ?? 0);
  const after = looks.slice(first + 1);
  // as long as it has not left what is timed: what has grown past the reach may come back as anything
  const left = after.findIndex(({ tip }) =>
    outcome === "grows" ? tip > covered : tip > from.tip || tip < from.tip / DECAYED,
  );
  const to = after.at(left < 0 ? -1 : left - 1);
  if (left === 0 || to === undefined || Math.abs(Math.log(to.tip / from.tip)) < Math.log(LEAST_SPAN)) return null;
  const expected = timeBetween(curve, from.tip, to.tip);
  return expected === null ? null : (to.t - from.t) / expected - 1;
}
