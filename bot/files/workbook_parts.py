"""The parts of a packed workbook, counted before anything is built of them.

openpyxl makes an object of each cell, and of each cell of a merged, linked or commented range: a few bytes of such a
file would fill the memory. So elements and ranges are counted first, by the parser that openpyxl itself stands on.
"""

from xml.parsers import expat

MOST_ELEMENTS = 300_000
"""Most XML elements in all parts; a cell with a value has two or three. Our proposal."""
MOST_SPREAD = 20_000
"""Most cells in merged, linked and commented ranges together. Our proposal."""

_SPREADING = frozenset({"mergeCell", "hyperlink", "comment"})


class TooMuchError(Exception):
    """There is more in a workbook than is read."""


class TypeDeclaredError(Exception):
    """A part declares a document type, which no spreadsheet does and which may expand without end."""


class Census:
    """Counts what the parts of one workbook hold."""

    def __init__(self) -> None:
        self._elements = 0
        self._spread = 0

    def add(self, part: bytes) -> None:
        """Count one part. What is not XML, such as a picture, counts for nothing.

        Raises:
            TooMuchError: With this part the workbook is over the limits.
            TypeDeclaredError: The part declares a document type.
        """
        parser = expat.ParserCreate(namespace_separator=" ")
        parser.StartElementHandler = self._start
        parser.StartDoctypeDeclHandler = _refuse_type
        try:
            parser.Parse(part, True)
        except expat.ExpatError:
            return

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        self._elements += 1
        if name.rpartition(" ")[2] in _SPREADING:
            self._spread += _cells_in(attributes.get("ref", ""))
        if self._elements > MOST_ELEMENTS or self._spread > MOST_SPREAD:
            raise TooMuchError


def _cells_in(ref: str) -> int:
    """Return how many cells a range has; whole rows and columns are more than is read."""
    from openpyxl.utils.cell import range_boundaries

    try:
        bounds = [bound for bound in range_boundaries(ref) if bound is not None]
    except ValueError:
        return 0
    if len(bounds) < 4:
        return MOST_SPREAD + 1
    first_column, first_row, last_column, last_row = bounds
    return (last_column - first_column + 1) * (last_row - first_row + 1)


def _refuse_type(*_: object) -> None:
    raise TypeDeclaredError
