import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { loadPublished, openRecalled, PrintedNumber } from "./load.ts";

describe("printed numbers", () => {
  it.each([
    ["288.150", 288.15, 1e-3],
    ["1.01325e+3", 1013.25, 1e-2],
    ["7.1966e-5", 7.1966e-5, 1e-9],
    ["-.00234", -0.00234, 1e-5],
    ["870050", 870050, 1],
    ["1.42e7", 1.42e7, 1e5],
    ["-1.0", -1, 0.1],
  ])("%s", (printed, value, lastDigit) => {
    const number = new PrintedNumber(printed, "-", "here");
    expect(number.value).toBe(value);
    expect(number.lastDigit / lastDigit).toBeCloseTo(1, 12);
  });

  it("converts the printed unit to SI", () => {
    expect(new PrintedNumber("1", "slug", "").si).toBeCloseTo(14.5939029372, 9);
    expect(new PrintedNumber("1", "lbf/ft2", "").si).toBeCloseTo(47.88025898, 7);
    expect(new PrintedNumber("1", "slug-ft2", "").si).toBeCloseTo(1.3558179483, 9);
    expect(new PrintedNumber("180", "deg", "").si).toBeCloseTo(Math.PI, 14);
    expect(new PrintedNumber("1.5", "mb", "").lastDigitSi).toBeCloseTo(10, 12);
  });

  it("refuses what is no number or has no known unit", () => {
    expect(() => new PrintedNumber("1,5", "m", "")).toThrow('"1,5" is not a printed number');
    expect(() => new PrintedNumber("1.5", "furlong", "")).toThrow('unit "furlong" of 1.5 is not known');
  });
});

describe("opening an entry", () => {
  it("tells what is missing, and keeps recalled values away from gates", () => {
    const entry = loadPublished("nasa-cr-2144-nt33a");
    expect(() => entry.quantity("nothing")).toThrow('published/nasa-cr-2144-nt33a has no quantity "nothing"');
    expect(() => entry.table("nothing")).toThrow('has no table "nothing"');
    const rows = loadPublished("nasa-tm-2015-218675").table("end states");
    expect(() => rows[0]("yaw")).toThrow('table "end states", row 1 has no "yaw"');
    expect(() => openRecalled("nasa-cr-2144-nt33a")).toThrow(
      "published/nasa-cr-2144-nt33a was read: use loadPublished",
    );
  });
});

describe("scripts/check-reference.mjs", () => {
  const script = fileURLToPath(new URL("../scripts/check-reference.mjs", import.meta.url));
  let root = "";
  const put = (file: string, text: string): void => {
    mkdirSync(dirname(join(root, file)), { recursive: true });
    writeFileSync(join(root, file), text);
  };
  const check = () => {
    const run = spawnSync(process.execPath, [script, root], { encoding: "utf8" });
    return { code: run.status, text: run.stdout + run.stderr };
  };
  const source = { title: "t", authors: "a", edition: "e", report: "r", places: "p", status: "read second-hand" };

  beforeEach(() => {
    root = mkdtempSync(join(tmpdir(), "davit-reference-"));
    put("reference/published/some-report/source.json", JSON.stringify(source));
    put("reference/published/some-report/values.json", "{}");
    put("reference/published/some-report/note.md", "# note\n");
    put("reference/analytic/closed-form.ts", "export {};\n");
    const tests = ["test/a.test.ts"];
    put("reference/index.json", JSON.stringify({ "published/some-report": tests, "analytic/closed-form": tests }));
    put("test/a.test.ts", 'loadPublished("some-report"); // analytic/closed-form\n');
    put(
      "src/a.ts",
      "/**\n * A.\n * @source   own, eq. 1\n * @verified published/some-report/table-4 (rtol 1);\n * analytic/closed-form\n */\n",
    );
  });
  afterEach(() => rmSync(root, { recursive: true, force: true }));

  it("is content when every claim has an entry and every entry a test", () => {
    expect(check()).toEqual({
      code: 0,
      text: "2 reference entries, every claim points at one and every one is used\n",
    });
  });

  it("lists claims without entry, on the second line of a tag too", () => {
    put(
      "src/b.ts",
      "\n/**\n * @verified published/some-report; own;\n * generated/nowhere (rtol 1)\n * @source published/other, p. 3\n */\n",
    );
    const { code, text } = check();
    expect(code).toBe(1);
    expect(text).toContain("src/b.ts:4: generated/nowhere is not an entry of reference/");
    expect(text).toContain("src/b.ts:5: published/other is not an entry of reference/");
    expect(text).toContain("2 problems");
  });

  it("lists entries without test, and tests that do not mention what they are listed for", () => {
    cpSync(join(root, "reference/published/some-report"), join(root, "reference/published/some-report-two"), {
      recursive: true,
    });
    put("test/a.test.ts", "// analytic/closed-form, some-report-two\n");
    const { code, text } = check();
    expect(code).toBe(1);
    expect(text).toContain("no test is listed for published/some-report-two");
    expect(text).toContain(
      "test/a.test.ts: listed for published/some-report in reference/index.json but does not mention it",
    );
  });

  it("lets an entry from memory be named by guide alone", () => {
    put("reference/published/some-report/source.json", JSON.stringify({ ...source, status: "from memory" }));
    const { text } = check();
    expect(text).toContain("published/some-report is from memory and may only be named by guide(");
    expect(text).toContain("src/a.ts:4: published/some-report is from memory and verifies nothing");
    put("src/a.ts", "/** @source published/some-report, as recalled */\n");
    put("test/a.test.ts", 'guide(\n  "published/some-report", () => []); // analytic/closed-form\n');
    expect(check().text).toContain("2 reference entries, every claim points at one");
  });

  it("lists birth certificates with gaps", () => {
    put("reference/published/some-report/source.json", JSON.stringify({ ...source, report: "", status: "sure" }));
    rmSync(join(root, "reference/published/some-report/note.md"));
    const { text } = check();
    expect(text).toContain("reference/published/some-report: note.md is missing");
    expect(text).toContain('reference/published/some-report/source.json: "report" is missing');
    expect(text).toContain('status "sure" is none of: read in the primary, read second-hand, from memory');
  });
});
