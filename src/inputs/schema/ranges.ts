import type { Range } from "../quantity/index.ts";

/**
 * Limits of what is possible, in SI: wide enough for any aircraft, and narrow enough that no figure beyond them reaches
 * the equations. They catch slips of the pen and of the unit, not bad design. Common practice, no source.
 */
const from = (atLeast: number, atMost: number, words: string): Range => ({ atLeast, atMost, words });
const upTo = (atMost: number, words: string): Range => ({ above: 0, atMost, words });

export const COORDINATE = from(-1000, 1000, "-1000 m to 1000 m");
export const AREA = from(1e-3, 1e4, "0.001 m^2 to 10 000 m^2");
export const REFERENCE_LENGTH = from(1e-2, 1e3, "0.01 m to 1000 m");
export const BOOM_ANGLE: Range = { above: -Math.PI / 2, below: Math.PI / 2, words: "between -90 and 90 deg" };
export const BOOM_LENGTH = from(0.1, 100, "0.1 m to 100 m");
export const AIRCRAFT_MASS = from(1, 1e6, "1 kg to 1 000 000 kg");
export const PART_MASS = upTo(1e5, "larger than 0, up to 100 000 kg");
export const INERTIA = from(1e-3, 1e9, "0.001 kg m^2 to 1e9 kg m^2");
export const INERTIA_PRODUCT = from(-1e9, 1e9, "-1e9 kg m^2 to 1e9 kg m^2");
export const STIFFNESS = from(1, 1e12, "1 N/m to 1e12 N/m");
export const DAMPING_RATE = from(0, 1e12, "0 to 1e12 N*s/m");
export const SWEPT_DAMPING_RATE = from(1e-3, 1e12, "0.001 N*s/m to 1e12 N*s/m");
export const QUADRATIC_RATE = from(0, 1e12, "0 to 1e12 N*s^2/m^2");
export const AMPLITUDE = from(1e-6, 100, "0.001 mm to 100 m");
export const FREQUENCY = from(1e-4, 1e4, "0.0001 Hz to 10 000 Hz");
export const THRUST = from(-1e8, 1e8, "-1e8 N to 1e8 N");
export const LARGEST_LIFT = from(0.1, 10, "0.1 to 10");
export const ZERO_LIFT_DRAG = from(0, 10, "0 to 10");
export const SPAN_EFFICIENCY = from(0.01, 10, "0.01 to 10");
export const DERIVATIVE = from(-1e4, 1e4, "-10 000 to 10 000, per radian");
export const PLAIN_DERIVATIVE = from(-1e4, 1e4, "-10 000 to 10 000");
export const GAIN = from(0, 1e4, "0 to 10 000");
export const RATE_GAIN = from(0, 1e4, "0 to 10 000 s");
export const LAG = from(1e-4, 100, "0.0001 s to 100 s");
export const DELAY = from(0, 10, "0 to 10 s");
export const SURFACE_RATE = upTo(100, "larger than 0, up to 100 rad/s");
export const ANGLE_PER_LENGTH = from(0, 100, "0 to 100 rad/m");
export const ANGLE_PER_SPEED = from(0, 100, "0 to 100 rad*s/m");
export const CROSSOVER = from(0.01, 100, "0.01 to 100 rad/s");
export const PILOT_LEAD = from(0, 100, "0 to 100 s");
/** Margins that a criterion may ask for. */
export const GAIN_MARGIN: Range = { above: 1, atMost: 100, words: "a factor larger than 1, up to 100" };
export const PHASE_MARGIN: Range = { above: 0, below: Math.PI, words: "larger than 0, below 180 deg" };
export const AIRSPEED = upTo(1000, "larger than 0, up to 1000 m/s");
/** Damping ratios that a criterion may ask for: zero or less would let motion that grows pass. */
export const LEAST_DAMPING: Range = { above: 0, below: 1, words: "a damping ratio ζ larger than 0, below 1" };
export const LEAST_TIME = upTo(1e6, "larger than 0, up to 1 000 000 s");
export const TIP_PER_JACK = from(0.01, 100, "0.01 to 100");
export const PART_SIZE = upTo(1000, "larger than 0, up to 1000 m");
export const PART_OFFSET = from(0, 1000, "0 m to 1000 m");
export const CAPACITY = upTo(1e9, "larger than 0, up to 1e9 N");
export const SECTION_FORCE = upTo(1e15, "larger than 0, up to 1e15 N");
export const RIGIDITY = upTo(1e15, "larger than 0, up to 1e15 N m^2");
export const MASS_PER_LENGTH = upTo(1e5, "larger than 0, up to 100 000 kg/m");
export const OIL_TEMPERATURE = from(173.15, 473.15, "-100 degC to 200 degC");
export const VISCOSITY = from(2e-6, 1, "2 mm^2/s, where the viscosity equation ends, to 1 m^2/s");
export const FLUID_DENSITY = from(100, 5000, "100 kg/m^3 to 5000 kg/m^3");
export const EXPANSION = from(0, 0.01, "0 to 0.01 1/K");
export const BULK_MODULUS = from(1e5, 1e11, "0.1 MPa to 100 GPa");
export const GAS_CONTENT = from(0, 1, "0 to 100 %");
export const GAS_LOSS: Range = { atLeast: 0, below: 1, words: "0 to below 100 %" };
export const EXPONENT = from(1, 2, "1 (isothermal) to 2");
export const PRESSURE = upTo(1e10, "larger than 0, up to 10 GPa");
export const PRESSURE_FROM_ZERO = from(0, 1e10, "0 to 10 GPa");
export const VOLUME = upTo(100, "larger than 0, up to 100 m^3");
export const PISTON_AREA = upTo(10, "larger than 0, up to 10 m^2");
export const PISTON_SPEED = upTo(100, "larger than 0, up to 100 m/s");
export const DISCHARGE = upTo(1, "larger than 0, up to 1");
export const FRICTION = from(0, 1e9, "0 to 1e9 N");
export const DIRECTION = from(-1e4, 1e4, "-10 000 to 10 000");
export const CLEARANCE = from(0, 0.1, "0 to 0.1 m");
export const MISFIT = from(-0.1, 0.1, "-0.1 m to 0.1 m");
export const TURNING_STIFFNESS = from(0, 1e12, "0 to 1e12 N m/rad");
export const FRICTION_MOMENT = from(0, 1e9, "0 to 1e9 N m");
export const AMPLITUDE_ANGLE: Range = { above: 0, below: Math.PI / 2, words: "larger than 0, below 90 deg" };
export const SOCKET_LENGTH = upTo(10, "larger than 0, up to 10 m");
export const FUNNEL_LENGTH = from(0, 10, "0 to 10 m");
export const RESTITUTION = from(0, 1, "0 to 1");
export const CONTACT_FRICTION = from(0, 2, "0 to 2");
export const CLOSING_SPEED = upTo(50, "larger than 0, up to 50 m/s");
// a smaller one asks for steps so short that a run does not end
export const CREEP_SPEED = from(0.001, 1, "1 mm/s to 1 m/s");
export const TURNING_RATE = from(0, 1e9, "0 to 1e9 N m s/rad");
export const SOCKET_STOP: Range = { above: 0, below: Math.PI / 2, words: "larger than 0, below 90 deg" };
export const GIMBAL_INERTIA = upTo(1e5, "larger than 0, up to 100 000 kg m^2");
export const LATCH_ENERGY = upTo(1e6, "larger than 0, up to 1e6 J");
export const LATCH_TRAVEL = upTo(1, "larger than 0, up to 1 m");
export const LATCH_TIME = from(0, 10, "0 to 10 s");
export const TRIP_FORCE = from(0, 1e7, "0 to 1e7 N");
export const LOAD_MASS = from(0, 1e5, "0 to 100 000 kg");
export const LEG_TIME = upTo(1e6, "larger than 0, up to 1 000 000 s");
export const CHORD_SHARE = from(-1, 2, "-100 % to 200 % of the chord");
