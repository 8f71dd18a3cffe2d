import type { Pair } from "../../inputs/index.ts";
import { type BowWave, bowWaveTable, type WakeFlow, wakeTable } from "../../physics/approach/index.ts";
import type { AirZones } from "../../physics/hookon-motion/types.ts";
import type { OrbitSettings } from "../../physics/socket/types.ts";

/** Disturbances of carrier and nose for which the pair has data. */
export interface Disturbances {
  readonly zones: AirZones | null;
  readonly orbit: OrbitSettings | null;
  readonly bowWave: boolean;
  readonly wake: boolean;
  /** Factor of the wake on the intensity of turbulence, with the aircraft where it hooks on [1]. */
  readonly turbulence: number;
}

/** Air of bow wave and wake together; what lies outside a table takes the nearest value of it. */
function zonesOf(bowWave: BowWave | null, wake: WakeFlow | null): AirZones {
  const flow = new Float64Array(4);
  const push = new Float64Array(3);
  return {
    add(_time, p_HoVcm_H, p_MoPh_H, atAircraft, atSocket) {
      atAircraft.fill(0);
      atSocket.fill(0);
      if (wake !== null) {
        wake.evaluate(-p_HoVcm_H[0], p_HoVcm_H[1], p_HoVcm_H[2], flow);
        for (let i = 0; i < 3; i++) atAircraft[i] = flow[i];
      }
      if (bowWave !== null) {
        bowWave.evaluate(-p_MoPh_H[0], p_MoPh_H[2], push);
        for (let i = 0; i < 3; i++) atSocket[i] = push[i];
      }
    },
  };
}

/**
 * Bow wave, wake and orbit of the pair; one without data is absent and said so, never zero.
 *
 * @param pair         a view of the pair
 * @param trueAirspeed [m/s]
 * @param hookedAt     c.g. from the boom hinge with the probe in the mouth, in H [m]
 */
export function readDisturbances(
  { approach }: Pair,
  trueAirspeed: number,
  hookedAt: readonly [number, number, number],
): Disturbances {
  const { bowWave, wake, orbit } = approach?.disturbances ?? {};
  const push = bowWave === undefined ? null : bowWaveTable(bowWave.columns, trueAirspeed);
  const flow = wake === undefined ? null : wakeTable(wake.columns, trueAirspeed);
  const there = new Float64Array(4);
  flow?.evaluate(-hookedAt[0], hookedAt[1], hookedAt[2], there);
  return {
    zones: push === null && flow === null ? null : zonesOf(push, flow),
    orbit: orbit === undefined ? null : { radius: orbit.radius.si, period: orbit.period.si },
    bowWave: push !== null,
    wake: flow !== null,
    turbulence: flow === null ? 1 : there[3],
  };
}
