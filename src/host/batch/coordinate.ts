import { resolve } from "node:path";
import { BugError } from "../../math/errors.ts";
import { type BatchJob, planHash, type Runner, type TaskRows } from "../batch-plan/index.ts";
import { exportRows, FolderLock, makeFolder, parquetLibrary, ShardStore, withDatabase } from "../batch-store/index.ts";
import { CannotRun, CannotWrite } from "../effects.ts";
import { dropExports, settleFolder } from "./folder.ts";
import { type ConditionCount, Tally } from "./tally.ts";

export interface BatchSettings {
  readonly folder: string;
  readonly job: BatchJob;
  readonly runner: Runner;
  /** Continue what the folder holds; an empty folder begins. */
  readonly resume: boolean;
  /** Upper less lower end of the interval of the success share that ends a condition. */
  readonly untilWidth?: number;
  readonly signal: AbortSignal;
  readonly now: () => Date;
  readonly progress: (state: BatchProgress) => void;
  readonly say: (words: string) => void;
}

export interface BatchProgress {
  readonly rows: number;
  /** Rows that there will be if no condition ends early. */
  readonly of: number;
  /** Of this run [1/s]; absent before the first rows. */
  readonly rate?: number;
  /** [s] */
  readonly remaining?: number;
  readonly counts: readonly ConditionCount[];
}

export interface BatchOutcome {
  /** `interrupted`: every finished row is kept, and there are no exports yet. */
  readonly kind: "finished" | "interrupted";
  readonly counts: readonly ConditionCount[];
  /** Rows computed by this run, and rows that were there. */
  readonly computed: number;
  readonly kept: number;
  /** Shards that were there and could not be used. */
  readonly damaged: number;
  /** Of this run, and what of it the coordinator spent on storing rows [s]. */
  readonly seconds: number;
  readonly storeSeconds: number;
}

/**
 * Runs a batch into a folder, or what is missing of it.
 *
 * Whatever ends it, each row that was stored stays, and the next run with `resume` computes only what is missing: a task counts
 * when its shard is whole, so nothing is lost and nothing counted twice.
 *
 * @throws {CannotRun} locked by another coordinator, no library, no queue
 * @throws {CannotWrite} disk full, no permission; what was stored stays
 * @throws {InputError} the folder holds another plan
 * @throws {DomainError | BugError} of a sample
 */
export async function runBatch(settings: BatchSettings): Promise<BatchOutcome> {
  const folder = resolve(settings.folder);
  parquetLibrary();
  makeFolder(folder);
  const lock = FolderLock.take(folder, settings.now());
  try {
    const run = settleFolder(folder, settings.job, settings.resume);
    return await withDatabase(async (connection) => {
      const { plan } = settings.job;
      const store = new ShardStore(connection, { folder, plan, planHash: planHash(plan) });
      const batch = new Batch({ ...settings, folder }, { store, lock, run });
      const damaged = await batch.takeStock();
      if (!batch.tally.finished()) dropExports(folder);
      await batch.compute();
      return await batch.conclude(damaged, () =>
        exportRows(connection, { folder, plan, tasks: batch.tally.counted() }),
      );
    });
  } finally {
    lock.release();
  }
}

class Batch {
  readonly tally: Tally;
  readonly #settings: BatchSettings;
  readonly #at: { readonly store: ShardStore; readonly lock: FolderLock; readonly run: string };
  readonly #started = performance.now();
  #kept = 0;
  #storing = 0;
  /** The store serves one at a time. */
  #queue: Promise<void> = Promise.resolve();
  /** Why nothing more can be stored. */
  #broken: unknown;

  constructor(settings: BatchSettings, at: { store: ShardStore; lock: FolderLock; run: string }) {
    this.#settings = settings;
    this.#at = at;
    this.tally = new Tally(settings.job.plan, settings.untilWidth);
  }

  /** Counts the shards that are there; returns how many of them are of no use and will be replaced. */
  async takeStock(): Promise<number> {
    let damaged = 0;
    for (const task of this.tally.tasks) {
      const found = await this.#at.store.read(task);
      if (found === "damaged") damaged += 1;
      else if (found !== "missing") this.tally.add(found);
    }
    this.#kept = this.tally.rows();
    if (damaged > 0) {
      this.#settings.say(
        `${damaged === 1 ? "1 shard is" : `${damaged} shards are`} damaged; their rows are computed again`,
      );
    }
    return damaged;
  }

  async compute(): Promise<void> {
    const { job, runner, signal, say } = this.#settings;
    if (this.tally.finished() || signal.aborted) return;
    this.#report();
    await runner.run({
      job,
      run: this.#at.run,
      next: () => (signal.aborted ? undefined : this.tally.next()),
      wanted: (task) => this.tally.wanted(task),
      deliver: (rows) => this.#store(rows),
      signal,
      say,
    });
    await this.#queue;
    if (!this.tally.finished() && !signal.aborted) throw new BugError("a runner ended before its tasks");
  }

  async conclude(damaged: number, write: () => Promise<void>): Promise<BatchOutcome> {
    const finished = this.tally.finished();
    if (finished) {
      this.#at.lock.require();
      const begun = performance.now();
      await write();
      this.#storing += performance.now() - begun;
    }
    return {
      kind: finished ? "finished" : "interrupted",
      counts: this.tally.counts(),
      computed: this.tally.rows() - this.#kept,
      kept: this.#kept,
      damaged,
      seconds: (performance.now() - this.#started) / 1000,
      storeSeconds: this.#storing / 1000,
    };
  }

  /** Stores the rows of a task once, in turn. */
  async #store(rows: TaskRows): Promise<void> {
    const turn = this.#queue.then(async () => {
      if (this.#broken !== undefined) throw this.#broken;
      const task = this.tally.known(rows);
      if (task === undefined || this.tally.isDone(task)) return;
      const begun = performance.now();
      try {
        this.#at.lock.require();
        await this.#at.store.write(rows);
      } catch (error) {
        this.#broken = error;
        throw error;
      }
      this.#storing += performance.now() - begun;
      this.tally.add(rows);
      this.#report();
    });
    this.#queue = turn.catch(() => {});
    await turn;
  }

  #report(): void {
    const rows = this.tally.rows();
    const left = this.tally.left();
    const seconds = (performance.now() - this.#started) / 1000;
    const computed = rows - this.#kept;
    const pace =
      computed > 0 && seconds > 0 ? { rate: computed / seconds, remaining: (left * seconds) / computed } : {};
    this.#settings.progress({ rows, of: rows + left, counts: this.tally.counts(), ...pace });
  }
}

/** True for an error after which the rows in the folder can be continued. */
export const canContinue = (error: unknown): boolean => error instanceof CannotWrite || error instanceof CannotRun;
