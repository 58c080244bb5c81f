"""A prepared day in words for a terminal, and how far it is while it is being prepared."""

from pathlib import Path
from typing import TextIO

from foilwright.documents.day_answer import DayAnswer, DayCard, DemoAnswer
from foilwright.jobs.prepare_day import Progress

WARNED = "Exceeded or unknown:"
DECIDES = "Nothing here permits anything: the centre's procedures and the people in charge decide."
NOBODY = "Nobody is proposed for a boat in this wind."


class Told:
    """Progress on a terminal: one line that is written over, or a line a step where it is no terminal."""

    def __init__(self, stream: TextIO) -> None:
        self.stream = stream
        self.over = stream.isatty()
        self.longest = 0
        self.last = ""

    def __call__(self, progress: Progress) -> None:
        """Tell it."""
        left = "" if progress.left is None else f", about {progress.left:.0f} s left"
        words = f"{progress.done + 1} of {progress.of}: {progress.what}{left}"
        if self.over:
            self.longest = max(self.longest, len(words))
            last = progress.done + 1 >= progress.of
            self.stream.write(f"\r{words:<{self.longest}}" + ("\n" if last else ""))
        elif progress.done % 5 == 0 and words != self.last:
            self.stream.write(f"{words}\n")
            self.last = words
        self.stream.flush()


def day(answer: DayAnswer) -> str:
    """The day in words: who sails what, who does not and what would change it, and where the sheets are."""
    summary = answer["summary"]
    lines = [f"{summary['place']}, {summary['date']}", *summary["wind"], summary["water"], ""]
    lines += [line for card in answer["cards"] for line in _card(card)] or [NOBODY]
    lines += ["", *(f"{one['sailor']}: {one['sentence']}" for one in answer["not_today"])]
    if summary["changed"]:
        lines += ["", "Changed since the sheet before: " + "; ".join(summary["changed"]) + "."]
    lines += ["", *summary["out_of_service"], WARNED, *(f"- {line}" for line in summary["warned"])]
    tried = answer["tried"]
    lines += [
        "",
        f"Tried: {tried['prospects']} crews in boats, {tried['pairings']} pairings by {tried['how']}, "
        f"{tried['settings']} settings of {tried['possible_settings']} there are.",
        f"Fleet sheet: {answer['fleet_sheet']}",
        f"Pencil slate: {answer['pencil_slate']}",
        f"For the coach alone: {answer['coach']}",
        DECIDES,
    ]
    return "\n".join(lines) + "\n"


def demo(answer: DemoAnswer, out: str) -> str:
    """The example day in short, and what lies where."""
    day = answer["day"]
    summary = day["summary"]
    lines = [f"{summary['place']}, {summary['date']}", *summary["wind"], ""]
    for card in day["cards"]:
        lines.append(
            f"{card['boat']}: {' + '.join(card['sailors'])}. Set to {', '.join(card['settings_words'])}."
        )
    lines += [f"{one['sailor']}: {one['sentence']}" for one in day["not_today"]]
    lines += ["", f"In {out}:"]
    lines += [f"  {path.name}" for path in sorted(Path(answer["summary"]).parent.iterdir()) if path.is_file()]
    lines += ["", DECIDES]
    return "\n".join(lines) + "\n"


def _card(card: DayCard) -> list[str]:
    who = " + ".join(card["sailors"])
    hand = ", set by hand" if card["by_hand"] else ""
    lines = [f"{card['boat']}: {who} ({card['stage']}{hand})"]
    lines.append(f"  set to: {', '.join(card['settings_words'])}")
    lines.append(f"  {card['sentence']}")
    for one in card["suggested"]:
        chosen = ", taken" if one["chosen"] else ""
        lines.append(f"  - {one['name']}{chosen}: {one['sentence']}; {one['gives_up']}")
    return lines
