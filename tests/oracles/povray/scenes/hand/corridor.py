"""The solids of corridor.pov, as the program prints solids."""

import math

UPRIGHT = [[1, 0, 0], [0, 1, 0], [0, 0, 1]]
PEOPLE = [(-1.6, 0.8, 1.62), (-1.2, 1.7, 1.80), (-0.5, 0.4, 1.71), (-0.1, 2.2, 1.90), (0.5, 0.9, 1.25), (1.1, 1.5, 1.68),
          (1.5, 0.2, 1.75)]
BOXES = [[([0, 1.3, 0.725], [0.9, 0.3, 0.025]), ([-0.82, 1.08, 0.35], [0.03, 0.03, 0.35]),
          ([0.82, 1.08, 0.35], [0.03, 0.03, 0.35])],
         [([0, 1.25, 0.885], [0.15, 0.1, 0.135])]]


def ellipsoid(part, middle, half):
    return {"shape": "ellipsoid", "part": part, "middle_m": middle, "half_m": half, "axes": UPRIGHT}


def limb(part, a, b, radius):
    return {"shape": "round_cone", "part": part, "a_m": a, "b_m": b, "ra_m": radius, "rb_m": radius, "flat": 1,
            "flat_axis": [0, 1, 0]}


def person(x, y, tall):
    def at(across, out, up):
        return [x + across * tall, y + out * tall, up * tall]

    solids = [ellipsoid("face", at(0, 0, 0.93), [0.065 * tall] * 3),
              ellipsoid("hair", at(0, 0.01, 0.975), [0.07 * tall, 0.075 * tall, 0.04 * tall]),
              {"shape": "frustum", "part": "chest", "a_m": at(0, 0, 0.48), "ra_m": 0.09 * tall, "b_m": at(0, 0, 0.83),
               "rb_m": 0.13 * tall, "flat": 1, "flat_axis": [0, 1, 0]}]
    for side in (-1, 1):
        solids.append(limb("arm", at(side * 0.15, 0, 0.80), at(side * 0.19, -0.05, 0.45), 0.035 * tall))
        solids.append(limb("leg", at(side * 0.06, 0, 0.48), at(side * 0.06, 0, 0.05), 0.05 * tall))
    return solids


def owner(kind, solids):
    return {"kind": kind, "name": "", "see_through": False, "solids": solids}


def camera():
    """Looks from (0.4, -4.2, 1.55) to (0.1, 1, 1.05), 46 degrees wide, 1.85 times as wide as high."""
    x, y, z = 0.1 - 0.4, 1.0 + 4.2, 1.05 - 1.55
    focal = 10 / math.tan(math.radians(23))
    return {"at_m": [0.4, -4.2, 1.55], "pan_deg": math.degrees(math.atan2(x, y)),
            "tilt_deg": math.degrees(math.atan2(z, math.hypot(x, y))), "roll_deg": 0, "focal_mm": focal,
            "gate_mm": [20, 20 / 1.85]}


def dump():
    boxes = [[{"shape": "box", "part": "set", "middle_m": middle, "half_m": half, "axes": UPRIGHT}
              for middle, half in piece] for piece in BOXES]
    return {"camera": camera(), "owners": [owner("person", person(*one)) for one in PEOPLE] +
            [owner("piece", boxes[0]), owner("prop", boxes[1])]}
