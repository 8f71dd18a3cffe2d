import type { Limit } from "../finding/index.ts";
import type { HoldEvidence } from "./findings.ts";
import type { HoldInputs } from "./inputs.ts";

/** Limits of the hooked state that follow from the findings of one condition: the airspeeds of each plane. */
export function holdLimits(inputs: HoldInputs, evidence: HoldEvidence, hookSpeed: number): Limit[] {
  const id = `hold.${evidence.condition.name}`;
  return evidence.bands.map(({ plane, from, to, bands }) => {
    const band = bands.find((b) => hookSpeed >= b.from && hookSpeed <= b.to) ?? bands.at(-1);
    const inside = band !== undefined && hookSpeed >= band.from && hookSpeed <= band.to;
    const range = `${from.toFixed(0)} to ${to.toFixed(0)} m/s EAS searched, all declared masses, ${inputs.lawName}`;
    const others = bands.length > 1 ? `; ${bands.length} separate bands meet the criteria` : "";
    const where =
      band === undefined
        ? "no airspeed of the range meets the criteria"
        : inside
          ? `hook speed ${hookSpeed.toFixed(1)} m/s lies inside`
          : `hook speed ${hookSpeed.toFixed(1)} m/s lies outside: prohibited`;
    // an end of the search is not a limit of the aircraft
    const end = (value: number | undefined, edge: number): number | null =>
      value === undefined || Math.abs(value - edge) < 1e-9 ? null : value;
    return {
      id: `${id}.airspeed-${plane}`,
      title: `Airspeed while hooked at one point, ${plane} stability`,
      quantity: "airspeed EAS",
      lower: end(band?.from, from),
      upper: end(band?.to, to),
      unit: "m/s",
      status: inside ? "analysed" : "prohibited",
      because: [`${id}.${plane}`],
      note: `${where}; ${range}${others}`,
    };
  });
}
