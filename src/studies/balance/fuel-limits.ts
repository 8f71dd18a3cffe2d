import { chordShare, envelopeMargin } from "../../physics/weight-balance/index.ts";
import type { BalanceInputs, CarriedMass, Held } from "./inputs.ts";
import { centreIn, fuelAtStart, type State } from "./state.ts";

/** Places at which the margin is looked at before the ends are refined. */
const PLACES = 400;
const STEPS = 50;

/** What must be inside the limits for something to be done with some fuel aboard. */
export interface Operation {
  readonly key: string;
  readonly title: string;
  /** At some fuel burned [kg]. */
  readonly states: readonly ((burned: number) => State)[];
}

/** Release and recovery at three points with the states on both sides; hanging at the socket; the carrier alone. */
export function operations(inputs: BalanceInputs): Operation[] {
  const { stowed, extended } = inputs.boom;
  const { out, back, light } = inputs.carried;
  const state =
    (carried: CarriedMass | null, boomAngle: number, held: Held = "three point") =>
    (burned: number): State => ({ burned, boomAngle, carried, held, share: 1 });
  const empty = [state(null, stowed), state(null, extended)];
  const aboard = (carried: CarriedMass) => [state(carried, stowed), state(carried, extended), ...empty];
  return [
    { key: "release", title: `release, loading ${out.name}, before and after`, states: aboard(out) },
    { key: "recovery", title: `recovery, loading ${back.name}, before and after`, states: aboard(back) },
    { key: "recovery-light", title: `recovery, loading ${light.name}, before and after`, states: aboard(light) },
    {
      ...{ key: "hanging", title: `the aircraft hanging at a single point with all its weight, loading ${out.name}` },
      states: [state(out, extended, "single point")],
    },
    {
      ...{
        key: "hanging-back",
        title: `the aircraft hanging at a single point with all its weight, loading ${back.name}`,
      },
      states: [state(back, extended, "single point")],
    },
    { key: "without-aircraft", title: "flight without the aircraft, boom stowed or extended", states: empty },
  ];
}

/** Ranges of fuel aboard in which every state keeps the margin [kg]. */
export function fuelRanges(
  inputs: BalanceInputs,
  { states }: Operation,
  margin: number,
): readonly (readonly [from: number, to: number])[] {
  const most = fuelAtStart(inputs);
  const isInside = (fuel: number): boolean =>
    states.every((stateAt) => {
      const { mass, FS } = centreIn(inputs, stateAt(most - fuel));
      const found = envelopeMargin(inputs.envelope, mass, chordShare(FS, inputs.chord));
      return found.least >= margin && found.massInside >= 0;
    });
  const edge = (inside: number, outside: number): number => {
    let [a, b] = [inside, outside];
    for (let i = 0; i < STEPS; i++) {
      const middle = 0.5 * (a + b);
      if (isInside(middle)) a = middle;
      else b = middle;
    }
    return a;
  };
  const ranges: [number, number][] = [];
  let open: number | null = null;
  for (let i = 0; i <= PLACES; i++) {
    const [fuel, before] = [(most * i) / PLACES, (most * (i - 1)) / PLACES];
    const inside = isInside(fuel);
    if (inside && open === null) open = i === 0 ? 0 : edge(fuel, before);
    if (!inside && open !== null) {
      ranges.push([open, edge(before, fuel)]);
      open = null;
    }
  }
  if (open !== null) ranges.push([open, most]);
  return ranges;
}
