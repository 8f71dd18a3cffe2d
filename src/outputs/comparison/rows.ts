import type { ModePlane } from "../../studies/hold/types.ts";
import { formatFixed, formatNumber, formatQuantity } from "../numbers/index.ts";
import type {
  BalanceNumbers,
  HoldNumbers,
  HookonNumbers,
  PlaneNumbers,
  ReleaseNumbers,
  VariantComparison,
  VariantNumbers,
  VerdictCount,
} from "./types.ts";

/** One row of the table: what, in which group, and a cell for each variant. */
export interface ComparisonRow {
  readonly group: string;
  readonly label: string;
  readonly cells: readonly string[];
}

const PLANES: readonly ModePlane[] = ["longitudinal", "lateral"];
const NOT_RUN = "not run";

/**
 * The table of a comparison: key numbers down, variants across.
 *
 * @param minus sign before negative numbers: typographic on pages, plain in a terminal
 */
export function comparisonRows(comparison: VariantComparison, minus: "−" | "-"): ComparisonRow[] {
  const { variants } = comparison;
  const rows: ComparisonRow[] = [];
  const add = (group: string, label: string, cell: (one: VariantNumbers) => string): void => {
    rows.push({ group, label, cells: variants.map(cell) });
  };
  const hold = (group: string, label: string, cell: (numbers: HoldNumbers) => string): void =>
    add(group, label, (one) => (one.hold === null ? NOT_RUN : cell(one.hold)));
  const quantity = (value: number, unit: string): string => formatQuantity(value, unit, { minus });

  const ran = { fit: variants.some(({ fit }) => fit !== null), hold: variants.some((one) => one.hold !== null) };
  if (ran.fit) add("Findings", "fit, met of judged", ({ fit }) => (fit === null ? NOT_RUN : countText(fit)));
  if (variants.some((one) => one.hookon !== null)) hookonRows(add, quantity);
  if (variants.some((one) => one.release !== null)) releaseRows(add, quantity);
  if (variants.some((one) => one.balance !== null)) balanceRows(add, minus);
  if (!ran.hold) return rows;
  hold("Findings", "hold, met of judged", ({ verdict }) => countText(verdict));
  for (const plane of PLANES) {
    const group = plane === "longitudinal" ? "Longitudinal" : "Lateral";
    const own = (label: string, cell: (numbers: PlaneNumbers, whole: HoldNumbers) => string): void =>
      hold(group, label, (whole) => cell(whole.planes[plane], whole));
    own("worst ζ, rigid-body type", ({ worst }) =>
      worst === null ? "none" : formatFixed(worst.dampingRatio_1, 4, minus),
    );
    own("its mode and mass", ({ worst }) => (worst === null ? "–" : `${worst.mode}, ${worst.mass}`));
    own("its frequency", ({ worst }) => (worst === null ? "–" : `${formatNumber(worst.frequency_Hz, { minus })} Hz`));
    own("neutral airspeed, EAS", ({ neutralAirspeeds_m_s_EAS: found }, { neutralSearch }) => {
      if (neutralSearch === null) return "not searched";
      const where = `none from ${formatNumber(neutralSearch.from_m_s_EAS)} to ${formatNumber(neutralSearch.to_m_s_EAS)} m/s`;
      return found.length === 0 ? where : `${found.map((value) => formatFixed(value, 1)).join(", ")} m/s`;
    });
    own("criteria met, EAS", ({ clearAirspeeds_m_s_EAS: ranges }) =>
      ranges.length === 0
        ? "nowhere"
        : `${ranges.map(([from, to]) => `${formatFixed(from, 1)} to ${formatFixed(to, 1)}`).join(", ")} m/s`,
    );
  }
  const design = "Swing plane of the boom, at the tip";
  hold(design, "boom bending stiffness", (one) => quantity(one.bendingStiffness_N_m, "N/m"));
  hold(design, "accumulator stiffness", (one) => quantity(one.accumulatorStiffness_N_m, "N/m"));
  hold(design, "snubber rate", (one) => quantity(one.snubberRate_N_s_m, "N*s/m"));
  hold(design, "best snubber rate", ({ snubberOptimum: best }) =>
    best === null ? "none" : `${quantity(best.rate_N_s_m, "N*s/m")}${best.atEnd ? ", end of range" : ""}`,
  );
  hold(design, "worst ζ with it, speed band", ({ snubberOptimum: best }) =>
    best === null ? "–" : formatFixed(best.dampingRatio_1, 4, minus),
  );
  hold(design, "stiffness enough unsnubbed", ({ stiffnessNeed_N_m: need }) =>
    need === null ? "not even rigid" : quantity(need, "N/m"),
  );
  hold(design, "boom alone, jack locked", ({ boomAlone_Hz: own }) => (own === null ? "–" : `${formatNumber(own)} Hz`));
  hold(design, "first boom bending", ({ boomBending: bend }) =>
    typeof bend === "string"
      ? bend
      : `${formatNumber(bend.frequency_Hz)} Hz, ${bend.plane}, ζ ${formatFixed(bend.dampingRatio_1, 3, minus)}`,
  );
  return rows;
}

/** Rows of release, of the loading that is worst. */
function releaseRows(
  add: (group: string, label: string, cell: (one: VariantNumbers) => string) => void,
  quantity: (value: number, unit: string) => string,
): void {
  const own = (label: string, cell: (numbers: ReleaseNumbers) => string): void =>
    add("Release", label, ({ release }) => (release === null ? NOT_RUN : cell(release)));
  add("Findings", "release, met of judged", ({ release }) => (release === null ? NOT_RUN : countText(release.verdict)));
  own("clean cases", ({ cleanCases, cases }) => `${cleanCases} of ${cases}`);
  own("least airspeed", ({ leastAirspeed_m_s_EAS: least }) => (least === null ? "none" : quantity(least, "m/s EAS")));
  own("largest thrust", ({ largestThrust_N: most }) => (most === null ? "none" : quantity(most, "N")));
  own("clean in design turbulence, lower bound", ({ clean_1: share }) =>
    share === null ? "none" : `${formatFixed(100 * share, 1)} %`,
  );
}

/** Rows of hook-on, in the design turbulence with the first controller. */
function hookonRows(
  add: (group: string, label: string, cell: (one: VariantNumbers) => string) => void,
  quantity: (value: number, unit: string) => string,
): void {
  const own = (label: string, cell: (numbers: HookonNumbers) => string): void =>
    add("Hook-on", label, ({ hookon }) => (hookon === null ? NOT_RUN : cell(hookon)));
  const percent = (share: number): string => `${formatFixed(100 * share, 1)} %`;
  const speed = (end: number | null): string => (end === null ? "none" : formatFixed(end, 2));
  add("Findings", "hookon, met of judged", ({ hookon }) => (hookon === null ? NOT_RUN : countText(hookon.verdict)));
  own("case", (one) => one.case);
  own(
    "locked and stable",
    ({ success_1: share, success_1_interval: [low, high] }) =>
      `${percent(share)} (${percent(low)} to ${percent(high)})`,
  );
  own("approaches to carry fuel for", ({ attempts }) => (attempts === null ? "not enough" : String(attempts)));
  own("closure window", ({ closure_m_s: [low, high] }) => `${speed(low)} to ${speed(high)} m/s`);
  own("capture radius", ({ captureRadius_m: r }) => (r === null ? "none" : quantity(r, "m")));
  own("load along the probe, 99 %", ({ axialLoad_N: load }) => (load === null ? "–" : quantity(load, "N")));
}

/** Rows of the carrier's balance. */
function balanceRows(
  add: (group: string, label: string, cell: (one: VariantNumbers) => string) => void,
  minus: "−" | "-",
): void {
  const own = (label: string, cell: (numbers: BalanceNumbers) => string): void =>
    add("Carrier balance", label, ({ balance }) => (balance === null ? NOT_RUN : cell(balance)));
  const fixed = (value: number, decimals: number): string => formatFixed(value, decimals, minus);
  add("Findings", "balance, met of judged", ({ balance }) => (balance === null ? NOT_RUN : countText(balance.verdict)));
  own("mass at the start", (one) => `${fixed(one.startMass_kg, 0)} kg`);
  own("c.g. at the start", (one) => `${fixed(one.start_percentMac, 2)} % MAC`);
  own("least margin of the c.g.", ({ worst }) => `${fixed(worst.margin_percentMac, 2)} % of the chord`);
  own("its course and leg", ({ worst }) => `${worst.course}, ${worst.leg}`);
  own("load factor at release", ({ release }) => (release === null ? "–" : fixed(1 + release.loadFactorStep_1, 3)));
  own("elevator at release", ({ release }) =>
    release === null || release.elevator_deg === null ? "–" : `${fixed(release.elevator_deg, 2)}°`,
  );
  own("tip-back angle", ({ tipBack_deg: angle }) => (angle === null ? "–" : `${fixed(angle, 1)}°`));
}

function countText({ verdict, met, notMet, notAnalysed }: VerdictCount): string {
  const open = notAnalysed === 0 ? "" : `, ${notAnalysed} not analysed`;
  return `${verdict}: ${met} of ${met + notMet + notAnalysed}${open}`;
}
