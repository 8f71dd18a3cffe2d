import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { DEMO } from "../../../test/support/load-demo.ts";
import { InputError } from "../../math/errors.ts";
import { loadPair } from "../pair/index.ts";
import { attemptClass } from "../schema/index.ts";

const HEAD = "attempt,date,outcome,turbulence,sigma\n1,-,-,-,m/s\n";

function load(log: string | undefined, set: string[] = []) {
  return loadPair(
    DEMO,
    (path) => ({
      ok: true,
      bytes:
        log !== undefined && path.endsWith("hook-on-attempts.csv")
          ? new TextEncoder().encode(log)
          : new Uint8Array(readFileSync(path)),
    }),
    { set },
  );
}

function told(log: string | undefined, set: string[] = []): string[] {
  try {
    load(log, set);
    return [];
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return error.issues.map(({ file, line, column, path, message }) => {
      const where = path.replace("studies.hookon.claims", "claims");
      return `${file?.split("/").at(-1)}:${line}:${column} ${where}: ${message}`;
    });
  }
}

const CSV = "hook-on-attempts.csv";

describe("the log of attempts", () => {
  it("of the demo holds 18 of 20 captures in light turbulence", () => {
    const { pair } = load(undefined);
    const { log, classes } = pair.studies!.hookon!.claims!;
    const known = Object.entries(classes).map(([name, { sigmaUpTo }]) => ({ name, sigmaUpTo: sigmaUpTo?.si }));
    const light = Array.from({ length: log!.rows }, (_, row) => row).filter(
      (row) => attemptClass(log!, row, known) === "light",
    );
    expect(light).toHaveLength(20);
    expect(light.filter((row) => log!.words!.outcome!.words[log!.columns.outcome[row]!] === "locked")).toHaveLength(18);
  });

  it("may be one attempt long, and lack what nobody wrote down", () => {
    expect(told(`${HEAD}7,2026-10-01,locked,light,\n`)).toEqual([]);
    expect(told(`${HEAD}7,2026-10-01,locked,,0\n`)).toEqual([]);
  });

  it.each([
    ["1,2026-10-01,lockd,light,\n", `${CSV}:3:14 claims.log: is not one of the choices; did you mean locked?`],
    ["1,2026-02-30,locked,light,\n", `${CSV}:3:3 claims.log: is not a day`],
    ["1,01.10.2026,locked,light,\n", `${CSV}:3:3 claims.log: is not a day`],
    ["1,2026-10-01,,light,\n", `${CSV}:3:14 claims.log: a cell is empty`],
    ["1,2026-10-01,locked,light\n", `${CSV}:3:1 claims.log: the row has 4 cells`],
    ["0,2026-10-01,locked,light,\n", `${CSV}:3:1 claims.log: attempt is out of range`],
    ["1,2026-10-01,locked,light,-1\n", `${CSV}:3:27 claims.log: sigma is out of range`],
    ["1,2026-10-01,locked,light,x\n", `${CSV}:3:27 claims.log: does not start with a number`],
    ["2,2026-10-01,locked,light,\n2,2026-10-01,locked,light,\n", `${CSV}:4:1 claims.log: attempt does not rise`],
    ["1.5,2026-10-01,locked,light,\n", `${CSV}:3:16 claims.log: attempt 1.5 is no whole number`],
    [
      "1,2026-10-02,locked,light,\n2,2026-10-01,locked,light,\n",
      `${CSV}:4:3 claims.log: the day lies before that of the row above`,
    ],
    ["1,2026-10-01,locked,ligth,\n", `${CSV}:3:21 claims.log: names no class of the pair; did you mean light?`],
    ["1,2026-10-01,locked,,\n", `${CSV}:3:14 claims.log: the attempt has neither a class of turbulence nor a sigma`],
    ["1,2026-10-01,locked,,9\n", `${CSV}:3:14 claims.log: no class reaches the sigma of 9 m/s`],
    ["1,2026-10-01,locked,light,2\n", `${CSV}:3:21 claims.log: the sigma of 2 m/s lies above this class`],
    ["", `${CSV}:2:1 claims.log: has too few rows`],
  ])("%j", (rows, expected) => {
    const found = told(HEAD + rows);
    expect(found[0]).toBe(expected);
    expect(found).toHaveLength(1);
  });

  it("lists twenty faults and says that there are more", () => {
    const rows = Array.from({ length: 300 }, (_, i) => `${i + 1},2026-10-01,locked,nowhere,`).join("\n");
    const found = told(`${HEAD}${rows}\n`);
    expect(found).toHaveLength(20);
    expect(found.at(-1)).toContain("the log has more problems than are listed");
  });
});

describe("what the claims are put against", () => {
  it.each([
    ["target=100 %", "target: is out of range"],
    ["confidence=40 %", "confidence: is out of range"],
    ["recovery=0", "recovery: is out of range"],
    ["attemptsCarried=0", "attemptsCarried: is out of range"],
    ["captureRadius=0 m", "captureRadius: is out of range"],
    ["captureRadius=0.3", "captureRadius: needs a unit"],
    ["goAround=maybe", "goAround: is not one of the choices"],
    ["prior.hits=0", "prior.hits: is out of range"],
    ["classes.light.sigmaUpTo=-1 m/s", "classes.light.sigmaUpTo: is out of range"],
    ["classes.light.sigmaUpTo=3 m/s", 'classes.moderate.sigmaUpTo: with --set: ends where "light" ends'],
    ["sequential.unacceptable=97 %", "sequential.unacceptable: is not smaller than the acceptable share"],
    ["sequential.acceptingBad=96 %", "sequential.acceptingBad: makes both risks together 100 % or more"],
    ["sequential.most=0", "sequential.most: is out of range"],
  ])("%s", (set, expected) => {
    const found = told(undefined, [`studies.hookon.claims.${set}`]);
    expect(
      found.some((each) => each.includes(expected)),
      found.join("\n"),
    ).toBe(true);
  });
});
