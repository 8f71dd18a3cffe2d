/** Pages of the study `release`: cases, separation in pictures, envelope, rough air, hang-ups, what falls, the carrier. */
import type { ReleaseCaseResult, ReleaseResult } from "../../studies/release/types.ts";
import {
  carrierAnswerFigure,
  caseFigure,
  distanceFigure,
  type Figure,
  type FigureDom,
  footprintFigure,
  releaseEnvelopeFigure,
  stripFigure,
} from "../figures/index.ts";
import { formatFixed, formatQuantity } from "../numbers/index.ts";
import type { FigureCounter } from "./figure-counter.ts";
import { type Html, html, NOTHING } from "./html.ts";
import type { StudyPages } from "./studies.ts";
import { dataTable, type Head } from "./tables.ts";

const percent = (share: number): string => `${formatFixed(100 * share, 1)} %`;
const fixed = (value: number | null, digits: number): string => (value === null ? "–" : formatFixed(value, digits));
const newtons = (value: number | null): string => (value === null ? "–" : formatQuantity(value, "N"));

/** Columns of a case with one loading: outcome, stroke, least distance. */
function cellsOf(one: ReleaseCaseResult | undefined): string[] {
  if (one === undefined) return ["–", "–", "–"];
  const stroke = [fixed(one.leftAt_s, 2), fixed(one.exitSpeed_m_s, 2), fixed(one.exitPitchRate_deg_s, 1)].join(", ");
  return [one.outcome, stroke, fixed(one.clearance_m, 2)];
}

/** A row for each case, the normal one for each pose; loadings side by side. */
function caseTable({ cases, variant, point }: ReleaseResult): Html {
  const heads: Head[] = [
    { text: "Case", width: 24 },
    ...point.masses.flatMap((mass): Head[] => [
      { text: `${mass}: outcome`, width: 11 },
      { text: "free after s, out m/s, pitch deg/s", numeric: true, width: 18 },
      { text: "least m", numeric: true, width: 8 },
    ]),
  ];
  const normal = cases[0]?.name;
  const rows = cases
    .filter(({ mass }) => mass === point.masses[0])
    .map(({ name, boomAngle_deg }) => [
      name === normal ? `${name}, boom ${formatFixed(boomAngle_deg, 0)}°` : name,
      ...point.masses.flatMap((mass) =>
        cellsOf(cases.find((one) => one.mass === mass && one.name === name && one.boomAngle_deg === boomAngle_deg)),
      ),
    ]);
  const caption = `Every case, ${variant}: the normal one from every pose, the others from the first; least distance once free`;
  return dataTable(caption, heads, [{ rows }]);
}

const EDGE_HEADS: readonly Head[] = [
  { text: "Loading", width: 12 },
  { text: "Pull offered, needed at the nose's command", numeric: true, width: 24 },
  { text: "Least airspeed (m/s EAS)", numeric: true },
  { text: "beyond it", width: 14 },
  { text: "Largest thrust (N)", numeric: true },
  { text: "beyond it", width: 14 },
];

function edgeTable({ cases, edges, point, variant }: ReleaseResult): Html {
  const rows = point.masses.map((mass) => {
    const normal = cases.find((one) => one.mass === mass);
    const own = (quantity: string) => edges.find((one) => one.mass === mass && one.quantity === quantity);
    const said = (quantity: string, digits: number): string[] => {
      const found = own(quantity);
      if (found === undefined) return ["–", "–"];
      return [fixed(found.limit, digits), found.wholeRange ? "whole range clean" : (found.because ?? "–")];
    };
    const pull = `${newtons(normal?.offered_N ?? null)}, ${newtons(normal?.needed_N ?? null)}`;
    return [mass, pull, ...said("airspeed", 1), ...said("thrust", 0)];
  });
  return dataTable(`Withdrawal and its limits, ${variant}`, EDGE_HEADS, [{ rows }]);
}

const ROUGH_HEADS: readonly Head[] = [
  { text: "Turbulence", width: 14 },
  { text: "σ (m/s)", numeric: true },
  { text: "Loading", width: 12 },
  { text: "Clean", numeric: true },
  { text: "Interval", numeric: true, width: 18 },
  { text: "Least distance 5, 50 % (m)", numeric: true, width: 18 },
  { text: "Others", width: 22 },
];

function roughTable({ batches, criteria, variant, seed }: ReleaseResult): Html {
  const rows = batches.map(({ sigma, sigma_m_s, mass, clean, clearance_m, outcomes }) => [
    sigma,
    formatFixed(sigma_m_s, 1),
    mass,
    `${clean.count} of ${clean.of}`,
    `${percent(clean.lower_1)} to ${percent(clean.upper_1)}`,
    clearance_m === null ? "–" : `${fixed(clearance_m.p05, 2)}, ${fixed(clearance_m.p50, 2)}`,
    outcomes
      .filter(({ outcome, count }) => outcome !== "clean" && count > 0)
      .map(({ outcome, count }) => `${outcome} ${count}`)
      .join(", ") || "none",
  ]);
  const caption = `Normal releases in rough air, ${variant}: exact ${percent(criteria.confidence_1)} intervals, seed ${seed}`;
  return dataTable(caption, ROUGH_HEADS, [{ rows }]);
}

const HANG_HEADS: readonly Head[] = [
  { text: "What still holds", width: 26 },
  { text: "Loads on the pins, along and sideways", width: 24 },
  { text: "Motion", width: 20 },
  { text: "Ways out and how they end", width: 30 },
];

function hangUpTable({ hangUps, point, variant }: ReleaseResult): Html {
  const groups = point.masses.map((mass) => ({
    title: mass,
    rows: hangUps
      .filter((each) => each.mass === mass)
      .map(({ left, outcome, pins, bank_deg, worstMode, dampingRatio_1, timeToDouble_s, waysOut }) => {
        const loads = pins.map((pin) => `${pin.name} ${newtons(pin.tension_N)}, ${newtons(pin.lateral_N)}`).join("; ");
        const grows =
          timeToDouble_s === null
            ? `${worstMode}, damping ratio ${fixed(dampingRatio_1, 3)}`
            : `${worstMode} doubles in ${fixed(timeToDouble_s, 2)} s`;
        const bank = bank_deg === null ? "" : `bank ${formatFixed(bank_deg, 1)}°; `;
        return [
          left,
          loads === "" ? "–" : loads,
          outcome === "no balance" || worstMode === null ? outcome : `${bank}${grows}`,
          waysOut.map(({ way, outcome: end }) => `${way}: ${end}`).join("; "),
        ];
      }),
  }));
  return dataTable(`What is left after a partial release, and the ways out, ${variant}`, HANG_HEADS, groups);
}

const TIME_HEADS: readonly Head[] = [
  { text: "Way", width: 34 },
  { text: "Loading", width: 12 },
  { text: "Nose commanded or cut (s)", numeric: true },
  { text: "Free (s)", numeric: true },
  { text: "Clear for good (s)", numeric: true },
  { text: "Outcome", width: 14 },
];

function timeTable({ paths, variant }: ReleaseResult): Html {
  const rows = paths.map(({ path, mass, command_s, free_s, clear_s, outcome }) => [
    ...[path, mass, fixed(command_s, 2), fixed(free_s, 2), fixed(clear_s, 1), outcome],
  ]);
  return dataTable(`Time that each way takes from the command, ${variant}`, TIME_HEADS, [{ rows }]);
}

const FALL_HEADS: readonly Head[] = [
  { text: "What falls", width: 24 },
  { text: "From (m)", numeric: true },
  { text: "Still air: ahead (m), after (s), with (m/s)", numeric: true, width: 24 },
  { text: "In the wind: ahead, right (m)", numeric: true, width: 20 },
  { text: "Footprint, half axes (m)", numeric: true, width: 18 },
];

function fallTable({ jettison, variant }: ReleaseResult): Html {
  if (jettison.length === 0) return NOTHING;
  const rows = jettison.map(({ thing, height_m, still, inWind, footprint }) => [
    thing,
    formatFixed(height_m, 0),
    `${formatFixed(still.along_m, 0)}, ${formatFixed(still.time_s, 1)}, ${formatFixed(still.speed_m_s, 0)}`,
    `${formatFixed(inWind.along_m, 0)}, ${formatFixed(inWind.right_m, 0)}`,
    `${formatFixed(footprint.halfAlong_m, 0)} along, ${formatFixed(footprint.halfRight_m, 0)} across`,
  ]);
  return dataTable(`Where jettisoned things come down, ${variant}`, FALL_HEADS, [{ rows }]);
}

function carrierWords({ carrier, stub }: ReleaseResult): Html {
  const said = carrier.flatMap(({ mass, loadFactor_1, closedForm_1, trimMoment_N_m }) =>
    loadFactor_1 === null
      ? []
      : [
          `${mass}: load factor ${formatFixed(loadFactor_1, 3)}, at the same angle of attack ${fixed(closedForm_1, 3)}; a pitching moment of ${formatQuantity(trimMoment_N_m!, "N m")}, nose up positive, ends`,
        ],
  );
  const left =
    stub === null || stub.aboveLowest_m === null
      ? NOTHING
      : html`<p>A cut leaves ${formatQuantity(stub.length_m, "m")} of the probe; its end stands ${formatFixed(stub.aboveLowest_m, 2)} m above the lowest point of the level aircraft. Distances after the cut are those of the whole probe.</p>
`;
  return html`<p>${said.join(". ")}.</p>
${left}`;
}

function variantSection(
  result: ReleaseResult,
  index: number,
  title: string,
  counter: FigureCounter,
  dom: FigureDom,
): Html {
  const id = (what: string) => `fig-release${index + 1}-${what}`;
  const show = (figure: Figure | null) => (figure === null ? NOTHING : counter.print(figure));
  const { variant, point, strips, carrier, criteria } = result;
  return html`<section id="release${index === 0 ? "" : `-v${index + 1}`}" class="release"><h2>${title}</h2>
<p>${point.condition}, ${formatFixed(point.airspeed_m_s_EAS, 1)} m/s EAS, ${formatFixed(point.altitude_m, 0)} m; loadings ${point.masses.join(", ")}.</p>
<h3>How it leaves</h3>
${strips.map((strip, i) => show(stripFigure(id(`strip${i + 1}`), variant, strip, dom)))}${show(caseFigure(id("cases"), result, dom))}${caseTable(result)}
<h3>Where and in which air</h3>
${edgeTable(result)}${show(releaseEnvelopeFigure(id("envelope"), result, dom))}${show(distanceFigure(id("distance"), result, dom))}${roughTable(result)}
<h3>When it does not leave</h3>
${hangUpTable(result)}${timeTable(result)}
<h3>What falls, and what the carrier feels</h3>
${show(footprintFigure(id("footprint"), result, dom))}${fallTable(result)}${show(carrierAnswerFigure(id("carrier"), variant, carrier, criteria.carrierLoadFactor_1, dom))}${carrierWords(result)}</section>
`;
}

function card(result: ReleaseResult, title: string): Html {
  const { cases, edges, batches, design, limiting } = result;
  const failed = new Set(cases.filter(({ outcome }) => outcome !== "clean").map(({ name }) => name));
  const all = new Set(cases.map(({ name }) => name));
  return html`<article class="card"><h3>${title}</h3>
<h4>Cases</h4><ul><li><strong>${String(all.size - failed.size)} of ${String(all.size)}</strong> clean with every loading</li></ul>
<h4>Limits</h4><ul>${edges.map(
    ({ mass, quantity, limit, unit }) =>
      html`<li>${mass}: ${quantity === "airspeed" ? "least airspeed" : "largest thrust"} <strong>${limit === null ? "none" : formatQuantity(limit, unit)}</strong></li>`,
  )}<li>limiting: ${limiting ?? "none"}</li></ul>
<h4>Rough air</h4><ul>${batches
    .filter(({ sigma }) => sigma === design)
    .map(
      ({ mass, clean }) =>
        html`<li>${mass}: <strong>${percent(clean.share_1)}</strong> clean (${percent(clean.lower_1)} to ${percent(clean.upper_1)})</li>`,
    )}</ul>
</article>
`;
}

/**
 * Pages of release, a section for each variant.
 *
 * @param alone whether the report holds no other study
 */
export function releasePages(
  results: readonly ReleaseResult[],
  alone: boolean,
  counter: FigureCounter,
  dom: FigureDom,
): StudyPages {
  const name = ({ variant }: ReleaseResult) => (results.length === 1 ? "Release" : `Release: ${variant}`);
  return {
    about: "Release: separation, jettison and hang-up",
    contents: results.map((result, i) => [`release${i === 0 ? "" : `-v${i + 1}`}`, name(result)] as const),
    cards: results.map((result) => card(result, alone ? result.variant : `Release: ${result.variant}`)),
    sections: html`${results.map((result, i) => variantSection(result, i, name(result), counter, dom))}`,
    style: "",
  };
}
