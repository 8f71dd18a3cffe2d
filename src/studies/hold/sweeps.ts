import { trackRoots } from "../../math/track/index.ts";
import { type Airspeed, equivalentAirspeed, standardAtmosphere } from "../../physics/atmosphere/index.ts";
import { dominantMotion, type PairMode } from "../../physics/modes/index.ts";
import type { HoldInputs } from "./inputs.ts";
import { airOf, atBoomAngle, isSubsonic, massBetween, type Operating } from "./operating.ts";
import { dampingRatio } from "./points.ts";
import { PointModel } from "./stability.ts";
import type { Sweep, SweepTrack } from "./types.ts";

const DEGREE = Math.PI / 180;
const POINTS = 57;

/** How one parameter is swept: axis, range in axis units, and the operating point at a value. */
interface SweepPlan {
  readonly id: string;
  readonly title: string;
  readonly axis: Sweep["axis"];
  readonly from: number;
  readonly to: number;
  readonly at: number;
  readonly point: (value: number) => Operating;
}

/** Mach number at which the end of a sweep is cut: the airloads are subsonic. */
const HIGHEST_MACH = 0.99;

/** Equivalent airspeed [m/s] of a pair's airspeed at an operating point's altitude, cut short of Mach 1. */
export function equivalentAt(airspeed: Airspeed, at: Operating): number {
  const air = standardAtmosphere(at.altitude, at.isaOffset);
  return equivalentAirspeed(isSubsonic(airspeed, air) ? airspeed : { kind: "Mach", value: HIGHEST_MACH }, air);
}

function plans(inputs: HoldInputs, at: Operating): SweepPlan[] {
  const { sweeps } = inputs;
  const air = airOf(at);
  const masses = inputs.carried.massStates.map((state) => state.properties.mass);
  const scaled = (id: string, title: string, label: string, unit: string, per: number, scale: "linear" | "log") =>
    ({ id, title, axis: { label, unit, scale }, per }) as const;
  const speed = scaled("airspeed", "Along airspeed", "Airspeed, EAS", "m/s", 1, "linear");
  const angle = scaled(
    "boomAngle",
    "Along boom angle",
    "Boom angle under load, below horizontal",
    "deg",
    DEGREE,
    "linear",
  );
  return [
    {
      ...speed,
      from: equivalentAt(sweeps.airspeed.from, at),
      to: equivalentAt(sweeps.airspeed.to, at),
      at: air.equivalentAirspeed,
      point: (value) => ({ ...at, airspeed: { kind: "EAS", value } }),
    },
    {
      ...angle,
      from: sweeps.boomAngle.from / DEGREE,
      to: sweeps.boomAngle.to / DEGREE,
      at: at.boomAngleDown / DEGREE,
      point: (value) => atBoomAngle(inputs, { ...at, boomAngleDown: value * DEGREE }),
    },
    {
      ...scaled("altitude", "Along pressure altitude", "Pressure altitude", "m", 1, "linear"),
      ...{ from: sweeps.altitude.from, to: sweeps.altitude.to, at: at.altitude },
      point: (value) => ({ ...at, altitude: value, airspeed: { kind: "EAS", value: air.equivalentAirspeed } }),
    },
    {
      ...scaled("weightShare", "Along weight share on the trapeze", "Weight share on the trapeze", "%", 0.01, "linear"),
      ...{ from: 100 * sweeps.weightShare.from, to: 100 * sweeps.weightShare.to, at: 100 * at.weightShare },
      point: (value) => ({ ...at, weightShare: value / 100 }),
    },
    {
      ...scaled("mass", "Along mass", "Mass of the carried aircraft", "kg", 1, "linear"),
      ...{ from: Math.min(...masses), to: Math.max(...masses), at: at.mass.properties.mass },
      point: (value) => ({ ...at, mass: massBetween(inputs.carried.massStates, value) }),
    },
    {
      ...scaled("snubber", "Along snubber rate", "Snubber rate at the tip", "kN·s/m", 1e3, "log"),
      ...{ from: sweeps.snubber.from / 1e3, to: sweeps.snubber.to / 1e3, at: at.snubber / 1e3 },
      point: (value) => ({ ...at, snubber: value * 1e3 }),
    },
    {
      ...scaled("bending", "Along boom bending stiffness", "Bending stiffness at the tip", "kN/m", 1e3, "log"),
      ...{ from: sweeps.bending.from / 1e3, to: sweeps.bending.to / 1e3, at: at.bending / 1e3 },
      point: (value) => ({ ...at, bending: value * 1e3 }),
    },
    {
      ...scaled("accumulator", "Along accumulator stiffness", "Accumulator stiffness at the tip", "kN/m", 1e3, "log"),
      ...{ from: sweeps.accumulator.from / 1e3, to: sweeps.accumulator.to / 1e3, at: at.accumulator / 1e3 },
      point: (value) => ({ ...at, accumulator: value * 1e3 }),
    },
  ];
}

/** Sweeps of one operating point along everything that may be chosen or may vary, modes followed by their shape. */
export function holdSweeps(inputs: HoldInputs, at: Operating): Sweep[] {
  const model = new PointModel(inputs, at);
  return plans(inputs, at)
    .filter((plan) => plan.to > plan.from)
    .map((plan) => {
      const log = plan.axis.scale === "log";
      const forward = (value: number): number => (log ? Math.log(value) : value);
      const back = (value: number): number => (log ? Math.exp(value) : value);
      const [a, b] = [forward(plan.from), forward(plan.to)];
      const grid = Array.from({ length: POINTS }, (_, i) => a + ((b - a) * i) / (POINTS - 1));
      const reuse = plan.id === "snubber" || plan.id === "bending" || plan.id === "accumulator";
      const evaluate = (g: number): readonly PairMode[] => {
        const point = plan.point(back(g));
        // a sweep may run beyond what can be flown; there it has no modes
        if (!isSubsonic(point.airspeed, standardAtmosphere(point.altitude, point.isaOffset))) return [];
        if (reuse) return model.modes(model.ratesWith(point));
        const other = new PointModel(inputs, point);
        return other.trimmed ? other.modes() : [];
      };
      const tracks = trackRoots(grid, evaluate);
      return {
        ...{ id: plan.id, title: plan.title, axis: plan.axis },
        ...{ condition: at.condition, mass: at.mass.name, at: plan.at },
        values: grid.map(back),
        tracks: tracks.map(describeTrack),
      };
    });
}

function describeTrack(track: readonly (PairMode | null)[]): SweepTrack {
  const present = track.filter((mode) => mode !== null);
  const middle = present[Math.floor(present.length / 2)];
  const each = (value: (mode: PairMode) => number): (number | null)[] =>
    track.map((mode) => (mode === null ? null : value(mode)));
  return {
    name: dominantMotion(middle).name,
    class: middle.class,
    plane: middle.plane,
    real_1_s: each((mode) => mode.real),
    imag_rad_s: each((mode) => mode.imag),
    dampingRatio: each((mode) => dampingRatio(mode.real, mode.imag)),
  };
}
