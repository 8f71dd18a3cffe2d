import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import type { FitResult, GearMap } from "../../studies/fit/types.ts";
import { fixtureFit } from "../testing/index.ts";
import {
  arrangementFigure,
  clearanceStrokeFigure,
  type Figure,
  gearMapFigure,
  groundFigure,
  heldMapsFigure,
  jackFigure,
  loadingFigure,
  toleranceFigure,
} from "./index.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const FIT = fixtureFit();

function all(fit: FitResult): Figure[] {
  const figures = [
    ...fit.pictures.map((picture) => arrangementFigure(`arr-${picture.pose}`, fit, picture, dom)),
    clearanceStrokeFigure("clearance", fit, dom),
    ...fit.maps.map((map, i) => gearMapFigure(`map${i}`, fit.variant, map, dom)),
    heldMapsFigure("held", fit.variant, fit.maps, dom),
    jackFigure("jack", fit, dom),
    groundFigure("ground", fit, dom),
    loadingFigure("loading", fit, dom),
    toleranceFigure("tolerance", fit.variant, fit.tolerance, dom),
  ];
  return figures.filter((figure) => figure !== null);
}

const texts = (figure: Figure | null) =>
  [...(figure?.svg ?? "").matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text!);

describe("every figure of the fit", () => {
  const figures = all(FIT);

  it("comes to be", () => {
    expect(figures).toHaveLength(11);
  });

  it.each(figures.map((figure) => [figure.id, figure] as const))("%s is one self-contained drawing", (id, figure) => {
    expect(figure.svg.startsWith(`<svg xmlns="http://www.w3.org/2000/svg" class="davit-figure" id="${id}"`)).toBe(true);
    expect(
      new RegExp(`<title id="${id}-title">[^<]{10,}</title><desc id="${id}-desc">[^<]{30,}</desc>`).test(figure.svg),
    ).toBe(true);
    expect(/NaN|Infinity|undefined|href=|<script|<style|<image/.exec(figure.svg)?.[0]).toBeUndefined();
    expect(figure.caption.length).toBeGreaterThan(60);
    const ids = [...figure.svg.matchAll(/ id="([^"]+)"/g)].map(([, name]) => name!);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, used] of figure.svg.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(used);
    expect(/ (d|transform|x|y)="[^"]*\d\.\d{3}/.test(figure.svg)).toBe(false);
  });

  it("gives equal bytes when drawn again", () => {
    expect(all(FIT).map(({ svg }) => svg)).toEqual(figures.map(({ svg }) => svg));
  });

  it("escapes names wherever they go", () => {
    const evil = `<script>alert("x")</script>`;
    const hostile: FitResult = {
      ...FIT,
      variant: evil,
      pictures: FIT.pictures.map((picture) => ({
        ...picture,
        parts: picture.parts.map((part) => ({ ...part, part: `${evil}.${evil}` })),
      })),
      clearances: FIT.clearances.map((one) => ({ ...one, pair: [evil, evil] })),
      maps: FIT.maps.map((map) => ({
        ...map,
        title: evil,
        group: evil,
        pairs: map.pairs.map(() => [evil, evil] as const),
      })),
      stroke: FIT.stroke.map((point) => ({
        ...point,
        jackLoads: point.jackLoads.map((load) => ({ ...load, mass: evil })),
        cg: point.cg.map((one) => ({ ...one, mass: evil })),
      })),
      tolerance: FIT.tolerance.map((one) => ({
        ...one,
        pose: evil,
        contributors: one.contributors.map((part) => ({ ...part, dimension: evil })),
      })),
    };
    for (const { id, svg } of all(hostile)) {
      expect([id, /<script/i.test(svg), svg.includes("&lt;script")]).toEqual([id, false, true]);
    }
  });
});

describe("what the figures of the fit say", () => {
  it("draws three views in metres with axis titles, dimensions and ground lines", () => {
    const printed = texts(arrangementFigure("a", FIT, FIT.pictures[0]!, dom));
    expect(printed).toEqual(
      expect.arrayContaining([
        "Elevation, from the left",
        "Plan, from above",
        "Section at FS 18.03",
        "FS (m), aft →",
        "WL (m), up",
        "BL (m), right →, seen from behind",
        "8.20 m",
        "7.40 m",
        "0.80 m",
        "ground, static: WL −1.60",
        "socket FS 15.834, WL 0.795",
        "carried tail",
        "main door",
      ]),
    );
  });

  it("shares one frame over all poses, so that they can be compared by eye", () => {
    const sizes = FIT.pictures.map((picture) => {
      const { width, height, svg } = arrangementFigure("a", FIT, picture, dom)!;
      return [width, height, [...svg.matchAll(/viewBox="([^"]*)"/g)].map(([, box]) => box)];
    });
    expect(sizes[1]).toEqual(sizes[0]);
    expect(sizes[2]).toEqual(sizes[0]);
  });

  it("does without a section where the plane misses everything, and without a ground", () => {
    const bare: FitResult = {
      ...FIT,
      ground: null,
      pictures: FIT.pictures.map((picture) => ({
        ...picture,
        parts: picture.parts.map((part) => ({ ...part, section: [] })),
      })),
    };
    const printed = texts(arrangementFigure("a", bare, bare.pictures[0]!, dom));
    expect(printed).toContain("Plan, from above");
    expect(printed.some((text) => text.startsWith("Section") || text.startsWith("ground"))).toBe(false);
  });

  it("draws clearances after the stack with both criteria, tightest first", () => {
    const figure = clearanceStrokeFigure("c", FIT, dom)!;
    const printed = texts(figure);
    expect(printed).toEqual(
      expect.arrayContaining(["criterion, in motion: 75 mm", "criterion, at rest (ends): 25.4 mm"]),
    );
    const worst = FIT.clearances
      .filter(({ kind, zone }) => kind === "moving" && !zone)
      .reduce((a, b) => (b.least_m < a.least_m ? b : a));
    const value = (1000 * worst.leastAfterStack_m.worst).toFixed(1).replace("-", "−");
    expect(figure.caption).toContain(`Least values: carrier fuselage – boom leg ${value} mm`);
  });

  it("fills every state of a map with its own hatch, one path each, and draws the path with its moves", () => {
    const map = FIT.maps[0]!;
    const figure = gearMapFigure("m", "Rev A", map, dom);
    for (const state of ["free", "near", "collides", "unresolved"]) {
      expect([...figure.svg.matchAll(new RegExp(`fill="url\\(#m-${state}\\)"[^>]*><path`, "g"))]).toHaveLength(1);
    }
    expect(texts(figure)).toEqual(
      expect.arrayContaining(["1", "2", "3", "collides: main door right – carried wing", "one region"]),
    );
    expect(figure.description).toContain("1. Move the boom from 14° to 45.35° with the gear at 0 %.");
  });

  it("says why there is no path, and numbers regions that are cut off", () => {
    const map = FIT.maps[0]!;
    const n = map.fractions.length;
    const wall = Math.floor(n / 2);
    const state = map.state.map((_, i) => (i % n === wall ? ("collides" as const) : ("free" as const)));
    const region = { ...map.regions[0]!, holdsEnd: false };
    const parted: GearMap = {
      ...map,
      state,
      regions: [region, { ...region, holdsStart: false, holdsEnd: true }],
      regionOf: state.map((_, i) => (i % n === wall ? -1 : i % n < wall ? 0 : 1)),
      path: null,
      wayBack: null,
      noPathBecause: "a wall stands between",
    };
    const figure = gearMapFigure("m", "Rev A", parted, dom);
    expect(texts(figure)).toEqual(expect.arrayContaining(["region 1 (start)", "region 2 (end)"]));
    expect(figure.caption).toContain("No safe order of moves: a wall stands between.");
    expect(texts(figure)).not.toContain("start");
  });

  it("draws the jack's capacity on the side where the loads are, and gaps at dead points", () => {
    const figure = jackFigure("j", FIT, dom);
    expect(texts(figure)).toEqual(expect.arrayContaining(["capacity 142 kN", "criterion 30°", "Jack load (kN)"]));
    const gap: FitResult = {
      ...FIT,
      stroke: FIT.stroke.map((point, i) => (i < 3 ? { ...point, tipPerJack_1: null, attitudeError_deg: null } : point)),
    };
    expect(jackFigure("j", gap, dom)!.svg.includes("NaN")).toBe(false);
  });

  it("prints the rotation limit of every state", () => {
    const { states } = FIT.ground!;
    const printed = texts(groundFigure("g", FIT, dom));
    for (const { rotationLimits } of states) expect(printed).toContain(`${rotationLimits[0]!.limit_deg!.toFixed(1)}°`);
  });

  it("ranks contributors with their shares", () => {
    const printed = texts(toleranceFigure("t", "Rev A", FIT.tolerance, dom));
    expect(printed).toEqual(expect.arrayContaining(["boom length, hinge to socket", "0.310°, 53 % (Σ 53 %)"]));
  });

  it("has nothing to draw when the study gave nothing", () => {
    const empty: FitResult = {
      ...FIT,
      stroke: [],
      clearances: [],
      maps: [],
      tolerance: [],
      ground: null,
      loading: null,
      pictures: [],
    };
    expect(all(empty)).toEqual([]);
  });
});
