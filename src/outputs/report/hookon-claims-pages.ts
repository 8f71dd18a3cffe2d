/** Report section of what trials of hook-on may claim. */
import type { ClaimClass, ClaimsResult } from "../../studies/hookon-claims/types.ts";
import { attemptsFigure, claimsFigure, type FigureDom, sequentialFigure } from "../figures/index.ts";
import { formatFixed, formatNumber, formatShort } from "../numbers/index.ts";
import type { FigureCounter } from "./figure-counter.ts";
import { type Html, html, NOTHING } from "./html.ts";
import type { PartSection } from "./part-section.ts";
import { dataTable, type Head } from "./tables.ts";

/** Claims of one variant. */
export interface VariantClaims {
  readonly variant: string;
  readonly claims: ClaimsResult;
}

const percent = (share: number, digits = 1): string => `${formatFixed(100 * share, digits)} %`;
const span = (ends: { readonly lower_1: number; readonly upper_1: number }): string =>
  `${percent(ends.lower_1)} to ${percent(ends.upper_1)}`;

const CLASS_HEADS: readonly Head[] = [
  { text: "Turbulence", width: 21 },
  { text: "Locked", numeric: true, width: 9 },
  { text: "Demonstrated, at least", numeric: true, width: 12 },
  { text: "Target", numeric: true, width: 9 },
  { text: "Further without failure", numeric: true, width: 12 },
  { text: "Fuel for attempts", numeric: true, width: 11 },
  { text: "At the share seen", numeric: true, width: 11 },
  { text: "Verdict", width: 15 },
];

function classRow(claim: ClaimClass): (string | Html)[] {
  const { name, sigmaUpTo_m_s: sigma, estimate, attempts, further } = claim;
  const flown = estimate.of > 0;
  const fuel = (n: number | null): string => (!flown ? "–" : n === null ? "none is enough" : String(n));
  return [
    sigma === null ? name : `${name}, σ to ${formatShort(sigma)} m/s`,
    `${estimate.hits} of ${estimate.of}`,
    flown ? percent(estimate.lower_1) : "–",
    percent(claim.target_1, 0),
    further === null ? "–" : String(further),
    fuel(attempts.atLower),
    fuel(attempts.atShare),
    claim.verdict,
  ];
}

const SHARE_HEADS: readonly Head[] = [
  { text: "Turbulence", width: 18 },
  { text: "Share seen", numeric: true, width: 12 },
  { text: "Exact interval (Clopper–Pearson)", numeric: true, width: 22 },
  { text: "Score interval (Wilson)", numeric: true, width: 22 },
  { text: "Posterior mean", numeric: true, width: 10 },
  { text: "Posterior interval", numeric: true, width: 16 },
];

function shareTable(variant: string, { classes, pooled, confidence_1, prior }: ClaimsResult): Html {
  const rows = [
    ...classes.map(({ name, estimate }) => ({ name, estimate })),
    { name: "all together", estimate: pooled },
  ];
  const caption = `Probability of capture in one attempt, ${variant}: two-sided intervals of ${percent(confidence_1, 0)}; posterior from a beta prior of ${formatShort(prior.hits)} captures and ${formatShort(prior.misses)} failures`;
  const body = rows.map(({ name, estimate: { share_1, of, exact, score, posterior } }) => [
    name,
    share_1 === null ? "–" : percent(share_1),
    of === 0 ? "–" : span(exact),
    of === 0 ? "–" : span(score),
    percent(posterior.mean_1),
    span(posterior),
  ]);
  return dataTable(caption, SHARE_HEADS, [{ rows: body }]);
}

const LOG_HEADS: readonly Head[] = [
  { text: "Turbulence", width: 14 },
  { text: "Outcomes", width: 30 },
  { text: "Miss right, mean ± σ (m)", numeric: true, width: 16 },
  { text: "Miss down, mean ± σ (m)", numeric: true, width: 16 },
  { text: "Inside the capture radius, counted", numeric: true, width: 12 },
  { text: "If normal", numeric: true, width: 12 },
];

function logTable(variant: string, { classes, captureRadius_m }: ClaimsResult): Html {
  const flown = classes.filter(({ estimate }) => estimate.of > 0);
  if (flown.length === 0) return NOTHING;
  const at = (mean: number, sigma: number): string => `${formatFixed(mean, 3)} ± ${formatFixed(sigma, 3)}`;
  const rows = flown.map(({ name, outcomes, misses }) => [
    name,
    outcomes.map(({ outcome, count }) => `${outcome} ${count}`).join(", "),
    misses === null ? "–" : at(misses.meanRight_m, misses.sigmaRight_m),
    misses === null ? "–" : at(misses.meanDown_m, misses.sigmaDown_m),
    misses?.counted_1 == null ? "–" : percent(misses.counted_1),
    misses?.inCircle_1 == null ? "–" : percent(misses.inCircle_1),
  ]);
  const circle = captureRadius_m === null ? "" : `; capture radius ${formatShort(captureRadius_m)} m`;
  return dataTable(`Outcomes and misses of the log, ${variant}${circle}`, LOG_HEADS, [{ rows }]);
}

const GROUP_HEADS: readonly Head[] = [
  { text: "Attempts", width: 30 },
  { text: "Locked", numeric: true, width: 16 },
  { text: "Exact interval", numeric: true, width: 26 },
  { text: "Probability of such a difference from the others", numeric: true, width: 28 },
];

function groupTable(variant: string, { groupings, confidence_1 }: ClaimsResult): Html {
  if (groupings.length === 0) return NOTHING;
  const groups = groupings.map(({ by, groups: words, least_1 }) => ({
    title: `By ${by}: least probability, corrected for the number of comparisons, ${formatNumber(least_1)}`,
    rows: words.map((each) => [each.name, `${each.hits} of ${each.of}`, span(each), formatNumber(each.p_1)]),
  }));
  const caption = `Do attempts differ, ${variant}? Fisher's exact test, two-sided; intervals of ${percent(confidence_1, 0)}`;
  return dataTable(caption, GROUP_HEADS, groups);
}

function checks({ classes, learning }: ClaimsResult): Html {
  const lines = classes.flatMap(({ name, prediction: p, estimate }) => {
    if (p === null) return [];
    const what = p.differs
      ? "the log contradicts the simulation"
      : "no difference shown, which is no proof of agreement";
    return [
      html`<li>${name}: ${estimate.hits} of ${estimate.of} in the log, ${percent(p.share_1)} in ${p.title}: <strong>${what}</strong> (Fisher's exact test, p ${formatNumber(p.p_1)})</li>`,
    ];
  });
  if (learning !== null) {
    const { first, second, p_1 } = learning;
    lines.push(
      html`<li>First half ${first.hits} of ${first.of}, second half ${second.hits} of ${second.of} (p ${formatNumber(p_1)}). A build-up goes from smooth to rough air, so that learning and circumstances cannot be told apart.</li>`,
    );
  }
  return lines.length === 0 ? NOTHING : html`<ul>${lines}</ul>`;
}

const NEED_HEADS: readonly Head[] = [
  { text: "Share with confidence", width: 40 },
  { text: "No failure", numeric: true, width: 20 },
  { text: "One failure", numeric: true, width: 20 },
  { text: "Two failures", numeric: true, width: 20 },
];

function needTable({ demonstrations }: ClaimsResult): Html {
  const rows = demonstrations.map(({ share_1, confidence_1, trials }) => [
    `${percent(share_1, 0)} with ${percent(confidence_1, 0)}`,
    ...trials.map((n) => (n === null ? "–" : String(n))),
  ]);
  return dataTable("Attempts that demonstrate a share, by failures allowed beforehand", NEED_HEADS, [{ rows }]);
}

function planText({ sequential }: ClaimsResult): Html {
  if (sequential === null) return NOTHING;
  const { refusingGood_1: alpha, acceptingBad_1: beta, refusingGoodAsked_1: a, acceptingBadAsked_1: b } = sequential;
  const states = sequential.classes.map(
    ({ name, outcome, attempts, failures }) =>
      html`<li>${name}: <strong>${outcome}</strong> after ${attempts} attempts with ${failures} failures</li>`,
  );
  return html`<p>Plan that may end early, at most ${sequential.most} attempts: a share of ${percent(sequential.acceptable_1, 0)} is refused with ${percent(alpha)} (asked ${percent(a, 0)}), one of ${percent(sequential.unacceptable_1, 0)} accepted with ${percent(beta)} (asked ${percent(b, 0)}).</p>
<ul>${states}</ul>`;
}

/**
 * Section of the claims over all variants, or nothing where none has any.
 *
 * @param title turns the title of the part into that of the section, which names the study where the report has several
 */
export function hookonClaimsPages(
  own: readonly VariantClaims[],
  title: (word: string) => string,
  counter: FigureCounter,
  dom: FigureDom,
): PartSection | null {
  if (own.length === 0) return null;
  const name = title("Claims from attempts");
  const parts = own.map(({ variant, claims }, i) => {
    const { log, confidence_1, recovery_1, attemptsCarried } = claims;
    const id = (what: string): string => `fig-v${i + 1}-claims-${what}`;
    const figures = [
      claimsFigure(id("shares"), variant, claims, dom),
      attemptsFigure(id("attempts"), variant, claims, dom),
      sequentialFigure(id("plan"), variant, claims, dom),
    ].map((figure) => (figure === null ? NOTHING : counter.print(figure)));
    const about =
      log === null
        ? "The pair has no log of attempts: nothing is demonstrated."
        : `${log.rows} attempts, ${log.from} to ${log.to}, in ${log.file}. A capture is a probe that is locked.`;
    const carried = attemptsCarried === null ? "" : `; fuel is carried for ${attemptsCarried}`;
    const caption = `Claims by class of turbulence, ${variant}: exact lower bound, one-sided with ${percent(confidence_1, 0)}; attempts for at least one capture with ${percent(recovery_1)} at that bound${carried}`;
    return html`<h3>${variant}</h3>
<p>${about}</p>
${dataTable(caption, CLASS_HEADS, [{ rows: claims.classes.map(classRow) }])}${figures.slice(0, 2)}${shareTable(variant, claims)}${logTable(variant, claims)}${checks(claims)}${groupTable(variant, claims)}${planText(claims)}${figures[2]!}${needTable(claims)}`;
  });
  return {
    id: "claims-from-attempts",
    title: name,
    markup: html`<section id="claims-from-attempts"><h2>${name}</h2>
<p>What the attempts flown so far demonstrate, and what they do not. "Not demonstrated" says that the attempts are too few or too often failed to show the target; it does not say that the target is missed. Bounds hold for independent attempts and a target stated beforehand. Whether to fly further attempts is decided by those whom the local rules name.</p>
${parts}</section>
`,
  };
}
