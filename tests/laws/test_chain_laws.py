"""Chains of rods, whatever their numbers: rods keep their lengths, gearing, play and give are derivatives.

Chains of one to eight rods are drawn at random (seeded, nothing filtered out) around arms at about right
angles to their rods, which is how a boatbuilder sets them.
"""

from __future__ import annotations

from itertools import pairwise
from math import cos, degrees, isfinite, pi, radians, sin

import numpy as np
import pytest

from foilwright.compiled import plain
from foilwright.documents.boat_numbers import ReadyBoat
from foilwright.flight.chain_behaviour import chain_at, locks_at, unpacked
from foilwright.linkage.chain import DRAWN_SIZE, LINK_SIZE, Turned, draw_chain, turn_chain
from foilwright.linkage.curve import curve_table, read_curve
from foilwright.measures import Floats
from tests.demo_boats import changed

RODS = (1, 3, 5, 8)
TURNS = np.radians(np.arange(-45.0, 38.0, 1.0))


class Chain:
    """A chain in its drawing position."""

    def __init__(self, crank: tuple[float, float, float, float], links: Floats) -> None:
        """crank: pivot x, z, out-arm and its direction of the wand crank."""
        self.crank = crank
        self.links = links
        self.drawn = np.zeros((len(links), DRAWN_SIZE))
        draw_chain(*crank, links, self.drawn)

    def at(self, turn: float, first: int | None = None) -> Turned:
        """The chain, or its first few links, with the wand so far aft of the drawing [rad]."""
        return turn_chain(plain(self.drawn[:first]), plain(self.links[:first]), turn)

    def longer(self, rod: int, by: float) -> Chain:
        links = self.links.copy()
        links[rod, 0] += by
        return Chain(self.crank, links)


def hand_built(rods: int, seed: int = 0) -> Chain:
    """A chain that runs aft, each arm within 25 degrees of square to its rods, either way round."""
    rng = np.random.default_rng(100 * rods + seed)
    x, z = 3.45, 0.32
    up = rng.choice([-1.0, 1.0])
    crank = (x, z, 0.0175, up * (0.5 * pi + rng.uniform(-0.4, 0.4)))
    links = np.zeros((rods, LINK_SIZE))
    for i in range(rods):
        x -= rng.uniform(0.2, 0.5)
        z += rng.uniform(-0.03, 0.03)
        side = up if rng.random() < 0.7 else -up  # a rod that crosses reverses what follows
        up = rng.choice([-1.0, 1.0])
        links[i] = [
            rng.uniform(-0.0005, 0.0005),
            x,
            z,
            rng.uniform(0.03, 0.05),
            side * (0.5 * pi + rng.uniform(-0.4, 0.4)),
            rng.uniform(0.02, 0.04),
            up * (0.5 * pi + rng.uniform(-0.4, 0.4)),
            rng.uniform(0.0001, 0.0004),
            rng.uniform(0.0, 2e-6),
        ]
    return Chain(crank, links)


def tips(chain: Chain, turn: float) -> list[tuple[np.ndarray, np.ndarray]]:
    """The two ends of each rod, rebuilt from how far every crank has turned."""
    x, z, arm, direction = chain.crank
    pivot, out_arm, out_direction, turned = np.array([x, z]), arm, direction, -turn
    ends = []
    for i, link in enumerate(chain.links):
        start = pivot + out_arm * np.array([cos(out_direction + turned), sin(out_direction + turned)])
        turned = chain.at(turn, i + 1).turn
        pivot = link[1:3]
        end = pivot + link[3] * np.array([cos(link[4] + turned), sin(link[4] + turned)])
        ends.append((start, end))
        out_arm, out_direction = link[5], link[6]
    return ends


@pytest.mark.parametrize("rods", RODS)
def test_rods_keep_their_lengths(rods):
    for seed in range(6):
        chain = hand_built(rods, seed)
        free = [turn for turn in TURNS if chain.at(turn).slack > 1e-5]
        assert len(free) > 40
        for turn in free:
            for (start, end), drawn in zip(tips(chain, turn), chain.drawn, strict=True):
                assert np.hypot(*(start - end)) == pytest.approx(drawn[9], abs=1e-12)


@pytest.mark.parametrize("rods", RODS)
def test_as_drawn_nothing_has_turned(rods):
    chain = hand_built(rods)
    chain.links[:, 0] = 0.0
    assert Chain(chain.crank, chain.links).at(0.0).turn == pytest.approx(0.0, abs=1e-13)


@pytest.mark.parametrize("rods", RODS)
def test_gearing_is_the_slope_of_the_curve(rods):
    step = 1e-6
    for seed in range(6):
        chain = hand_built(rods, seed)
        for turn in TURNS[::7]:
            here = chain.at(turn)
            if here.slack < 1e-3:
                continue
            slope = (chain.at(turn + step).turn - chain.at(turn - step).turn) / (2.0 * step)
            assert here.gearing == pytest.approx(slope, rel=1e-6, abs=1e-8)


@pytest.mark.parametrize("rods", RODS)
def test_play_and_give_are_what_longer_rods_do(rods):
    """Play: each rod's play times what a millimetre of that rod does. Give: stretch times that squared, since
    the force in a rod is the moment at the end times the same ratio (virtual work)."""
    step = 1e-8
    for seed in range(6):
        chain = hand_built(rods, seed)
        for turn in TURNS[::20]:
            here = chain.at(turn)
            if here.slack < 1e-3:
                continue
            per_metre = [
                (chain.longer(rod, step).at(turn).turn - chain.longer(rod, -step).at(turn).turn)
                / (2.0 * step)
                for rod in range(rods)
            ]
            play = sum(abs(ratio) * link[7] for ratio, link in zip(per_metre, chain.links, strict=True))
            give = sum(ratio**2 * link[8] for ratio, link in zip(per_metre, chain.links, strict=True))
            assert here.play == pytest.approx(play, rel=1e-5)
            assert here.give == pytest.approx(give, rel=1e-5)


@pytest.mark.parametrize("rods", RODS)
def test_transmission_is_the_least_angle_between_rod_and_driven_arm(rods):
    chain = hand_built(rods, 3)
    for turn in TURNS[::10]:
        if chain.at(turn).slack < 1e-5:
            continue
        least = pi
        for (start, end), link in zip(tips(chain, turn), chain.links, strict=True):
            rod, arm = start - end, end - link[1:3]
            sine = abs(rod[0] * arm[1] - rod[1] * arm[0]) / np.hypot(*rod) / np.hypot(*arm)
            least = min(least, np.arcsin(min(sine, 1.0)))
        assert chain.at(turn).transmission == pytest.approx(least, abs=1e-9)


def test_the_curve_has_no_jump_and_no_other_branch():
    """A degree of wand never turns the end by more than its gearing at either end allows."""
    for rods in RODS:
        for seed in range(6):
            chain = hand_built(rods, seed)
            along = [chain.at(turn) for turn in TURNS]
            for a, b in pairwise(along):
                if min(a.slack, b.slack) > 0.02:
                    steepest = 2.0 * max(abs(a.gearing), abs(b.gearing)) + 0.02
                    assert abs(b.turn - a.turn) < steepest * radians(1.0)


def test_no_rods_at_all_hands_the_wand_through():
    turned = turn_chain(np.zeros((0, DRAWN_SIZE)), np.zeros((0, LINK_SIZE)), 0.3)
    assert (turned.turn, turned.gearing, turned.play) == (-0.3, -1.0, 0.0)


def test_a_locked_chain_says_so_with_its_wand_angle_and_is_never_nan(marram: ReadyBoat):
    """A lever arm of 12 mm cannot follow a wand crank of 17.5 mm all the way."""
    row = changed(marram, {"links.0.in_arm": 0.012 - 0.040})
    angles = np.radians(np.arange(-60.0, 150.0, 0.5))
    points = chain_at(row, marram.tables, angles)
    for point in points:
        assert all(isfinite(value) for value in (point.foil, point.gearing, point.slop))
        assert point.transmission is not None and isfinite(point.transmission)
    locks = locks_at(row, marram.tables)
    assert len(locks) == 2
    forward, aft = locks
    assert forward < radians(45.0) < aft
    boat = unpacked(row)
    for lock, outward in ((forward, -1.0), (aft, 1.0)):
        inside = lock - outward * radians(0.01) - boat.chain.wand_at_drawing
        outside = lock + outward * radians(0.01) - boat.chain.wand_at_drawing
        assert turn_chain(boat.drawn, boat.links, inside).slack > 0.0
        assert turn_chain(boat.drawn, boat.links, outside).slack < 0.0
    # Locked exactly where the rod's ends can come no nearer or no farther: 12 mm + rod or 12 mm - rod.
    chain = Chain((3.45, 0.32, 0.0175, -0.5 * pi), np.array(boat.links[:1]))
    start, _ = tips(chain, aft - radians(45.0))[0]
    reach = np.hypot(*(start - chain.links[0, 1:3]))
    rod = chain.drawn[0, 9]
    assert min(abs(reach - (rod + 0.012)), abs(reach - (rod - 0.012))) < 1e-6


def test_a_rod_far_too_short_locks_everywhere_without_nan(marram: ReadyBoat):
    row = changed(marram, {"links.1.rod_longer": -0.5})
    for point in chain_at(row, marram.tables, np.radians([0.0, 45.0, 82.0])):
        assert point.locked
        assert isfinite(point.foil) and isfinite(point.gearing) and isfinite(point.slop)


def test_measured_curve_agrees_with_the_cranks_it_was_measured_on(boats: dict[str, ReadyBoat]):
    """Within 0.05 degrees (with its readings rounded to 0.01) at every wand angle and rod setting
    measured.
    """
    cranks, curve = boats["marram"], boats["marram-curve"]
    wand = np.radians(np.arange(5.0, 80.1, 2.5))
    for turns in (-3.0, -1.5, 0.0, 1.0, 3.0):
        row = changed(cranks, {"links.1.rod_longer": 0.001 * turns})
        foils = [point.foil for point in chain_at(row, cranks.tables, wand)]
        like = changed(curve, {"chain.curve_position": turns})
        for foil, point in zip(foils, chain_at(like, curve.tables, wand), strict=True):
            assert degrees(abs(foil - point.foil)) < 0.05


def test_curve_table_goes_through_its_readings():
    wand = np.radians([5.0, 25.0, 45.0, 65.0, 80.0])
    foils = [np.radians([-9.0, -3.5, 2.5, 8.5, 12.5]) + radians(shift) for shift in (-3.0, 0.0, 3.1)]
    table = curve_table((-3.0, 0.0, 3.0), [(wand, foil) for foil in foils])
    for position, foil in zip((-3.0, 0.0, 3.0), foils, strict=True):
        for at, angle in zip(wand, foil, strict=True):
            read, gearing = read_curve(plain(table), float(at), position)
            assert degrees(abs(read - angle)) < 0.01
            step = 1e-6
            ahead = read_curve(plain(table), float(at) + step, position)[0]
            behind = read_curve(plain(table), float(at) - step, position)[0]
            assert gearing == pytest.approx((ahead - behind) / (2.0 * step), abs=1e-5)
