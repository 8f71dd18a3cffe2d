import type { Criterion, FindingDraft } from "../finding/index.ts";
import type { HoldInputs } from "./inputs.ts";
import type { ReadGroups } from "./read-groups.ts";
import type { HoldPoint, HoldTrim } from "./types.ts";

/** What the trim of one point says: stall margin, loads, deflections and the angle without load. */
export function trimFindings(
  inputs: HoldInputs,
  point: HoldPoint,
  id: string,
  rests: readonly string[],
  groups: ReadGroups,
): FindingDraft[] {
  const { trim } = point;
  if (trim === null) {
    const note =
      "no angle of attack within ±45° and no control deflection within ±60° balance the aircraft at this airspeed, weight share and thrust";
    return [
      { id: `${id}.trim`, title: `Trim, mass ${point.mass}`, value: null, unit: "1", verdict: "not met", note, rests },
    ];
  }
  const stall: Criterion = {
    text: "stall margin 1 − CL/CLmax at least 0",
    sense: "at least",
    limit: 0,
    source: "stall; common practice, no source",
  };
  const information = (
    key: string,
    title: string,
    value: number,
    unit: string,
    from: readonly string[] = rests,
  ): FindingDraft => ({
    ...{ id: `${id}.${key}`, title: `${title}, mass ${point.mass}`, value, unit, rests: from },
  });
  const stallTitle = "Stall margin 1 − CL/CLmax";
  const stallRests = [...rests, ...groups.stall];
  return [
    { ...information("stall-margin", stallTitle, trim.stallMargin, "1", stallRests), criterion: stall },
    information("tow-load", "Tow load on the probe, forward", trim.towLoad_N, "N"),
    information("jack-load", "Load on the jack by the boom, towards extension positive", trim.jackLoad_N, "N", [
      ...rests,
      ...groups.ratio,
    ]),
    ...controlFindings(inputs, trim, groups, (key, title, value) => information(key, title, value, "deg")),
    information("unloaded-angle", "Boom angle without load on the tip", trim.unloadedBoomAngle_deg, "deg", [
      ...rests,
      ...groups.swing,
    ]),
  ];
}

const CONTROLS = {
  elevator: "trailing edge down positive",
  aileron: "right wing down positive",
  rudder: "trailing edge left positive",
} as const;

/** Deflections at trim, each against its travel on the side to which it is deflected; lateral ones when they are used. */
function controlFindings(
  inputs: HoldInputs,
  trim: HoldTrim,
  groups: ReadGroups,
  draft: (key: string, title: string, value: number) => FindingDraft,
): FindingDraft[] {
  const deflections = { elevator: trim.elevator_deg, aileron: trim.aileron_deg, rudder: trim.rudder_deg };
  return Object.entries(CONTROLS).flatMap(([name, note]) => {
    const surface = name as keyof typeof CONTROLS;
    const value = deflections[surface];
    if (surface !== "elevator" && Math.abs(value) < 1e-6) return [];
    const own = draft(surface, `${name[0].toUpperCase()}${name.slice(1)} at trim`, value);
    const travel = inputs.carried.travel?.[surface];
    if (travel === undefined) return [{ ...own, note: `${note}; the pair states no travel to compare with` }];
    const positive = value >= 0;
    const criterion: Criterion = {
      text: `${name} at trim within its travel`,
      sense: positive ? "at most" : "at least",
      limit: ((positive ? 1 : -1) * travel * 180) / Math.PI,
      source: "control travel of the pair",
    };
    return [{ ...own, criterion, note, rests: [...own.rests, ...groups.travel] }];
  });
}
