import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { InputError } from "../../math/errors.ts";
import { loadPair } from "../pair/index.ts";

const DEMO = fileURLToPath(new URL("../../../demo/longshore/longshore.pair.yaml", import.meta.url));
const H = "mechanism.hydraulics";
const S = "studies.hold.snubber";

/** Path and message of each problem of the demo after some settings, for its base. */
function told(...set: string[]): string[] {
  try {
    loadPair(DEMO, (path) => ({ ok: true, bytes: readFileSync(path) }), { set });
  } catch (caught) {
    if (!(caught instanceof InputError)) throw caught;
    return caught.issues.map(({ path, message }) => `${path}: ${message.replace("with --set: ", "")}`);
  }
  return [];
}

describe("hydraulics of the snubber", () => {
  it("the demo is right, and hardware may be left out with its study", () => {
    expect(told()).toEqual([]);
    expect(told(`${S}=~`)).toEqual([]);
  });

  it.each([
    [[`${H}.accumulator.precharge=30 MPa`], `${H}.accumulator.precharge`, /precharge is above the supply/],
    [[`${H}.jack.counterPressure=21 MPa`], `${H}.jack.counterPressure`, /counter pressure is above the supply/],
    [[`${H}.snubber.relief.pressure=21 MPa`], `${H}.snubber.relief.pressure`, /relief valve opens above/],
    [[`${H}.jack.area=0 cm^2`], `${H}.jack.area`, /./],
    [[`${H}.snubber.orifice.area=0 mm^2`], `${H}.snubber.orifice.area`, /./],
    [[`${H}.fluid.viscosity.warm.temperature=20 degC`], `${H}.fluid.viscosity.warm.temperature`, /wrong order/],
    [[`${H}.fluid.viscosity.warm.value=20 mm^2/s`], `${H}.fluid.viscosity.warm.value`, /not the thinner/],
    [[`${H}.fluid.viscosity.warm.value=1 mm^2/s`], `${H}.fluid.viscosity.warm.value`, /./],
    [[`${S}.temperatures.normal=-50 degC`], `${S}.temperatures.normal`, /not warmer than the coldest/],
    [[`${S}.largestAmplitude=1 mm`], `${S}.largestAmplitude`, /smaller than the nodding/],
    [[`${S}.temperatures.hot=10 degC`], `${S}.temperatures.hot`, /not warmer than the normal/],
    [[`${H}.jack.area=68.72 cm`], `${H}.jack.area`, /./],
    [[`${H}.snubber.sealFriction=-5 N`], `${H}.snubber.sealFriction`, /./],
    [
      [`${H}.snubber.bleed={kind: annular gap, diameter: 1 mm, width: 0.6 mm, length: 10 mm}`],
      `${H}.snubber.bleed.width`,
      /as wide as its radius/,
    ],
  ])("tells of %j", (set, path, words) => {
    const found = told(...set);
    expect(found).toHaveLength(1);
    expect(found[0].startsWith(`${path}: `)).toBe(true);
    expect(found[0].slice(path.length)).toMatch(words);
  });

  it("the study needs the hardware", () => {
    expect(told(`${H}=~`).some((line) => line.startsWith(`${S}: needs mechanism.hydraulics`))).toBe(true);
  });
});
