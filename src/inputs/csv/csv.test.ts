import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Issue } from "../../math/errors.ts";
import type { Columns } from "../schema/index.ts";
import { cellStart, lineOf } from "./cells.ts";
import { readTable } from "./read.ts";

const SPEC: Columns<string> = {
  angle: { kind: "angle", breakpoints: true },
  force: { kind: "force" },
};

const LOG: Columns<string> = {
  n: { kind: "number" },
  day: { kind: "words", day: true },
  what: { kind: "words", choices: ["up", "down"], gaps: true },
  size: { kind: "length", gaps: true },
  who: { kind: "words", optional: true },
  mass: { kind: "mass", optional: true },
};

function read(text: string, spec = SPEC) {
  const issues: Issue[] = [];
  const read = readTable(text, "t.csv", "mechanism.t", spec, issues);
  return {
    columns: read?.columns,
    words: read?.words,
    issues,
    told: issues.map((each) => `${each.line}:${each.column} ${each.message}`),
  };
}

describe("tables", () => {
  it("come out in SI, whatever the order of the columns", () => {
    const { columns, issues } = read("force,angle\nkN,deg\n1,0\n-2.5e0,180\n");
    expect(issues).toEqual([]);
    expect([...columns!.force!]).toEqual([1000, -2500]);
    expect([...columns!.angle!]).toEqual([0, Math.PI]);
  });

  it("may have comments, empty lines, blanks, quotes, a byte order mark and Windows line ends", () => {
    const text = '\ufeff# a table\r\nangle, force\r\n\r\n"deg" , N\r\n# rows\r\n 1 ,"2"\r\n2,3\r\n';
    const { columns, issues } = read(text);
    expect(issues).toEqual([]);
    expect([...columns!.force!]).toEqual([2, 3]);
  });

  it("random numbers come back exactly", () => {
    const rows = fc.array(fc.double({ noNaN: true, noDefaultInfinity: true }), { minLength: 2, maxLength: 30 });
    fc.assert(
      fc.property(rows, (values) => {
        const text = `angle,force\nrad,N\n${values.map((value, i) => `${i},${value}`).join("\n")}\n`;
        const { columns, issues } = read(text);
        expect(issues).toEqual([]);
        expect([...columns!.force!]).toEqual(values.map((value) => (value === 0 ? 0 : value)));
      }),
    );
  });

  it("problems carry line and column", () => {
    const { told } = read('angle,force\ndeg,N\n1,2\n 1, x\n3,"4,5"\n');
    expect(told).toEqual([
      "4:2 the breakpoints of angle do not rise",
      "4:5 does not start with a number",
      '5:3 "," in a number can be read in two ways; use a decimal point',
    ]);
  });

  it.each([
    ["", "undefined:undefined the file is empty"],
    ["angle,force\n", "1:1 has no units row and no rows"],
    ["angle,force\n1,2\n3,4\n", "2:1 has no units row"],
    ["1,2\n3,4\n", "1:1 has no row of column names"],
    ["angle,force\ndeg,N\n1,2\n", "2:1 has too few rows"],
    ["angle;force\ndeg;N\n1;2\n", "1:1 the cells are separated by semicolons"],
    ["angle\tforce\ndeg\tN\n", "1:1 the cells are separated by tabs"],
    ["angle,force\ndeg,\n1,2\n2,3\n", "2:5 a unit is missing"],
    ["angle,force\ndeg,kg\n1,2\n2,3\n", "2:5 kg is a mass, but a force is due"],
    ["angle,force\ndeg,kN/\n1,2\n2,3\n", "2:8 a unit is missing at the end"],
    ["angle,force\ndeg\n1,2\n2,3\n", "2:1 the row has 1 cell"],
    ["angle,force,angle\ndeg,N,deg\n", '1:13 duplicate column "angle"'],
    ["angle,farce\ndeg,N\n", '1:7 unknown column "farce"; did you mean force?'],
    ['angle,force\ndeg,N\n1,"2\n', "3:3 a quotation mark does not close"],
    ['angle,force\ndeg,N\n1,"2"3\n2,3\n', "3:1 something follows a closing quotation mark"],
    ["angle,force\ndeg,N\n1,0x10\n2,3\n", "3:3 is not a number alone; the unit stands in the units row"],
    ["angle,force\ndeg,N\n1,1e999\n2,3\n", "3:3 is too large for a number"],
  ])("%j", (text, expected) => {
    const { columns, told } = read(text);
    expect(columns).toBeUndefined();
    expect(told[0]).toBe(expected);
  });

  it("may hold words, days, gaps, and lack columns that may be left out", () => {
    const { columns, words, issues } = read("n,day,what,size\n1,-,-,m\n1,2026-10-01,up,2\n2,2026-10-02,,\n", LOG);
    expect(issues).toEqual([]);
    expect([...columns!.what!]).toEqual([0, -1]);
    expect([...columns!.size!]).toEqual([2, Number.NaN]);
    expect([...columns!.who!]).toEqual([-1, -1]);
    expect([...columns!.mass!]).toEqual([Number.NaN, Number.NaN]);
    expect(words!.day!.words).toEqual(["2026-10-01", "2026-10-02"]);
    expect(words!.what!.places[1]).toEqual({ file: "t.csv", line: 4, column: 14 });
  });

  it.each([
    ["n,day,what,size\n1,-,1,m\n1,2026-10-01,up,2\n", "2:5 what holds words, which have no unit"],
    ["n,day,what,size\n1,-,-,m\n1,2026-13-01,up,2\n", "3:3 is not a day"],
    ["n,day,what,size\n1,-,-,m\n1,2025-02-29,up,2\n", "3:3 is not a day"],
    ["n,day,what,size\n1,-,-,m\n1,2026-10-01,dwon,2\n", "3:14 is not one of the choices; did you mean down?"],
    ["n,day,what,size\n1,-,-,m\n1,,up,2\n", "3:3 a cell is empty"],
    ["n,day,what,size\n1,-,-,m\n,2026-10-01,up,2\n", "3:1 a cell is empty"],
    ["n,day,what\n1,-,-\n1,2026-10-01,up\n", '1:1 the column "size" is missing'],
    ["n,day,what,size\n1,-,-,m\n", "2:1 has too few rows"],
    ["n,day,what,size\n1,2026-10-01,up,2\n2,2026-10-01,up,2\n", "2:3 day holds words, which have no unit"],
  ])("words: %j", (text, expected) => {
    const { columns, told } = read(text, LOG);
    expect(columns).toBeUndefined();
    expect(told[0]).toBe(expected);
  });

  it("the list of problems of one file ends at twenty", () => {
    const rows = Array.from({ length: 500 }, () => "x,y").join("\n");
    const { issues } = read(`angle,force\ndeg,N\n${rows}\n`);
    expect(issues).toHaveLength(20);
    expect(issues.at(-1)!.message).toBe("the file has more problems than are listed");
  });

  it("never throws", () => {
    const soup = fc.array(
      fc.constantFrom("angle", "force", ",", "\n", "deg", "N", "1", '"', " ", "#", ";", "\r\n", "é", "-"),
      { maxLength: 40 },
    );
    fc.assert(
      fc.property(soup, fc.string(), (parts, other) => {
        for (const text of [parts.join(""), other]) {
          const { columns, issues } = read(text);
          expect(columns === undefined).toBe(issues.length > 0);
        }
      }),
      { numRuns: 500 },
    );
  });
});

describe("cells", () => {
  it("are found in their line", () => {
    expect([cellStart("a,b,c", 0), cellStart("a,b,c", 2), cellStart('"a,b", c', 1)]).toEqual([0, 4, 7]);
    expect([lineOf("a\r\nb\nc", 1), lineOf("a\r\nb\nc", 3), lineOf("a", 5)]).toEqual(["a", "c", ""]);
  });
});
