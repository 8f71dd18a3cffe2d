/** Which inputs the findings rest on, printed without saying any path twice. */
import { type Html, html, NOTHING } from "./html.ts";

/** Distinct sets of input paths, numbered in the order they are first used. */
export class RestSets {
  private readonly numbers = new Map<string, number>();
  readonly sets: (readonly string[])[] = [];

  /** "R3", or "–" for a finding that rests on nothing. */
  nameOf(rests: readonly string[]): string {
    if (rests.length === 0) return "–";
    const key = rests.join("\n");
    let number = this.numbers.get(key);
    if (number === undefined) {
      this.sets.push(rests);
      number = this.sets.length;
      this.numbers.set(key, number);
    }
    return `R${number}`;
  }
}

/** Letters A … Z, then AA, AB, … */
function letters(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letters(Math.floor(index / 26) - 1) + last;
}

/**
 * Splits sets into the coarsest blocks of which each of them is a union.
 *
 * @returns the blocks, and for each set the indices of its blocks
 */
export function commonBlocks(sets: readonly (readonly string[])[]): {
  readonly blocks: readonly (readonly string[])[];
  readonly members: readonly (readonly number[])[];
} {
  const owners = new Map<string, number[]>();
  sets.forEach((set, i) => {
    for (const path of new Set(set)) owners.set(path, [...(owners.get(path) ?? []), i]);
  });
  const byOwners = new Map<string, string[]>();
  for (const path of [...owners.keys()].sort()) {
    const key = owners.get(path)!.join(",");
    byOwners.set(key, [...(byOwners.get(key) ?? []), path]);
  }
  const blocks = [...byOwners.values()];
  const members = sets.map((_, i) =>
    [...byOwners.keys()].flatMap((key, block) => (key.split(",").includes(String(i)) ? [block] : [])),
  );
  return { blocks, members };
}

/** Paths gathered under their stems: `mechanism.boom: axial, bending`. */
function gathered(paths: readonly string[]): string {
  const stems = new Map<string, string[]>();
  for (const path of paths) {
    const cut = path.lastIndexOf(".");
    const stem = cut < 0 ? "" : path.slice(0, cut);
    stems.set(stem, [...(stems.get(stem) ?? []), path.slice(cut + 1)]);
  }
  return [...stems]
    .map(([stem, leaves]) => (stem === "" ? leaves.join(", ") : `${stem}: ${leaves.join(", ")}`))
    .join("; ");
}

/** The sets as sums of blocks, then the blocks with their paths. */
export function restSection({ sets }: RestSets): Html {
  if (sets.length === 0) return NOTHING;
  const { blocks, members } = commonBlocks(sets);
  const sums = sets.map((_, i) => html`<li><strong>R${i + 1}</strong> = ${members[i]!.map(letters).join(" + ")}</li>`);
  const lists = blocks.map((paths, i) => html`<dt>${letters(i)}</dt><dd>${gathered(paths)}</dd>`);
  return html`<h3>What the findings rest on</h3>
<p>Each set R is the sum of blocks of inputs; every input is named once.</p>
<ul class="sums">${sums}</ul>
<dl class="rests">${lists}</dl>`;
}
