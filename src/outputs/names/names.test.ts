import { describe, expect, it } from "vitest";
import { pairName, partName, sidelessName } from "./index.ts";

describe("names of parts", () => {
  it("are words, the shape only where the body does not say it", () => {
    expect(["carrier.bay", "mainDoorRight.door", "mainGearLeft.leg", "boom", "aft_yoke.strut2"].map(partName)).toEqual([
      "carrier bay",
      "main door right",
      "main gear left leg",
      "boom",
      "aft yoke strut2",
    ]);
    expect(pairName(["carrier.bay", "carried.tail"])).toBe("carrier bay – carried tail");
  });

  it("are the same for both sides when the side is left out", () => {
    expect(sidelessName("mainGearRight.leg")).toBe("main gear leg");
    expect(sidelessName("mainGearLeft.leg")).toBe("main gear leg");
    expect(sidelessName("carrier.leftover")).toBe("carrier leftover");
  });
});
