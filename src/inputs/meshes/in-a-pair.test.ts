import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { InputError } from "../../math/errors.ts";
import type { LoadedPair, LoadOptions } from "../pair/index.ts";
import { loadPair } from "../pair/index.ts";
import { hashInputs } from "../reads/index.ts";
import type { MeshValue } from "../schema/index.ts";
import { encode, glb, gltfBuffer, gltfDocument, objText, stlBinary, WEDGE } from "./test-files.ts";

const DEMO = fileURLToPath(new URL("../../../demo/longshore/", import.meta.url));
const PAIR = "longshore.pair.yaml";
const DEMO_FILES = new Map(readdirSync(DEMO).map((file) => [file, readFileSync(`${DEMO}${file}`)]));

type Files = Readonly<Record<string, Uint8Array>>;

/** The demo with one more shape on the carrier, and how often each file was read. */
function load(
  shape: string,
  files: Files,
  options: LoadOptions = {},
): { loaded: LoadedPair; reads: Map<string, number> } {
  const text = DEMO_FILES.get(PAIR)!.toString("utf8").replace("  shapes:\n", `  shapes:\n    part: ${shape}\n`);
  const reads = new Map<string, number>();
  const all: Files = { [PAIR]: new TextEncoder().encode(text), ...files };
  const loaded = loadPair(
    PAIR,
    (path) => {
      reads.set(path, (reads.get(path) ?? 0) + 1);
      const bytes = all[path] ?? DEMO_FILES.get(path);
      return bytes === undefined ? { ok: false, reason: "there is no such file" } : { ok: true, bytes };
    },
    options,
  );
  return { loaded, reads };
}

function meshOf(loaded: LoadedPair): MeshValue {
  const value = loaded.values.get("carrier.shapes.part.file");
  if (typeof value !== "object" || value.type !== "mesh") throw new Error("no mesh");
  return value;
}

function told(run: () => unknown): string {
  try {
    run();
  } catch (caught) {
    if (caught instanceof InputError) return caught.message;
    throw caught;
  }
  return "";
}

describe("a mesh of the pair", () => {
  const stl = { "part.stl": stlBinary(WEDGE) };
  const shape =
    "{ kind: mesh, file: part.stl, unit: ft, axes: body, origin: { FS: 20 m, BL: 1 m, WL: 2 m }, length: 8 ft }";

  it("is a value in metres and stations, at its path, read once for all variants", () => {
    const { loaded, reads } = load(shape, stl);
    const mesh = meshOf(loaded);
    const part = loaded.pair.carrier.shapes!.part!;
    expect(part.kind === "mesh" && part.file).toBe(mesh);
    expect(mesh).toMatchObject({ path: "carrier.shapes.part.file", file: "part.stl" });
    // second corner of the second triangle: x 8 forward, y 0.5 right
    expect([...mesh.vertices.slice(12, 15)]).toEqual([20 - 8 * 0.3048, 1 + 0.5 * 0.3048, 2]);
    expect(mesh.provenance.source).toBe("invented for the demonstration");
    expect(reads.get("part.stl")).toBe(1);
    expect(loaded.files.find(({ path }) => path === "part.stl")?.sha256).toBe(mesh.sha256);
  });

  it("counts in the hash of the inputs, with its unit, axes and place", () => {
    const path = ["carrier.shapes.part.file"];
    const of = (text: string, files: Files = stl) => hashInputs(load(text, files).loaded, path);
    const base = of(shape);
    expect(of(shape)).toBe(base);
    const moved = { ...WEDGE, vertices: WEDGE.vertices.map((value, i) => (i === 11 ? 2.5 : value)) };
    const others = [
      of(shape, { "part.stl": stlBinary(moved) }),
      of(shape.replace("FS: 20 m", "FS: 21 m")),
      of(shape.replace("body", "stations")),
      of(shape.replace("unit: ft", "unit: m").replace("8 ft", "8 m")),
    ];
    expect(new Set([base, ...others]).size).toBe(5);
  });

  it("may be changed by a setting, and takes its own provenance from the command line", () => {
    const { loaded } = load(
      shape,
      { ...stl, "b.obj": encode(objText(WEDGE)) },
      { set: ["carrier.shapes.part.file=b.obj"] },
    );
    expect(meshOf(loaded)).toMatchObject({ file: "b.obj", provenance: { source: "set on the command line" } });
    expect(meshOf(loaded).triangles).toEqual(Uint32Array.from(WEDGE.triangles));
  });

  it("glTF is in metres unless it says otherwise; a buffer beside it counts in the hash and the list of files", () => {
    const data = gltfBuffer(WEDGE);
    const json = encode(
      JSON.stringify(gltfDocument(WEDGE, { buffers: [{ byteLength: data.length, uri: "part.bin" }] })),
    );
    const inFolder = { "shapes/part.gltf": json, "shapes/part.bin": data };
    const text = "{ kind: mesh, file: shapes/part.gltf, axes: stations, length: 8 m }";
    const { loaded } = load(text, inFolder);
    expect([...meshOf(loaded).vertices]).toEqual(WEDGE.vertices);
    expect(loaded.files.map(({ path }) => path)).toEqual(expect.arrayContaining(Object.keys(inFolder)));
    const bent = data.slice();
    new DataView(bent.buffer).setFloat32(0, 0.125, true);
    const other = load(text, { ...inFolder, "shapes/part.bin": bent }).loaded;
    expect(meshOf(other).sha256).not.toBe(meshOf(loaded).sha256);
    const feet = "{ kind: mesh, file: part.glb, unit: ft, axes: stations, length: 8 ft }";
    const small = load(feet, { "part.glb": glb(gltfDocument(WEDGE), data) }).loaded;
    expect(meshOf(small).vertices[3]).toBe(8 * 0.3048);
    const outside = encode(JSON.stringify(gltfDocument(WEDGE, { buffers: [{ byteLength: 1, uri: "../../x.bin" }] })));
    expect(told(() => load(text, { "shapes/part.gltf": outside }))).toContain("leaves the folder of the pair");
  });

  it("STEP goes through the importer of the caller", () => {
    const text = "{ kind: mesh, file: part.step, axes: stations, length: 8 m }";
    const files = { "part.step": encode("ISO-10303-21;") };
    const vertices = Float64Array.from(WEDGE.vertices);
    const triangles = Uint32Array.from(WEDGE.triangles);
    const importStep = (bytes: Uint8Array) => {
      expect(bytes).toBe(files["part.step"]);
      return { ok: true, vertices, triangles } as const;
    };
    expect(meshOf(load(text, files, { importStep }).loaded).vertices).toEqual(vertices);
    expect(told(() => load(text, files))).toContain("STEP files cannot be read");
  });

  it("a length that no unit explains is told at the length", () => {
    expect(told(() => load(shape.replace("8 ft", "5 m"), stl))).toMatch(
      /part\.length: the longest side .* 2\.438 m in ft/,
    );
  });
});
