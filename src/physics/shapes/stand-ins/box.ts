import { DomainError } from "../../../math/errors.ts";
import { createMesh } from "../mesh.ts";
import type { StandIn } from "../types.ts";
import { requireLengths } from "./revolve.ts";

/** A box along the body axes. */
export interface BoxShape {
  /** Size along x, y and z [m], > 0. */
  readonly length: number;
  readonly width: number;
  readonly height: number;
  /** Its centre [m], shape (3); default the origin. */
  readonly centre?: readonly [number, number, number];
}

/** Corners of the six faces of a box, each counter-clockwise seen from outside; bit 0 is +x, bit 1 +y, bit 2 +z. */
const FACES: readonly (readonly [number, number, number, number])[] = [
  [0, 4, 6, 2],
  [1, 3, 7, 5],
  [0, 1, 5, 4],
  [2, 6, 7, 3],
  [0, 2, 3, 1],
  [4, 5, 7, 6],
];

/**
 * Box: a plate, a door, a fitting, a tank.
 *
 * @param shape  length (x), width (y), height (z) [m] and centre [m]
 * @throws {DomainError} for sizes that are not above zero
 * @source definition; the mesh is exact
 * @verified stand-ins.test.ts
 */
export function box(shape: BoxShape): StandIn {
  checkBox(shape);
  const vertices = corners(shape, 1, 1, 0);
  const triangles = FACES.flatMap(([a, b, c, d]) => [a, b, c, a, c, d]);
  return { mesh: createMesh(Float64Array.from(vertices), Uint32Array.from(triangles)), facetingError: 0 };
}

/**
 * Bay: a box open downwards (+z) with walls and a roof, into which something is drawn.
 *
 * @param shape  outer length, width and height [m] and the centre of the outer box [m]
 * @param wall   thickness of walls and roof [m], above 0 and below half the length and width and below the height
 * @throws {DomainError} for sizes that leave no room inside
 * @source definition; the mesh is exact
 * @verified stand-ins.test.ts: outer less inner volume
 */
export function bay(shape: BoxShape, wall: number): StandIn {
  checkBox(shape);
  const { length, width, height } = shape;
  if (!(wall > 0 && 2 * wall < length && 2 * wall < width && wall < height)) {
    throw new DomainError("wall of a bay", wall, "above 0, leaving room inside");
  }
  const outer = corners(shape, 1, 1, 0);
  // Inner corners: 8 to 15. Below they lie in the plane of the rim.
  const inner = corners(shape, 1 - (2 * wall) / length, 1 - (2 * wall) / width, wall);
  const triangles: number[] = [];
  const quad = (a: number, b: number, c: number, d: number): void => {
    triangles.push(a, b, c, a, c, d);
  };
  // The last face, the one below, is open.
  for (const [a, b, c, d] of FACES.slice(0, 5)) {
    quad(a, b, c, d);
    quad(8 + d, 8 + c, 8 + b, 8 + a);
  }
  // The rim, between the outer and the inner corners below: 4, 5, 7, 6 counter-clockwise seen from below.
  const around = [4, 5, 7, 6];
  for (let i = 0; i < 4; i++) {
    const [a, b] = [around[i]!, around[(i + 1) % 4]!];
    quad(a, b, 8 + b, 8 + a);
  }
  return {
    mesh: createMesh(Float64Array.from([...outer, ...inner]), Uint32Array.from(triangles)),
    facetingError: 0,
  };
}

function checkBox(shape: BoxShape): void {
  const { length, width, height, centre } = shape;
  requireLengths({ "length of a box": length, "width of a box": width, "height of a box": height }, "above zero");
  for (const coordinate of centre ?? []) {
    if (!Number.isFinite(coordinate)) throw new DomainError("centre of a box", coordinate, "finite numbers");
  }
}

/** Eight corners at shares of half the length and width; the upper ones lowered by `roof`. */
function corners(shape: BoxShape, x: number, y: number, roof: number): number[] {
  const { length, width, height, centre = [0, 0, 0] } = shape;
  const out: number[] = [];
  for (let i = 0; i < 8; i++) {
    const down = (i & 4) === 0 ? -0.5 * height + roof : 0.5 * height;
    out.push(centre[0] + ((i & 1) === 0 ? -0.5 : 0.5) * length * x);
    out.push(centre[1] + ((i & 2) === 0 ? -0.5 : 0.5) * width * y);
    out.push(centre[2] + down);
  }
  return out;
}
