"""How a boat sails in a wind, in words for a terminal."""

from foilwright.cli.show import BEYOND, NEAREST, NOBODY, settings_line, signed, table
from foilwright.documents.sail_answer import BestAnswer, NeededAnswer, SailAnswer, SailRow

HEAD = (
    "angle",
    "speed",
    "state",
    "keel",
    "bow",
    "heel",
    "leeway",
    "rudder",
    "sail",
    "hiking",
    "nearest limit",
)


def sail(answer: SailAnswer) -> str:
    """The table, the wind that is needed, the best angles."""
    lines = [
        f"{answer['boat']}, version {answer['boat_version']}",
        settings_line(answer["settings"]),
        f"Wind {answer['wind_kn']:.1f} kn at 10 m, {answer['hand_gauge_kn']:.1f} kn by a hand gauge at 2 m.",
        "",
    ]
    lines += table(HEAD, [_row(row) for row in answer["rows"]])
    lines += list(dict.fromkeys(row["sentence"] for row in answer["rows"] if row["sentence"]))
    lines += ["", _needed("Takes off from", answer["take_off_wind_kn"], "does not take off from rest")]
    lines += [_needed("Keeps flying down to", answer["keeps_flying_wind_kn"], "does not fly")]
    runs = [run for run in answer["runs"] if run["run_s"] is not None]
    if runs:
        told = ", ".join(f"{run['run_s']:.0f} s at {run['wind_angle_deg']:.0f}°" for run in runs)
        lines += [f"Run to take-off with a knot more than that: {told}."]
    lines += [_best("upwind", answer["best_upwind"]), _best("downwind", answer["best_downwind"])]
    lines += ["", NOBODY.rstrip()]
    return "\n".join(lines) + "\n"


def _row(row: SailRow) -> tuple[str, ...]:
    angle = f"{row['wind_angle_deg']:g}°"
    speed, height, trim = row["boat_speed_kn"], row["ride_height_m"], row["trim_deg"]
    heel, leeway, rudder = row["heel_deg"], row["leeway_deg"], row["rudder_deg"]
    power, hiking = row["power"], row["hiking_percent"]
    if speed is None or height is None or trim is None or heel is None or leeway is None:
        return (angle, "–", "–", "–", "–", "–", "–", "–", "–", "–", row["outcome"])
    return (
        angle,
        f"{speed:.1f} kn",
        (row["state"] or "") + ("" if row["stable"] else ", unstable"),
        signed(height, 2) + " m",
        signed(trim, 1) + "°",
        signed(heel, 0) + "°",
        signed(leeway, 1) + "°",
        signed(rudder or 0.0, 1) + "°",
        f"{power or 0.0:.2f}",
        f"{hiking or 0.0:.0f} %",
        _nearest(row) if row["outcome"] == "solved" else row["outcome"],
    )


def _nearest(row: SailRow) -> str:
    key = row["nearest_limit"]
    if key is None:
        return "–"
    value = row["margins"][key] or 0.0
    return BEYOND[key] if value <= 0.0 else NEAREST[key].format(value)


def _needed(words: str, needed: NeededAnswer, none: str) -> str:
    least, angle = needed["least"], needed["at_wind_angle_deg"]
    if least is None or angle is None:
        return f"It {none} in any wind up to 23 kn at the angles looked at."
    by_angle = ", ".join(
        f"{at}° {'–' if wind is None else f'{wind:.1f}'}" for at, wind in needed["by_wind_angle_deg"].items()
    )
    return f"{words} {least:.1f} kn of wind, at {angle:.0f}° (by angle: {by_angle})."


def _best(way: str, best: BestAnswer) -> str:
    speed, good, angle = best["boat_speed_kn"], best["made_good_kn"], best["wind_angle_deg"]
    if speed is None or good is None or angle is None:
        return f"Nothing made good {way} at these angles."
    return (
        f"Best {way}: {angle:.0f}° at {speed:.1f} kn, {best['state']}, which makes {abs(good):.1f} kn good."
    )
