import type { Effects } from "../../host/index.ts";
import { hashInputs, type LoadedPair } from "../../inputs/index.ts";
import { InputError, type Issue } from "../../math/errors.ts";
import {
  balanceNumbers,
  COMPARISON_SCHEMA,
  countVerdicts,
  holdNumbers,
  hookonNumbers,
  releaseNumbers,
  type VariantComparison,
} from "../../outputs/comparison/index.ts";
import { canonicalJson } from "../../outputs/result/index.ts";
import { dampingCriterion } from "../../outputs/summary/index.ts";
import { compareText } from "../../outputs/text/index.ts";
import { openPair, readOnce } from "../open/index.ts";
import type { Command, Request } from "../types.ts";
import { VERSION } from "../version.ts";
import {
  deliver,
  during,
  exitOf,
  findingsOf,
  partsOf,
  runStudies,
  STUDIES,
  type Study,
  type StudyRun,
  studiesOf,
} from "../work/index.ts";

interface Compared {
  readonly loaded: LoadedPair;
  readonly run: StudyRun;
}

export const run: Command = async (request, effects) => {
  const parts = partsOf(request.parts) ?? [];
  const read = readOnce(effects);
  const base = await openPair(request, read, effects);
  const names = namesOf(request, base);
  const studies = wantedOf(request, base);
  if (request.parts !== undefined && !studies.includes("hold")) refuseParts(request.parts);
  const compared: Compared[] = [];
  for (const name of names) {
    const loaded = await openPair(request, read, effects, name);
    compared.push({ loaded, run: runStudies(loaded, studies, effects, likeOf(loaded, compared), parts) });
  }
  const comparison = comparisonOf(request, base, compared);
  const { notice } = base.pair;
  const json = (): string => canonicalJson(comparison);
  await deliver(request.json, json, () => compareText(comparison, notice, effects.look), effects);
  if (request.out !== undefined) {
    const places = await writePage(request.out, comparison, notice, json(), effects);
    if (request.json !== "-") effects.stdout.write(places);
  }
  return exitOf(compared.flatMap((one) => findingsOf(one.run)));
};

/** The run whose `fit` this variant may take over: the first that read the same values. */
function likeOf(loaded: LoadedPair, before: readonly Compared[]): StudyRun | undefined {
  const same = before.find(({ run: { reusable } }) => {
    if (reusable === undefined) return false;
    return hashInputs(loaded, reusable.paths) === hashInputs(reusable.loaded, reusable.paths);
  });
  return same?.run;
}

/** @throws {InputError} naming each unknown or repeated name, or when fewer than two are left to compare */
function namesOf({ variants = [] }: Request, { variants: all }: LoadedPair): readonly string[] {
  const at = { path: "", file: "VARIANT" };
  const issues: Issue[] = [];
  variants.forEach((value, i) => {
    if (!all.includes(value)) issues.push({ ...at, message: "unknown variant", value, allowed: all.join(", ") });
    else if (variants.indexOf(value) < i)
      issues.push({ ...at, message: "is named twice", value, allowed: "each variant once" });
  });
  if (issues.length === 0 && variants.length < 2) {
    const value = variants.join(", ");
    issues.push({
      ...at,
      message: "one variant has nothing to be compared with",
      value,
      allowed: `two or more of ${all.join(", ")}`,
    });
  }
  if (issues.length > 0) throw new InputError(issues);
  return variants;
}

/** @throws {InputError} naming each study that does not exist or that the pair has no section for */
function wantedOf({ study }: Request, loaded: LoadedPair): Study[] {
  const there = studiesOf(loaded);
  if (study === undefined) return there;
  const issues = study
    .filter((name) => !there.some((one) => one === name))
    .map((value): Issue => {
      const known = STUDIES.some((one) => one === value);
      const message = known ? `the pair has no section studies.${value}` : "names no study";
      return { path: "", file: "--study", message, value, allowed: there.join(", ") };
    });
  if (issues.length > 0) throw new InputError(issues);
  return there.filter((one) => study.includes(one));
}

/** @throws {InputError} for parts of a study that does not run */
function refuseParts(value: string): never {
  const message = "are parts of `hold`, which does not run here";
  throw new InputError([{ path: "--parts", message, value, allowed: "left out, or with --study hold" }]);
}

function comparisonOf(request: Request, base: LoadedPair, compared: readonly Compared[]): VariantComparison {
  const holds = compared.flatMap((one) => (one.run.hold === undefined ? [] : [one.run.hold]));
  return {
    schema: COMPARISON_SCHEMA,
    davit: VERSION,
    pair: base.pair.pair,
    overrides: [...request.set],
    dampingCriterion_1: dampingCriterion(holds),
    variants: compared.map(({ loaded, run: { variant, fit, hold, hookon, release, balance } }) => ({
      variant,
      inputHash: hashInputs(loaded, [...loaded.values.keys()]),
      fit: fit === undefined ? null : countVerdicts(fit.findings),
      hold: hold === undefined ? null : holdNumbers(hold),
      hookon: hookon === undefined ? null : hookonNumbers(hookon),
      release: release === undefined ? null : releaseNumbers(release),
      balance: balance === undefined ? null : balanceNumbers(balance),
    })),
  };
}

async function writePage(
  folder: string,
  comparison: VariantComparison,
  notice: string | undefined,
  json: string,
  effects: Effects,
): Promise<string> {
  effects.progress("drawing the comparison");
  // drawing is heavy to load, so only who wants a page pays for it
  const { renderComparison } = await import("../../outputs/report/index.ts");
  const document = await effects.document();
  const page = during(
    () => `comparison of ${comparison.pair}`,
    () => renderComparison(comparison, { document }, notice),
  );
  const base = folder.endsWith("/") ? folder : `${folder}/`;
  await effects.files.write(`${base}compare.json`, json);
  await effects.files.write(`${base}compare.html`, page);
  return `Report: ${base}compare.html\nResult: ${base}compare.json\n`;
}
