import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readGltf } from "./gltf.ts";
import { decodeBase64 } from "./gltf-container.ts";
import { multiply, nodeMatrix, turnsOver } from "./gltf-transform.ts";
import { encode, glb, gltfBuffer, gltfDocument, soup, WEDGE } from "./test-files.ts";
import type { MeshRead, RawMesh, ReadSibling } from "./types.ts";

const alone: ReadSibling = () => ({ ok: false, reason: "there is no such file" });

function mesh(read: MeshRead): RawMesh {
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join("; "));
  return read.mesh;
}

const binary = (over: object = {}) => readGltf(glb(gltfDocument(WEDGE, over), gltfBuffer(WEDGE)), alone);
const message = (read: MeshRead) => (read.ok ? "" : read.problems[0]!.message);

/** Six times the enclosed volume. */
function volume6({ vertices: v, triangles: t }: { vertices: ArrayLike<number>; triangles: ArrayLike<number> }): number {
  let sum = 0;
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => [0, 1, 2].map((j) => v[3 * t[i + k]! + j]!)) as [
      number[],
      number[],
      number[],
    ];
    sum +=
      a[0]! * (b[1]! * c[2]! - b[2]! * c[1]!) +
      a[1]! * (b[2]! * c[0]! - b[0]! * c[2]!) +
      a[2]! * (b[0]! * c[1]! - b[1]! * c[0]!);
  }
  return sum;
}

describe("glTF", () => {
  it("comes back as it was written: in one file, with data in the text, and with a file beside it", () => {
    const data = gltfBuffer(WEDGE);
    const text = (uri: string) =>
      encode(JSON.stringify(gltfDocument(WEDGE, { buffers: [{ byteLength: data.length, uri }] })));
    const base64 = Buffer.from(data).toString("base64");
    const asked: string[] = [];
    const sibling: ReadSibling = (reference) => {
      asked.push(reference);
      return { ok: true, bytes: data };
    };
    for (const read of [
      binary(),
      readGltf(text(`data:application/octet-stream;base64,${base64}`), alone),
      readGltf(text("wing%20one.bin"), sibling),
    ]) {
      expect([...mesh(read).vertices]).toEqual(WEDGE.vertices);
      expect([...mesh(read).triangles]).toEqual(WEDGE.triangles);
    }
    expect(asked).toEqual(["wing one.bin"]);
  });

  it("a wider stride, an offset and indices of one or four bytes give the same surface", () => {
    const [n, m] = [WEDGE.vertices.length / 3, WEDGE.triangles.length];
    const data = new Uint8Array(8 + 20 * n + 4 * m + m);
    const view = new DataView(data.buffer);
    WEDGE.vertices.forEach((value, i) => {
      view.setFloat32(8 + 20 * Math.floor(i / 3) + 4 * (i % 3), value, true);
    });
    WEDGE.triangles.forEach((index, i) => {
      view.setUint32(8 + 20 * n + 4 * i, index, true);
      view.setUint8(8 + 20 * n + 4 * m + i, index);
    });
    for (const [componentType, byteOffset] of [
      [5125, 8 + 20 * n],
      [5121, 8 + 20 * n + 4 * m],
    ] as const) {
      const document = gltfDocument(WEDGE, {
        accessors: [
          { bufferView: 0, byteOffset: 8, componentType: 5126, count: n, type: "VEC3" },
          { bufferView: 1, componentType, count: m, type: "SCALAR" },
        ],
        bufferViews: [
          { buffer: 0, byteLength: 8 + 20 * n, byteStride: 20 },
          { buffer: 0, byteOffset, byteLength: componentType === 5125 ? 4 * m : m },
        ],
        buffers: [{ byteLength: data.length }],
      });
      const read = mesh(readGltf(glb(document, data), alone));
      expect(soup(read)).toEqual(soup(WEDGE));
    }
  });

  it("nodes move their meshes: parent after child, each use of a mesh once", () => {
    const s = Math.SQRT1_2;
    const read = mesh(
      binary({
        scenes: [{ nodes: [0] }],
        nodes: [
          { translation: [10, 0, 0], children: [1, 2] },
          // a quarter turn about z, twice the size: (x, y, z) → (−2 y, 2 x, 2 z)
          { mesh: 0, rotation: [0, 0, s, s], scale: [2, 2, 2] },
          { mesh: 0, matrix: [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 5, 1] },
        ],
      }),
    );
    const corners = soup(read);
    const own = soup(WEDGE);
    const [up, turned] = [corners.slice(0, own.length), corners.slice(own.length)];
    for (let i = 0; i < own.length; i += 3) {
      const [x, y, z] = own.slice(i, i + 3) as [number, number, number];
      expect(up.slice(i, i + 3)).toEqual([x + 10, y, z + 5]);
      [10 - 2 * y, 2 * x, 2 * z].forEach((value, k) => {
        expect(turned[i + k]).toBeCloseTo(value, 12);
      });
    }
  });

  it("a node that mirrors keeps the surface facing outwards", () => {
    const mirrored = mesh(binary({ nodes: [{ mesh: 0, scale: [1, -1, 1] }] }));
    expect(volume6(mirrored)).toBeCloseTo(volume6(WEDGE), 12);
    expect(volume6(WEDGE)).toBeGreaterThan(0);
  });

  it("strips and fans are triangles; points and lines are none", () => {
    const data = new Uint8Array(4 * 12);
    const view = new DataView(data.buffer);
    [0, 0, 0, 1, 0, 0, 0, 1, 0, 1, 1, 0].forEach((value, i) => {
      view.setFloat32(4 * i, value, true);
    });
    const of = (mode: number) =>
      readGltf(
        glb(
          gltfDocument(WEDGE, {
            meshes: [{ primitives: [{ attributes: { POSITION: 0 }, mode }] }],
            accessors: [{ bufferView: 0, componentType: 5126, count: 4, type: "VEC3" }],
            bufferViews: [{ buffer: 0, byteLength: 48 }],
            buffers: [{ byteLength: 48 }],
          }),
          data,
        ),
        alone,
      );
    expect([...mesh(of(5)).triangles]).toEqual([0, 1, 2, 1, 3, 2]);
    expect([...mesh(of(6)).triangles]).toEqual([0, 1, 2, 0, 2, 3]);
    expect(message(of(1))).toBe("the file holds no triangles");
    expect(message(of(4))).toBe("the last triangle of accessor 0 is not whole");
  });

  it("without a scene the nodes at the top are taken, with one only its own", () => {
    const nodes = [{ mesh: 0 }, { children: [0] }, {}];
    expect(mesh(binary({ nodes, scenes: undefined, scene: undefined })).triangles).toHaveLength(12);
    expect(message(binary({ nodes, scenes: [{ nodes: [2] }] }))).toBe("the file holds no triangles");
    expect(message(binary({ scene: 3 }))).toBe("there is no scene 3; the file has 1");
  });

  it.each([
    [{ nodes: [{ mesh: 0, skin: 0 }] }, "node 0 has a skin; export the shape without"],
    [{ nodes: [{ mesh: 1 }] }, "there is no mesh 1; the file has 1"],
    [
      { extensionsRequired: ["EXT_meshopt_compression"] },
      "the file needs the extension EXT_meshopt_compression; export it without",
    ],
    [{ buffers: [{ byteLength: 9999 }] }, "buffer 0 is truncated: 9999 bytes are stated, 72 are there"],
    [{ buffers: [{ byteLength: 4, uri: "data:text/plain,hello" }] }, "a buffer inside the text is not base64"],
    [{ buffers: [{ byteLength: 4, uri: "%" }] }, 'the buffer "%" is no proper reference'],
    [{ meshes: [{ primitives: [{ attributes: {} }] }] }, "mesh 0 has no corner positions"],
    [
      {
        nodes: [
          { scale: [1e200, 1, 1], children: [1] },
          { mesh: 0, scale: [1e200, 1, 1] },
        ],
      },
      "corner 0 of accessor 0 is not a finite number",
    ],
  ])("%j", (over, expected) => {
    expect(message(binary(over))).toBe(expected);
  });

  it("harmless extensions may be required", () => {
    expect(mesh(binary({ extensionsRequired: ["KHR_materials_unlit"] })).triangles).toHaveLength(12);
  });

  it("every way of cutting a file short is told, and nothing throws", () => {
    const whole = glb(gltfDocument(WEDGE), gltfBuffer(WEDGE));
    for (let length = 0; length < whole.length; length += 3) {
      expect(readGltf(whole.subarray(0, length), alone).ok).toBe(false);
    }
    fc.assert(
      fc.property(fc.nat(whole.length - 1), fc.nat(255), (at, byte) => {
        const bent = whole.slice();
        bent[at] = byte;
        const read = readGltf(bent, alone);
        if (read.ok) expect([...read.mesh.vertices].every(Number.isFinite)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});

describe("the parts", () => {
  it("base64 comes back from an independent encoder", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 50 }), (bytes) => {
        expect([...decodeBase64(Buffer.from(bytes).toString("base64"))]).toEqual([...bytes]);
      }),
    );
  });

  it("a rotation is orthonormal and its product with itself turns twice as far", () => {
    const part = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(part, part, part, part), (rotation) => {
        fc.pre(Math.hypot(...rotation) > 1e-3);
        const m = nodeMatrix({ rotation });
        for (const [a, b] of [
          [0, 0],
          [0, 4],
          [4, 8],
          [8, 8],
        ] as const) {
          const dot = m[a]! * m[b]! + m[a + 1]! * m[b + 1]! + m[a + 2]! * m[b + 2]!;
          expect(dot).toBeCloseTo(a === b ? 1 : 0, 12);
        }
        expect(turnsOver(m)).toBe(false);
        const [x, y, z, w] = rotation;
        const twice = nodeMatrix({ rotation: [2 * w * x, 2 * w * y, 2 * w * z, w * w - x * x - y * y - z * z] });
        multiply(m, m).forEach((value, i) => {
          expect(value).toBeCloseTo(twice[i]!, 11);
        });
      }),
    );
  });
});
