import { type LoadedPair, type LoadOptions, loadPair, type ReadFile, recordReads } from "../../inputs/index.ts";
import { folderOf, joinPath } from "../../inputs/text/index.ts";
import { BugError } from "../../math/errors.ts";
import type { SampleStudy, SampleStudyEntry } from "../../studies/samples/types.ts";
import { CannotRun } from "../effects.ts";
import { stepImporter } from "../step.ts";
import type { BatchJob, PairBundle } from "./types.ts";

/** The files of a pair that has been read. */
export function bundleOf(pairPath: string, loaded: LoadedPair, read: ReadFile): PairBundle {
  const folder = folderOf(pairPath);
  const files = loaded.files.map(({ path }) => {
    const found = read(joinPath(folder, path));
    if (!found.ok) throw new BugError(`${path} was read and cannot be read again`);
    return { path, bytes: found.bytes };
  });
  return { files };
}

/** Reads a pair out of its bundle. */
export async function loadBundle(bundle: PairBundle, options: LoadOptions): Promise<LoadedPair> {
  const files = new Map(bundle.files.map(({ path, bytes }) => [path, bytes]));
  const [main] = files.keys();
  if (main === undefined) throw new BugError("a bundle without files");
  const read: ReadFile = (path) => {
    const bytes = files.get(path);
    return bytes === undefined ? { ok: false, reason: "it is not in the bundle" } : { ok: true, bytes };
  };
  const needsStep = [...files.keys()].some((path) => /\.(step|stp)$/i.test(path));
  const importStep = needsStep ? await stepImporter() : undefined;
  return loadPair(main, read, importStep === undefined ? options : { ...options, importStep });
}

/**
 * Opens the study of a job as its coordinator opened it.
 *
 * @throws {CannotRun} when this Davit is of another version or does not know the study
 */
export async function openJob(
  job: BatchJob,
  studies: readonly SampleStudyEntry[],
  version: string,
): Promise<SampleStudy> {
  const { plan, bundle } = job;
  if (plan.version !== version) {
    throw new CannotRun(
      `the batch was planned by davit ${plan.version} and this is davit ${version}; rows of two versions are not mixed: ` +
        "install the same version on every machine",
    );
  }
  const entry = studies.find(({ key }) => key === plan.study);
  if (entry === undefined) throw new CannotRun(`this davit has no study "${plan.study}"`);
  const loaded = await loadBundle(bundle, { variant: plan.variant, set: plan.set });
  const study = openStudy(entry, loaded, plan.seed);
  if (study === null) throw new BugError(`the pair has no section for ${plan.study} any more`);
  return study;
}

/** Opens a study from a pair; `null` where the pair has no section for it. */
export function openStudy(entry: SampleStudyEntry, loaded: LoadedPair, seed?: number): SampleStudy | null {
  const reads = () => recordReads(loaded);
  return entry.open({ variant: loaded.variant, reads, ...(seed === undefined ? {} : { seed }) });
}
