import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cssString, dotted, escapeHtml, html, trusted } from "./html.ts";
import { commonBlocks } from "./rests.ts";

describe("html", () => {
  it("escapes what is put in, joins lists, keeps finished markup", () => {
    const name = `<img src=x onerror="a()">&'`;
    expect(html`<p title="${name}">${name}</p>`.markup).toBe(
      '<p title="&lt;img src=x onerror=&quot;a()&quot;&gt;&amp;&#39;">&lt;img src=x onerror=&quot;a()&quot;&gt;&amp;&#39;</p>',
    );
    expect(html`<ul>${["a", "<b>"].map((x) => html`<li>${x}</li>`)}${3}${trusted("<hr>")}</ul>`.markup).toBe(
      "<ul><li>a</li><li>&lt;b&gt;</li>3<hr></ul>",
    );
  });

  it("never lets a tag or a quote of the user through", () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        expect(html`${text}`.markup).not.toMatch(/[<>"']/);
        expect(dotted(text).markup.replace(/<\/?code>|<wbr>/g, "")).not.toMatch(/[<>"']/);
      }),
    );
    expect(escapeHtml("a\u0000b\u001bc")).toBe("a\ufffdb\ufffdc");
  });

  it("writes CSS strings that cannot end the string or the style", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => {
        expect(cssString(text)).toMatch(/^"([A-Za-z0-9 ,.:]|\\[0-9a-f]+ )*"$/);
      }),
    );
    expect(cssString('</style>"')).toBe('"\\3c \\2f style\\3e \\22 "');
  });
});

describe("sets of inputs", () => {
  it("become sums of disjoint blocks that give each set back", () => {
    const sets = fc.array(fc.uniqueArray(fc.constantFrom(..."abcdefgh"), { minLength: 1 }), {
      minLength: 1,
      maxLength: 6,
    });
    fc.assert(
      fc.property(sets, (given) => {
        const { blocks, members } = commonBlocks(given);
        const all = blocks.flat();
        expect(new Set(all).size).toBe(all.length);
        given.forEach((set, i) => {
          expect(members[i]!.flatMap((block) => blocks[block]!).sort()).toEqual([...set].sort());
        });
      }),
    );
  });

  it("are not split more than the sets require", () => {
    const { blocks } = commonBlocks([
      ["a", "b", "c"],
      ["b", "c", "d"],
    ]);
    expect(blocks).toEqual([["a"], ["b", "c"], ["d"]]);
  });
});
