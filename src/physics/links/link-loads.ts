import type { CarrierMotion, LinkLoad, LinkPort, LinkSight } from "./types.ts";

/** The links of a pair and the sum of their loads, with workspaces that are reused. */
export class LinkLoads {
  readonly links: readonly LinkPort[];
  readonly load: LinkLoad = {
    f_onV_H: new Float64Array(3),
    m_onV_aboutVcm_V: new Float64Array(3),
    f_onTip: new Float64Array(3),
    f_onCarrier_H: new Float64Array(3),
    m_onCarrier_aboutHo_H: new Float64Array(3),
  };
  private readonly sight: LinkSight;

  /**
   * @param links    the links
   * @param rotation R_HV that the equations write, row-major
   * @param carrier  carrier port
   * @param tip, tipVelocity boom tip from the hinge and its velocity, carrier axes, that the equations write
   */
  constructor(
    links: readonly LinkPort[],
    rotation: Float64Array,
    carrier: CarrierMotion,
    tip: Float64Array,
    tipVelocity: Float64Array,
  ) {
    this.links = links;
    this.sight = { state: new Float64Array(13), rotation, carrier, tip, tipVelocity };
  }

  /**
   * Sums the loads of all links at a state and adds them to the right-hand side of the equations of motion.
   *
   * @param state state of the pair; the first 13 entries are the aircraft's
   * @param right rows: force on the aircraft in H, moment about its c.g. in body axes, force on the tip in H; added to
   * @source own derivation, README eq. 7
   * @verified attached-pair.test.ts (momentum, energy)
   * @cost no allocation
   */
  addTo(state: Float64Array, right: Float64Array): void {
    const { load, sight, links } = this;
    load.f_onV_H.fill(0);
    load.m_onV_aboutVcm_V.fill(0);
    load.f_onTip.fill(0);
    load.f_onCarrier_H.fill(0);
    load.m_onCarrier_aboutHo_H.fill(0);
    for (let i = 0; i < 13; i++) sight.state[i] = state[i];
    for (const link of links) link.add(sight, load);
    const C = sight.carrier.rotation;
    const f = load.f_onTip;
    for (let i = 0; i < 3; i++) {
      right[i] += load.f_onV_H[i];
      right[3 + i] += load.m_onV_aboutVcm_V[i];
      right[6 + i] += C[3 * i] * f[0] + C[3 * i + 1] * f[1] + C[3 * i + 2] * f[2];
    }
  }

  /** Sight at the last state, for strain energy and slopes. */
  get view(): LinkSight {
    return this.sight;
  }
}
