/** What an approach law is made of. SI and radians; axes H of the carrier; places are probe head from the aim. */

/** Errors of the relative navigation. */
export interface NavigationSettings {
  /** Time between two measurements [s], a whole number of ticks. */
  readonly interval: number;
  /** From measurement to the law [s], a whole number of ticks. */
  readonly latency: number;
  /** Standard deviation of the constant error of a sample, along x, y and z [m]. */
  readonly bias: readonly [number, number, number];
  /** Standard deviation of what changes from measurement to measurement, of place [m] and velocity [m/s], each axis. */
  readonly placeNoise: number;
  readonly velocityNoise: number;
  /** Interruptions: mean times between them and of one [s], both exponential; `null`: none. */
  readonly dropouts: { readonly meanBetween: number; readonly meanLength: number } | null;
  /** What the law goes on with while nothing comes. */
  readonly without: "hold" | "propagate";
  /** Standard deviations of attitude [rad] and body rates [rad/s], each tick. */
  readonly attitudeNoise: number;
  readonly rateNoise: number;
}

type Place = readonly [number, number, number];

/** Path and speed from the observation position to contact. */
export interface ScheduleSettings {
  /** What places are measured from: the mouth as it moves, or its place at rest. */
  readonly aim: "mouth" | "rest";
  readonly start: "observation" | "pre-contact";
  /** Probe head from the aim [m]; x of both below 0. */
  readonly observation: Place;
  readonly preContact: Place;
  /** How far the path goes on past the mouth along its line at the speed of closing, so that the probe pushes [m]. */
  readonly through: number;
  /** Speed between positions, and of closing [m/s]; how fast speed along the path changes [m/s²]. */
  readonly transit: number;
  readonly closure: number;
  readonly acceleration: number;
  /** Settled at a position: distance from it [m] and speed [m/s] below these for this time [s]. */
  readonly settled: { readonly distance: number; readonly speed: number; readonly time: number };
  /** Closing goes on only while the distance from the line is below this [m]; otherwise it waits there. */
  readonly alignment: number;
  readonly attempts: number;
  readonly goAround: GoAroundRule;
}

/** When an attempt is given up. */
export interface GoAroundRule {
  /** From this distance to the mouth on, along the line [m], gate and closure count. */
  readonly within: number;
  /** Largest distance from the line there [m]. */
  readonly gate: number;
  /** Closure there: least and most [m/s]. */
  readonly leastClosure: number;
  readonly mostClosure: number;
  /** Longest time without navigation [s]. */
  readonly longestDropout: number;
  /** Longest time of an attempt from leaving the observation or a retreat [s]. */
  readonly timeLimit: number;
  /** Past the mouth without a trip [m]. */
  readonly overrun: number;
  /** Longest time in touch without a trip [s]. */
  readonly touchTime: number;
}

/** From errors of place to bank, pitch and thrust. */
export interface OuterGains {
  /** Speed demand per distance along, across and vertically [1/s]. */
  readonly forward: number;
  readonly lateral: number;
  readonly vertical: number;
  /** Acceleration demand per speed error along and across [1/s]. */
  readonly forwardSpeed: number;
  readonly lateralSpeed: number;
  /** Pitch demand per error of path angle [1]. */
  readonly path: number;
  /** Share of the distance demand that integrates [1/s], all axes, inside `integralWithin` of the path [m]. */
  readonly integral: number;
  readonly integralWithin: number;
  /** Largest speed towards the path [m/s], bank, pitch from trim [rad]. */
  readonly largestSpeed: number;
  readonly largestBank: number;
  readonly largestPitch: number;
}

/** Attitude loops of the autopilot and the dampers that a pilot keeps. */
export interface InnerGains {
  /** Elevator per pitch angle [rad/rad] and rate [s], aileron per bank and roll rate, rudder per yaw rate beyond the turn [s]. */
  readonly pitch: number;
  readonly pitchRate: number;
  /** Elevator per pitch error and time [1/s]; the autopilot's alone. */
  readonly pitchIntegral: number;
  readonly bank: number;
  readonly rollRate: number;
  readonly yawRate: number;
}

/** One axis of a pilot: as `TunedPilot` of physics/pilot. */
export interface PilotAxis {
  readonly gain: number;
  readonly lead: number;
  readonly lag: number;
  readonly neuromuscularLag: number;
}

export interface PilotHands {
  readonly pitch: PilotAxis;
  readonly bank: PilotAxis;
  /** From what is seen to the hand [s], a whole number of ticks. */
  readonly delay: number;
  /** Density of the noise on what is tracked over its mean square (remnant), two-sided over angular frequency [s/rad]. */
  readonly remnant: number;
  /** Errors of place [m] and of speed [m/s] below these are not acted on. */
  readonly placeThreshold: number;
  readonly speedThreshold: number;
}

export type ControllerSettings = { readonly outer: OuterGains; readonly inner: InnerGains } & (
  | { readonly kind: "autopilot"; readonly delay: number }
  | { readonly kind: "pilot"; readonly hands: PilotHands }
);

/** After lock: gains about the attitude of trim, or the controls held where trim has them. */
export interface HookedSettings {
  readonly gains: (InnerGains & { readonly washout: number }) | null;
  /** [N] */
  readonly thrust: number;
}

/** Who moves the boom while the aircraft closes. */
export type SteeringSettings =
  | { readonly kind: "none" }
  | {
      readonly kind: "operator" | "automatic";
      /** Tip rate per height of the mouth over the probe [1/s]. */
      readonly gain: number;
      /** [s], a whole number of ticks; [m]; [m/s]. */
      readonly delay: number;
      readonly threshold: number;
      readonly rateLimit: number;
      /** Works while the probe is nearer than this [m]. */
      readonly within: number;
    };

export interface BreakawaySettings {
  /** From the event to the controls [s]. */
  readonly reaction: number;
  /** Thrust [N] and sink rate [m/s] with which it leaves. */
  readonly thrust: number;
  readonly sinkRate: number;
  /** What calls it: past the mouth [m], closure [m/s], time without navigation [s]; a command at a time [s] or `null`. */
  readonly overrun: number;
  readonly closure: number;
  readonly dropout: number;
  readonly commandedAt: number | null;
}

/** Trim of the free aircraft about which the law works. */
export interface ApproachTrim {
  readonly alpha: number;
  /** Angle of attack over that of no lift [rad]. */
  readonly liftAlpha: number;
  readonly elevator: number;
  readonly aileron: number;
  readonly rudder: number;
  readonly thrust: number;
  /** [kg], [m/s] true. */
  readonly mass: number;
  readonly trueAirspeed: number;
}

export interface ApproachSettings {
  /** [s] */
  readonly tick: number;
  readonly trim: ApproachTrim;
  readonly navigation: NavigationSettings;
  readonly schedule: ScheduleSettings;
  readonly controller: ControllerSettings;
  readonly hooked: HookedSettings;
  readonly steering: SteeringSettings;
  readonly breakaway: BreakawaySettings;
  /** Thrust that may be asked for [N]. */
  readonly thrustLimits: { readonly least: number; readonly most: number };
}

/** Random streams of an approach within a sample; every other user takes other numbers. */
export const APPROACH_STREAMS = { navigation: 101, dropouts: 102, attitude: 103, remnant: 104 } as const;
