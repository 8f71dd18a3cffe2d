import { describe, expect, it } from "vitest";
import type { Issue } from "../../math/errors.ts";
import { fixtureCertainty } from "../testing/index.ts";
import { certaintyShape } from "./certainty-shape.ts";

describe("certaintyShape", () => {
  it("takes what the part gives and names what is missing", () => {
    const check = (value: unknown): string[] => {
      const issues: Issue[] = [];
      certaintyShape(value, "certainty", issues);
      return issues.map(({ path }) => path ?? "");
    };
    const good = fixtureCertainty();
    expect(check(JSON.parse(JSON.stringify(good)))).toEqual([]);
    const bad = { ...good, conditions: [{ ...good.conditions[0], method: "dice", planes: [{}] }] };
    expect(check(bad)).toContain("certainty.conditions[0].method");
    expect(check(bad)).toContain("certainty.conditions[0].planes[0].failing");
  });
});
