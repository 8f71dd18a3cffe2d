import { describe, expect, it } from "vitest";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { fixtureHold } from "../testing/index.ts";
import { holdHereCards, renderHoldHere } from "./index.ts";

const base = fixtureHold("Rev B") as HoldDepthResult;
const hook = base.points[0].airspeed_m_s_EAS;
const condition = base.points[0].condition;

/** The fixture with limits of airspeed of our own. */
function withBands(bands: readonly (readonly ["longitudinal" | "lateral", number, number])[]): HoldDepthResult {
  const limits = bands.map(([plane, lower, upper], i) => ({
    id: `hold.${condition}.airspeed-${plane}-${i + 1}`,
    ...{ title: plane, quantity: "airspeed EAS", lower, upper, unit: "m/s", because: [] },
    status: "analysed" as const,
  }));
  return { ...base, limits, pilotTime: [] };
}
const line = (result: HoldDepthResult, what: string) =>
  holdHereCards(result)[0].lines.find((each) => each.what.startsWith(what))!;

describe("the card that says where to hold", () => {
  it("gives the airspeeds at which both planes meet their criteria, rounded inwards", () => {
    const result = withBands([
      ["longitudinal", 60.01, 120.06],
      ["lateral", 80.03, 130],
    ]);
    expect(line(result, "Airspeed").value).toBe("80.1 to 120.0 m/s EAS");
  });

  it("does not hold where a plane is not cleared, and says which way is better", () => {
    const [card] = holdHereCards(
      withBands([
        ["longitudinal", hook - 20, hook + 20],
        ["lateral", hook + 5, hook + 20],
      ]),
    );
    expect(card.analysed).toBe(false);
    expect(card.headline).toContain("lateral not cleared");
    const faster = card.actions.find((action) => action.startsWith("Lateral motion: fly faster"))!;
    expect(faster).toContain("every lateral criterion is met.");
    const [apart] = holdHereCards(withBands([["lateral", hook + 5, hook + 20]]));
    expect(apart.actions.join(" ")).toContain("lateral criterion is met; longitudinal motion is not cleared there");
    expect(card.actions.at(-1)).toContain("Release before");
  });

  it("says in words which way the tow load pulls", () => {
    const points = base.points.filter((point) => point.condition === condition && point.trim !== null).slice(0, 2);
    const towed = (...loads: number[]) => ({
      ...base,
      points: loads.map((towLoad_N, i) => ({ ...points[i]!, trim: { ...points[i]!.trim!, towLoad_N } })),
    });
    expect(line(towed(-422), "Tow load").value).toBe("0.422 kN aft");
    expect(line(towed(-422, 1810), "Tow load").value).toBe("0.422 kN aft to 1.81 kN forward");
  });

  it("says none where no airspeed does", () => {
    const result = withBands([
      ["longitudinal", 60, 70],
      ["lateral", 80, 130],
    ]);
    expect(line(result, "Airspeed").value).toBe("none");
  });

  it("claims nothing about what was not looked at", () => {
    const result = withBands([
      ["longitudinal", hook - 20, hook + 20],
      ["lateral", hook - 20, hook + 20],
    ]);
    for (const what of ["Retracting", "Rough air", "Time hooked"])
      expect(line(result, what).value).toBe("not analysed");
    const [card] = holdHereCards(result);
    const growing = base.points.some((point) => point.condition === condition && point.trim === null);
    expect(card.analysed).toBe(!growing);
  });

  it("gives no time where a motion grows", () => {
    const history = { time_s: [0, 4.2], angle_deg: [1, 10] };
    const pilotTime = [
      {
        ...{ pointId: base.points[0].id, plane: "longitudinal" as const, outcome: "limit reached" as const },
        ...{ time_s: 4.2, linearEstimate_s: 4, upset_deg: 1, limit_deg: 10, history },
      },
    ];
    expect(line({ ...base, pilotTime }, "Time hooked").value).toBe("none; limit after 4.2 s");
  });

  it("does not hold where the trim needs more than there is, nor gives a time with one mass that finds no σ", () => {
    const clear = withBands([
      ["longitudinal", hook - 20, hook + 20],
      ["lateral", hook - 20, hook + 20],
    ]);
    const mass = base.points.find((point) => point.condition === condition)!.mass;
    const over = (id: string) => ({ ...base.findings[0], id, verdict: "not met" as const });
    for (const [id, word] of [
      [`hold.${condition}.${mass}.elevator`, "elevator"],
      [`hold.${condition}.equilibrium.${mass}.hook-load`, "hook load"],
    ]) {
      const [card] = holdHereCards({ ...clear, findings: [...clear.findings, over(id)] });
      expect(card.analysed).toBe(false);
      expect(card.headline).toContain(`${word} not cleared`);
    }
    const points = [
      { condition, mass: "full", answer: { sigma_m_s: 3 }, quantities: [] },
      { condition, mass: "empty", answer: null, outcome: "does not trim", quantities: [] },
    ];
    const parts = { roughAir: { timeHooked_s: 600, probability_1: 0.01, points } };
    const dwell = line({ ...clear, parts } as unknown as HoldDepthResult, "Time hooked");
    expect(dwell).toMatchObject({ value: "none", because: "does not trim, mass empty" });
  });

  it("takes the tightest rule, the smallest σ and rounds σ down", () => {
    const rule = { condition, uncertainty_deg: 3, outcome: "lost" };
    const answer = (sigma_m_s: number) => ({ sigma_m_s, limiting: "pitch", severity: "light", exceedance_1: 0.01 });
    const parts = {
      attachment: {
        rules: [
          { ...rule, plane: "longitudinal", rule_deg: 51 },
          { ...rule, plane: "lateral", rule_deg: 47 },
        ],
      },
      roughAir: {
        ...{ timeHooked_s: 600, probability_1: 0.01 },
        points: [
          { condition, mass: "full", answer: answer(2.039), quantities: [{ key: "pitch", title: "Pitch" }] },
          { condition, mass: "empty", answer: answer(3), quantities: [] },
        ],
      },
    };
    const result = { ...withBands([]), parts } as unknown as HoldDepthResult;
    expect(line(result, "Retracting").value).toBe(
      "not up past 51° (to smaller angles) before the aft pins are latched",
    );
    expect(line(result, "Rough air").value).toBe("at most 2.03 m/s (light)");
    expect(line(result, "Time hooked").value).toBe("at most 10.0 min");
  });

  it("is one page a condition with the cautions on it, the same bytes twice, nothing of the user unescaped", () => {
    const head = { pair: "<b>pair</b>", davit: "0.0.0" };
    const meta = { cautions: [], inputHash: "a".repeat(64) };
    const page = renderHoldHere(head, base, meta);
    expect(renderHoldHere(head, base, meta)).toBe(page);
    expect(page).not.toContain("<b>pair</b>");
    expect(page).toContain("Aid to judgement, not an approval");
    expect(page).toContain("Not for operational control");
    expect(page.match(/<section>/g)).toHaveLength(new Set(base.points.map((point) => point.condition)).size);
    expect(page).not.toMatch(/https?:|src=|href=/);
  });
});
