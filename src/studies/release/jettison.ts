import { standardAtmosphere } from "../../physics/atmosphere/index.ts";
import { STANDARD_GRAVITY } from "../../physics/bodies/index.ts";
import { type FallAir, fallToGround, terminalSpeed } from "../../physics/separation/index.ts";
import { airOf } from "../hold/index.ts";
import { operatingAt } from "./build.ts";
import type { ReleaseInputs } from "./settings.ts";
import type { JettisonFall, Landing } from "./types.ts";

/** Directions of wind tried for the footprint. */
const DIRECTIONS = 12;

/** Where each thing comes down from each height; empty where the pair names none. */
export function jettisonOf(inputs: ReleaseInputs): JettisonFall[] {
  const { settings, condition } = inputs;
  const { jettison } = settings;
  if (jettison === undefined) return [];
  const at = operatingAt(inputs, { mass: settings.masses[0], boomAngle: settings.boomAngles[0].si }, 0);
  const { trueAirspeed, density } = airOf(at);
  const [against, fromLeft] = [jettison.wind.si, jettison.crosswind.si];
  return Object.entries(jettison.things).flatMap(([thing, { mass, dragArea }]) =>
    jettison.heights.map(({ si: height }): JettisonFall => {
      const body = { mass: mass.si, dragArea: dragArea.si };
      const fall = (along: number, right: number): Landing => {
        const air = airAbove(height, condition, along, right);
        // it leaves with the airspeed of the carrier, whatever the wind
        const found = fallToGround(body, air, { height, velocity: [trueAirspeed + along, right, 0] });
        return { along_m: found.north, right_m: found.east, time_s: found.time, speed_m_s: found.speed };
      };
      const strength = Math.hypot(against, fromLeft);
      const ends = Array.from({ length: DIRECTIONS }, (_, i) => (2 * Math.PI * i) / DIRECTIONS).map((from) =>
        fall(strength * Math.cos(from), strength * Math.sin(from)),
      );
      return {
        ...{
          thing,
          height_m: height,
          terminal_m_s: terminalSpeed(body.mass, body.dragArea, density, STANDARD_GRAVITY),
        },
        still: fall(0, 0),
        inWind: fall(-against, fromLeft),
        footprint: ellipse(ends),
      };
    }),
  );
}

/** Air of the standard atmosphere with a wind that falls linearly to nothing at the ground, which lies at sea level. */
function airAbove(
  height: number,
  { isaOffset }: { readonly isaOffset: number },
  along: number,
  right: number,
): FallAir {
  return {
    gravity: STANDARD_GRAVITY,
    density: (above) => standardAtmosphere(above, isaOffset).density,
    wind(above, out) {
      const share = Math.min(1, above / height);
      out[0] = along * share;
      out[1] = right * share;
    },
  };
}

/** Middle and half widths of places. */
function ellipse(ends: readonly Landing[]): JettisonFall["footprint"] {
  const half = (values: readonly number[]): readonly [number, number] => {
    const [low, high] = [Math.min(...values), Math.max(...values)];
    return [0.5 * (low + high), 0.5 * (high - low)];
  };
  const [along, halfAlong] = half(ends.map(({ along_m }) => along_m));
  const [right, halfRight] = half(ends.map(({ right_m }) => right_m));
  return { along_m: along, right_m: right, halfAlong_m: halfAlong, halfRight_m: halfRight };
}
