import { linear } from "../../math/interpolate/index.ts";
import { centreOf, chordShare, type PlacedMass } from "../../physics/weight-balance/index.ts";
import type { BalanceInputs, BoomGeometry, CarriedMass, Held, Tank } from "./inputs.ts";
import type { BalancePoint } from "./types.ts";

/** All that decides mass and c.g. at one moment. */
export interface State {
  /** Fuel burned since the start [kg]. */
  readonly burned: number;
  readonly boomAngle: number;
  readonly carried: CarriedMass | null;
  readonly held: Held;
  /** Share of the carried aircraft's weight on the carrier. */
  readonly share: number;
}

/** Fuel at the start, all tanks [kg]. */
export function fuelAtStart({ tanks }: BalanceInputs): number {
  return tanks.reduce((sum, { start }) => sum + start, 0);
}

/**
 * Contents of each tank after some fuel was burned [kg]: group after group, inside a group in proportion to what each held.
 *
 *     cᵢ = sᵢ·(1 − b_g/Σ_g s),   b_g what the groups before g left to be burned    (README eq. 1)
 *
 * @param burned [kg], within the fuel at the start
 */
export function contentsOf({ tanks, burnOrder }: BalanceInputs, burned: number): number[] {
  const contents = tanks.map(({ start }) => start);
  let left = burned;
  for (const group of burnOrder) {
    const held = group.reduce((sum, tank) => sum + tanks[tank]!.start, 0);
    const share = held > 0 ? Math.min(1, Math.max(0, left / held)) : 0;
    for (const tank of group) contents[tank] = tanks[tank]!.start * (1 - share);
    left -= held;
  }
  return contents;
}

/** Fuel of one tank where its centre lies at these contents. */
export function fuelIn(tank: Tank, contents: number): PlacedMass {
  const last = tank.contents.length - 1;
  const at = Math.min(tank.contents[last]!, Math.max(tank.contents[0]!, contents));
  const place = (column: ArrayLike<number>): number => (last === 0 ? column[0]! : linear(tank.contents, column, at));
  return { mass: contents, FS: place(tank.FS), BL: place(tank.BL), WL: place(tank.WL) };
}

/**
 * Socket at the end of the boom.
 *
 *     p_S = p_A + L·(aft·cos Γ + down·sin Γ)                                       (README eq. 2)
 */
export function socketAt({ hinge, length }: BoomGeometry, angle: number): readonly [number, number, number] {
  return [hinge[0] + length * Math.cos(angle), hinge[1], hinge[2] - length * Math.sin(angle)];
}

/**
 * Where the carried aircraft's weight acts on the carrier: at its own c.g. when three points hold it, at the socket when one does.
 *
 *     FS = FS_S + a·cos θ + u·sin θ,  WL = WL_S + u·cos θ − a·sin θ                 (README eq. 3)
 *
 * a, u are the c.g. aft of and above the probe tip, θ the pitch that boom and yoke give at this angle, nose up.
 */
export function carriedAt(boom: BoomGeometry, angle: number, carried: CarriedMass, held: Held): PlacedMass {
  const [FS, BL, WL] = socketAt(boom, angle);
  if (held === "single point") return { mass: carried.mass, FS, BL, WL };
  const [aft, right, up] = carried.fromProbe;
  const pitch = pitchAt(boom, angle);
  const [c, s] = [Math.cos(pitch), Math.sin(pitch)];
  return { mass: carried.mass, FS: FS + aft * c + up * s, BL: BL + right, WL: WL + up * c - aft * s };
}

function pitchAt({ pitch }: BoomGeometry, angle: number): number {
  if (pitch === null) return 0;
  const { angles, pitches } = pitch;
  const inside = Math.min(angles[angles.length - 1]!, Math.max(angles[0]!, angle));
  return linear(angles, pitches, inside);
}

/** How far the kit's swinging part has moved from where it is stowed, as a mass and its counterpart. */
function kitMove({ kitBoom, boom }: BalanceInputs, angle: number): PlacedMass[] {
  if (kitBoom === null) return [];
  const at = (where: number): readonly [number, number, number] =>
    socketAt({ ...boom, length: kitBoom.centreFromHinge }, where);
  const [now, stowed] = [at(angle), at(boom.stowed)];
  return [
    { mass: kitBoom.mass, FS: now[0], BL: now[1], WL: now[2] },
    { mass: -kitBoom.mass, FS: stowed[0], BL: stowed[1], WL: stowed[2] },
  ];
}

/** Everything aboard, and what hangs on the boom with its share. */
export function massesOf(inputs: BalanceInputs, state: State): PlacedMass[] {
  const contents = contentsOf(inputs, state.burned);
  const masses = [
    ...inputs.items,
    ...kitMove(inputs, state.boomAngle),
    ...inputs.tanks.map((tank, i) => fuelIn(tank, contents[i]!)),
  ];
  if (state.carried === null) return masses;
  const hung = carriedAt(inputs.boom, state.boomAngle, state.carried, state.held);
  return [...masses, { ...hung, mass: state.share * hung.mass }];
}

/** Mass and c.g. of a state. */
export function centreIn(inputs: BalanceInputs, state: State): PlacedMass {
  return centreOf(massesOf(inputs, state));
}

/** A state as a row of the result. */
export function pointOf(inputs: BalanceInputs, state: State, time: number, leg: string): BalancePoint {
  const { mass, FS, BL } = centreIn(inputs, state);
  return {
    ...{ time_s: time, leg, fuel_kg: Math.max(0, fuelAtStart(inputs) - state.burned), mass_kg: mass },
    ...{ FS_m: FS, BL_m: BL + 0, cg_percentMac: 100 * chordShare(FS, inputs.chord) },
  };
}
