"""Solids as `lensward dump view FILE --at TIME --solids --as json` prints them, in POV-Ray's language; and POV-Ray's
pictures as numbers. Nothing of the program is used but its print.
"""

import array
import math
import pathlib
import re
import subprocess
import sys

PARTS = ["face", "hair", "neck", "chest", "waist", "arm", "hand", "leg", "foot", "cloth", "set"]


def add(a, b):
    return [x + y for x, y in zip(a, b)]


def times(a, k):
    return [x * k for x in a]


def dot(a, b):
    return sum(x * y for x, y in zip(a, b))


def cross(a, b):
    return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]


def length(a):
    return math.sqrt(dot(a, a))


def unit(a):
    return times(a, 1 / length(a))


def vec(a):
    return "<" + ",".join(f"{x:.9g}" for x in a) + ">"


def axes(camera):
    """Forward, right and up of a lens: pan is a compass bearing, tilt up and roll clockwise positive."""
    pan, tilt, roll = (math.radians(camera[key]) for key in ("pan_deg", "tilt_deg", "roll_deg"))
    forward = [math.sin(pan) * math.cos(tilt), math.cos(pan) * math.cos(tilt), math.sin(tilt)]
    right = [math.cos(pan), -math.sin(pan), 0]
    up = cross(right, forward)
    return (forward, add(times(right, math.cos(roll)), times(up, -math.sin(roll))),
            add(times(up, math.cos(roll)), times(right, math.sin(roll))))


def camera_block(camera, field=(1, 1)):
    """The camera, its field so many times as wide and as high."""
    forward, right, up = axes(camera)
    wide = camera["gate_mm"][0] / camera["focal_mm"] * field[0]
    high = camera["gate_mm"][1] / camera["focal_mm"] * field[1]
    return (f"camera {{ location {vec(camera['at_m'])} direction {vec(forward)} right {vec(times(right, wide))} "
            f"up {vec(times(up, high))} }}\n")


def squash(solid):
    """The map that flattens a solid along flat_axis about the plane through a."""
    k, f, a = solid["flat"] - 1, solid["flat_axis"], solid["a_m"]
    if k == 0:
        return ""
    rows = [[(1 if i == j else 0) + k * f[i] * f[j] for i in range(3)] for j in range(3)]
    shift = times(f, -k * dot(f, a))
    return "matrix <" + ",".join(f"{x:.12g}" for row in [*rows, shift] for x in row) + ">"


def round_cone(solid):
    a, b, ra, rb = solid["a_m"], solid["b_m"], solid["ra_m"], solid["rb_m"]
    ends = [f"sphere {{ {vec(a)}, {ra:.9g} }}", f"sphere {{ {vec(b)}, {rb:.9g} }}"]
    way = add(b, times(a, -1))
    if length(way) <= abs(ra - rb) + 1e-9:
        return "union { " + ends[0 if ra > rb else 1] + " " + squash(solid)
    slope = (ra - rb) / length(way)
    narrow = math.sqrt(1 - slope * slope)
    along = unit(way)
    side = (f"cone {{ {vec(add(a, times(along, ra * slope)))}, {ra * narrow:.9g}, "
            f"{vec(add(b, times(along, rb * slope)))}, {rb * narrow:.9g} }}")
    return "union { " + " ".join([*ends, side]) + " " + squash(solid)


def shape(solid):
    """An object, left open for its texture."""
    kind = solid["shape"]
    if kind == "round_cone":
        return round_cone(solid)
    if kind == "frustum":
        return (f"cone {{ {vec(solid['a_m'])}, {solid['ra_m']:.9g}, {vec(solid['b_m'])}, {solid['rb_m']:.9g} "
                + squash(solid))
    columns = [times(axis, half) for axis, half in zip(solid["axes"], solid["half_m"])]
    place = "matrix <" + ",".join(f"{x:.12g}" for row in [*columns, solid["middle_m"]] for x in row) + ">"
    if kind == "ellipsoid":
        return "sphere { <0,0,0>, 1 " + place
    return "box { <-1,-1,-1>, <1,1,1> " + place


def id_pigment(owner, part):
    """Owners count from 1; 0 is the background."""
    return (f" pigment {{ rgb <{owner % 16},{owner // 16},{part}>/15 }} "
            "finish { ambient 0 diffuse 0 emission 1 } no_shadow }\n")


def id_scene(dump, field=(1, 1), only=None):
    """Every solid in a colour that says whose it is and what part; see-through owners are left out."""
    lines = ["#version 3.7;\nglobal_settings { assumed_gamma 1.0 }\n", camera_block(dump["camera"], field)]
    for index, owner in enumerate(dump["owners"]):
        if owner["see_through"] or (only is not None and index != only):
            continue
        for solid in owner["solids"]:
            lines.append(shape(solid) + id_pigment(index + 1, PARTS.index(solid["part"])))
    return "".join(lines)


def render(scene, name, width, height, folder, *options):
    """Renders, without antialiasing and with linear values, and gives the picture as in read_ppm."""
    folder = pathlib.Path(folder)
    source, picture = folder / f"{name}.pov", folder / f"{name}.ppm"
    source.write_text(scene)
    done = subprocess.run(["povray", f"+I{source}", f"+O{picture}", f"+W{width}", f"+H{height}", "-A", "-D", "-GA", "+FP16",
                           "File_Gamma=1.0", "+WT1", *options], capture_output=True, text=True, cwd=folder)
    if done.returncode != 0:
        raise RuntimeError(f"povray could not render {name}:\n{done.stderr[-3000:]}")
    return read_ppm(picture.read_bytes())


def read_ppm(data):
    """Width, height and 16-bit samples of a PPM, red, green, blue in turn."""
    header = re.match(rb"P6\s(?:#[^\n]*\n)*(\d+)\s+(\d+)\s+65535\s", data)
    width, height = int(header[1]), int(header[2])
    samples = array.array("H", data[-width * height * 6:])
    if sys.byteorder == "little":
        samples.byteswap()
    return width, height, samples


def ids(picture):
    """Owner (from 1, 0 for none) and part of each pixel, row by row, as owner * 16 + part."""
    _, _, samples = picture
    level = [round(value * 15 / 65535) for value in range(65536)]
    reds, greens, blues = samples[0::3], samples[1::3], samples[2::3]
    return [(level[r] + 16 * level[g]) * 16 + level[b] for r, g, b in zip(reds, greens, blues)]


def grey(picture):
    """The red of each pixel, 0..1, row by row."""
    return [value / 65535 for value in picture[2][0::3]]


def lamp_block(lamp, scale):
    """A point that gives exactly scale * candela / distance² (to (1 cm / distance)²): POV-Ray's own fading is
    2 / (1 + (d / fade_distance)²)."""
    near = 0.01
    return (f"light_source {{ {vec(lamp['at_m'])} rgb {lamp['candela'] * scale / (2 * near * near):.9g} "
            f"fade_distance {near} fade_power 2 }}\n")


def probe_scene(dump, corner, across, down, scale, leave_out=None):
    """A flat matte white sheet seen square on, in the light of the lamps with the shadows of everything but `leave_out`;
    the rest is not seen itself. The sheet's corner is its top left, `across` and `down` its sides."""
    normal = unit(cross(down, across))
    middle = add(corner, times(add(across, down), 0.5))
    lines = ["#version 3.7;\nglobal_settings { assumed_gamma 1.0 }\n",
             f"camera {{ orthographic location {vec(add(middle, times(normal, 0.005)))} direction {vec(times(normal, -1))} "
             f"right {vec(across)} up {vec(times(down, -1))} }}\n"]
    lines += [lamp_block(lamp, scale) for lamp in dump["lamps"]]
    corners = [corner, add(corner, across), add(add(corner, across), down), add(corner, down), corner]
    lines.append("polygon { 5, " + ", ".join(vec(c) for c in corners) +
                 " pigment { rgb 1 } finish { ambient 0 diffuse 1 } }\n")
    for index, owner in enumerate(dump["owners"]):
        if owner["see_through"] or index == leave_out:
            continue
        lines += [shape(solid) + " no_image pigment { rgb 0 } finish { ambient 0 diffuse 0 } }\n"
                  for solid in owner["solids"]]
    return "".join(lines)


def room_scene(corner, lamp, reflectance, probe, scale):
    """An empty box room from the origin to `corner`, its light thrown back and forth, and a small sheet at `probe` that
    faces away from the lamp; what the sheet shows is the light of the walls alone."""
    away = unit(add(probe, times(lamp["at_m"], -1)))
    side = unit(cross(away, [0, 0, 1]))
    size = 0.04
    over = cross(side, away)
    eye = add(probe, times(away, 0.06))
    return (f"""#version 3.7;
global_settings {{ assumed_gamma 1.0 radiosity {{ count 400 nearest_count 8 error_bound 0.4 recursion_limit 8
  low_error_factor 0.5 gray_threshold 0 minimum_reuse 0.01 brightness 1 adc_bailout 0.001 pretrace_start 0.5
  pretrace_end 0.1 }} }}
camera {{ location {vec(eye)} direction {vec(times(away, -0.06))} right {vec(times(side, size / 2))}
  up {vec(times(over, size / 2))} }}
{lamp_block(lamp, scale)}
box {{ <0,0,0>, {vec(corner)} pigment {{ rgb {reflectance} }} finish {{ ambient 0 diffuse 1 }} no_shadow }}
disc {{ {vec(probe)}, {vec(away)}, {size} pigment {{ rgb 1 }} finish {{ ambient 0 diffuse 1 }} }}
""")
