import { beforeAll, describe, expect, it } from "vitest";
import { claimsDemo } from "../../../test/support/claims-demo.ts";
import type { ClaimsResult } from "../../studies/hookon-claims/index.ts";
import { hookonClaimsText } from "./hookon-claims-text.ts";

const SIMULATED = [{ turbulence: "light", title: "2000 samples", hits: 1903, of: 2000, rests: [] }];
let demo: ClaimsResult;
let empty: ClaimsResult;
beforeAll(() => {
  demo = claimsDemo([], SIMULATED)!.result;
  empty = claimsDemo(["studies.hookon.claims.log=~", "studies.hookon.claims.sequential=~"])!.result;
});

describe("claims, printed", () => {
  it("in a terminal of 100 columns: counts, bound, target, verdict, plan and checks", () => {
    const lines = hookonClaimsText(demo, { width: 100, colour: false });
    for (const line of lines) expect([...line].length).toBeLessThanOrEqual(100);
    const text = lines.join(" ").replace(/\s+/g, " ");
    expect(lines[0]).toBe("CLAIMS FROM ATTEMPTS");
    expect(text).toContain("light 18/20 71.7 % 90.0 % 41 4 not demonstrated");
    expect(text).toContain("severe 0/0 - 50.0 % 5 - no attempts");
    expect(text).toContain("no difference shown, which is no proof of agreement");
    expect(text).toContain("90/90: 22, 38, 52; 95/95: 59, 93, 124; 99/95: 299, 473, 628");
    expect(hookonClaimsText(empty, { width: 80, colour: false }).join(" ")).toContain("no log of attempts");
  });
});
