import { describe, expect, it } from "vitest";
import { claimsDemo as claims } from "../../../test/support/claims-demo.ts";
import { expectClose } from "../../../test/support/close.ts";
import type { ClaimsOutcome } from "./index.ts";

const BASE = "studies.hookon.claims";

const finding = (outcome: ClaimsOutcome | null, id: string) => outcome!.findings.find((each) => each.id === id)!;

describe("claims of the demo", () => {
  const demo = claims();

  it("18 of 20 in light air: 72 % demonstrated, not the 90 % asked for", () => {
    const share = finding(demo, "hookon.claims.light.share");
    expectClose(share.value!, 0.7174, { atol: 5e-5, why: "four digits" });
    expect(share.verdict).toBe("not met");
    expect(share.note).toMatch(/^not demonstrated: 18 of 20 attempts locked/);
    expect(finding(demo, "hookon.claims.light.further").value).toBe(41);
    const { attempts } = demo!.result.classes.find(({ name }) => name === "light")!;
    expect(attempts).toEqual({ atShare: 2, atLower: 4, atUpper: 2 });
    expect(finding(demo, "hookon.claims.light.attempts").verdict).toBe("not met");
  });

  it("classes stand in order of σ; one without attempts claims nothing", () => {
    expect(demo!.result.classes.map(({ name }) => name)).toEqual(["smooth", "light", "moderate", "severe"]);
    const severe = finding(demo, "hookon.claims.severe.share");
    expect([severe.value, severe.verdict]).toEqual([null, "not analysed"]);
    expect(finding(demo, "hookon.claims.severe.further").value).toBe(5);
    expect(demo!.notAnalysed.join(" ")).toContain("no attempt in turbulence severe");
    expect(demo!.limits).toMatchObject([{ status: "not cleared", upper: null }]);
  });

  it("rests on the log, the class and its target, not on the plan", () => {
    const { rests } = finding(demo, "hookon.claims.moderate.share");
    expect(rests).toContain(`${BASE}.log`);
    expect(rests).toContain(`${BASE}.classes.moderate.target`);
    expect(rests.some((path) => path.includes("sequential") || path.includes("recovery"))).toBe(false);
    expect(rests).not.toContain(`${BASE}.target`);
  });

  it("a target that the bound reaches is demonstrated, and the limit follows", () => {
    const easy = claims([`${BASE}.target=70 %`]);
    expect(finding(easy, "hookon.claims.light.share").verdict).toBe("met");
    expect(finding(easy, "hookon.claims.light.further").value).toBe(0);
    expect(easy!.limits).toMatchObject([{ status: "demonstrated", lower: 0, upper: 1.5 }]);
  });

  it("a share that the attempts exclude is said to fall short", () => {
    const hard = finding(claims([`${BASE}.classes.moderate.target=95 %`]), "hookon.claims.moderate.share");
    expect(hard.verdict).toBe("not met");
    expect(hard.note).toMatch(/^shown to fall short/);
  });

  it("a go-around may be left out of the count", () => {
    const { result } = claims([`${BASE}.goAround=no attempt`])!;
    const moderate = result.classes.find(({ name }) => name === "moderate")!;
    expect([moderate.estimate.hits, moderate.estimate.of]).toEqual([6, 8]);
    expect(result.pooled.of).toBe(40);
  });

  it("a simulated share is compared, and never called met", () => {
    const share = (hits: number) => [{ turbulence: "light", title: "2000 samples", hits, of: 2000, rests: [] }];
    const near = finding(claims([], share(1850)), "hookon.claims.light.prediction");
    expect(near.verdict).toBe("information");
    expect(near.note).toContain("no proof of agreement");
    const far = finding(claims([], share(400)), "hookon.claims.light.prediction");
    expect(far.verdict).toBe("not met");
    expect(far.note).toContain("contradicts");
  });

  it("without a log or section nothing is claimed", () => {
    const empty = claims([`${BASE}.log=~`])!;
    expect(empty.result.classes.every(({ verdict }) => verdict === "no attempts")).toBe(true);
    expect(empty.notAnalysed).toEqual(["Claims of trials: the pair has no log of attempts; nothing is demonstrated."]);
    expect(claims(["studies.hookon=~"])).toBeNull();
  });

  it("is plain data without a number that is none, and the same twice", () => {
    const text = JSON.stringify(demo);
    expect(text).toBe(JSON.stringify(claims()));
    expect(JSON.parse(text)).toEqual(demo);
    expect(new Set(demo!.findings.map(({ id }) => id)).size).toBe(demo!.findings.length);
  });
});
