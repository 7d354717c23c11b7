"""The solids of stairs.pov, as the program prints solids."""

import math

PEOPLE = [(-1.0, 0.5, 0.0, 20), (-0.2, 0.6, 0.0, 110), (-0.4, 1.4, 0.2, -60), (0.7, 1.3, 0.2, 180),
          (0.1, 2.3, 0.4, 75), (1.4, 2.2, 0.4, -10)]
STEPS = [([0.25, 1.45, 0.1], [2.25, 0.45, 0.1]), ([0.25, 2.35, 0.2], [2.25, 0.45, 0.2])]


def person(x, y, z, turn):
    cosine, sine = math.cos(math.radians(turn)), math.sin(math.radians(turn))

    def way(v):
        return [cosine * v[0] - sine * v[1], sine * v[0] + cosine * v[1], v[2]]

    def at(v):
        return [a + b for a, b in zip(way(v), (x, y, z))]

    own = [way([1, 0, 0]), way([0, 1, 0]), [0, 0, 1]]
    lean = math.radians(25)
    leaning = [way([1, 0, 0]), way([0, math.cos(lean), math.sin(lean)]), way([0, -math.sin(lean), math.cos(lean)])]
    return [{"shape": "ellipsoid", "part": "face", "middle_m": at([0, 0, 1.6]), "half_m": [0.075, 0.1, 0.125], "axes": own},
            {"shape": "ellipsoid", "part": "hair", "middle_m": at([0, -0.02, 1.65]), "half_m": [0.09, 0.11, 0.1],
             "axes": leaning},
            {"shape": "frustum", "part": "chest", "a_m": at([0, 0, 0.85]), "ra_m": 0.16, "b_m": at([0, 0, 1.42]),
             "rb_m": 0.22, "flat": 0.6, "flat_axis": way([0, 1, 0])},
            {"shape": "box", "part": "leg", "middle_m": at([0, 0, 0.43]), "half_m": [0.18, 0.11, 0.43], "axes": own},
            {"shape": "frustum", "part": "arm", "a_m": at([0.2, 0, 1.35]), "ra_m": 0.06, "b_m": at([0.35, 0.45, 1.2]),
             "rb_m": 0.03, "flat": 1, "flat_axis": [0, 0, 1]}]


def owner(kind, solids):
    return {"kind": kind, "name": "", "see_through": False, "solids": solids}


def dump():
    upright = [[1, 0, 0], [0, 1, 0], [0, 0, 1]]
    steps = [{"shape": "box", "part": "set", "middle_m": middle, "half_m": half, "axes": upright} for middle, half in STEPS]
    return {"camera": {"at_m": [-2, -3, 2.6], "pan_deg": 30, "tilt_deg": -15, "roll_deg": 10, "focal_mm": 24,
                       "gate_mm": [24, 10]},
            "owners": [owner("person", person(*one)) for one in PEOPLE] + [owner("piece", [step]) for step in steps]}
