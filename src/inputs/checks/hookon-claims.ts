import type { AttemptLog } from "../schema/index.ts";
import { attemptClass, attemptWord } from "../schema/index.ts";
import { nearest } from "../text/index.ts";
import { dotted } from "../tree/index.ts";
import type { Context } from "./context.ts";
import { checkCase, keysAt, quantityAt, report, spell, tableAt } from "./context.ts";

const PATH = ["studies", "hookon", "claims"];
const CLASSES = [...PATH, "classes"];
/** Faults of the log that are told one by one. */
const MOST = 20;

/** Classes differ and rise, the plan tells two shares apart, and each attempt of the log has its class. */
export function checkHookonClaims(context: Context): void {
  const names = keysAt(context, CLASSES);
  checkCase(context, CLASSES, names);
  if (names.length === 0 && quantityAt(context, [...PATH, "target"]) !== undefined) {
    report(context, CLASSES, "names no class", "one class or more");
  }
  checkSigmas(context, names);
  checkPlan(context);
  const log = tableAt(context, [...PATH, "log"]) as AttemptLog | undefined;
  if (log !== undefined && names.length > 0) checkLog(context, log, names);
}

function checkSigmas(context: Context, names: readonly string[]): void {
  const seen = new Map<number, string>();
  for (const name of names) {
    const sigma = quantityAt(context, [...CLASSES, name, "sigmaUpTo"])?.si;
    if (sigma === undefined) continue;
    const twin = seen.get(sigma);
    if (twin !== undefined) report(context, [...CLASSES, name, "sigmaUpTo"], `ends where "${twin}" ends`, "another σ");
    else seen.set(sigma, name);
  }
}

function checkPlan(context: Context): void {
  const at = [...PATH, "sequential"];
  const value = (key: string) => quantityAt(context, [...at, key]);
  const [good, bad] = [value("acceptable"), value("unacceptable")];
  if (good !== undefined && bad !== undefined && bad.si >= good.si) {
    report(context, [...at, "unacceptable"], "is not smaller than the acceptable share", `less than ${good.text}`);
  }
  const [alpha, beta] = [value("refusingGood"), value("acceptingBad")];
  if (alpha !== undefined && beta !== undefined && alpha.si + beta.si >= 1) {
    report(context, [...at, "acceptingBad"], "makes both risks together 100 % or more", "risks below 100 % together");
  }
}

function checkLog(context: Context, log: AttemptLog, names: readonly string[]): void {
  const classes = names.map((name) => ({ name, sigmaUpTo: quantityAt(context, [...CLASSES, name, "sigmaUpTo"])?.si }));
  const issues = context.issues.length;
  const tell = (row: number, column: "date" | "outcome" | "turbulence", message: string, allowed: string): void => {
    const told = context.issues.length - issues;
    if (told >= MOST) return;
    const place = log.words?.[column]?.places[row] ?? log.words!.outcome!.places[row]!;
    const value = attemptWord(log, column, row);
    const more = told === MOST - 1 ? { message: "the log has more problems than are listed" } : { message, allowed };
    const found = column === "outcome" || value === undefined ? {} : { value };
    context.issues.push({ path: dotted([...PATH, "log"]), ...place, ...found, ...more });
  };
  for (let row = 0; row < log.rows; row++) {
    const number = log.columns.attempt[row]!;
    if (!Number.isInteger(number)) tell(row, "outcome", `attempt ${spell(number)} is no whole number`, "1, 2, 3 …");
    const [day, before] = [attemptWord(log, "date", row), row > 0 ? attemptWord(log, "date", row - 1) : undefined];
    if (day !== undefined && before !== undefined && day < before) {
      tell(row, "date", "the day lies before that of the row above", "rows in the order of the attempts");
    }
    checkClass(log, row, classes, tell);
  }
}

type Tell = (row: number, column: "date" | "outcome" | "turbulence", message: string, allowed: string) => void;

function checkClass(
  log: AttemptLog,
  row: number,
  classes: readonly { readonly name: string; readonly sigmaUpTo: number | undefined }[],
  tell: Tell,
): void {
  const names = classes.map(({ name }) => name);
  const named = attemptWord(log, "turbulence", row);
  const sigma = log.columns.sigma[row]!;
  const found = attemptClass(log, row, classes);
  if (named !== undefined && found === undefined) {
    const near = nearest(named, names);
    const hint = near === undefined ? "" : `; did you mean ${near}?`;
    tell(row, "turbulence", `names no class of the pair${hint}`, names.join(", "));
  } else if (found === undefined) {
    const what = Number.isNaN(sigma)
      ? "the attempt has neither a class of turbulence nor a sigma"
      : `no class reaches the sigma of ${spell(sigma)} m/s`;
    tell(row, "outcome", what, "a class under turbulence, or a sigma that a class reaches");
  } else if (named !== undefined && !Number.isNaN(sigma)) {
    const upTo = classes.find(({ name }) => name === named)!.sigmaUpTo;
    if (upTo !== undefined && sigma > upTo) {
      tell(row, "turbulence", `the sigma of ${spell(sigma)} m/s lies above this class`, `up to ${spell(upTo)} m/s`);
    }
  }
}
