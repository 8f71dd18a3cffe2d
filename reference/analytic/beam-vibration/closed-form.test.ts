import { describe, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { loadPublished } from "../../load.ts";
import {
  clampedFreeRoots,
  clampedPinnedRoots,
  freeFreeRoots,
  overhangRoots,
  tipMassRoots,
  tipSpringRoots,
} from "./closed-form.ts";

const same = { rtol: 1e-9, why: "two forms of one frequency equation, roots by bisection" };

describe("roots of uniform beams", () => {
  it("are those printed for the clamped and free beam", () => {
    const printed = loadPublished("clamped-free-roots").table("roots");
    const roots = clampedFreeRoots(2);
    printed.forEach((row, i) => {
      expectClose(roots[i], row("betaL").value, { atol: 2e-15 * 4, why: "last printed digits" }, `root ${i + 1}`);
    });
  });

  it("agree where one case is a limit of another", () => {
    expectAllClose(tipMassRoots(0, 4), clampedFreeRoots(4), same, "no mass");
    expectAllClose(tipSpringRoots(0, 4), clampedFreeRoots(4), same, "no spring");
    const pinned = clampedPinnedRoots(3);
    expectAllClose(tipSpringRoots(1e12, 3), pinned, { rtol: 1e-9, why: "spring of 1e12 for a support" });
    expectAllClose(tipMassRoots(1e12, 3), pinned, { rtol: 1e-9, why: "mass 1e12" });
    expectAllClose(overhangRoots({ root: "clamped", at: 0.4, support: 0 }, 3), clampedFreeRoots(3), same, "no support");
    const firm = { root: "clamped", at: 0.75 } as const;
    expectAllClose(
      overhangRoots({ ...firm, support: 1e8 }, 3),
      overhangRoots({ ...firm, support: Number.POSITIVE_INFINITY }, 3),
      { rtol: 2e-5, why: "spring of 1e8 for a rigid support" },
    );
  });

  it("with a support under the middle of a clamped beam are π and 3π, with a clamped span's own between them", () => {
    const [first, second, third] = overhangRoots({ root: "clamped", at: 0.5, support: Number.POSITIVE_INFINITY }, 3);
    expectClose(first, Math.PI, { rtol: 1e-9, why: "bisection" });
    expectClose(second, freeFreeRoots(2)[1], { rtol: 1e-9, why: "bisection" });
    expectClose(third, 3 * Math.PI, { rtol: 1e-9, why: "bisection" });
  });
});
