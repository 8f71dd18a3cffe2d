import { airOf, atBoomAngle, equivalentAt, type HoldInputs, type Operating } from "../hold/index.ts";
import type { BoundaryAxis } from "./types.ts";

const DEGREE = Math.PI / 180;

/** An axis of a map: how its values stand in the file, in SI, in the lengths of the map, and in an operating point. */
export interface MapAxis {
  readonly axis: BoundaryAxis;
  /** SI value of one axis unit. */
  readonly per: number;
  readonly from: number;
  readonly to: number;
  /** Whether the value moves the trim, and with it the whole linear model. */
  readonly movesTrim: boolean;
  /** The pair's own value, SI. */
  readonly own: number;
  readonly apply: (at: Operating, value: number) => Operating;
  /** Length of a map: the logarithm, so that a distance is a share of the value; a share of the larger end when an end is not positive. */
  readonly toLength: (value: number) => number;
  readonly toValue: (length: number) => number;
}

function axisOf(
  spec: Omit<BoundaryAxis, "from" | "to">,
  per: number,
  range: { readonly from: number; readonly to: number },
  rest: Pick<MapAxis, "movesTrim" | "own" | "apply">,
): MapAxis {
  const { from, to } = range;
  const scale = Math.max(Math.abs(from), Math.abs(to));
  const lengths =
    from > 0
      ? { toLength: Math.log, toValue: Math.exp }
      : { toLength: (value: number) => value / scale, toValue: (length: number) => length * scale };
  return { axis: { ...spec, from: from / per, to: to / per }, per, from, to, ...rest, ...lengths };
}

const STIFFNESS = { unit: "kN/m", scale: "log" } as const;

export function stiffnessAxis(inputs: HoldInputs, at: Operating, key: "bending" | "accumulator"): MapAxis {
  const label = key === "bending" ? "Boom bending stiffness at the tip" : "Accumulator stiffness at the tip";
  return axisOf({ key, label, ...STIFFNESS }, 1e3, inputs.sweeps[key], {
    ...{ movesTrim: false, own: at[key] },
    apply: (point, value) => ({ ...point, [key]: value }),
  });
}

export function snubberAxis(inputs: HoldInputs, at: Operating): MapAxis {
  const spec = { key: "snubber", label: "Snubber rate at the tip", unit: "kN·s/m", scale: "log" } as const;
  return axisOf(spec, 1e3, inputs.sweeps.snubber, {
    ...{ movesTrim: false, own: at.snubber },
    apply: (point, value) => ({ ...point, snubber: value }),
  });
}

/** Equivalent airspeed; the range may start above that of the sweep where the aircraft does not trim lower. */
export function airspeedAxis(inputs: HoldInputs, at: Operating, lowest?: number): MapAxis {
  const spec = { key: "airspeed", label: "Airspeed, EAS", unit: "m/s", scale: "linear" } as const;
  const range = {
    from: Math.max(equivalentAt(inputs.sweeps.airspeed.from, at), lowest ?? 0),
    to: equivalentAt(inputs.sweeps.airspeed.to, at),
  };
  return axisOf(spec, 1, range, {
    ...{ movesTrim: true, own: airOf(at).equivalentAirspeed },
    apply: (point, value) => ({ ...point, airspeed: { kind: "EAS", value } }),
  });
}

/** Boom angle under load; bending, accumulator and snubber follow the mechanism along it. */
export function boomAngleAxis(inputs: HoldInputs, at: Operating): MapAxis {
  const label = "Boom angle under load, below horizontal";
  return axisOf({ key: "boomAngle", label, unit: "deg", scale: "linear" }, DEGREE, inputs.sweeps.boomAngle, {
    ...{ movesTrim: true, own: at.boomAngleDown },
    apply: (point, value) => atBoomAngle(inputs, { ...point, boomAngleDown: value }),
  });
}
