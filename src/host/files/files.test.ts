import {
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { CannotRead, CannotWrite } from "../effects.ts";
import { readFile, writeFile } from "./index.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "davit-files-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Class and words of what `action` throws. */
function thrownBy(action: () => unknown): { readonly kind: unknown; readonly words: string } {
  try {
    action();
  } catch (error) {
    return { kind: (error as Error).constructor, words: (error as Error).message };
  }
  return { kind: undefined, words: "" };
}

describe("reading", () => {
  it("gives the bytes, through symbolic links", () => {
    const bytes = Uint8Array.from({ length: 70_000 }, (_, i) => i % 251);
    writeFileSync(join(folder, "a"), bytes);
    symlinkSync("a", join(folder, "b"));
    symlinkSync("b", join(folder, "c"));
    expect(readFile(join(folder, "c"))).toEqual(bytes);
  });

  it("says what is wrong in plain words", () => {
    expect(thrownBy(() => readFile(join(folder, "none")))).toEqual({ kind: CannotRead, words: "no such file" });
    expect(thrownBy(() => readFile(folder))).toEqual({ kind: CannotRead, words: "is a folder, not a file" });
    symlinkSync("round", join(folder, "round"));
    expect(thrownBy(() => readFile(join(folder, "round"))).words).toMatch(/circle/);
    expect(thrownBy(() => readFile("/dev/null")).words).toBe("is not a plain file");
  });

  it("refuses a file over the limit by its size, before reading it", () => {
    const path = join(folder, "huge");
    writeFileSync(path, "");
    truncateSync(path, 50 * 1024 ** 3);
    const { kind, words } = thrownBy(() => readFile(path, 2 * 1024 * 1024));
    expect(kind).toBe(CannotRead);
    expect(words).toBe("is larger than 2 MB (it has 51200 MB)");
    writeFileSync(path, "abc");
    expect(readFile(path, 3)).toHaveLength(3);
    expect(thrownBy(() => readFile(path, 2)).words).toBe("is larger than 2 bytes (it has 3 bytes)");
  });
});

describe("writing", () => {
  it("replaces the whole content, makes folders, and leaves no temporary file", () => {
    const path = join(folder, "deep", "er", "result.json");
    writeFile(path, "a long first content");
    writeFile(path, "second");
    expect(readFileSync(path, "utf8")).toBe("second");
    expect(readdirSync(join(folder, "deep", "er"))).toEqual(["result.json"]);
  });

  it("makes folders step by step, also past one that leads back up or is already there", () => {
    const path = `${folder}/a/../b/c/file`;
    writeFile(path, "x");
    writeFile(`${folder}/b/c/d/file`, "y");
    expect(readFileSync(join(folder, "b", "c", "file"), "utf8")).toBe("x");
    expect(readdirSync(join(folder, "b", "c")).sort()).toEqual(["d", "file"]);
  });

  it.skipIf(!existsSync("/proc/self"))("ends at once, in words, where no folder can be made", () => {
    const { kind, words } = thrownBy(() => writeFile("/proc/davit/deep/er/file", "x"));
    expect(kind).toBe(CannotWrite);
    expect(words).toBe("the folder /proc/davit is missing and cannot be made: no folder can be made there");
  });

  it("keeps a symbolic link and replaces what it points at", () => {
    writeFileSync(join(folder, "real"), "old");
    symlinkSync("real", join(folder, "link"));
    writeFile(join(folder, "link"), "new");
    expect(lstatSync(join(folder, "link")).isSymbolicLink()).toBe(true);
    expect(readFileSync(join(folder, "real"), "utf8")).toBe("new");
  });

  it("writes into a device without replacing it", () => {
    writeFile("/dev/null", "gone");
    expect(lstatSync("/dev/null").isCharacterDevice()).toBe(true);
  });

  it("names the target and the reason when it cannot, and leaves the old content", () => {
    writeFileSync(join(folder, "file"), "old");
    expect(thrownBy(() => writeFile(join(folder, "file", "under"), "x")).kind).toBe(CannotWrite);
    mkdirSync(join(folder, "taken"));
    writeFileSync(join(folder, "taken", "kept"), "");
    expect(thrownBy(() => writeFile(join(folder, "taken"), "x")).words).toMatch(/folder/);
    expect(readFileSync(join(folder, "file"), "utf8")).toBe("old");
    expect(readdirSync(folder).sort()).toEqual(["file", "taken"]);
  });

  it.skipIf(!existsSync("/dev/full"))("says that the disk is full", () => {
    expect(thrownBy(() => writeFile("/dev/full", "x"))).toEqual({ kind: CannotWrite, words: "the disk is full" });
  });
});
