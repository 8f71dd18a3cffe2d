import {
  U_GUST,
  U_GUST_SLOPE,
  U_ORBIT_PHASE,
  U_START,
  U_TIME,
  W_CARRIER_ANGLE,
  W_CARRIER_RATE,
  W_HINGE,
  W_HINGE_LOAD,
  W_HINGE_VELOCITY,
  X_CARRIER,
} from "./layout.ts";
import { P_CARRIER_STATES, P_CARRIER_TABLES, P_K2, P_K3, P_ORBIT, P_REST_LOAD } from "./parameter-layout.ts";

/**
 * Where the hinge is: at rest, on the carrier's linear response, and moved by the orbit of the socket.
 *
 *     (p, θ, v, ω) = C·x,   p += r·(cos φ·k2 + sin φ·k3),   φ = φ₀ + Ω·t                                (README eq. 14, 15)
 *
 * @source own derivation, README eq. 14–15
 * @verified right-hand-side.test.ts
 * @cost no allocation
 */
export function hingeStage(X: Float64Array, U: Float64Array, P: Float64Array, W: Float64Array): void {
  const n = P[P_CARRIER_STATES] | 0;
  const table = P[P_CARRIER_TABLES + 2] | 0;
  if (n > 0) {
    for (let i = 0; i < 3; i++) {
      let place = 0;
      let angle = 0;
      let velocity = 0;
      let rate = 0;
      for (let j = 0; j < n; j++) {
        const x = X[X_CARRIER + j];
        place += P[table + n * i + j] * x;
        angle += P[table + n * (3 + i) + j] * x;
        velocity += P[table + n * (6 + i) + j] * x;
        rate += P[table + n * (9 + i) + j] * x;
      }
      W[W_HINGE + i] = place;
      W[W_CARRIER_ANGLE + i] = angle;
      W[W_HINGE_VELOCITY + i] = velocity;
      W[W_CARRIER_RATE + i] = rate;
    }
  } else {
    W[W_HINGE] = 0;
    W[W_HINGE + 1] = 0;
    W[W_HINGE + 2] = 0;
    W[W_CARRIER_ANGLE] = 0;
    W[W_CARRIER_ANGLE + 1] = 0;
    W[W_CARRIER_ANGLE + 2] = 0;
    W[W_HINGE_VELOCITY] = 0;
    W[W_HINGE_VELOCITY + 1] = 0;
    W[W_HINGE_VELOCITY + 2] = 0;
    W[W_CARRIER_RATE] = 0;
    W[W_CARRIER_RATE + 1] = 0;
    W[W_CARRIER_RATE + 2] = 0;
  }
  const radius = P[P_ORBIT];
  if (radius > 0) {
    const speed = P[P_ORBIT + 1];
    const phase = U[U_ORBIT_PHASE] + speed * U[U_TIME];
    const c = radius * Math.cos(phase);
    const s = radius * Math.sin(phase);
    for (let i = 0; i < 3; i++) {
      W[W_HINGE + i] += c * P[P_K2 + i] + s * P[P_K3 + i];
      W[W_HINGE_VELOCITY + i] += speed * (c * P[P_K3 + i] - s * P[P_K2 + i]);
    }
  }
}

/**
 * Linear response of the carrier to the load of the boom and to gusts.
 *
 *     ẋ = A·x + B·(load − load at rest, gust)                                                            (README eq. 14)
 *
 * @source own derivation, README eq. 14
 * @verified right-hand-side.test.ts
 * @cost no allocation
 */
export function carrierStage(
  X: Float64Array,
  U: Float64Array,
  P: Float64Array,
  W: Float64Array,
  D: Float64Array,
): void {
  const n = P[P_CARRIER_STATES] | 0;
  const A = P[P_CARRIER_TABLES] | 0;
  const B = P[P_CARRIER_TABLES + 1] | 0;
  const since = U[U_TIME] - U[U_START];
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let j = 0; j < n; j++) sum += P[A + n * i + j] * X[X_CARRIER + j];
    for (let j = 0; j < 6; j++) {
      sum += P[B + 12 * i + j] * (W[W_HINGE_LOAD + j] - P[P_REST_LOAD + j]);
      sum += P[B + 12 * i + 6 + j] * (U[U_GUST + j] + U[U_GUST_SLOPE + j] * since);
    }
    D[X_CARRIER + i] = sum;
  }
}
