import { aircraftStage } from "./stage-aircraft.ts";
import { boomStage } from "./stage-boom.ts";
import { carrierStage, hingeStage } from "./stage-carrier.ts";
import { contactStage } from "./stage-contact.ts";
import { framesStage } from "./stage-frames.ts";
import { actuatorStage, socketStage } from "./stage-socket.ts";

/**
 * Time derivative of the whole state: aircraft, boom tip, snubber, socket, buffer, gimbal, actuators, carrier.
 *
 * @param X  state, offsets in layout.ts; shape (32 + carrier states)
 * @param U  time, inputs held over a tick, modes; shape (U_SIZE)
 * @param P  parameters, offsets in parameter-layout.ts
 * @param W  work, written; shape (W_SIZE)
 * @param D  ẋ, written; shape of X
 * @source own derivation, README eq. 1–15
 * @verified right-hand-side.test.ts (against `PairMotion`, 1e-10), contact.test.ts
 * @cost no allocation
 */
export function hookonRates(X: Float64Array, U: Float64Array, P: Float64Array, W: Float64Array, D: Float64Array): void {
  hingeStage(X, U, P, W);
  boomStage(X, U, P, W, D);
  framesStage(X, P, W);
  contactStage(X, U, P, W);
  aircraftStage(X, U, P, W, D);
  socketStage(X, U, P, W, D);
  actuatorStage(X, U, P, D);
  carrierStage(X, U, P, W, D);
}
