"""Single marks of a drawing as SVG text. Lengths in the drawing's own units: millimetres on paper.

Black on white only: one ink, told apart by length, width and word, never by colour.
"""

from collections.abc import Sequence
from html import escape

Point = tuple[float, float]

FONT = "Atkinson Hyperlegible Next"
CHARACTER = 0.54  # mean advance of a character over the font size, on the wide side
BOLD_CHARACTER = 0.57
INK = "#000000"
FAINT = "#8c8c8c"  # things behind: rig, sailor
WASH = "#e6e6e6"  # water, hidden box


def number(value: float) -> str:
    """A coordinate, short and the same on every machine."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def points(path: Sequence[Point]) -> str:
    """A string of points."""
    return " ".join(f"{number(x)},{number(y)}" for x, y in path)


def line(path: Sequence[Point], width: float, colour: str = INK, dash: str = "") -> str:
    """An open line."""
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<polyline points="{points(path)}" fill="none" stroke="{colour}" stroke-width="{number(width)}"'
        f' stroke-linecap="round" stroke-linejoin="round"{dashes}/>'
    )


def shape(path: Sequence[Point], fill: str, width: float = 0.0, colour: str = INK) -> str:
    """A closed shape."""
    edge = f' stroke="{colour}" stroke-width="{number(width)}" stroke-linejoin="round"' if width else ""
    return f'<polygon points="{points(path)}" fill="{fill}"{edge}/>'


def circle(middle: Point, radius: float, fill: str = "none", width: float = 0.0, colour: str = INK) -> str:
    """A circle."""
    edge = f' stroke="{colour}" stroke-width="{number(width)}"' if width else ""
    place = f'cx="{number(middle[0])}" cy="{number(middle[1])}"'
    return f'<circle {place} r="{number(radius)}" fill="{fill}"{edge}/>'


def box(x: float, y: float, width: float, height: float, fill: str, edge: float = 0.0, dash: str = "") -> str:
    """An upright rectangle with its upper left corner at x, y."""
    stroke = f' stroke="{INK}" stroke-width="{number(edge)}"' if edge else ""
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    size = f'width="{number(width)}" height="{number(height)}"'
    return f'<rect x="{number(x)}" y="{number(y)}" {size} fill="{fill}"{stroke}{dashes}/>'


def text(at: Point, words: str, size: float, anchor: str = "start", bold: bool = False) -> str:
    """Words with their base line at a point."""
    weight = ' font-weight="700"' if bold else ""
    place = f'x="{number(at[0])}" y="{number(at[1])}"'
    return f'<text {place} font-size="{number(size)}" text-anchor="{anchor}"{weight}>{escape(words)}</text>'


def text_width(words: str, size: float, bold: bool = False) -> float:
    """About how wide words are, on the wide side."""
    return len(words) * size * (BOLD_CHARACTER if bold else CHARACTER)


def drawing(width: float, height: float, marks: Sequence[str], title: str, unit: str = "mm") -> str:
    """The whole drawing, of a stated size on paper, with its title for those who cannot see it."""
    size = f'width="{number(width)}{unit}" height="{number(height)}{unit}"'
    inside = "\n".join(marks)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="0 0 {number(width)} {number(height)}"'
        f' font-family="{FONT}" fill="{INK}" role="img" aria-label="{escape(title)}">\n'
        f"<title>{escape(title)}</title>\n{inside}\n</svg>\n"
    )
