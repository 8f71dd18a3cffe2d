import type { FindingDraft } from "../finding/index.ts";
import type { SnubberInputs } from "./settings.ts";
import type { Nodding, NoddingCycle, NoddingSimulation, SnubberPoint } from "./types.ts";
import { celsius, milli, percent } from "./words.ts";

const ENDS: Readonly<Record<Nodding["reachEnds"], string>> = {
  "largest amplitude": "the largest that is looked for",
  lift: "where the lift of the carried aircraft is its maximum",
  balance: "beyond it the balance does not close",
};

const off = (difference: number): string => percent(Math.abs(difference));

const SIDES: Readonly<Record<NoddingSimulation["side"], string>> = {
  below: "from below",
  beyond: "from beyond",
  between: "from",
};

/** Lasting or growing nodding of a mass, worst oil temperature, and how far the methods agree on it. */
export function noddingFindings(
  { settings, paths }: SnubberInputs,
  points: readonly SnubberPoint[],
  id: string,
  rests: readonly string[],
): FindingDraft[] {
  const { value: limit, source } = settings.criteria.nodding;
  const worst = points.reduce((a, b) => (sizeOf(b.nodding) > sizeOf(a.nodding) ? b : a));
  const { nodding, mass } = worst;
  const title = grows(nodding)
    ? `Amplitude at the tip that nodding grows past within the reach of the model, worst oil temperature, mass ${mass}`
    : `Amplitude of lasting nodding at the tip, worst oil temperature, mass ${mass}`;
  return [
    {
      ...{ id: `${id}.nodding`, title, unit: "m", rests: [...rests, ...paths.criteria] },
      value: grows(nodding) ? nodding.reach_m : sizeOf(nodding),
      criterion: {
        text: `amplitude of lasting nodding at the tip at most ${milli(limit)} mm`,
        ...{ sense: "at most", limit, source },
      },
      // growth is never within a limit, however short the model reaches
      ...(grows(nodding) ? { verdict: "not met" as const } : {}),
      note: points.map((point) => `${celsius(point.temperature_degC)}: ${noddingWords(point.nodding)}`).join("; "),
    },
    ...points.flatMap((point) => agreementOf(point, id, rests)),
  ];
}

const grows = ({ outcome }: Nodding): boolean => outcome.startsWith("grows");

/** For the choice of the worst: what grows is larger than what lasts. */
function sizeOf(nodding: Nodding): number {
  if (grows(nodding)) return Number.POSITIVE_INFINITY;
  const last = nodding.cycles.findLast(({ attracts }) => attracts);
  return last === undefined ? 0 : tipOf(last);
}

const tipOf = ({ orbit, tipAmplitude_m }: NoddingCycle): number => orbit?.tipAmplitude_m ?? tipAmplitude_m;

function noddingWords(nodding: Nodding): string {
  const { outcome, cycles, linear, reach_m, reachEnds } = nodding;
  const reach = `the reach of the model, ±${milli(reach_m)} mm (${ENDS[reachEnds]})`;
  const lastWords = grows(nodding)
    ? [
        `${cycles.length > 0 ? "larger motion grows: no limit cycle beyond it" : "motion grows: no limit cycle"} within ${reach}`,
      ]
    : [`within ${reach}`];
  const away = linear.filter(
    (each) =>
      !cycles.some(
        (own) =>
          own.attracts === each.attracts &&
          near(own.tipAmplitude_m, each.harmonics?.tipAmplitude_m ?? each.tipAmplitude_m),
      ),
  );
  const missed = away.map(({ tipAmplitude_m, attracts, harmonics }) => {
    const size = `±${milli(harmonics?.tipAmplitude_m ?? tipAmplitude_m)} mm`;
    return `the ${attracts ? "stable" : "unstable"} cycle of the linear pair at ${size} has no counterpart with all equations of motion`;
  });
  return [outcome, ...cycles.map(cycleWords), ...lastWords, ...missed].join(", ");
}

/** A cycle of the linear pair is the same when it lies within this factor. */
const near = (a: number, b: number): boolean => Math.abs(Math.log(a / b)) < Math.log(1.5);

function cycleWords(cycle: NoddingCycle): string {
  const { attracts, pitchAmplitude_deg, orbit } = cycle;
  const frequency = orbit?.frequency_Hz ?? cycle.frequency_Hz;
  const size = `±${milli(tipOf(cycle))} mm, ±${pitchAmplitude_deg.toFixed(2)}°, ${frequency.toFixed(3)} Hz`;
  const multiplier = orbit === null ? "" : `, largest multiplier ${orbit.largestMultiplier_1.toFixed(3)}`;
  return attracts
    ? `stable limit cycle ${size}${multiplier}`
    : `unstable limit cycle ${size}${multiplier}, from which smaller motion falls away`;
}

function agreementOf({ nodding, mass }: SnubberPoint, id: string, rests: readonly string[]): FindingDraft[] {
  const { simulations, cycles } = nodding;
  if (simulations.length === 0) return [];
  const differences = [
    ...cycles.flatMap(({ orbit }) =>
      orbit === null ? [] : [orbit.amplitudeDifference_1, orbit.frequencyDifference_1],
    ),
    ...simulations.flatMap((each) => [each.amplitudeDifference_1, each.frequencyDifference_1, each.timeDifference_1]),
  ].filter((each) => each !== null);
  const agree = simulations.every(({ agrees }) => agrees);
  const words = [
    ...cycles.map(({ tipAmplitude_m, frequency_Hz, orbit }) => {
      const balance = `balance ±${milli(tipAmplitude_m)} mm, ${frequency_Hz.toFixed(4)} Hz`;
      if (orbit === null) return `${balance}, the orbit does not close`;
      return `${balance}, orbit ±${milli(orbit.tipAmplitude_m)} mm, ${orbit.frequency_Hz.toFixed(4)} Hz (off by ${off(orbit.amplitudeDifference_1)}, ${off(orbit.frequencyDifference_1)})`;
    }),
    ...simulations.map(simulationWords),
  ];
  return [
    {
      id: `${id}.nodding-simulated`,
      title: `Largest difference between harmonic balance, closed orbit and simulation of the nonlinear pair, mass ${mass}`,
      ...{ value: agree && differences.length > 0 ? Math.max(...differences.map(Math.abs)) : null, unit: "1", rests },
      verdict: "information",
      note: `${agree ? "the methods agree" : "the methods contradict each other"}: ${words.join("; ")}`,
    },
  ];
}

function simulationWords(each: NoddingSimulation): string {
  const start = `simulated ${SIDES[each.side]} ±${milli(each.startAmplitude_m)} mm`;
  const after = `after ${each.time_s.toFixed(0)} s`;
  const time = each.timeDifference_1;
  const pace = time === null ? "" : `, at the pace of the balance to ${off(time)}`;
  if (each.outcome === "grows") return `${start}: grows past the reach ${after}${pace}`;
  if (each.tipAmplitude_m === null || each.frequency_Hz === null) return `${start}: ${each.outcome} ${after}${pace}`;
  const difference = each.amplitudeDifference_1;
  const against = difference === null ? "" : ` (off by ${off(difference)}, ${off(each.frequencyDifference_1!)})`;
  return `${start}: settles at ±${milli(each.tipAmplitude_m)} mm, ${each.frequency_Hz.toFixed(4)} Hz ${after}${against}`;
}
