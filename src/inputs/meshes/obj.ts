import type { Word } from "./lines.ts";
import { eachLine, finiteNumber, looksLikeText, wordsOf } from "./lines.ts";
import type { MeshProblem, MeshRead } from "./types.ts";
import { MOST_PROBLEMS, refuse } from "./types.ts";

/** Keywords of curved surfaces; leaving them out would leave out parts of the shape. */
const CURVED = ["cstype", "curv", "curv2", "surf", "bzp", "bsp", "cdc", "cdp", "res"];

interface Reading {
  readonly corners: number[];
  /** Corner numbers from 0, three for each triangle. */
  readonly triangles: number[];
  /** Corners that were named before the file gave the point. */
  readonly ahead: { readonly index: number; readonly line: number; readonly column: number; readonly value: string }[];
  readonly problems: MeshProblem[];
}

/**
 * Reads an OBJ file: points (`v`) and faces (`f`).
 *
 * A face of more than three corners becomes a fan from its first corner. Negative numbers count back from the last point.
 * Groups, normals, texture, materials, lines and points do not matter to the shape and are passed over; curved surfaces are refused.
 *
 * @param bytes  of the file
 * @returns the surface in the file's numbers, or every problem found, the first 20 of them
 * @source layout of OBJ as commonly written (common practice, no source)
 */
export function readObj(bytes: Uint8Array): MeshRead {
  if (!looksLikeText(bytes)) return refuse("the file is not an OBJ file", { allowed: "OBJ text" });
  const reading: Reading = { corners: [], triangles: [], ahead: [], problems: [] };
  let held = "";
  eachLine(bytes, (text, number) => {
    const line = held + text;
    if (line.endsWith("\\")) {
      held = `${line.slice(0, -1)} `;
      return true;
    }
    held = "";
    const hash = line.indexOf("#");
    const [first, ...rest] = wordsOf(hash < 0 ? line : line.slice(0, hash));
    if (first?.text === "v") readPoint(reading, rest, number, first);
    else if (first?.text === "f") readFace(reading, rest, number, first);
    else if (first !== undefined && CURVED.includes(first.text)) {
      const allowed = "faces; export the shape as polygons";
      reading.problems.push({
        message: "the file holds curved surfaces",
        line: number,
        column: first.column,
        value: first.text,
        allowed,
      });
    }
    return reading.problems.length < MOST_PROBLEMS;
  });
  return finish(reading);
}

function readPoint(reading: Reading, rest: readonly Word[], line: number, first: Word): void {
  const { problems, corners } = reading;
  if (rest.length < 3) {
    problems.push({ message: "a point needs three numbers", line, column: first.column });
    corners.push(0, 0, 0);
    return;
  }
  for (const { text, column } of rest.slice(0, 3)) {
    const value = finiteNumber(text);
    if (Number.isNaN(value)) problems.push({ message: "is not a finite number", line, column, value: text });
    corners.push(value);
  }
}

function readFace(reading: Reading, rest: readonly Word[], line: number, first: Word): void {
  const { problems, corners, triangles, ahead } = reading;
  if (rest.length < 3) {
    problems.push({ message: "a face needs three corners", line, column: first.column });
    return;
  }
  const known = corners.length / 3;
  const fan: number[] = [];
  for (const { text, column } of rest) {
    const written = /^([+-]?\d+)(?:\/[+-]?\d*){0,2}$/.exec(text)?.[1];
    const number = Number(written ?? Number.NaN);
    const index = number > 0 ? number - 1 : known + number;
    if (written === undefined) problems.push({ message: "is not a corner of a face", line, column, value: text });
    else if (number === 0 || index < 0) problems.push({ message: outOfRange(known), line, column, value: text });
    else if (index >= known) ahead.push({ index, line, column, value: text });
    fan.push(index);
  }
  for (let i = 2; i < fan.length; i++) triangles.push(fan[0]!, fan[i - 1]!, fan[i]!);
}

const outOfRange = (known: number) => `there is no such point; the file has ${known}`;

function finish({ corners, triangles, ahead, problems }: Reading): MeshRead {
  if (problems.length === 0 && corners.length === 0 && triangles.length === 0) {
    const allowed = "lines that begin with v and f";
    return refuse("the file is not an OBJ file: it has neither points nor faces", { allowed });
  }
  const count = corners.length / 3;
  for (const { index, ...place } of ahead) {
    if (index >= count && problems.length < MOST_PROBLEMS) problems.push({ message: outOfRange(count), ...place });
  }
  if (problems.length > 0) return { ok: false, problems };
  if (triangles.length === 0) return refuse("the file holds no triangles: it has points, but no faces");
  return { ok: true, mesh: { vertices: Float64Array.from(corners), triangles: Uint32Array.from(triangles) } };
}
