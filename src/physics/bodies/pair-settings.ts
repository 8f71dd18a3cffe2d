import { BugError, DomainError } from "../../math/errors.ts";
import type { AirloadModel, Controls } from "../airloads/types.ts";
import type { BoomSprings, BoomVibration } from "../boom/index.ts";
import type { LinkPort } from "../links/index.ts";
import type { ControlLaw } from "../pilot/index.ts";
import type { MassProperties } from "./mass-properties.ts";
import type { CarrierPort, Environment } from "./ports.ts";

export type Attachment = "free" | "single point";

export interface PairMotionSettings {
  readonly mass: MassProperties;
  readonly airloads: AirloadModel;
  /** Control positions at trim. */
  readonly trim: Controls;
  readonly law: ControlLaw;
  readonly environment: Environment;
  readonly attachment: Attachment;
  /** Boom and carrier; absent for the free aircraft alone. */
  readonly boom?: BoomSprings;
  /** Bending motions of the boom; needs a boom and a carrier without states. */
  readonly vibration?: BoomVibration;
  readonly carrier?: CarrierPort;
  /** Effective mass of the boom tip [kg]; it may be 0 while the probe is in the socket. */
  readonly tipMass?: number;
  /** Probe tip from the c.g., body axes [m], shape (3). */
  readonly probe?: readonly [number, number, number];
  /** What else joins aircraft and carrier: aft pins, friction and centring of the socket. They need the boom. */
  readonly links?: readonly LinkPort[];
}

/** Where each group of states begins. */
export interface PairLayout {
  readonly tip: number;
  readonly snubber: number;
  readonly vibration: number;
  readonly carrier: number;
  readonly law: number;
}

/**
 * Refuses settings that are no pair.
 *
 * @throws {BugError} if something that the attachment needs is absent, or springs and bending motions disagree
 * @throws {DomainError} for a free tip without mass
 */
export function checkSettings(settings: PairMotionSettings): void {
  const hasTip = settings.boom !== undefined;
  if (settings.attachment === "single point" && (!hasTip || settings.carrier === undefined || !settings.probe)) {
    throw new BugError("a hooked aircraft needs boom, carrier and probe");
  }
  const tipMass = settings.tipMass ?? 0;
  if (hasTip && !(tipMass > 0 || (tipMass === 0 && settings.attachment === "single point"))) {
    throw new DomainError("effective mass of the boom tip", tipMass, "greater than 0 while the tip is free");
  }
  const { links = [], carrier: port, vibration: motions } = settings;
  if (links.length > 0 && (!hasTip || port === undefined)) throw new BugError("links need boom and carrier");
  if (motions !== undefined) {
    if (settings.carrier?.stateCount !== 0 || settings.boom === undefined) {
      throw new BugError("bending motions of the boom need a boom on a steady carrier");
    }
    if (motions.freeTravel !== (settings.boom.settings.inertialTravel === true)) {
      throw new BugError("springs and bending motions of the boom disagree about the jack travel");
    }
  }
}

export function layoutOf(settings: PairMotionSettings): PairLayout {
  const tip = 13;
  const snubber = tip + (settings.boom !== undefined ? 6 : 0);
  const vibration = snubber + (settings.boom?.stateCount ?? 0);
  const carrier = vibration + (settings.vibration?.stateCount ?? 0);
  const law = carrier + (settings.carrier?.stateCount ?? 0);
  return { tip, snubber, vibration, carrier, law };
}
