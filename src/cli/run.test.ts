/** Commands in this process, in memory: nothing is read from or written to the disk. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type MemoryEffects, type MemorySettings, memoryEffects } from "../host/index.ts";
import { runDavit } from "./run.ts";

const LONGSHORE = new URL("../../demo/longshore/", import.meta.url);
const PAIR = "p/longshore.pair.yaml";
const disk: Record<string, Uint8Array> = Object.fromEntries(
  readdirSync(LONGSHORE).map((name) => [`p/${name}`, readFileSync(new URL(name, LONGSHORE))]),
);

async function davit(
  argv: readonly string[],
  settings: MemorySettings = {},
): Promise<{ code: number; effects: MemoryEffects }> {
  const effects = memoryEffects({ ...settings, disk: { ...disk, ...settings.disk } });
  return { code: await runDavit(argv, effects, false), effects };
}

const text = (bytes: Uint8Array | undefined): string => new TextDecoder().decode(bytes);

describe("check", () => {
  it("reads only through its effects and reports in words", async () => {
    const { code, effects } = await davit(["check", PAIR]);
    expect({ code, stderr: effects.said.stderr }).toEqual({ code: 0, stderr: "" });
    expect(effects.said.stdout).toMatch(
      /^Longshore: in order; base Rev A, variants Rev B, [^\n]+\.\n\d+ values in \d+ files; /,
    );
  });

  it("gives counts that add up", async () => {
    const { effects } = await davit(["check", PAIR]);
    const line = effects.said.stdout.split("\n")[1]!;
    const form =
      /^(\d+) values in \d+ files; (\d+) numbers and tables by maturity: (.+); and (\d+) words and switches\.$/;
    const [, all, firm, list, rest] = form.exec(line)!;
    expect(Number(firm) + Number(rest)).toBe(Number(all));
    const parts = [...list!.matchAll(/(\d+) [a-z ]+/g)].map(([, count]) => Number(count));
    expect(parts.reduce((sum, count) => sum + count, 0)).toBe(Number(firm));
  });

  it("lists what is wrong and says where", async () => {
    const broken = text(disk[PAIR]).replace("bending: 60 kN/m", "bending: 60 kN");
    const { code, effects } = await davit(["check", PAIR], { disk: { [PAIR]: broken } });
    expect(code).toBe(2);
    const line = broken.split("\n").findIndex((words) => words.includes("bending: 60 kN")) + 1;
    expect(effects.said.stderr).toContain(`${PAIR}:${line}:`);
    expect(effects.said.stdout).toBe("");
  });

  it("names a table that is not there", async () => {
    const { code, effects } = await davit(["check", "q.pair.yaml"], { disk: { "q.pair.yaml": disk[PAIR] } });
    expect(code).toBe(2);
    expect(effects.said.stderr).toContain("tip-per-jack.csv");
    expect(effects.said.stderr).toContain("no such file");
  });
});

describe("hold and changed", () => {
  it("a result compared with itself has moved nowhere; an override moves findings and names itself", async () => {
    const hold = await davit(["hold", PAIR, "--variant", "Rev B", "--parts", "none", "--json", "b.json"]);
    expect(hold.code).toBe(1);
    expect(hold.effects.said.progress.at(-1)).toBeUndefined();
    const earlier = { "b.json": hold.effects.disk.get("b.json")! };
    const same = await davit(["changed", PAIR, "--since", "b.json", "--json", "-"], { disk: earlier });
    expect(JSON.parse(same.effects.said.stdout)).toMatchObject({
      moved: [],
      appeared: [],
      disappeared: [],
      inputs: [],
      files: [],
    });
    const set = "mechanism.accumulator.stiffness=60 kN/m";
    const moved = await davit(["changed", PAIR, "--since", "b.json", "--set", set, "--json", "-"], { disk: earlier });
    const comparison = JSON.parse(moved.effects.said.stdout);
    expect(comparison.inputs.map((input: { path: string }) => input.path)).toContain("mechanism.accumulator.stiffness");
    expect(comparison.moved.length).toBeGreaterThan(0);
    for (const { because } of comparison.moved) expect(because).toEqual(["mechanism.accumulator.stiffness"]);
  });

  it("warns when the earlier result is of another pair, on the error stream when the output is JSON", async () => {
    const hold = await davit(["hold", PAIR, "--variant", "Rev B", "--parts", "none", "--json", "b.json"]);
    const renamed = text(hold.effects.disk.get("b.json")).replaceAll('"Longshore"', '"Elsewhere"');
    const earlier = { "b.json": new TextEncoder().encode(renamed) };
    const warning = /WARNING: these are two different pairs: .*“Elsewhere”,\s+this one of\s+“Longshore”/s;
    const words = await davit(["changed", PAIR, "--since", "b.json"], { disk: earlier });
    expect(words.effects.said.stdout).toMatch(warning);
    const json = await davit(["changed", PAIR, "--since", "b.json", "--json", "-"], { disk: earlier });
    expect(json.effects.said.stderr).toMatch(warning);
    expect(JSON.parse(json.effects.said.stdout).old.pair).toBe("Elsewhere");
  });

  it.each([
    ["EACCES", "no permission"],
    ["ENOSPC", "the disk is full"],
    ["EROFS", "the disk is read-only"],
  ])("%s: exit 3 in plain words", async (code, words) => {
    const outcome = await davit(["schema", "--json", "s.json"], { failing: { "s.json": code } });
    expect(outcome.code).toBe(3);
    expect(outcome.effects.said).toMatchObject({ stdout: "", stderr: `s.json: cannot be written: ${words}\n` });
  });
});

/** Few approaches, and a coarse map. */
const FEW = [
  ...["--set", "studies.hookon.samples=2", "--set", "studies.hookon.map.steps=3"],
  // its pages are opened in test/e2e/report.test.ts
  ...["--set", "studies.release=~"],
];

describe("clear", () => {
  it("writes page and result, selected variant first, and its exit code is that variant's", async () => {
    const { code, effects } = await davit([
      "clear",
      PAIR,
      "--variant",
      "Rev B",
      "--parts",
      "none",
      ...FEW,
      "--out",
      "out",
    ]);
    expect(code).toBe(1);
    expect([...effects.disk.keys()].filter((path) => path.startsWith("out/")).sort()).toEqual([
      "out/clearance.html",
      "out/clearance.json",
      "out/hold-here.html",
      "out/loading-sheet.html",
    ]);
    const result = JSON.parse(text(effects.disk.get("out/clearance.json")));
    expect(result.studies.hold.map((one: { variant: string }) => one.variant)).toEqual(["Rev B", "Rev A"]);
    const { fit, hold, hookon, balance } = result.studies;
    expect(result.findings).toEqual([fit, hold, hookon, balance].flatMap(([one]) => one.findings));
    expect(hookon[0].samples).toBe(2);
    // the geometry is the same in both: one computation serves both variants
    expect(result.studies.fit[1]).toEqual({ ...result.studies.fit[0], variant: "Rev A" });
    expect(result.inputs["mechanism.boom.bending"]).toMatchObject({
      text: "90 kN/m ± 8 % (1σ)",
      si: 90_000,
      unit: "N/m",
    });
    expect(result.inputs["conditions.hook.airspeed"]).toMatchObject({ text: "105 m/s EAS", si: 105, unit: "m/s" });
    expect(text(effects.disk.get("out/clearance.html"))).toContain("<svg");
    expect(effects.said.stdout).toContain("Report: out/clearance.html");
  });

  it("writes no result when the page cannot be drawn", async () => {
    const { code, effects } = await davit(
      ["clear", PAIR, "--parts", "none", "--set", "studies.hookon=~", "--set", "studies.release=~", "--out", "out"],
      {
        document: async () => {
          throw new Error("no document here");
        },
      },
    );
    expect(code).toBe(70);
    expect([...effects.disk.keys()].some((path) => path.startsWith("out/"))).toBe(false);
  });
});
