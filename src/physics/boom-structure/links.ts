import { DomainError } from "../../math/errors.ts";
import { requirePositive } from "../../math/require.ts";
import { type BoomAttachment, type BoomVector, FREEDOMS } from "./types.ts";

/** One thing that holds one combination b·u of the six freedoms of a station. */
export interface Link {
  readonly attachment: number;
  readonly station: number;
  /** b, shape (6). */
  readonly row: Float64Array;
  /** Force per b·u [N/m, or N·m/rad]; Infinity holds it rigidly. */
  readonly stiffness: number;
  /** Prescribed b·u of a rigid link [m]. */
  readonly travel: number;
}

/**
 * Stiffness of springs in series, 1/Σ(1/k).
 *
 * @param stiffnesses each ≥ 0; Infinity is rigid, 0 makes the whole chain yield without force [N/m]
 * @throws {DomainError} for a negative or missing stiffness
 * @source forces equal, travels add
 * @verified tip.test.ts
 */
export function seriesStiffness(stiffnesses: readonly number[]): number {
  let yields = 0;
  for (const stiffness of stiffnesses) {
    if (!(stiffness >= 0)) throw new DomainError("stiffness in series", stiffness, "at least 0");
    yields += 1 / stiffness;
  }
  return 1 / yields;
}

/**
 * Row b of a point: its displacement along d is b·(u, θ) with b = (d, r × d), r the offset from the axis (README eq. 6).
 */
export function pointRow(direction: BoomVector, offset: BoomVector = [0, 0, 0]): Float64Array {
  const size = Math.hypot(...direction);
  if (!(size > 0 && Number.isFinite(size))) throw new DomainError("direction", direction, "a vector that is not zero");
  const [x, y, z] = direction.map((part) => part / size);
  const [a, b, c] = offset;
  return Float64Array.of(x, y, z, b * z - c * y, c * x - a * z, a * y - b * x);
}

/** All that holds the boom, as single links. */
export function linksOf(attachments: readonly BoomAttachment[]): Link[] {
  return attachments.flatMap((at, attachment) => {
    const link = (row: Float64Array, stiffness: number, travel = 0): Link => {
      const numbers = { station: at.station, travel, ...row };
      for (const [name, value] of Object.entries(numbers)) {
        if (!Number.isFinite(value)) throw new DomainError(`${at.kind} of the boom, ${name}`, value, "a finite number");
      }
      if (!(stiffness >= 0)) throw new DomainError(`stiffness of a ${at.kind} of the boom`, stiffness, "at least 0");
      return { attachment, station: at.station, row, stiffness, travel };
    };
    switch (at.kind) {
      case "hinge":
        return unitRows(FREEDOMS - 1).map((row) => link(row, Number.POSITIVE_INFINITY));
      case "clamp":
        return unitRows(FREEDOMS).map((row) => link(row, Number.POSITIVE_INFINITY));
      case "prop":
        return [link(pointRow(at.direction, at.offset), Number.POSITIVE_INFINITY, at.travel)];
      case "spring":
        return [link(pointRow(at.direction, at.offset), at.stiffness)];
      case "strut":
        requirePositive("stiffness EA of a strut of the boom", at.axialStiffness);
        requirePositive("length of a strut of the boom", at.length);
        return [link(pointRow(at.direction, at.offset), at.axialStiffness / at.length)];
      case "jack":
        return [link(pointRow(at.direction, at.offset), seriesStiffness([at.stiffness, ...(at.inSeries ?? [])]))];
      case "turning spring": {
        const axis = pointRow(at.direction);
        return [link(Float64Array.of(0, 0, 0, axis[0], axis[1], axis[2]), at.stiffness)];
      }
      default:
        throw new DomainError(
          "kind of attachment of the boom",
          at satisfies never,
          "one of the kinds of BoomAttachment",
        );
    }
  });
}

/** Rows of the first `count` freedoms alone; the freedom of a hinge is the last. */
function unitRows(count: number): Float64Array[] {
  return Array.from({ length: count }, (_, i) => {
    const row = new Float64Array(FREEDOMS);
    row[i] = 1;
    return row;
  });
}
