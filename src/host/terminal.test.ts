import { describe, expect, it } from "vitest";
import { terminal } from "./terminal.ts";

function stream(
  isTTY: boolean,
  columns = 80,
): { text: string; isTTY: boolean; columns: number; write(text: string): void } {
  return {
    text: "",
    isTTY,
    columns,
    write(text) {
      this.text += text;
    },
  };
}

describe("progress line", () => {
  it("is wiped before ordinary text and never longer than the terminal is wide", () => {
    const out = stream(true, 11);
    const term = terminal(out);
    term.progress("sweep 1 of 7 and more");
    term.sink.write("words\n");
    expect(out.text).toBe("sweep 1 of\r\u001b[2Kwords\n");
    term.progress(undefined);
    expect(out.text.endsWith("words\n")).toBe(true);
  });

  it("takes a terminal that does not know its width for one of 80 columns", () => {
    const out = stream(true, 0);
    terminal(out).progress("x".repeat(200));
    expect(out.text).toBe("x".repeat(79));
  });

  it("is not shown where the stream is no terminal", () => {
    const out = stream(false);
    const term = terminal(out);
    term.progress("sweep 1 of 7");
    term.sink.write("words\n");
    term.progress(undefined);
    expect(out.text).toBe("words\n");
  });
});
