import type { Provenance } from "../quantity/index.ts";
import { NO_PROVENANCE } from "../quantity/index.ts";
import type { Leaf } from "./leaf.ts";
import { leaf } from "./leaf.ts";

/** A surface of triangles read from a mesh file. */
export interface MeshValue {
  readonly type: "mesh";
  readonly path: string;
  /** Relative to the folder of the pair. */
  readonly file: string;
  /** SHA-256 of the file and of the files it names, hexadecimal. */
  readonly sha256: string;
  /** What turns the file's numbers into `vertices`, so that a hash of the inputs covers it. */
  readonly placing: string;
  /** Corners FS, BL, WL [m] in the stations of the body that owns the shape, shape (n, 3) row-major. */
  readonly vertices: Float64Array;
  /** Corner indices, shape (m, 3) row-major, in the turning sense of the file. */
  readonly triangles: Uint32Array;
  readonly provenance: Provenance;
}

/** Kinds of mesh files by the ending of their names. */
export const MESH_ENDINGS = {
  stl: "STL",
  obj: "OBJ",
  gltf: "glTF",
  glb: "glTF",
  step: "STEP",
  stp: "STEP",
} as const;
export type MeshFormat = (typeof MESH_ENDINGS)[keyof typeof MESH_ENDINGS];

/** Format of a mesh file, or undefined for any other file. */
export function meshFormat(file: string): MeshFormat | undefined {
  const ending = /\.([A-Za-z]+)$/.exec(file)?.[1]?.toLowerCase();
  return Object.hasOwn(MESH_ENDINGS, ending ?? "") ? MESH_ENDINGS[ending as keyof typeof MESH_ENDINGS] : undefined;
}

/** Where the x, y and z of a mesh file point. */
export const MESH_AXES = ["stations", "body", "aft up left", "left up forward"] as const;
export type MeshAxes = (typeof MESH_AXES)[number];

/** Units that a mesh file may be in. */
export const MESH_UNITS = ["m", "cm", "mm", "ft", "in"] as const;
export type MeshUnit = (typeof MESH_UNITS)[number];

const ALLOWED_FILE = "a file that ends in .stl, .obj, .glb, .gltf or .step";
const NO_VERTICES = new Float64Array(0);
const NO_TRIANGLES = new Uint32Array(0);

/** A reference to a mesh file. */
export function meshFile(describe: string, example: string): Leaf<MeshValue> {
  const json = { type: "string", pattern: "^[^/\\\\~].*\\.[A-Za-z]+$" };
  return leaf<MeshValue>({ describe, examples: [example] }, json, ALLOWED_FILE, (raw) => {
    if (typeof raw !== "string" || raw.trim() === "") return [{ message: "must name a mesh file" }];
    const file = raw.trim();
    if (meshFormat(file) === undefined) return [{ message: "is not a mesh file that can be read" }];
    const empty = { vertices: NO_VERTICES, triangles: NO_TRIANGLES, provenance: NO_PROVENANCE };
    return { type: "mesh", path: "", file, sha256: "", placing: "", ...empty };
  });
}
