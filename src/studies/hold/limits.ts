import type { Limit } from "../finding/index.ts";
import type { HoldEvidence } from "./evidence.ts";
import type { HoldInputs } from "./inputs.ts";

/**
 * Limits of the hooked state that follow from the findings of one condition: for each plane the ranges of airspeed that
 * meet its criteria (analysed) and those that do not (prohibited), within what was searched and no further.
 */
export function holdLimits(inputs: HoldInputs, evidence: HoldEvidence, hookSpeed: number): Limit[] {
  const id = `hold.${evidence.condition.name}`;
  return evidence.bands.flatMap(({ plane, ranges }) =>
    ranges.map(({ from, to, met }, i): Limit => {
      const holds = hookSpeed >= from && hookSpeed <= to;
      const where = holds ? `; the hook speed of ${hookSpeed.toFixed(1)} m/s EAS lies in it` : "";
      return {
        id: `${id}.airspeed-${plane}${ranges.length > 1 ? `-${i + 1}` : ""}`,
        title: `Airspeed while hooked at one point, ${plane} stability`,
        quantity: "airspeed EAS",
        ...{ lower: from, upper: to, unit: "m/s" },
        status: met ? "analysed" : "prohibited",
        because: [`${id}.${plane}`],
        note: `${met ? "every criterion is met" : "a criterion is not met, or the aircraft does not trim or stalls"} at all declared masses, ${inputs.lawName}; nothing was searched outside the listed ranges${where}`,
      };
    }),
  );
}
