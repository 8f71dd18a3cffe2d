export { type Operation, operatingCharacteristic } from "./operating-characteristic.ts";
export { followPlan, type PlanState, type SequentialAim, type SequentialPlan, sequentialPlan } from "./plan.ts";
