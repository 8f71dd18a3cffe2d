import { describe, expect, it } from "vitest";
import { twoBodies } from "../../../reference/analytic/contact-cases/closed-form.ts";
import { expectClose } from "../../../test/support/close.ts";
import { contactDissipation, elasticContact, twoMassImpact } from "./index.ts";

describe("contactDissipation", () => {
  it.each([0.05, 0.1, 0.5, 0.9, 0.999])("e = %d put back into its equation", (e) => {
    const d = contactDissipation(e, 2) * 2;
    expectClose(Math.log((1 + d) / (1 - e * d)), (1 + e) * d, { rtol: 1e-9, why: "root to round-off" });
    expect(d).toBeGreaterThan(0);
  });

  it("for e → 1 the slope is 3/2·(1 − e), as series of the equation says; e = 1 loses nothing", () => {
    expectClose(contactDissipation(0.9999, 1), 1.5e-4, { rtol: 2e-4, why: "next term of the series" });
    expect(contactDissipation(1, 1)).toBe(0);
  });

  it.each([0, 1.1, Number.NaN])("refuses e = %d", (e) => {
    expect(() => contactDissipation(e, 1)).toThrow("restitution of the contact");
  });
});

it("two bodies of 1000 and 5000 kg at 2 m/s, e = 0.5: the same by momentum and common speed", () => {
  const { impulse, energyLost, firstChange, secondChange } = twoMassImpact([1000, 5000], 2, 0.5);
  const other = twoBodies(1000, 5000, 2, 0, 0.5);
  const why = "two closed forms";
  expectClose(impulse, other.impulse, { rtol: 1e-12, why });
  expectClose(energyLost, other.lost, { rtol: 1e-12, why });
  expectClose(2 + firstChange, other.after1, { rtol: 1e-12, why });
  expectClose(secondChange, other.after2, { rtol: 1e-12, why });
});

it("an elastic contact turns the energy of motion into that of the spring", () => {
  const { force, depth, time } = elasticContact(2e6, 50, 0.7);
  expectClose(0.5 * force * depth, 0.5 * 50 * 0.49, { rtol: 1e-12, why: "½Fδ = ½mv²" });
  expectClose(time * Math.sqrt(2e6 / 50), Math.PI, { rtol: 1e-12, why: "half a period" });
});
