"""Links and pictures in notes: what check lets pass is built, what stops a build has its line."""

from __future__ import annotations

import re
import struct
import zlib
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import ExifTags, Image

from tests.kitchens import write
from tests.kitchens.small import SMALL
from tests.site.command import Command, in_process

CUT = "cuts/chuck.yaml"
PICTURE = "pictures/whole.jpg"
ORIENTATION, GPS = ExifTags.Base.Orientation, ExifTags.IFD.GPSInfo
LATITUDE = {1: "N", 2: (43.0, 38.0, 33.0)}


def photo(size: tuple[int, int] = (3000, 1500), kind: str = "JPEG") -> bytes:
    """A picture as a telephone writes it: lying on its side, with the place where it was taken."""
    image = Image.new("RGB", size, "white")
    image.paste("red", (0, 0, size[0] // 2, size[1]))
    exif = Image.Exif()
    exif[ORIENTATION] = 6  # to be turned by a quarter, clockwise
    exif.get_ifd(GPS).update(LATITUDE)
    exif[ExifTags.Base.Artist] = "Somebody Invented"
    written = BytesIO()
    extra = {"comment": b"made by hand"} if kind == "JPEG" else {}
    image.save(written, kind, exif=exif, **extra)
    return written.getvalue()


def huge_png(side: int = 20_000) -> bytes:
    """A small file that says it is a large square [pixels]."""

    def chunk(name: bytes, data: bytes) -> bytes:
        whole = name + data
        return struct.pack(">I", len(data)) + whole + struct.pack(">I", zlib.crc32(whole))

    head = struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0)
    rows = zlib.compress(bytes(1000))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


def kitchen_with(root: Path, note: str, pictures: dict[str, bytes] | None = None) -> Path:
    """The small kitchen with a note on its chuck, from line 2 on, and with pictures."""
    text = "note: |\n" + "".join(f"  {line}\n" for line in note.splitlines())
    write(root, {**SMALL, CUT: text + SMALL[CUT]})
    for path, data in (pictures or {}).items():
        (root / path).parent.mkdir(exist_ok=True)
        (root / path).write_bytes(data)
    return root


FINE = [
    "read [the table](https://example.org/cuts?a=1&b=2#top)",
    "read <http://example.org/a_(b)>, or write to <butcher@example.org>",
    "[a letter](mailto:butcher@example.org) or [HTTPS](HTTPS://EXAMPLE.org/Ü)",
    "a [named][1] link\n\n[1]: https://example.org/ 'A title'",
    "[[cuts/ribeye]] and **[[cooks/chuck-30h]]**",
    "<script>alert(1)</script> are words",
    f"![The whole cut]({PICTURE})",
    f"[![The whole cut]({PICTURE} 'A title')](https://example.org/)",
]
# The note, where its problem stands, what is said, and what to write.
WRONG = [
    ("an old [list](ftp://example.org/x)", "2:17", "no address", "http, https and mailto"),
    ("a [page](example.org/x)", "2:12", "no address", "write https://example.org/x"),
    ("two\nlines, a [page](../cuts/ribeye.html)", "3:19", "no address", "write [[cuts/ribeye]]"),
    ("a [cut](cuts/ribeye)", "2:11", "no address", "write [[cuts/ribeye]]"),
    ("[a letter](butcher@example.org)", "2:14", "no address", "mailto:butcher@example.org"),
    ("[top](#trace), [root](/etc/passwd)", "2:9", "no address", "[[cuts/"),
    ("[script](javascript:alert(1))", "2:12", "no address", "https and mailto"),
    ("[nothing]()", "1:7", "no address", "[[cuts/"),
    (f"![]({PICTURE})", "2:7", "no words for who", f"![what it shows]({PICTURE})"),
    ("![The cut](pictures/whol.jpg)", "2:14", "no picture", f"write {PICTURE}"),
    ("![The cut](whole.jpg)", "2:14", "no picture", f"write {PICTURE}"),
    ("![A plate](https://example.org/p.jpg)", "2:14", "no picture", "save it as pictures/p.jpg"),
    ("![A plate](../../secret.png)", "2:14", "no picture", "put it into pictures/"),
    ("![A plate](data:image/png;base64,AAAA)", "2:14", "no picture", "put it into pictures/"),
]


def reported_by(command: Command, root: Path) -> list[tuple[int, str]]:
    """Exit code and errors of check and of build."""
    runs = [command("check", root), command("build", root, root.parent / "site")]
    return [(ran.code, "\n".join(re.findall(r".*: error: .*\n.*", ran.reported))) for ran in runs]


@pytest.mark.parametrize("note", FINE)
def test_what_check_lets_pass_is_built(command: Command, tmp_path: Path, note: str) -> None:
    root = kitchen_with(tmp_path / "kitchen", note, {PICTURE: photo((30, 20))})
    assert reported_by(command, root) == [(0, ""), (0, "")]


@pytest.mark.parametrize(("note", "place", "message", "hint"), WRONG)
def test_what_stops_a_build_is_reported_by_check_at_its_line(
    command: Command, tmp_path: Path, note: str, place: str, message: str, hint: str
) -> None:
    root = kitchen_with(tmp_path / "kitchen", note, {PICTURE: photo((30, 20))})
    checked, built = reported_by(command, root)
    assert checked == built
    assert checked[0] == 1
    assert checked[1].startswith(f"{CUT}:{place}: error: ")
    assert message in checked[1]
    assert hint in checked[1]


BAD_PICTURES = {
    "drawn.svg": (b"<svg xmlns='http://www.w3.org/2000/svg'><script>x</script></svg>", "not read"),
    "words.jpg": (b"no picture at all", "no whole PNG or JPEG"),
    "half.jpg": (photo()[:5000], "no whole PNG or JPEG"),
    "other.png": (photo(), "this is a JPEG, and its name says .png"),
    "huge.png": (huge_png(), "more than 50,000,000 pixels"),
    "large.jpg": (bytes(17 * 1024 * 1024), "this file has 17,825,792 bytes"),
    "Whole Cut.jpg": (photo(), 'rename it to "whole-cut.jpg"'),
}


@pytest.mark.parametrize("name", BAD_PICTURES)
def test_a_picture_that_cannot_be_shown_is_refused_by_name(tmp_path: Path, name: str) -> None:
    data, message = BAD_PICTURES[name]
    root = kitchen_with(tmp_path / "k", f"![It](<pictures/{name}>)", {f"pictures/{name}": data})
    checked = in_process("-m", "builder", "check", root)
    assert checked.code == 1
    assert re.search(rf"^pictures/{name}: (error|warning): ", checked.reported, re.MULTILINE)
    assert message in checked.reported
    assert "Traceback" not in checked.reported


def test_a_picture_in_no_note_is_doubted(command: Command, tmp_path: Path) -> None:
    root = kitchen_with(tmp_path / "kitchen", "no picture", {PICTURE: photo((30, 20))})
    ran = command("check", root)
    assert ran.code == 0
    assert (
        f"{PICTURE}: warning: no note or step shows this picture\n    write ![what it shows]"
        in ran.reported
    )


def test_web_links_are_plain_and_pictures_are_bare(command: Command, tmp_path: Path) -> None:
    note = f"see [the table](https://example.org/a?b=1&c=2)\n\n![The whole cut]({PICTURE} 'Raw')\n"
    root = kitchen_with(tmp_path / "kitchen", note, {PICTURE: photo(), "pictures/no.png": b"x"})
    assert command("build", root, tmp_path / "site").code == 0
    page = (tmp_path / "site/cuts/chuck.html").read_text(encoding="utf-8")
    assert '<a href="https://example.org/a?b=1&amp;c=2" rel=noopener>the table</a>' in page
    [image] = re.findall(r"<img [^>]*>", page)
    for part in (
        'src=../assets/pictures/whole.jpg', 'alt="The whole cut"', 'width=600',
        'height=1200', 'loading=lazy',
    ):  # fmt: skip
        assert part in image
    assert not (tmp_path / "site/assets/pictures/no.png").exists()
    assert bare(tmp_path / "site/assets/pictures/whole.jpg", photo()) == (600, 1200)


def bare(published: Path, source: bytes) -> tuple[int, int]:
    """The size of a published picture, once it is seen to hold nothing but its pixels."""
    data = published.read_bytes()
    for reported in (b"Exif", b"Invented", b"by hand", b"eXIf"):
        assert reported not in data
    with Image.open(published) as image:
        assert dict(image.getexif()) == {}
        assert {"exif", "comment", "icc_profile"} & image.info.keys() == set()
        # The source is red on its left half; turned clockwise, that half is on top.
        red, green, _ = np.asarray(image.convert("RGB"))[100, 300]
        assert (red > 200, green < 50) == (True, True)
        return image.size


def test_the_source_does_hold_what_is_stripped() -> None:
    """Without this the check above could not fail."""
    with Image.open(BytesIO(photo())) as image:
        assert image.getexif().get_ifd(GPS)[1] == "N"
        assert image.info["comment"] == b"made by hand"
    assert b"Invented" in photo()


def test_a_clear_png_stays_clear(command: Command, tmp_path: Path) -> None:
    written = BytesIO()
    Image.new("RGBA", (20, 10), (0, 0, 0, 0)).save(written, "PNG")
    root = kitchen_with(
        tmp_path / "kitchen", "![Logo](pictures/a.png)", {"pictures/a.png": written.getvalue()}
    )
    assert command("build", root, tmp_path / "site").code == 0
    with Image.open(tmp_path / "site/assets/pictures/a.png") as image:
        assert np.asarray(image.convert("RGBA"))[3, 3, 3] == 0


def test_the_note_of_the_kitchen_is_looked_at_too(command: Command, tmp_path: Path) -> None:
    files = {**SMALL, "kitchen.yaml": SMALL["kitchen.yaml"] + "note: see [it](ftp://example.org)\n"}
    checked, built = reported_by(command, write(tmp_path / "kitchen", files))
    assert checked == built
    assert checked[1].startswith("kitchen.yaml:15:16: error: ")


def test_a_picture_of_many_pixels_is_refused_below_the_reader_s_own_limit(tmp_path: Path) -> None:
    """Pillow only warns of it, and a warning would be one more line on the screen."""
    data = huge_png(10_000)
    root = kitchen_with(tmp_path / "k", "![It](pictures/a.png)", {"pictures/a.png": data})
    checked = in_process("-m", "builder", "check", root)
    assert checked.code == 1
    assert checked.reported.count("\n") == 3
    assert "pictures/a.png: error: this picture has more than 50,000,000 pixels" in checked.reported
