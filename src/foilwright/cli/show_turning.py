"""What turning does, in words for a terminal: effects, and one adjuster in steps of another."""

from foilwright.cli.show import settings_line, signed, table
from foilwright.documents.effect_answers import ChangeAnswer, EffectRow, EffectsAnswer, SameAsAnswer

HEAD = ("speed", "one step more of", "height", "bow", "drag", "rudder lift", "take-off", "note")
CURVED = "differs from step to step"


def effects(answer: EffectsAnswer) -> str:
    """The table of effects, a block of rows a speed."""
    rows = [_effect(row) for row in answer["rows"]]
    take_off = answer["take_off_speed_kn"]
    off = "It takes off at no speed looked at." if take_off is None else f"Takes off at {take_off:.1f} kn."
    lines = [f"{answer['boat']}, version {answer['boat_version']}", settings_line(answer["settings"]), ""]
    lines += [*table(HEAD, rows), "", off]
    lines.append(
        "For one step more at the same boat speed; bow up is positive. A step of sail-pull is 10 % of drag."
    )
    return "\n".join(lines) + "\n"


def same_as(answer: SameAsAnswer) -> str:
    """So many steps of one are one step of the other, and what that leaves over."""
    first, second = answer["first"], answer["second"]
    one, other = (f"{side['adjuster']} of {side['boat']}" for side in (first, second))
    speed = f"at {answer['boat_speed_kn']:g} kn"
    height, trim = answer["ride_height_change_mm"], answer["trim_change_deg"]
    lines = []
    if height is not None and trim is not None:
        does = f"{signed(height, 0)} mm of height, bow {signed(trim, 2)}°"
        lines.append(f"One step more of {one} {speed}: {does}.")
    if answer["steps"] is None:
        lines.append(f"No steps of {other} do the same. {answer['sentence']}")
        return "\n".join(lines) + "\n"
    lines.append(f"That is {signed(answer['steps'], 1)} steps of {other}.")
    lines.append(f"Left over: {_left(answer['left_over'])}.")
    if not answer["within_range"]:
        lines.append(f"That is beyond the range of {other} from where it stands.")
    return "\n".join(lines) + "\n"


def _effect(row: EffectRow) -> tuple[str, ...]:
    speed = f"{row['boat_speed_kn']:g} kn"
    if row["outcome"] != "solved":
        return (speed, row["adjuster"], "–", "–", "–", "–", "–", row["outcome"])
    note = row["stop_met"] or ("" if row["linear"] else CURVED)
    return (
        speed,
        row["adjuster"],
        _number(row["ride_height_change_mm"], 0, " mm"),
        _number(row["trim_change_deg"], 2, "°"),
        _number(row["drag_change_n"], 1, " N"),
        _number(row["rudder_lift_change_n"], 0, " N"),
        _number(row["take_off_speed_change_kn"], 2, " kn"),
        note,
    )


def _left(change: ChangeAnswer) -> str:
    height = _number(change["ride_height_change_mm"], 0, " mm")
    trim = _number(change["trim_change_deg"], 2, "°")
    return f"{height} of height, bow {trim}"


def _number(value: float | None, decimals: int, unit: str) -> str:
    return "–" if value is None else signed(value, decimals) + unit
