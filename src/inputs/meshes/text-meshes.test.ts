import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readObj } from "./obj.ts";
import { readStl } from "./stl.ts";
import type { Plain } from "./test-files.ts";
import { encode, objText, soup, stlBinary, stlText, WEDGE } from "./test-files.ts";
import type { MeshRead, RawMesh } from "./types.ts";

function mesh(read: MeshRead): RawMesh {
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join("; "));
  return read.mesh;
}

function told(read: MeshRead): string[] {
  if (read.ok) return [];
  return read.problems.map(({ line, column, message }) =>
    [line, column, message].filter((x) => x !== undefined).join(":"),
  );
}

const single = fc.float({ noNaN: true, noDefaultInfinity: true });
const plain: fc.Arbitrary<Plain> = fc.integer({ min: 3, max: 12 }).chain((count) =>
  fc.record({
    vertices: fc.array(single, { minLength: 3 * count, maxLength: 3 * count }),
    triangles: fc
      .array(fc.tuple(fc.nat(count - 1), fc.nat(count - 1), fc.nat(count - 1)), { minLength: 1, maxLength: 20 })
      .map((faces) => faces.flat()),
  }),
);
/** -0 and 0 are one number. */
const same = (values: readonly number[]) => values.map((value) => value + 0);

describe("STL", () => {
  it("comes back as it was written, binary and text", () => {
    fc.assert(
      fc.property(plain, fc.constantFrom("\n", "\r\n", "\r"), (surface, end) => {
        expect(same(soup(mesh(readStl(stlBinary(surface)))))).toEqual(same(soup(surface)));
        expect(same(soup(mesh(readStl(stlText(surface, end)))))).toEqual(same(soup(surface)));
      }),
      { numRuns: 60 },
    );
  });

  it("is told apart by its length, not by its first word", () => {
    const disguised = stlBinary(WEDGE, "solid facet normal vertex");
    expect(soup(mesh(readStl(disguised)))).toEqual(soup(WEDGE));
    expect(told(readStl(disguised.subarray(0, -1)))[0]).toMatch(
      /^the file is truncated, or no STL file: .* 4 triangles/,
    );
    expect(soup(mesh(readStl(encode(`\n \t${String.fromCharCode(...stlText(WEDGE))}`))))).toEqual(soup(WEDGE));
  });

  it("may lie anywhere in a larger buffer", () => {
    const bytes = stlBinary(WEDGE);
    const larger = new Uint8Array(bytes.length + 13);
    larger.set(bytes, 7);
    expect(soup(mesh(readStl(larger.subarray(7, 7 + bytes.length))))).toEqual(soup(WEDGE));
  });

  it("words in capitals and several solids in one text are read", () => {
    const one = String.fromCharCode(...stlText(WEDGE)).toUpperCase();
    expect(soup(mesh(readStl(encode(one + one))))).toEqual([...soup(WEDGE), ...soup(WEDGE)]);
  });

  it.each([
    ["solid a\n", "1:the file is truncated: the last solid does not end"],
    ["solid a\nfacet normal 0 0 1\nvertex 1 2\nendfacet\nendsolid", "3:1:a corner needs three numbers"],
    ["solid a\nvertex 1 2 3\nendsolid", "2:1:a corner stands outside of a facet"],
    ["solid a\nfacet normal 0 0 1\nfacet normal 0 0 1\nendsolid", "3:1:a facet begins before the last one ends"],
    ["", "the file is not an STL file"],
    ["hello", "the file is not an STL file"],
  ])("%j is refused", (text, expected) => {
    expect(told(readStl(encode(text)))[0]).toBe(expected);
  });

  it("lists at most twenty problems", () => {
    const bad = Array.from({ length: 100 }, () => "x").join("\n");
    expect(told(readStl(encode(`solid a\n${bad}\nendsolid`)))).toHaveLength(20);
  });
});

describe("OBJ", () => {
  it("comes back as it was written, shared corners and all", () => {
    fc.assert(
      fc.property(plain, (surface) => {
        const read = mesh(readObj(encode(objText(surface))));
        expect(same([...read.vertices])).toEqual(same(surface.vertices.slice()));
        expect([...read.triangles]).toEqual(surface.triangles);
      }),
      { numRuns: 60 },
    );
  });

  it("a face of many corners becomes a fan; negative numbers count back; the rest is passed over", () => {
    const text = `# a square with a roof
mtllib none.mtl
o part one
v 0 0 0 0.5 0.5 0.5
v 1 0 0
v 1 1 0 1.0
v 0 1 0
vt 0 0
g side of the part
s off
usemtl grey
f 1/1/1 2//1 3/1 4   # closes
v 0.5 0.5 1
l 1 2
f -1 \\
  -5 -4
`;
    const read = mesh(readObj(encode(text)));
    expect([...read.vertices.slice(0, 6)]).toEqual([0, 0, 0, 1, 0, 0]);
    expect([...read.triangles]).toEqual([0, 1, 2, 0, 2, 3, 4, 0, 1]);
  });

  it("a face may name a point that follows, if it does follow", () => {
    expect([...mesh(readObj(encode("v 0 0 0\nv 1 0 0\nf 1 2 3\nv 0 1 0\n"))).triangles]).toEqual([0, 1, 2]);
    expect(told(readObj(encode("v 0 0 0\nv 1 0 0\nf 1 2 3\n")))).toEqual([
      "3:7:there is no such point; the file has 2",
    ]);
  });

  it("curved surfaces are refused, because leaving them out would change the shape", () => {
    expect(told(readObj(encode("v 0 0 0\ncstype bspline\n")))).toEqual(["2:1:the file holds curved surfaces"]);
  });

  it("reading never throws, and what it accepts has all its corners", () => {
    const word = fc.constantFrom(
      "v",
      "f",
      "1",
      "-1",
      "0",
      "2/3",
      "1e400",
      "nan",
      "\n",
      " ",
      "\\\n",
      "#",
      "g",
      "\r",
      "4",
    );
    fc.assert(
      fc.property(fc.array(word, { maxLength: 60 }), fc.uint8Array({ maxLength: 200 }), (words, bytes) => {
        for (const read of [readObj(encode(words.join(" "))), readObj(bytes), readStl(bytes)]) {
          if (!read.ok) {
            expect(read.problems.length).toBeGreaterThan(0);
            continue;
          }
          expect([...read.mesh.vertices].every(Number.isFinite)).toBe(true);
          expect([...read.mesh.triangles].every((index) => 3 * index < read.mesh.vertices.length)).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });
});
