/** A Redis server of one's own: a free port, a folder for its data, and the way to kill it and bring it back. */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { Redis } from "ioredis";

export class TestRedis {
  readonly url: string;
  readonly #port: number;
  readonly #folder: string;
  #child: ChildProcess | undefined;

  private constructor(port: number, folder: string) {
    this.#port = port;
    this.#folder = folder;
    this.url = `redis://127.0.0.1:${port}`;
  }

  static async start(): Promise<TestRedis> {
    if (spawnSync("redis-server", ["--version"]).status !== 0) {
      throw new Error(
        "redis-server is missing, which these tests need; the gate installs it, or: apt-get install redis-server",
      );
    }
    const server = new TestRedis(await freePort(), mkdtempSync(join(tmpdir(), "davit-redis-")));
    await server.up();
    return server;
  }

  /** Starts it on its port and data; returns when it answers. */
  async up(): Promise<void> {
    const where = ["--port", String(this.#port), "--bind", "127.0.0.1", "--dir", this.#folder];
    const keeping = ["--appendonly", "yes", "--appendfsync", "everysec", "--save", ""];
    this.#child = spawn("redis-server", [...where, ...keeping], { stdio: "ignore" });
    for (let attempt = 0; attempt < 200; attempt++) {
      const probe = new Redis(this.url, { lazyConnect: true, retryStrategy: () => null });
      probe.on("error", () => {});
      try {
        await probe.connect();
        if ((await probe.ping()) === "PONG") return;
      } catch {
        await sleep(50);
      } finally {
        probe.disconnect();
      }
    }
    throw new Error(`redis-server does not answer on port ${this.#port}`);
  }

  /** `kill -9`. */
  async kill(): Promise<void> {
    const child = this.#child;
    if (child === undefined) return;
    this.#child = undefined;
    const gone = new Promise((resolve) => child.once("exit", resolve));
    child.kill("SIGKILL");
    await gone;
  }

  /** Loses all data, as a server without a disk does when it is restarted. */
  async forget(): Promise<void> {
    const client = new Redis(this.url);
    await client.flushall();
    client.disconnect();
  }

  async stop(): Promise<void> {
    await this.kill();
    rmSync(this.#folder, { recursive: true, force: true });
  }
}

/**
 * A port that nobody listens on, below those that a system hands to outgoing connections: a client that tries again and again
 * to reach a killed server could otherwise be handed the server's own port and keep it from coming back.
 */
export async function freePort(): Promise<number> {
  for (let attempt = 0; attempt < 100; attempt++) {
    const port = 15_000 + ((process.pid * 97 + attempt * 61 + Math.floor(performance.now())) % 15_000);
    if (await isFree(port)) return port;
  }
  throw new Error("no free port between 15000 and 30000");
}

function isFree(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const server = createServer();
    server.once("error", () => resolve(false));
    server.listen(port, "127.0.0.1", () => server.close(() => resolve(true)));
  });
}
