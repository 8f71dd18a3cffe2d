import type { ReleaseInputs } from "./settings.ts";

/** What every number of this study supposes. */
export function assumptions({ settings, carrier, proximity }: ReleaseInputs): string[] {
  return [
    "release: before the command the pair is in balance; with both aft pins latched they carry nothing, and the nose carries what is left",
    "release: the probe is held across the bore until it has travelled its depth; friction is Coulomb's and creeps at low speed",
    "release: from the nose's command on the elevator stands where free flight is trimmed, with the preset beside it; no pilot and no autopilot acts afterwards",
    "release: the distance is that of the drawn surfaces less their faceting; pairs that touch while attached count only as they come back",
    "release: links that were let go stay where they were, bodies that the pair names as swung away are left out",
    carrier === null
      ? "release: the carrier flies on steadily"
      : "release: the carrier answers as a rigid body with its controls held; its crew acts only where a case says so",
    proximity === null
      ? "release: the air near the carrier is that of free flight, for want of data; nothing is cleared by it"
      : "release: increments near the carrier are straight lines between the rows of the table; beyond it a run counts as not analysed",
    "release: gusts pass over both aircraft at once; their filters have no lag of the lift",
    ...(settings.jettison === undefined
      ? []
      : [
          "release: what falls has drag and no lift and leaves with the carrier's velocity; the ground lies at sea level, the wind falls linearly to nothing there",
        ]),
    "trends: that drag withdraws the probe and that a lightly loaded aircraft floats is common practice, no source",
  ];
}

/** What the study leaves open. */
export function notAnalysed({ settings, bodies }: ReleaseInputs): string[] {
  return [
    "release: whether the two means of release are isolated from each other (14 CFR 29.865 for external loads, by analogy): needs the power and hydraulic topology",
    "release: impulse and fragments of the cutter; reliability of either means",
    "release: the boom let go at its hinge with the aircraft on it; its fall is that of a body with drag alone",
    "release: the autopilot of the carrier and of the carried aircraft, and the pilots' reactions",
    "release: landing with the stub, beyond which point touches the ground first",
    ...(settings.jettison === undefined ? ["release: footprint of what is jettisoned: the pair names nothing"] : []),
    ...(bodies === null ? ["release: distances: the pair draws no bodies"] : []),
  ];
}
