/** Which modes of a sweep are drawn, and how. */
import type { ModePlane, Sweep, SweepTrack } from "../../studies/hold/types.ts";
import { formatShort, prettyUnit, scaleUnit } from "../numbers/index.ts";
import type { Axis } from "./frame.ts";
import { type CurveStyle, curveStyle } from "./style.ts";
import { capitalise } from "./text.ts";

export interface DrawnTrack {
  readonly track: SweepTrack;
  readonly style: CurveStyle;
}

/** Tracks of one plane, each with its own style; structural modes last. */
export function tracksOf(sweep: Sweep, plane: ModePlane): DrawnTrack[] {
  const own = sweep.tracks.filter((track) => track.plane === plane);
  const ordered = [...own.filter((t) => t.class !== "structural"), ...own.filter((t) => t.class === "structural")];
  return ordered.map((track, i) => ({ track, style: curveStyle(i) }));
}

/** Planes that have at least one track, longitudinal first. */
export function planesOf(sweep: Sweep): ModePlane[] {
  return (["longitudinal", "lateral"] as const).filter((plane) => sweep.tracks.some((track) => track.plane === plane));
}

/** True where the mode exists and oscillates. */
export function oscillates(track: SweepTrack, i: number): boolean {
  const imag = track.imag_rad_s[i];
  return imag !== null && imag !== undefined && imag > 0 && track.real_1_s[i] !== null;
}

export interface SweepAxis extends Axis {
  readonly values: readonly number[];
  readonly at: number;
  /** Printed unit without the speed's kind, for labels: "m/s", "°". */
  readonly unit: string;
}

/** Axis of the swept value with its unit scaled for print. */
export function sweepAxis(sweep: Sweep): SweepAxis {
  const scale = scaleUnit(sweep.axis.unit, Math.max(...sweep.values.map(Math.abs)));
  const own = scale.factor === 1e-6 ? { factor: 1e-3, unit: `k${prettyUnit(sweep.axis.unit)}` } : scale;
  const values = sweep.values.map((value) => value * own.factor);
  const unit = own.unit === "deg" ? "°" : own.unit;
  const label = `${capitalise(sweep.axis.label)}${own.unit === "" ? "" : ` (${own.unit})`}`;
  return {
    label,
    from: Math.min(...values),
    to: Math.max(...values),
    log: sweep.axis.scale === "log",
    values,
    at: sweep.at * own.factor,
    unit: unit.replace(/ (EAS|CAS|TAS)$/, ""),
  };
}

/** A value of the sweep with its unit, four digits: `95 m/s`, `52°`. */
export function withAxisUnit(value: number, { unit }: SweepAxis): string {
  return `${formatShort(Number(value.toPrecision(4)))} ${unit}`.replace(" °", "°").trimEnd();
}

/** Value of a sampled curve at `at`, by straight interpolation between samples; null outside or in a gap. */
export function interpolate(x: readonly number[], y: readonly (number | null)[], at: number): number | null {
  for (let i = 0; i + 1 < x.length; i++) {
    const [a, b] = [x[i]!, x[i + 1]!];
    if ((at - a) * (at - b) > 0) continue;
    const [ya, yb] = [y[i] ?? null, y[i + 1] ?? null];
    if (ya === null || yb === null) return at === a ? ya : at === b ? yb : null;
    return b === a ? ya : ya + ((yb - ya) * (at - a)) / (b - a);
  }
  return null;
}
