/** A surface to be written into files of every format by the tests. */
export interface Plain {
  /** Shape (n, 3) row-major. */
  readonly vertices: readonly number[];
  /** Shape (m, 3) row-major. */
  readonly triangles: readonly number[];
}

/** A wedge without any symmetry; every coordinate is exact in single precision. */
export const WEDGE: Plain = {
  vertices: [0, 0, 0, 8, 0.5, 0, 0.25, 3, 0, 1, 1, 2],
  triangles: [0, 2, 1, 0, 1, 3, 1, 2, 3, 2, 0, 3],
};

/** Bytes of plain ASCII text. */
export const encode = (text: string) => Uint8Array.from(text, (character) => character.charCodeAt(0));

/** Corners of the triangles one after the other, shape (3 m, 3). */
export function soup({ vertices, triangles }: { vertices: ArrayLike<number>; triangles: ArrayLike<number> }): number[] {
  return Array.from(triangles).flatMap((index) => [
    vertices[3 * index]!,
    vertices[3 * index + 1]!,
    vertices[3 * index + 2]!,
  ]);
}

/** Binary STL; the header may say anything. */
export function stlBinary(plain: Plain, header = "made by a test"): Uint8Array {
  const corners = soup(plain);
  const count = corners.length / 9;
  const out = new Uint8Array(84 + 50 * count);
  out.set(encode(header).subarray(0, 80));
  const view = new DataView(out.buffer);
  view.setUint32(80, count, true);
  corners.forEach((value, i) => {
    view.setFloat32(84 + 50 * Math.floor(i / 9) + 12 + 4 * (i % 9), value, true);
  });
  return out;
}

/** Text STL. */
export function stlText(plain: Plain, end = "\n"): Uint8Array {
  const corners = soup(plain);
  const lines = ["solid wedge of two parts"];
  for (let i = 0; i < corners.length; i += 9) {
    lines.push("  facet normal 0 0 0", "    outer loop");
    for (let k = 0; k < 9; k += 3)
      lines.push(
        `      vertex ${corners
          .slice(i + k, i + k + 3)
          .map((v) => v.toExponential())
          .join(" ")}`,
      );
    lines.push("    endloop", "  endfacet");
  }
  return encode([...lines, "endsolid wedge of two parts", ""].join(end));
}

/** OBJ with shared corners. */
export function objText({ vertices, triangles }: Plain): string {
  const points = Array.from(
    { length: vertices.length / 3 },
    (_, i) => `v ${vertices.slice(3 * i, 3 * i + 3).join(" ")}`,
  );
  const faces = Array.from(
    { length: triangles.length / 3 },
    (_, i) =>
      `f ${triangles
        .slice(3 * i, 3 * i + 3)
        .map((index) => `${index + 1}//1`)
        .join(" ")}`,
  );
  return [...points, "vn 0 0 1", ...faces, ""].join("\n");
}

/** The one buffer of a glTF file: positions as floats, then indices of two bytes. */
export function gltfBuffer({ vertices, triangles }: Plain): Uint8Array {
  const out = new Uint8Array(4 * vertices.length + 2 * triangles.length);
  const view = new DataView(out.buffer);
  vertices.forEach((value, i) => {
    view.setFloat32(4 * i, value, true);
  });
  triangles.forEach((index, i) => {
    view.setUint16(4 * vertices.length + 2 * i, index, true);
  });
  return out;
}

/** The document of a glTF file with one mesh; parts may be replaced. */
export function gltfDocument({ vertices, triangles }: Plain, over: object = {}): Record<string, unknown> {
  const split = 4 * vertices.length;
  return {
    asset: { version: "2.0" },
    scene: 0,
    scenes: [{ nodes: [0] }],
    nodes: [{ mesh: 0 }],
    meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1 }] }],
    accessors: [
      { bufferView: 0, componentType: 5126, count: vertices.length / 3, type: "VEC3" },
      { bufferView: 1, componentType: 5123, count: triangles.length, type: "SCALAR" },
    ],
    bufferViews: [
      { buffer: 0, byteOffset: 0, byteLength: split },
      { buffer: 0, byteOffset: split, byteLength: 2 * triangles.length },
    ],
    buffers: [{ byteLength: split + 2 * triangles.length }],
    ...over,
  };
}

/** Binary glTF: header, JSON chunk, data chunk. */
export function glb(document: object, data: Uint8Array): Uint8Array {
  const json = encode(JSON.stringify(document));
  const jsonLength = 4 * Math.ceil(json.length / 4);
  const dataLength = 4 * Math.ceil(data.length / 4);
  const out = new Uint8Array(12 + 8 + jsonLength + 8 + dataLength).fill(32, 20, 20 + jsonLength);
  const view = new DataView(out.buffer);
  [0x46546c67, 2, out.length, jsonLength, 0x4e4f534a].forEach((word, i) => {
    view.setUint32(4 * i, word, true);
  });
  out.set(json, 20);
  view.setUint32(20 + jsonLength, dataLength, true);
  view.setUint32(24 + jsonLength, 0x004e4942, true);
  out.set(data, 28 + jsonLength);
  return out;
}
