/** Where everything stands in the array P of parameters: what does not change from sample to sample. SI. */

export const P_MASS = 0;
/** Inertia about the c.g. and its inverse, body axes, row-major. */
export const P_INERTIA = 1;
export const P_INVERSE = 10;
/** Probe head from the c.g., axis out of the aircraft; body axes. */
export const P_PROBE = 19;
export const P_PROBE_AXIS = 22;
export const P_HEAD_RADIUS = 25;
export const P_STEM_RADIUS = 26;
export const P_STEM_LENGTH = 27;
export const P_GRAVITY = 28;

/** Airloads: references, axes (1: stability, 1: wind), moment reference, coefficients. */
export const P_AREA = 30;
export const P_SPAN = 31;
export const P_CHORD = 32;
export const P_DENSITY = 33;
export const P_AIRSPEED = 34;
export const P_STABILITY_MOMENTS = 35;
export const P_WIND_SIDE = 36;
export const P_REFERENCE = 37;
export const P_ALPHA0 = 40;
/** At reference, per α, per elevator, per q̂, per α̇̂. */
export const P_LIFT = 41;
export const P_PITCH = 46;
/** C_D0 or C_D at reference, per C_L², per α, per elevator. */
export const P_DRAG = 51;
/** Per β, p̂, r̂, aileron, rudder. */
export const P_SIDE = 55;
export const P_ROLL = 60;
export const P_YAW = 65;
/** Load about the c.g. per thrust; 6. */
export const P_THRUST = 70;

/** Boom. */
export const P_LENGTH = 80;
export const P_ANGLE = 81;
/** Preload: tension, tangential, lateral. */
export const P_PRELOAD = 82;
export const P_AXIAL = 85;
export const P_AXIAL_DAMPING = 86;
export const P_LATERAL = 87;
export const P_LATERAL_DAMPING = 88;
export const P_BENDING = 89;
export const P_BENDING_DAMPING = 90;
export const P_ACCUMULATOR = 91;
/** Snubber law: C1, C2, relief, relief rate, friction. */
export const P_SNUBBER = 92;
export const P_FREE_PLAY = 97;
/** 1: no travel across the snubber; then stiffness and damping of the path. */
export const P_ELASTIC = 98;
export const P_OWN_MASS = 101;
export const P_OWN_CENTRE = 102;
export const P_TIP_MASS = 103;
export const P_STEERING_LIMIT = 104;

/** Socket. */
export const P_K1 = 110;
export const P_K2 = 113;
export const P_K3 = 116;
export const P_MOUTH = 119;
export const P_THROAT = 120;
export const P_SEAT = 121;
export const P_MOUTH_RADIUS = 122;
export const P_THROAT_RADIUS = 123;
/** Sine and cosine of the cone's half angle, length of its side. */
export const P_CONE = 124;
/** Contact: stiffness, dissipation λ [s/m], friction, creep speed. */
export const P_CONTACT = 127;
/** Gimbal: centring, damping, friction, fading rate, stop, stop stiffness, inertia, tumbled. */
export const P_GIMBAL = 131;
/** Buffer: preload, stiffness, compression and extension damping, stroke, bottom stiffness, head mass. */
export const P_BUFFER = 139;
/** ½ρ·(drag area). */
export const P_DRAG_AREA = 146;
/** Orbit: radius, angular speed. */
export const P_ORBIT = 147;

/** Latch: nodes of the curve, whole travel, hooks' stiffness, damping, side stiffness. */
export const P_LATCH_NODES = 150;
export const P_LATCH_TRAVEL = 151;
export const P_HOOKS = 152;
/** Limits: axial and side load, separation. */
export const P_LIMITS = 155;

/** Actuators of elevator, aileron, rudder: lag, rate, least, most; thrust: lag, least, most. */
export const P_ACTUATORS = 160;
export const P_ENGINE = 172;

/** Number of carrier states; hinge load at rest; then the tables of the latch and of the carrier. */
export const P_CARRIER_STATES = 175;
export const P_REST_LOAD = 176;
/** Where A, B, C of the carrier begin. */
export const P_CARRIER_TABLES = 182;
/** Travel and force of the latch's nodes, one after the other. */
export const P_TABLES = 185;
