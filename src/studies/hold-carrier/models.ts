import { derivativeModel } from "../../physics/airloads/index.ts";
import {
  type CarrierFlow,
  type CarrierPort,
  carrierAtTrim,
  freeMassCarrier,
  type HookedPair,
  type HookedPairSettings,
  hookedPair,
  linearise,
  relativeToCarrier,
  rigidCarrier,
  STANDARD_GRAVITY,
  uniformAir,
} from "../../physics/bodies/index.ts";
import { type FlowTable, TableFlow, uniformFlow } from "../../physics/flowfield/index.ts";
import { frozenGust, type GustInput } from "../../physics/gust-penetration/index.ts";
import { type CarrierEnergy, type EnergyModel, ModeAnalysis, type PairMode } from "../../physics/modes/index.ts";
import { type HoldInputs, type Operating, settingsAt, tangentialRates } from "../hold/index.ts";
import type { CarrierBody } from "./read-carrier.ts";

/** How the carrier enters a pair. */
export interface CarrierChoice {
  readonly body: CarrierBody | null;
  readonly motion: "steady" | "free mass" | "rigid";
  readonly table: FlowTable | null;
  readonly gradients: boolean;
}

/** A hooked pair with its carrier at an operating point. */
export interface CarrierPair {
  readonly pair: HookedPair;
  readonly choice: CarrierChoice;
  /** Load on the carrier by the boom at trim, in H: force, moment about the hinge; shape (6). */
  readonly hingeLoad: Float64Array;
  readonly carrier: CarrierPort | null;
  /** Place of the carried aircraft's c.g. below the hinge [m]. */
  readonly below: number;
  readonly inside: boolean;
}

const STILL: GustInput = { down: 0, rate: 0 };
const UNSPOILT = { elevator: 0, aileron: 0, rudder: 0, thrust: 0 };

/**
 * The pair with a carrier that answers, at the same trim condition: the balance of the carried aircraft first, then the
 * carrier that balances the load at its hinge.
 *
 * @param gust read by the carrier's air at every evaluation
 */
export function carrierPair(
  inputs: HoldInputs,
  at: Operating,
  choice: CarrierChoice,
  gust: Readonly<GustInput> = STILL,
): CarrierPair {
  const settings = settingsAt(inputs, at);
  const { trueAirspeed } = settings.air;
  const table = choice.table === null ? null : new TableFlow(choice.table, trueAirspeed);
  const first = pairWith(settings, table);
  const below = first.state[2];
  const flow = table === null || choice.gradients ? table : uniformFlow(table, below);
  const steady = choice.gradients ? first : pairWith(settings, flow);
  steady.motion.derivative(0, steady.state, new Float64Array(steady.state.length));
  const hingeLoad = steady.motion.hingeLoad.slice();
  const found = { choice, hingeLoad, below, inside: table === null || table.inside(below) };
  const { body, motion } = choice;
  if (motion === "steady" || body === null || steady.trim.outcome !== "trimmed") {
    return { ...found, pair: steady, carrier: null };
  }
  const carrier =
    motion === "free mass"
      ? freeMassCarrier(body.properties.mass, hingeLoad)
      : rigidFor(body, settings.air, hingeLoad, gust);
  return { ...found, carrier, pair: pairWith(settings, flow, carrier) };
}

function pairWith(
  settings: ReturnType<typeof settingsAt>,
  flow: CarrierFlow | null,
  carrier?: CarrierPort,
): HookedPair {
  const own = flow === null ? settings : { ...settings, flow };
  return carrier === undefined ? hookedPair(own) : hookedPair(own, carrier);
}

export function rigidFor(
  body: CarrierBody,
  air: HookedPairSettings["air"],
  trimLoad: Float64Array,
  gust: Readonly<GustInput> = STILL,
): CarrierPort {
  const { properties, hinge } = body;
  const set = carrierAtTrim(body.set, { mass: properties.mass, ...air }, hinge, trimLoad);
  return rigidCarrier({
    ...{ mass: properties, hinge, trimLoad, controls: UNSPOILT },
    airloads: derivativeModel(set),
    environment: frozenGust(uniformAir(air), gust, air.trueAirspeed),
  });
}

/** Lift coefficient and thrust of the carrier in its balance. */
export function carrierBalance(body: CarrierBody, air: HookedPairSettings["air"], load: Float64Array) {
  const pressureArea = 0.5 * air.density * air.trueAirspeed ** 2 * body.set.area;
  const lift = (body.properties.mass * STANDARD_GRAVITY + load[2]) / pressureArea;
  const { drag, span, area } = body.set;
  const induced = drag.kind === "parabolic" ? lift ** 2 / (Math.PI * (span ** 2 / area) * drag.efficiency) : 0;
  const zero = drag.kind === "parabolic" ? drag.zeroLift : drag.atReference;
  return { liftCoefficient: lift, thrust: pressureArea * (zero + induced) - load[0] };
}

/** All modes of the pair with its carrier; the pair's place as a whole is left out. */
export function carrierModes(inputs: HoldInputs, at: Operating, made: CarrierPair): PairMode[] {
  const { pair, carrier, choice } = made;
  const whole = linearise(pair.motion, pair.state);
  const rates = tangentialRates(inputs, at, pair.hookedMass.tangential);
  const relaxing = pair.motion.settings.boom!.stateCount === 1;
  const reduced = carrier === null ? { linear: whole, carrier: -1 } : relativeToCarrier(whole, pair.motion);
  const { linear } = reduced;
  const tip = inputs.boom.tip.at(at.boomAngleDown);
  const energy: EnergyModel = {
    ...{ mass: at.mass.properties, tipMass: tip.effectiveTipMass },
    ...{ basis: linear.basis, coordinates: linear.coordinates },
    boom: {
      ...{ angleDown: at.boomAngleDown, length: inputs.boom.length, axial: tip.axial, lateral: tip.lateral },
      bending: relaxing || rates.bending !== Infinity ? rates.bending : rates.accumulator,
      accumulator: rates.accumulator,
      snubberState: relaxing ? 2 * linear.coordinates : -1,
    },
  };
  if (carrier === null || choice.body === null) return new ModeAnalysis(linear.size).modes(linear.matrix, energy);
  const { hinge, properties } = choice.body;
  const place = pair.state.subarray(pair.motion.layout.tip);
  const own: CarrierEnergy = {
    mass: properties,
    state: reduced.carrier,
    turns: choice.motion === "rigid",
    tip: [hinge[0] + place[0], hinge[1] + place[1], hinge[2] + place[2]],
  };
  return new ModeAnalysis(linear.size).modes(linear.matrix, { ...energy, carrier: own });
}
