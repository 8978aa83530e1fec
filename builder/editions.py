"""Sites for several kinds of readers from one computation, each in a folder of its own."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from builder.build import (
    Outcome,
    Printable,
    build_site,
    cache_folder,
    checked_files,
    compute_content,
    earlier_content,
    refuse_nesting,
)
from builder.costing.costed import Costed
from builder.costing.history import Earlier
from builder.display.numerals import whole_number
from builder.language import Deferred, ntr, tr, written_in
from builder.pages.editions import EditionSite, reader_of
from builder.pages.kept_words import kept_words
from builder.pages.view import View
from builder.problems import Problem, ShankbookError, did_you_mean
from builder.progress import Progress, Quiet
from builder.publish import Report, publish
from builder.publish.manifest import MANIFEST
from builder.records.editions import OWNER, Edition, editions_of, folder_of
from builder.records.kitchen_head import language_for

ALL = "all"
LOGIN = Deferred(
    "a static site has no login: whoever has the address reads all of it. "
    "Give each edition a host or a path of its own, and put what is not for "
    "everybody behind a login of the web server"
)


@dataclass(frozen=True, slots=True)
class Published:
    """An edition in its folder: what came of it, and what was granted and is not shown."""

    name: str
    folder: Path
    outcome: Outcome
    kept: tuple[str, ...] = ()


def build_editions(
    root: Path,
    output: Path,
    names: Sequence[str],
    as_of: date | None,
    today: date,
    progress: Progress | None = None,
    cache: Path | None = None,
    since: str = "",
) -> tuple[list[Problem], list[Published]]:
    """Compute a content folder once and publish some of its editions, or all.

    One goes into `output`; of several the owner's does, and the others into folders beside it.
    Raises ShankbookError for a name that is no edition, and what `build` raises.
    """
    progress = progress or Quiet()
    with progress.stage(tr("reading and computing")):
        costed, problems = compute_content(root, as_of, today)
    if costed is None or any(problem.is_error for problem in problems):
        return problems, []
    with written_in(language_for(costed.content.kitchen)):
        editions = editions_of(costed.content.kitchen.editions)
        wanted = _wanted(names, editions)
        folders = _folders(wanted, editions, output)
        _refuse(root, list(folders.values()))
        # What changed is for the owner alone.
        earlier, doubts = earlier_content(root, since if OWNER in wanted else "", progress)
        problems = [*problems, *doubts]
        made = _Made(root, costed, problems, progress, cache or cache_folder(), earlier)
        return problems, [made.edition(name, editions[name], folders[name]) for name in wanted]


def _wanted(names: Sequence[str], editions: Mapping[str, Edition]) -> list[str]:
    if ALL in names:
        return list(editions)
    for name in names:
        if name not in editions:
            hint = did_you_mean(name, editions) or tr(
                "there are {editions}", editions=", ".join(editions)
            )
            raise ShankbookError(tr('there is no edition "{name}"; {hint}', name=name, hint=hint))
    return list(dict.fromkeys(names))


def _folders(
    names: Sequence[str], editions: Mapping[str, Edition], output: Path
) -> dict[str, Path]:
    output = Path(os.path.abspath(output))  # noqa: PTH100 - resolve() would follow the last link
    if len(names) == 1:
        return {names[0]: output}
    return {name: output.with_name(folder_of(name, editions[name], output.name)) for name in names}


def _refuse(root: Path, folders: Sequence[Path]) -> None:
    """No site in the content, in another site, or in the folder of another."""
    if len({folder.resolve() for folder in folders}) < len(folders):
        raise ShankbookError(tr("two editions have one folder; give each a folder: of its own"))
    for folder in folders:
        refuse_nesting(root.resolve(), folder.resolve())
        above = [parent for parent in folder.resolve().parents if (parent / MANIFEST).exists()]
        below = [found.parent for found in folder.glob(f"*/{MANIFEST}")]
        if nested := [*above, *below]:
            raise ShankbookError(
                tr(
                    "{folder} and the site in {nested} are inside each other; whoever gets the "
                    "outer folder gets both, so name one beside it",
                    folder=folder,
                    nested=nested[0],
                )
            )


@dataclass(frozen=True, slots=True)
class _Made:
    """What every edition of a build is made from."""

    root: Path
    costed: Costed
    problems: Sequence[Problem]
    progress: Progress
    cache: Path
    earlier: Earlier | None

    def edition(self, name: str, edition: Edition, folder: Path) -> Published:
        """Print one edition and publish it."""
        if name == OWNER:
            outcome = build_site(
                self.root, self.costed, self.problems, folder, self.progress, self.cache,
                self.earlier, edition=True,
            )  # fmt: skip
            return Published(name, folder, outcome)
        reader = reader_of(name, edition)
        view = View.of(self.costed, self.problems, reader)
        site = EditionSite(view)
        printable = Printable(site.groups(), site.frame(), site.assets(self.cache))
        report = publish(checked_files(view, printable, self.progress), folder)
        kept = tuple(kept_words(self.costed.figures.model, reader, edition))
        return Published(name, folder, Outcome(tuple(self.problems), report), kept)


def counts_of(report: Report) -> str:
    """How many files a build wrote, left as they were, and deleted."""
    written, unchanged, deleted = map(len, (report.written, report.unchanged, report.deleted))
    return tr(
        "{written}, {unchanged}, {deleted}",
        written=ntr(
            "{number} file written",
            "{number} files written",
            written,
            number=whole_number(written),
        ),
        unchanged=ntr(
            "{number} unchanged", "{number} unchanged", unchanged, number=whole_number(unchanged)
        ),
        deleted=ntr("{number} deleted", "{number} deleted", deleted, number=whole_number(deleted)),
    )


def lines_of(published: Published) -> Iterator[str]:
    """What the build says of an edition."""
    report = published.outcome.report
    if report is not None:
        yield tr(
            "edition {published}: {counts}",
            published=published.name,
            counts=counts_of(report),
        )
        yield tr("    open {folder}", folder=published.folder / "index.html")
    if published.outcome.keys is not None:
        yield tr(
            "    keys of blind tastings ahead, not in the site: {keys}", keys=published.outcome.keys
        )
    yield from (f"    {line}" for line in published.kept)
