import { describe, expect, it } from "vitest";
import { approachSettings } from "../../../test/support/approach-settings.ts";
import { type AttemptState, breakawayReason, goAroundReason } from "./rules.ts";
import type { ApproachTrim } from "./settings.ts";
import { ABORT_REASONS, type AbortReason } from "./types.ts";

const trim: ApproachTrim = {
  ...{ alpha: 0.07, liftAlpha: 0.11, elevator: 0, aileron: 0, rudder: 0, thrust: 2000, mass: 2600, trueAirspeed: 110 },
};
const { schedule, breakaway } = approachSettings(trim);
const rule = schedule.goAround;
const good: AttemptState = {
  ...{ remaining: 1, offLine: 0.1, closure: 1.2, dropout: 0, elapsed: 10, touching: 0, closing: true, tripped: false },
};

describe("go-around rule", () => {
  // within 1.5 m, gate 0.2 m, closure 0.5 to 2 m/s, dropout 1 s, 90 s, overrun 0.5 m, touch 3 s
  it.each<[string, Partial<AttemptState>, AbortReason]>([
    ["all is well", {}, "none"],
    ["outside the gate near the mouth", { offLine: 0.21 }, "outside the gate"],
    ["on the edge of the gate", { offLine: 0.2 }, "none"],
    ["outside the gate, still far", { offLine: 0.21, remaining: 1.51 }, "none"],
    ["outside the gate, not closing", { offLine: 5, closing: false }, "none"],
    ["too slow near", { closure: 0.49 }, "closure outside limits"],
    ["too fast near", { closure: 2.01 }, "closure outside limits"],
    ["too fast far", { closure: 2.01, remaining: 3 }, "none"],
    ["stopped by the funnel", { closure: 0, touching: 0.1 }, "none"],
    ["past the mouth", { remaining: -0.1, offLine: 1 }, "none"],
    ["past the mouth too far", { remaining: -0.51 }, "overrun"],
    ["in touch too long", { touching: 3.1, remaining: -0.2 }, "not latched"],
    ["no navigation", { dropout: 1.01 }, "navigation lost"],
    ["no navigation before closing", { dropout: 1.01, closing: false }, "navigation lost"],
    ["too long", { elapsed: 90.1, closing: false }, "out of time"],
    ["no navigation and outside the gate: the first of the list", { dropout: 2, offLine: 1 }, "navigation lost"],
    ["tripped, whatever else", { tripped: true, dropout: 9, offLine: 9, closure: 9, elapsed: 999 }, "none"],
  ])("%s", (_, change, reason) => {
    expect(ABORT_REASONS[goAroundReason({ ...good, ...change }, rule)]).toBe(reason);
  });
});

describe("breakaway", () => {
  // overrun 1.5 m, closure 3 m/s, dropout 2 s
  it.each<[string, Partial<AttemptState>, number | null, AbortReason]>([
    ["all is well", {}, null, "none"],
    ["before the command", {}, 10.1, "none"],
    ["at the command", {}, 10, "breakaway commanded"],
    ["at the command before closing", { closing: false }, 10, "breakaway commanded"],
    ["overrun", { remaining: -1.51 }, null, "overrun"],
    ["closing much too fast", { closure: 3.1, remaining: 5 }, null, "closure outside limits"],
    ["navigation lost", { dropout: 2.1 }, null, "navigation lost"],
    ["navigation lost before closing", { dropout: 2.1, closing: false }, null, "none"],
    ["tripped", { tripped: true, closure: 9 }, 0, "none"],
  ])("%s", (_, change, commandedAt, reason) => {
    const code = breakawayReason({ ...good, ...change }, { ...breakaway, commandedAt }, 10);
    expect(ABORT_REASONS[code]).toBe(reason);
  });
});
