import type { Quantity } from "../../inputs/index.ts";
import type { StationPoint } from "../../physics/bodies/index.ts";

/** A point of the pair in its stations, SI. */
export function stationPoint(p: { readonly FS: Quantity; readonly BL: Quantity; readonly WL: Quantity }): StationPoint {
  return { FS: p.FS.si, BL: p.BL.si, WL: p.WL.si };
}
