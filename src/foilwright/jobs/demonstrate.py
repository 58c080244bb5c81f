"""The main job on the demo boats: cards and a summary into a folder, from a checkout or an installed copy."""

from pathlib import Path

from foilwright.documents.answers import DemoAnswer, DemoBoat, DemoCard, as_json
from foilwright.documents.examples import example
from foilwright.documents.sailor import Sailor
from foilwright.jobs.desk import ENDINGS, Card, card, open_boat, rendered
from foilwright.mistakes import Mistake

BOATS = ("marram", "pipkin", "sedge", "marram-curve")
STAGE = "improving"
SPEEDS = "10:18:2"
SHEET = "cards-two-to-a4.pdf"
FORMS = ("paper", "html")


def demo(out: str | Path) -> DemoAnswer:
    """Makes the cards of the demo boats and the summary in the folder `out`, made where it is missing."""
    from foilwright.paper.paper_card import paper_sheet
    from foilwright.paper.put_file import put_file
    from foilwright.paper.summary import summary_markdown, summary_text

    folder = make_folder(Path(out))
    made = []
    cards: list[DemoCard] = []
    boats: list[DemoBoat] = []
    for name in BOATS:
        boat = open_boat(example(name))
        usual = boat.numbers["crew.usual_mass_kg"]
        one = card(boat, Sailor(mass_band_kg=[usual, usual]), SPEEDS, STAGE, "text")
        names = []
        for form in FORMS:
            path = folder / f"{name}-card{ENDINGS[form]}"
            put_file(path, rendered(one.card, form))
            names.append(path.name)
            cards.append({"boat": boat.name, "boat_version": boat.version, "form": form, "file": str(path)})
        made.append((one.card, names))
        boats.append(_summary(one))
    put_file(folder / SHEET, paper_sheet([one for one, _ in made]))
    answer: DemoAnswer = {"format": "foilwright/demo", "version": 1, "cards": cards, "summary": boats}
    put_file(folder / "summary.md", summary_markdown(made, SHEET).encode())
    put_file(folder / "summary.txt", summary_text(made, SHEET).encode())
    # Beside the cards their names are enough, and the same whatever folder they lie in.
    beside = {**answer, "cards": [{**one, "file": Path(one["file"]).name} for one in cards]}
    put_file(folder / "summary.json", (as_json(beside) + "\n").encode())
    return answer


def make_folder(folder: Path) -> Path:
    """The folder, made where it is missing; a Mistake where it cannot be."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as e:
        raise Mistake(
            "--out",
            f"{folder} cannot be made ({e.strerror})",
            "a folder you may write to",
            "Choose another folder.",
        ) from None
    return folder


def _summary(made: Card) -> DemoBoat:
    answer = made.answer
    return {
        "boat": answer["boat"],
        "boat_version": answer["boat_version"],
        "outcome": answer["outcome"],
        "take_off_speed_kn": answer["take_off_speed_kn"],
        "swing_check": answer["swing_check"],
        "rows": made.rows,
    }
