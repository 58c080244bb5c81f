"""The coach's view of a day as text: reasons, masses, everything tried. For the coach alone."""

from collections.abc import Mapping, Sequence

from foilwright.documents import coach_texts as texts
from foilwright.documents.day_answer import DayAnswer, DayCard
from foilwright.documents.day_record import DaySheet
from foilwright.setup.pairing import Pairings, Prospect, worth


def coach_text(
    day: DaySheet,
    answer: DayAnswer,
    prospects: Sequence[Prospect],
    chosen: Pairings,
    masses: Mapping[str, float],
    old: Sequence[str],
) -> str:
    """Everything behind the sheets, in the order of the boats; masses by name [kg]."""
    summary = answer["summary"]
    lines = [texts.TITLE.format(place=day.place, date=day.date), texts.PRIVATE, ""]
    lines += [*summary["wind"], summary["water"], ""]
    lines += [texts.WARNED, *(f"- {line}" for line in summary["warned"]), ""]
    lines += [f"- {line}" for line in summary["out_of_service"]]
    if old:
        lines += [texts.OLD_BANDS.format(names=", ".join(old)), ""]
    by_hand = {one.boat: one for one in day.hand_pairings}
    for prospect, card in zip(chosen.chosen, answer["cards"], strict=True):
        lines += _paired(prospect, card, masses)
        if prospect.boat in chosen.by_hand and prospect.boat in by_hand:
            hand = by_hand[prospect.boat]
            lines.append(texts.BY_HAND.format(by=hand.by, why=hand.why))
            lines += [texts.BARRED_BY_HAND.format(words=bar) for bar in prospect.bars]
        lines.append("")
    if answer["not_today"]:
        lines.append(texts.NOT_TODAY)
        lines += [f"- {one['sailor']}: {one['sentence']}" for one in answer["not_today"]]
        lines.append("")
    lines.append(texts.EVERY_PROSPECT)
    order = sorted(prospects, key=lambda one: (one.boat, -worth(one), one.people))
    for one in order:
        why = "; ".join([*(bar.rstrip(".") for bar in one.bars), *one.reasons])
        lines.append(f"- {one.boat}, {' + '.join(one.people)}: {why}.")
    tried = answer["tried"]
    lines += [
        "",
        texts.TRIED.format(**tried),
        texts.DECIDES,
    ]
    return "\n".join(lines) + "\n"


def _paired(prospect: Prospect, card: DayCard, masses: Mapping[str, float]) -> list[str]:
    aboard = ", ".join(f"{name} {masses[name]:.0f} kg" for name in prospect.people)
    lines = [texts.PAIRED.format(boat=prospect.boat, aboard=aboard, stage=card["stage"])]
    lines += [f"  {reason}." for reason in prospect.reasons]
    lines.append(f"  {card['sentence']}")
    for one in card["suggested"]:
        mark = texts.CHOSEN if one["chosen"] else ""
        lines.append(
            texts.SUGGESTED.format(
                name=one["name"],
                mark=mark,
                sentence=one["sentence"],
                gives_up=one["gives_up"],
                height=f"{one['at_height_percent']:.0f}",
            )
        )
    return lines
