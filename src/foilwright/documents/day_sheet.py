"""Reading a day sheet: TOML, every fault and every contradiction in it a sentence."""

from pathlib import Path
from typing import Any

from pydantic import ValidationError

from foilwright.documents.day_checks import contradictions
from foilwright.documents.day_record import FORMAT, VERSION, DaySheet
from foilwright.documents.faults import mistakes_in
from foilwright.documents.sailor import PRIVATE
from foilwright.documents.toml_file import parsed_toml, read_text
from foilwright.mistakes import Mistake, Mistakes

__all__ = ["read_day", "day_from_text"]


def read_day(path: str | Path) -> DaySheet:
    """Reads and checks a day sheet. Raises Mistake, or Mistakes with everything that is wrong with it."""
    path = Path(path)
    return day_from_text(read_text(path), path.name)


def day_from_text(text: str, file: str) -> DaySheet:
    """A day sheet from its text."""
    data = parsed_toml(text, file)
    if data.get("format") != FORMAT or data.get("version") != VERSION:
        raise Mistake(
            f"{file}: format",
            f'format = "{data.get("format")}", version = {data.get("version")}',
            f'format = "{FORMAT}", version = {VERSION}',
            "Write both lines at the top, if this is a day sheet.",
        )
    private = _private(data, file)
    if private:
        raise Mistakes(tuple(private))
    try:
        day = DaySheet.model_validate(data)
    except ValidationError as error:
        raise Mistakes(tuple(mistakes_in(error, DaySheet, data, file))) from None
    found = contradictions(day, file)
    if found:
        raise Mistakes(tuple(found))
    return day


def _private(data: dict[str, Any], file: str) -> list[Mistake]:
    """What a day sheet must not know about a person."""
    sailors = data.get("sailors")
    return [
        Mistake(
            f"{file}: sailors.{one.get('name', number)}.{field}",
            "something about a person that the tool does not need",
            "name, file, mass_band_kg, stage, aim, boats",
            "Take it out: a first name, a band of mass and a stage are enough.",
        )
        for number, one in enumerate(sailors if isinstance(sailors, list) else (), 1)
        if isinstance(one, dict)
        for field in PRIVATE
        if field in one
    ]
