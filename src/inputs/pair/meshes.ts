import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import type { Issue } from "../../math/errors.ts";
import type { Value } from "../checks/index.ts";
import type { RawMesh } from "../meshes/index.ts";
import { checkLength, inStations, longestSide, METRES, readMesh } from "../meshes/index.ts";
import type { MeshUnit, MeshValue } from "../schema/index.ts";
import { MESH_AXES, MESH_UNITS, meshFormat } from "../schema/index.ts";
import { ALLOWED_REFERENCE, resolveInside } from "../text/index.ts";
import type { Place } from "../tree/index.ts";
import { describe, find, placeOf } from "../tree/index.ts";
import { LIMITS } from "../yaml/index.ts";
import type { Completing, MeshOfFile } from "./values.ts";
import { resolveReference } from "./values.ts";

type From = Place & { readonly path: string };

/**
 * Reads every mesh file that the values name and puts the surface, in stations and metres, in the place of the reference.
 *
 * @param data     pair data; changed in place
 * @param values   by path; a mesh that could not be read is taken out
 * @param context  where things stand
 */
export function completeMeshes(data: unknown, values: Map<string, Value>, context: Completing): void {
  for (const [path, value] of values) {
    if (typeof value !== "object" || value.type !== "mesh") continue;
    const shape = path.split(".").slice(0, -1);
    const complete = completeOne(value, shape, values, context);
    if (complete === undefined) values.delete(path);
    else values.set(path, complete);
    const at = shape.reduce<unknown>((part, key) => (part as Record<string, unknown>)[key], data);
    (at as Record<string, unknown>).file = complete;
  }
}

function completeOne(
  pending: MeshValue,
  shape: readonly string[],
  values: ReadonlyMap<string, Value>,
  context: Completing,
): MeshValue | undefined {
  const { tree, issues } = context;
  const from = { ...placeOf(tree, [...shape, "file"]), path: pending.path };
  const inside = resolveReference(pending.file, from, context);
  if (inside === undefined) return undefined;
  const found = meshOfFile(inside, from, context);
  const unit = unitOf(pending.file, shape, context);
  if (found === undefined) return undefined;
  const { read } = found;
  if (!read.ok) {
    const file = context.files.shown(inside);
    for (const { message, line, ...facts } of read.problems) {
      // a problem of the file as a whole is told where the pair names it
      const place = line === undefined ? { ...from, value: pending.file } : { path: pending.path, file, line };
      issues.push({ ...place, message, ...facts });
    }
    return undefined;
  }
  const word = (key: string) => values.get([...shape, key].join("."));
  const axes = MESH_AXES.find((each) => each === word("axes"));
  if (unit === undefined || axes === undefined) return undefined;
  compareLength(read.mesh, unit, shape, values, context);
  const origin = originOf(shape, values);
  const placing = JSON.stringify([unit, axes, ...origin]);
  const vertices = inStations(read.mesh, METRES[unit], axes, origin);
  const { triangles } = read.mesh;
  return Object.freeze({ ...pending, file: inside, sha256: found.sha256, placing, vertices, triangles });
}

/** The file's surface, read once for the base and all variants; undefined when the file cannot be opened. */
function meshOfFile(inside: string, from: From, context: Completing): MeshOfFile | undefined {
  const known = context.shared.meshes.get(inside);
  if (known !== undefined) return known;
  const { files, importStep } = context;
  const bytes = files.bytes(inside, LIMITS.meshBytes, context.issues, from);
  if (bytes === undefined) return undefined;
  const hashes = [files.hash(inside)];
  const sibling = (reference: string) => {
    const target = resolveInside(inside, reference);
    if (!target.ok) return { ok: false, reason: `${target.reason}; it must be ${ALLOWED_REFERENCE}` } as const;
    const problems: Issue[] = [];
    const found = files.bytes(target.inside, LIMITS.meshBytes, problems, from);
    if (found === undefined) return { ok: false, reason: problems[0]!.message } as const;
    hashes.push(files.hash(target.inside));
    return { ok: true, bytes: found } as const;
  };
  const read = readMesh(bytes, meshFormat(inside)!, { sibling, importStep });
  const hash = hashes.length === 1 ? hashes[0]! : bytesToHex(sha256(utf8ToBytes(hashes.join("\n"))));
  const made = { read, sha256: hash };
  context.shared.meshes.set(inside, made);
  return made;
}

/** Unit of the file's numbers; what STL and OBJ leave open must be stated, what STEP states must not. */
function unitOf(file: string, shape: readonly string[], context: Completing): MeshUnit | undefined {
  const format = meshFormat(file);
  const path = [...shape, "unit"];
  const at = find(context.tree, path);
  const stated = at?.kind === "scalar" ? MESH_UNITS.find((each) => each === at.text.trim()) : undefined;
  const base = { path: path.join("."), ...placeOf(context.tree, path) };
  if (at === undefined && (format === "STL" || format === "OBJ")) {
    const message = `is missing; ${format === "STL" ? "an STL" : "an OBJ"} file does not say its unit`;
    context.issues.push({ ...base, message, allowed: MESH_UNITS.join(", ") });
    return undefined;
  }
  if (at !== undefined && format === "STEP") {
    const value = describe(at);
    const message = "a STEP file states its own unit";
    context.issues.push({ ...base, message, ...(value === undefined ? {} : { value }), allowed: "no unit here" });
    return undefined;
  }
  return at === undefined ? "m" : stated;
}

/** The stated length against the surface: a wrong unit, or another part than was meant. */
function compareLength(
  mesh: RawMesh,
  unit: MeshUnit,
  shape: readonly string[],
  values: ReadonlyMap<string, Value>,
  context: Completing,
): void {
  const path = [...shape, "length"];
  const stated = values.get(path.join("."));
  if (typeof stated !== "object" || stated.type !== "quantity") return;
  const side = longestSide(mesh);
  const fits = checkLength(side, unit, stated.si);
  if (fits.ok) return;
  const size = Number((side * METRES[unit]).toPrecision(4));
  const message = `the longest side of the surface is ${size} m in ${unit}, but the stated length is ${stated.text}`;
  const at =
    fits.fitting === undefined || find(context.tree, [...shape, "unit"]) === undefined ? path : [...shape, "unit"];
  const value = describe(find(context.tree, at));
  context.issues.push({
    path: at.join("."),
    ...placeOf(context.tree, at),
    message: fits.fitting === undefined ? message : `${message}; the numbers fit ${fits.fitting}`,
    ...(value === undefined || value === "a map" ? {} : { value }),
    allowed: fits.fitting === undefined ? `${size} m, or another file` : `${fits.fitting}, or another file`,
  });
}

function originOf(shape: readonly string[], values: ReadonlyMap<string, Value>): [number, number, number] {
  return ["FS", "BL", "WL"].map((key) => {
    const value = values.get([...shape, "origin", key].join("."));
    return typeof value === "object" && value.type === "quantity" ? value.si : 0;
  }) as [number, number, number];
}
