import { expect, it } from "vitest";
import { BugError, DomainError } from "../../math/errors.ts";
import { EXIT, failureOf } from "../exit.ts";
import { during } from "./during.ts";

function thrown(work: () => unknown): unknown {
  try {
    work();
  } catch (error) {
    return error;
  }
  return undefined;
}

it("names the step that was running when a method was asked for too much", () => {
  let step = "hold, Rev A";
  const error = thrown(() =>
    during(
      () => step,
      () => {
        step = "hold, Rev A, hook: sweeps";
        throw new DomainError("altitude", 1e6, "below 84852 m");
      },
    ),
  );
  expect(error).toBeInstanceOf(DomainError);
  const { code, text } = failureOf(error, "1.2.3", false);
  expect(code).toBe(EXIT.stopped);
  expect(text).toContain("could not compute: hold, Rev A, hook: sweeps: altitude is 1000000; allowed: below 84852 m");
});

it("lets results and every other error pass as they are", () => {
  const bug = new BugError("lost a state");
  const raise = () => {
    throw bug;
  };
  expect(thrown(() => during(() => "a", raise))).toBe(bug);
  expect(
    during(
      () => "a",
      () => 7,
    ),
  ).toBe(7);
});
