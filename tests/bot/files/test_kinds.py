import zipfile
from io import BytesIO

import pytest
from rows import each_row

from bot.files.block_file import read_block
from bot.files.kinds import MOST_BYTES, Kind, kind_named, kind_of
from bot.files.texts import one_line, text_of
from bot.render.problems import problem_line


def archive(*parts: str) -> bytes:
    stream = BytesIO()
    with zipfile.ZipFile(stream, "w") as packed:
        for part in parts:
            packed.writestr(part, "x")
    return stream.getvalue()


CSV = b"Name,Slipway\n\nDay,Order,Exercise,Sets,Reps\nPush,A,Push-up,3,8\n"
KINDS = [
    ("a workbook", archive("xl/workbook.xml"), Kind.XLSX),
    ("a broken archive, which says so when it is opened", archive("xl/workbook.xml")[:40], Kind.XLSX),
    ("a binary workbook", archive("xl/workbook.bin"), "an xlsb file"),
    ("ods", archive("mimetype", "content.xml"), "an ods file"),
    ("numbers", archive("Index/Document.iwa"), "a numbers file"),
    ("a text document", archive("word/document.xml"), "a text document"),
    ("another archive", archive("notes.txt"), None),
    ("an empty archive", b"PK\x05\x06" + b"\0" * 18, None),
    ("pdf", b"%PDF-1.7\n", "a PDF"),
    ("jpeg", b"\xff\xd8\xff\xe0\0\x10JFIF", "a picture"),
    ("png", b"\x89PNG\r\n", "a picture"),
    ("webp", b"RIFF\x10\0\0\0WEBPVP8 ", "a picture"),
    ("heic", b"\0\0\0\x18ftypheic", "a picture or a film"),
    ("a web page under the name of a workbook", b"<html><table><tr><td>Day</td></tr></table>", "a web page"),
    ("csv", CSV, Kind.CSV),
    ("csv in UTF-16", CSV.decode().encode("utf-16"), Kind.CSV),
    ("csv with colons after its labels", b"Block: my best\tx\nDay\tOrder\tExercise\n", Kind.CSV),
    ("csv with a title like a key", b"Block:\n\nName,Slipway\n", Kind.CSV),
    ("csv with braces", b"Name,x\n{0,A,Push-up\n", Kind.CSV),
    ("yaml", b"# mine\nblock:\n  Name: Slipway\n", Kind.YAML),
    ("yaml with its mark", b"---\nsessions: # none\n", Kind.YAML),
    ("json", b'{"block": {}}', Kind.YAML),
    ("nothing", b"", None),
    ("spaces", b" \n\t", None),
    ("no text", b"\x00\x01\x02\x03", None),
]


@each_row(("content", "kind"), [row[1:] for row in KINDS])
def test_the_kind_is_found_by_content(content: bytes, kind: object) -> None:
    assert kind_of(content, "block.xlsx") == kind


def test_only_a_text_that_could_be_either_is_told_by_its_name() -> None:
    assert kind_of(b"weeks: 4\n", "block.yml") is Kind.YAML
    assert kind_of(b"weeks: 4\n", "block.csv") is Kind.CSV


@pytest.mark.parametrize(
    ("name", "said"), [("A.XLS", "a file in the old xls format"), ("a.heic", "a picture"), ("a.xlsx", None)]
)
def test_a_kind_is_known_by_name_too(name: str, said: str | None) -> None:
    assert kind_named(name) == said


SAID = [
    (
        b"%PDF-1.7",
        "a.pdf",
        '"a.pdf" is a PDF, which I do not read. Save the block as xlsx or csv and send that file.',
    ),
    (
        b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1",
        "a.xls",
        '"a.xls" is locked with a password or in the old xls format. Save it as xlsx without a password and send that.',
    ),
    (
        b"PK\x05\x06",
        "a.zip",
        '"a.zip" is not a spreadsheet that I can read. Save the block as xlsx or csv and send that file.',
    ),
    (
        b"x" * (MOST_BYTES + 1),
        "a.csv",
        "The file has 2049 kB; up to 2048 kB is read. Take out pictures and old sheets and send it again.",
    ),
    (
        b"tide tables",
        "a.csv",
        (
            "There is no table of sessions. It has a row of headings with Day, Order, Exercise, Sets and Reps. "
            "Below it is a row for each exercise."
        ),
    ),
]


@pytest.mark.parametrize(("content", "name", "line"), SAID)
def test_a_file_that_is_not_read_is_told_what_would_be_right(content: bytes, name: str, line: str) -> None:
    result = read_block(content, name)

    assert isinstance(result, list)
    assert [problem_line(found) for found in result] == [line]


ENCODED = [
    ("plain", "Größe, naïve", "utf-8"),
    ("with its mark", "Größe, naïve", "utf-8-sig"),
    ("of an older machine", "Größe, naïve – “so”", "cp1252"),
    ("wide", "Größe, 力量", "utf-16"),
    ("wider", "Größe, 力量", "utf-32"),
]


@pytest.mark.parametrize(("text", "encoding"), [row[1:] for row in ENCODED], ids=[row[0] for row in ENCODED])
def test_a_text_is_decoded(text: str, encoding: str) -> None:
    assert text_of(text.encode(encoding)) == text


def test_bytes_that_are_no_text_are_none() -> None:
    assert text_of("Größe".encode("utf-16-le")) is None
    assert text_of(b"\xef\xbb\xbf\xff") is None
    assert text_of(b"caf\x81") is None


def test_a_cell_is_one_line_without_what_cannot_be_seen() -> None:
    assert one_line("\ufeff ribs\u00a0down\n at\x00 the\ufffe t\u00adop\u200b ") == "ribs down at the top"
