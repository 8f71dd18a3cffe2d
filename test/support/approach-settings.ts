/** Settings of an approach with the gains of the demo pair and no errors; tests change what they look at. */
import type { ApproachSettings, ApproachTrim, InnerGains, OuterGains } from "../../src/physics/approach/index.ts";

const deg = Math.PI / 180;

export const OUTER: OuterGains = {
  forward: 0.3,
  lateral: 0.35,
  vertical: 0.65,
  forwardSpeed: 0.75,
  lateralSpeed: 0.9,
  path: 2.5,
  integral: 0.08,
  integralWithin: 0.6,
  largestSpeed: 1.5,
  largestBank: 10 * deg,
  largestPitch: 4 * deg,
};
export const INNER: InnerGains = {
  pitch: 1.0,
  pitchRate: 0.24,
  pitchIntegral: 0.5,
  bank: 0.6,
  rollRate: 0.12,
  yawRate: 0.5,
};

export function approachSettings(trim: ApproachTrim, change: Partial<ApproachSettings> = {}): ApproachSettings {
  return {
    tick: 0.02,
    trim,
    navigation: {
      interval: 0.02,
      latency: 0,
      bias: [0, 0, 0],
      placeNoise: 0,
      velocityNoise: 0,
      dropouts: null,
      without: "propagate",
      attitudeNoise: 0,
      rateNoise: 0,
    },
    schedule: {
      aim: "rest",
      start: "pre-contact",
      observation: [-20, 0, 4],
      preContact: [-6, 0, 1],
      through: 0.6,
      transit: 1.5,
      closure: 1.2,
      acceleration: 0.4,
      settled: { distance: 0.25, speed: 0.15, time: 2 },
      alignment: 0.15,
      attempts: 3,
      goAround: {
        within: 1.5,
        gate: 0.2,
        leastClosure: 0.5,
        mostClosure: 2,
        longestDropout: 1,
        timeLimit: 90,
        overrun: 0.5,
        touchTime: 3,
      },
    },
    controller: { kind: "autopilot", outer: OUTER, inner: INNER, delay: 0.04 },
    hooked: {
      gains: { pitch: 0, pitchRate: 0.2, pitchIntegral: 0, bank: 0.8, rollRate: 0.25, yawRate: 0.3, washout: 2 },
      thrust: 0,
    },
    steering: { kind: "none" },
    breakaway: {
      reaction: 1,
      thrust: 0,
      sinkRate: 4,
      overrun: 1.5,
      closure: 3,
      dropout: 2,
      commandedAt: null,
    },
    thrustLimits: { least: 0, most: 6000 },
    ...change,
  };
}
