import type { Finding, Limit } from "../finding/index.ts";
import { type HoldBase, type HoldContext, holdBase, OPEN_QUESTIONS, type OpenQuestion } from "../hold/index.ts";
import { PARTS } from "./parts.ts";
import type { HoldDepthResult, HoldParts } from "./types.ts";

/** Seed of the study where the pair states none. */
const SEED = 1;

export interface HoldDepthContext extends HoldContext {
  /** Keys of the parts to run; absent: all that the pair gives something for. */
  readonly only?: readonly string[];
}

/** Names of all parts. */
export function partNames(): string[] {
  return PARTS.map(({ key }) => key);
}

/**
 * The study `hold` with every part that the pair asks for: findings and limits of the parts follow those of the base, and
 * the questions they answer leave the list of what is not analysed.
 *
 * Random streams of the parts derive from the pair's seed (`studies.hold.seed`, default 1).
 */
export function runHoldInDepth(context: HoldDepthContext): HoldDepthResult {
  const base = holdBase(context);
  const wanted = PARTS.filter(({ key }) => context.only === undefined || context.only.includes(key));
  const seedView = context.reads();
  const seed = seedView.pair.studies?.hold?.seed ?? SEED;
  const parts: Record<string, unknown> = {};
  const findings: Finding[] = [...base.result.findings];
  const limits: Limit[] = [...base.result.limits];
  const assumptions: string[] = [...base.result.assumptions];
  const further: string[] = [];
  const answered = new Set<OpenQuestion>();
  wanted.forEach(({ key, title, run }, i) => {
    const step = (what: string): void => context.progress?.(`${title}: ${what}`, i, wanted.length);
    step("begins");
    const outcome = run(partContext(context, base, seed, step));
    if (outcome === null) return;
    parts[key] = outcome.result;
    findings.push(...outcome.findings);
    limits.push(...outcome.limits);
    assumptions.push(...outcome.assumptions);
    further.push(...outcome.notAnalysed);
    for (const question of outcome.answers) answered.add(question);
  });
  const open = (Object.keys(OPEN_QUESTIONS) as OpenQuestion[]).filter((question) => !answered.has(question));
  return {
    ...base.result,
    findings,
    limits,
    assumptions: [...new Set(assumptions)],
    notAnalysed: [...new Set([...open.map((question) => OPEN_QUESTIONS[question]), ...further])],
    parts: parts as HoldParts,
    ...(context.only === undefined ? {} : { partsAsked: context.only }),
  };
}

function partContext(context: HoldDepthContext, base: HoldBase, seed: number, step: (what: string) => void) {
  return {
    variant: context.variant,
    inputs: base.inputs,
    groups: base.groups,
    base: base.result,
    reads: context.reads,
    findings: { study: "hold", version: context.version, seed, hash: context.hash },
    seed,
    step,
  };
}
