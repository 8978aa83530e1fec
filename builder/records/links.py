"""What a [[link]] may lead to: every record and free page, by path, by id or by name."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from builder.language import either, tr
from builder.problems import nearest
from builder.reading.folder import PAGES
from builder.records.content import Content
from builder.records.free_pages import FreePage
from builder.records.kinds import RECORDS, Record

_SPLIT = re.compile(r"\s*\\?\|\s*")
_SIGNS = re.compile(r"[\W_]+")
_MOST_NAMED = 3


@dataclass(frozen=True, slots=True)
class Target:
    """A record or free page that a link names; `there` is false where the day leaves it out."""

    path: str
    title: str
    there: bool = True


@dataclass(frozen=True, slots=True)
class Link:
    """A link as written between its brackets: the words for it, and all that it may lead to."""

    written: str
    words: str
    targets: tuple[Target, ...]

    @property
    def target(self) -> Target | None:
        """Where it leads; None where that is nowhere, or to several."""
        return self.targets[0] if len(self.targets) == 1 else None


@dataclass(frozen=True, slots=True)
class Links:
    """The targets by path, and by what else they may be called, folded."""

    content: Content
    by_path: Mapping[str, Target]
    by_name: Mapping[str, Mapping[str, Target]]
    elsewhere: str = ""

    @classmethod
    def of(cls, content: Content, elsewhere: str = "") -> Links:
        """Gather every record and free page of a kitchen, those of a later day too.

        `elsewhere` is shown for what none of them is; empty where that is as it is written.
        """
        targets = [Target(path, title, False) for path, title in content.left_out.items()]
        targets += [Target(each.path, str(each.title)) for each in owners(content)]
        by_name: dict[str, dict[str, Target]] = {}
        for each in targets:
            for name in (each.path.rpartition("/")[2], each.title, each.path.removeprefix(PAGES)):
                by_name.setdefault(_folded(name), {})[each.path] = each
        by_name.pop("", None)
        return cls(content, {each.path: each for each in targets}, by_name, elsewhere)

    def read(self, written: str) -> Link:
        """The link of what is written between the brackets: `where`, or `where|words`."""
        where, *words = _SPLIT.split(written.strip(), 1)
        if exact := self.by_path.get(where):
            targets: tuple[Target, ...] = (exact,)
        else:
            targets = tuple(self.by_name.get(_folded(where), {}).values())
        return Link(where, "".join(words), targets)

    def is_unread(self, where: str) -> bool:
        """Whether a link names a file that is there but could not be read."""
        content, (folder, _, name) = self.content, where.rpartition("/")
        if folder.partition("/")[0] == PAGES:
            return not {folder, f"{where}.md"}.isdisjoint(content.refused)
        folders = [folder] if folder else [kind.folder for kind in RECORDS]
        return any(content.has_file(each, name) for each in folders)

    def problem(self, link: Link) -> tuple[str, str]:
        """What is wrong with a link that does not lead to one page, and what to write."""
        if len(link.targets) > 1:
            named = sorted(target.path for target in link.targets)
            most = either(f"[[{path}]]" for path in named[:_MOST_NAMED])
            return tr(
                '"[[{written}]]" may be {named} pages', written=link.written, named=len(named)
            ), tr("write {most}", most=most)
        return tr('"[[{written}]]" leads to no record or page', written=link.written), self._hint(
            link.written
        )

    def _hint(self, written: str) -> str:
        """The nearest path or name, written so that it leads to one page."""
        named = [f'"[[{path}]]"' for path in self._near(written)[:_MOST_NAMED]]
        if named:
            return tr("did you mean {named}?", named=either(named))
        return tr("write the folder and the id, as in [[cuts/beef-chuck-roll]]")

    def _near(self, written: str) -> list[str]:
        """The nearest path, else the paths of what has the nearest id or name."""
        if "/" in written and (path := nearest(written, self.by_path)):
            return [path]
        last = _folded(written.rpartition("/")[2])
        return sorted(self.by_name.get(nearest(last, self.by_name), ()))


def owners(content: Content) -> Iterator[Record | FreePage]:
    """Every record and free page that has a page of its own."""
    yield from content.records()
    yield from content.pages.values()


def _folded(name: str) -> str:
    """What names are compared by: its letters and digits, so that "30 h" is "30h"."""
    return _SIGNS.sub("", name.casefold())
