import type { BalanceResult } from "../../studies/balance/types.ts";
import { countVerdicts } from "./key-numbers.ts";
import type { BalanceNumbers } from "./types.ts";

/** The numbers of `balance` that variants are compared by. */
export function balanceNumbers({ branches, start, changes, ground, findings }: BalanceResult): BalanceNumbers {
  const nearest = branches.reduce((a, b) => (b.worst.margin_percentMac < a.worst.margin_percentMac ? b : a));
  const release = changes.find(({ kind }) => kind === "release");
  return {
    verdict: countVerdicts(findings),
    startMass_kg: start.mass_kg,
    start_percentMac: start.cg_percentMac,
    worst: { margin_percentMac: nearest.worst.margin_percentMac, course: nearest.title, leg: nearest.worst.leg },
    release:
      release === undefined
        ? null
        : {
            loadFactorStep_1: release.before.mass_kg / release.after.mass_kg - 1,
            elevator_deg: release.trim?.elevator_deg ?? null,
          },
    tipBack_deg: ground === null ? null : Math.min(...ground.map(({ tipBack_deg }) => tipBack_deg)),
  };
}
