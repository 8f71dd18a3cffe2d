import { DomainError } from "../../math/errors.ts";

/**
 * Runs one step of a command; a method that is asked for more than it is valid for then says in which step that was.
 *
 * @param step what is being computed at that moment, e.g. `hold, Rev A, hook: sweeps`
 * @throws {DomainError} as thrown by `work`, with the step put before its quantity
 */
export function during<T>(step: () => string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    const named = new DomainError(`${step()}: ${error.quantity}`, error.value, error.allowed);
    if (error.stack !== undefined) named.stack = error.stack;
    throw named;
  }
}
