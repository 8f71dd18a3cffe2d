import type { FindingDraft } from "../finding/index.ts";
import type { HoldPartContext } from "../hold/index.ts";
import { key, stateWords, worstOf } from "./finding-words.ts";
import type { ControlSettings } from "./settings.ts";
import { ATTACHMENT_STATES, type ControlledModes, isLatched, type SurfaceAuthority } from "./types.ts";

/** Held by pins: what each function does there, and which surfaces move nothing against the mechanism. */
export function latchedFindings(
  { inputs }: HoldPartContext,
  { gains, paths }: ControlSettings,
  authority: readonly SurfaceAuthority[],
  modes: readonly ControlledModes[],
  id: string,
  rests: readonly string[],
): FindingDraft[] {
  if (paths.latched.length === 0) return [];
  const { structuralDamping } = inputs.criteria;
  return ATTACHMENT_STATES.filter(isLatched).flatMap((state): FindingDraft[] => {
    const surfaces = authority.filter((each) => each.state === state);
    if (surfaces.length === 0) return [];
    const idle = gains.hooked.filter(({ effector }) =>
      surfaces.every(({ surface, movesNothing }) => surface !== effector || movesNothing),
    );
    const least = worstOf(surfaces, ({ angle_deg }) => angle_deg);
    const own = modes.filter((each) => each.state === state && each.gains !== "free");
    const lost = (set: string): string[] => [
      ...new Set(own.filter((each) => each.gains === set && !each.meetsCriteria).map(({ mass }) => mass)),
    ];
    const worst = worstOf(
      own.filter((each) => each.gains === "hooked"),
      (each) => each.worstDampingRatio,
    );
    const shared = { rests, verdict: "information" as const };
    const sets = [
      ["no function", lost("none")],
      ["the hooked set", lost("hooked")],
    ] as const;
    const says = sets.map(([set, masses]) =>
      masses.length === 0
        ? `with ${set} every criterion is met`
        : `with ${set} one is missed at mass ${masses.join(", ")}`,
    );
    return [
      {
        ...{ id: `${id}.${key(state)}.authority`, unit: "deg", ...shared },
        title: `Least that a surface's full travel moves, ${stateWords(state)}`,
        value: least?.value ?? null,
        note: `${least?.of.surface ?? "no surface"}; ${idle.length === 0 ? "every function has something to move at some mass" : `${idle.map(({ name }) => name).join(", ")}: the surface moves nothing that the function could hold`}`,
      },
      {
        ...{ id: `${id}.${key(state)}.modes`, unit: "1", ...shared },
        title: `Least damping ratio with the hooked set, ${stateWords(state)}`,
        value: worst?.value ?? null,
        note: `${worst === null ? "no oscillation" : `${worst.of.plane}, ${worst.of.frequency_Hz?.toFixed(2)} Hz, mass ${worst.of.mass}`}; ${says.join("; ")} (structural damping ratio at least ${structuralDamping.value})`,
      },
    ];
  });
}
