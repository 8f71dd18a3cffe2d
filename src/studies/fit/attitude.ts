import { InputError } from "../../math/errors.ts";
import { rotationMatrix } from "../../math/rotation/index.ts";
import { pointPosition, traceStroke } from "../../physics/linkage/index.ts";
import { toStation } from "./frames.ts";
import { CARRIED, type FitInputs } from "./inputs.ts";
import { buildMechanism } from "./mechanism.ts";
import { readLinkage } from "./read-linkage.ts";
import type { OpenReads } from "./read-pair.ts";
import type { Station3 } from "./types.ts";

/** Step between points of the attitude [rad]. */
const STEP = Math.PI / 180;

/** Attitude that boom and yoke give the carried aircraft when it is held at three points. */
export interface AttitudeAlongStroke {
  /** Boom angles, rising [rad]. */
  readonly angles: Float64Array;
  /** Pitch of the carried aircraft to the carrier, nose up [rad]. */
  readonly pitches: Float64Array;
  /** Where the yoke turns on the carrier, carrier stations [m]. */
  readonly yokeRoot: Station3;
  /** Pair paths behind it. */
  readonly paths: readonly string[];
}

/**
 * Attitude of the carried aircraft along the stroke, held at three points, from the mechanism of the pair.
 *
 * @param open opens a view of the pair
 * @throws {InputError} when the pair draws no linkage, one without a yoke, or one that does not reach two points of the stroke
 * @source `physics/linkage`, README eq. 7–9
 * @verified attitude.test.ts: four-bar by the law of cosines
 */
export function attitudeAlongStroke(open: OpenReads): AttitudeAlongStroke {
  const view = open();
  if (view.pair.mechanism.linkage === undefined) {
    const message = "is missing: without the drawn mechanism nothing sets the attitude at three points";
    throw new InputError([{ path: "mechanism.linkage", message }]);
  }
  const { linkage, probeTip } = readLinkage({ linkage: view, tolerances: open(), capacity: open() });
  const held = { linkage: { ...linkage, attached: "three point" }, probeTip } as FitInputs;
  const mechanism = buildMechanism(held);
  if (mechanism.coupler === null) {
    const message = "has no link between carrier and carried aircraft besides the boom: three points need one";
    throw new InputError([{ path: "mechanism.linkage.joints", message }]);
  }
  const { stowed, extended } = linkage.stroke;
  const [low, high] = [Math.min(stowed, extended), Math.max(stowed, extended)];
  const count = Math.max(1, Math.ceil((high - low) / STEP - 1e-9));
  const values = Array.from({ length: count + 1 }, (_, i) => low + ((high - low) * i) / count);
  const stroke = traceStroke(mechanism.linkage, { along: mechanism.boomHinge, values, tip: mechanism.tip });
  if (stroke.values.length < 2) {
    const message = "does not move along the stroke while the carried aircraft is held at three points";
    throw new InputError([{ path: "mechanism.linkage", message }]);
  }
  const carried = mechanism.linkage.bodies.indexOf(CARRIED);
  const rotation = new Float64Array(9);
  const pitches = stroke.poses.map((pose) => {
    rotationMatrix(pose.attitudes, 4 * carried, rotation);
    return Math.atan2(-rotation[6], rotation[0]);
  });
  const root = { joint: mechanism.coupler.root, on: "first" } as const;
  return {
    angles: Float64Array.from(stroke.values),
    pitches: Float64Array.from(pitches),
    yokeRoot: toStation(pointPosition(mechanism.linkage, stroke.states[0], root)),
    paths: view.paths(),
  };
}
