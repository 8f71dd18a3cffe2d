import { describe, expect, it } from "vitest";
import { CannotRead, CannotWrite } from "../host/index.ts";
import { BugError, DomainError, InputError } from "../math/errors.ts";
import { EXIT, failureOf } from "./exit.ts";

const issue = {
  path: "a.b",
  message: "has no unit",
  file: "x.pair.yaml",
  line: 3,
  column: 7,
  value: "5",
  allowed: "a length",
};

describe("what is thrown becomes words and a code", () => {
  it("lists every input problem on a line of its own, then their number", () => {
    const { code, text } = failureOf(new InputError([issue, { ...issue, line: 9 }]), "1.2.3", false);
    expect(code).toBe(EXIT.inputWrong);
    expect(text).toBe(
      "x.pair.yaml:3:7: a.b: has no unit (found 5; allowed: a length)\n" +
        "x.pair.yaml:9:7: a.b: has no unit (found 5; allowed: a length)\n" +
        "2 problems\n",
    );
    expect(failureOf(new InputError([issue]), "1.2.3", false).text).toMatch(/\n1 problem\n$/);
  });

  it("tells a file that cannot be read (2) from one that cannot be written (3)", () => {
    expect(failureOf(new CannotRead("p", "no such file"), "", false)).toEqual({
      code: 2,
      text: "p: no such file\n1 problem\n",
    });
    expect(failureOf(new CannotWrite("q", "the disk is full"), "", false)).toEqual({
      code: 3,
      text: "q: cannot be written: the disk is full\n",
    });
  });

  it("names quantity, value and range of a method outside its validity", () => {
    const { code, text } = failureOf(new DomainError("altitude", 1e6, "below 84852 m"), "1.2.3", false);
    expect(code).toBe(EXIT.stopped);
    expect(text).toContain("altitude is 1000000; allowed: below 84852 m");
  });

  it("calls everything else a bug, says how to report it, and shows the stack only on request", () => {
    for (const error of [new BugError("lost a state"), new TypeError("lost a state")]) {
      const quiet = failureOf(error, "1.2.3", false);
      expect(quiet.code).toBe(EXIT.bug);
      expect(quiet.text).toContain("This is a bug in Davit 1.2.3: lost a state");
      expect(quiet.text).toContain("report");
      expect(quiet.text).not.toMatch(/\n\s+at /);
      expect(failureOf(error, "1.2.3", true).text).toMatch(/\n\s+at /);
    }
    expect(failureOf("thrown text", "1.2.3", true).text).toContain("thrown text");
  });
});
