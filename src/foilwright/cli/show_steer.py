"""How the boat answers its tiller, in words for a terminal: floating and flying in one table."""

from foilwright.cli.show import NOBODY, settings_line, signed, table
from foilwright.documents.steer_answer import ElasticAnswer, SteerAnswer, SteerRow

HEAD = (
    "speed",
    "state",
    "keel",
    "turns",
    "radius",
    "side push",
    "rolls",
    "sailor in",
    "heel in",
    "tiller",
    "",
)


def steer(answer: SteerAnswer) -> str:
    """The table, the elastic, what was assumed."""
    lines = [f"{answer['boat']}, version {answer['boat_version']}", settings_line(answer["settings"]), ""]
    lines += table(HEAD, [_row(row) for row in answer["rows"]])
    lines += [
        "",
        "For one degree of tiller at constant boat speed. Radius: of that turn. Rolls: outwards with heel",
        "held, for which the sailor goes in (towards the inside of the turn) by so much; or nobody moves and",
        "the boat heels in by so much. Tiller: force of the water at its end once the boat turns, back to",
        "amidships; minus where it pulls further.",
    ]
    lines += list(dict.fromkeys(row["sentence"] for row in answer["rows"] if row["sentence"]))
    lines += ["", *_elastic(answer["tiller_elastic"])]
    if answer["assumed"]:
        lines += ["", "Assumed, for want of a measurement:"]
        lines += [
            f"  {one['name']} {one['value']:g} {one['unit']} ({one['low']:g} to {one['high']:g}): "
            f"{one['source']}"
            for one in answer["assumed"]
        ]
    if answer["file"]:
        lines += ["", f"Chart: {answer['file']}"]
    lines += ["", NOBODY.rstrip()]
    return "\n".join(lines) + "\n"


def _row(row: SteerRow) -> tuple[str, ...]:
    speed = f"{row['boat_speed_kn']:g} kn"
    rate, radius, side = (
        row["yaw_rate_deg_s_per_deg"],
        row["turn_radius_m"],
        row["side_acceleration_m_s2_per_deg"],
    )
    if rate is None or radius is None or side is None:
        return (speed, row["state"] or "–", "–", "–", "–", "–", "–", "–", "–", "–", row["outcome"])
    notes = [] if row["stable"] else ["unstable"]
    notes += [] if row["holds_course"] else ["does not hold its course"]
    notes += [] if row["outcome"] == "solved" else [row["outcome"]]
    return (
        speed,
        row["state"] or "–",
        _number(row["ride_height_m"], 2, " m"),
        f"{rate:.2f}°/s",
        f"{radius:.0f} m",
        f"{side:.3f} m/s2",
        _number(_turned(row["roll_moment_n_m_per_deg"]), 0, " N m"),
        _number(_turned(row["crew_out_change_mm_per_deg"]), 0, " mm"),
        _number(row["heel_change_deg_per_deg"], 1, "°"),
        _number(row["tiller_force_n_per_deg"], 2, " N"),
        ", ".join(notes),
    )


def _elastic(elastic: ElasticAnswer) -> list[str]:
    hand, asked = elastic["hand_force_n"], elastic["keep_within_deg"]
    lines = []
    kept, pull, stretch = elastic["kept_within_deg"], elastic["pretension_n"], elastic["stretch_mm"]
    if kept is not None and pull is not None and stretch is not None:
        least, most = elastic["least_pretension_n"] or 0.0, elastic["most_pretension_n"] or 0.0
        lines += [
            f"Tiller elastic ({elastic['stage']}, {_speeds(elastic)}): one a side, each pulling {pull:.1f} N "
            f"at the tiller's end, stretched {stretch:.0f} mm.",
            f"It keeps a stray {hand:.1f} N inside {kept:.1f}°; anything from {least:.1f} to {most:.1f} N of "
            f"the same cord does ({elastic['stiffness_n_per_m']:.0f} N/m each).",
        ]
        lines += [
            f"  {one['rudder_deg']:.0f}° of tiller ({one['tiller_travel_mm']:.0f} mm): {one['pull_n']:.1f} N "
            f"(heavy above {one['most_pull_n']:.0f})"
            for one in elastic["turns"]
            if one["pull_n"] is not None
        ]
    else:
        lines.append(f"Tiller elastic ({elastic['stage']}): asked to keep {hand:.1f} N inside {asked:.1f}°.")
    return lines + ([elastic["sentence"]] if elastic["sentence"] else [])


def _speeds(elastic: ElasticAnswer) -> str:
    slow, fast = elastic["from_boat_speed_kn"], elastic["to_boat_speed_kn"]
    return f"{fast:g} kn" if slow == fast else f"{slow:g} to {fast:g} kn"


def _turned(value: float | None) -> float | None:
    return None if value is None else -value


def _number(value: float | None, decimals: int, unit: str) -> str:
    return "–" if value is None else signed(value, decimals) + unit
