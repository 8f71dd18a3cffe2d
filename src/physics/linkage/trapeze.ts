import { DomainError } from "../../math/errors.ts";
import type { LinkageSpec, Vector3 } from "./types.ts";

/**
 * A trapeze as drawn at one pose, all points and directions in carrier axes [m]. Any right-handed axes serve, if `aft` and
 * `right` say where these lie.
 */
export interface TrapezeDrawing {
  readonly aft: Vector3;
  readonly right: Vector3;
  readonly boomHinge: Vector3;
  /** Socket at the boom tip: the carried aircraft's probe tip is here while it hangs on it. */
  readonly socket: Vector3;
  readonly jackOnCarrier: Vector3;
  readonly jackOnBoom: Vector3;
  /** Position of the carried aircraft's origin and its attitude, body to carrier axes, at this pose. */
  readonly carried: { readonly position: Vector3; readonly attitude?: readonly [number, number, number, number] };
  /**
   * Three point: hinge of the aft yoke on the carrier and the line of the aft pins (its middle); the carried aircraft is the
   * coupler between boom and yoke. Left out: it hangs at the single point with its attitude to the carrier held, as drawn.
   */
  readonly yoke?: { readonly hinge: Vector3; readonly pins: Vector3 };
}

/** Names of the bodies and joints of a trapeze. */
export const TRAPEZE = {
  carrier: "carrier",
  boom: "boom",
  carried: "carried aircraft",
  yoke: "aft yoke",
  boomHinge: "boom hinge",
  jack: "retract jack",
  socket: "socket",
  yokeHinge: "yoke hinge",
  pins: "aft pins",
  attitude: "attitude",
} as const;

/**
 * Bodies and joints of a trapeze, ready for `createLinkage`.
 *
 * Three point: hinges at boom and yoke, a ball at the socket, a hinge along the line of the aft pins: one freedom, the stroke;
 * the lateral row of the socket repeats that of the yoke. Single point: a ball at the socket and the held attitude, whose
 * moment is what the air must give. The boom hinge's angle is the boom angle, positive with the socket below the hinge (from
 * aft towards down), zero when the socket lies straight aft. Attitude turns about `right` are pitch, nose up positive.
 *
 * @param drawing  points at one pose
 * @throws {DomainError} if `aft` is not normal to `right`
 * @source own derivation, README section "Trapeze"
 * @verified trapeze.test.ts: closed form of the three-point loop, lengths and angles of the demo mechanism
 */
export function trapezeLinkage(drawing: TrapezeDrawing): LinkageSpec {
  const { aft, right, boomHinge, socket } = drawing;
  const along = aft[0] * right[0] + aft[1] * right[1] + aft[2] * right[2];
  if (Math.abs(along) > 1e-9 * Math.hypot(...aft) * Math.hypot(...right)) {
    throw new DomainError("angle of aft to right", Math.acos(along), "a right angle");
  }
  const toSocket: Vector3 = [socket[0] - boomHinge[0], socket[1] - boomHinge[1], socket[2] - boomHinge[2]];
  const { carrier, boom, carried, yoke } = TRAPEZE;
  const hold = drawing.yoke;
  const position = { position: drawing.carried.position };
  const { attitude } = drawing.carried;
  const carriedBody = { name: carried, ...position, ...(attitude === undefined ? {} : { attitude }) };
  return {
    fixed: carrier,
    bodies: [{ name: boom }, carriedBody, ...(hold === undefined ? [] : [{ name: yoke }])],
    joints: [
      {
        kind: "hinge",
        name: TRAPEZE.boomHinge,
        first: carrier,
        second: boom,
        pointOnFirst: boomHinge,
        axisOnFirst: right,
        sideOnFirst: aft,
        sideOnSecond: toSocket,
      },
      {
        kind: "jack",
        name: TRAPEZE.jack,
        first: carrier,
        second: boom,
        pointOnFirst: drawing.jackOnCarrier,
        pointOnSecond: drawing.jackOnBoom,
      },
      { kind: "ball", name: TRAPEZE.socket, first: boom, second: carried, pointOnFirst: socket },
      ...(hold === undefined
        ? [{ kind: "attitude", name: TRAPEZE.attitude, first: carrier, second: carried, axisOnFirst: right } as const]
        : [
            {
              kind: "hinge",
              name: TRAPEZE.yokeHinge,
              first: carrier,
              second: yoke,
              pointOnFirst: hold.hinge,
              axisOnFirst: right,
            } as const,
            {
              kind: "hinge",
              name: TRAPEZE.pins,
              first: yoke,
              second: carried,
              pointOnFirst: hold.pins,
              axisOnFirst: right,
            } as const,
          ]),
    ],
  };
}
