import * as z from "zod";

const index = z.number().int().nonnegative();
const numbers = (count: number) => z.array(z.number()).length(count);

const node = z.object({
  mesh: index.optional(),
  skin: index.optional(),
  children: z.array(index).optional(),
  matrix: numbers(16).optional(),
  translation: numbers(3).optional(),
  rotation: numbers(4).optional(),
  scale: numbers(3).optional(),
});

const primitive = z.object({
  attributes: z.object({ POSITION: index.optional() }),
  indices: index.optional(),
  mode: index.optional(),
});

const accessor = z.object({
  bufferView: index.optional(),
  byteOffset: index.optional(),
  componentType: index,
  count: z.number().int().positive(),
  type: z.string(),
  sparse: z.unknown().optional(),
});

const bufferView = z.object({
  buffer: index,
  byteOffset: index.optional(),
  byteLength: z.number().int().positive(),
  byteStride: z.number().int().min(4).max(252).optional(),
});

/** The parts of a glTF 2.0 document that make up its surfaces. */
export const gltfDocument = z.object({
  asset: z.object({ version: z.string() }),
  extensionsRequired: z.array(z.string()).optional(),
  scene: index.optional(),
  scenes: z.array(z.object({ nodes: z.array(index).optional() })).optional(),
  nodes: z.array(node).optional(),
  meshes: z.array(z.object({ primitives: z.array(primitive) })).optional(),
  accessors: z.array(accessor).optional(),
  bufferViews: z.array(bufferView).optional(),
  buffers: z.array(z.object({ uri: z.string().optional(), byteLength: z.number().int().positive() })).optional(),
});

export type GltfDocument = z.output<typeof gltfDocument>;
export type GltfNode = z.output<typeof node>;
