import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import type { HoldResult, StabilityMap, Sweep } from "../../studies/hold/types.ts";
import { fixtureHold } from "../testing/index.ts";
import {
  dampingSweepFigure,
  type Figure,
  modeEnergyFigure,
  rootLocusFigure,
  snubberFigure,
  stabilityMapFigure,
  stiffnessFigure,
  upsetFigure,
} from "./index.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const A = fixtureHold("Rev A");
const B = fixtureHold("Rev B");

function all(a: HoldResult, b: HoldResult): Figure[] {
  const figures = [
    stabilityMapFigure("map", a.maps[0]!, 0.03, dom),
    rootLocusFigure("locus", a.sweeps[0]!, 0.03, dom),
    dampingSweepFigure("zeta", a.sweeps[0]!, 0.03, dom),
    snubberFigure("snubber", [a, b], 0.03, dom),
    stiffnessFigure("stiffness", a.variant, a.stiffness, dom),
    upsetFigure("upset", a.variant, a.pilotTime, dom),
    modeEnergyFigure("energy", a.variant, a.points[0]!, dom),
  ];
  return figures.filter((figure) => figure !== null);
}

/** Throws when tags do not nest. */
function expectNested(svg: string): void {
  const open: string[] = [];
  for (const [, close, name, self] of svg.matchAll(/<(\/?)([a-zA-Z]+)(?:\s[^<>]*?)?(\/?)>/g)) {
    if (self === "/") continue;
    if (close === "/") expect(open.pop()).toBe(name);
    else open.push(name!);
  }
  expect(open).toEqual([]);
}

const texts = (figure: Figure) => [...figure.svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text!);

describe("every figure", () => {
  const figures = all(A, B);

  it.each(figures.map((figure) => [figure.id, figure] as const))("%s is one self-contained drawing", (id, figure) => {
    expect(figure.svg.startsWith(`<svg xmlns="http://www.w3.org/2000/svg" class="davit-figure" id="${id}"`)).toBe(true);
    expect(figure.svg.includes(`aria-labelledby="${id}-title ${id}-desc"`)).toBe(true);
    expect(
      new RegExp(`<title id="${id}-title">[^<]{10,}</title><desc id="${id}-desc">[^<]{30,}</desc>`).test(figure.svg),
    ).toBe(true);
    expect(/NaN|Infinity|undefined|href=|<script|<style|<image/.exec(figure.svg)?.[0]).toBeUndefined();
    expect(figure.svg.includes('fill="#ffffff"')).toBe(true);
    expect(figure.caption.length).toBeGreaterThan(60);
    expectNested(figure.svg);
    const ids = [...figure.svg.matchAll(/ id="([^"]+)"/g)].map(([, name]) => name!);
    expect(new Set(ids).size).toBe(ids.length);
    for (const name of ids) expect(name.startsWith(id)).toBe(true);
    for (const [, used] of figure.svg.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(used);
  });

  it("keeps coordinates to two decimals", () => {
    for (const { id, svg } of figures)
      expect([id, / (d|transform|x|y)="[^"]*\d\.\d{3}/.test(svg)]).toEqual([id, false]);
  });

  it("gives equal bytes when drawn again, although the plotting library counts its ids", () => {
    const again = all(A, B);
    expect(figures.map((figure, i) => figure.svg === again[i]!.svg)).toEqual(figures.map(() => true));
  });

  it("prints axis titles with units", () => {
    const byId = new Map(figures.map((figure) => [figure.id, texts(figure)]));
    expect(byId.get("map")).toEqual(
      expect.arrayContaining(["Snubber rate at the tip (kN·s/m)", "Boom bending stiffness at the tip (kN/m)"]),
    );
    expect(byId.get("locus")).toEqual(expect.arrayContaining(["Real part (1/s)", "Imaginary part (rad/s)"]));
    expect(byId.get("zeta")).toEqual(expect.arrayContaining(["Damping ratio ζ (–)", "Airspeed (m/s EAS)"]));
    expect(byId.get("snubber")).toContain("Least damping ratio ζ (–)");
    expect(byId.get("stiffness")).toContain("Tangential stiffness at the tip, no snubber (kN/m)");
    expect(byId.get("upset")).toEqual(
      expect.arrayContaining(["Time after the upset (s)", "Pitch from trim (deg)", "Roll from trim (deg)"]),
    );
    expect(byId.get("energy")).toContain("Share of the mode's kinetic energy (%)");
  });

  it("escapes names wherever they go", () => {
    const evil = `<script>alert("x")</script>&'`;
    const hostile: HoldResult = {
      ...A,
      variant: evil,
      maps: [{ ...A.maps[0]!, title: evil, mass: evil, condition: evil, marks: [{ label: evil, x: 2000, y: 60e3 }] }],
      sweeps: A.sweeps.map((sweep) => ({
        ...sweep,
        condition: evil,
        mass: evil,
        title: evil,
        axis: { ...sweep.axis, label: evil },
        tracks: sweep.tracks.map((track) => ({ ...track, name: evil + track.name })),
      })),
      snubber: A.snubber.map((curve) => ({ ...curve, mass: evil })),
      stiffness: A.stiffness.map((need) => ({ ...need, mass: evil })),
      pilotTime: A.pilotTime.map((time) => ({ ...time, pointId: evil })),
      points: A.points.map((point) => ({
        ...point,
        mass: evil,
        modes: point.modes.map((mode) => ({ ...mode, name: evil, energy: { [evil]: 1 } })),
      })),
    };
    for (const figure of all(hostile, B)) {
      expect([figure.id, /<script/i.test(figure.svg), figure.svg.includes("&lt;script")]).toEqual([
        figure.id,
        false,
        true,
      ]);
      expectNested(figure.svg);
    }
  });
});

describe("what the figures say", () => {
  it("hatches the unstable side and draws both boundaries of the map", () => {
    const { svg } = stabilityMapFigure("map", A.maps[0]!, 0.03, dom);
    expect(svg.includes('<pattern id="map-unstable"') && svg.includes("url(#map-unstable)")).toBe(true);
    expect(texts({ svg } as Figure)).toEqual(expect.arrayContaining(["ζ = 0", "ζ = 0.03", "Rev A", "Rev B"]));
  });

  it("draws a map that is stable everywhere without inventing a boundary", () => {
    const calm: StabilityMap = { ...A.maps[0]!, worst: A.maps[0]!.worst.map((v) => 0.2 + Math.abs(v)), boundaries: [] };
    const figure = stabilityMapFigure("calm", calm, 0.03, dom);
    expect(figure.description).toContain("0 % of the grid is unstable, 100 % meets the criterion");
    expect(texts(figure)).not.toContain("ζ = 0");
  });

  it("says where a damping curve crosses zero", () => {
    const { caption } = dampingSweepFigure("zeta", A.sweeps[0]!, 0.03, dom);
    expect(caption).toContain("a lateral oscillation is neutral at 100 m/s");
    expect(caption).toContain("No longitudinal oscillation changes sign");
  });

  it("keeps the least damped mode in the frame and names the better ones that leave it", () => {
    const printed = texts(dampingSweepFigure("zeta", A.sweeps[0]!, 0.03, dom));
    expect(printed).toEqual(expect.arrayContaining(["coupled heave–pitch", "pitch ↑ 0.35", "coupled roll–yaw"]));
  });

  it("names modes that are not in the root locus", () => {
    const { caption } = rootLocusFigure("locus", A.sweeps[0]!, 0.03, dom);
    expect(caption).toMatch(
      /Not drawn: further left than the frame: roll; structural, far above it: axial boom stretch\./,
    );
  });

  it("breaks a curve where its mode stops oscillating", () => {
    const sweep = A.sweeps[0]!;
    const cut: Sweep = {
      ...sweep,
      tracks: sweep.tracks.slice(0, 1).map((track) => ({
        ...track,
        imag_rad_s: track.imag_rad_s.map((value, i) => (i > 9 && i < 20 ? 0 : value)),
        dampingRatio: track.dampingRatio.map((value, i) => (i > 9 && i < 20 ? 1 : value)),
      })),
    };
    const { svg } = dampingSweepFigure("cut", cut, 0.03, dom);
    const curves = [...svg.matchAll(/<path fill="none"[^>]* d="(M[^"]+)"|<path d="(M[^"]+)"/g)].map(
      (m) => m[1] ?? m[2]!,
    );
    expect(curves.some((path) => (path.match(/M/g) ?? []).length === 2 && path.length > 200)).toBe(true);
    expect(svg.includes("NaN")).toBe(false);
  });

  it("survives gaps at the ends of a track and a sweep without a lateral mode", () => {
    const sweep = A.sweeps[1]!;
    const gappy: Sweep = {
      ...sweep,
      tracks: sweep.tracks
        .filter((track) => track.plane === "longitudinal")
        .map((track) => ({
          ...track,
          real_1_s: track.real_1_s.map((value, i) => (i < 4 || i > 18 ? null : value)),
          imag_rad_s: track.imag_rad_s.map((value, i) => (i < 4 || i > 18 ? null : value)),
          dampingRatio: track.dampingRatio.map((value, i) => (i < 4 || i > 18 ? null : value)),
        })),
    };
    for (const figure of [dampingSweepFigure("gap", gappy, null, dom), rootLocusFigure("gap", gappy, null, dom)]) {
      expect(figure.svg.includes("NaN")).toBe(false);
      expect(texts(figure)).not.toContain("Lateral");
      expect(texts(figure)).toContain("Longitudinal");
    }
  });

  it("marks the best and the own snubber rate of every variant", () => {
    const figure = snubberFigure("snubber", [A, B], 0.03, dom)!;
    const best = [A, B].flatMap(({ snubber }) =>
      snubber.map(({ optimum }) => `best ζ ${optimum.dampingRatio.toFixed(3)}`),
    );
    expect(texts(figure)).toEqual(expect.arrayContaining(best));
    expect(texts(figure)).toEqual(expect.arrayContaining(["Rev A (symbol: own rate)", "Rev B (symbol: own rate)"]));
  });

  it("prints the stiffness that is enough, or says that none is", () => {
    expect(texts(stiffnessFigure("s", "Rev A", A.stiffness, dom)!)).toContain("1.58 MN/m");
    const none = A.stiffness.map((need) => ({ ...need, headline_N_m: null, meetsCriterion: [] }));
    expect(stiffnessFigure("s", "Rev A", none, dom)!.caption).toContain("not even a rigid connection meets it");
  });

  it("prints the time to the limit beside the curve", () => {
    const time = A.pilotTime[0]!;
    expect(texts(upsetFigure("u", "Rev A", A.pilotTime, dom)!)).toContain(`${time.time_s!.toPrecision(3)} s`);
  });

  it("has nothing to draw when the study gave nothing", () => {
    expect(snubberFigure("x", [{ ...A, snubber: [] }], 0.03, dom)).toBeNull();
    expect(stiffnessFigure("x", "Rev A", [], dom)).toBeNull();
    expect(upsetFigure("x", "Rev A", [], dom)).toBeNull();
    expect(modeEnergyFigure("x", "Rev A", { ...A.points[0]!, modes: [] }, dom)).toBeNull();
  });
});
