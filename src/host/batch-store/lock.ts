import { randomUUID } from "node:crypto";
import { linkSync, readFileSync, readlinkSync, renameSync, rmSync, statSync, utimesSync, writeFileSync } from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";
import { CannotRun, CannotWrite } from "../effects.ts";
import { systemCode, systemWords } from "../files/index.ts";

/** Who coordinates the batch of a folder. */
interface Holder {
  readonly host: string;
  readonly pid: number;
  readonly since: string;
  /** Tells machines, restarts and containers with one name apart; process numbers mean something only within one. */
  readonly place: string;
  readonly token: string;
}

/** The lock is touched this often [ms]. */
const BEAT = 5_000;
/** A lock that nobody has touched for this long is nobody's [ms]. */
const SILENCE = 60_000;

/**
 * The lock of a batch folder: a file `lock` that names host, process and time.
 *
 * A lock is left over when its process is gone (same machine), or when it was not touched for a minute (any machine). Two that
 * take over a left-over lock at once, or a holder that slept meanwhile, are told apart by `require`, which every write asks first.
 */
export class FolderLock {
  readonly #path: string;
  readonly #token: string;
  readonly #beat: NodeJS.Timeout;

  private constructor(path: string, token: string) {
    this.#path = path;
    this.#token = token;
    this.#beat = setInterval(() => this.#touch(), BEAT);
    this.#beat.unref();
  }

  /**
   * @throws {CannotRun} naming who holds the folder
   * @throws {CannotWrite} in plain words
   */
  static take(folder: string, now: Date): FolderLock {
    const path = join(folder, "lock");
    const token = randomUUID();
    const own: Holder = { host: hostname(), pid: process.pid, since: now.toISOString(), place: placeName(), token };
    const temporary = join(folder, `.lock.${token}.tmp`);
    try {
      writeFileSync(temporary, `${JSON.stringify(own)}\n`, { flag: "wx" });
      for (let attempt = 0; attempt < 10; attempt++) {
        if (linked(temporary, path)) return new FolderLock(path, token);
        removeLeftOver(path, temporary, folder);
      }
      throw new CannotRun(`another coordinator is taking over ${folder}; try again`);
    } catch (error) {
      if (error instanceof CannotRun) throw error;
      throw new CannotWrite(folder, systemWords(error));
    } finally {
      rmSync(temporary, { force: true });
    }
  }

  /** @throws {CannotRun} when somebody else has taken over */
  require(): void {
    if (holderOf(this.#path)?.token === this.#token) return;
    throw new CannotRun("another coordinator has taken over this folder; nothing more is written here");
  }

  release(): void {
    clearInterval(this.#beat);
    if (holderOf(this.#path)?.token === this.#token) rmSync(this.#path, { force: true });
  }

  #touch(): void {
    try {
      const now = new Date();
      if (holderOf(this.#path)?.token === this.#token) utimesSync(this.#path, now, now);
    } catch {
      // the next write says what is wrong with the folder
    }
  }
}

function linked(temporary: string, path: string): boolean {
  try {
    linkSync(temporary, path);
    return true;
  } catch (error) {
    if (systemCode(error) === "EEXIST") return false;
    throw error;
  }
}

function removeLeftOver(path: string, temporary: string, folder: string): void {
  const status = statSync(path, { throwIfNoEntry: false });
  if (status === undefined) return;
  const holder = holderOf(path);
  // both times come from the same disk, whose clock may differ from ours
  const silence = statSync(temporary).mtimeMs - status.mtimeMs;
  const gone = holder !== undefined && holder.place === placeName() && !isAlive(holder.pid);
  if (!gone && silence < SILENCE) {
    const who =
      holder === undefined ? "another coordinator" : `process ${holder.pid} on ${holder.host}, since ${holder.since},`;
    throw new CannotRun(
      `${who} coordinates the batch in ${folder}; two coordinators on one folder would disturb each other. ` +
        `Wait for it or stop it; its lock ends with it`,
    );
  }
  const aside = `${temporary}-old`;
  try {
    renameSync(path, aside);
  } catch (error) {
    if (systemCode(error) === "ENOENT") return;
    throw error;
  }
  // somebody was quicker: what was moved aside is a fresh lock
  if (holderOf(aside)?.token !== holder?.token) linked(aside, path);
  rmSync(aside, { force: true });
}

function holderOf(path: string): Holder | undefined {
  try {
    const { host, pid, since, place, token } = JSON.parse(readFileSync(path, "utf8")) as Holder;
    return { host, pid, since, place, token };
  } catch {
    return undefined;
  }
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return systemCode(error) === "EPERM";
  }
}

/** Host, its last restart and the space of process numbers. */
function placeName(): string {
  const facts = [hostname()];
  for (const read of [
    () => readFileSync("/proc/sys/kernel/random/boot_id", "utf8").trim(),
    () => readlinkSync("/proc/self/ns/pid"),
  ]) {
    try {
      facts.push(read());
    } catch {
      // not a Linux system: the host's name has to do
    }
  }
  return facts.join(" ");
}
