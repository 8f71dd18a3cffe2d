import * as z from "zod";
import type { Range } from "../quantity/index.ts";
import { choice, whole } from "./leaf.ts";
import { name } from "./names.ts";
import type { Table } from "./table.ts";
import { table } from "./table.ts";
import { quantity } from "./value.ts";

const SHARE: Range = { above: 0, below: 1, words: "larger than 0, below 100 %" };
const CONFIDENCE: Range = { atLeast: 0.5, below: 1, words: "50 % to below 100 %" };
const SIGMA: Range = { above: 0, atMost: 100, words: "larger than 0, up to 100 m/s" };
const SIGMA_FLOWN: Range = { atLeast: 0, atMost: 100, words: "0 to 100 m/s" };
const CLOSURE: Range = { atLeast: -50, atMost: 50, words: "-50 m/s to 50 m/s" };
const MISS: Range = { atLeast: -100, atMost: 100, words: "-100 m to 100 m" };
const RADIUS: Range = { above: 0, atMost: 10, words: "larger than 0, up to 10 m" };
const PRIOR: Range = { above: 0, atMost: 1000, words: "larger than 0, up to 1000" };

/** How a real attempt may end; only the first is a success. */
export const ATTEMPT_OUTCOMES = [
  "locked",
  "half-locked",
  "overloaded",
  "missed",
  "bounced",
  "socket tumbled",
  "jammed",
  "broken away",
  "go-around",
] as const;

const log = table("Real attempts in the order in which they were flown, one a row.", "attempts.csv", {
  attempt: { kind: "number", rising: true, range: { atLeast: 1, atMost: 1e6, words: "1 to 1 000 000" } },
  date: { kind: "words", day: true },
  outcome: { kind: "words", choices: ATTEMPT_OUTCOMES },
  closure: { kind: "speed", range: CLOSURE, gaps: true, optional: true },
  missRight: { kind: "length", range: MISS, gaps: true, optional: true },
  missDown: { kind: "length", range: MISS, gaps: true, optional: true },
  turbulence: { kind: "words", gaps: true, optional: true },
  sigma: { kind: "speed", range: SIGMA_FLOWN, gaps: true, optional: true },
  light: { kind: "words", gaps: true, optional: true },
  controller: { kind: "words", gaps: true, optional: true },
});

const classes = z
  .record(
    name,
    z
      .strictObject({
        sigmaUpTo: quantity(
          "speed",
          "Intensity σ of the vertical gusts up to which an attempt belongs to the class.",
          ["1.5 m/s"],
          SIGMA,
        ).optional(),
        target: quantity(
          "number",
          "Least probability of capture in this class; that of all classes when left out.",
          ["80 %"],
          SHARE,
        ).optional(),
      })
      .meta({ description: "A class of turbulence." }),
  )
  .meta({ description: "Classes of turbulence by name, in which attempts are counted." });

const sequential = z
  .strictObject({
    acceptable: quantity("number", "Share of captures that the plan should accept.", ["95 %"], SHARE),
    unacceptable: quantity("number", "Smaller share that the plan should refuse.", ["80 %"], SHARE),
    refusingGood: quantity("number", "Accepted risk of refusing the acceptable share.", ["5 %"], SHARE),
    acceptingBad: quantity("number", "Accepted risk of accepting the unacceptable share.", ["10 %"], SHARE),
    most: whole("Attempts after which the plan decides.", [60], 1, 5000),
  })
  .meta({ description: "Plan of trials that may end early; left out: no plan." });

/** `studies.hookon.claims` */
export const hookonClaims = z
  .strictObject({
    log: log.optional(),
    classes,
    target: quantity("number", "Least probability of capture in one attempt.", ["90 %"], SHARE),
    confidence: quantity("number", "Confidence of a claim, one-sided.", ["95 %"], CONFIDENCE),
    recovery: quantity("number", "Probability of at least one capture for which fuel is carried.", ["99 %"], SHARE),
    attemptsCarried: whole("Attempts that fuel is carried for.", [3], 1, 1000).optional(),
    goAround: choice("What a go-around before the contact counts as; a failed attempt when left out.", [
      "failed attempt",
      "no attempt",
    ]).optional(),
    captureRadius: quantity(
      "length",
      "Miss distance up to which the socket captures, for comparison with normally scattered misses.",
      ["0.3 m"],
      RADIUS,
    ).optional(),
    prior: z
      .strictObject({
        hits: quantity("number", "First parameter of the beta prior.", [1], PRIOR),
        misses: quantity("number", "Second parameter of the beta prior.", [1], PRIOR),
      })
      .meta({
        description: "What was known before the first attempt, as captures and failures; 1 and 1 when left out.",
      })
      .optional(),
    sequential: sequential.optional(),
  })
  .meta({ description: "What trials of hook-on may claim." });

export type AttemptLog = Table<
  | "attempt"
  | "date"
  | "outcome"
  | "closure"
  | "missRight"
  | "missDown"
  | "turbulence"
  | "sigma"
  | "light"
  | "controller"
>;

/** Word of a row in a column of words of an attempt log, or nothing where the cell is empty. */
export function attemptWord(log: AttemptLog, column: keyof AttemptLog["columns"], row: number): string | undefined {
  return log.words?.[column]?.words[log.columns[column]![row]!];
}

/**
 * Class of turbulence that an attempt belongs to: the one it names, else the first whose σ reaches its own.
 *
 * @param classes  names with the σ up to which they reach, any order
 * @returns undefined where the attempt names an unknown class, or has no σ that a class reaches
 */
export function attemptClass(
  log: AttemptLog,
  row: number,
  classes: readonly { readonly name: string; readonly sigmaUpTo: number | undefined }[],
): string | undefined {
  const named = attemptWord(log, "turbulence", row);
  if (named !== undefined) return classes.find(({ name: known }) => known === named)?.name;
  const sigma = log.columns.sigma![row]!;
  return [...classes]
    .filter(({ sigmaUpTo }) => sigmaUpTo !== undefined && sigma <= sigmaUpTo)
    .sort((a, b) => a.sigmaUpTo! - b.sigmaUpTo!)[0]?.name;
}
