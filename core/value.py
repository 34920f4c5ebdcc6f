"""The base of every value that is stored, compared or replayed."""

from pydantic import BaseModel, ConfigDict


class Value(BaseModel):
    """An immutable value; an unknown field is refused.

    `model_dump_json()` writes fields in the order they are declared, so the same value is always the same bytes.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", ser_json_inf_nan="constants")
