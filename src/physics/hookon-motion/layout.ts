/**
 * Where everything stands in the arrays of the motion. Offsets are numbers known when the program is built, so that the stage functions
 * can be translated line by line (README, "Restricted form").
 */

/** State X. Place and velocity in H, rates in body axes, tilt of the funnel about k2 and k3. */
export const X_CG = 0;
export const X_ATTITUDE = 3;
export const X_VELOCITY = 7;
export const X_RATE = 10;
export const X_TIP = 13;
export const X_TIP_VELOCITY = 16;
/** Travel across the snubber [m]. */
export const X_TRAVEL = 19;
/** Zero of the swing spring, moved by steering [m] at the tip. */
export const X_ZERO = 20;
export const X_TILT = 21;
export const X_TILT_RATE = 23;
/** Compression of the buffer [m] and its rate. */
export const X_BUFFER = 25;
export const X_BUFFER_RATE = 26;
/** Elevator, aileron, rudder [rad], thrust [N]. */
export const X_CONTROLS = 27;
/** ∫ |force on the probe| dt [N·s]. */
export const X_IMPULSE = 31;
export const X_CARRIER = 32;

/** Held inputs U: commands and air over a tick, and the modes that switch at events. */
export const U_START = 0;
/** Elevator, aileron, rudder, thrust; then the steering rate [m/s]. */
export const U_COMMANDS = 1;
export const U_BOOM_RATE = 5;
/** Gust at the aircraft at the start of the tick, and its slope; u, v, w, p, q, r in H. */
export const U_GUST = 6;
export const U_GUST_SLOPE = 12;
/** Disturbance of the air at the socket [m/s], in H. */
export const U_SOCKET_AIR = 18;
/** 1 where contact can be: the head is near the mouth. */
export const U_NEAR = 21;
/** 1 while the buffer stands on its extended stop. */
export const U_BUFFER_HELD = 22;
/** 0 open, 1 tripped, 2 held by closed hooks (locked, or half-locked on the edge), 3 closed without hold. */
export const U_LATCH = 23;
/** Place of the head along the funnel's axis that closed hooks hold [m], and the pull at which they give way [N]. */
export const U_HELD_AT = 24;
export const U_HOLDS = 25;
/** Phase of the orbit at time 0 [rad]. */
export const U_ORBIT_PHASE = 26;
/** Time of the evaluation [s]: in the array, because a number handed to a function may cost memory. */
export const U_TIME = 27;
export const U_SIZE = 28;

/** Work W: what the stages of one evaluation pass on. */
export const W_ROTATION = 0;
export const W_HINGE = 9;
export const W_HINGE_VELOCITY = 12;
export const W_CARRIER_ANGLE = 15;
export const W_CARRIER_RATE = 18;
/** Force of the boom on the tip, in H. */
export const W_BOOM = 21;
export const W_HEAD = 24;
export const W_HEAD_VELOCITY = 27;
/** Angular velocity of the aircraft in H. */
export const W_SPIN = 30;
export const W_K1 = 33;
export const W_K2 = 36;
/** Axis of the probe, out of the aircraft, in H. */
export const W_PROBE_AXIS = 39;
/** Axis of the tilted funnel, its second gimbal axis, its angular velocity; in H. */
export const W_AXIS = 42;
export const W_GIMBAL_AXIS = 45;
export const W_FUNNEL_SPIN = 48;
/** Gimbal's centre Ko: place and velocity in H. */
export const W_KO = 51;
export const W_KO_VELOCITY = 54;
/** Head from Ko in H; along the funnel's axis, off it, unit vector off it. */
export const W_FROM_KO = 57;
export const W_ALONG = 60;
export const W_OFF = 61;
export const W_OFF_AXIS = 62;
/** Force on the aircraft by the socket, its moment about the c.g.; moment on the funnel about Ko; all in H. */
export const W_FORCE = 65;
export const W_MOMENT = 68;
export const W_FUNNEL_MOMENT = 71;
/** Load on the carrier by the boom at the hinge. */
export const W_HINGE_LOAD = 83;
/** Pull on closed hooks [N]; largest normal force [N], sliding speed there [m/s]; load on the probe along and across [N]. */
export const W_PULL = 89;
export const W_NORMAL = 90;
export const W_SLIDING = 91;
export const W_AXIAL = 92;
export const W_SIDE = 93;
/** Contact in hand: depth, direction of the force on the probe, point from Ko; edge in hand: gap, place along the axis, radius. */
export const W_DEPTH = 94;
export const W_DIRECTION = 95;
export const W_POINT = 98;
export const W_EDGE = 101;
/** Cosine and sine of the tilt about the second gimbal axis; whole tilt [rad]. */
export const W_TILT = 106;
/** Tangents of half angles, and the angles [rad]; two each. */
export const W_HALF = 109;
export const W_ARC = 111;
/** Values whose change of sign is an event. */
export const W_EVENTS = 113;

/** Gap of head and wall, head and seat, stem and throat, stem and rim. */
export const EVENT_WALL = 0;
export const EVENT_SEAT = 1;
export const EVENT_THROAT = 2;
export const EVENT_RIM = 3;
/** Gap of head and plunger. */
export const EVENT_PLUNGER = 4;
/** Buffer leaves its stop, or comes back to it; reaches its other stop; turns. */
export const EVENT_BUFFER = 5;
export const EVENT_BOTTOM = 6;
export const EVENT_TURN = 7;
/** Tilt of the funnel over its stop; over the angle of tumbling. */
export const EVENT_STOP = 8;
export const EVENT_TUMBLE = 9;
/** The head's front comes to the plane of the mouth. */
export const EVENT_MOUTH = 10;
/** Pull over what the hooks hold. */
export const EVENT_PULL = 11;
/** Load on the probe over its limit. */
export const EVENT_LOAD = 12;
/** Distance of the head from the mouth over the separation. */
export const EVENT_AWAY = 13;
export const EVENTS = 14;
export const W_SIZE = W_EVENTS + EVENTS;
