/** Made-up results for tests of the outputs; never for users. */
export { type FixtureVariant, fixtureDocument, fixtureHold, fixtureState } from "./fixture-result.ts";
