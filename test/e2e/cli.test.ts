/** The built program as a user starts it: exit codes, what goes to which stream, and no stack trace for anything a user does. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { davit, launcher, longshore, requireFreshBuild } from "./davit.ts";

const STACK_TRACE = /\n\s+at .*[:(]/;
let folder = "";
beforeAll(() => {
  requireFreshBuild();
  folder = mkdtempSync(join(tmpdir(), "davit-cli-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const place = (name: string, content: string | Uint8Array): string => {
  writeFileSync(join(folder, name), content);
  return join(folder, name);
};

describe("a pair in order", () => {
  it("check: exit 0, words on the output, nothing on the error stream", async () => {
    const { code, stdout, stderr } = await davit(["check", longshore]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    expect(stdout).toContain("Longshore");
  });

  it("hold --json -: the output is JSON and nothing else; exit 1 because a criterion is not met", async () => {
    const { code, stdout, stderr } = await davit(["hold", longshore, "--variant", "Rev A", "--json", "-"]);
    expect({ code, stderr }).toEqual({ code: 1, stderr: "" });
    const result = JSON.parse(stdout);
    const atHook = result.points.filter((point: { condition: string }) => point.condition === "hook");
    const modes = atHook.flatMap(
      (point: { modes: { plane: string; real_1_s: number; imag_rad_s: number }[] }) => point.modes,
    );
    const diverging = modes.filter((mode: { plane: string; real_1_s: number; imag_rad_s: number }) => {
      return mode.plane === "longitudinal" && mode.real_1_s > 0 && mode.imag_rad_s > 0;
    });
    expect(diverging.length).toBeGreaterThan(0);
    expect(result.findings.some((finding: { verdict: string }) => finding.verdict === "not met")).toBe(true);
  });

  it("hold: the same words whether or not the JSON goes to a file, and that file equals the printed JSON", async () => {
    const file = join(folder, "new", "hold.json");
    const toFile = await davit(["hold", longshore, "--variant", "Rev B", "--parts", "none", "--json", file]);
    const printed = await davit(["hold", longshore, "--variant", "Rev B", "--parts", "none", "--json", "-"]);
    expect(toFile).toMatchObject({ code: 1, stderr: "" });
    expect(toFile.stdout).toContain("NOT MET");
    expect(readFileSync(file, "utf8")).toBe(printed.stdout);
  });

  it("changed: a result with some parts is compared with the same parts", async () => {
    const file = join(folder, "parts.json");
    await davit(["hold", longshore, "--variant", "Unsnubbed", "--parts", "boundary", "--json", file]);
    const { code, stdout, stderr } = await davit(["changed", longshore, "--since", file]);
    expect({ code, stderr }).toEqual({ code: 1, stderr: "" });
    expect(stdout).toContain("0 findings moved; 0 verdicts flipped");
    expect(stdout).not.toContain("NEW FINDINGS");
  });

  it("fit --json -: the findings of the demo, certified and judged", async () => {
    const { code, stdout, stderr } = await davit(["fit", longshore, "--variant", "Rev A", "--json", "-"]);
    expect({ code, stderr }).toEqual({ code: 1, stderr: "" });
    const found: { id: string; value: number; verdict: string }[] = JSON.parse(stdout).findings;
    const of = (id: string) => found.find((each) => each.id === id);
    // Door to wing tip, 160 mm drawn, less 47 mm of stack and what the bounds leave open.
    expect(of("fit.gear.mainInnerDoorRight.door+carried.wing")?.value).toBeCloseTo(0.101, 2);
    expect(of("fit.loading.raise")?.value).toBeCloseTo(0.41, 2);
    expect(of("fit.ground.flat-tyre-and-bottomed-strut.rotation.stowed")?.value).toBeCloseTo(8.03, 1);
    expect(of("fit.transmission-angle")?.verdict).toBe("not met");
  });

  it("compare: one table, a page and the same as JSON; the exit code is the worst of the variants", async () => {
    const out = join(folder, "compare");
    const names = ["Rev A sections", "Rigid boom"];
    const asked = ["compare", longshore, ...names, "--study", "hold"];
    const { code, stdout, stderr } = await davit([...asked, "--out", out]);
    expect({ code, stderr }).toEqual({ code: 1, stderr: "" });
    for (const words of [...names, "worst ζ", "neutral airspeed", "first boom bending"])
      expect(stdout).toContain(words);
    const page = readFileSync(join(out, "compare.html"), "utf8");
    for (const name of names) expect(page).toContain(name);
    expect(page).toContain("<svg");
    const printed = await davit([...asked, "--json", "-"]);
    expect(printed.stdout).toBe(readFileSync(join(out, "compare.json"), "utf8"));
    const { variants } = JSON.parse(printed.stdout);
    expect(variants.map(({ variant }: { variant: string }) => variant)).toEqual(names);
    const worst = variants.map((one: { hold: { planes: { longitudinal: { worst: { dampingRatio_1: number } } } } }) => {
      return one.hold.planes.longitudinal.worst.dampingRatio_1;
    });
    expect(worst[0]).toBeLessThan(0);
    expect(worst[1]).toBeGreaterThan(0.03);
    expect(variants[0].hold.boomBending.frequency_Hz).toBeGreaterThan(1);
    expect(variants[0].fit).toBe(null);
  }, 120_000);

  it("schema: prints a JSON Schema", async () => {
    const { code, stdout, stderr } = await davit(["schema"]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    expect(JSON.parse(stdout)).toMatchObject({ type: "object" });
  });
});

describe("what a user may get wrong", () => {
  it.each([
    { what: "no command", args: [], says: "Usage" },
    { what: "unknown command", args: ["hodl"], says: "hold" },
    { what: "unknown option", args: ["check", longshore, "--varaint", "x"], says: "--variant" },
    { what: "missing file", args: ["check", "nowhere.pair.yaml"], says: "nowhere.pair.yaml" },
    { what: "a folder", args: ["hold", "."], says: "folder" },
    { what: "unknown variant", args: ["hold", longshore, "--variant", "Rev C"], says: "Rev B" },
    { what: "one variant to compare", args: ["compare", longshore, "Rev A"], says: "nothing to be compared with" },
    {
      what: "unknown variants to compare",
      args: ["compare", longshore, "Rev A", "Rev C", "Rev D"],
      says: "2 problems",
    },
    {
      what: "parts of a study that is not compared",
      args: ["compare", longshore, "Rev A", "Rev B", "--study", "fit", "--parts", "control"],
      says: "which does not run here",
    },
    { what: "a variant compared with itself", args: ["compare", longshore, "Rev A", "Rev A"], says: "named twice" },
    {
      what: "a study that is none",
      args: ["compare", longshore, "Rev A", "Rev B", "--study", "hodl"],
      says: "fit, hold, hookon, release",
    },
    { what: "--set without a value", args: ["hold", longshore, "--set", "mechanism.boom.bending"], says: "PATH=VALUE" },
    { what: "--set to nonsense", args: ["hold", longshore, "--set", "mechanism.boom.bending=90"], says: "bending" },
    {
      what: "--set of an unknown path",
      args: ["check", longshore, "--set", "mechanism.boom.bendign=9 kN/m"],
      says: "bending",
    },
    { what: "an earlier result that is none", args: ["changed", longshore, "--since", longshore], says: "JSON" },
    {
      what: "an earlier result that is missing",
      args: ["changed", longshore, "--since", "none.json"],
      says: "none.json",
    },
  ])("$what: exit 2, words on the error stream only", async ({ args, says }) => {
    const { code, stdout, stderr } = await davit(args);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toContain(says);
    expect(stderr).not.toMatch(STACK_TRACE);
  });

  it("lists every problem of a broken pair with its place, then their number", async () => {
    const broken = readFileSync(longshore, "utf8")
      .replace("length: 5.600 m", "length: 5.600")
      .replace("effectiveTipMass: 120 kg", "effectiveTipMas: 120 kg")
      .replace("CLmax: 1.35", "CLmax: high");
    const { code, stdout, stderr } = await davit(["check", place("broken.pair.yaml", broken)]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    const lines = stderr.trimEnd().split("\n");
    expect(lines.at(-1)).toMatch(/^\d+ problems$/);
    expect(lines.length - 1).toBe(Number.parseInt(lines.at(-1)!, 10));
    for (const line of lines.slice(0, -1)) expect(line).toMatch(/broken\.pair\.yaml:\d+:\d+: /);
    for (const key of ["length", "effectiveTipMas", "CLmax"]) expect(stderr).toContain(key);
  });

  it.each([
    { what: "empty", content: "" },
    { what: "binary", content: Uint8Array.from({ length: 4096 }, (_, i) => (i * 37) % 256) },
    { what: "not YAML", content: "a: [1, 2\nb: }{" },
    { what: "a list", content: "- 1\n- 2\n" },
    { what: "another document", content: '{"schema": "x"}' },
    { what: "deeply nested", content: `a: ${"[".repeat(20_000)}` },
    { what: "aliases that multiply", content: bomb() },
  ])("$what file: exit 2 within seconds, no stack trace", async ({ what, content }) => {
    const { code, stdout, stderr } = await davit(["check", place(`${what.replaceAll(" ", "-")}.pair.yaml`, content)]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(/problems?\n$/);
    expect(stderr).not.toMatch(STACK_TRACE);
  });
});

describe("where results cannot go", () => {
  it("exit 3 names the place and the reason, and leaves nothing half-written", async () => {
    const file = place("in-the-way", "kept");
    for (const args of [
      ["hold", longshore, "--parts", "none", "--json", join(file, "result.json")],
      ["clear", longshore, "--parts", "none", "--set", "studies.hookon=~", "--set", "studies.release=~", "--out", file],
    ]) {
      const { code, stderr } = await davit(args);
      expect(code).toBe(3);
      expect(stderr).toContain(file);
      expect(stderr).toContain("cannot be written");
      expect(stderr).not.toMatch(STACK_TRACE);
    }
    expect(readFileSync(file, "utf8")).toBe("kept");
  });

  it.skipIf(!existsSync("/dev/full"))("exit 3 when the disk is full", async () => {
    const { code, stderr } = await davit(["schema", "--json", "/dev/full"]);
    expect(code).toBe(3);
    expect(stderr).toBe("/dev/full: cannot be written: the disk is full\n");
  });

  it.skipIf(!existsSync("/dev/full"))("exit 3 in words when the output itself can take no more", async () => {
    for (const args of [["hold", longshore, "--parts", "none"], ["schema"]]) {
      const shell = ["-c", '"$0" "$@" > /dev/full', launcher, ...args];
      const { code, stderr } = await davit(shell, { program: "/bin/sh" });
      expect({ code, stderr }).toEqual({ code: 3, stderr: "the output: cannot be written: the disk is full\n" });
    }
  });

  it.skipIf(!existsSync("/proc/self"))("exit 3 soon where no folder can be made", async () => {
    const { code, stderr } = await davit(["hold", longshore, "--parts", "none", "--out", "/proc/davit/x"]);
    expect(code).toBe(3);
    expect(stderr).toContain("cannot be written: the folder /proc/davit is missing and cannot be made");
  });

  it("stays quiet when the reader goes away", async () => {
    for (const args of [["schema"], ["hold", longshore, "--parts", "none", "--json", "-"]]) {
      const { signal, stderr } = await davit(args, { meanwhile: (child) => child.stdout!.destroy() });
      expect({ signal, stderr }).toEqual({ signal: null, stderr: "" });
    }
  });
});

describe("interrupting", () => {
  it.skipIf(!existsSync("/proc/self/status"))(
    "Ctrl-C in a long computation: exit 3 soon, nothing is written",
    async () => {
      const out = join(folder, "interrupted");
      const { code, stderr } = await davit(
        [
          "clear",
          longshore,
          "--parts",
          "none",
          "--set",
          "studies.hookon=~",
          "--set",
          "studies.release=~",
          "--out",
          out,
        ],
        {
          meanwhile: async (child) => {
            await listening(child.pid!);
            await sleep(200);
            child.kill("SIGINT");
          },
        },
      );
      expect(code).toBe(3);
      expect(stderr).toBe("davit: interrupted; nothing more is written.\n");
      expect(existsSync(out) ? readdirSync(out) : []).toEqual([]);
    },
  );
});

/** Resolves once the process has put up its own signal handlers (Node alone puts up none for SIGHUP, signal 1). */
async function listening(pid: number): Promise<void> {
  for (;;) {
    const caught = /^SigCgt:\s*([0-9a-f]+)$/m.exec(readFileSync(`/proc/${pid}/status`, "utf8"))?.[1] ?? "0";
    if ((BigInt(`0x${caught}`) & 1n) === 1n) return;
    await sleep(10);
  }
}

/** Each level names the one before nine times: 9^30 values if followed. */
function bomb(): string {
  const levels = Array.from({ length: 30 }, (_, i) => `l${i + 1}: &l${i + 1} [${Array(9).fill(`*l${i}`).join(", ")}]`);
  return `l0: &l0 x\n${levels.join("\n")}\n`;
}
