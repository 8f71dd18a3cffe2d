/** Starts the built `./davit` the way a user does. */
import { spawn } from "node:child_process";
import { readdirSync, statSync } from "node:fs";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

export const root = resolve(fileURLToPath(new URL("../..", import.meta.url)));
export const launcher = join(root, "davit");
export const longshore = join(root, "demo/longshore/longshore.pair.yaml");

export interface Outcome {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface Settings {
  readonly cwd?: string;
  readonly program?: string;
  readonly env?: Readonly<Record<string, string>>;
  /** Called once the process runs, e.g. to send a signal or to close its output. */
  readonly meanwhile?: (child: ReturnType<typeof spawn>) => void;
}

/** Runs it to its end; never rejects for an exit code. */
export function davit(args: readonly string[], settings: Settings = {}): Promise<Outcome> {
  return new Promise((done, fail) => {
    const child = spawn(settings.program ?? launcher, args, {
      cwd: settings.cwd ?? root,
      env: { ...process.env, DAVIT_DEBUG: "", ...settings.env },
      stdio: ["ignore", "pipe", "pipe"],
    });
    let stdout = "";
    let stderr = "";
    child.stdout.setEncoding("utf8").on("data", (piece: string) => {
      stdout += piece;
    });
    child.stderr.setEncoding("utf8").on("data", (piece: string) => {
      stderr += piece;
    });
    child.on("error", fail);
    child.on("close", (code, signal) => done({ code, signal, stdout, stderr }));
    settings.meanwhile?.(child);
  });
}

function newest(folder: string): number {
  const times = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(".ts") && !entry.name.endsWith(".test.ts"))
    .map((entry) => statSync(join(entry.parentPath, entry.name)).mtimeMs);
  return Math.max(...times);
}

/** Refuses to test an old build. */
export function requireFreshBuild(): void {
  const built = statSync(join(root, "dist/main.js"), { throwIfNoEntry: false })?.mtimeMs;
  if (built === undefined) throw new Error("dist/ is missing: run `npm run build`");
  if (built < newest(join(root, "src"))) throw new Error("dist/ is older than src/: run `npm run build`");
}
