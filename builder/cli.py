"""The thin shell: arguments in, messages and an exit code out.

Exit codes
    0   done; there may have been warnings
    1   the content has errors; nothing was published, the old site stands
    2   the command line was not understood
    3   something else is in the way: a folder, a permission, a broken link
"""

from __future__ import annotations

import os
import signal
import sys
import threading
import time
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from builder.arguments import OF_KITCHEN, folder, parser
from builder.language import (
    Deferred,
    current_words,
    language_of_environment,
    ntr,
    tr,
    words_of,
    written_in,
)
from builder.problems import BusyError, ShankbookError, did_you_mean, shortened

if TYPE_CHECKING:
    import argparse

    from builder.problems import Problem

DONE, CONTENT_ERRORS, USAGE, IN_THE_WAY = 0, 1, 2, 3

MAX_PROBLEMS_PER_FILE = 50
MAX_PROBLEMS = 1_000
# Files whose problems left out have a line of their own; the rest share one.
MAX_FILES_NAMED = 20
# How long a preview waits, again and again, for another build of the same site to end.
BUSY_WAITS_SECONDS = (0.5,) * 20

# The method pages are made of docstrings, and the chart library reads its own at import.
NO_DOCSTRINGS = Deferred(
    "Python leaves out docstrings here (-OO or PYTHONOPTIMIZE=2), and the pages are made of "
    "them; run it without, or with PYTHONOPTIMIZE=1"
)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    with written_in(language_of_environment(os.environ)):
        options = parser().parse_args(arguments)
        if sys.flags.optimize > 1:
            _say(f"shankbook: {tr(NO_DOCSTRINGS)}")
            return IN_THE_WAY
        try:
            with _ended_like_ctrl_c(), written_in(_language(options)):
                return _run(options)
        except KeyboardInterrupt:
            return _stopped()


def _run(options: argparse.Namespace) -> int:
    try:
        return _RUNS[options.command](options)
    except ShankbookError as error:
        _say(f"shankbook: {error}")
        return IN_THE_WAY
    except KeyboardInterrupt:
        return _stopped()


def _stopped() -> int:
    _say(tr("stopped; the published site is whole, old or new"))
    return IN_THE_WAY


def _language(options: argparse.Namespace) -> str:
    """The language of the kitchen, or where none is there yet, the one in use."""
    if getattr(options, "name", None) == "":
        return current_words()
    # Imported here, like below: --help must not wait for the numeric libraries.
    from builder.records.kitchen_head import language_in  # noqa: PLC0415

    return language_in(_content(options))


def _content(options: argparse.Namespace) -> Path:
    """The content folder; that of a new record is this one where a kitchen is in it."""
    here = Path()
    named: Path | None = options.content
    return named or (here if (here / "kitchen.yaml").exists() else Path("content"))


@contextmanager
def _ended_like_ctrl_c() -> Iterator[None]:
    """Let SIGTERM (a service manager's, a closing session's) clear up as Ctrl-C does."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.signal(signal.SIGTERM, signal.default_int_handler)
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)


def _build(options: argparse.Namespace) -> int:
    if options.edition:
        return _build_editions(options)
    from builder.build import build  # noqa: PLC0415
    from builder.editions import counts_of  # noqa: PLC0415
    from builder.progress import progress_on  # noqa: PLC0415

    outcome = build(
        options.content,
        options.output,
        options.as_of,
        date.today(),
        progress_on(sys.stderr),
        since=options.since,
    )
    _tell(outcome.problems)
    if outcome.report is None:
        _say(tr("nothing published; the site that was there is as it was"))
        return CONTENT_ERRORS
    report = outcome.report
    if outcome.keys is not None:
        _say(
            tr(
                "keys of blind tastings ahead, not in the site: open {page}",
                page=(outcome.keys / "index.html").resolve(),
            )
        )
    _say(counts_of(report))
    _say(tr("open {page}", page=(options.output / "index.html").resolve()))
    return DONE


def _build_editions(options: argparse.Namespace) -> int:
    from builder.editions import LOGIN, build_editions, lines_of  # noqa: PLC0415
    from builder.progress import progress_on  # noqa: PLC0415

    problems, published = build_editions(
        options.content,
        options.output,
        options.edition,
        options.as_of,
        date.today(),
        progress_on(sys.stderr),
        since=options.since,
    )
    _tell(problems)
    if not published:
        _say(tr("nothing published; the sites that were there are as they were"))
        return CONTENT_ERRORS
    for each in published:
        for line in lines_of(each):
            _say(line)
    _say(tr(LOGIN))
    return DONE


def _check(options: argparse.Namespace) -> int:
    from builder.build import compute_content  # noqa: PLC0415

    _, problems = compute_content(options.content, options.as_of, date.today())
    _tell(problems)
    if any(problem.is_error for problem in problems):
        return CONTENT_ERRORS
    _say(tr("the content can be published"))
    return DONE


def _preview(options: argparse.Namespace) -> int:
    from builder.preview import serve  # noqa: PLC0415

    serve(
        options.output,
        _Rebuild(options),
        [options.content],
        options.port,
        announce=lambda url: _say(tr("serving {url} (Ctrl-C stops)", url=url)),
    )
    _say(tr("preview stopped; the site stays"))
    return DONE


class _Rebuild:
    """Builds for the preview, which outlives what is in the way for a while.

    The first build may fail with an error: then the command line is what has to be mended.
    """

    def __init__(self, options: argparse.Namespace) -> None:
        self._options = options
        self._started = False
        self._language = current_words()

    def __call__(self) -> bool:
        """Build and tell what came of it; wait while another build writes the same site."""
        # In a thread of its own, and the kitchen may have got another language.
        with written_in(self._language):
            language = self._language = _language(self._options)
            with written_in(language):
                return self._patiently()

    def _patiently(self) -> bool:
        for wait in BUSY_WAITS_SECONDS:
            try:
                return self._build()
            except BusyError:
                time.sleep(wait)
        _say(
            "shankbook: "
            + tr("another build of this site does not end; change a file to try again")
        )
        return False

    def _build(self) -> bool:
        try:
            done = _build(self._options) == DONE
        except BusyError:
            raise
        except ShankbookError as error:
            if not self._started:
                raise
            _say(f"shankbook: {error}")
            return False
        self._started = True
        return done


def _new(options: argparse.Namespace) -> int:
    from builder.starter import ChoiceError, Choices, start  # noqa: PLC0415
    from builder.starter.records import KINDS  # noqa: PLC0415

    chosen = {each: getattr(options, each) for each in OF_KITCHEN if getattr(options, each)}
    if wrong := _not_new(options, chosen, KINDS):
        return _misused(wrong)
    if options.name:
        return _new_record(options)
    target, choices = folder(options.what), Choices(**chosen)
    try:
        start(target, choices)
    except ChoiceError as error:
        return _misused(str(error))
    with written_in(words_of(choices.words, choices.numbers)):
        _say(tr("started; next: shankbook build {folder} output", folder=target))
    return DONE


def _not_new(options: argparse.Namespace, chosen: Collection[str], kinds: Collection[str]) -> str:
    """Why the arguments of new don't go together; empty where they do."""
    kind, name = options.what, options.name
    if not kind.strip():
        return tr("a folder has a name")
    if name and kind not in kinds:
        hint = did_you_mean(kind, kinds) or ", ".join(kinds)
        return tr('"{kind}" is no kind of record; {hint}', kind=kind, hint=hint)
    if not name and kind in kinds:
        return tr("new {kind} needs a name; a folder of that name is written ./{kind}", kind=kind)
    if name and chosen:
        return tr(
            "--{option} is of a whole kitchen; kitchen.yaml says it for all records",
            option=next(iter(chosen)),
        )
    if not name and (options.like or options.content):
        return tr("--like and --content are of one record; write new KIND NAME")
    return ""


def _misused(message: str) -> int:
    _say(f"shankbook new: {message}")
    return USAGE


def _new_record(options: argparse.Namespace) -> int:
    from builder.starter.records import new_record  # noqa: PLC0415

    content = _content(options)
    path = new_record(content, options.what, options.name, options.like or "")
    _say(
        tr(
            "written: {path}; next: edit it, then shankbook check {content}",
            path=path,
            content=content,
        )
    )
    return DONE


def _schemas(options: argparse.Namespace) -> int:
    from builder.starter.schemas import FOLDER, write_schemas  # noqa: PLC0415

    written = write_schemas(options.content)
    _say(
        tr(
            "{count} schemas written into {folder}",
            count=len(written),
            folder=options.content / FOLDER,
        )
    )
    return DONE


def _tell(problems: Sequence[Problem]) -> None:
    kept, left_out = shortened(problems, MAX_PROBLEMS_PER_FILE, MAX_PROBLEMS)
    for problem in kept:
        _say(
            tr(
                "{place}: {severity}: {message}",
                place=problem.place,
                severity=problem.severity,
                message=problem.message,
            )
        )
        for line in problem.hint.splitlines():
            _say(f"    {line}")
    if problems:
        _tell_left_out(left_out)
        _say(_totals(problems))


def _tell_left_out(left_out: Mapping[str, int]) -> None:
    """How many problems of which files are not listed."""
    # Imported here: the libraries that write numbers are there once there are problems.
    from builder.display.numerals import whole_number  # noqa: PLC0415

    files = sorted(left_out.items())
    for file, count in files[:MAX_FILES_NAMED]:
        _say(tr("{file}: {count} more, not listed here", file=file, count=whole_number(count)))
    if others := files[MAX_FILES_NAMED:]:
        _say(
            ntr(
                "{number} other file: {count} more, not listed here",
                "{number} other files: {count} more, not listed here",
                len(others),
                number=whole_number(len(others)),
                count=whole_number(sum(count for _, count in others)),
            )
        )


def _totals(problems: Sequence[Problem]) -> str:
    """How many errors and warnings there are; at least so many, where not all are held."""
    from builder.display.numerals import whole_number  # noqa: PLC0415

    counted = [problem for problem in problems if not problem.stands_for_more]
    found = sum(problem.is_error for problem in counted)
    errors = ntr("{number} error", "{number} errors", found, number=whole_number(found))
    others = len(counted) - found
    warnings = ntr("{number} warning", "{number} warnings", others, number=whole_number(others))
    if len(counted) < len(problems):
        return tr("at least {errors}, {warnings}", errors=errors, warnings=warnings)
    return tr("{errors}, {warnings}", errors=errors, warnings=warnings)


def _say(text: str) -> None:
    sys.stderr.write(f"{text}\n")


_RUNS: Mapping[str, Callable[[argparse.Namespace], int]] = {
    "build": _build,
    "check": _check,
    "preview": _preview,
    "new": _new,
    "schemas": _schemas,
}
