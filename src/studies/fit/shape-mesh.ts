import { DomainError, InputError } from "../../math/errors.ts";
import {
  bay,
  box,
  createMesh,
  createPose,
  fuselage,
  jetCone,
  joinedMesh,
  type Mesh,
  mirroredMesh,
  movedMesh,
  panel,
  propellerDisc,
  type StandIn,
  strut,
  wheel,
} from "../../physics/shapes/index.ts";
import { toAxes } from "./frames.ts";
import type { PartInput, ShapeForm } from "./inputs.ts";
import type { Station3 } from "./types.ts";

/** Surfaces of one part, in axes x forward, y right, z down with the datum of its owner's stations. */
export interface PartSurface {
  /** One for each connected piece: two for a pair of panels. */
  readonly pieces: readonly Mesh[];
  readonly mesh: Mesh;
  readonly facetingError: number;
}

/**
 * Surface of a part from its stand-in or its mesh.
 *
 * @param part  shape in the stations of its owner [m, rad]
 * @throws {InputError} naming the part, for a size that no such shape can have
 * @source `physics/shapes`; stations by README eq. 1
 * @verified bodies.test.ts
 */
export function partSurface(part: PartInput): PartSurface {
  try {
    const solids = solidsOf(part.form);
    const pieces = solids.map((solid) => solid.mesh);
    const facetingError = Math.max(...solids.map((solid) => solid.facetingError));
    return { pieces, mesh: pieces.length === 1 ? pieces[0] : joinedMesh(pieces), facetingError };
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    const { quantity, value, allowed } = error;
    throw new InputError([{ path: part.path, message: `${quantity} is not possible`, value: String(value), allowed }]);
  }
}

/** The other side of a part: y → −y. */
export function mirroredSurface(surface: PartSurface): PartSurface {
  const pieces = surface.pieces.map(mirroredMesh);
  return { ...surface, pieces, mesh: pieces.length === 1 ? pieces[0] : joinedMesh(pieces) };
}

function solidsOf(form: ShapeForm): StandIn[] {
  switch (form.kind) {
    case "fuselage": {
      const { FS, halfWidth, halfHeight, WL } = form.stations;
      const at = Array.from(FS, (station, i) => ({
        x: -station,
        halfWidth: halfWidth[i],
        halfHeight: halfHeight[i],
        drop: -WL[i],
      }));
      return [placed(fuselage(at), [0, form.BL, 0])];
    }
    case "panel":
      return panels(form);
    case "bay":
      return [bay(between(form.from, form.to), form.wall)];
    case "box":
      return [box(between(form.from, form.to))];
    case "strut":
      return [strut([...toAxes(form.from)], [...toAxes(form.to)], form.radius)];
    case "wheel":
      return [placed(wheel(form), form.centre)];
    case "propeller disc":
      return [placed(propellerDisc(0.5 * form.diameter, form.thickness), form.centre)];
    case "jet cone":
      return [placed(jetCone(form), form.exit)];
    case "mesh": {
      const vertices = new Float64Array(form.stations.length);
      for (let i = 0; i < vertices.length; i += 3) {
        vertices.set(toAxes([form.stations[i], form.stations[i + 1], form.stations[i + 2]]), i);
      }
      return [{ mesh: createMesh(vertices, form.triangles), facetingError: 0 }];
    }
  }
}

function panels(form: Extract<ShapeForm, { kind: "panel" }>): StandIn[] {
  const { rootChord, tipChord, span, sweep, tipUp, thickness, sides, root } = form;
  const shape = { rootChord, tipChord, span, leadingEdgeSweep: sweep, tipUp, thicknessRatio: thickness };
  const one = placed(panel({ ...shape, side: sides === "left" ? "left" : "right" }), root);
  return sides === "both" ? [one, { ...one, mesh: mirroredMesh(one.mesh) }] : [one];
}

function placed(solid: StandIn, at: Station3): StandIn {
  const pose = createPose();
  pose.translation.set(toAxes(at));
  return { ...solid, mesh: movedMesh(solid.mesh, pose) };
}

/** Box between two opposite corners. */
function between(from: Station3, to: Station3) {
  const [a, b] = [toAxes(from), toAxes(to)];
  const size = [0, 1, 2].map((k) => Math.abs(b[k] - a[k]));
  return {
    length: size[0],
    width: size[1],
    height: size[2],
    centre: [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1]), 0.5 * (a[2] + b[2])] as const,
  };
}
