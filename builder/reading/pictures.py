"""Pictures of the content folder, made fit for a page: turned upright, scaled, nothing else kept.

PNG and JPEG are read. SVG is refused, because it may carry scripts, and whatever loads from
elsewhere. What a camera writes beside the picture (place, time, its number) stays out.
"""

from __future__ import annotations

import warnings
from dataclasses import dataclass, field
from functools import lru_cache
from io import BytesIO
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from builder.language import tr
from builder.reading.folder import ContentFile

if TYPE_CHECKING:
    from PIL.Image import Image

ENDINGS = {".png": "PNG", ".jpg": "JPEG", ".jpeg": "JPEG"}
WIDEST, HIGHEST = 1200, 1200
MOST_PIXELS = 50_000_000
_JPEG_QUALITY = 85


class PictureError(ValueError):
    """A picture that can't be shown: what is wrong, and what to do."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message, hint)
        self.message = message
        self.hint = hint


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as it is published: its bytes, its width and height [pixels]."""

    data: bytes = field(repr=False)
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class _Source:
    """A file's bytes, told apart by their digest so that each is made ready once."""

    digest: str
    name: str
    data: bytes = field(repr=False, compare=False)


def picture_of(file: ContentFile) -> Picture:
    """Make a file of the content folder ready for a page; raises PictureError where it can't be.

    The longer side has at most 1200 pixels; the same file gives the same bytes.
    """
    return _ready(_Source(file.digest, file.path, file.data))


@lru_cache(maxsize=64)
def _ready(source: _Source) -> Picture:
    # Imported late: most kitchens have no picture.
    from PIL import Image, ImageOps  # noqa: PLC0415

    wanted = ENDINGS[PurePosixPath(source.name).suffix]
    try:
        with warnings.catch_warnings():
            # Of a size that is doubted we say more than a warning, below.
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            found = Image.open(BytesIO(source.data), formats=("PNG", "JPEG"))
        with found:
            # A camera's JPEG with a second picture behind the first is an MPO.
            _check(source.name, found, "JPEG" if found.format == "MPO" else str(found.format))
            return _bare(ImageOps.exif_transpose(found), wanted)
    except PictureError:
        raise
    except Image.DecompressionBombError as error:
        raise _too_large() from error
    except (OSError, ValueError, SyntaxError) as error:
        hint = tr("save it as PNG or JPEG; SVG, which may hold scripts, and others are not shown")
        raise PictureError(tr("this is no whole PNG or JPEG picture"), hint) from error


def _check(name: str, found: Image, kind: str) -> None:
    suffix = PurePosixPath(name).suffix
    if ENDINGS[suffix] != kind:
        right = PurePosixPath(name).with_suffix(f".{kind.lower()}".replace("jpeg", "jpg"))
        raise PictureError(
            tr("this is a {kind}, and its name says {suffix}", kind=kind, suffix=suffix),
            tr("call it {right}", right=right),
        )
    if found.width * found.height > MOST_PIXELS:
        raise _too_large()


def _too_large() -> PictureError:
    hint = tr("save it smaller; a page shows {widest} pixels at most", widest=WIDEST)
    return PictureError(
        tr("this picture has more than {most_pixels:,} pixels", most_pixels=MOST_PIXELS), hint
    )


def _bare(image: Image, kind: str) -> Picture:
    """Only the pixels, scaled: a new image holds nothing that the file says beside them."""
    clear = kind == "PNG" and image.has_transparency_data
    image = image.convert("RGBA" if clear else "RGB")
    image.thumbnail((WIDEST, HIGHEST))
    image.info.clear()
    image.getexif().clear()
    written = BytesIO()
    image.save(
        written, kind, optimize=True, **({"quality": _JPEG_QUALITY} if kind == "JPEG" else {})
    )
    return Picture(written.getvalue(), image.width, image.height)
