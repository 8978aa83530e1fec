"""Which file names are record ids, and which files nobody meant as content."""

from __future__ import annotations

import re
import unicodedata

_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*", re.ASCII)
_LEFTOVERS = (".bak", ".orig", ".swp", ".swo", ".tmp", ".md")
_LEFTOVER_NAMES = {"thumbs.db", "desktop.ini", "readme", "readme.txt"}


def is_id(name: str) -> bool:
    """Whether a name is a record id: lowercase letters, digits, single hyphens between.

    >>> is_id("beef-chuck-roll"), is_id("Beef chuck"), is_id("-x"), is_id("")
    (True, False, False, False)
    """
    return _ID.fullmatch(name) is not None


def slug(name: str) -> str:
    """The nearest valid id to a name, or an empty string when nothing of it can stay.

    >>> slug("Crème brûlée (2)"), slug("beef_chuck"), slug("肉")
    ('creme-brulee-2', 'beef-chuck', '')
    """
    ascii_name = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    return "-".join(re.findall(r"[a-z0-9]+", ascii_name.lower()))


def is_ignored(name: str) -> bool:
    """Whether a file is passed over in silence: hidden, a README, or an editor's leftover.

    >>> [n for n in (".git", "README.md", "a.yaml~", "#a.yaml#", "a.yaml") if not is_ignored(n)]
    ['a.yaml']
    """
    lower = name.lower()
    return (
        name.startswith((".", "~$"))
        or name.endswith("~")
        or (name.startswith("#") and name.endswith("#"))
        or lower.endswith(_LEFTOVERS)
        or lower in _LEFTOVER_NAMES
    )


def same_name(name: str) -> str:
    """What names are compared by on disks that ignore case and Unicode form.

    >>> same_name("Beef") == same_name("beef")
    True
    """
    return unicodedata.normalize("NFC", name).casefold()


def printable(name: str) -> str:
    """A file name as it can be printed: undecodable bytes and controls written as escapes.

    >>> printable("a\\udcff\\n.yaml")
    'a\\\\udcff\\\\n.yaml'
    """
    return "".join(c if c.isprintable() else ascii(c)[1:-1] for c in name)
