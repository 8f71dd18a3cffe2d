/** What the checks need to know of a source file: its code without comments, with and without the text of its literals. */
import { readdirSync, readFileSync } from "node:fs";
import { join, relative, resolve, sep } from "node:path";
import { fileURLToPath } from "node:url";

export const root = resolve(fileURLToPath(new URL("..", import.meta.url)));

/** Paths (with `/`) of the files below `folder` whose name ends in one of `endings`. */
export function filesBelow(folder, endings, base = root) {
  return readdirSync(join(base, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && endings.some((ending) => entry.name.endsWith(ending)))
    .map((entry) =>
      relative(base, join(entry.parentPath ?? entry.path, entry.name))
        .split(sep)
        .join("/"),
    )
    .sort();
}

export const readSource = (path, base = root) => readFileSync(join(base, path), "utf8");

const REGEX_MAY_FOLLOW =
  /(?:^|[(,=:[!&|?{};+\-*%~^<>]|\b(?:return|typeof|case|in|of|do|else|void|delete|throw|yield|await))\s*$/;

/**
 * Blanks comments (`withStrings`) and also the text inside strings, templates and regular expressions (`code`);
 * both keep every line break, so positions still hold.
 */
export function stripped(text) {
  let withStrings = "";
  let code = "";
  let at = 0;
  const blank = (piece) => piece.replace(/[^\n]/g, " ");
  const take = (piece, kind) => {
    withStrings += kind === "comment" ? blank(piece) : piece;
    code += kind === "code" ? piece : blank(piece);
    at += piece.length;
  };
  const until = (pattern) => {
    pattern.lastIndex = at;
    return pattern.exec(text)?.[0] ?? text.slice(at);
  };
  // One entry for each template that is open; the number counts the braces opened inside its `${`.
  const templates = [];
  const template = () => {
    const piece = until(/(?:[^`\\$]|\\[\s\S]|\$(?!\{))*(?:`|\$\{)/y);
    take(piece, "literal");
    if (piece.endsWith("${")) templates.push(0);
  };
  while (at < text.length) {
    const here = text[at];
    const two = text.slice(at, at + 2);
    if (two === "//") take(until(/[^\n]*/y), "comment");
    else if (two === "/*") take(until(/\/\*[\s\S]*?\*\//y), "comment");
    else if (here === '"') take(until(/"(?:[^"\\\n]|\\[\s\S])*"/y), "literal");
    else if (here === "'") take(until(/'(?:[^'\\\n]|\\[\s\S])*'/y), "literal");
    else if (here === "`") {
      take("`", "literal");
      template();
    } else if (here === "/" && REGEX_MAY_FOLLOW.test(code.slice(-40))) {
      take(until(/\/(?:[^/\\[\n]|\\.|\[(?:[^\]\\\n]|\\.)*\])+\/[a-z]*/y), "literal");
    } else if (here === "{" && templates.length > 0) {
      templates[templates.length - 1] += 1;
      take("{", "code");
    } else if (here === "}" && templates.length > 0) {
      if (templates.at(-1) === 0) {
        templates.pop();
        take("}", "literal");
        template();
      } else {
        templates[templates.length - 1] -= 1;
        take("}", "code");
      }
    } else take(here, "code");
  }
  return { withStrings, code };
}

/** 1-based line of a position in a text. */
export const lineAt = (text, index) => text.slice(0, index).split("\n").length;
