"""What is kept of boats: lists, versions, saving, undo, the trail."""

from typing import Annotated, Any

from fastapi import APIRouter, Body, Path, Request

from foilwright.jobs import keep_boats
from foilwright.jobs.explore import boat_of_text
from foilwright.jobs.measure_bench import fit_text

router = APIRouter(prefix="/boats")
Name = Annotated[str, Path(max_length=80)]
VersionNumber = Annotated[int | None, Body(ge=1, le=2**31 - 1)]
Who = Annotated[str, Body(max_length=200)]


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


@router.get("/{name}/versions")
def versions(request: Request, name: Name) -> dict[str, Any]:
    """Every version of a boat, oldest first."""
    return {"versions": keep_boats.versions_of(request.app.state.store, name)}


@router.post("/{name}/settings")
def save_settings(
    request: Request,
    name: Name,
    settings: Annotated[dict[str, float], Body(max_length=40)],
    made_from: VersionNumber = None,
    by: Who = "",
) -> dict[str, Any]:
    """Keeps where the adjusters stand as a new version of the boat."""
    changes = {f"adjusters.{adjuster}.present": steps for adjuster, steps in settings.items()}
    return dict(keep_boats.save_changes(request.app.state.store, name, made_from, changes, by))


@router.post("/{name}/measured")
def save_measured(
    request: Request,
    name: Name,
    sheet: Annotated[str, Body(max_length=200_000)],
    made_from: VersionNumber = None,
    by: Who = "",
) -> dict[str, Any]:
    """Fits the boat to a bench sheet, keeps the sheet as read and the boat as a new version."""
    store = request.app.state.store
    text, base = keep_boats.text_of(store, name, made_from)
    answer, values = fit_text(boat_of_text(text, name), sheet, "sheet.csv")
    saved = keep_boats.save_changes(store, name, base, values, by)
    keep_boats.keep_sheet(store, sheet, "sheet.csv", saved["version_id"], by)
    return {**saved, "bench": answer}


@router.post("/undo")
def undo(
    request: Request, trail_id: Annotated[int, Body(ge=1, le=2**31 - 1, embed=True)], by: Who = ""
) -> dict[str, Any]:
    """Takes one entry of the trail back."""
    return {"trail_id": keep_boats.undo_entry(request.app.state.store, trail_id, by)}
