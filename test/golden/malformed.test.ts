import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import type { ReadFile } from "../../src/inputs/index.ts";
import { loadPair } from "../../src/inputs/index.ts";
import type { Issue } from "../../src/math/errors.ts";
import { InputError } from "../../src/math/errors.ts";

/**
 * Malformed pairs and the exact issues they must give.
 *
 * Each folder holds `case.yaml`, which says how the pair differs from `base/`, any files of its own, and
 * `expected.txt` with the formatted issues. A missing `expected.txt` is a failure; with GOLDEN=write (never in CI)
 * it is written anew.
 */
const FOLDER = fileURLToPath(new URL("./malformed", import.meta.url));
const PAIR = "pair.yaml";

interface Case {
  /** What is wrong, in one sentence. */
  readonly why: string;
  /** Texts of the base pair that are replaced; each must occur exactly once. */
  readonly replace?: readonly { readonly from: string; readonly to: string }[];
  /** Lines added at the end of the pair. */
  readonly append?: string;
  /** A text written over and over at the end of a file, for files too large to keep. */
  readonly fill?: { readonly file: string; readonly with: string; readonly bytes: number };
  readonly set?: readonly string[];
  readonly variant?: string;
}

function editedBase(spec: Case): string {
  let text = readFileSync(join(FOLDER, "base", PAIR), "utf8");
  for (const { from, to } of spec.replace ?? []) {
    expect(text.split(from).length, `"${from}" occurs once in the base`).toBe(2);
    text = text.replace(from, () => to);
  }
  return text + (spec.append ?? "");
}

function reader(folder: string, spec: Case): ReadFile {
  return (path) => {
    const own = join(folder, path);
    const base = join(FOLDER, "base", path);
    const file = existsSync(own) ? own : path !== PAIR && existsSync(base) ? base : undefined;
    const edited = path === PAIR && file === undefined ? Buffer.from(editedBase(spec)) : undefined;
    if (file === undefined && edited === undefined) return { ok: false, reason: "there is no such file" };
    const bytes = edited ?? readFileSync(file!);
    if (spec.fill?.file !== path) return { ok: true, bytes };
    return { ok: true, bytes: Buffer.concat([bytes, Buffer.alloc(spec.fill.bytes, spec.fill.with)]) };
  };
}

/** Every issue that quotes a value must point at a line that holds it. */
function checkPlaces(issues: readonly Issue[], read: ReadFile): void {
  for (const { file, line, column, value } of issues) {
    if (file === undefined || line === undefined || column === undefined) continue;
    const bytes = read(file);
    if (!bytes.ok) throw new Error(`${file} does not exist`);
    const text = Buffer.from(bytes.bytes).toString("utf8").split(/\r?\n/)[line - 1]!;
    expect(column).toBeLessThanOrEqual(text.length + 1);
    if (value === undefined || /^a (map|list)$|MiB$|^more than/.test(value)) continue;
    expect(text.replace(/\s+/g, " "), `line ${line} holds ${value}`).toContain(value);
  }
}

function issuesOf(folder: string, spec: Case): string {
  const options = {
    ...(spec.variant === undefined ? {} : { variant: spec.variant }),
    ...(spec.set === undefined ? {} : { set: spec.set }),
  };
  const read = reader(folder, spec);
  try {
    loadPair(PAIR, read, options);
  } catch (caught) {
    if (!(caught instanceof InputError)) throw caught;
    checkPlaces(caught.issues, read);
    return `${caught.message}\n`;
  }
  return "(no issues)\n";
}

const cases = readdirSync(FOLDER).filter((name) => /^\d{3}-/.test(name));

describe("malformed pairs", () => {
  it("stand on a base that is right itself", () => {
    expect(issuesOf(join(FOLDER, "base"), { why: "the base" })).toBe("(no issues)\n");
  });

  it("are at least fifty", () => {
    expect(cases.length).toBeGreaterThanOrEqual(50);
  });

  it.each(cases)("%s", (name) => {
    const folder = join(FOLDER, name);
    const spec = parse(readFileSync(join(folder, "case.yaml"), "utf8")) as Case;
    const found = issuesOf(folder, spec);
    const expectedFile = join(folder, "expected.txt");
    if (process.env.GOLDEN === "write" && process.env.CI === undefined) writeFileSync(expectedFile, found);
    expect(existsSync(expectedFile), "expected.txt is missing").toBe(true);
    expect(found).toBe(readFileSync(expectedFile, "utf8"));
    expect(found).not.toBe("(no issues)\n");
  });
});
