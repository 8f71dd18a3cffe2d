/** The demonstration's four-bar by circle intersection: an independent road to its poses. Stations, FS and WL only. */
import { TRAPEZE } from "./rigs.ts";

export interface FourBar {
  readonly boomHinge: readonly [number, number];
  readonly yokeHinge: readonly [number, number];
  readonly boomLength: number;
  readonly yokeLength: number;
  /** Carried aircraft: from probe tip to aft pins in its own stations. */
  readonly coupler: readonly [number, number];
  readonly jackFrom: readonly [number, number];
  /** Lug along the boom from the hinge and above it. */
  readonly lug: readonly [number, number];
}

export const NOMINAL: FourBar = {
  boomHinge: [TRAPEZE.boomHinge[0], TRAPEZE.boomHinge[2]],
  yokeHinge: [TRAPEZE.yokeHinge[0], TRAPEZE.yokeHinge[2]],
  boomLength: TRAPEZE.boomLength,
  // As drawn: pitch 0, so that the pins stand by the coupler behind the socket.
  yokeLength: Math.hypot(
    10.4 + 5.6 * Math.cos(TRAPEZE.stowed) + 2.95 - 13.243,
    2.15 - 5.6 * Math.sin(TRAPEZE.stowed) - 0.23 - 1.92,
  ),
  coupler: [2.95, -0.23],
  jackFrom: [TRAPEZE.jackFrom[0], TRAPEZE.jackFrom[2]],
  lug: [1.55, 0.28],
};

/** Socket at a boom angle. */
export function socketAt(bar: FourBar, angle: number): [number, number] {
  return [bar.boomHinge[0] + bar.boomLength * Math.cos(angle), bar.boomHinge[1] - bar.boomLength * Math.sin(angle)];
}

/** Pitch of the carried aircraft, nose up, on the branch of the drawing. */
export function pitchAt(bar: FourBar, angle: number): number {
  const [x, y] = socketAt(bar, angle);
  const [dx, dy] = [bar.yokeHinge[0] - x, bar.yokeHinge[1] - y];
  const distance = Math.hypot(dx, dy);
  const length = Math.hypot(...bar.coupler);
  const inner = Math.acos((length ** 2 + distance ** 2 - bar.yokeLength ** 2) / (2 * length * distance));
  // Seen from the socket the pins lie aft, below the line to the yoke hinge turned by the inner angle.
  const toPins = Math.atan2(dy, dx) - inner;
  // Nose up turns what lies aft of the socket down: direction = direction as drawn − pitch.
  const turned = Math.atan2(bar.coupler[1], bar.coupler[0]) - toPins;
  return Math.atan2(Math.sin(turned), Math.cos(turned));
}

/** A point of the carried aircraft (its stations, from the probe tip) in carrier stations. */
export function carriedPoint(bar: FourBar, angle: number, fromProbe: readonly [number, number]): [number, number] {
  const [x, y] = socketAt(bar, angle);
  const pitch = pitchAt(bar, angle);
  const [c, s] = [Math.cos(pitch), Math.sin(pitch)];
  return [x + c * fromProbe[0] + s * fromProbe[1], y - s * fromProbe[0] + c * fromProbe[1]];
}

export function jackLength(bar: FourBar, angle: number): number {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const [along, above] = bar.lug;
  const x = bar.boomHinge[0] + along * c + above * s;
  const y = bar.boomHinge[1] - along * s + above * c;
  return Math.hypot(bar.jackFrom[0] - x, bar.jackFrom[1] - y);
}

/** Boom angle at which the jack has a length, near a first guess. */
export function angleAt(bar: FourBar, length: number, guess: number): number {
  let angle = guess;
  for (let pass = 0; pass < 60; pass++) {
    const slope = (jackLength(bar, angle + 1e-6) - jackLength(bar, angle - 1e-6)) / 2e-6;
    angle -= (jackLength(bar, angle) - length) / slope;
  }
  return angle;
}
