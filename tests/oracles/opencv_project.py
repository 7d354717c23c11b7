#!/usr/bin/python3
"""Writes opencv_project.txt: points projected by OpenCV's cv2.projectPoints, to check the lens against.

The table is committed, so that the tests need no OpenCV. To make it again (Debian package python3-opencv, written with
4.6.0):

    /usr/bin/python3 tests/oracles/opencv_project.py > tests/oracles/opencv_project.txt

Conventions. World: x east, y north, z up, metres. A camera's pan is a bearing (0 north, clockwise), tilt is up positive,
roll clockwise positive; the picture's u runs right, v down, 0..1 over the gate. OpenCV's camera has x right, y down,
z forward. Rotations are made by cv2.Rodrigues, one for each of pan, tilt and roll, none of it taken from the program.
"""
import math
import random

import cv2
import numpy

CAMERAS = 200
POINTS = 5
PIXELS_WIDE = 1920.0
# Columns are OpenCV's x, y, z axes of a level camera that looks north, in the world.
LEVEL = numpy.array([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]])
GATES = [(36.0, 24.0), (24.89, 18.66), (24.89, 13.454), (24.89, 10.414), (12.52, 7.41), (52.48, 23.01), (17.3, 13.0)]
FOCALS = [12, 18, 25, 28, 32, 35, 50, 75, 85, 100, 135]


def turn(axis, degrees):
    return cv2.Rodrigues(numpy.array(axis) * math.radians(degrees))[0]


def lens_in_world(pan, tilt, roll):
    return turn([0.0, 0.0, -1.0], pan) @ LEVEL @ turn([1.0, 0.0, 0.0], tilt) @ turn([0.0, 0.0, 1.0], roll)


def project(at, axes, focal, gate, point):
    height = PIXELS_WIDE * gate[1] / gate[0]
    scale = focal / gate[0] * PIXELS_WIDE
    matrix = numpy.array([[scale, 0.0, PIXELS_WIDE / 2], [0.0, scale, height / 2], [0.0, 0.0, 1.0]])
    into_lens = axes.T
    found, _ = cv2.projectPoints(numpy.array([[point]]), cv2.Rodrigues(into_lens)[0], -into_lens @ at, matrix, None)
    return found[0, 0, 0] / PIXELS_WIDE, found[0, 0, 1] / height


def write_camera(dice):
    def between(low, high):
        return round(dice.uniform(low, high), 3)

    at = numpy.array([between(-6, 6), between(-6, 6), between(0.2, 3.5)])
    pan, tilt, roll = between(-180, 180), between(-60, 60), dice.choice([0.0, between(-25, 25)])
    focal, gate = dice.choice(FOCALS), dice.choice(GATES)
    print("camera", *at, pan, tilt, roll, focal, *gate)
    axes = lens_in_world(pan, tilt, roll)
    for _ in range(POINTS):
        deep, aside, over = dice.uniform(0.4, 12), dice.uniform(-1, 1), dice.uniform(-1, 1)
        away = axes @ numpy.array([aside * deep * gate[0] / focal, over * deep * gate[1] / focal, deep])
        point = numpy.round(at + away, 3)
        u, v = project(at, axes, focal, gate, point)
        print("point", *point, "%.15g" % u, "%.15g" % v)


def main():
    print("# cv2.projectPoints, OpenCV", cv2.__version__, "(made by opencv_project.py)")
    print("# camera x y z pan tilt roll focal gate_width gate_height; point x y z u v")
    dice = random.Random(2)
    for _ in range(CAMERAS):
        write_camera(dice)


main()
