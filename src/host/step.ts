import { createRequire } from "node:module";
import type { ImportStep } from "../inputs/index.ts";

/** Optional package that reads STEP; large, and installed by whoever needs it. */
export const STEP_PACKAGE = "occt-import-js";

/** Largest distance between the exact surface and its triangles [m]. */
const DEFLECTION = 0.5e-3;

interface StepReader {
  ReadStepFile(
    bytes: Uint8Array,
    options: Readonly<Record<string, string | number>>,
  ): {
    readonly success: boolean;
    readonly meshes?: readonly {
      readonly attributes: { readonly position: { readonly array: ArrayLike<number> } };
      readonly index?: { readonly array: ArrayLike<number> };
    }[];
  };
}

/**
 * Reader of STEP files when its package is installed, else `undefined`; the pair then says what to install or convert.
 *
 * Corners come in metres whatever the file's own unit is, since a STEP file declares it.
 */
export async function stepImporter(): Promise<ImportStep | undefined> {
  let start: (settings: object) => Promise<StepReader>;
  try {
    start = createRequire(import.meta.url)(STEP_PACKAGE) as typeof start;
  } catch {
    return undefined;
  }
  // it would print its own words on the standard output, where a result may be going
  const silent = (): void => {};
  const reader = await start({ print: silent, printErr: silent });
  return (bytes) => {
    const read = reader.ReadStepFile(bytes, {
      linearUnit: "meter",
      linearDeflectionType: "absolute_value",
      linearDeflection: DEFLECTION,
      angularDeflection: 0.25,
    });
    if (!read.success || read.meshes === undefined) return { ok: false, reason: "is not a STEP file that can be read" };
    const vertices: number[] = [];
    const triangles: number[] = [];
    for (const mesh of read.meshes) {
      const first = vertices.length / 3;
      const positions = mesh.attributes.position.array;
      for (let i = 0; i < positions.length; i++) vertices.push(positions[i]);
      const corners = mesh.index?.array ?? Array.from({ length: positions.length / 3 }, (_, i) => i);
      for (let i = 0; i < corners.length; i++) triangles.push(first + corners[i]);
    }
    if (triangles.length === 0) return { ok: false, reason: "holds no surface" };
    return { ok: true, vertices: Float64Array.from(vertices), triangles: Uint32Array.from(triangles) };
  };
}
