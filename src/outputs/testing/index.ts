/** Made-up results for tests of the outputs; never for users. */
export { fixtureAttachment } from "./fixture-attachment.ts";
export { fixtureBalance } from "./fixture-balance.ts";
export { fixtureCertainty } from "./fixture-certainty.ts";
export { fixtureControl } from "./fixture-control.ts";
export { fixtureFit } from "./fixture-fit.ts";
export { fixtureHookon } from "./fixture-hookon.ts";
export { fixtureRelease } from "./fixture-release.ts";
export { type FixtureVariant, fixtureDocument, fixtureHold, fixtureState } from "./fixture-result.ts";
