import * as z from "zod";
import type { Range } from "../quantity/index.ts";
import { controller } from "./approach-controllers.ts";
import { choice, whole } from "./leaf.ts";
import { name } from "./names.ts";
import { COORDINATE, DELAY, LAG } from "./ranges.ts";
import { type ColumnSpec, table } from "./table.ts";
import { quantity } from "./value.ts";

const spell = (most: number): string => String(most).replace(/\B(?=(\d{3})+$)/g, most < 1e4 ? "" : " ");
const from0 = (most: number, unit: string): Range => ({
  atLeast: 0,
  atMost: most,
  words: `0 to ${spell(most)} ${unit}`.trim(),
});
const above0 = (most: number, unit: string): Range => ({
  above: 0,
  atMost: most,
  words: `larger than 0, up to ${spell(most)} ${unit}`,
});
const LENGTH = above0(1000, "m");
const LENGTH_0 = from0(1000, "m");
const SPEED = above0(100, "m/s");
const SPEED_0 = from0(100, "m/s");
const ACCELERATION = above0(100, "m/s^2");
const TIME = above0(1e5, "s");
const TIME_0 = from0(1e5, "s");
const ANGLE_0: Range = { atLeast: 0, below: Math.PI / 2, words: "0 to below 90 deg" };
const RATE_0 = from0(10, "rad/s");
const FORCE = from0(1e8, "N");

const length = (describe: string, example: string, range = LENGTH) => quantity("length", describe, [example], range);
const speed = (describe: string, example: string, range = SPEED) => quantity("speed", describe, [example], range);
const time = (describe: string, example: string, range = TIME) => quantity("time", describe, [example], range);

const navigation = z
  .strictObject({
    interval: time("Time between two measurements, a whole number of ticks.", "40 ms"),
    latency: time("From measurement to the law, a whole number of ticks.", "100 ms", TIME_0),
    bias: z
      .strictObject({
        along: length("Along the flight.", "5 cm", LENGTH_0),
        across: length("Across.", "3 cm", LENGTH_0),
        vertical: length("Vertically.", "4 cm", LENGTH_0),
      })
      .meta({ description: "Standard deviation of the error that stays through one sample, drawn anew for each." }),
    placeNoise: length("Standard deviation of the noise of a place, each axis.", "2 cm", LENGTH_0),
    velocityNoise: speed("Standard deviation of the noise of a velocity, each axis.", "0.03 m/s", SPEED_0),
    attitudeNoise: quantity("angle", "Standard deviation of the noise of pitch and bank.", ["0.05 deg"], ANGLE_0),
    rateNoise: quantity("angularRate", "Standard deviation of the noise of the body rates.", ["0.1 deg/s"], RATE_0),
    dropouts: z
      .strictObject({
        meanBetween: time("Mean time between two dropouts.", "60 s"),
        meanLength: time("Mean length of a dropout.", "0.4 s"),
      })
      .meta({ description: "Dropouts of the link, both times exponential; none when left out." })
      .optional(),
    meanwhile: choice("What the law goes on with during a dropout and between measurements.", ["hold", "propagate"]),
  })
  .meta({ description: "Errors of the relative navigation." });

const place = (describe: string) =>
  z
    .strictObject({
      aft: length("Aft of the mouth of the socket.", "6 m"),
      right: length("Right of it.", "0 m", COORDINATE),
      below: length("Below it.", "1 m", COORDINATE),
    })
    .meta({ description: describe });

const goAround = z
  .strictObject({
    within: length("From this distance to the mouth on, gate and closure decide.", "1.5 m"),
    gate: length("Largest distance from the line of approach there.", "0.25 m"),
    leastClosure: speed("Least closure there.", "0.5 m/s", SPEED_0),
    mostClosure: speed("Largest closure there.", "2 m/s"),
    longestDropout: time("Longest time without navigation.", "1 s"),
    timeLimit: time("Longest time of an attempt.", "90 s"),
    overrun: length("How far the probe may pass the mouth without a trip.", "0.6 m"),
    touchTime: time("Longest time in touch without a trip.", "3 s"),
  })
  .meta({ description: "When an attempt is given up." });

const schedule = z
  .strictObject({
    aim: choice("What places are measured from: the mouth as it moves, or where it is at rest.", ["mouth", "rest"]),
    start: choice("Where an approach begins.", ["observation", "pre-contact"]),
    observation: place("Probe at the observation position."),
    preContact: place("Probe at the pre-contact position."),
    through: length("How far the path goes on past the mouth, so that the probe pushes.", "0.6 m"),
    transit: speed("Speed between positions.", "1.5 m/s"),
    closure: speed("Speed of closing.", "1.2 m/s"),
    acceleration: quantity("acceleration", "How fast speed along the path changes.", ["0.4 m/s^2"], ACCELERATION),
    settled: z
      .strictObject({
        distance: length("Distance from the position.", "0.25 m"),
        speed: speed("Speed there.", "0.15 m/s"),
        time: time("For this time.", "2 s", TIME_0),
      })
      .meta({ description: "What counts as settled at a position." }),
    alignment: length("Closing waits while the distance from the line is larger.", "0.2 m"),
    attempts: whole("Number of attempts.", [3], 1, 100),
    goAround,
  })
  .meta({ description: "Path and speed from the observation position to contact." });

const hooked = z
  .strictObject({
    law: choice("After lock: control.gains.hooked, or the controls held where trim has them.", [
      "gains",
      "controls held",
    ]),
    thrust: quantity("force", "Thrust after lock.", ["0 N"], FORCE),
  })
  .meta({ description: "What flies the aircraft once the latch has locked." });

const steering = (kind: "operator" | "automatic", describe: string) =>
  z
    .strictObject({
      kind: z.literal(kind).meta({ description: describe }),
      gain: quantity("perTime", "Tip rate per height of the mouth over the probe.", ["0.4 1/s"], {
        atLeast: 0,
        atMost: 100,
        words: "0 to 100 1/s",
      }),
      delay: quantity("time", "From what is seen to the jack.", ["0.5 s"], DELAY),
      threshold: length("Heights below this are not acted on.", "0.1 m", LENGTH_0),
      rateLimit: speed("Largest rate of the tip.", "0.1 m/s"),
      within: length("Steers while the probe is nearer than this.", "4 m"),
    })
    .meta({ description: describe });

const boomSteering = z
  .discriminatedUnion("kind", [
    z
      .strictObject({ kind: z.literal("none").meta({ description: "Nobody steers the boom." }) })
      .meta({ description: "Nobody steers the boom." }),
    steering("operator", "The operator steers the boom."),
    steering("automatic", "A law steers the boom."),
  ])
  .meta({ description: "Who steers the boom while the aircraft closes." });

const breakaway = z
  .strictObject({
    reaction: time("From the call to the controls.", "1.0 s", TIME_0),
    thrust: quantity("force", "Thrust while leaving.", ["0 N"], FORCE),
    sinkRate: speed("Sink rate that is flown.", "4 m/s"),
    acceleration: quantity("acceleration", "Vertical acceleration with which it leaves.", ["2 m/s^2"], ACCELERATION),
    pitchLag: quantity("time", "Lag of the pitch rate that makes it.", ["0.5 s"], LAG),
    carrier: z
      .strictObject({
        reaction: time("From the call to the controls.", "2.0 s", TIME_0),
        acceleration: quantity("acceleration", "Vertical acceleration, up.", ["0.5 m/s^2"], ACCELERATION),
        pitchLag: quantity("time", "Lag of the pitch rate that makes it.", ["1.5 s"], LAG),
      })
      .meta({ description: "The carrier climbs at the same call; it flies on when left out." })
      .optional(),
    requiredGap: length("Least vertical distance that must remain.", "2 m"),
    overrun: length("Called when the probe is past the mouth by more.", "1.5 m"),
    closure: speed("Called when closing faster.", "3 m/s"),
    dropout: time("Called when navigation is lost for longer while closing.", "2 s"),
    commandedAt: time("Commanded at this time of an approach; only by rule when left out.", "20 s", TIME_0).optional(),
  })
  .meta({ description: "When and how the aircraft leaves; the carrier leaves upwards." });

const SHARE: ColumnSpec = { kind: "number", range: { atLeast: -1, atMost: 1, words: "-1 to 1 of the true airspeed" } };
const PLACE: ColumnSpec = { kind: "length", range: COORDINATE };
const FACTOR: ColumnSpec = { kind: "number", range: from0(100, "") };

const disturbances = z
  .strictObject({
    bowWave: table(
      "Velocity that the coming nose gives the air at the socket, over true airspeed, forward and down; a row for each combination of places of the probe tip aft of and below the mouth. Left out: not analysed.",
      "bow-wave.csv",
      { aft: PLACE, below: PLACE, forward: SHARE, down: SHARE },
    ).optional(),
    wake: table(
      "Carrier's wake and slipstream: extra mean flow over true airspeed forward, to the right and down, and the factor on turbulence; a row for each combination of places of the c.g. aft of, right of and below the boom hinge. Left out: not analysed.",
      "carrier-wake.csv",
      { aft: PLACE, right: PLACE, below: PLACE, forward: SHARE, sideways: SHARE, down: SHARE, turbulence: FACTOR },
    ).optional(),
    orbit: z
      .strictObject({
        radius: length("Radius.", "8 cm", LENGTH_0),
        period: time("Time of one turn.", "3 s"),
      })
      .meta({ description: "Circle that the socket flies in the wake. Left out: not analysed." })
      .optional(),
  })
  .meta({ description: "What disturbs socket and aircraft; one without data is not analysed, never zero." });

/** How the carried aircraft is flown to the socket. */
export const approach = z
  .strictObject({
    tick: time("Time between two steps of the law.", "20 ms", above0(1, "s")),
    navigation,
    schedule,
    controllers: z
      .record(name, controller)
      .meta({ description: "What may fly the approach, by name; each is analysed." }),
    thrust: z
      .strictObject({
        idle: quantity("force", "Least thrust.", ["0 N"], FORCE),
        most: quantity("force", "Largest thrust.", ["6 kN"], FORCE),
        lag: quantity("time", "Lag of the engine.", ["0.6 s"], LAG),
      })
      .meta({ description: "Thrust that may be asked for." }),
    hooked,
    boomSteering,
    breakaway,
    disturbances,
  })
  .meta({ description: "The approach of the carried aircraft to the socket, up to the lock and after it." });

export type ApproachInput = z.output<typeof approach>;
