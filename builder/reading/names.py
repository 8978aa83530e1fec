"""Which file names are record ids, and which files nobody meant as content."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection

from builder.language import tr

_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*", re.ASCII)
LONGEST_ID = 100
# Windows keeps the names of its devices for itself, with any ending; "blank" are our own forms.
_TAKEN = re.compile(r"con|prn|aux|nul|com[0-9]|lpt[0-9]|blank", re.ASCII)
# What an editor or Windows, which hides endings, adds unseen.
_ADDED = (".txt", ".text", ".yaml", ".yml", ".csv")
_LEFTOVERS = (".bak", ".orig", ".swp", ".swo", ".tmp", ".md")
_LEFTOVER_NAMES = {"thumbs.db", "desktop.ini", "readme", "readme.txt", "readme.md"}


def is_id(name: str) -> bool:
    """Whether a name is a record id: lowercase letters, digits, single hyphens between.

    >>> is_id("beef-chuck-roll"), is_id("Beef chuck"), is_id("-x"), is_id("")
    (True, False, False, False)
    """
    return _ID.fullmatch(name) is not None


def why_no_file_name(name: str) -> str:
    """Say why a well-formed id can name no file or page everywhere; empty where it can.

    >>> why_no_file_name("beef"), why_no_file_name("con")
    ('', '"con" is a name that some computers keep for themselves')
    """
    if len(name) > LONGEST_ID:
        return tr(
            "this name has {name} characters; at most {longest_id} are read",
            name=len(name),
            longest_id=LONGEST_ID,
        )
    if _TAKEN.fullmatch(name):
        owners = (
            tr("we keep for blank forms")
            if name == "blank"
            else tr("some computers keep for themselves")
        )
        return tr('"{name}" is a name that {owners}', name=name, owners=owners)
    return ""


def without_added_ending(name: str, endings: Collection[str]) -> str:
    """The name that was meant where an ending was added to it, or an empty string.

    >>> without_added_ending("beef.yaml.txt", [".yaml"]), without_added_ending("a.txt", [".yaml"])
    ('beef.yaml', '')
    """
    stem, dot, last = name.rpartition(".")
    added = f"{dot}{last}".lower() in _ADDED
    return stem if added and stem.lower().endswith(tuple(endings)) else ""


# Letters in one that Unicode does not take apart.
_LIGATURES = str.maketrans({"œ": "oe", "Œ": "Oe", "æ": "ae", "Æ": "Ae", "ß": "ss"})


def slug(name: str) -> str:
    """The nearest valid id to a name, or an empty string when nothing of it can stay.

    >>> slug("Crème brûlée (2)"), slug("beef_chuck"), slug("肉")
    ('creme-brulee-2', 'beef-chuck', '')
    >>> slug("Joue de bœuf")
    'joue-de-boeuf'
    """
    apart = unicodedata.normalize("NFKD", name.translate(_LIGATURES))
    ascii_name = apart.encode("ascii", "ignore").decode()
    return "-".join(re.findall(r"[a-z0-9]+", ascii_name.lower()))


def is_ignored(name: str, read: Collection[str] = ()) -> bool:
    """Whether a file is passed over in silence: hidden, a README, or an editor's leftover.

    Endings that are `read` are no leftovers.

    >>> [n for n in (".git", "README.md", "a.yaml~", "#a.yaml#", "a.yaml") if not is_ignored(n)]
    ['a.yaml']
    >>> is_ignored("a.md"), is_ignored("a.md", (".md",)), is_ignored("README.md", (".md",))
    (True, False, True)
    """
    lower = name.lower()
    return (
        name.startswith((".", "~$"))
        or name.endswith("~")
        or (name.startswith("#") and name.endswith("#"))
        or lower.endswith(tuple(ending for ending in _LEFTOVERS if ending not in read))
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
