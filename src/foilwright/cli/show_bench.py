"""A fitted bench sheet as text for the terminal."""

from foilwright.cli.show import table
from foilwright.documents.bench_answer import BenchAnswer, FittedNumber, FormAnswer
from foilwright.units import plain


def bench(answer: BenchAnswer) -> str:
    """What the sheet says about the boat: numbers, lines that do not fit, what it does not tell."""
    count = len(answer["outliers"])
    used = answer["readings"] - count
    lines = [
        f"{answer['boat']}, version {answer['boat_version']}: {used} of {answer['readings']} readings of "
        f"{answer['sheet']}",
        "",
    ]
    lines += table(("number", "file", "fitted", "±", "unit"), [_row(one) for one in answer["fitted"]])
    if answer["rms_deg"] is not None:
        lines += ["", f"Left over in the foil angles: {answer['rms_deg']:.2f} deg."]
    lines.append(f"Lost motion at the foil, wand at 45 deg: {answer['slop_deg']:.1f} deg.")
    if answer["outliers"]:
        lines += ["", "Lines that do not fit:", *(f"  {one['sentence']}" for one in answer["outliers"])]
    if answer["not_learned"]:
        lines += ["", f"Not learned from this sheet: {', '.join(answer['not_learned'])}."]
    for pair in answer["together"]:
        lines.append(f"Known only together: {' and '.join(pair['names'])}.")
    if answer["warnings"]:
        lines += ["", *answer["warnings"]]
    if answer["file"] is not None:
        lines += [
            "",
            f"Written: {answer['file']}, version {answer['new_version']}. The sheet stays as it is.",
        ]
    lines += ["", "A measured boat is not a tested boat: do the swing check before launching."]
    return "\n".join(lines) + "\n"


def form(answer: FormAnswer) -> str:
    """Where the empty sheet lies."""
    return f"Empty bench sheet of {answer['boat']}, {answer['readings']} readings: {answer['file']}\n"


def _row(one: FittedNumber) -> tuple[str, ...]:
    return (
        one["name"],
        plain(one["before"], 5),
        plain(one["after"], 5),
        plain(one["standard_error"], 2),
        one["unit"],
    )
