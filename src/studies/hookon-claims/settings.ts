import { type AttemptLog, attemptClass, attemptWord, type Quantity } from "../../inputs/index.ts";
import { BugError } from "../../math/errors.ts";
import type { SequentialAim } from "../../math/sequential-test/index.ts";
import type { OpenReads } from "../hold/index.ts";

/** One attempt as the study counts it. */
export interface Attempt {
  readonly turbulence: string;
  readonly outcome: string;
  readonly captured: boolean;
  readonly light: string | null;
  readonly controller: string | null;
  /** Miss right and down [m]; `null` where the log has none. */
  readonly miss: readonly [number, number] | null;
}

export interface ClassSettings {
  readonly name: string;
  readonly sigmaUpTo: number | null;
  readonly target: number;
  readonly targetSource: string;
  /** Pair paths of the class and its target. */
  readonly paths: readonly string[];
}

export interface ClaimsSettings {
  readonly confidence: number;
  readonly recovery: number;
  readonly attemptsCarried: number | null;
  readonly goAround: "failed attempt" | "no attempt";
  readonly prior: { readonly hits: number; readonly misses: number };
  readonly captureRadius: number | null;
  readonly sequential: SequentialAim | null;
  /** In order of their σ; those without one after them, in the order of the file. */
  readonly classes: readonly ClassSettings[];
  readonly log: { readonly file: string; readonly rows: number; readonly from: string; readonly to: string } | null;
  readonly attempts: readonly Attempt[];
  readonly paths: {
    /** Confidence, log and how it is counted: what every claim rests on. */
    readonly claim: readonly string[];
    readonly recovery: readonly string[];
    readonly captureRadius: readonly string[];
    readonly sequential: readonly string[];
  };
}

const sourceOf = (value: Quantity): string => value.provenance.source ?? "project criterion";
type Claims = NonNullable<NonNullable<NonNullable<ReturnType<OpenReads>["pair"]["studies"]>["hookon"]>["claims"]>;

/** Settings of the claims, or nothing when the pair gives none. */
export function readClaims(reads: OpenReads): ClaimsSettings | null {
  const ask = <T>(take: (claims: Claims) => T): { readonly value: T; readonly paths: readonly string[] } => {
    const view = reads();
    const value = take(view.pair.studies!.hookon!.claims!);
    return { value, paths: view.paths() };
  };
  if (reads().pair.studies?.hookon?.claims === undefined) return null;
  const names = Object.keys(ask((claims) => claims.classes).value);
  const classes = names.map((name) => readClass(name, ask)).sort(byReach);
  const base = ask((claims) => {
    const goAround = claims.goAround ?? "failed attempt";
    return { confidence: claims.confidence.si, goAround, log: claims.log, sigmas: sigmasOf(claims, names) } as const;
  });
  const recovery = ask(({ recovery, attemptsCarried }) => ({
    recovery: recovery.si,
    attemptsCarried: attemptsCarried ?? null,
  }));
  const circle = ask(({ captureRadius }) => captureRadius?.si ?? null);
  const plan = ask(({ sequential }) => (sequential === undefined ? null : aimOf(sequential)));
  const { log, goAround, sigmas } = base.value;
  return {
    ...{ confidence: base.value.confidence, goAround, classes, ...recovery.value },
    prior: ask(({ prior }) => ({ hits: prior?.hits.si ?? 1, misses: prior?.misses.si ?? 1 })).value,
    captureRadius: circle.value,
    sequential: plan.value,
    log: log === undefined ? null : aboutLog(log),
    attempts: log === undefined ? [] : attemptsOf(log, sigmas).filter((each) => counts(each, goAround)),
    paths: {
      claim: base.paths,
      recovery: recovery.paths,
      captureRadius: circle.paths,
      sequential: plan.paths,
    },
  };
}

function readClass(
  name: string,
  ask: <T>(take: (claims: Claims) => T) => { value: T; paths: readonly string[] },
): ClassSettings {
  const { value, paths } = ask((claims) => {
    const own = claims.classes[name]!;
    const target = own.target ?? claims.target;
    return { sigmaUpTo: own.sigmaUpTo?.si ?? null, target: target.si, targetSource: sourceOf(target) };
  });
  return { name, ...value, paths };
}

function byReach(a: ClassSettings, b: ClassSettings): number {
  return (a.sigmaUpTo ?? Number.MAX_VALUE) - (b.sigmaUpTo ?? Number.MAX_VALUE);
}

function sigmasOf(claims: Claims, names: readonly string[]) {
  return names.map((name) => ({ name, sigmaUpTo: claims.classes[name]!.sigmaUpTo?.si }));
}

function aimOf(own: NonNullable<Claims["sequential"]>): SequentialAim {
  return {
    acceptable: own.acceptable.si,
    unacceptable: own.unacceptable.si,
    refusingGood: own.refusingGood.si,
    acceptingBad: own.acceptingBad.si,
    most: own.most,
  };
}

function aboutLog(log: AttemptLog) {
  const day = (row: number): string => attemptWord(log, "date", row)!;
  return { file: log.file, rows: log.rows, from: day(0), to: day(log.rows - 1) };
}

function counts({ outcome }: Attempt, goAround: ClaimsSettings["goAround"]): boolean {
  return outcome !== "go-around" || goAround === "failed attempt";
}

function attemptsOf(log: AttemptLog, sigmas: ReturnType<typeof sigmasOf>): Attempt[] {
  return Array.from({ length: log.rows }, (_, row): Attempt => {
    const turbulence = attemptClass(log, row, sigmas);
    if (turbulence === undefined) throw new BugError(`row ${row} of ${log.file} has no class of turbulence`);
    const outcome = attemptWord(log, "outcome", row)!;
    const [right, down] = [log.columns.missRight[row]!, log.columns.missDown[row]!];
    return {
      ...{ turbulence, outcome, captured: outcome === "locked" },
      light: attemptWord(log, "light", row) ?? null,
      controller: attemptWord(log, "controller", row) ?? null,
      miss: Number.isNaN(right) || Number.isNaN(down) ? null : [right, down],
    };
  });
}
