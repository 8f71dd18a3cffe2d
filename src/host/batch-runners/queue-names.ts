import { Redis } from "ioredis";
import { CannotRun } from "../effects.ts";

/** Everything in the store begins with this. */
export const PREFIX = "davit";

/** Each version has a queue of its own: a worker never sees a task of another version. */
export const queueName = (version: string): string => `tasks-${version}`;

export const KEYS = {
  /** The encoded job of a batch. */
  job: (run: string): string => `${PREFIX}:job:${run}`,
  /** List of frames: rows or failures on their way to the coordinator. */
  rows: (run: string): string => `${PREFIX}:rows:${run}`,
  /** Expires soon after a coordinator stops refreshing it. */
  open: (run: string): string => `${PREFIX}:open:${run}`,
  /** Expires soon after a worker stops refreshing it. */
  worker: (id: string): string => `${PREFIX}:worker:${id}`,
} as const;

/** Time after which what nobody fetched is dropped by the store [s]. */
export const KEEP = 24 * 3600;
/** Presence is refreshed this often [ms] and forgotten after so long [s]. */
export const PRESENCE = { beat: 3_000, forget: 10 };

/** What a task looks like in the queue. */
export interface QueuedTask {
  readonly run: string;
  readonly id: number;
  readonly condition: string;
  readonly first: number;
  readonly count: number;
}

/** A batch that is open at the queue. */
export interface OpenBatch {
  readonly study: string;
  readonly version: string;
  readonly host: string;
}

/** A worker that is at the queue. */
export interface Presence {
  readonly host: string;
  readonly pid: number;
  readonly version: string;
  readonly threads: number;
}

/** How long a task may be without a sign of life from its worker, and how often that is looked at [ms]. */
export interface QueueTiming {
  readonly lock: number;
  readonly stalled: number;
  /** How often the coordinator looks whether the store still knows its tasks. */
  readonly sweep: number;
}

export const TIMING: QueueTiming = { lock: 15_000, stalled: 5_000, sweep: 2_000 };

/** The address without its password. */
export function shownUrl(url: string): string {
  try {
    const parsed = new URL(url);
    if (parsed.password !== "") parsed.password = "…";
    return parsed.href;
  } catch {
    return url;
  }
}

const WORDS: Readonly<Record<string, string>> = {
  ECONNREFUSED: "the connection is refused; is the server running?",
  ENOTFOUND: "no such host",
  EAI_AGAIN: "no such host",
  ETIMEDOUT: "no answer",
  EHOSTUNREACH: "no way to the host",
  ECONNRESET: "the connection was closed",
};

/**
 * Connects once, to say plainly what is wrong, then gives a connection that comes back by itself when the server does.
 *
 * @param told hears once that the server is gone, and once that it is back
 * @throws {CannotRun}
 */
export async function connect(url: string, told: (words: string) => void): Promise<Redis> {
  if (!/^rediss?:\/\//.test(url)) throw new CannotRun(`"${url}" is no address of a queue; allowed: redis://HOST:PORT`);
  const probe = new Redis(url, { lazyConnect: true, connectTimeout: 5_000, retryStrategy: () => null });
  let failure: unknown;
  probe.on("error", (error) => {
    failure = error;
  });
  try {
    await probe.connect();
    await probe.ping();
  } catch (error) {
    throw new CannotRun(`the queue ${shownUrl(url)} cannot be reached: ${reason(failure ?? error)}`);
  } finally {
    probe.disconnect();
  }
  const redis = new Redis(url, {
    connectTimeout: 5_000,
    maxRetriesPerRequest: null,
    retryStrategy: (times) => Math.min(100 * times, 1_000),
  });
  let lost = false;
  redis.on("error", (error) => {
    if (!lost) told(`the queue ${shownUrl(url)} does not answer (${reason(error)}); waiting for it`);
    lost = true;
  });
  redis.on("ready", () => {
    if (lost) told(`the queue ${shownUrl(url)} answers again`);
    lost = false;
  });
  return redis;
}

function reason(error: unknown): string {
  const { code, message } = error as { code?: string; message?: string };
  if (code !== undefined && WORDS[code] !== undefined) return WORDS[code];
  if (/NOAUTH|WRONGPASS/.test(message ?? "")) return "it wants another name or password";
  return message ?? String(error);
}

/** Values of all keys that begin with `start`, as far as they can be read. */
export async function valuesBelow<T>(redis: Redis, start: string): Promise<T[]> {
  const keys: string[] = [];
  let cursor = "0";
  do {
    const [next, found] = await redis.scan(cursor, "MATCH", `${start}*`, "COUNT", 500);
    keys.push(...found);
    cursor = next;
  } while (cursor !== "0");
  if (keys.length === 0) return [];
  const values = await redis.mget(keys);
  return values.filter((value) => value !== null).map((value) => JSON.parse(value) as T);
}
