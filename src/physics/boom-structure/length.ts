import { requirePositive } from "../../math/require.ts";
import type { BoomStructureSettings } from "./types.ts";

/**
 * The same boom made longer or shorter: the same sections at stations stretched about the hinge.
 *
 *     x → factor·x for sections, bodies and nodes outboard of the hinge; attachments stay where they are or go along
 *
 * A boom that keeps its jack lug and one that takes it along answer differently: a lug that stays gives the jack
 * a shorter lever for a longer boom.
 *
 * @param settings    the boom as it is
 * @param factor      new length over old, > 0
 * @param attachments "stay" at their stations, or "go along"
 * @returns settings of the changed boom; `holdBoom` refuses it when an attachment that stays lies off the shorter boom
 * @throws {DomainError} if `factor` is not positive
 * @source README, eq. 18
 * @verified length.test.ts: stiffness ∝ length⁻³, frequency ∝ length⁻², mass ∝ length
 */
export function withLength(
  settings: BoomStructureSettings,
  factor: number,
  attachments: "stay" | "go along",
): BoomStructureSettings {
  requirePositive("factor of the boom's length", factor);
  const stretched = (station: number): number => (station > 0 ? factor * station : station);
  const moved = <T extends { readonly station: number }>(one: T): T => ({ ...one, station: stretched(one.station) });
  return {
    ...settings,
    sections: settings.sections.map(moved),
    attachments: attachments === "stay" ? settings.attachments : settings.attachments.map(moved),
    ...(settings.masses === undefined ? {} : { masses: settings.masses.map(moved) }),
    ...(settings.nodes === undefined ? {} : { nodes: settings.nodes.map(stretched) }),
  };
}
