"""The choice under spread: common samples, search against enumeration, suggestions that keep their names."""

from __future__ import annotations

from math import radians

import numpy as np
import pytest

from foilwright.documents.boat_file import boat_from_text
from foilwright.documents.boat_numbers import ReadyBoat, ready
from foilwright.documents.day_words import advice_words
from foilwright.documents.examples import example
from foilwright.documents.sailor import Sailor
from foilwright.jobs.aboard import row_with_crew
from foilwright.jobs.day_cards import first_measured
from foilwright.setup import choose_in_wind as module
from foilwright.setup.choose_in_wind import (
    CHANGE,
    CHANGE_NOTHING,
    EASIEST,
    FASTEST,
    MEASURE_FIRST,
    STEADIEST,
    ChoiceInWind,
    choose_in_wind,
    confidence,
    sure_words,
)
from foilwright.setup.goals import goal_for
from foilwright.setup.over_samples import Ground, Seen, Setting, ground_of, seen
from foilwright.setup.sailor_hand import hand_of
from foilwright.setup.samples import Occasion, Samples, drawn
from foilwright.setup.search_in_wind import changed, enumerated, searched
from foilwright.setup.standing import Standing
from foilwright.water.properties import Water

pytestmark = pytest.mark.usefixtures("compiled_physics")
OCCASIONS = [
    Occasion(wind, radians(90.0), speed, radians(heel), 1.0)
    for wind, speed, heel in (
        (5.0, 5.0, -4.0),
        (5.5, 5.5, -6.0),
        (6.0, 6.2, -8.0),
        (6.5, 7.0, -8.0),
        (7.0, 8.0, -8.0),
    )
]
MASSES = {"marram": 75.0, "pipkin": 48.0, "sedge": 145.0}


def ground(boat: ReadyBoat, fresh: Water, stage: str = "improving") -> Ground:
    sailor = Sailor(mass_band_kg=[MASSES[boat.name.lower()]])
    standing = Standing(row_with_crew(boat, {}, [sailor]), boat.tables, fresh, boat.adjusters, boat.present)
    samples = drawn(OCCASIONS, hand_of(stage), boat.names, boat.bands, 1)
    found = ground_of(standing, goal_for(stage, boat.form), samples, 4.5)
    assert found is not None
    return found


def the_three(choice: ChoiceInWind) -> list[tuple[str, tuple[float, ...]]]:
    return [(one.name, one.seen.setting) for one in choice.suggested]


def test_samples_are_the_same_every_time_and_keep_the_days_shares(marram: ReadyBoat) -> None:
    one, other = (drawn(OCCASIONS, hand_of("improving"), marram.names, marram.bands, 7) for _ in range(2))
    for a, b in zip(one, other, strict=True):
        assert np.array_equal(a, b)
    assert one.speeds.tolist() == sorted(one.speeds)
    assert set(one.speeds) == {occasion.speed for occasion in OCCASIONS}
    assert not one.doubts[0].any(), "the first boat is the boat as its file has it"
    assert abs(float(one.places.mean())) < 1e-12
    again = drawn(OCCASIONS, hand_of("improving"), marram.names, marram.bands, 8)
    assert not np.array_equal(one.doubts, again.doubts)


def test_an_occasion_of_no_weight_is_never_drawn(marram: ReadyBoat) -> None:
    weighted = [one._replace(weight=0.0 if one.speed < 6.0 else 1.0) for one in OCCASIONS]
    samples: Samples = drawn(weighted, hand_of("settled"), marram.names, {}, 1)
    assert samples.speeds.min() >= 6.0


@pytest.mark.parametrize(
    ("name", "movable"),
    [
        ("marram", ("main-rod", "wand-length")),
        ("marram", ("rudder-rake", "sailor-aft", "gearing")),
        ("pipkin", ("wand-length", "sailor-aft")),
        ("sedge", ("main-rod", "rudder-rake")),
    ],
)
def test_the_search_finds_the_same_best_three_as_enumeration(
    boats: dict[str, ReadyBoat], fresh: Water, name: str, movable: tuple[str, ...]
) -> None:
    on = ground(boats[name], fresh)
    keep = dict.fromkeys(movable, 3) if len(movable) == 3 else {}
    if keep:  # a case of at most 300 settings
        short = tuple(
            a if a.name not in keep else type(a)(a.name, a.numbers, *_middle(a.steps, a.amounts))
            for a in on.standing.adjusters
        )
        on = on._replace(standing=on.standing._replace(adjusters=short))
    every = choose_in_wind(on, True, movable, all_of_them=True)
    found = choose_in_wind(on, True, movable)
    assert every.possible == found.possible <= 300
    assert every.tried == every.possible
    assert found.tried <= every.tried
    assert the_three(found) == the_three(every)


def _middle(steps: np.ndarray, amounts: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    inside = np.abs(steps) <= 2.5
    return steps[inside], amounts[inside]


def test_suggestions_keep_their_names_and_say_what_they_give_up(
    boats: dict[str, ReadyBoat], fresh: Water
) -> None:
    for name in ("marram", "sedge"):
        moved = [a.name for a in boats[name].adjusters if a.name not in ("gearing", "wand-tension")]
        choice = choose_in_wind(ground(boats[name], fresh), True, moved)
        by_name = {one.name: one for one in choice.suggested}
        assert STEADIEST in by_name
        assert set(by_name) <= {EASIEST, STEADIEST, FASTEST}
        for one in choice.suggested:
            assert changed(one.seen.setting, choice.present.setting) <= 3
            assert one.later >= 0.0
            assert one.slower >= 0.0
        if EASIEST in by_name:
            assert by_name[EASIEST].later == 0.0
        if FASTEST in by_name:
            assert by_name[FASTEST].slower == 0.0
        assert len({one.seen.setting for one in choice.suggested}) == len(choice.suggested)


def test_a_learner_is_never_taken_higher_above_the_band_than_now(marram: ReadyBoat, fresh: Water) -> None:
    moved = [a.name for a in marram.adjusters if a.name not in ("gearing", "wand-tension")]
    choice = choose_in_wind(ground(marram, fresh, "first-hops"), True, moved)
    [steady] = [one for one in choice.suggested if one.name == STEADIEST]
    assert steady.seen.too_high <= max(choice.present.too_high, 0.0) + 0.005


def test_a_boat_that_is_set_right_is_left_alone(marram: ReadyBoat, fresh: Water) -> None:
    on = ground(marram, fresh)
    best = choose_in_wind(on, True, ["wand-length", "main-rod"])
    [steady] = [one for one in best.suggested if one.name == STEADIEST]
    settings = dict(zip(on.names, steady.seen.setting, strict=True))
    standing = on.standing._replace(settings=settings)
    again = ground_of(standing, goal_for("improving", marram.form), on.samples, 4.5)
    assert again is not None
    choice = choose_in_wind(again, True, ["wand-length", "main-rod"])
    assert choice.advice == CHANGE_NOTHING


def marram_with_main_foil_known_to(degrees: float) -> ReadyBoat:
    text = example("marram").read_text(encoding="utf-8")
    was = "incidence_deg = 1.0\nincidence_se_deg = 0.3"
    assert text.count(was) == 1
    changed_text = text.replace(was, f"incidence_deg = 1.0\nincidence_se_deg = {degrees}")
    return ready(boat_from_text(changed_text, "marram.toml"))


@pytest.mark.parametrize(("degrees", "advice"), [(2.0, MEASURE_FIRST), (0.1, CHANGE)])
def test_where_too_little_is_known_that_is_what_is_to_be_measured_first(
    fresh: Water, degrees: float, advice: str
) -> None:
    boat = marram_with_main_foil_known_to(degrees)
    on = ground(boat, fresh)
    choice = choose_in_wind(on, True, ["wand-length"])
    assert choice.advice == advice
    sentence = advice_words(choice, first_measured(boat, on.standing))
    if advice == MEASURE_FIRST:
        assert choice.gains < 0.75
        assert choice.spread > 0.25
        assert "Not enough known: measure main foil chord angle first." in sentence
        assert f"better in {100.0 * choice.gains:.0f} % of the boats this one may be" in sentence
    else:
        assert choice.gains == choice.better == 1.0
        assert choice.spread < 0.1
        assert "measure" not in sentence


def test_boats_that_neither_setting_helps_count_for_neither(marram: ReadyBoat, fresh: Water) -> None:
    [present] = seen(ground(marram, fresh), [ground(marram, fresh).present])
    before = present._replace(by_boat=np.array([0.5, 0.5, 0.0, 0.0, 0.0, 0.0, 1.0, 1.0]))
    after = before._replace(by_boat=np.array([1.0, 1.0, 0.0, 0.0, 0.0, 0.0, 1.0, 1.0]))
    better, gains, _ = confidence(after, before)
    assert (better, gains) == (1.0, 0.25)


def test_what_no_longer_takes_off_is_not_suggested_however_steady(
    marram: ReadyBoat, fresh: Water, monkeypatch: pytest.MonkeyPatch
) -> None:
    on = ground(marram, fresh)
    [present] = seen(on, [on.present])

    def made_up(_: Ground, settings: list[Setting]) -> list[Seen]:
        everywhere = present._replace(safe=1.0, by_boat=np.ones_like(present.by_boat), take_off=np.inf)
        return [(present if one == on.present else everywhere)._replace(setting=one) for one in settings]

    monkeypatch.setattr(module, "seen", made_up)
    choice = choose_in_wind(on, True, ["wand-length"])
    assert choice.advice == CHANGE_NOTHING
    assert [one.seen.setting for one in choice.suggested] == [on.present]


def test_height_and_tip_are_those_of_the_full_solution(marram: ReadyBoat, fresh: Water) -> None:
    from foilwright.flight.at_speed import fly_at
    from foilwright.setup.over_samples import states_of, tip_depths
    from foilwright.setup.standing import counted

    on = ground(marram, fresh)
    quiet = on.samples._replace(pulls=np.ones_like(on.samples.pulls), places=np.zeros_like(on.samples.places))
    on = on._replace(samples=quiet)
    setting = tuple(1.0 if name in ("main-rod", "wand-length") else 0.0 for name in on.names)
    heights, trims = states_of(on, [setting])
    tips = tip_depths(on, [setting], heights, trims)
    row = marram_row = on.standing._replace(settings=dict(zip(on.names, setting, strict=True))).present_row
    for w in (3, 6):
        speed, heel = float(quiet.speeds[w]), float(quiet.heels[w])
        state = counted(fly_at(row, marram.tables, fresh, speed, heel))
        assert state is not None
        assert state.height == pytest.approx(heights[0, w, 0], abs=1e-4)
        assert state.margins["tip_depth"] == pytest.approx(tips[0, w, 0], abs=2e-3)
    assert marram_row is row


def test_nothing_to_stand_on_where_nothing_flies(marram: ReadyBoat, fresh: Water) -> None:
    one = ground(marram, fresh)
    crowd = one.standing.row.copy()
    crowd[marram.names.index("crew.mass")] = 3000.0
    slow = one.samples._replace(speeds=np.full_like(one.samples.speeds, 1.0))
    found = ground_of(one.standing._replace(row=crowd), goal_for("improving", "narrow"), slow, None)
    assert found is None or seen(found, [found.present])[0].flies == 0.0


def test_confidence_is_a_share_and_a_word() -> None:
    assert [sure_words(share) for share in (1.0, 0.8, 0.6, 0.3)] == [
        "very likely",
        "likely",
        "perhaps",
        "not known",
    ]


def test_the_search_goes_on_until_no_neighbour_is_better() -> None:
    """A made-up hill that needs two adjusters moved together."""
    ranges = [[float(s) for s in range(-5, 6)]] * 2

    def judge(settings: list[tuple[float, ...]]) -> list[tuple[float, ...]]:
        return [(-((a - 3.0) ** 2) - 4.0 * (a - b) ** 2,) for a, b in settings]

    found = searched(ranges, (0.0, 0.0), judge)  # type: ignore[arg-type]
    every = enumerated(ranges, (0.0, 0.0), judge)  # type: ignore[arg-type]
    assert max(found, key=lambda one: found[one]) == max(every, key=lambda one: every[one]) == (3.0, 3.0)
    assert len(found) < len(every)


def test_no_worse_counts_boat_by_boat(marram: ReadyBoat, fresh: Water) -> None:
    on = ground(marram, fresh)
    [present] = seen(on, [on.present])
    assert confidence(present, present)[0] == 1.0
    worse = present._replace(by_boat=present.by_boat - 0.1)
    assert confidence(worse, present)[0] == 0.0
