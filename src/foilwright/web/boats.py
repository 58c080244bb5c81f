"""What is kept of boats: lists, versions, saving, undo, the trail."""

from typing import Annotated, Any

from fastapi import APIRouter, Body, Path, Query, Request
from pydantic import Field

from foilwright.jobs import keep_boats
from foilwright.jobs.compare_versions import compare_versions
from foilwright.jobs.explore import boat_of_text
from foilwright.jobs.measure_bench import fit_text
from foilwright.web.fields import LARGEST, NO_TRUTH, Number, Version, Words

router = APIRouter(prefix="/boats")
Name = Annotated[Words, Path(max_length=80)]
MadeFrom = Annotated[Version, Body(description="the version changed; 0: the example")]
Entry = Annotated[int, Field(ge=1, le=LARGEST), NO_TRUTH]
Who = Annotated[Words, Body(max_length=200)]
AVersion = Annotated[int, Query(ge=1, le=2**31 - 1)]


@router.get("")
def boats(request: Request) -> dict[str, Any]:
    """Every boat at hand, with the versions of it that stand side by side."""
    return {
        "boats": [
            {
                "name": one.name,
                "example": one.example,
                "versions": [keep_boats.version_answer(version) for version in one.versions],
            }
            for one in keep_boats.boats_at_hand(request.app.state.store)
        ]
    }


@router.get("/trail")
def trail(request: Request) -> dict[str, Any]:
    """The newest entries of the trail."""
    return {"entries": list(keep_boats.trail_of(request.app.state.store))}


@router.get("/{name:path}/versions")
def versions(request: Request, name: Name) -> dict[str, Any]:
    """Every version of a boat, oldest first."""
    return {"versions": keep_boats.versions_of(request.app.state.store, name)}


@router.get("/{name:path}/compared")
def compared(request: Request, name: Name, first: AVersion, second: AVersion) -> dict[str, Any]:
    """Two versions of a boat side by side: all in which they differ."""
    return dict(compare_versions(request.app.state.store, name, first, second))


@router.post("/{name:path}/settings")
def save_settings(
    request: Request,
    name: Name,
    settings: Annotated[dict[str, Number], Body(min_length=1, max_length=40)],
    made_from: MadeFrom,
    by: Who = "",
) -> dict[str, Any]:
    """Keeps where the adjusters stand as a new version of the boat."""
    return dict(keep_boats.save_settings(request.app.state.store, name, made_from, settings, by))


@router.post("/{name:path}/measured")
def save_measured(
    request: Request,
    name: Name,
    sheet: Annotated[Words, Body(max_length=200_000)],
    made_from: MadeFrom,
    by: Who = "",
) -> dict[str, Any]:
    """Fits the boat to a bench sheet, keeps the sheet as read and the boat as a new version."""
    store = request.app.state.store
    text, _ = keep_boats.text_of(store, name, made_from)
    answer, values = fit_text(boat_of_text(text, name), sheet, "sheet.csv")
    saved = keep_boats.save_measured(store, name, made_from, values, sheet, "sheet.csv", by)
    return {**saved, "bench": answer}


@router.post("/undo")
def undo(request: Request, trail_id: Annotated[Entry, Body(embed=True)], by: Who = "") -> dict[str, Any]:
    """Takes one entry of the trail back."""
    return {"trail_id": keep_boats.undo_entry(request.app.state.store, trail_id, by)}
