import { beforeAll, describe, expect, it } from "vitest";
import { claimsDemo } from "../../../test/support/claims-demo.ts";
import type { Issue } from "../../math/errors.ts";
import type { ClaimsResult } from "../../studies/hookon-claims/index.ts";
import { hookonClaimsShape } from "./hookon-claims-shape.ts";

const SIMULATED = [{ turbulence: "light", title: "2000 samples", hits: 1903, of: 2000, rests: [] }];
let demo: ClaimsResult;
let empty: ClaimsResult;
beforeAll(() => {
  demo = claimsDemo([], SIMULATED)!.result;
  empty = claimsDemo(["studies.hookon.claims.log=~", "studies.hookon.claims.sequential=~"])!.result;
});

describe("claims, in a result file", () => {
  it("a result file holds them; what is missing or bent is named", () => {
    const check = (value: unknown): (string | undefined)[] => {
      const issues: Issue[] = [];
      hookonClaimsShape(value, "claims", issues);
      return issues.map(({ path }) => path);
    };
    for (const good of [demo, empty]) expect(check(JSON.parse(JSON.stringify(good)))).toEqual([]);
    const { sequential, ...rest } = demo;
    expect(check(rest)).toEqual(["claims.sequential"]);
    expect(check({ ...demo, sequential: { ...sequential!, accept_1: [1] } })).toEqual(["claims.sequential.accept_1"]);
    expect(check({ ...demo, classes: [{ ...demo.classes[0], verdict: "fine" }] })).toEqual([
      "claims.classes[0].verdict",
    ]);
  });
});
