import { contourLines } from "../../math/contour/index.ts";
import { atBoomAngle, type HoldInputs, type ModePlane, type Operating, PointModel } from "../hold/index.ts";
import { speedsOf, stabilityOf } from "./boundary.ts";
import type { AttachmentInputs } from "./read-settings.ts";
import type { PoseMap } from "./types.ts";

const DEGREE = Math.PI / 180;
/** Points across the stroke and across the airspeeds. */
const ANGLES = 27;
const SPEEDS = 11;
const PLANES: readonly ModePlane[] = ["longitudinal", "lateral"];

/**
 * Least damping ratio at single point over boom angle and airspeed, one map for each plane, with the boundary ζ = 0.
 *
 * @param inputs pair as physics arguments
 * @param own    stroke and airspeeds
 * @param at     operating point whose mass and altitude hold
 * @source README eq. 1
 * @verified boundary.test.ts (the boundary of the map against the searched one)
 */
export function poseMaps(inputs: HoldInputs, own: AttachmentInputs, at: Operating): PoseMap[] {
  const { from, to } = own.stroke;
  const angles = Array.from({ length: ANGLES }, (_, i) => from + ((to - from) * i) / (ANGLES - 1));
  const speeds = speedsOf(own, at, SPEEDS);
  const worst: Record<ModePlane, number[]> = { longitudinal: [], lateral: [] };
  for (const value of speeds) {
    for (const boomAngleDown of angles) {
      const point = atBoomAngle(inputs, { ...at, boomAngleDown, airspeed: { kind: "EAS", value } });
      const model = new PointModel(inputs, point);
      const modes = model.trimmed ? model.modes() : null;
      for (const plane of PLANES) {
        // a structural oscillation has a criterion of its own: it counts where it grows
        const own = modes?.filter((mode) => mode.plane === plane && (mode.class !== "structural" || mode.real > 0));
        worst[plane].push(own === undefined ? -1 : Math.max(-1, stabilityOf(own, inputs.criteria.timeToDouble.value)));
      }
    }
  }
  const x = angles.map((angle) => angle / DEGREE);
  return PLANES.map((plane) => ({
    ...{ condition: at.condition, mass: at.mass.name, plane },
    ...{ boomAngle_deg: x, airspeed_m_s_EAS: speeds, worst: worst[plane] },
    boundary: contourLines(x, speeds, worst[plane], 0).map((line) =>
      Array.from(line.x, (a, i) => [a, line.y[i]] as const),
    ),
  }));
}
