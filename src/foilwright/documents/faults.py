"""What is wrong with a document, said so that a person can mend it."""

from difflib import get_close_matches
from math import degrees
from typing import Any, NamedTuple, get_args

from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo

from foilwright.documents.measured import Part
from foilwright.mistakes import Mistake
from foilwright.units import ending_of, plain

SLIPS = {
    "length": ((0.001, "millimetres"), (0.01, "centimetres"), (0.0254, "inches"), (0.3048, "feet")),
    "area": ((1e-4, "square centimetres"), (1e-6, "square millimetres")),
    "mass": ((0.001, "grams"), (0.4536, "pounds")),
}


class Fault(NamedTuple):
    """One fault as the check of a document found it."""

    kind: str
    loc: tuple[int | str, ...]
    came: Any
    context: dict[str, Any]
    message: str

    @property
    def name(self) -> str:
        """The last name of its place."""
        return str(self.loc[-1]) if self.loc else ""


def mistakes_in(error: ValidationError, model: type[BaseModel], data: Any, file: str) -> list[Mistake]:
    """One Mistake for every fault that the check of a document found, in its order.

    A misspelt name also leaves the right one missing; that is one fault, told once.
    """
    faults = [
        Fault(e.get("ctx", {}).get("type", e["type"]), e["loc"], e["input"], e.get("ctx", {}), e["msg"])
        for e in error.errors(include_url=False)
    ]
    meant = {
        (*fault.loc[:-1], suggestion(fault.name, field_at(model, fault.loc)[0]))
        for fault in faults
        if fault.kind == "extra_forbidden"
    }
    return [
        _mistake(model, data, file, fault)
        for fault in faults
        if not (fault.kind == "missing" and fault.loc in meant)
        and not (fault.kind == "error_alone" and (*fault.loc[:-1], fault.context.get("name")) in meant)
    ]


def _mistake(model: type[BaseModel], data: Any, file: str, fault: Fault) -> Mistake:
    kind, loc, came, context, message = fault
    where = f"{file}: {path_of(loc, data)}"
    parent, field = field_at(model, loc)
    name = fault.name
    if kind == "extra_forbidden":
        return _unknown(where, name, came, parent)
    if kind == "missing":
        return Mistake(where, "missing", _allowed(field, name), f"Add it: {_meaning(field)}.")
    if kind == "error_alone":
        of = context.get("name", name)
        return Mistake(
            where,
            f"{shown(came)}, with no {of} beside it",
            f"a standard error only beside its {of}",
            f"Give {of} too, or take this out.",
        )
    if kind == "error_value":
        return Mistake(
            where,
            shown(came),
            "a standard error: a number, 0 or more",
            "Write how far off the reading may be.",
        )
    if kind in ("greater_than_equal", "less_than_equal") and field is not None:
        return Mistake(where, shown(came), _allowed(field, name), _slip(field, name, float(came)))
    if kind == "string_pattern_mismatch":
        return Mistake(where, shown(came), "lower-case letters, digits and hyphens", "For example main-rod.")
    if kind == "literal_error":
        words = [str(word) for word in _literals(field)]
        near = get_close_matches(str(came).lower(), words, n=1, cutoff=0.5)
        return Mistake(
            where,
            shown(came),
            " or ".join(words),
            f"Did you mean {near[0]}?" if near else "Use one of these.",
        )
    if kind in ("float_type", "int_type", "float_parsing") and isinstance(came, str):
        return Mistake(
            where, shown(came), _allowed(field, name), "Write the number without quotation marks and unit."
        )
    if kind == "finite_number":
        return Mistake(where, shown(came), _allowed(field, name), "Write a number.")
    if kind in ("model_type", "dict_type", "model_attributes_type"):
        return Mistake(
            where, shown(came), f"a table: [{name}] with fields under it", f"Write [{name}] and its fields."
        )
    if kind == "list_type":
        return Mistake(
            where, shown(came), "a list", f"Write [[{path_of(loc, data)}]] above each entry, or [..., ...]."
        )
    return Mistake(where, shown(came), _allowed(field, name), f"{message}.")


def suggestion(name: str, parent: type[BaseModel] | None) -> str | None:
    """The field that was probably meant: the same in another unit, or spelt alike."""
    if parent is None:
        return None
    known = list(parent.model_fields)
    unit = ending_of(name)
    if unit is not None:
        stem = name.removesuffix(unit.ending)
        for field in known:
            other = ending_of(field)
            if other is not None and field.removesuffix(other.ending) == stem and other.kind == unit.kind:
                return field
    twins = list(parent.twins()) if issubclass(parent, Part) else []
    return next(iter(get_close_matches(name, known + twins, n=1, cutoff=0.6)), None)


def _unknown(where: str, name: str, came: Any, parent: type[BaseModel] | None) -> Mistake:
    known = list(parent.model_fields) if parent is not None else []
    like = suggestion(name, parent)
    mend = f"Did you mean {like}?" if like else "Take it out, or write it as a comment after #."
    unit, target = ending_of(name), ending_of(like or "")
    is_number = isinstance(came, int | float) and not isinstance(came, bool)
    if is_number and unit is not None and target is not None and unit != target and unit.kind == target.kind:
        mend = f"Did you mean {like} = {plain(float(came) * unit.in_si / target.in_si)}?"
    nearest = known if len(known) <= 20 else [*get_close_matches(name, known, n=6, cutoff=0.0), "..."]
    return Mistake(where, "there is no such field", ", ".join(nearest), mend)


def shown(value: Any) -> str:
    """What came, short enough for a sentence."""
    if isinstance(value, float | int) and not isinstance(value, bool):
        return plain(float(value), 8)
    text = (
        str(value).lower()
        if isinstance(value, bool)
        else f'"{value}"'
        if isinstance(value, str)
        else str(value)
    )
    return text if len(text) <= 60 else text[:57] + "..."


def path_of(loc: tuple[int | str, ...], data: Any) -> str:
    """The path of a place in a document; entries of lists by their name, else counted from 1."""
    path = ""
    for step in loc:
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            data = None
        if isinstance(step, int):
            named = data.get("name") if isinstance(data, dict) else None
            path += f".{named}" if isinstance(named, str) else f"[{step + 1}]"
        else:
            path += f".{step}" if path else step
    return path or "whole file"


def field_at(
    model: type[BaseModel], loc: tuple[int | str, ...]
) -> tuple[type[BaseModel] | None, FieldInfo | None]:
    """The model that holds the last name of a place, and the field there; nothing where there is none."""
    parent: type[BaseModel] | None = model
    field: FieldInfo | None = None
    for i, step in enumerate(loc):
        if isinstance(step, int):
            continue
        if parent is None:
            return None, None
        field = parent.model_fields.get(step)
        if i < len(loc) - 1:
            parent = _model_in(field.annotation) if field is not None else None
    return parent, field


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for arg in get_args(annotation) if (found := _model_in(arg)) is not None), None)


def _literals(field: FieldInfo | None) -> list[Any]:
    def flat(annotation: Any) -> list[Any]:
        args = get_args(annotation)
        return [x for arg in args for x in (flat(arg) or ([arg] if isinstance(arg, str) else []))]

    return flat(field.annotation) if field is not None else []


def limits(field: FieldInfo) -> tuple[float | None, float | None]:
    """The credible range of a field, in its own unit."""
    low = next((m.ge for m in field.metadata if hasattr(m, "ge")), None)
    high = next((m.le for m in field.metadata if hasattr(m, "le")), None)
    return low, high


def _unit_words(name: str) -> str:
    unit = ending_of(name)
    return f" {unit.symbol}" if unit is not None else ""


def _meaning(field: FieldInfo | None) -> str:
    return (
        (field.description or "see the reference of the boat file") if field is not None else "it is needed"
    )


def _allowed(field: FieldInfo | None, name: str) -> str:
    if field is None:
        return "see the reference of this document"
    low, high = limits(field)
    if low is None or high is None:
        words = _literals(field)
        return " or ".join(map(str, words)) if words else _meaning(field)
    return f"{plain(low)} to {plain(high)}{_unit_words(name)}"


def _slip(field: FieldInfo, name: str, came: float) -> str:
    """The likely slip behind a value outside the credible range: another unit, a sign."""
    low, high = limits(field)
    unit = ending_of(name)
    if low is None or high is None or unit is None:
        return f"Measure again: {_meaning(field)}."
    if unit.ending == "mm" and low <= came * 1000 <= high and came != 0:
        return f"That looks like metres; did you mean {plain(came * 1000)} mm?"
    for factor, words in SLIPS.get(unit.kind, ()) if unit.ending != "mm" else ():
        if low <= came * factor <= high and came != 0:
            return f"That looks like {words}; did you mean {plain(came * factor, 4)} {unit.symbol}?"
    if unit.kind == "angle" and 0 < abs(came) < 6.3 and low <= degrees(came) <= high:
        return f"That looks like radians; did you mean {plain(degrees(came), 4)} deg?"
    if came < 0 <= low and low <= -came <= high:
        return f"It cannot be negative; did you mean {plain(-came)} {unit.symbol}?"
    return f"Measure again: {_meaning(field)}."
