/** Terminal text of the carrier in the motion of `hold`. */
import type { CarrierCase, CarrierPoint } from "../../studies/hold-carrier/types.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { formatFixed, formatNumber } from "../numbers/index.ts";
import { type Column, paragraph, table } from "./columns.ts";
import { type Look, PLAIN } from "./study-text.ts";

const SHORT: Readonly<Record<CarrierCase["model"], string>> = {
  steady: "steady",
  "free mass": "mass",
  rigid: "rigid",
  "steady, uniform flow": "uniform",
  "steady, flow with gradients": "gradient",
  "rigid, flow with gradients": "all",
};

const fixed = (value: number, decimals: number): string => formatFixed(value, decimals, "-");

/** ζ of the modes of the base by model, the carrier's own modes, trim in the flow, and a gust at both aircraft. */
export function holdCarrierText(result: HoldDepthResult, { width }: Look): string[] {
  const carrier = result.parts?.carrier;
  if (carrier === undefined) return [];
  const lines = ["THE CARRIER IN THE MOTION"];
  for (const { condition, modes } of carrier.alone) {
    const named = modes.map(
      ({ name, imag_rad_s, frequency_Hz, dampingRatio, real_1_s }) =>
        `${name} ${imag_rad_s > 0 ? `${formatNumber(frequency_Hz, PLAIN)} Hz, ζ ${fixed(dampingRatio, 3)}` : `${formatNumber(real_1_s, PLAIN)} 1/s`}`,
    );
    lines.push(...paragraph(`by itself, condition ${condition}: ${named.join("; ")}`, width, "  ", "    "));
  }
  for (const point of carrier.points) lines.push("", ...pointLines(point, width));
  return [...lines, ""];
}

function pointLines(point: CarrierPoint, width: number): string[] {
  const cases = point.cases.filter(({ outcome }) => outcome === "trimmed");
  const steady = cases.find(({ model }) => model === "steady");
  if (steady === undefined) return [];
  const columns: Column[] = [
    { heading: `ζ, ${point.condition}, mass ${point.mass}`, width: Math.max(16, width - 2 - 10 * cases.length) },
    ...cases.map(({ model }): Column => ({ heading: SHORT[model], width: 8, align: "right" })),
  ];
  const rows = steady.modes
    .filter((mode) => mode.imag_rad_s > 0)
    .map((mode) => [
      `${mode.plane === "lateral" ? "lateral " : ""}${mode.name}, ${fixed(mode.frequency_Hz, 2)} Hz`,
      ...cases.map(({ modes }) => {
        const same = modes.find((other) => other.from === mode.from && other.plane === mode.plane);
        return same === undefined ? "-" : fixed(same.dampingRatio, 4);
      }),
    ]);
  const trims: [string, (of: CarrierCase) => string][] = [
    ["pitch angle, deg", ({ trim }) => fixed(trim!.pitch_deg, 2)],
    ["elevator, deg", ({ trim }) => fixed(trim!.elevator_deg, 2)],
    ["tow load, N", ({ trim }) => fixed(trim!.towLoad_N, 0)],
    ["jack load, N", ({ trim }) => fixed(trim!.jackLoad_N, 0)],
  ];
  for (const [name, value] of trims) rows.push([name, ...cases.map(value)]);
  const lines = table(columns, rows, "  ");
  if (point.cases.some(({ outcome }) => outcome === "outside")) {
    lines.push("  beyond the ends of the flow table: not analysed in the flow");
  }
  if (point.flow !== null) {
    const { below_m, downwash_deg, pressureRatio_1, downwashGradient_deg_m } = point.flow;
    const text = `flow ${fixed(below_m, 2)} m below the hinge: downwash ${fixed(downwash_deg, 2)} deg, ${fixed(downwashGradient_deg_m, 3)} deg/m, q/q∞ ${fixed(pressureRatio_1, 3)}`;
    lines.push(...paragraph(text, width, "  ", "    "));
  }
  const gust = point.gust;
  if (gust !== null) {
    const spreads = gust.curves.map(({ model, rms }) => `${model} ${fixed(rms.shear_N, 0)} N`);
    const peaks = gust.curves.map(({ model, shear_N_per_m_s }) => `${model} ${fixed(Math.max(...shear_N_per_m_s), 0)}`);
    const text =
      peaks.length === 0
        ? "a gust: not analysed, the pair grows by itself"
        : `greatest tip load normal to the boom by a vertical gust, N per m/s: ${peaks.join("; ")}; in Dryden turbulence of 1 m/s: ${spreads.join("; ")}`;
    lines.push(...paragraph(text, width, "  ", "    "));
  }
  return lines;
}
