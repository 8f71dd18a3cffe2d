import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { editDistance, nearest } from "./nearest.ts";
import { fileNameOf, folderOf, joinPath, resolveInside } from "./paths.ts";
import { decodeUtf8 } from "./utf8.ts";

describe("edit distance", () => {
  const word = fc.string({ maxLength: 8 });

  it("is a symmetric distance that is zero only for equal words", () => {
    fc.assert(
      fc.property(word, word, (a, b) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, b) === 0).toBe(a === b);
        expect(editDistance(a, b)).toBeGreaterThanOrEqual(Math.abs(a.length - b.length));
        expect(editDistance(a, b)).toBeLessThanOrEqual(Math.max(a.length, b.length));
      }),
    );
  });

  it.each([
    ["bendign", "bending", 1],
    ["axail", "axial", 1],
    ["lenght", "length", 1],
    ["", "abc", 3],
    ["kitten", "sitting", 3],
  ])("%s → %s takes %i", (a, b, edits) => {
    expect(editDistance(a, b)).toBe(edits);
  });
});

describe("nearest word", () => {
  it("finds a slip of the pen and is silent when nothing is near", () => {
    expect(nearest("sideforce", ["sideForce", "liftDrag"])).toBe("sideForce");
    expect(nearest("latteral", ["axial", "lateral", "bending"])).toBe("lateral");
    expect(nearest("zebra", ["axial", "lateral", "bending"])).toBeUndefined();
    expect(nearest("x".repeat(1000), ["x"])).toBeUndefined();
  });
});

describe("UTF-8", () => {
  it("decodes what an independent encoder wrote", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme-composite" }), (text) => {
        fc.pre(!text.includes("\0"));
        const decoded = decodeUtf8(new TextEncoder().encode(text));
        const expected = text.startsWith("\ufeff") ? text.slice(1) : text;
        expect(decoded).toEqual({ ok: true, text: expected });
      }),
    );
  });

  it("accepts exactly the bytes that an independent decoder accepts", () => {
    const strict = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 6 }), (bytes) => {
        fc.pre(!bytes.includes(0) && !(bytes[0]! >= 0xfe));
        let accepted = true;
        try {
          strict.decode(bytes);
        } catch {
          accepted = false;
        }
        expect(decodeUtf8(bytes).ok).toBe(accepted);
      }),
      { numRuns: 2000 },
    );
  });

  it("long texts come back whole", () => {
    const text = "stiffness ± 6 % (1σ) 🛩\n".repeat(5000);
    expect(decodeUtf8(new TextEncoder().encode(text))).toEqual({ ok: true, text });
  });

  it.each([
    [[0xff, 0xfe, 0x41, 0], "is UTF-16 text"],
    [[0x41, 0], "holds a NUL character (line 1), so it is not text"],
    [[0x0a, 0x0a, 0xe9], "is not UTF-8 text (line 3)"],
    [[0xc0, 0x80], "is not UTF-8 text (line 1)"],
    [[0xed, 0xa0, 0x80], "is not UTF-8 text (line 1)"],
  ])("%j is refused", (bytes, reason) => {
    expect(decodeUtf8(Uint8Array.from(bytes))).toEqual({ ok: false, reason });
  });
});

describe("paths", () => {
  it.each([
    ["pair.yaml", "rig.csv", "rig.csv"],
    ["pair.yaml", "./data//rig.csv", "data/rig.csv"],
    ["parts/a.yaml", "../rig.csv", "rig.csv"],
    ["parts/a.yaml", "b.yaml", "parts/b.yaml"],
  ])("from %s, %s is %s", (from, reference, inside) => {
    expect(resolveInside(from, reference)).toEqual({ ok: true, inside });
  });

  it.each(["/etc/passwd", "~/x", "C:/x", "https://x/y", "..\\x", "../x", "a/../../x", ".", "", "a/"])(
    "%s is refused",
    (reference) => {
      expect(resolveInside("pair.yaml", reference).ok).toBe(false);
    },
  );

  it("an accepted path never climbs", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom("..", ".", "a", "b", ""), { maxLength: 8 }), (parts) => {
        const resolved = resolveInside("x/y/pair.yaml", parts.join("/"));
        if (resolved.ok) expect(resolved.inside.split("/")).not.toContain("..");
      }),
    );
  });

  it("splits and joins", () => {
    expect([folderOf("a/b.yaml"), folderOf("b.yaml"), folderOf("/b"), folderOf("c:\\a\\b")]).toEqual([
      "a",
      "",
      "/",
      "c:\\a",
    ]);
    expect([fileNameOf("a/b.yaml"), fileNameOf("b.yaml")]).toEqual(["b.yaml", "b.yaml"]);
    expect([joinPath("", "x"), joinPath("a", "x"), joinPath("/", "x")]).toEqual(["x", "a/x", "/x"]);
  });
});
