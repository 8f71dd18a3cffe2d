import type { SampleHistory } from "../samples/types.ts";
import type { HookonOutcome, HookonReplay } from "./types.ts";

/** Rows of the picture. */
const MOST_ROWS = 400;
const DEGREES = 180 / Math.PI;
/** Before and after the contact every row is kept; elsewhere every so many [s]. */
const CLOSE_BY = { before: 1, after: 2 };

/**
 * Course of one approach as the picture shows it: places aft, right and below of the mouth at the start, dense about the contact.
 *
 * @param history from `HookonRun.replay`
 * @param about   case, sample and outcome
 * @source README "Replay"
 * @verified replay.test.ts
 */
export function replayOf(
  history: SampleHistory,
  about: { readonly case: string; readonly index: number; readonly outcome: HookonOutcome },
): HookonReplay {
  const { columns, values, events } = history;
  const width = columns.length;
  const at = (name: string): number => columns.findIndex((each) => each.name === name);
  const time = at("time_s");
  const count = values.length / width;
  const contact = events.find(({ what }) => /contact|touch/.test(what))?.time ?? values[(count - 1) * width + time];
  const isNear = (t: number): boolean => t >= contact - CLOSE_BY.before && t <= contact + CLOSE_BY.after;
  const near = Array.from({ length: count }, (_, k) => k).filter((k) => isNear(values[k * width + time])).length;
  const stride = Math.max(1, Math.ceil((count - near) / (MOST_ROWS / 2)));
  const denser = Math.max(1, Math.ceil(near / (MOST_ROWS / 2)));
  const rows = Array.from({ length: count }, (_, k) => k).filter(
    (k) => k === count - 1 || k % (isNear(values[k * width + time]) ? denser : stride) === 0,
  );
  const column = (name: string, factor = 1): number[] => {
    const i = at(name);
    return rows.map((k) => factor * values[k * width + i]);
  };
  const rest = ["mouthX_m", "mouthY_m", "mouthZ_m"].map((name) => values[at(name)]);
  const place = (stem: string): [number, number, number][] => {
    const [x, y, z] = ["X", "Y", "Z"].map((axis) => column(`${stem}${axis}_m`));
    return x.map((value, k) => [rest[0] - value + 0, y[k] - rest[1], z[k] - rest[2]]);
  };
  const [tiltRight, tiltUp] = [column("tiltRight_rad"), column("tiltUp_rad")];
  return {
    ...about,
    time_s: column("time_s"),
    mouth_m: place("mouth"),
    head_m: place("head"),
    closure_m_s: column("closure_m_s"),
    axial_kN: column("axialLoad_N", 1e-3),
    side_kN: column("sideLoad_N", 1e-3),
    buffer_mm: column("bufferTravel_m", 1e3),
    gimbal_deg: tiltRight.map((value, k) => DEGREES * Math.hypot(value, tiltUp[k])),
    events: events.map(({ time: when, what }) => ({ time_s: when, what })),
  };
}
