import { InputError } from "../../math/errors.ts";
import { bufferBytes, openContainer, unreadable } from "./gltf-container.ts";
import type { GltfDocument } from "./gltf-schema.ts";
import { gltfDocument } from "./gltf-schema.ts";
import type { Matrix } from "./gltf-transform.ts";
import { IDENTITY, multiply, nodeMatrix, turnsOver } from "./gltf-transform.ts";
import type { MeshRead, ReadSibling } from "./types.ts";
import { MOST_TRIANGLES, refuse } from "./types.ts";

/** Required extensions that do not change the shape. */
const HARMLESS = /^KHR_(?:materials_|texture_|lights_)/;
const FLOAT = 5126;
const INDEX_BYTES: Readonly<Record<number, 1 | 2 | 4>> = { 5121: 1, 5123: 2, 5125: 4 };
/** Modes of a primitive: 4 triangles, 5 strip, 6 fan; points and lines are no surface. */
const SURFACES = [4, 5, 6];

interface Reading {
  readonly document: GltfDocument;
  readonly buffer: (index: number) => Uint8Array;
  readonly corners: number[];
  readonly triangles: number[];
}

/**
 * Reads a glTF 2.0 file, text or binary (GLB): the triangles of every mesh of the default scene, moved by its nodes.
 *
 * Without scenes every node that is no child is taken. A node that mirrors turns its triangles over. Refused: skins, sparse
 * accessors, compressed meshes.
 *
 * @param bytes    of the file
 * @param sibling  reads a buffer that lies in a file beside it
 * @returns the surface in the file's numbers (metres by the standard), or what is wrong
 * @source Khronos Group, glTF 2.0 specification (ISO/IEC 12113), from memory: sections 3.5 to 3.7, 4.4
 */
export function readGltf(bytes: Uint8Array, sibling: ReadSibling): MeshRead {
  try {
    const { json, binary } = openContainer(bytes);
    const reading = startReading(json, binary, sibling);
    for (const root of rootNodes(reading.document)) addNodes(reading, root);
    if (reading.triangles.length === 0) return refuse("the file holds no triangles");
    const { corners, triangles } = reading;
    return { ok: true, mesh: { vertices: Float64Array.from(corners), triangles: Uint32Array.from(triangles) } };
  } catch (caught) {
    if (!(caught instanceof InputError)) throw caught;
    return { ok: false, problems: caught.issues.map(({ message }) => ({ message })) };
  }
}

function startReading(json: unknown, binary: Uint8Array | undefined, sibling: ReadSibling): Reading {
  const parsed = gltfDocument.safeParse(json);
  if (!parsed.success) {
    const at = parsed.error.issues[0]!.path.map(String).join(".");
    throw unreadable(`the file is not a proper glTF file${at === "" ? "" : `: ${at}`}`);
  }
  const document = parsed.data;
  if (!/^2\./.test(document.asset.version)) {
    throw unreadable(`the file is glTF ${document.asset.version}; glTF 2 can be read`);
  }
  const needed = document.extensionsRequired?.find((each) => !HARMLESS.test(each));
  if (needed !== undefined) throw unreadable(`the file needs the extension ${needed}; export it without`);
  const known = new Map<number, Uint8Array>();
  const buffer = (index: number) => {
    const found = known.get(index);
    if (found !== undefined) return found;
    const { uri, byteLength } = pick(document.buffers, index, "buffer");
    const bytes = bufferBytes(uri, index === 0 ? binary : undefined, sibling);
    if (bytes.length < byteLength) {
      throw unreadable(`buffer ${index} is truncated: ${byteLength} bytes are stated, ${bytes.length} are there`);
    }
    known.set(index, bytes);
    return bytes;
  };
  return { document, buffer, corners: [], triangles: [] };
}

/** The entry of a list that the file refers to. */
function pick<T>(list: readonly T[] | undefined, index: number, what: string): T {
  const found = list?.[index];
  if (found === undefined) throw unreadable(`there is no ${what} ${index}; the file has ${list?.length ?? 0}`);
  return found;
}

function rootNodes(document: GltfDocument): readonly number[] {
  const { scenes, nodes } = document;
  if (scenes !== undefined && scenes.length > 0) return pick(scenes, document.scene ?? 0, "scene").nodes ?? [];
  const children = new Set(nodes?.flatMap((node) => node.children ?? []));
  return [...(nodes ?? []).keys()].filter((index) => !children.has(index));
}

/** Adds the meshes of a node and of everything below it. */
function addNodes(reading: Reading, root: number): void {
  const { nodes } = reading.document;
  const seen = new Set<number>();
  const open: { index: number; around: Matrix }[] = [{ index: root, around: IDENTITY }];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    if (seen.has(next.index)) throw unreadable(`node ${next.index} is reached twice`);
    seen.add(next.index);
    const node = pick(nodes, next.index, "node");
    const placed = multiply(next.around, nodeMatrix(node));
    if (node.mesh !== undefined) {
      if (node.skin !== undefined) throw unreadable(`node ${next.index} has a skin; export the shape without`);
      for (const { mode = 4, attributes, indices } of pick(reading.document.meshes, node.mesh, "mesh").primitives) {
        if (!SURFACES.includes(mode)) continue;
        if (attributes.POSITION === undefined) throw unreadable(`mesh ${node.mesh} has no corner positions`);
        addPrimitive(reading, attributes.POSITION, indices, mode, placed);
      }
    }
    for (const child of node.children ?? []) open.push({ index: child, around: placed });
  }
}

function addPrimitive(reading: Reading, at: number, indices: number | undefined, mode: number, m: Matrix): void {
  const { corners, triangles } = reading;
  const first = corners.length / 3;
  const positions = openAccessor(reading, at, "VEC3");
  if (positions.componentType !== FLOAT) throw unreadable(`the positions of accessor ${at} are not floats`);
  const { view, offset, stride, count } = positions;
  for (let i = 0; i < count; i++) {
    const [x, y, z] = [0, 4, 8].map((k) => view.getFloat32(offset + stride * i + k, true)) as [number, number, number];
    for (let k = 0; k < 3; k++) {
      const moved = m[k]! * x + m[4 + k]! * y + m[8 + k]! * z + m[12 + k]!;
      if (!Number.isFinite(moved)) throw unreadable(`corner ${i} of accessor ${at} is not a finite number`);
      corners.push(moved);
    }
  }
  const chain =
    indices === undefined ? Array.from({ length: count }, (_, i) => i) : readIndices(reading, indices, count);
  const over = turnsOver(m);
  const add = (a: number, b: number, c: number) =>
    over ? triangles.push(first + a, first + c, first + b) : triangles.push(first + a, first + b, first + c);
  if (mode === 4 && chain.length % 3 !== 0)
    throw unreadable(`the last triangle of accessor ${indices ?? at} is not whole`);
  const step = mode === 4 ? 3 : 1;
  for (let i = 0; i + 2 < chain.length; i += step) {
    const [a, b, c] = [chain[mode === 6 ? 0 : i]!, chain[i + 1]!, chain[i + 2]!];
    // every second triangle of a strip runs the other way round
    if (mode === 5 && i % 2 === 1) add(a, c, b);
    else add(a, b, c);
  }
  if (triangles.length > 3 * MOST_TRIANGLES) throw unreadable(`the file holds more than ${MOST_TRIANGLES} triangles`);
}

function readIndices(reading: Reading, at: number, corners: number): number[] {
  const { view, offset, stride, count, componentType } = openAccessor(reading, at, "SCALAR");
  return Array.from({ length: count }, (_, i) => {
    const place = offset + stride * i;
    const index =
      componentType === 5121
        ? view.getUint8(place)
        : componentType === 5123
          ? view.getUint16(place, true)
          : view.getUint32(place, true);
    if (index >= corners)
      throw unreadable(`index ${index} of accessor ${at} is out of range; there are ${corners} corners`);
    return index;
  });
}

/** Where the elements of an accessor lie; everything it may touch is there. */
function openAccessor(reading: Reading, at: number, type: "VEC3" | "SCALAR") {
  const accessor = pick(reading.document.accessors, at, "accessor");
  if (accessor.sparse !== undefined) throw unreadable(`accessor ${at} is sparse; export the shape without`);
  if (accessor.type !== type) throw unreadable(`accessor ${at} holds ${accessor.type}, but ${type} is due`);
  if (accessor.bufferView === undefined) throw unreadable(`accessor ${at} has no data`);
  const { componentType, count } = accessor;
  const size = type === "VEC3" ? 12 : INDEX_BYTES[componentType];
  if (size === undefined) throw unreadable(`accessor ${at} has an unknown kind of number`);
  const part = pick(reading.document.bufferViews, accessor.bufferView, "buffer view");
  const bytes = reading.buffer(part.buffer);
  const stride = part.byteStride ?? size;
  const start = accessor.byteOffset ?? 0;
  const end = start + stride * (count - 1) + size;
  const from = part.byteOffset ?? 0;
  if (end > part.byteLength || from + part.byteLength > bytes.length) {
    throw unreadable(`accessor ${at} reaches beyond the end of its data`);
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return { view, offset: from + start, stride, count, componentType };
}
