"""YAML as plain nodes with their lines: texts, lists and maps, nothing else.

Every value stays the text that was typed: nothing makes a date of `2026-10-08`, ninety of `1:30` or a truth of `on`.
Tags, anchors and references are refused, since a few lines of them may stand for millions.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml

MOST_NODES = 60_000
"""Most texts, lists and maps in a file; a full table has two for each cell. Our proposal."""
DEEPEST = 8
"""Most lists and maps within each other; a block needs six. Our proposal."""

_Loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
_OPENING = (yaml.MappingStartEvent, yaml.SequenceStartEvent)
_CLOSING = (yaml.MappingEndEvent, yaml.SequenceEndEvent)
_EMPTY = frozenset({"", "~", "null", "Null", "NULL"})


@dataclass(slots=True)
class Text:
    """One value; `quoted` when it stands in quotation marks or as a paragraph."""

    line: int
    text: str
    quoted: bool

    @property
    def empty(self) -> bool:
        """True when nothing was written, or the word for nothing."""
        return not self.quoted and self.text in _EMPTY


@dataclass(slots=True)
class Items:
    """A list."""

    line: int
    items: list["Node"] = field(default_factory=list)


@dataclass(slots=True)
class Pairs:
    """A map: keys with their values, in the order written; a key may stand in it twice."""

    line: int
    items: list["Node"] = field(default_factory=list)

    @property
    def pairs(self) -> Iterator[tuple["Node", "Node"]]:
        """Each key with its value."""
        return zip(self.items[::2], self.items[1::2], strict=True)


Node = Text | Items | Pairs


class Unreadable(Exception):
    """The text is no YAML from `line` on."""

    def __init__(self, line: int) -> None:
        super().__init__(line)
        self.line = line


class Reference(Unreadable):
    """A tag, an anchor or a reference stands in `line`."""


class TooMuch(Exception):
    """There is more in the file than is read."""


def root_of(text: str) -> Node | None:
    """Return what a text holds; None when it is empty.

    Raises:
        Unreadable: It is no YAML, or more than one document.
        Reference: It has a tag, an anchor or a reference.
        TooMuch: It holds more than is read, or is too deep.
    """
    try:
        return _built(text)
    except yaml.MarkedYAMLError as broken:
        mark = broken.problem_mark or broken.context_mark
        raise Unreadable(mark.line + 1 if mark else 1) from None
    except yaml.YAMLError:
        raise Unreadable(1) from None


def _built(text: str) -> Node | None:
    root: Node | None = None
    open_ones: list[Items | Pairs] = []
    count = 0
    for event in yaml.parse(text, Loader=_Loader):
        if isinstance(event, _CLOSING):
            open_ones.pop()
            continue
        node = _node(event)
        if node is None:
            continue
        count += 1
        if count > MOST_NODES:
            raise TooMuch
        if open_ones:
            open_ones[-1].items.append(node)
        elif root is None:
            root = node
        else:
            raise Unreadable(node.line)
        if isinstance(node, Items | Pairs):
            open_ones.append(node)
            if len(open_ones) > DEEPEST:
                raise TooMuch
    return root


def _node(event: yaml.Event) -> Node | None:
    """Return the node that an event begins; None for one that begins none."""
    line = event.start_mark.line + 1 if event.start_mark is not None else 1
    if isinstance(event, yaml.AliasEvent):
        raise Reference(line)
    if not isinstance(event, (yaml.ScalarEvent, *_OPENING)):
        return None
    if event.anchor is not None or event.tag not in (None, "!"):
        raise Reference(line)
    if isinstance(event, yaml.ScalarEvent):
        return Text(line, event.value, quoted=event.style is not None and event.style != "")
    return Pairs(line) if isinstance(event, yaml.MappingStartEvent) else Items(line)
