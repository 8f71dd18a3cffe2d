import type { BalanceInputs } from "./inputs.ts";

/** What the result takes for granted. */
export function assumptions(inputs: BalanceInputs): string[] {
  const { boom, kitBoom, air, ground, condition } = inputs;
  return [
    "Carrier balance: masses are points at their stated places; fuel lies level in its tank, at the centre that the pair gives for its contents.",
    "Carrier balance: fuel burns evenly over each leg and from the tanks in the stated order, those of one group in proportion to what they held; unusable fuel and oil belong to the empty mass.",
    "Carrier balance: on the boom the stated share of the carried aircraft's weight is carried, at its own c.g. when three points hold it, at the socket when one does; the rest is on its own wing.",
    boom.pitch === null
      ? "Carrier balance: the carried aircraft is level at every boom angle, since no mechanism with a yoke is drawn."
      : "Carrier balance: the carried aircraft has the pitch that boom and yoke give it at each boom angle.",
    kitBoom === null
      ? "Carrier balance: the kit stays where it is stowed; what of it swings with the boom is not stated."
      : "Carrier balance: the swinging part of the kit moves with the boom, the rest of the kit stays.",
    "Carrier balance: the c.g. limits hold with gear and doors in any position, and for every pose of the boom.",
    "Carrier balance: courses other than the plan burn the fuel of the plan, leg by leg; jettisoned means that the aircraft goes at any time, with the boom as planned.",
    "Carrier balance: a boom that sticks does so with the outbound loading and all of its weight; a lighter aircraft in the same place lies between that and none.",
    ...(air === null
      ? []
      : [
          `Carrier balance: every change of trim is taken at condition ${condition.name} (${condition.equivalentAirspeed.toFixed(1)} m/s EAS), in level flight, with linear airloads about the reference of the carrier's dynamics.`,
        ]),
    ...(ground === null
      ? []
      : ["Carrier balance: on the ground the carrier stands level with tyres and struts as static, boom stowed."]),
  ];
}

/** What was not looked at. */
export function notAnalysed({ air, ground }: BalanceInputs): string[] {
  return [
    "Carrier balance: moments of tow load, of the drag of boom and carried aircraft, of thrust, and of the carrier's flow on either.",
    "Carrier balance: motion after a change of trim (overshoot, phugoid), what the autopilot does, trim rate and stick force.",
    "Carrier balance: sloshing, fuel that is trapped or shifts with attitude, tanks fed unevenly or a pump that fails.",
    "Carrier balance: persons who move about, stores other than those listed, ice.",
    "Carrier balance: strength of floor, frames and gear; field length, climb and engine-out limits.",
    ...(air === null ? ["Carrier balance: change of trim; the pair gives no derivatives of the carrier."] : []),
    ...(air !== null && air.elevator === null
      ? ["Carrier balance: change of elevator; the pair gives no control power of the carrier."]
      : []),
    ...(ground === null ? ["Carrier balance: loads on the wheels and tipping back; the ground is not described."] : []),
  ];
}
