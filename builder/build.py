"""From a content folder to a published site: the stages in their order, once.

Disk is touched at the two ends only: reading the content, publishing the site.
"""

from __future__ import annotations

import gc
import os
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from itertools import chain
from pathlib import Path, PurePosixPath

import platformdirs

from builder.allocator import one_heap
from builder.costing.costed import Costed, check_figures, check_records, cost
from builder.costing.history import Earlier
from builder.costing.history_text import history_bytes
from builder.costing.later import without_later
from builder.costing.moves import snapshot_of, with_history
from builder.language import tr, written_in
from builder.pages.components import Site
from builder.pages.kept_apart import files_apart, has_keys_apart
from builder.pages.messages import in_kitchen_style
from builder.pages.site import ROBOTS, Group, frame, page_groups, site_assets
from builder.pages.view import View
from builder.printing import Printed, printer, with_links, workers_for
from builder.problems import Place, Problem, Severity, ShankbookError, in_order
from builder.progress import Progress, Quiet
from builder.publish import LinkCheck, Report
from builder.publish.history import read_history
from builder.publish.manifest import read_manifest
from builder.publish.pair import publish_pair, settle_pair
from builder.publish.paths import HISTORY
from builder.publish.work import reported
from builder.reading.revisions import checked_out
from builder.records.content import Content, load
from builder.records.counted import with_till_counts
from builder.records.kitchen_head import language_for, language_in
from builder.records.notes import web_links
from builder.records.unpriced import without_unpriced

MAX_LINKS_REPORTED = 10


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a build: its problems, and the report where a site was published.

    `keys`: the folder with the keys of blind tastings that are ahead, where there are any.
    """

    problems: tuple[Problem, ...]
    report: Report | None = None
    keys: Path | None = None


def cache_folder() -> Path:
    """Where scripts that take seconds to make are kept between builds."""
    return Path(platformdirs.user_cache_dir("shankbook", appauthor=False))


def compute_content(
    root: Path, as_of: date | None, today: date
) -> tuple[Costed | None, list[Problem]]:
    """Read, check and compute a content folder; None where an error is in the way."""
    with written_in(language_in(root)), one_heap(), _without_collector():
        content, problems = checked_content(root, as_of, today)
        if any(problem.is_error for problem in problems):
            return None, in_order(in_kitchen_style(problems, content))
        costed = cost(content)
        found = (*problems, *check_figures(costed, {p.place for p in problems}))
        return costed, in_order(in_kitchen_style(found, content))


def checked_content(root: Path, as_of: date | None, today: date) -> tuple[Content, list[Problem]]:
    """Read a content folder and check its records among each other; nothing is computed yet."""
    content, problems = load(root, as_of, today)
    content, left_out = without_unpriced(content)
    content, later = without_later(content, today)
    content, counted = with_till_counts(content)
    # Records that could be read are checked even where others could not, so that a cook sees
    # every problem at once.
    return content, in_order([*problems, *left_out, *later, *counted, *check_records(content)])


def build(
    root: Path,
    output: Path,
    as_of: date | None,
    today: date,
    progress: Progress | None = None,
    cache: Path | None = None,
    since: str = "",
) -> Outcome:
    """Compute a content folder and publish its site; an error publishes nothing.

    What changed is compared with the build before, or with the content at the revision `since`
    of its git repository.

    Raises ShankbookError where the folder can't be read, where one folder lies in the
    other, or where the site can't be published; the site that is there already
    stays as it was.
    """
    refuse_nesting(root.resolve(), output.resolve())
    progress = progress or Quiet()
    settle_pair(output, keys_folder(output))
    with progress.stage(tr("reading and computing")):
        costed, problems = compute_content(root, as_of, today)
    if costed is None or any(problem.is_error for problem in problems):
        return Outcome(tuple(problems))
    with written_in(language_for(costed.content.kitchen)):
        earlier, doubts = earlier_content(root, since, progress)
        problems = [*problems, *doubts]
        cache = cache or cache_folder()
        return build_site(root, costed, problems, output, progress, cache, earlier)


def earlier_content(
    root: Path, revision: str, progress: Progress
) -> tuple[Earlier | None, list[Problem]]:
    """A content folder computed as it was at a revision, by its own day; a warning if it can't be.

    None without a revision. Raises ShankbookError where git has none of that name.
    """
    if not revision:
        return None, []
    with (
        progress.stage(tr("computing revision {revision}", revision=revision)),
        checked_out(root, revision) as found,
    ):
        folder, made = found
        costed, problems = compute_content(folder, None, made.day)
    if costed is None:
        first = next(problem for problem in problems if problem.is_error)
        message = tr(
            "revision {revision} has errors, so nothing is compared with it", revision=revision
        )
        hint = tr("there: {place}: {message}", place=first.place, message=first.message)
        return None, [
            Problem(Place(tr("What changed")), message, hint, Severity.WARNING, needs=None)
        ]
    renamed = {_record(new): _record(old) for new, old in made.renamed.items()}
    return Earlier(snapshot_of(costed), revision, renamed), []


def _record(file: str) -> str:
    """The path of the record in a file."""
    return str(PurePosixPath(file).with_suffix(""))


@dataclass(frozen=True, slots=True)
class Printable:
    """A site to be printed: its pages, what is around them, its other files one at a time."""

    groups: Sequence[Group]
    around: Site
    assets: Iterable[tuple[str, bytes]]


def build_site(
    root: Path,
    costed: Costed,
    problems: Iterable[Problem],
    output: Path,
    progress: Progress,
    cache: Path,
    earlier: Earlier | None = None,
    *,
    edition: bool = False,
) -> Outcome:
    """Publish the owner's site, and beside it the keys of blind tastings that are ahead.

    As one `edition` of several it asks search engines to keep away.
    """
    keys = keys_folder(output)
    before, warnings = read_history(output, costed.content)
    view = View.of(with_history(costed, before, earlier), problems)
    apart = has_keys_apart(view)
    if apart:
        refuse_nesting(root.resolve(), keys.resolve())
    extra = {"robots.txt": ROBOTS} if edition else {}
    extra[HISTORY] = history_bytes(view.costed.history)
    around = replace(frame(view), noindex=edition)
    site = Printable(page_groups(view), around, chain(site_assets(view, cache), extra.items()))
    files = checked_files(view, site, progress)
    report = publish_pair(files, output, lambda: _keys(view, keys), keys)
    return Outcome((*view.problems, *warnings), report, keys if apart else None)


def keys_folder(output: Path) -> Path:
    """The folder beside the site for what is not to be published yet."""
    output = Path(os.path.abspath(output))  # noqa: PTH100 - resolve() would follow the last link
    return output.with_name(f"{output.name}-keys")


def _keys(view: View, folder: Path) -> dict[str, bytes]:
    """The keys of blind tastings that are ahead; those of others leave the folder."""
    with reported(folder):
        ours = folder.is_dir() and read_manifest(folder) is not None
    return files_apart(view, frame(view)) if has_keys_apart(view) or ours else {}


def refuse_nesting(content: Path, output: Path) -> None:
    """Pages among the records would be read as records, and records swapped with the pages."""
    if output.is_relative_to(content):
        raise ShankbookError(
            tr(
                "{output} is in the content folder; name one beside it, such as {content}-site",
                output=output,
                content=content,
            )
        )
    if content.is_relative_to(output):
        raise ShankbookError(
            tr("{output} holds the content folder; name another for the site", output=output)
        )


def checked_files(view: View, site: Printable, progress: Progress) -> Iterator[tuple[str, bytes]]:
    """Print every file; at the end, and before anything is swapped, check every link."""
    links = LinkCheck(web_links(view.costed.content))
    for file in _printed(site, progress):
        links.add(file.path, file.links)
        yield file.path, file.data
    if broken := links.broken():
        reported = (
            f"  {link.page}: {link.href}: {link.reason}" for link in broken[:MAX_LINKS_REPORTED]
        )
        raise ShankbookError(
            tr("{broken} broken links, nothing published:\n", broken=len(broken))
            + "\n".join(reported)
        )


def _printed(site: Printable, progress: Progress) -> Iterator[Printed]:
    """The files that are no pages, then every page, group by group.

    Those are made here one after the other, so that none is sent from process to process: some are
    as large as a hundred pages. Workers print in the meantime.
    """
    batches = [batch for group in site.groups for batch in group.batches]
    workers = workers_for(sum(group.size for group in site.groups))
    # The last pages list what the others are about: long ones, each alone in its batch, so the
    # group before them is kept for the end.
    sizes = [len(group.batches) for group in site.groups]
    lists = len(batches) - sizes[-1]
    small = range(lists - sum(sizes[-2:-1]), lists)
    with printer(batches, site.around, small, workers) as printed:
        for path, data in site.assets:
            yield with_links(path, data)
        first = 0
        for group in site.groups:
            numbers = range(first, first := first + len(group.batches))
            with progress.stage(group.name, total=group.size) as step:
                for pages in printed(numbers):
                    yield from pages
                    step(len(pages))


@contextmanager
def _without_collector() -> Iterator[None]:
    """Pause the cycle collector: it would walk half a million small objects again and again."""
    enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if enabled:
            gc.enable()
