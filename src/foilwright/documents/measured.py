"""What every document is made of: fields with their unit in the name, each measured one with its uncertainty.

Beside any measured number `length_m` of a part may stand its standard error `length_se_m`. One mechanism
gives every such field its twin: a part takes the twins out of what it is given before the fields are
checked, keeps them in `standard_errors`, and puts them back when it is written out or described as a
schema.
"""

from collections.abc import Mapping
from math import isfinite
from typing import Any, Self

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    GetJsonSchemaHandler,
    ModelWrapValidatorHandler,
    PrivateAttr,
    SerializerFunctionWrapHandler,
    ValidationError,
    model_serializer,
    model_validator,
)
from pydantic.fields import FieldInfo
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, InitErrorDetails, PydanticCustomError

from foilwright.units import ending_of


def measured(meaning: str, low: float, high: float) -> Any:
    """A number that must be given: what it means, and the credible range in the field's unit."""
    return Field(..., description=meaning, ge=low, le=high, json_schema_extra={"measured": True})


def measurable(meaning: str, low: float, high: float) -> Any:
    """A number that may be given; where it is not, a default by form of boat takes its place."""
    return Field(None, description=meaning, ge=low, le=high, json_schema_extra={"measured": True})


def measured_with_default(meaning: str, low: float, high: float, default: float) -> Any:
    """A number that is `default` where it is not given, without being reported as assumed."""
    return Field(default, description=meaning, ge=low, le=high, json_schema_extra={"measured": True})


def told(meaning: str, default: Any = ...) -> Any:
    """Anything else that a person tells: a word, a name, a list."""
    if isinstance(default, list):
        return Field(default_factory=list, description=meaning)
    return Field(default, description=meaning)


def twin_of(name: str) -> str:
    """The name of a field's standard error: length_m -> length_se_m, taper -> taper_se."""
    unit = ending_of(name)
    return f"{name}_se" if unit is None else f"{name.removesuffix('_' + unit.ending)}_se_{unit.ending}"


def is_measured(field: FieldInfo) -> bool:
    """Whether a field has a twin for its standard error."""
    return isinstance(field.json_schema_extra, dict) and bool(field.json_schema_extra.get("measured"))


class Part(BaseModel):
    """A table of a document. Unknown fields are refused; every measured field has its optional twin."""

    model_config = ConfigDict(extra="forbid", strict=True, allow_inf_nan=False, frozen=True, defer_build=True)

    _standard_errors: dict[str, float] = PrivateAttr(default_factory=dict)

    @property
    def standard_errors(self) -> Mapping[str, float]:
        """Standard error of every measured field that has one, by the field's name, in its unit."""
        return self._standard_errors

    @classmethod
    def twins(cls) -> dict[str, str]:
        """The twin's name -> the field's name."""
        return {twin_of(name): name for name, field in cls.model_fields.items() if is_measured(field)}

    @model_validator(mode="wrap")
    @classmethod
    def _take_twins(cls, data: Any, handler: ModelWrapValidatorHandler[Self]) -> Self:
        if not isinstance(data, dict):
            return handler(data)
        twins = cls.twins()
        rest = {key: value for key, value in data.items() if key not in twins}
        errors: dict[str, float] = {}
        faults: list[InitErrorDetails] = []
        for key in data.keys() & twins.keys():
            value, name = data[key], twins[key]
            if rest.get(name) is None:
                fault = PydanticCustomError("error_alone", "no {name} beside it", {"name": name})
            elif (
                isinstance(value, bool)
                or not isinstance(value, int | float)
                or not isfinite(value)
                or value < 0
            ):
                fault = PydanticCustomError("error_value", "not a standard error", {})
            else:
                errors[name] = float(value)
                continue
            faults.append(InitErrorDetails(type=fault, loc=(key,), input=value))
        try:
            part = handler(rest)
        except ValidationError as found:
            if not faults:
                raise
            for e in found.errors(include_url=False):
                kept = PydanticCustomError("passed_on", "{type}", {**e.get("ctx", {}), "type": e["type"]})
                faults.append(InitErrorDetails(type=kept, loc=e["loc"], input=e["input"]))
        if faults:
            raise ValidationError.from_exception_data(cls.__name__, faults)
        part._standard_errors.update(errors)
        return part

    @model_serializer(mode="wrap")
    def _put_twins_back(self, handler: SerializerFunctionWrapHandler) -> dict[str, Any]:
        written: dict[str, Any] = handler(self)
        written.update({twin_of(name): value for name, value in self._standard_errors.items()})
        return written

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        schema = handler.resolve_ref_schema(handler(core))
        fields = schema.get("properties", {})
        for twin, name in cls.twins().items():
            fields[twin] = {"type": "number", "minimum": 0, "description": f"standard error of `{name}`"}
        return schema
