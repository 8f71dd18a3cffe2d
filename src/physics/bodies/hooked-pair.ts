import { DomainError } from "../../math/errors.ts";
import { quaternionFromEuler } from "../../math/rotation/index.ts";
import type { AirloadModel } from "../airloads/types.ts";
import { type BoomMotions, BoomSprings, BoomVibration, boundTravel } from "../boom/index.ts";
import type { LinkPort } from "../links/index.ts";
import type { ControlLaw } from "../pilot/index.ts";
import type { NonlinearSnubber } from "../snubber/index.ts";
import type { MassProperties } from "./mass-properties.ts";
import { PairMotion } from "./pair-motion.ts";
import {
  airNearCarrier,
  type CarrierFlow,
  type CarrierPort,
  STANDARD_GRAVITY,
  steadyCarrier,
  uniformAir,
} from "./ports.ts";
import { type HookedTrim, trimHooked } from "./trim.ts";

/** Everything that the hooked pair is made of, SI. Tip stiffness and rates are referred to the tip. */
export interface HookedPairSettings {
  readonly mass: MassProperties;
  /** Probe tip from the c.g., body axes [m]. */
  readonly probe: readonly [number, number, number];
  readonly airloads: AirloadModel;
  readonly law: ControlLaw;
  readonly air: { readonly density: number; readonly soundSpeed: number; readonly trueAirspeed: number };
  /** Share of the weight on the tip [1] and thrust [N] at trim. */
  readonly weightShare: number;
  readonly thrust: number;
  /** Air that the carrier moves at the carried aircraft; absent: undisturbed air. */
  readonly flow?: CarrierFlow;
  readonly boom: {
    readonly length: number;
    /** Γ under load, below the carrier's x axis [rad]. */
    readonly angleDown: number;
    readonly axial: number;
    readonly lateral: number;
    readonly bending: number;
    readonly accumulator: number;
    readonly snubber: number;
    /** Force law of the snubber and free play in place of the rate `snubber`; absent: linear. */
    readonly nonlinear?: NonlinearSnubber;
    /** Damping ratio that each boom spring gives the hooked aircraft moving on it alone [1]. */
    readonly structuralDamping: number;
    readonly effectiveTipMass: number;
    readonly ownMass: number;
    readonly ownCentre: number;
    /** Inertia and bending motions of the boom; without them it is a mass on springs. */
    readonly motions?: BoomMotions;
  };
}

export interface HookedPair {
  readonly settings: HookedPairSettings;
  readonly trim: HookedTrim;
  /** Load on the tip at trim, by aircraft and boom weight: tension, tangential (to a larger angle), lateral [N]. */
  readonly tipLoad: { readonly tension: number; readonly tangential: number; readonly lateral: number };
  /** Boom angle with no load on the tip [rad]; NaN-free: `null` when the path has no static stiffness. */
  readonly unloadedAngleDown: number | null;
  readonly motion: PairMotion;
  /** State of rest at trim. */
  readonly state: Float64Array;
  /** Mass that moves with the tip along boom, lateral and tangential direction, aircraft included [kg]. */
  readonly hookedMass: { readonly axial: number; readonly lateral: number; readonly tangential: number };
}

/**
 * Mass that the tip feels in a direction: its own effective mass plus the aircraft's apparent mass at the probe.
 *
 *     m(n) = m_t + 1/(1/m + (p×n)·I⁻¹(p×n))                    (README eq. 9)
 *
 * @param n direction in body axes, unit vector
 * @source own derivation, README eq. 9
 * @verified closed-forms.test.ts (acceleration of the tip under a force, frequency on one spring); generated/hooked-independent
 */
export function hookedMass(
  mass: MassProperties,
  probe: readonly [number, number, number],
  tipMass: number,
  n: readonly [number, number, number],
): number {
  const c = [probe[1] * n[2] - probe[2] * n[1], probe[2] * n[0] - probe[0] * n[2], probe[0] * n[1] - probe[1] * n[0]];
  const { Ixx, Iyy, Izz, Ixy, Ixz, Iyz } = mass;
  // adjugate of the inertia matrix
  const [a, b, d] = [Iyy * Izz - Iyz * Iyz, Ixx * Izz - Ixz * Ixz, Ixx * Iyy - Ixy * Ixy];
  const [ab, ad, bd] = [Ixy * Izz + Ixz * Iyz, Ixy * Iyz + Ixz * Iyy, Ixx * Iyz + Ixy * Ixz];
  const determinant = Ixx * a - Ixy * ab - Ixz * ad;
  const quadratic =
    a * c[0] ** 2 + b * c[1] ** 2 + d * c[2] ** 2 + 2 * (ab * c[0] * c[1] + ad * c[0] * c[2] + bd * c[1] * c[2]);
  return tipMass + 1 / (1 / mass.mass + quadratic / determinant);
}

/**
 * Builds the hooked pair at trim: balance, preload of the boom, springs with their structural damping, equations of
 * motion and the state of rest.
 *
 * Structural damping is given as the damping ratio that each spring k alone gives the hooked mass m(n) on it:
 *
 *     c_s = 2·ζ_s·√(k·m(n))                                     (README eq. 10)
 *
 * @param settings the pair, SI
 * @param carrier  carrier port; default: steady flight with infinite mass
 * @returns the pair; when `trim.outcome` is "no trim" the state is not a balance and must not be used
 * @throws {DomainError} for settings outside their range
 * @source own derivation, README eq. 7–10
 * @verified generated/hooked-independent (trim, dashpots, eigenvalues, rtol 1e-9); trim.test.ts, closed-forms.test.ts
 */
export function hookedPair(settings: HookedPairSettings, carrier: CarrierPort = steadyCarrier()): HookedPair {
  const { airloads, mass, air } = settings;
  const { length, angleDown } = settings.boom;
  const place = { aft: length * Math.cos(angleDown), below: length * Math.sin(angleDown) };
  return pairOnTrim(
    settings,
    trimHooked({ airloads, mass: mass.mass, flow: settings.flow, ...air }, { ...settings, tip: place }),
    carrier,
  );
}

/** Links of a pair that stands at trim: state of rest (c.g. and attitude in H from 0 and 3) and boom tip in H. */
export type LinksAt = (state: Float64Array, tip: readonly [number, number, number]) => readonly LinkPort[];

/**
 * The pair on the boom for a balance that is already known: preload of the boom, springs, equations of motion, state of rest.
 *
 * @param settings the pair, SI; its weight share is not used
 * @param trim     angle of attack, controls and tip force of the balance
 * @param carrier  carrier port
 * @param links    what else joins aircraft and carrier
 * @throws {DomainError} for settings outside their range
 * @source own derivation, README eq. 7–10
 * @verified as `hookedPair`; attached-pair.test.ts
 */
export function pairOnTrim(
  settings: HookedPairSettings,
  trim: HookedTrim,
  carrier: CarrierPort = steadyCarrier(),
  links: LinksAt = () => [],
): HookedPair {
  const { mass, probe, airloads, air, boom } = settings;
  const zeta = boom.structuralDamping;
  if (!(zeta >= 0 && zeta < 1)) throw new DomainError("structural damping ratio", zeta, "0 to below 1");
  const [cosG, sinG] = [Math.cos(boom.angleDown), Math.sin(boom.angleDown)];
  const [cosA, sinA] = [Math.cos(trim.alpha), Math.sin(trim.alpha)];
  // H to body at trim: rotation by −α about y
  const toBody = (x: number, z: number): [number, number, number] => [cosA * x - sinA * z, 0, sinA * x + cosA * z];
  const hooked = {
    axial: hookedMass(mass, probe, boom.effectiveTipMass, toBody(-cosG, sinG)),
    lateral: hookedMass(mass, probe, boom.effectiveTipMass, [0, 1, 0]),
    tangential: hookedMass(mass, probe, boom.effectiveTipMass, toBody(sinG, cosG)),
  };
  const damping = (k: number, m: number): number => (k === Infinity ? 0 : 2 * zeta * Math.sqrt(k * m));
  const [fx, fy, fz] = trim.f_onV_byTip_H;
  const ownNormal = ((boom.ownMass * boom.ownCentre) / boom.length) * STANDARD_GRAVITY * cosG;
  const tipLoad = { tension: fx * cosG - fz * sinG, tangential: -(fx * sinG + fz * cosG) + ownNormal, lateral: -fy };
  const tangential = {
    bending: boom.bending,
    bendingDamping: damping(boom.bending, hooked.tangential),
    accumulator: boom.accumulator,
    snubber: boom.snubber,
  };
  const springs = new BoomSprings({
    geometry: { length: boom.length, angleDown: boom.angleDown },
    preload: tipLoad,
    axial: boom.axial,
    axialDamping: damping(boom.axial, hooked.axial),
    lateral: boom.lateral,
    lateralDamping: damping(boom.lateral, hooked.lateral),
    tangential,
    ...(boom.nonlinear === undefined ? {} : { nonlinear: boom.nonlinear }),
    ownMass: boom.ownMass,
    ownCentre: boom.ownCentre,
    inertialTravel: boom.motions !== undefined && boundTravel(tangential) === undefined,
  });
  const own = { tipMass: boom.effectiveTipMass, length: boom.length, damping: zeta };
  const rest = new Float64Array(7);
  quaternionFromEuler(0, trim.alpha, 0, rest, 3);
  const tip = springs.tipAtTrim();
  rest[0] = tip[0] - (cosA * probe[0] + sinA * probe[2]);
  rest[1] = tip[1] - probe[1];
  rest[2] = tip[2] - (-sinA * probe[0] + cosA * probe[2]);
  const motion = new PairMotion({
    mass,
    airloads,
    trim: trim.controls,
    law: settings.law,
    environment:
      settings.flow === undefined ? uniformAir(air) : airNearCarrier(uniformAir(air), carrier, settings.flow),
    attachment: "single point",
    boom: springs,
    ...(boom.motions === undefined ? {} : { vibration: new BoomVibration(boom.motions, tangential, own) }),
    carrier,
    tipMass: boom.effectiveTipMass,
    probe,
    links: links(rest, tip),
  });
  const state = new Float64Array(motion.stateCount);
  state.set(rest);
  state.set(tip, motion.layout.tip);
  const compliance = 1 / boom.bending + (boom.snubber === Infinity ? 0 : 1 / boom.accumulator);
  const unloadedAngleDown = Number.isFinite(compliance)
    ? boom.angleDown - (tipLoad.tangential * compliance) / boom.length
    : null;
  return { settings, trim, tipLoad, unloadedAngleDown, motion, state, hookedMass: hooked };
}
