import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BugError } from "../../math/errors.ts";
import { canonicalJson } from "./index.ts";

describe("canonical JSON", () => {
  it("sorts keys, names first, keeps lists, ends with a newline", () => {
    expect(canonicalJson({ b: 1, a: [3, 1, 2], id: "x", schema: "s", empty: {}, none: [] })).toBe(
      '{\n  "schema": "s",\n  "id": "x",\n  "a": [3, 1, 2],\n  "b": 1,\n  "empty": {},\n  "none": []\n}\n',
    );
  });

  it("puts lists of lists on lines of their own", () => {
    expect(canonicalJson([[1, 2], [], [{ a: null }]])).toBe(
      '[\n  [1, 2],\n  [],\n  [\n    {\n      "a": null\n    }\n  ]\n]\n',
    );
  });

  it("reads back to the same data and does not depend on the order of keys", () => {
    const plain = fc.letrec((tie) => ({
      value: fc.oneof(
        { depthSize: "small" },
        fc.string(),
        fc.boolean(),
        fc.constant(null),
        fc.double({ noNaN: true, noDefaultInfinity: true }).map((x) => (x === 0 ? 0 : x)),
        fc.array(tie("value")),
        fc
          .dictionary(
            fc.string().filter((key) => key !== "__proto__"),
            tie("value"),
          )
          .map((o) => ({ ...o })),
      ),
    })).value;
    const reversed = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(reversed);
      if (typeof value !== "object" || value === null) return value;
      return Object.fromEntries(
        Object.entries(value)
          .reverse()
          .map(([key, item]) => [key, reversed(item)]),
      );
    };
    fc.assert(
      fc.property(plain, (value) => {
        const text = canonicalJson(value);
        expect(JSON.parse(text)).toEqual(value);
        expect(canonicalJson(JSON.parse(text))).toBe(text);
        expect(canonicalJson(reversed(value))).toBe(text);
      }),
    );
  });

  it("prints every finite number so that it reads back to the same double", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (x) => {
        expect(Number(canonicalJson(x))).toBe(x === 0 ? 0 : x);
      }),
    );
    expect(canonicalJson(-0)).toBe("0\n");
    expect(canonicalJson(0.1 + 0.2)).toBe("0.30000000000000004\n");
  });

  it("leaves out undefined keys and refuses everything that is not plain data, naming the place", () => {
    expect(canonicalJson({ a: undefined, b: 1 })).toBe('{\n  "b": 1\n}\n');
    expect(() => canonicalJson({ a: { b: [1, Number.NaN] } })).toThrow(new BugError("result holds NaN at a.b[1]"));
    expect(() => canonicalJson({ a: Number.NEGATIVE_INFINITY })).toThrow("result holds -Infinity at a");
    expect(() => canonicalJson([undefined])).toThrow("result holds an undefined value at [0]");
    expect(() => canonicalJson({ a: new Float64Array(2) })).toThrow("not plain data at a");
    expect(() => canonicalJson({ a: () => 1 })).toThrow("result holds a function at a");
    expect(() => canonicalJson({ a: 1n })).toThrow(BugError);
  });
});
