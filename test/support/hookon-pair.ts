/** An invented pair about to hook on, for tests and the bench. */

import type { ApproachGuide } from "../../src/physics/approach/types.ts";
import { hookedPair, trimFree } from "../../src/physics/bodies/index.ts";
import type { BoomSpringsSettings } from "../../src/physics/boom/index.ts";
import type { HookonSettings } from "../../src/physics/hookon-motion/index.ts";
import { straightGuide } from "../../src/physics/hookon-motion/index.ts";
import type { LatchSettings } from "../../src/physics/latch/types.ts";
import type { SocketSettings } from "../../src/physics/socket/types.ts";
import { type LongshoreOptions, longshore } from "./longshore.ts";

/** Socket that faces aft and down a little, its gimbal in the centre of the seated head. */
export function testSocket(change: Partial<SocketSettings> = {}): SocketSettings {
  return {
    funnel: { mouthRadius: 0.3, throatRadius: 0.044, coneDepth: 0.35, boreDepth: 0.12, mouthFromGimbal: 0.43 },
    probe: { radius: 0.04, axis: [1, 0, 0], stemRadius: 0.025, stemLength: 0.6 },
    contact: { stiffness: 2e6, restitution: 0.4, restitutionAt: 1, friction: 0.15, creepSpeed: 0.02 },
    gimbal: {
      ...{ centring: 400, damping: 25, friction: 4, stop: 0.35, stopStiffness: 2e4, inertia: 1.5 },
      tumbled: 0.7,
    },
    buffer: {
      ...{ preload: 1500, stiffness: 4e4, compressionDamping: 1500, extensionDamping: 3000 },
      ...{ stroke: 0.12, bottomStiffness: 2e6, headMass: 20 },
    },
    restAxis_H: [-1, 0, 0],
    dragArea: 0.1,
    ...change,
  };
}

/** Latch of 30 J. */
export function testLatch(change: Partial<LatchSettings> = {}): LatchSettings {
  return {
    travel: Float64Array.of(0, 0.01, 0.03),
    force: Float64Array.of(200, 1100, 1200),
    ...{ lockTime: 0.05, lockWindow: 0.008, stiffness: 4e6, damping: 4e3, sideStiffness: 2e6 },
    ...{ holds: 60e3, holdsHalf: 4e3 },
    ...change,
  };
}

export interface TestPair extends HookonSettings {
  /** Springs of the hooked pair at trim, with its preload. */
  readonly hookedBoom: BoomSpringsSettings;
}

/** Everything but what `change` replaces; the boom's preload is that of the empty tip: none. */
export function testPair(change: Partial<HookonSettings> = {}, options: LongshoreOptions = {}): TestPair {
  const pair = longshore({ mass: "return", ...options });
  const hooked = hookedPair(pair);
  const hookedBoom = (hooked.motion.settings.boom as { settings: BoomSpringsSettings }).settings;
  const trim = trimFree({ airloads: pair.airloads, mass: pair.mass.mass, ...pair.air });
  const surface = { lag: 0.06, rate: 0.7, travel: 0.2 };
  const guide: ApproachGuide = straightGuide(trim.controls);
  return {
    mass: pair.mass,
    airloads: pair.airloads,
    probe: pair.probe,
    trim,
    air: pair.air,
    boom: { ...hookedBoom, preload: { tension: 0, tangential: 0, lateral: 0 } },
    hookedBoom,
    tipMass: pair.boom.effectiveTipMass,
    socket: testSocket(),
    latch: testLatch(),
    actuators: { elevator: surface, aileron: surface, rudder: surface, thrust: { lag: 0.5, least: 0, most: 9000 } },
    guide,
    limits: {
      ...{ axialLoad: 60e3, sideLoad: 30e3, tipTravel: 1, pitch: 0.25, bank: 0.35, approachTime: 30, ringTime: 10 },
    },
    ...change,
  };
}
