"""Makes the platform's HTML safe to put into a page: an allow-list of tags, everything else as text."""

from html import escape
from html.parser import HTMLParser

ALLOWED = {
    "b": "b",
    "strong": "strong",
    "i": "i",
    "em": "em",
    "u": "u",
    "ins": "u",
    "s": "s",
    "strike": "s",
    "del": "s",
    "code": "code",
    "pre": "pre",
    "blockquote": "blockquote",
    "a": "a",
}
"""Tag that the page gets by the tag that the platform takes."""

SCHEMES = ("https://", "http://")


class _Cleaner(HTMLParser):
    """Writes what is allowed anew, closed in order; attributes go, but for the address of a link."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.written: list[str] = []
        self._open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Write a tag that is allowed."""
        name = ALLOWED.get(tag)
        if name is None:
            return
        href = dict(attrs).get("href") or ""
        if name == "a" and not href.lower().startswith(SCHEMES):
            return
        self._open.append(name)
        self.written.append(f'<a href="{escape(href)}">' if name == "a" else f"<{name}>")

    def handle_endtag(self, tag: str) -> None:
        """Close what is open down to a tag; one that was not opened is passed over."""
        name = ALLOWED.get(tag)
        if name not in self._open:
            return
        while self._open:
            closed = self._open.pop()
            self.written.append(f"</{closed}>")
            if closed == name:
                return

    def handle_data(self, data: str) -> None:
        """Write text."""
        self.written.append(escape(data, quote=False))

    def rest(self) -> str:
        """Close what is left open, and return all of it."""
        self.close()
        self.written += [f"</{name}>" for name in reversed(self._open)]
        return "".join(self.written)


def clean(markup: str) -> str:
    """Return HTML of the bot with allowed tags alone; newlines stay."""
    cleaner = _Cleaner()
    cleaner.feed(markup)
    return cleaner.rest()
