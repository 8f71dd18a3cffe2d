import { centreOf, chordShare, envelopeMargin, type PlacedMass } from "../../physics/weight-balance/index.ts";
import { plannedLegs, stateIn } from "./branches.ts";
import type { BalanceInputs } from "./inputs.ts";
import { carriedAt, fuelAtStart, fuelIn, massesOf } from "./state.ts";
import type { LoadingItem, LoadingTotal } from "./types.ts";

/** What is aboard at the start, line by line. */
export function loadingItems(inputs: BalanceInputs): LoadingItem[] {
  const { items, boom, carried, tanks } = inputs;
  const line = (name: string, kind: LoadingItem["kind"], at: PlacedMass, capacity: number | null = null) => ({
    ...{ name, kind, mass_kg: at.mass, FS_m: at.FS, BL_m: at.BL, WL_m: at.WL, capacity_kg: capacity },
  });
  const aboard = inputs.legs[0]!.aircraft !== "away";
  const hung = carriedAt(boom, boom.stowed, carried.out, "three point");
  return [
    ...items.map((item) => line(item.name, item.kind, item)),
    ...(aboard ? [line(`carried aircraft, loading ${carried.out.name}`, "carried aircraft", hung)] : []),
    ...tanks.map((tank) => line(tank.name, "fuel", fuelIn(tank, tank.start), tank.capacity)),
  ];
}

/** Sums of the loading sheet: empty with kit, without fuel, at the start, at the end of the plan. */
export function loadingTotals(inputs: BalanceInputs): LoadingTotal[] {
  const { largest } = inputs;
  const legs = plannedLegs(inputs);
  const [first, last] = [legs[0]!, legs[legs.length - 1]!];
  const total = (key: LoadingTotal["key"], name: string, masses: readonly PlacedMass[], most: number | null) => {
    const { mass, FS } = centreOf(masses);
    const share = chordShare(FS, inputs.chord);
    const limits = envelopeMargin(inputs.envelope, mass, share);
    return {
      ...{ key, name, mass_kg: mass, FS_m: FS, cg_percentMac: 100 * share, largest_kg: most },
      ...{ forward_percentMac: 100 * limits.forwardLimit, aft_percentMac: 100 * limits.aftLimit },
    };
  };
  const dry = { ...stateIn(first, 0), burned: fuelAtStart(inputs) };
  const bare = inputs.items.filter(({ kind }) => kind === "empty" || kind === "kit");
  return [
    total("empty", "empty with kit", bare, null),
    total("zero-fuel", "without fuel", massesOf(inputs, dry), largest.zeroFuel),
    total("start", "at the start", massesOf(inputs, stateIn(first, 0)), largest.takeOff),
    total("end", "at the end, as planned", massesOf(inputs, stateIn(last, 1)), largest.landing),
  ];
}
