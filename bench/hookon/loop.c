/*
 * Yardstick of the hook-on motion: the loop of motion.ts, steps.ts and what of run.ts and run-record.ts changes the motion, by hand,
 * around the equations translated from the stages (equations.c, written by the bench). Same steps, same events.
 *
 *     loop DATA     then lines on stdin: "N" runs samples 0 … N−1 and prints processor time [ns]; "result" prints what each ended with
 */
#include "equations.c"
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define MOST_STATES 64
enum { TIMER = EVENTS, MOST_EVENTS = 400 };
static const double EVENT_TIME = 1e-10;
enum { OPEN, TRIPPED, LOCKED, HALF_LOCKED, BROKEN };
/* Codes are those of HOOKON_OUTCOMES; the ring-down's growth is not judged here. */
enum { RUNNING = -1, STABLE = 0, HALF = 2, OVERLOADED, MISSED, BOUNCED, TUMBLED, JAMMED, LOST = 9 };

/* In the order in which the bench writes them. */
static struct {
  double states, parameters, samples, ticks, tick, locktime, lockwindow, holds, holdsHalf, stiffness, approachTime, ringTime;
  double tipTravel, pitch, bank, alpha, creep, tip[3];
  double free, touching, hooked, hookedMoving, buffer, perFriction, reach;
} C;
static double *P, *samples;
static int n;

static double U[U_SIZE], W[W_SIZE];
static double X[MOST_STATES], k1[MOST_STATES], k2[MOST_STATES], k3[MOST_STATES], k4[MOST_STATES], kNext[MOST_STATES];
static double stage[MOST_STATES], trial[MOST_STATES];
static double before[EVENTS], low[EVENTS], high[EVENTS];
static int changes[EVENTS];
static double now, step, timer;
static int outcome, latch, touches, events;
static long evaluations;
static bool touching;
static double contact, trip, lockedAt, touchEnded, axialLoad, sideLoad, travelled, tilted, impulse, missRight, jammedFor;

static void evaluate(double *x, double *d) {
  evaluations++;
  hookonRates(x, U, P, W, d);
}

static void refresh(void) {
  U[U_TIME] = now;
  evaluate(X, k1);
  if (U[U_BUFFER_HELD] > 0 && W[W_EVENTS + EVENT_BUFFER] > 0) {
    U[U_BUFFER_HELD] = 0;
    evaluate(X, k1);
  }
  memcpy(before, W + W_EVENTS, sizeof before);
}

static double longestStep(void) {
  const bool hooked = U[U_LATCH] > 1.5 && U[U_LATCH] < 2.5;
  const bool held = U[U_BUFFER_HELD] > 0;
  double h = hooked ? (held ? C.hooked : C.hookedMoving) : held ? C.free : C.buffer;
  const double a = X[X_TILT_RATE], b = X[X_TILT_RATE + 1], tilting = sqrt(a * a + b * b);
  if (W[W_EVENTS + EVENT_STOP] > -2 * tilting * h) h = least(h, C.touching);
  if (U[U_NEAR] > 0) {
    double speed2 = 0, spin2 = 0;
    for (int i = 0; i < 3; i++) {
      const double v = W[W_HEAD_VELOCITY + i] - W[W_KO_VELOCITY + i];
      speed2 += v * v;
      spin2 += W[W_SPIN + i] * W[W_SPIN + i];
    }
    const double reach = 2 * h * (sqrt(speed2) + (tilting + sqrt(spin2)) * C.reach);
    for (int i = EVENT_WALL; i <= EVENT_RIM; i++)
      if (W[W_EVENTS + i] < reach) h = least(h, C.touching);
    const double normal = W[W_NORMAL];
    if (normal * h > C.perFriction) h = most(C.perFriction / normal, C.touching / 40);
  }
  return h;
}

static void tryStep(void) {
  const double h = step, half = 0.5 * h, sixth = h / 6;
  for (int i = 0; i < n; i++) stage[i] = X[i] + half * k1[i];
  U[U_TIME] = now + half;
  evaluate(stage, k2);
  for (int i = 0; i < n; i++) stage[i] = X[i] + half * k2[i];
  evaluate(stage, k3);
  for (int i = 0; i < n; i++) stage[i] = X[i] + h * k3[i];
  U[U_TIME] = now + h;
  evaluate(stage, k4);
  for (int i = 0; i < n; i++) trial[i] = X[i] + sixth * (k1[i] + 2 * (k2[i] + k3[i]) + k4[i]);
  evaluate(trial, kNext);
}

static bool changed(void) {
  for (int i = 0; i < EVENTS; i++)
    if ((before[i] < 0) != (W[W_EVENTS + i] < 0)) return true;
  return false;
}

static void locate(void) {
  double near = 0, far = step, tried = far;
  memcpy(low, before, sizeof low);
  memcpy(high, W + W_EVENTS, sizeof high);
  for (int i = 0; i < 60 && far - near > EVENT_TIME; i++) {
    double share = 1;
    for (int k = 0; k < EVENTS; k++)
      if ((before[k] < 0) != (high[k] < 0)) share = least(share, low[k] / (low[k] - high[k]));
    const double width = far - near, margin = most(0.4 * EVENT_TIME, 0.01 * width);
    const double guess = share * width + (i % 2 == 0 ? margin : -margin);
    tried = near + (i % 5 == 4 ? 0.5 * width : most(0.1 * margin, least(width - 0.1 * margin, guess)));
    step = tried;
    tryStep();
    const bool past = changed();
    if (past) far = tried;
    else near = tried;
    memcpy(past ? high : low, W + W_EVENTS, sizeof low);
  }
  if (tried == far) return;
  step = far;
  tryStep();
}

static void accept(void) {
  memcpy(X, trial, n * sizeof *X);
  memcpy(k1, kNext, n * sizeof *X);
  for (int i = 0; i < EVENTS; i++) {
    const double value = W[W_EVENTS + i];
    changes[i] = (before[i] < 0) == (value < 0) ? 0 : value < 0 ? -1 : 1;
    before[i] = value;
  }
}

static bool end(int with) {
  outcome = with;
  return false;
}

static void touch(void) {
  bool on = U[U_LATCH] == 2;
  for (int i = EVENT_WALL; i <= EVENT_RIM; i++) on = on || W[W_EVENTS + i] < 0;
  if (on == touching) return;
  touching = on;
  if (!on) {
    touchEnded = now;
    return;
  }
  if (now - touchEnded > 0.2) touches++;
  if (isnan(contact)) contact = now;
}

static void closeHooks(void) {
  const double gap = W[W_ALONG] - P[P_SEAT] - P[P_HEAD_RADIUS];
  const bool inside = W[W_OFF] < P[P_THROAT_RADIUS];
  const bool locked = inside && gap <= C.lockwindow, onEdge = inside && gap <= C.lockwindow + P[P_HEAD_RADIUS];
  latch = locked ? LOCKED : HALF_LOCKED;
  U[U_LATCH] = locked || onEdge ? 2 : 3;
  U[U_HELD_AT] = gap < 0 ? W[W_ALONG] - P[P_CONTACT] * gap / C.stiffness : W[W_ALONG];
  U[U_HOLDS] = most(1, locked ? C.holds : C.holdsHalf);
  impulse = X[X_IMPULSE];
  if (locked) lockedAt = now;
  touching = locked || onEdge || touching;
}

static bool event(int which, bool rising) {
  events++;
  if (which <= EVENT_RIM) {
    touch();
    if (which == EVENT_SEAT && !rising && latch == OPEN) {
      latch = TRIPPED;
      trip = now;
      U[U_LATCH] = 1;
      timer = now + C.locktime;
    }
    return true;
  }
  const bool hooked = U[U_LATCH] == 2;
  if (which == TIMER) closeHooks();
  if (which == EVENT_TUMBLE && rising && !hooked) return end(TUMBLED);
  if (which == EVENT_MOUTH && !rising) {
    if (isnan(missRight)) {
      missRight = 0;
      for (int i = 0; i < 3; i++) missRight += (W[W_FROM_KO + i] - W[W_ALONG] * W[W_AXIS + i]) * W[W_K2 + i];
    }
    if (W[W_OFF] > P[P_MOUTH_RADIUS] + P[P_HEAD_RADIUS]) return end(isnan(contact) ? MISSED : BOUNCED);
  }
  if (which == EVENT_PULL && rising) {
    const bool half = latch == HALF_LOCKED;
    latch = BROKEN;
    U[U_LATCH] = 4;
    return end(half ? HALF : OVERLOADED);
  }
  if (which == EVENT_LOAD && rising) return end(OVERLOADED);
  if (which == EVENT_AWAY && rising) {
    if (latch == HALF_LOCKED) return end(HALF);
    if (!isnan(contact) && !hooked) return end(BOUNCED);
  }
  return true;
}

static void switchBuffer(bool rising) {
  if (U[U_BUFFER_HELD] > 0) {
    if (rising) U[U_BUFFER_HELD] = 0;
    return;
  }
  if (rising) return;
  const double share = P[P_BUFFER + 6] / P[P_TIP_MASS] * X[X_BUFFER_RATE];
  for (int i = 0; i < 3; i++) X[X_TIP_VELOCITY + i] -= share * W[W_K1 + i];
  X[X_BUFFER] = X[X_BUFFER_RATE] = 0;
  U[U_BUFFER_HELD] = 1;
}

static bool tell(void) {
  for (int i = 0; i < EVENTS; i++) {
    if (changes[i] == 0) continue;
    if (i == EVENT_BUFFER) switchBuffer(changes[i] > 0);
    if (!event(i, changes[i] > 0)) return false;
  }
  refresh();
  return true;
}

/* false: the run has ended */
static bool advance(double until) {
  refresh();
  int located = 0;
  while (now < until) {
    const double stop = least(until, timer), left = stop - now, parts = ceil(left / longestStep() - 1e-9);
    step = parts > 1 ? left / parts : left;
    tryStep();
    const bool cut = located < MOST_EVENTS && changed();
    if (cut) {
      locate();
      located++;
    }
    accept();
    now = parts > 1 || cut ? now + step : stop;
    if (!isfinite(X[0] + X[3] + X[13])) return end(LOST);
    axialLoad = most(axialLoad, fabs(W[W_AXIAL]));
    sideLoad = most(sideLoad, W[W_SIDE]);
    travelled = most(travelled, X[X_BUFFER]);
    tilted = most(tilted, W[W_TILT + 2]);
    if (cut && !tell()) return false;
    if (now >= timer) {
      timer = INFINITY;
      if (!event(TIMER, true)) return false;
      refresh();
    }
  }
  return true;
}

/* Head from the mouth: distance, and speed by the way. */
static double fromMouth(double *speed) {
  double p2 = 0, v2 = 0;
  for (int i = 0; i < 3; i++) {
    const int j = (i + 1) % 3, l = (i + 2) % 3;
    const double *spin = W + W_FUNNEL_SPIN, *axis = W + W_AXIS;
    const double p = W[W_FROM_KO + i] - P[P_MOUTH] * axis[i];
    const double turning = spin[j] * axis[l] - spin[l] * axis[j];
    const double v = W[W_HEAD_VELOCITY + i] - W[W_KO_VELOCITY + i] - P[P_MOUTH] * turning;
    p2 += p * p;
    v2 += v * v;
  }
  *speed = sqrt(v2);
  return sqrt(p2);
}

static void judge(void) {
  const double sinPitch = -W[W_ROTATION + 6], pitch = asin(most(-1, least(1, sinPitch)));
  const double bank = atan2(W[W_ROTATION + 7], W[W_ROTATION + 8]);
  const double sixty = acos(0.5);
  double speed;
  const double distance = fromMouth(&speed);
  if (fabs(pitch) > sixty || fabs(bank) > sixty) {
    end(LOST);
    return;
  }
  if (U[U_LATCH] == 2) {
    double travel2 = 0;
    for (int i = 0; i < 3; i++) travel2 += (X[X_TIP + i] - C.tip[i]) * (X[X_TIP + i] - C.tip[i]);
    const bool over = sqrt(travel2) > C.tipTravel || fabs(pitch - C.alpha) > C.pitch || fabs(bank) > C.bank;
    if (over || now >= trip + C.locktime + C.ringTime) end(latch == HALF_LOCKED ? HALF : over ? OVERLOADED : STABLE);
    return;
  }
  if (distance > 200) end(LOST);
  const bool inside = W[W_ALONG] < P[P_MOUTH] && W[W_OFF] < P[P_MOUTH_RADIUS];
  jammedFor = inside && touching && speed < 5 * C.creep && latch == OPEN ? jammedFor + C.tick : 0;
  if (outcome == RUNNING && jammedFor >= 1) end(JAMMED);
  if (outcome == RUNNING && now >= C.approachTime)
    end(latch == HALF_LOCKED ? HALF : isnan(contact) ? MISSED : BOUNCED);
}

static void run(const double *sample) {
  memcpy(X, sample, n * sizeof *X);
  memcpy(U, sample + n, sizeof U);
  const double *gusts = sample + n + U_SIZE;
  now = 0;
  timer = INFINITY;
  outcome = RUNNING;
  latch = OPEN;
  touching = false;
  touches = events = 0;
  contact = trip = lockedAt = missRight = impulse = NAN;
  touchEnded = -INFINITY;
  axialLoad = sideLoad = travelled = tilted = jammedFor = 0;
  refresh();
  const double depth = fabs(P[P_MOUTH] - P[P_SEAT]);
  const double reach = P[P_MOUTH_RADIUS] + P[P_HEAD_RADIUS] + P[P_STEM_LENGTH] + depth;
  for (const double *gust = gusts; outcome == RUNNING; gust += 6) {
    double speed;
    const double distance = fromMouth(&speed);
    if (latch != OPEN) U[U_COMMANDS + 3] = 0;
    U[U_START] = now;
    for (int i = 0; i < 6; i++) {
      U[U_GUST + i] = gust[i];
      U[U_GUST_SLOPE + i] = (gust[6 + i] - gust[i]) / C.tick;
    }
    for (int i = 0; i < 3; i++) U[U_SOCKET_AIR + i] = gust[i];
    U[U_NEAR] = distance < reach + 0.3 + 3 * C.tick * speed;
    if (advance(now + C.tick)) judge();
  }
}

static double used(void) {
  struct timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return 1e9 * t.tv_sec + t.tv_nsec;
}

static void load(const char *path) {
  FILE *file = fopen(path, "rb");
  if (!file || fread(&C, sizeof C, 1, file) != 1 || C.states > MOST_STATES) exit(2);
  n = C.states;
  const size_t own = C.parameters, each = n + U_SIZE + 6 * ((size_t)C.ticks + 2), all = each * (size_t)C.samples;
  P = malloc(own * sizeof *P);
  samples = malloc(all * sizeof *samples);
  if (fread(P, sizeof *P, own, file) != own || fread(samples, sizeof *samples, all, file) != all) exit(2);
  fclose(file);
}

int main(int count, char **words) {
  if (count != 2) return 2;
  load(words[1]);
  const size_t each = n + U_SIZE + 6 * ((size_t)C.ticks + 2);
  char line[64];
  while (fgets(line, sizeof line, stdin)) {
    if (strncmp(line, "result", 6) == 0) {
      for (int k = 0; k < C.samples; k++) {
        evaluations = 0;
        run(samples + k * each);
        printf("%d %d %d %ld %.17g %.17g %.17g %.17g", outcome, touches, events, evaluations, now, axialLoad, sideLoad, tilted);
        for (int i = 0; i < n; i++) printf(" %.17g", X[i]);
        printf("\n");
      }
    } else {
      const int runs = atoi(line);
      const double from = used();
      for (int k = 0; k < runs; k++) run(samples + k * each);
      printf("%.17g\n", used() - from);
    }
    fflush(stdout);
  }
  return 0;
}
