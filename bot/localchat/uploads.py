"""Files that were sent, both ways: their ids, their limits, and where they can be fetched for a while."""

import hashlib
import struct
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from bot.clock import Clock
from bot.localchat.answers import Body, Refused, UploadedFile, bad_request

LARGEST = 50 * 10**6
LARGEST_PHOTO = 10 * 10**6
LARGEST_DOWNLOAD = 20 * 2**20
LINK_LASTS = timedelta(hours=1)
SIDES = 10_000
RATIO = 20
PNG = b"\x89PNG\r\n\x1a\n"
PICTURES = (PNG, b"\xff\xd8\xff", b"GIF8", b"RIFF")
"""How a PNG, a JPEG, a GIF and a WebP begin."""

UNKNOWN_SIDES = (90, 90)


@dataclass(frozen=True, slots=True)
class KeptFile:
    """A file that the service keeps.

    Attributes:
        kind: The service's word: "photo", "video_note" and so on; a file can be sent again only as what it is.
        name: What its sender calls it.
        content: Its bytes.
    """

    kind: str
    name: str
    content: bytes

    @property
    def file_id(self) -> str:
        """Id by content, so that the order of files never shows."""
        return f"{self.kind}-{hashlib.sha256(self.name.encode() + self.content).hexdigest()[:24]}"

    def sides(self) -> tuple[int, int]:
        """Return width and height of a PNG; of other pictures a stand-in. [px]"""
        if self.content.startswith(PNG) and len(self.content) >= 24:
            width, height = struct.unpack(">II", self.content[16:24])
            return int(width), int(height)
        return UNKNOWN_SIDES


@dataclass
class Uploads:
    """Every file of a network."""

    clock: Clock
    _kept: dict[str, KeptFile] = field(default_factory=dict)
    _links: dict[str, tuple[str, datetime]] = field(default_factory=dict)

    def keep(self, kind: str, name: str, content: bytes) -> KeptFile:
        """Keep a file."""
        file = KeptFile(kind, name, content)
        return self._kept.setdefault(file.file_id, file)

    def sent_by_bot(self, kind: str, given: str | None, upload: UploadedFile | None) -> KeptFile:
        """Return the file of a call, uploaded with it or kept from before.

        Raises:
            Refused: It is not there, of another kind, empty, too large, or no picture where one is due.
        """
        if upload is not None:
            check_upload(kind, upload.content)
            return self.keep(kind, upload.name, upload.content)
        if given is None:
            raise bad_request(f"there is no {kind} in the request")
        file = self._kept.get(given)
        if file is None:
            raise bad_request("wrong file identifier/HTTP URL specified")
        if file.kind != kind:
            raise bad_request(f"can't use file of type {file.kind.title()} as {kind.title()}")
        return file

    def link(self, file_id: str) -> Body:
        """Return where a file can be fetched for an hour.

        Raises:
            Refused: There is none, or it is larger than a bot may fetch.
        """
        file = self._kept.get(file_id)
        if file is None:
            raise bad_request("wrong file_id or the file is temporarily unavailable")
        if len(file.content) > LARGEST_DOWNLOAD:
            raise bad_request("file is too big")
        path = f"{file.kind}s/{file_id}"
        self._links[path] = (file_id, self.clock.now() + LINK_LASTS)
        return _described(file) | {"file_path": path}

    def fetched(self, path: str) -> bytes | None:
        """Return what is behind a link; None when there is none or it has lapsed."""
        if path not in self._links:
            return None
        file_id, until = self._links[path]
        return self._kept[file_id].content if self.clock.now() <= until else None


def content_of(file: KeptFile) -> Body:
    """Return the part of a message that holds a file."""
    about, (width, height) = _described(file), file.sides()
    sides = {"width": width, "height": height}
    match file.kind:
        case "photo":
            return {"photo": [about | sides]}
        case "document":
            return {"document": about | {"file_name": file.name}}
        case "video":
            return {"video": about | sides | {"duration": 3}}
        case "video_note":
            return {"video_note": about | {"length": 240, "duration": 3}}
        case "animation":
            # The service names it as a file too.
            named = about | {"file_name": file.name}
            return {"animation": named | sides | {"duration": 3}, "document": named}
        case "sticker":
            plain = {"type": "regular", "is_animated": False, "is_video": False}
            return {"sticker": about | sides | plain}
        case _:
            return {file.kind: about | {"duration": 3}}


def _described(file: KeptFile) -> Body:
    file_id = file.file_id
    return {"file_id": file_id, "file_unique_id": file_id[-16:], "file_size": len(file.content)}


def check_upload(kind: str, content: bytes) -> None:
    """Check a file that the bot uploads.

    Raises:
        Refused: It is empty, too large, or no picture where one is due.
    """
    if not content:
        raise bad_request("file must be non-empty")
    if len(content) > LARGEST:
        raise Refused(413, "Request Entity Too Large")
    if kind != "photo":
        return
    if len(content) > LARGEST_PHOTO:
        raise bad_request(f"file of size {len(content)} bytes is too big for a photo")
    if not content.startswith(PICTURES):
        raise bad_request("IMAGE_PROCESS_FAILED")
    width, height = KeptFile(kind, "", content).sides()
    if not 0 < width + height <= SIDES or max(width, height) > RATIO * min(width, height):
        raise bad_request("PHOTO_INVALID_DIMENSIONS")
