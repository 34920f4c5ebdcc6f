"""The platform's HTML: which tags and attributes it takes, the text that is left of it, and where it was marked.

After the service's own parser: no tag that it does not know, an end tag for each start tag, four named entities. One
thing is stricter: attributes that it does not know, which it passes over, are refused here.
"""

import re
from dataclasses import dataclass
from typing import Any

TYPES = {
    "b": "bold",
    "strong": "bold",
    "i": "italic",
    "em": "italic",
    "u": "underline",
    "ins": "underline",
    "s": "strikethrough",
    "strike": "strikethrough",
    "del": "strikethrough",
    "span": "spoiler",
    "tg-spoiler": "spoiler",
    "a": "text_link",
    "code": "code",
    "pre": "pre",
    "blockquote": "blockquote",
}
"""Kind of mark by tag."""

ATTRIBUTES = {"a": "href", "span": "class", "code": "class", "blockquote": "expandable"}
"""The one attribute that a tag takes."""

NAMED = {"lt": "<", "gt": ">", "amp": "&", "quot": '"'}

TAG = re.compile(r"<(/?)([^\s>]*)([^>]*)>")
ATTRIBUTE = re.compile(r"""\s+([^\s=>]+)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s"'>]+)))?""")
ENTITY = re.compile(r"&(?:#(\d{1,7})|#[xX]([0-9a-fA-F]{1,6})|([a-zA-Z]+));?")

Mark = dict[str, Any]


class BadMarkup(Exception):
    """The platform would refuse this."""


@dataclass(frozen=True, slots=True)
class Formatted:
    """A text and its marks (`MessageEntity`), whose places count UTF-16 units."""

    text: str
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True)
class _Open:
    tag: str
    at: int
    value: str


def utf16_length(text: str) -> int:
    """Return how many UTF-16 units a text has."""
    return len(text.encode("utf-16-le", "surrogatepass")) // 2


def formatted(markup: str) -> Formatted:
    """Return the text of the platform's HTML and its marks, without blanks around it.

    Raises:
        BadMarkup: A tag or attribute it does not take, one not closed, or closed in the wrong order.
    """
    text, place = "", 0
    marks: list[Mark] = []
    opened: list[_Open] = []
    while (start := markup.find("<", place)) >= 0:
        text += unescaped(markup[place:start])
        where = len(markup[:start].encode("utf-8", "surrogatepass"))
        tag = TAG.match(markup, start)
        if tag is None:
            kind = "end" if markup.startswith("</", start) else "start"
            raise BadMarkup(f"Unclosed {kind} tag at byte offset {where}")
        place = tag.end()
        if tag[1]:
            marks.append(_closed(opened, tag, utf16_length(text), where))
        else:
            name = tag[2].lower()
            opened.append(_Open(name, utf16_length(text), _value(name, tag[3], where)))
    text += unescaped(markup[place:])
    if opened:
        raise BadMarkup(f'Can\'t find end tag corresponding to start tag "{opened[-1].tag}"')
    return trimmed(text, marks)


def unescaped(text: str) -> str:
    """Return a text with the four named entities and numbers read; other names stay as they are written."""
    return ENTITY.sub(_character, text)


def trimmed(text: str, marks: list[Mark]) -> Formatted:
    """Return a text as the service keeps it: without blanks around it; marks move along, empty ones go."""
    left = utf16_length(text) - utf16_length(text.lstrip())
    text = text.strip()
    kept = []
    for mark in marks:
        begins = max(mark["offset"] - left, 0)
        ends = min(mark["offset"] + mark["length"] - left, utf16_length(text))
        if begins < ends:
            kept.append(mark | {"offset": begins, "length": ends - begins})
    kept.sort(key=lambda mark: (mark["offset"], -mark["length"], mark["type"]))
    return Formatted(text, tuple(kept))


def _character(found: "re.Match[str]") -> str:
    if found[3]:
        return NAMED.get(found[3], found[0])
    code = int(found[1]) if found[1] else int(found[2], 16)
    return chr(code) if 0 < code < 0x110000 and not 0xD800 <= code < 0xE000 else found[0]


def _value(tag: str, rest: str, where: int) -> str:
    """Return the value of a start tag's attribute, "" without one."""
    if tag not in TYPES:
        raise BadMarkup(f'Unsupported start tag "{tag}" at byte offset {where}')
    value, place = "", 0
    while rest[place:].strip():
        found = ATTRIBUTE.match(rest, place)
        if found is None:
            raise BadMarkup(f'Empty attribute name in the tag "{tag}" at byte offset {where}')
        name, place = found[1].lower(), found.end()
        values = [each for each in found.groups()[1:] if each is not None]
        if name != ATTRIBUTES.get(tag):
            raise BadMarkup(f'Attribute "{name}" of the tag "{tag}" at byte offset {where} is not taken')
        if not values and tag != "blockquote":
            raise BadMarkup(f'Expected equal sign in declaration of an attribute of the tag "{tag}"')
        value = unescaped(values[0]) if values else name
    if tag == "span" and value != "tg-spoiler":
        raise BadMarkup(f'Tag "span" must have class "tg-spoiler" at byte offset {where}')
    if tag == "code" and value and not value.startswith("language-"):
        raise BadMarkup(f'Class of the tag "code" at byte offset {where} must name a language')
    return value


def _closed(opened: list[_Open], tag: "re.Match[str]", at: int, where: int) -> Mark:
    if not opened:
        raise BadMarkup(f"Unexpected end tag at byte offset {where}")
    last, name = opened.pop(), tag[2].lower()
    if name not in ("", last.tag) or tag[3].strip():
        raise BadMarkup(
            f'Unmatched end tag at byte offset {where}, expected "</{last.tag}>", found "</{name}{tag[3]}>"'
        )
    mark: Mark = {"type": TYPES[last.tag], "offset": last.at, "length": at - last.at}
    if last.tag == "a":
        # A link to nowhere is no link: its mark is empty, and goes.
        return mark | ({"url": last.value} if last.value else {"length": 0})
    if last.tag == "blockquote" and last.value:
        return mark | {"type": "expandable_blockquote"}
    if last.tag == "code" and last.value:
        return mark | {"type": "pre", "language": last.value.removeprefix("language-")}
    return mark
