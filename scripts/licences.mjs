/** Licence texts of every library that went into a bundle. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const licenceFile = /^(licen[cs]e|copying|notice|unlicense)([.-].*)?$/i;

/** Folder of the package that holds `input`, e.g. `node_modules/a/node_modules/@b/c`, or `undefined` for our own source. */
function packageFolder(input) {
  return /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(input)?.[1];
}

/**
 * @param metafile what the bundler reports: each output with the inputs whose bytes it holds
 * @param root repository root
 */
export function thirdPartyLicences(metafile, root) {
  const folders = new Set();
  for (const output of Object.values(metafile.outputs)) {
    for (const [input, { bytesInOutput }] of Object.entries(output.inputs ?? {})) {
      const folder = packageFolder(input);
      if (folder !== undefined && bytesInOutput > 0) folders.add(folder);
    }
  }
  const entries = [...folders].sort().map((folder) => describe(join(root, folder)));
  const head =
    "Davit's own licence is in LICENSE. The files in this folder also contain the libraries below,\n" +
    "each under its own licence, whose text follows.\n";
  return { count: entries.length, text: [head, ...entries].join(`\n${"-".repeat(100)}\n\n`) };
}

function describe(folder) {
  const { name, version, license, author } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const texts = existsSync(folder)
    ? readdirSync(folder)
        .filter((file) => licenceFile.test(file))
        .sort()
    : [];
  if (typeof license !== "string" && texts.length === 0) throw new Error(`${folder} states no licence`);
  const by = typeof author === "string" ? author : author?.name;
  const title = `${name} ${version}\nLicence: ${license ?? "see the text"}${by === undefined ? "" : `\nAuthor: ${by}`}\n`;
  const body = texts.map((file) => `\n${readFileSync(join(folder, file), "utf8").trim()}\n`);
  if (body.length === 0) body.push("\n(The package ships no licence text; the line above is what it declares.)\n");
  return title + body.join("");
}
