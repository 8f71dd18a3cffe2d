import { describe, expect, it } from "vitest";
import type { InputError } from "../../math/errors.ts";
import { partNames } from "../../studies/hold-depth/index.ts";
import { partsOf } from "./parts.ts";

const told = (list: string): string[] => {
  try {
    partsOf(list);
  } catch (error) {
    return (error as InputError).issues.map(({ message }) => message);
  }
  return [];
};

describe("the list of parts", () => {
  it("is every part, none or those named", () => {
    expect(partsOf(undefined)).toBeUndefined();
    expect(partsOf("none")).toEqual([]);
    expect(partsOf(partNames().join(" , "))).toEqual(partNames());
  });

  it("says what is wrong with each name", () => {
    expect(told("control,nosuch,scalin")).toEqual(["names no part of hold", "names no part of hold"]);
    expect(told("none,control")).toEqual(["`none` stands alone"]);
    expect(told("scaling,,")).toEqual(Array(2).fill("a name is missing between the commas"));
  });
});
