import { clopperPearson } from "../../math/distributions/index.ts";
import { BAND_FROM, type BatchCondition, bandTimes, orderOf, ReleaseSampler, sampleColumns } from "./samples.ts";
import type { ReleaseInputs } from "./settings.ts";
import { RELEASE_OUTCOMES, type ReleaseBatch } from "./types.ts";

/** Share of the samples that must be free at a time for a band to be stated there. */
const ENOUGH = 0.9;

/** Draws and sums up one turbulence with one loading. */
export function batchOf(
  inputs: ReleaseInputs,
  conditions: readonly BatchCondition[],
  condition: BatchCondition,
  seed: number,
): ReleaseBatch {
  const { samples } = inputs.settings.dispersion;
  const sampler = new ReleaseSampler(inputs, condition, orderOf(conditions, condition), seed);
  const size = sampleColumns(inputs).length;
  const rows = new Float64Array(samples * size);
  for (let i = 0; i < samples; i++) sampler.run(i, rows.subarray(i * size, (i + 1) * size));
  return summarise(inputs, condition, rows, size);
}

/** Sum of rows of `sampleColumns`. */
export function summarise(
  inputs: ReleaseInputs,
  { key, sigma, sigmaName, mass }: BatchCondition,
  rows: Float64Array,
  size: number,
): ReleaseBatch {
  const count = rows.length / size;
  const column = (k: number): Float64Array =>
    Float64Array.from({ length: count }, (_, i) => rows[i * size + k])
      .filter((value) => !Number.isNaN(value))
      .sort();
  const said = column(1);
  const clean = column(0).filter((value) => value === 1).length;
  const interval = clopperPearson(clean, count, inputs.settings.criteria.confidence.si);
  const times = bandTimes(inputs);
  const band = times.flatMap((time, i) => {
    const values = column(BAND_FROM + i);
    return values.length >= ENOUGH * count ? [{ time, ...three(values) }] : [];
  });
  return {
    ...{ key, sigma: sigmaName, sigma_m_s: sigma, mass, samples: count },
    outcomes: RELEASE_OUTCOMES.map((outcome, k) => ({ outcome, count: said.filter((value) => value === k).length })),
    clean: { count: clean, of: count, share_1: clean / count, lower_1: interval.lower, upper_1: interval.upper },
    clearance_m: some(column(5)),
    exitSpeed_m_s: some(column(3)),
    band: {
      time_s: band.map(({ time }) => time),
      p05_m: band.map(({ p05 }) => p05),
      p50_m: band.map(({ p50 }) => p50),
      p95_m: band.map(({ p95 }) => p95),
    },
  };
}

const some = (sorted: Float64Array) => (sorted.length === 0 ? null : three(sorted));

function three(sorted: Float64Array) {
  return { p05: percentile(sorted, 0.05), p50: percentile(sorted, 0.5), p95: percentile(sorted, 0.95) };
}

/** Value below which a share of sorted values lies, straight lines between the values (README eq. 5). */
function percentile(sorted: Float64Array, share: number): number {
  const place = (sorted.length - 1) * share;
  const k = Math.min(sorted.length - 1, Math.floor(place));
  const next = Math.min(sorted.length - 1, k + 1);
  return sorted[k] + (place - k) * (sorted[next] - sorted[k]);
}
