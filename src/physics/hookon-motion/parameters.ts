import { DomainError } from "../../math/errors.ts";
import { inertiaMatrix, STANDARD_GRAVITY } from "../bodies/index.ts";
import type { BoomSpringsSettings } from "../boom/index.ts";
import { checkLatch } from "../latch/index.ts";
import { createTangentialPath } from "../snubber/index.ts";
import { checkSocket, contactDissipation, funnelGeometry, socketAxes } from "../socket/index.ts";
import { motionDerivatives, writeAirloads } from "./airload-parameters.ts";
import { U_SIZE, W_HINGE_LOAD, W_SIZE, X_CARRIER, X_TIP } from "./layout.ts";
import * as at from "./parameter-layout.ts";
import { boomStage } from "./stage-boom.ts";
import type { CarrierResponse, HookonSettings, SurfaceLimits } from "./types.ts";

/** Shortest lag of surfaces and thrust [s]: below it they follow at once anyway. */
const LEAST_LAG = 0.005;
/** Fastest relaxation of the travel across the snubber that the motion follows [1/s]. */
const FASTEST_TRAVEL = 2000;
/** Stands for "no relief valve" [N]. */
const NO_RELIEF = 1e300;
const DEFAULT_SEPARATION = 6;

export interface HookonParameters {
  readonly P: Float64Array;
  readonly states: number;
  /** Tip at rest from the hinge and mouth at rest, in H [m]. */
  readonly tip: readonly [number, number, number];
  readonly mouth: readonly [number, number, number];
  /** What the motion leaves out, in words. */
  readonly assumptions: readonly string[];
}

/**
 * Parameters of the motion from settings, checked.
 *
 * @throws {DomainError} naming the first quantity out of its range
 * @source README eq. 1–15
 * @verified right-hand-side.test.ts
 */
export function hookonParameters(settings: HookonSettings): HookonParameters {
  const { socket, latch, carrier } = settings;
  const geometry = funnelGeometry(socket);
  checkSocket(socket);
  checkLatch(latch);
  const { set, assumptions } = motionDerivatives(settings.airloads, settings);
  const notes = [...assumptions];
  const n = carrier?.size ?? 0;
  const nodes = latch.travel.length;
  const P = new Float64Array(at.P_TABLES + 2 * nodes + n * n + 24 * n);
  writeAirloads(set, P);
  writeAircraft(settings, P);
  writeBoom(settings.boom, P, notes);
  const limit = settings.boomRateLimit ?? 0;
  if (!(limit >= 0)) throw new DomainError("rate limit of the boom's steering", limit, "at least 0");
  P[at.P_STEERING_LIMIT] = limit;
  if (!(settings.tipMass > socket.buffer.headMass)) {
    throw new DomainError("mass of the boom tip", settings.tipMass, "greater than the socket head's");
  }
  P[at.P_TIP_MASS] = settings.tipMass;
  const axes = socketAxes(socket.restAxis_H);
  P.set(axes, at.P_K1);
  const { contact, gimbal, buffer, funnel } = socket;
  P.set([geometry.mouth, geometry.throat, geometry.seat, funnel.mouthRadius, funnel.throatRadius], at.P_MOUTH);
  P.set([Math.sin(geometry.halfAngle), Math.cos(geometry.halfAngle), geometry.side], at.P_CONE);
  const dissipation = contactDissipation(contact.restitution, contact.restitutionAt);
  P.set([contact.stiffness, dissipation, contact.friction, contact.creepSpeed], at.P_CONTACT);
  const fade = contact.creepSpeed / Math.max(0.1, Math.abs(geometry.mouth));
  P.set([gimbal.centring, gimbal.damping, gimbal.friction, fade, gimbal.stop, gimbal.stopStiffness], at.P_GIMBAL);
  P.set([gimbal.inertia, gimbal.tumbled], at.P_GIMBAL + 6);
  P.set([buffer.preload, buffer.stiffness, buffer.compressionDamping, buffer.extensionDamping], at.P_BUFFER);
  P.set([buffer.stroke, buffer.bottomStiffness, buffer.headMass], at.P_BUFFER + 4);
  P[at.P_DRAG_AREA] = 0.5 * settings.air.density * socket.dragArea;
  const orbit = settings.orbit;
  if (orbit !== undefined) {
    if (!(orbit.radius >= 0)) throw new DomainError("radius of the socket's orbit", orbit.radius, "at least 0");
    if (!(orbit.period > 0)) throw new DomainError("period of the socket's orbit", orbit.period, "greater than 0");
    P.set([orbit.radius, (2 * Math.PI) / orbit.period], at.P_ORBIT);
  }
  P.set([nodes, latch.travel[nodes - 1], latch.stiffness, latch.damping, latch.sideStiffness], at.P_LATCH_NODES);
  P.set(latch.travel, at.P_TABLES);
  P.set(latch.force, at.P_TABLES + nodes);
  const { limits } = settings;
  for (const key of ["axialLoad", "sideLoad", "tipTravel", "pitch", "bank", "approachTime"] as const) {
    if (!(limits[key] > 0)) throw new DomainError(`limit, ${key}`, limits[key], "greater than 0");
  }
  P.set([limits.axialLoad, limits.sideLoad, limits.separation ?? DEFAULT_SEPARATION], at.P_LIMITS);
  writeCarrier(carrier, P, at.P_TABLES + 2 * nodes);
  const { length, angleDown } = settings.boom.geometry;
  const tip = [-length * Math.cos(angleDown), 0, length * Math.sin(angleDown)] as const;
  writeRestLoad(P, tip, X_CARRIER + n);
  const mouth = [0, 1, 2].map((i) => tip[i] + geometry.mouth * axes[i]) as [number, number, number];
  return { P, states: X_CARRIER + n, tip, mouth, assumptions: notes };
}

function writeAircraft({ mass, probe, socket, air, actuators, trim }: HookonSettings, P: Float64Array): void {
  const I = inertiaMatrix(mass);
  const [a, b, c, , e, f, , , i] = I;
  const [A, B, C] = [e * i - f * f, c * f - b * i, b * f - c * e];
  const determinant = a * A + b * B + c * C;
  const inverse = [A, B, C, B, a * i - c * c, b * c - a * f, C, b * c - a * f, a * e - b * b];
  P[at.P_MASS] = mass.mass;
  P.set(I, at.P_INERTIA);
  inverse.forEach((value, k) => {
    P[at.P_INVERSE + k] = value / determinant;
  });
  P.set(probe, at.P_PROBE);
  const [x, y, z] = socket.probe.axis;
  if (!(Math.abs(Math.hypot(x, y, z) - 1) < 1e-6)) throw new DomainError("probe axis", [x, y, z], "a unit vector");
  P.set([x, y, z, socket.probe.radius, socket.probe.stemRadius, socket.probe.stemLength], at.P_PROBE_AXIS);
  P[at.P_GRAVITY] = STANDARD_GRAVITY;
  if (!(air.density > 0)) throw new DomainError("air density", air.density, "greater than 0");
  if (!(air.trueAirspeed > 0)) throw new DomainError("true airspeed", air.trueAirspeed, "greater than 0");
  P[at.P_DENSITY] = air.density;
  P[at.P_AIRSPEED] = air.trueAirspeed;
  const surface = (limits: SurfaceLimits, rest: number, offset: number): void => {
    if (!(limits.lag >= 0 && limits.rate > 0 && limits.travel >= 0)) {
      throw new DomainError("actuator", [limits.lag, limits.rate, limits.travel], "lag ≥ 0, rate > 0, travel ≥ 0");
    }
    P.set([Math.max(LEAST_LAG, limits.lag), limits.rate, rest - limits.travel, rest + limits.travel], offset);
  };
  surface(actuators.elevator, trim.controls.elevator, at.P_ACTUATORS);
  surface(actuators.aileron, trim.controls.aileron, at.P_ACTUATORS + 4);
  surface(actuators.rudder, trim.controls.rudder, at.P_ACTUATORS + 8);
  const { lag, least, most } = actuators.thrust;
  if (!(lag >= 0 && most >= least)) throw new DomainError("thrust", [lag, least, most], "lag ≥ 0, least ≤ most");
  P.set([Math.max(LEAST_LAG, lag), least, most], at.P_ENGINE);
}

function writeBoom(boom: BoomSpringsSettings, P: Float64Array, notes: string[]): void {
  const { geometry, preload, tangential, nonlinear } = boom;
  P[at.P_LENGTH] = geometry.length;
  P[at.P_ANGLE] = geometry.angleDown;
  P.set([preload.tension, preload.tangential, preload.lateral], at.P_PRELOAD);
  P.set([boom.axial, boom.axialDamping, boom.lateral, boom.lateralDamping], at.P_AXIAL);
  P[at.P_OWN_MASS] = boom.ownMass;
  P[at.P_OWN_CENTRE] = boom.ownCentre;
  if (boom.inertialTravel === true) notes.push("The boom's bending motions and the jack's inertia are left out");
  const path = createTangentialPath(tangential);
  if (nonlinear === undefined && path.kind === "elastic") {
    P.set([1, path.stiffness, path.damping], at.P_ELASTIC);
    return;
  }
  const { bending, bendingDamping, accumulator } = tangential;
  const law = nonlinear?.law;
  const least = (bending + accumulator) / FASTEST_TRAVEL - bendingDamping;
  const declared = law?.linear ?? tangential.snubber;
  if (declared < least) notes.push("The snubber has a bleed that lets its travel settle within 0.5 ms");
  P.set([bending, bendingDamping, accumulator, Math.max(declared, least)], at.P_BENDING);
  const relief = law === undefined || law.relief === Number.POSITIVE_INFINITY ? NO_RELIEF : law.relief;
  P.set([law?.quadratic ?? 0, relief, law?.reliefRate ?? 0, law?.friction ?? 0], at.P_SNUBBER + 1);
  P[at.P_FREE_PLAY] = nonlinear?.freePlay ?? 0;
}

function writeCarrier(carrier: CarrierResponse | undefined, P: Float64Array, offset: number): void {
  const n = carrier?.size ?? 0;
  P[at.P_CARRIER_STATES] = n;
  P[at.P_CARRIER_TABLES] = offset;
  P[at.P_CARRIER_TABLES + 1] = offset + n * n;
  P[at.P_CARRIER_TABLES + 2] = offset + n * n + 12 * n;
  if (carrier === undefined) return;
  for (const [name, table, length] of [
    ["A", carrier.A, n * n],
    ["B", carrier.B, 12 * n],
    ["C", carrier.C, 12 * n],
  ] as const) {
    if (table.length !== length)
      throw new DomainError(`carrier response, length of ${name}`, table.length, `${length}`);
  }
  P.set(carrier.A, offset);
  P.set(carrier.B, offset + n * n);
  P.set(carrier.C, offset + n * n + 12 * n);
}

/** Load of the boom on the carrier at rest. */
function writeRestLoad(P: Float64Array, tip: readonly [number, number, number], states: number): void {
  const X = new Float64Array(states);
  X.set(tip, X_TIP);
  const W = new Float64Array(W_SIZE);
  boomStage(X, new Float64Array(U_SIZE), P, W, new Float64Array(states));
  for (let i = 0; i < 6; i++) P[at.P_REST_LOAD + i] = W[W_HINGE_LOAD + i];
}
