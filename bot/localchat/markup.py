"""The platform's HTML: which tags it takes, and the text that is left of it."""

import html
from html.parser import HTMLParser

TAGS = frozenset(
    (
        "a",
        "b",
        "strong",
        "i",
        "em",
        "u",
        "ins",
        "s",
        "strike",
        "del",
        "span",
        "code",
        "pre",
        "blockquote",
        "tg-spoiler",
    )
)
NAMED = frozenset(("lt", "gt", "amp", "quot"))


class BadMarkup(Exception):
    """The platform would refuse this."""


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=False)
        self.text: list[str] = []
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: object) -> None:
        if tag not in TAGS:
            raise BadMarkup(f'unsupported start tag "{tag}"')
        self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: object) -> None:
        raise BadMarkup(f'unsupported start tag "{tag}"')

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            raise BadMarkup(f'unexpected end tag "{tag}"')

    def handle_data(self, data: str) -> None:
        if "<" in data:
            raise BadMarkup("unclosed start tag")
        self.text.append(data)

    def handle_entityref(self, name: str) -> None:
        self.text.append(html.unescape(f"&{name};") if name in NAMED else f"&{name};")

    def handle_charref(self, name: str) -> None:
        self.text.append(html.unescape(f"&#{name};"))


def text_of(markup: str) -> str:
    """Return the text of the platform's HTML.

    Raises:
        BadMarkup: A tag it does not take, or one that is not closed.
    """
    reader = _Reader()
    reader.feed(markup)
    reader.close()
    if reader.open:
        raise BadMarkup(f'can\'t find end tag corresponding to start tag "{reader.open[-1]}"')
    return "".join(reader.text)
