"""Answers in words for a terminal. Plain lines, aligned, no colour: they read the same in a file."""

from collections.abc import Sequence

from foilwright.documents.answers import (
    AssumedAnswer,
    CardAnswer,
    ChainAnswer,
    CheckAnswer,
    FlyAnswer,
    FlyRow,
    SettingAnswer,
    SwingAnswer,
)
from foilwright.units import plain, to_si
from foilwright.words import shown

NEAREST = {
    "stall_deg": "a foil stalls {0:.1f}° further",
    "tip_depth_mm": "tip {0:.0f} mm from the surface",
    "ventilation_deg": "air drawn down {0:.1f}° further",
    "touchdown_mm": "hull {0:.0f} mm from the water",
    "cavitation_kn": "cavitation {0:.1f} kn faster",
    "wand_stop_deg": "wand {0:.0f}° from its stop",
    "foil_stop_deg": "foil {0:.1f}° from its stop",
    "hiking_percent": "{0:.0f} % of hiking left",
    "rudder_reversal_n": "rudder lift {0:.0f} N from changing sides",
    "wand_contact_mm": "wand follows waves of {0:.0f} mm",
}
BEYOND = {
    "stall_deg": "a foil has stalled",
    "tip_depth_mm": "a foil tip is out of the water",
    "ventilation_deg": "air may be drawn down",
    "touchdown_mm": "hull touches the water",
    "cavitation_kn": "a foil cavitates",
    "wand_stop_deg": "wand at its stop",
    "foil_stop_deg": "flap at its stop",
    "hiking_percent": "no hiking left",
    "rudder_reversal_n": "rudder lift changes sides",
    "wand_contact_mm": "wand loses the water",
}
LEAST_SHOWN_MM, MOST_SHOWN = 1.0, 12
NOBODY = "This is a computation. It gives nobody leave to sail; your centre's procedures come first.\n"


def check(answer: CheckAnswer) -> str:
    """Each file with its faults."""
    lines = []
    for one in answer["files"]:
        kind = one["kind"] or "document"
        if one["ok"]:
            lines.append(f"{one['path']}: {kind} file, no faults found.")
        else:
            count = len(one["faults"])
            lines.append(f"{one['path']}: {kind} file, {count} fault{'' if count == 1 else 's'}:")
            lines += [
                f"  {fault['where']}: {fault['came']}. Allowed: {fault['allowed']}. {fault['mend']}"
                for fault in one["faults"]
            ]
    return "\n".join(lines) + "\n"


def chain(answer: ChainAnswer) -> str:
    """The chain over the wand angle, its locks, the swing check."""
    head = ("wand", "foil", "gearing", "slop", "rod to arm", "stop")
    rows = []
    for row in answer["rows"]:
        foil, gearing, slop, transmission = (
            row["foil_deg"],
            row["gearing"],
            row["slop_deg"],
            row["transmission_deg"],
        )
        rows.append(
            (
                f"{row['wand_deg']:.0f}°",
                "–" if foil is None else signed(foil, 2) + "°",
                "–" if gearing is None else signed(gearing, 3),
                "–" if slop is None else f"{slop:.2f}°",
                "–" if transmission is None else f"{transmission:.0f}°",
                row["stop"] or ("" if row["outcome"] == "solved" else row["outcome"]),
            )
        )
    locks = answer["locks_at_deg"]
    lines = [f"{answer['boat']}, version {answer['boat_version']}", settings_line(answer["settings"]), ""]
    lines += table(head, rows)
    lines.append("")
    if locks:
        lines.append(f"The chain locks at wand {', '.join(f'{lock:.0f}°' for lock in locks)}.")
    lines.append(_swing(answer["swing_check"]))
    return "\n".join(lines) + "\n"


def fly(answer: FlyAnswer) -> str:
    """A quiet table, then take-off, then what was assumed."""
    head = ("speed", "state", "keel", "bow", "wand", "foil", "drag", "nearest limit")
    lines = [f"{answer['boat']}, version {answer['boat_version']}", settings_line(answer["settings"]), ""]
    lines += table(head, [_fly_row(row) for row in answer["rows"]])
    lines += ["", _take_off(answer["take_off_speed_kn"])]
    later = answer["take_off_later_kn"]
    if later is not None:
        lines.append(f"It may come up to {later:.1f} kn later: waves made by slow foils are not computed.")
    reasons = list(dict.fromkeys(row["sentence"] for row in answer["rows"] if row["sentence"]))
    lines += reasons
    lines += ["", *_assumed(answer["assumed"]), "", NOBODY.rstrip()]
    return "\n".join(lines) + "\n"


def card(answer: CardAnswer, text: str) -> str:
    """The card itself where it is text, otherwise where it was written."""
    if text:
        return text
    reason = f"{answer['sentence']}\n" if answer["sentence"] else ""
    why = "".join(f"{line}\n" for line in answer["reasons"])
    return f"{reason}{why}Card of {answer['boat']}, version {answer['boat_version']}: {answer['file']}\n"


# Small parts -----------------------------------------------------------------------------------------------


def _fly_row(row: FlyRow) -> tuple[str, ...]:
    speed = f"{row['boat_speed_kn']:g} kn"
    if row["state"] is None:
        return speed, row["outcome"], "–", "–", "–", "–", "–", ""
    state = row["state"] + ("" if row["stable"] else ", not stable")
    if row["outcome"] != "solved":
        state += f", {row['outcome']}"
    return (
        speed,
        state,
        f"{row['ride_height_m']:.2f} m".replace("-", "−"),
        shown("trim", to_si(row["trim_deg"] or 0.0, "deg")).removeprefix("bow "),
        f"{row['wand_deg']:.0f}°" if row["wand_touching"] else "off water",
        signed(row["foil_deg"] or 0.0, 1) + "°",
        f"{row['drag_n']:.0f} N",
        _nearest(row),
    )


def _nearest(row: FlyRow) -> str:
    key = row["nearest_limit"]
    value = row["margins"].get(key) if key else None
    if key is None or value is None:
        return ""
    return NEAREST[key].format(value) if value > 0.0 else BEYOND[key]


def _take_off(speed: float | None) -> str:
    if speed is None:
        return "No speed was found at which it takes off."
    return f"Takes off from {speed:.1f} kn of boat speed."


def _assumed(assumed: Sequence[AssumedAnswer]) -> list[str]:
    """The assumptions that matter, biggest first; the rest counted."""
    if not assumed:
        return ["Nothing was assumed: the boat file gives every number."]
    known = [one for one in assumed if one["ride_height_change_mm"] is not None]
    if not known:
        return [
            f"{len(assumed)} numbers were assumed; without a flight nobody can say their worth (see --json)."
        ]
    big = [one for one in known if abs(one["ride_height_change_mm"] or 0.0) >= LEAST_SHOWN_MM]
    big = sorted(big, key=lambda one: -abs(one["ride_height_change_mm"] or 0.0))[:MOST_SHOWN]
    speed = known[0]["boat_speed_kn"]
    lines = [f"Assumed, because the boat file does not say; what it is worth in height at {speed:g} kn:"]
    lines += table(
        ("number", "taken", "from", "to", "height"),
        [
            (
                one["name"],
                f"{plain(one['value'], 4)} {one['unit']}".strip(),
                plain(one["low"], 4),
                plain(one["high"], 4),
                f"{signed(one['ride_height_change_mm'] or 0.0, 0)} mm",
            )
            for one in big
        ],
    )
    rest = len(assumed) - len(big)
    if rest:
        lines.append(f"and {rest} more, each worth less or not known (see --json).")
    return lines


def settings_line(settings: Sequence[SettingAnswer]) -> str:
    """Where the adjusters stand, those at their marks in one word."""
    moved = [f"{one['adjuster']} {signed(one['steps'], None)}" for one in settings if one["steps"] != 0.0]
    if not moved:
        return "Every adjuster at its mark."
    return f"From the mark: {', '.join(moved)}; all others at their marks."


def _swing(swing: SwingAnswer) -> str:
    back = shown("back", to_si(swing["back_mm"], "mm"))
    forward = shown("forward", to_si(swing["forward_mm"], "mm"))
    middle = shown("middle", to_si(swing["middle_mm"], "mm"))
    held = f"wand held {swing['wand_deg']:.0f}° aft of square: {middle}"
    return f"Swing check: wand hard back: back edge {back}; wand at forward stop: {forward};\n{held}."


def signed(value: float, decimals: int | None) -> str:
    """A number with its sign; nothing has none."""
    text = f"{value:+g}" if decimals is None else f"{value:+.{decimals}f}"
    if float(text) == 0.0:
        text = text.lstrip("+-")
    return text.replace("-", "−")


def _name(path: str) -> str:
    return path.replace("\\", "/").rsplit("/", 1)[-1]


def table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """Lines with columns as wide as their widest entry; numbers to the right, words to the left."""
    every = [head, *rows]
    widths = [max(len(row[i]) for row in every) for i in range(len(head))]
    right = [all(_is_number(row[i]) for row in rows) for i in range(len(head))]
    return [
        "  ".join(
            cell.rjust(width) if to_right else cell.ljust(width)
            for cell, width, to_right in zip(row, widths, right, strict=True)
        ).rstrip()
        for row in every
    ]


def _is_number(cell: str) -> bool:
    return cell[:1] in "0123456789+−–" or cell == "off water"
