"""Sobol and Halton points of an independent library. python3 points.py > values.json"""
import json
import numpy as np
from scipy.stats import qmc

deep = qmc.Sobol(64, scramble=False, bits=30).random(64)
print(json.dumps({
    "sobol6": qmc.Sobol(6, scramble=False).random(8).tolist(),
    "sobol64": {"rows": [1, 2, 7, 20, 33, 63], "points": [deep[i].tolist() for i in [1, 2, 7, 20, 33, 63]]},
    "sobol200": {"row": 5, "point": qmc.Sobol(200, scramble=False).random(8)[5].tolist()},
    "halton3": qmc.Halton(3, scramble=False).random(9).tolist()[1:],
}))
