"""A block's sheets as a file of each kind that is read; all of them say the same."""

from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType

from bot.files.kinds import Kind
from bot.files.to_csv import to_csv
from bot.files.to_xlsx import to_xlsx
from bot.files.to_yaml import to_yaml
from core.programme.sheets import Sheet

WRITERS: Mapping[Kind, Callable[[Sequence[Sheet]], bytes]] = MappingProxyType(
    {Kind.XLSX: to_xlsx, Kind.CSV: to_csv, Kind.YAML: to_yaml}
)
"""What writes each kind."""
