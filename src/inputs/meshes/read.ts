import type { MeshFormat } from "../schema/index.ts";
import { readGltf } from "./gltf.ts";
import { readObj } from "./obj.ts";
import { readStl } from "./stl.ts";
import type { ImportStep, MeshRead, ReadSibling } from "./types.ts";
import { refuse } from "./types.ts";

/** What the reading of a mesh file takes from outside. */
export interface MeshEffects {
  readonly sibling: ReadSibling;
  readonly importStep: ImportStep | undefined;
}

/**
 * Reads a mesh file.
 *
 * @param bytes    of the file
 * @param format   by its ending
 * @param effects  files beside it; the importer of STEP files, if there is one
 * @returns the surface in the file's numbers (metres for STEP), or every problem found, the first 20 of them
 */
export function readMesh(bytes: Uint8Array, format: MeshFormat, effects: MeshEffects): MeshRead {
  if (format === "STL") return readStl(bytes);
  if (format === "OBJ") return readObj(bytes);
  if (format === "glTF") return readGltf(bytes, effects.sibling);
  return readStep(bytes, effects.importStep);
}

/** Said of a STEP file when nothing that reads it was passed in. */
export const STEP_UNREADABLE = "STEP files cannot be read in this installation; convert the file to a mesh";

function readStep(bytes: Uint8Array, importStep: ImportStep | undefined): MeshRead {
  if (importStep === undefined) {
    const allowed =
      "STL, OBJ or glTF, which CAD programs export; or STEP with the optional package occt-import-js installed";
    return refuse(STEP_UNREADABLE, { allowed });
  }
  const found = importStep(bytes);
  if (!found.ok) return refuse(`the STEP file cannot be read: ${found.reason}`);
  const { vertices, triangles } = found;
  if (triangles.length === 0) return refuse("the STEP file gives no triangles");
  const whole = vertices.length % 3 === 0 && triangles.length % 3 === 0;
  if (!whole || triangles.some((index) => 3 * index >= vertices.length)) {
    return refuse("the STEP file gives triangles whose corners do not exist");
  }
  if (!vertices.every(Number.isFinite)) return refuse("the STEP file gives corners that are not finite numbers");
  return { ok: true, mesh: { vertices, triangles } };
}
