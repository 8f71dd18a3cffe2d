import { describe, expect, it } from "vitest";
import { conditionsOf } from "./conditions.ts";

const plan = {
  sigmas: [
    { name: "light", value: 1.5 },
    { name: "moderate", value: 3 },
  ],
  controllers: ["autopilot", "ground pilot"],
  light: {
    sigma: "light",
    classes: [{ name: "night", navigationNoise: 2, pilotDelay: 0.1, pilotThreshold: 2 }],
  },
  bothAtOnce: { sigma: "moderate", controller: "autopilot" },
};

describe("conditionsOf", () => {
  it("runs each controller in each intensity, then the classes of light, then both at once", () => {
    expect(conditionsOf(plan).map(({ key }) => key)).toEqual([
      "autopilot-light",
      "autopilot-moderate",
      "ground-pilot-light",
      "ground-pilot-moderate",
      "autopilot-light-night",
      "ground-pilot-light-night",
      "autopilot-moderate-both-steer",
    ]);
  });

  it("gives every case a key of its own of letters, digits and dashes", () => {
    const alike = { ...plan, controllers: ["pilot A", "pilot-a"], light: null, bothAtOnce: null };
    const keys = conditionsOf(alike).map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
    for (const key of keys) expect(key).toMatch(/^[a-z0-9-]+$/);
  });

  it("names the intensity in the title", () => {
    expect(conditionsOf(plan)[6]).toMatchObject({ bothAtOnce: true, sigma: { name: "moderate", value: 3 } });
    expect(conditionsOf(plan)[0].title).toBe("autopilot, light (σ 1.5 m/s)");
  });
});
