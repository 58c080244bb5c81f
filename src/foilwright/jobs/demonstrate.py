"""The main job on the example day: sheets, cards and a summary, from a checkout or an installed copy."""

from pathlib import Path

from foilwright.documents.answers import as_json
from foilwright.documents.day_answer import DayAnswer, DemoAnswer
from foilwright.documents.examples import example
from foilwright.jobs.prepare_day import TWO_TO_A4, Tell, prepared_day
from foilwright.jobs.put_folder import make_folder

DAY = "days/the-evening-before.toml"


def demo(out: str | Path, tell: Tell | None = None) -> DemoAnswer:
    """Prepares the example day in the folder `out`, with cards as HTML and a summary besides."""
    from foilwright.paper.html_card import html_card
    from foilwright.paper.put_file import put_file
    from foilwright.paper.summary import summary_markdown, summary_text

    folder = make_folder(Path(out))
    day, cards = prepared_day(example(DAY), folder, tell)
    made = []
    for one, card in zip(day["cards"], cards, strict=True):
        paper = Path(str(one["file"]))
        phone = paper.with_suffix(".html")
        put_file(phone, html_card(card).encode())
        made.append((card, [paper.name, phone.name]))
    sheets = [Path(day["fleet_sheet"]).name, Path(day["pencil_slate"]).name, TWO_TO_A4]
    put_file(folder / "summary.md", summary_markdown(day, made, sheets).encode())
    put_file(folder / "summary.txt", summary_text(day, made, sheets).encode())
    # Beside the cards their names are enough, and the same whatever folder they lie in.
    put_file(folder / "summary.json", (as_json(beside(day)) + "\n").encode())
    return {"format": "foilwright/demo", "version": 1, "day": day, "summary": str(folder / "summary.md")}


def beside(day: DayAnswer) -> DayAnswer:
    """The answer with the bare names of its files."""
    names = {name: Path(day[name]).name for name in ("fleet_sheet", "pencil_slate", "coach")}
    cards = [{**card, "file": Path(str(card["file"])).name} for card in day["cards"]]
    return {**day, **names, "cards": cards}  # type: ignore[typeddict-item]
