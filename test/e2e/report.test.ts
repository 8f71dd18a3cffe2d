/** The report as a reader opens it: in a browser, without a network, on screen and on paper. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { davit, longshore, requireFreshBuild } from "./davit.ts";

let folder = "";
let browser: Browser;
let page: Page;
const asked: string[] = [];
const complaints: string[] = [];

beforeAll(async () => {
  requireFreshBuild();
  folder = mkdtempSync(join(tmpdir(), "davit-report-"));
  const { code, stderr } = await davit([
    "clear",
    longshore,
    "--set",
    "studies.hookon.samples=4",
    "--set",
    "studies.release.dispersion.samples=4",
    "--out",
    folder,
  ]);
  expect({ code, stderr }).toEqual({ code: 1, stderr: "" });
  browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-background-networking"],
  });
  page = await browser.newPage({ viewport: { width: 1200, height: 900 } });
  page.on("request", (request) => asked.push(request.url()));
  page.on("console", (message) => complaints.push(message.text()));
  page.on("pageerror", (error) => complaints.push(error.message));
  await page.goto(pathToFileURL(join(folder, "clearance.html")).href);
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

it("asks for nothing but itself and complains of nothing", () => {
  expect(asked).toHaveLength(1);
  expect(complaints).toEqual([]);
});

it("names the pair and puts the verdicts before everything else", async () => {
  expect(await page.title()).toContain("Longshore");
  const headings = await page.locator("main h2").allTextContents();
  expect(headings[0]).toMatch(/verdict/i);
  const verdicts = (await page.locator("#verdicts").textContent()) ?? "";
  for (const word of ["Rev A", "Rev B", "longitudinal", "lateral"]) expect(verdicts).toContain(word);
  expect(verdicts.toLowerCase()).toContain("not met");
});

it("shows every figure with a size, a name, and its text inside its frame", async () => {
  const figures = await page.locator("figure svg[role=img], figure > svg").evaluateAll((all) =>
    all.map((svg) => {
      const frame = svg.getBoundingClientRect();
      const texts = [...svg.querySelectorAll("text")].map((text) => ({
        text: text.textContent,
        box: text.getBoundingClientRect(),
      }));
      const outside = texts.filter(({ box }) => {
        const seen = box.width > 0 && box.height > 0;
        return (
          seen &&
          (box.left < frame.left - 1 ||
            box.right > frame.right + 1 ||
            box.top < frame.top - 1 ||
            box.bottom > frame.bottom + 1)
        );
      });
      return {
        width: frame.width,
        height: frame.height,
        texts: texts.length,
        outside: outside.map(({ text }) => text),
      };
    }),
  );
  expect(figures.length).toBeGreaterThanOrEqual(4);
  for (const figure of figures) {
    expect(figure.width).toBeGreaterThan(200);
    expect(figure.height).toBeGreaterThan(100);
    expect(figure.texts).toBeGreaterThan(4);
    expect(figure.outside).toEqual([]);
  }
});

it.each([
  ["a tablet", 820],
  ["a phone", 390],
  ["a small phone", 320],
])("fits %s without sideways scrolling of the page; wide tables scroll in their own box", async (_, width) => {
  await page.setViewportSize({ width, height: 1100 });
  const overflow = await page.evaluate("document.documentElement.scrollWidth - window.innerWidth");
  const boxes: { right: number; scrolls: boolean; wider: boolean }[] = await page.evaluate(`
    [...document.querySelectorAll(".scroll")].map((box) => ({
      right: box.getBoundingClientRect().right,
      scrolls: getComputedStyle(box).overflowX === "auto",
      wider: box.scrollWidth > box.clientWidth,
    }))`);
  expect(boxes.length).toBeGreaterThan(5);
  await page.setViewportSize({ width: 1200, height: 900 });
  expect(overflow).toBeLessThanOrEqual(0);
  for (const box of boxes) expect(box).toMatchObject({ scrolls: true });
  for (const { right } of boxes) expect(right).toBeLessThanOrEqual(width);
  if (width < 600) expect(boxes.some(({ wider }) => wider)).toBe(true);
});

it("prints on A4", async () => {
  const pdf = (await page.pdf({ format: "A4", preferCSSPageSize: true })).toString("latin1");
  const boxes = [...pdf.matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)].map((box) => [
    Number(box[1]),
    Number(box[2]),
  ]);
  expect(boxes.length).toBeGreaterThan(2);
  for (const [width, height] of boxes) {
    expect(Math.abs(width! - 595)).toBeLessThan(2);
    expect(Math.abs(height! - 842)).toBeLessThan(2);
  }
});
