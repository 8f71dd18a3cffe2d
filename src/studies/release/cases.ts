import type { SeparationStep } from "../../physics/separation/index.ts";
import type { ReleaseSettings } from "./settings.ts";

/** A release as the study runs it: everything that may differ from the normal one, SI. */
export interface ReleaseCase {
  readonly name: string;
  readonly what: string;
  readonly attachment: "three point" | "single point";
  readonly weightShare: number;
  readonly steps: readonly SeparationStep[];
  /** When the nose is commanded, or the probe cut; `null`: it stays. */
  readonly noseAt: number | null;
  /** Elevator beside that of free flight as the nose ends [rad]; `null`: the controls stay as they were held. */
  readonly elevator: number | null;
  readonly sideslip: number;
  readonly loadFactor: number;
  readonly gust: { readonly speed: number; readonly length: number } | null;
}

type Change = ReleaseSettings["cases"][string];

export const NORMAL = "normal";
export const EMERGENCY = "emergency, probe cut";

/** The normal release, the emergency release and every case of the pair, in that order. */
export function casesOf(settings: ReleaseSettings): ReleaseCase[] {
  return [
    caseOf(settings, NORMAL, {}),
    caseOf(settings, EMERGENCY, { nose: "cut" }),
    ...Object.entries(settings.cases).map(([name, change]) => caseOf(settings, name, change)),
  ];
}

/** One case: the steps of the normal release with what the case changes. */
export function caseOf(settings: ReleaseSettings, name: string, change: Change): ReleaseCase {
  const { sequence } = settings;
  const attachment = change.attachment ?? settings.attachment;
  const nose = change.nose ?? "latch";
  const noseAt = nose === "stays" ? null : nose === "cut" ? sequence.cut.si : sequence.nose.si;
  const steps: SeparationStep[] = [];
  if (attachment === "three point") {
    // a cut does not wait for the pins
    const pins = nose === "cut" ? Math.min(sequence.aftPins.si, sequence.cut.si) : sequence.aftPins.si;
    for (const [pin, side] of (["left", "right"] as const).entries()) {
      if (change.stuckPin === side) continue;
      const late = change.latePin === side ? (change.lateBy?.si ?? 0) : 0;
      steps.push({ time: pins + late, kind: "open pin", pin });
    }
  }
  if (noseAt !== null) {
    steps.push({ time: noseAt, kind: nose === "cut" ? "cut probe" : "open nose" });
    const surfaces = [
      ["aileron", change.aileron?.si ?? 0],
      ["rudder", change.rudder?.si ?? 0],
    ] as const;
    for (const [control, by] of surfaces) {
      if (by !== 0) steps.push({ time: noseAt, kind: "move control", control, by });
    }
    if (change.carrierPull !== undefined) {
      const lasting = change.carrierPullFor?.si ?? settings.duration.si;
      steps.push({ time: noseAt, kind: "carrier pulls", loadFactor: change.carrierPull.si, lasting });
    }
  }
  if (change.thrust !== undefined && change.thrust.si !== 0) {
    steps.push({ time: 0, kind: "move control", control: "thrust", by: change.thrust.si });
  }
  if (change.airbrake !== undefined) steps.push({ time: 0, kind: "airbrake", dragArea: change.airbrake.si });
  return {
    ...{ name, attachment, steps, noseAt },
    elevator: change.controls === "stay" ? null : sequence.preset.si + (change.elevator?.si ?? 0),
    what: describe(change, attachment),
    weightShare: (change.weightShare ?? settings.weightShare).si,
    sideslip: change.sideslip?.si ?? 0,
    loadFactor: change.loadFactor?.si ?? 1,
    gust: change.gust === undefined ? null : { speed: change.gust.si, length: change.gustLength?.si ?? 30 },
  };
}

const WORDS: Readonly<Record<string, (change: Change) => string>> = {
  stuckPin: ({ stuckPin }) => `${stuckPin} aft pin stuck`,
  latePin: ({ latePin, lateBy }) => `${latePin} aft pin ${lateBy?.text ?? "0 s"} late`,
  nose: ({ nose }) => (nose === "cut" ? "probe cut" : nose === "stays" ? "nose not released" : "nose by its latch"),
  thrust: ({ thrust }) => `thrust ${thrust!.text} more`,
  controls: ({ controls }) => (controls === "stay" ? "controls stay as held" : "controls to free flight"),
  elevator: ({ elevator }) => `elevator ${elevator!.text}`,
  aileron: ({ aileron }) => `aileron ${aileron!.text}`,
  rudder: ({ rudder }) => `rudder ${rudder!.text}`,
  airbrake: ({ airbrake }) => `airbrake ${airbrake!.text}`,
  sideslip: ({ sideslip }) => `sideslip ${sideslip!.text}`,
  loadFactor: ({ loadFactor }) => `load factor ${loadFactor!.text}`,
  gust: ({ gust }) => `upward gust ${gust!.text} at the worst moment`,
  carrierPull: ({ carrierPull }) => `carrier pulls ${carrierPull!.text} g more`,
  weightShare: ({ weightShare }) => `weight share ${weightShare!.text}`,
};

function describe(change: Change, attachment: string): string {
  const said = Object.entries(WORDS).flatMap(([key, words]) =>
    change[key as keyof Change] === undefined ? [] : [words(change)],
  );
  return [`from ${attachment}`, ...said].join(", ");
}
