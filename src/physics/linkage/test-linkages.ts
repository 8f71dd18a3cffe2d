import { createLinkage, type Linkage } from "./linkage.ts";
import type { Vector3 } from "./types.ts";

/** Linkages that several tests of this folder use. Planar ones lie in the x–y plane, hinges along +z. */

const UP: Vector3 = [0, 0, 1];

/**
 * Planar four-bar of three bodies and four hinges (redundant in space), drawn with the crank at `alpha` and the rocker at `beta`.
 * `turn` and `shift` move the whole drawing.
 */
export function fourBarLinkage(
  lengths: { ground: number; crank: number; rocker: number },
  alpha: number,
  beta: number,
  move: (point: Vector3) => Vector3 = (point) => point,
  turn: (axis: Vector3) => Vector3 = (axis) => axis,
): Linkage {
  const crankPin: Vector3 = [lengths.crank * Math.cos(alpha), lengths.crank * Math.sin(alpha), 0];
  const rockerPin: Vector3 = [lengths.ground + lengths.rocker * Math.cos(beta), lengths.rocker * Math.sin(beta), 0];
  const hinge = (name: string, first: string, second: string, point: Vector3) =>
    ({ kind: "hinge", name, first, second, pointOnFirst: move(point), axisOnFirst: turn(UP) }) as const;
  return createLinkage({
    fixed: "carrier",
    bodies: [{ name: "crank" }, { name: "coupler" }, { name: "rocker" }],
    joints: [
      {
        ...hinge("A", "carrier", "crank", [0, 0, 0]),
        sideOnFirst: turn([1, 0, 0]),
        sideOnSecond: turn([Math.cos(alpha), Math.sin(alpha), 0]),
      },
      hinge("crank pin", "crank", "coupler", crankPin),
      hinge("rocker pin", "coupler", "rocker", rockerPin),
      {
        ...hinge("B", "carrier", "rocker", [lengths.ground, 0, 0]),
        sideOnFirst: turn([1, 0, 0]),
        sideOnSecond: turn([Math.cos(beta), Math.sin(beta), 0]),
      },
    ],
  });
}

/** Slider and crank of three bodies in the x–y plane: crank r about the origin, rod as a body, slider along x at y = e. */
export function sliderCrankLinkage(r: number, rod: number, offset: number, alpha: number): Linkage {
  const pin: Vector3 = [r * Math.cos(alpha), r * Math.sin(alpha), 0];
  const x = pin[0] + Math.sqrt(rod ** 2 - (pin[1] - offset) ** 2);
  return createLinkage({
    fixed: "carrier",
    bodies: [{ name: "crank" }, { name: "rod" }, { name: "slider", position: [x, offset, 0] }],
    joints: [
      {
        kind: "hinge",
        name: "A",
        first: "carrier",
        second: "crank",
        pointOnFirst: [0, 0, 0],
        axisOnFirst: UP,
        sideOnFirst: [1, 0, 0],
        sideOnSecond: [Math.cos(alpha), Math.sin(alpha), 0],
      },
      { kind: "hinge", name: "pin", first: "crank", second: "rod", pointOnFirst: pin, axisOnFirst: UP },
      { kind: "hinge", name: "end", first: "slider", second: "rod", pointOnFirst: [0, 0, 0], axisOnFirst: UP },
      {
        kind: "slider",
        name: "guide",
        first: "carrier",
        second: "slider",
        pointOnFirst: [0, offset, 0],
        pointOnSecond: [0, 0, 0],
        axisOnFirst: [1, 0, 0],
      },
    ],
  });
}

/** A lever about the z axis through the origin, held by a jack from `anchor` to `lug` (drawn with the lever along +x). */
export function leverLinkage(anchor: Vector3, lug: Vector3): Linkage {
  return createLinkage({
    fixed: "carrier",
    bodies: [{ name: "lever" }],
    joints: [
      {
        kind: "hinge",
        name: "A",
        first: "carrier",
        second: "lever",
        pointOnFirst: [0, 0, 0],
        axisOnFirst: UP,
        sideOnFirst: [1, 0, 0],
        sideOnSecond: [1, 0, 0],
      },
      { kind: "jack", name: "jack", first: "carrier", second: "lever", pointOnFirst: anchor, pointOnSecond: lug },
    ],
  });
}
