/** One pure study gives the same answer wherever it runs. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { Worker } from "node:worker_threads";
import { build } from "esbuild";
import { chromium } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type FileSet, holdBytes } from "./hold-bytes.ts";

const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url));
const demo = (name: string): Uint8Array => new Uint8Array(readFileSync(here(`../../demo/longshore/${name}`)));
const pair = "longshore.pair.yaml";
const files: FileSet = Object.fromEntries(readdirSync(here("../../demo/longshore")).map((name) => [name, demo(name)]));
const variant = "Rev B";

let folder = "";
let direct = "";
const bundle = async (entry: string, platform: "node" | "browser"): Promise<string> => {
  const outfile = join(folder, `${entry}.mjs`);
  // One library ships a build of its own for each place; a bundle picks the one that fits.
  const fitting =
    platform === "browser"
      ? { alias: { "csv-parse/sync": "csv-parse/browser/esm/sync" } }
      : {
          banner: {
            js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);',
          },
        };
  const common = { bundle: true, format: "esm", minify: true, logLevel: "error" } as const;
  await build({ ...common, ...fitting, platform, outfile, entryPoints: [here(`${entry}.ts`)] });
  return outfile;
};

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "davit-runtime-"));
  direct = holdBytes(files, pair, variant);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("is a result, and the same again", () => {
  expect(JSON.parse(direct)).toMatchObject({ study: "hold", variant });
  expect(holdBytes(files, pair, variant)).toBe(direct);
});

it("Node's main thread, bundled and minified: the same bytes", async () => {
  const outfile = await bundle("hold-bytes", "node");
  const module: typeof import("./hold-bytes.ts") = await import(pathToFileURL(outfile).href);
  expect(module.holdBytes(files, pair, variant)).toBe(direct);
});

it("a worker thread: the same bytes", async () => {
  const outfile = await bundle("node-worker", "node");
  const text = await new Promise<string>((resolve, reject) => {
    const worker = new Worker(outfile, { workerData: { files, pair, variant } });
    worker.once("message", resolve);
    worker.once("error", reject);
  });
  expect(text).toBe(direct);
});

it("a browser's worker: the same answer to 9 digits, without anything of Node", async () => {
  const source = readFileSync(await bundle("browser-worker", "browser"), "utf8");
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-background-networking"],
  });
  try {
    const page = await browser.newPage();
    // Answered here: nothing leaves the machine.
    const script = { contentType: "text/javascript", body: source };
    await page.route("**/*", (route) =>
      route.fulfill(route.request().url().endsWith("/worker.js") ? script : { contentType: "text/html", body: "" }),
    );
    await page.goto("http://localhost/");
    const plain = Object.fromEntries(Object.entries(files).map(([name, bytes]) => [name, [...bytes]]));
    const text = await page.evaluate(inBrowser, { plain, pair, variant });
    expectNear(JSON.parse(text), JSON.parse(holdBytes(files, pair, variant, true)), "result");
  } finally {
    await browser.close();
  }
});

interface BrowserTask {
  readonly plain: Readonly<Record<string, number[]>>;
  readonly pair: string;
  readonly variant: string;
}

/** Runs inside the page: starts a worker and waits for its answer. */
function inBrowser({ plain, pair: name, variant: chosen }: BrowserTask): Promise<string> {
  interface Page {
    readonly Worker: new (
      url: string,
      options: { type: string },
    ) => {
      onmessage: (event: { data: string }) => void;
      onerror: (event: { message: string }) => void;
      postMessage(data: unknown): void;
    };
  }
  const page = globalThis as unknown as Page;
  const worker = new page.Worker("/worker.js", { type: "module" });
  const bytes = Object.fromEntries(Object.entries(plain).map(([file, numbers]) => [file, Uint8Array.from(numbers)]));
  return new Promise((resolve, reject) => {
    worker.onmessage = (event) => resolve(event.data);
    worker.onerror = (event) => reject(new Error(event.message));
    worker.postMessage({ files: bytes, pair: name, variant: chosen });
  });
}

/** Equal in form and words; numbers to 9 digits, in a list to 9 digits of its largest, since engines may round sine and power differently in the last bit. */
function expectNear(found: unknown, wanted: unknown, path: string, largest = 1e-6): void {
  if (typeof wanted === "number" && typeof found === "number") {
    const scale = Math.max(Math.abs(wanted), largest);
    if (Math.abs(found - wanted) > 1e-9 * scale) throw new Error(`${path}: ${found} is not ${wanted}`);
    return;
  }
  if (typeof wanted !== "object" || wanted === null) {
    expect(found, path).toEqual(wanted);
    return;
  }
  const of = found as Readonly<Record<string, unknown>>;
  expect(Object.keys(of), path).toEqual(Object.keys(wanted));
  const sizes = Array.isArray(wanted) ? wanted.filter((value) => typeof value === "number").map(Math.abs) : [];
  const peak = sizes.reduce((a, b) => Math.max(a, b), 1e-6);
  for (const [key, value] of Object.entries(wanted)) expectNear(of[key], value, `${path}.${key}`, peak);
}
