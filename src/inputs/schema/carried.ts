import * as z from "zod";
import { airloads } from "./airloads.ts";
import { words } from "./leaf.ts";
import { name } from "./names.ts";
import { point } from "./point.ts";
import {
  AIRCRAFT_MASS,
  AREA,
  COORDINATE,
  INERTIA,
  INERTIA_PRODUCT,
  LARGEST_LIFT,
  REFERENCE_LENGTH,
  THRUST,
} from "./ranges.ts";
import { shapes } from "./shapes.ts";
import { quantity } from "./value.ts";

export const inertia = z
  .strictObject({
    Ixx: quantity("inertia", "Moment of inertia in roll.", ["2050 kg m^2 ± 6 % (1σ)"], INERTIA),
    Iyy: quantity("inertia", "Moment of inertia in pitch.", ["5700 kg m^2"], INERTIA),
    Izz: quantity("inertia", "Moment of inertia in yaw.", ["7000 kg m^2"], INERTIA),
    Ixz: quantity("inertia", "Product of inertia ∫ x z dm, x forward and z down.", ["250 kg m^2"], INERTIA_PRODUCT),
    Ixy: quantity(
      "inertia",
      "Product of inertia ∫ x y dm; zero when left out.",
      ["0 kg m^2"],
      INERTIA_PRODUCT,
    ).optional(),
    Iyz: quantity(
      "inertia",
      "Product of inertia ∫ y z dm; zero when left out.",
      ["0 kg m^2"],
      INERTIA_PRODUCT,
    ).optional(),
  })
  .meta({ description: "Inertia about the c.g. in body axes, x forward, y right, z down." });

const massState = z
  .strictObject({
    mass: quantity("mass", "Mass of the aircraft in this state.", ["2600 kg ± 1 % (1σ)"], AIRCRAFT_MASS),
    cg: point("Centre of gravity in the carried aircraft's stations."),
    inertia,
  })
  .meta({ description: "Mass, c.g. and inertia of one loading." });

const points = z
  .strictObject({
    probeTip: point("Tip of the probe that the socket holds."),
    aftPinLeft: point("Left aft pin.").optional(),
    aftPinRight: point("Right aft pin.").optional(),
  })
  .meta({ description: "Points where the mechanism holds the carried aircraft, in its own stations." });

const TRAVEL = { above: 0, below: Math.PI / 3, words: "larger than 0, below 60 deg" };
const travel = (surface: string) => quantity("angle", `Largest ${surface} deflection either way.`, ["20 deg"], TRAVEL);

const controlTravel = z
  .strictObject({ elevator: travel("elevator"), aileron: travel("aileron"), rudder: travel("rudder") })
  .meta({ description: "Travel of the control surfaces; trims beyond it are findings that are not met." });

export const carried = z
  .strictObject({
    name: words("Name of the carried aircraft.", ["Skerrick"]),
    datum: words("Where the carried aircraft's stations, buttlines and waterlines start and which way they run."),
    length: z
      .strictObject({
        from: quantity("length", "Station of the nose.", ["0 m"], COORDINATE),
        to: quantity("length", "Station of the tail.", ["8.2 m"], COORDINATE),
      })
      .meta({ description: "Stations of nose and tail." }),
    reference: z
      .strictObject({
        area: quantity("area", "Reference wing area.", ["8.2 m^2"], AREA),
        span: quantity("length", "Reference span.", ["7.40 m"], REFERENCE_LENGTH),
        chord: quantity("length", "Reference chord.", ["1.20 m"], REFERENCE_LENGTH),
      })
      .meta({ description: "Reference area and lengths of the coefficients." }),
    CLmax: quantity("number", "Largest lift coefficient, flaps as flown on the boom.", [1.35], LARGEST_LIFT),
    controlTravel: controlTravel.optional(),
    massStates: z.record(name, massState).meta({ description: "Loadings of the carried aircraft by name." }),
    points,
    shapes: shapes("Shapes of the carried aircraft by name, in its own stations.").optional(),
    airloads,
    thrust: z
      .strictObject({
        idle: quantity("force", "Thrust at idle in flight.", ["0 N"], THRUST),
        line: point("A point on the thrust line, which runs along the body x axis."),
      })
      .meta({ description: "Engine of the carried aircraft." }),
  })
  .meta({ description: "The aircraft that is carried, released and retrieved." });
