/** A surface as a file holds it: in the file's own numbers and axes. */
export interface RawMesh {
  /** Shape (n, 3) row-major. */
  readonly vertices: Float64Array;
  /** Corner indices, shape (m, 3) row-major, m ≥ 1, all below n. */
  readonly triangles: Uint32Array;
}

/** Something wrong in a mesh file; text files have lines and columns, counting from 1. */
export interface MeshProblem {
  readonly message: string;
  readonly line?: number;
  readonly column?: number;
  readonly value?: string;
  readonly allowed?: string;
}

export type MeshRead =
  | { readonly ok: true; readonly mesh: RawMesh }
  | { readonly ok: false; readonly problems: readonly MeshProblem[] };

/**
 * Turns a STEP file into triangles, corners in metres. It comes from outside, because reading STEP takes a large library.
 */
export type ImportStep = (
  bytes: Uint8Array,
) =>
  | { readonly ok: true; readonly vertices: Float64Array; readonly triangles: Uint32Array }
  | { readonly ok: false; readonly reason: string };

/** Another file that a mesh file names, relative to it. */
export type ReadSibling = (
  reference: string,
) => { readonly ok: true; readonly bytes: Uint8Array } | { readonly ok: false; readonly reason: string };

/** Problems of one file that are listed. */
export const MOST_PROBLEMS = 20;

/** Triangles of one file, so that a small file cannot ask for all the memory. */
export const MOST_TRIANGLES = 20_000_000;

/** One problem as the outcome. */
export function refuse(message: string, facts: Omit<MeshProblem, "message"> = {}): MeshRead {
  return { ok: false, problems: [{ message, ...facts }] };
}
