export {
  type BreakawayResult,
  type BreakawaySettingsTwoBodies,
  breakawayGap,
  type Leaving,
  longestReaction,
} from "./breakaway.ts";
export { type BowWaveRows, bowWaveTable, type WakeRows, wakeTable } from "./flow-tables.ts";
export { approachGuide, emptyCommands } from "./guide.ts";
export { controlledElement, type LearntSettings, learntPilot } from "./learnt.ts";
export * from "./settings.ts";
export { type Chasing, chasing } from "./steering.ts";
export * from "./types.ts";
