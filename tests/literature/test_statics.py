"""Textbook statics of two foils, in closed form: yardsticks that a boat's numbers can be checked with by
hand.

L1 + L2 = W, moments about the main foil, U = sqrt(2 W / (rho S C_L)). The package never works with these
forms, since it solves the whole boat; test_two_foils.py holds what it does against them.
"""

from __future__ import annotations

from math import asin, pi, sqrt

import pytest

from tests.literature.published import CLOSED_FORM, Source, compare

TOPIC = "Two foils"
SUPPORTS = Source(TOPIC, "Two supports 2 m apart, weight of 110 kg", CLOSED_FORM)
TAKE_OFF = Source(TOPIC, "U = √(2 W/(ρ S CL)), ρ 999.1 kg/m³", CLOSED_FORM)
FLAP = Source(TOPIC, "Thin aerofoil, flap share 0.3", CLOSED_FORM)
G, DENSITY = 9.80665, 999.1


@pytest.mark.parametrize(("behind", "lift"), [(0.0, 0.0), (0.1, 53.94), (0.2, 107.87), (0.3, 161.81)])
def test_rudder_foil_of_a_weight_behind_the_main_foil(behind, lift):
    name = f"centre of gravity {behind:g} m behind the main foil"
    compare(f"{name}: rudder lift", lift, 110.0 * G * behind / 2.0, 0.005, "N", SUPPORTS, referee=True)


def test_pull_at_a_height():
    compare("150 N at 3 m: bow-down moment", 450.0, 150.0 * 3.0, 1e-9, "N m", SUPPORTS, referee=True)
    compare("150 N at 3 m: rudder lift", -225.0, -150.0 * 3.0 / 2.0, 1e-9, "N", SUPPORTS, referee=True)


@pytest.mark.parametrize(
    ("area", "lift", "speeds"),
    [
        (0.10, 0.8, (4.828, 5.076, 5.312)),
        (0.10, 1.0, (4.318, 4.540, 4.751)),
        (0.12, 0.8, (4.408, 4.634, 4.849)),
    ],
)
def test_take_off_speed(area, lift, speeds):
    for mass, speed in zip((95.0, 105.0, 115.0), speeds, strict=True):
        found = sqrt(2.0 * mass * G / (DENSITY * area * lift))
        name = f"{area:g} m², CL {lift:g}, {mass:g} kg: take-off"
        compare(name, speed, found, 1e-3, "m/s", TAKE_OFF, referee=True)


def test_half_the_angle_by_flap():
    """7.231 degrees of incidence, half of it made by the flap instead."""
    half = 0.5 * 7.231
    compare("half of 7.231° of incidence", 3.62, half, 0.005, "°", FLAP, referee=True)
    tau = 2.0 / pi * (sqrt(0.3 * 0.7) + asin(sqrt(0.3)))
    compare("half of 7.231° of incidence by flap", 5.47, half / tau, 0.005, "°", FLAP, referee=True)
