import { eachLine, finiteNumber, looksLikeText, wordsOf } from "./lines.ts";
import type { MeshProblem, MeshRead } from "./types.ts";
import { MOST_PROBLEMS, MOST_TRIANGLES, refuse } from "./types.ts";

const HEADER = 84;
const RECORD = 50;

/**
 * Reads an STL file, binary or text.
 *
 * A file whose length is exactly what its triangle count needs is binary, even if it begins with `solid`; otherwise text that
 * begins with `solid` is a text file. Corners are not joined, stored normals are not used: the corners' turning sense counts.
 *
 * @param bytes  of the file
 * @returns the surface in the file's numbers, or every problem found, the first 20 of them
 * @source layout of STL as commonly written (common practice, no source)
 */
export function readStl(bytes: Uint8Array): MeshRead {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = bytes.length >= HEADER ? view.getUint32(80, true) : 0;
  const needed = HEADER + RECORD * count;
  if (bytes.length >= HEADER && bytes.length === needed) return readBinary(view, count);
  if (looksLikeText(bytes) && /^\s*solid\b/i.test(String.fromCharCode(...bytes.subarray(0, 200))))
    return readText(bytes);
  if (bytes.length < HEADER || looksLikeText(bytes))
    return refuse("the file is not an STL file", { allowed: "STL, binary or text" });
  const says = `its header says ${count} triangles, which need ${needed} bytes, but it has ${bytes.length}`;
  return refuse(
    bytes.length < needed
      ? `the file is truncated, or no STL file: ${says}`
      : `the file goes on after its last triangle, or is no STL file: ${says}`,
  );
}

function readBinary(view: DataView, count: number): MeshRead {
  if (count === 0) return refuse("the file holds no triangles");
  if (count > MOST_TRIANGLES) return refuse(`the file holds more than ${MOST_TRIANGLES} triangles`);
  const vertices = new Float64Array(9 * count);
  const problems: MeshProblem[] = [];
  for (let i = 0; i < count && problems.length < MOST_PROBLEMS; i++) {
    let sum = 0;
    for (let k = 0; k < 9; k++) {
      const value = view.getFloat32(HEADER + RECORD * i + 12 + 4 * k, true);
      vertices[9 * i + k] = value;
      sum += value - value;
    }
    if (sum !== 0) problems.push({ message: `a corner of triangle ${i + 1} is not a finite number` });
  }
  return finish(vertices, problems);
}

/** The triangles of corners that come one after the other. */
function finish(vertices: Float64Array, problems: readonly MeshProblem[]): MeshRead {
  if (problems.length > 0) return { ok: false, problems };
  const triangles = Uint32Array.from({ length: vertices.length / 3 }, (_, i) => i);
  return { ok: true, mesh: { vertices, triangles } };
}

function readText(bytes: Uint8Array): MeshRead {
  const corners: number[] = [];
  const problems: MeshProblem[] = [];
  let inSolid = false;
  // corners of the facet that is open; −1 outside of facets
  let open = -1;
  let last = 1;
  const wrong = (message: string, line: number, column: number, value?: string) =>
    problems.push({ message, line, column, ...(value === undefined ? {} : { value }) });
  eachLine(bytes, (line, number) => {
    const [first, ...rest] = wordsOf(line);
    if (first === undefined) return true;
    last = number;
    const word = first.text.toLowerCase();
    if (word === "solid") inSolid = true;
    else if (word === "endsolid") inSolid = false;
    else if (word === "facet") {
      if (open >= 0) wrong("a facet begins before the last one ends", number, first.column);
      open = 0;
    } else if (word === "vertex") {
      const values = rest.slice(0, 3).map(({ text }) => finiteNumber(text));
      const bad = rest.find((_, i) => Number.isNaN(values[i]!) && i < 3);
      if (rest.length !== 3) wrong("a corner needs three numbers", number, first.column);
      else if (bad !== undefined) wrong("is not a finite number", number, bad.column, bad.text);
      if (open < 0) wrong("a corner stands outside of a facet", number, first.column);
      corners.push(...(rest.length === 3 ? values : [0, 0, 0]));
      open++;
    } else if (word === "endfacet") {
      if (open !== 3) wrong(`a facet has ${Math.max(open, 0)} corners`, number, first.column);
      open = -1;
    } else if (word !== "outer" && word !== "endloop") {
      wrong("is not a word of STL", number, first.column, first.text);
    }
    return problems.length < MOST_PROBLEMS;
  });
  if (problems.length === 0 && (open >= 0 || inSolid)) {
    problems.push({
      message: `the file is truncated: the last ${open >= 0 ? "facet" : "solid"} does not end`,
      line: last,
    });
  }
  if (problems.length === 0 && corners.length === 0) return refuse("the file holds no triangles");
  return finish(Float64Array.from(corners), problems);
}
