import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { DEMO, readDisk } from "../../../test/support/load-demo.ts";
import { type LoadedPair, loadPair } from "../../inputs/index.ts";
import { readBoomTip } from "./boom-tip.ts";

const DEGREE = Math.PI / 180;
const EI = 1.7e6;
const RANGE = { from: 14 * DEGREE, to: 60 * DEGREE };

/** The demo with the boom given by one uniform section and the jack lug on its axis. */
function withSections(keep: readonly string[] = [], set: string[] = []): LoadedPair {
  const encode = (text: string) => new TextEncoder().encode(text);
  let text = readFileSync(DEMO, "utf8");
  for (const key of ["bending", "axial", "lateral", "effectiveTipMass"]) {
    if (!keep.includes(key)) text = text.replace(new RegExp(`^    ${key}: .*$`, "m"), "");
    // variants may not patch what the base leaves out
    if (!keep.includes(key)) text = text.replace(new RegExp(`^    mechanism\\.boom\\.${key}: .*$`, "gm"), "");
  }
  const structure = "    structure: { sections: { file: boom.csv }, theory: Euler-Bernoulli }\n";
  text = text.replace(/^ {4}structuralDamping:/m, `${structure}    structuralDamping:`);
  const rows = ["0", "5.6"].map((station) => `${station},${EI},60e6,1e6,930e6,36,180e6,180e6`);
  const names = "station,EIswing,EIlateral,GJ,EA,massPerLength,shearSwing,shearLateral";
  const csv = [names, "m,N m^2,N m^2,N m^2,N,kg/m,N,N", ...rows, ""].join("\n");
  const read = (path: string) => {
    if (path === DEMO) return { ok: true as const, bytes: encode(text) };
    return path.endsWith("boom.csv") ? { ok: true as const, bytes: encode(csv) } : readDisk(path);
  };
  const onAxis = [
    `mechanism.linkage.jack.to.FS=${10.4 + 1.55 * Math.cos(14 * DEGREE)} m`,
    `mechanism.linkage.jack.to.WL=${2.15 - 1.55 * Math.sin(14 * DEGREE)} m`,
  ];
  return loadPair(DEMO, read, { set: [...onAxis, ...set] });
}

describe("tip of a boom given by sections", () => {
  it("bends as a beam on hinge and locked jack", () => {
    const { pair } = withSections();
    const tip = readBoomTip(pair, 200e3, RANGE);
    // standard overhang: k = 3·EI/(c²·(a + c)), a = 1.55 m, c = 4.05 m
    const expected = (3 * EI) / (4.05 ** 2 * 5.6);
    for (const angle of [14, 26, 40, 52]) expect(tip.at(angle * DEGREE).bending / expected).toBeCloseTo(1, 3);
    expect(tip.fromSections).toEqual(["bending", "axial", "lateral", "effectiveTipMass"]);
    // between swinging freely and bending with the jack locked: I/L² is a third of the mass
    expect(tip.at(RANGE.from).effectiveTipMass).toBeLessThan((36 * 5.6) / 3 + 1e-6);
    expect(tip.firstMode).toBeGreaterThan(1);
  });

  it("lets a measured value stand", () => {
    const { pair } = withSections(["bending"]);
    const tip = readBoomTip(pair, 200e3, RANGE);
    expect(tip.at(0.5).bending).toBe(60e3);
    expect(tip.fromSections).not.toContain("bending");
  });

  it("gets stiffer when it is shorter, as the cube of the overhang says", () => {
    const undrawn = ["socket", "aftPin"].map((joint) => `mechanism.linkage.joints.${joint}.drawnAt=~`);
    const { pair } = withSections([], ["mechanism.boom.length=4.8 m", ...undrawn]);
    const tip = readBoomTip(pair, 200e3, RANGE);
    expect(tip.at(RANGE.from).bending / ((3 * EI) / ((4.8 - 1.55) ** 2 * 4.8))).toBeCloseTo(1, 3);
  });
});
