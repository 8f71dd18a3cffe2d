"""Times SciPy's solve_ivp on the equations translated from the stages; started by measure.ts.

    python3 scipy_run.py EQUATIONS DATA

DATA: JSON with X, U, P, sizes, gusts from tick to tick, places in U. Prints JSON: seconds of processor, evaluations, final state; with lists
of floats, the fastest that plain Python has for single numbers, and also with every event function watched.
"""

import importlib.util
import json
import sys
import time

import numpy
import scipy
from scipy.integrate import solve_ivp

spec = importlib.util.spec_from_file_location("equations", sys.argv[1])
equations = importlib.util.module_from_spec(spec)
spec.loader.exec_module(equations)
with open(sys.argv[2], encoding="utf8") as file:
    data = json.load(file)


def measure(is_watched):
    parameters, inputs, work = data["P"], list(data["U"]), [0.0] * data["work"]
    size, tick, place = len(data["X"]), data["tick"], data["places"]
    calls = 0

    def rates(t, y):
        nonlocal calls
        calls += 1
        inputs[place["time"]] = t
        out = [0.0] * size
        equations.hookonRates(y.tolist(), inputs, parameters, work, out)
        return out

    last = [None, None]

    def watch(which):
        def event(t, y):
            # the event functions of one place share an evaluation
            if last[0] != t or last[1] is not y:
                rates(t, y)
                last[:] = [t, y]
            return work[place["events"] + which]

        event.terminal = True
        return event

    watched = [watch(which) for which in range(data["eventCount"])] if is_watched else None
    state, now = numpy.array(data["X"]), 0.0
    start = time.process_time()
    for gust, after in zip(data["gusts"], data["gusts"][1:]):
        inputs[place["start"]] = now
        for i in range(6):
            inputs[place["gust"] + i] = gust[i]
            inputs[place["slope"] + i] = (after[i] - gust[i]) / tick
        inputs[place["socketAir"] : place["socketAir"] + 3] = gust[:3]
        solution = solve_ivp(rates, (now, now + tick), state, method="RK45", rtol=1e-6, events=watched)
        if solution.status == 1:
            raise RuntimeError("an event where none was to be")
        state, now = solution.y[:, -1], now + tick
    return {"seconds": time.process_time() - start, "evaluations": calls, "state": state.tolist()}


print(json.dumps({"version": scipy.__version__, "plain": measure(False), "watched": measure(True)}))
