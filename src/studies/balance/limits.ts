import type { Limit } from "../finding/index.ts";
import type { Computed } from "./findings.ts";
import { fuelRanges, operations } from "./fuel-limits.ts";
import type { BalanceInputs } from "./inputs.ts";
import { centreIn, fuelAtStart } from "./state.ts";

/** Fuel aboard for release, recovery and flight without the aircraft; fuel aboard at landing. */
export function balanceLimits(inputs: BalanceInputs, { branches }: Computed): Limit[] {
  const most = fuelAtStart(inputs);
  const because = branches.map(({ key }) => `balance.cg.margin.${key}`);
  const fuel = operations(inputs).map((operation): Limit => {
    const ranges = fuelRanges(inputs, operation, inputs.criteria.margin.value);
    const own = {
      id: `balance.fuel.${operation.key}`,
      title: `Fuel aboard: ${operation.title}`,
      ...{ quantity: "fuel aboard the carrier, used in the stated order", unit: "kg", because },
    };
    if (ranges.length === 0) {
      const note = "with no fuel up to that of the start is every state of it inside the c.g. limits with the margin";
      return { ...own, lower: null, upper: null, status: "prohibited", note };
    }
    const [from, to] = ranges.reduce((widest, one) => (one[1] - one[0] > widest[1] - widest[0] ? one : widest));
    const others = ranges.length > 1 ? `${ranges.length} separate ranges; this is the widest. ` : "";
    return {
      ...own,
      ...{ lower: from <= 1e-6 ? null : from, upper: to, status: "analysed" },
      note: `${others}looked at from 0 to ${most.toFixed(0)} kg`,
    };
  });
  return [...fuel, ...landingLimits(inputs)];
}

/** How much fuel may be left at landing so that the largest landing mass is kept. */
function landingLimits(inputs: BalanceInputs): Limit[] {
  const { boom, carried, largest } = inputs;
  const most = fuelAtStart(inputs);
  return [carried.out, carried.back, null].map((loading): Limit => {
    const empty = { burned: most, boomAngle: boom.stowed, carried: loading, held: "three point", share: 1 } as const;
    const room = largest.landing - centreIn(inputs, empty).mass;
    return {
      id: `balance.fuel.landing.${loading?.name ?? "without-aircraft"}`,
      title: `Fuel aboard at landing, ${loading === null ? "without the aircraft" : `aircraft stowed, loading ${loading.name}`}`,
      ...{
        quantity: "fuel aboard the carrier",
        unit: "kg",
        lower: null,
        upper: room < 0 ? null : Math.min(room, most),
      },
      ...{ status: room < 0 ? "prohibited" : "analysed", because: ["balance.mass.landing"] },
      ...(room < most ? {} : { note: "all the fuel of the start may be aboard" }),
    };
  });
}
