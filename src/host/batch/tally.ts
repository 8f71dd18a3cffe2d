import { clopperPearson, type ShareInterval } from "../../math/distributions/index.ts";
import { type BatchPlan, type BatchTask, type TaskRows, tasksOf } from "../batch-plan/index.ts";

/** Confidence of every interval of a batch. */
export const CONFIDENCE = 0.95;

/** Rows and successes of one condition. */
export interface ConditionCount {
  readonly condition: string;
  readonly title: string;
  readonly rows: number;
  readonly hits: number;
  /** Rows of the plan. */
  readonly of: number;
  /** Ended before the plan's rows because the interval was narrow enough. */
  readonly early: boolean;
}

interface Course {
  readonly tasks: readonly BatchTask[];
  /** Tasks from the first on that are done without a gap. */
  prefix: number;
  prefixRows: number;
  prefixHits: number;
  /** Every task that is done. */
  rows: number;
  hits: number;
  /** Tasks that count, once the interval was narrow enough after them. */
  enough: number | undefined;
}

/**
 * Which tasks are done, what they found, and when there are enough.
 *
 * Whether a condition has enough rows is decided after each task in index order, over the rows up to its end: it depends on
 * the rows alone and not on the order in which they came. Rows of later tasks that were done meanwhile are kept and do not count.
 */
export class Tally {
  readonly #plan: BatchPlan;
  readonly #tasks: readonly BatchTask[];
  readonly #courses: ReadonlyMap<string, Course>;
  readonly #hits: Int32Array;
  readonly #untilWidth: number | undefined;
  #next = 0;

  /** @param untilWidth upper less lower end of the interval of the success share that is narrow enough */
  constructor(plan: BatchPlan, untilWidth: number | undefined) {
    this.#plan = plan;
    this.#tasks = tasksOf(plan);
    this.#hits = new Int32Array(this.#tasks.length).fill(-1);
    this.#untilWidth = untilWidth;
    const fresh = { prefix: 0, prefixRows: 0, prefixHits: 0, rows: 0, hits: 0, enough: undefined };
    this.#courses = new Map(
      plan.conditions.map(({ key }) => [
        key,
        { ...fresh, tasks: this.#tasks.filter(({ condition }) => condition === key) },
      ]),
    );
  }

  get tasks(): readonly BatchTask[] {
    return this.#tasks;
  }

  isDone(task: BatchTask): boolean {
    return this.#hits[task.id] >= 0;
  }

  /** The plan's own task, or `undefined` when these rows are those of another. */
  known({ task, values }: TaskRows): BatchTask | undefined {
    const own = this.#tasks[task.id];
    const same =
      own !== undefined &&
      own.condition === task.condition &&
      own.first === task.first &&
      own.count === task.count &&
      values.length === own.count * this.#plan.columns.length;
    return same ? own : undefined;
  }

  /** Counts the rows of a task that was not done. */
  add({ task, values }: TaskRows): void {
    const { columns, success } = this.#plan;
    const at = columns.findIndex(({ name }) => name === success);
    let hits = 0;
    for (let i = 0; i < task.count; i++) if (values[i * columns.length + at] === 1) hits += 1;
    this.#hits[task.id] = hits;
    const course = this.#courses.get(task.condition)!;
    course.rows += task.count;
    course.hits += hits;
    this.#advance(course);
  }

  #advance(course: Course): void {
    while (course.prefix < course.tasks.length && course.enough === undefined) {
      const task = course.tasks[course.prefix];
      const hits = this.#hits[task.id];
      if (hits < 0) return;
      course.prefix += 1;
      course.prefixRows += task.count;
      course.prefixHits += hits;
      if (this.#untilWidth === undefined) continue;
      const { lower, upper } = clopperPearson(course.prefixHits, course.prefixRows, CONFIDENCE);
      if (upper - lower <= this.#untilWidth) course.enough = course.prefix;
    }
  }

  /** True as long as the rows of a task are still asked for. */
  wanted(task: BatchTask): boolean {
    return !this.isDone(task) && this.#courses.get(task.condition)!.enough === undefined;
  }

  /** Hands out each task that is wanted once. */
  next(): BatchTask | undefined {
    while (this.#next < this.#tasks.length) {
      const task = this.#tasks[this.#next++];
      if (this.wanted(task)) return task;
    }
    return undefined;
  }

  finished(): boolean {
    return [...this.#courses.values()].every(
      ({ enough, prefix, tasks }) => enough !== undefined || prefix === tasks.length,
    );
  }

  /** Tasks whose rows are the answer. */
  counted(): BatchTask[] {
    return [...this.#courses.values()].flatMap(({ tasks, enough }) => tasks.slice(0, enough ?? tasks.length));
  }

  /** Of the answer when the batch is finished, else of every row that is done. */
  counts(): ConditionCount[] {
    const final = this.finished();
    return this.#plan.conditions.map(({ key, title }) => {
      const course = this.#courses.get(key)!;
      const [rows, hits] = final ? [course.prefixRows, course.prefixHits] : [course.rows, course.hits];
      const early = course.enough !== undefined && course.enough < course.tasks.length;
      return { condition: key, title, rows, hits, of: this.#plan.samples, early };
    });
  }

  /** Rows that are done, whether they count or not. */
  rows(): number {
    return [...this.#courses.values()].reduce((sum, course) => sum + course.rows, 0);
  }

  /** Rows that are still to come if no interval becomes narrow enough. */
  left(): number {
    return this.#tasks.reduce((sum, task) => sum + (this.wanted(task) ? task.count : 0), 0);
  }
}

/** Interval of a condition's success share so far; `undefined` without rows. */
export function shareInterval(count: ConditionCount): ShareInterval | undefined {
  return count.rows === 0 ? undefined : clopperPearson(count.hits, count.rows, CONFIDENCE);
}
