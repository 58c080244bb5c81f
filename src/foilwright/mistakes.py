"""Wrong input, told so that a person can mend it: where it stood, what came, what is allowed, how to mend."""

from dataclasses import dataclass


@dataclass
class Mistake(Exception):
    """One thing wrong with what a person gave us.

    where    the file and field, or the option on the command line
    came     what stood there, as it was written
    allowed  what may stand there
    mend     what to do about it, one short sentence
    """

    where: str
    came: str
    allowed: str
    mend: str

    def __str__(self) -> str:
        return f"{self.where}: {self.came}. Allowed: {self.allowed}. {self.mend}"

    def as_json(self) -> dict[str, dict[str, str]]:
        """The one shape in which a mistake leaves the house as JSON."""
        return {"error": {"where": self.where, "came": self.came, "allowed": self.allowed, "mend": self.mend}}


@dataclass
class Mistakes(Exception):
    """Several mistakes found at once in one document; the first ones are shown first."""

    found: tuple[Mistake, ...]

    def __str__(self) -> str:
        return "\n".join(str(mistake) for mistake in self.found)

    def as_json(self) -> dict[str, object]:
        """The first mistake in the usual shape, with all of them beside it."""
        return {**self.found[0].as_json(), "all": [mistake.as_json()["error"] for mistake in self.found]}
