"""Pairings: exact, the same every time, hand pairings kept, and reasons in words of wind and boat."""

from __future__ import annotations

import random

import pytest

from foilwright.setup import pairing
from foilwright.setup.day_wind import DayWind, evenly, share_below, wind_at
from foilwright.setup.pairing import NotToday, Prospect, not_today, pairings, worth


def prospect(people: str, boat: str, flies: float = 1.0, **more: object) -> Prospect:
    start = Prospect(tuple(people.split()), boat, flies, flies, 1.0, 0.5, 5.0, 9.0)
    return start._replace(**more)  # type: ignore[arg-type]


def a_fleet(seed: int, sailors: int, single: int, double: int) -> tuple[list[str], list[str], list[Prospect]]:
    r = random.Random(seed)
    names = [f"sailor {i}" for i in range(sailors)]
    boats = [f"boat {i}" for i in range(single)] + [f"double {i}" for i in range(double)]
    crews: list[tuple[str, tuple[str, ...]]] = [(boat, (name,)) for boat in boats[:single] for name in names]
    crews += [
        (boat, (name, other))
        for boat in boats[single:]
        for i, name in enumerate(names)
        for other in names[i + 1 :]
    ]
    made = [
        Prospect(who, boat, r.random(), r.random(), r.random(), r.random(), 5.0, 9.0) for boat, who in crews
    ]
    return names, boats, made


@pytest.mark.parametrize("seed", range(8))
def test_the_integer_programme_finds_what_enumeration_finds(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    names, boats, made = a_fleet(seed, 6, 2, 1)
    one = pairings(names, boats, made)
    monkeypatch.setattr(pairing, "MOST_ENUMERATED", 0)
    other = pairings(names, boats, made)
    assert (one.how, other.how) == ("enumeration", "integer programme")
    assert one.chosen == other.chosen
    assert one.tried > 100


def test_nobody_sits_in_two_boats_and_no_boat_is_used_twice() -> None:
    names, boats, made = a_fleet(3, 16, 6, 2)
    found = pairings(names, boats, made)
    people = [name for one in found.chosen for name in one.people]
    assert len(people) == len(set(people)) == 10
    assert len({one.boat for one in found.chosen}) == 8
    assert sorted([*people, *found.left]) == sorted(names)
    assert found == pairings(names, boats, made)


def test_a_pairing_by_hand_stands_however_poor() -> None:
    poor = prospect("Ash", "Marram", 0.0, bars=("the centre's limit",))
    good = prospect("Rowan", "Marram")
    found = pairings(["Ash", "Rowan"], ["Marram"], [poor, good], [poor])
    assert found.chosen == (poor,)
    assert found.left == ("Rowan",)
    assert found.by_hand == {"Marram"}


def test_two_aboard_count_for_two() -> None:
    pair, single = prospect("Ash Rowan", "Sedge", 0.8), prospect("Ash", "Marram")
    assert worth(pair) > worth(single)
    found = pairings(["Ash", "Rowan"], ["Marram", "Sedge"], [pair, single])
    assert found.chosen == (pair,)


def test_who_cannot_fly_or_is_barred_is_not_proposed() -> None:
    made = [prospect("Ash", "Marram", 0.1), prospect("Ash", "Pipkin", bars=("not a boat for this sailor",))]
    assert pairings(["Ash"], ["Marram", "Pipkin"], made).chosen == ()


def test_not_today_names_the_smallest_change_of_wind() -> None:
    made = [
        prospect("Ash", "Marram", 0.0, take_off=7.0),
        prospect("Ash", "Pipkin", 0.0, take_off=6.0),
        prospect("Rowan", "Marram"),
    ]
    assert not_today("Ash", made, [made[2]], 5.5) == NotToday("Ash", "more wind", "Pipkin", 0.5)
    assert not_today("Rowan", made, [], 5.5) == NotToday("Rowan", "boat taken", "Marram")
    assert not_today("Hazel", made, [], 5.5).kind == "no boat"
    strong = [prospect("Ash", "Marram", 0.0, most_wind=8.0)]
    assert not_today("Ash", strong, [], 9.0) == NotToday("Ash", "less wind", "Marram", 1.0)
    assert not_today("Ash", [prospect("Ash", "Marram", 0.0, take_off=None)], [], 9.0).kind == "other boat"


def test_the_days_wind_keeps_its_three_numbers() -> None:
    wind = DayWind(4.0, 6.0, 9.0)
    assert [wind_at(wind, share) for share in (0.1, 0.5, 0.9)] == pytest.approx([4.0, 6.0, 9.0])
    assert share_below(wind, 6.0) == pytest.approx(0.5)
    for share in (0.03, 0.3, 0.7, 0.97):
        assert share_below(wind, wind_at(wind, share)) == pytest.approx(share)
    assert evenly(wind, 5).tolist() == sorted(evenly(wind, 5))
    assert set(evenly(DayWind(6.0, 6.0, 6.0), 4)) == {6.0}
    assert wind_at(DayWind(0.0, 1.0, 8.0), 0.01) == 0.0
    assert share_below(DayWind(6.0, 6.0, 6.0), 5.9) == 0.0


def test_a_crew_that_the_boat_is_not_meant_for_counts_less() -> None:
    meant, not_meant = prospect("Ash", "Marram"), prospect("Rowan", "Marram", suits=0.2)
    assert worth(not_meant) < worth(meant)
    assert pairings(["Ash", "Rowan"], ["Marram"], [not_meant, meant]).chosen == (meant,)
