"""The thin shell: arguments in, messages and an exit code out.

Exit codes
    0   done; warnings may have been told
    1   the content has errors; nothing was published, the old site stands
    2   the command line was not understood
    3   something else is in the way: a folder, a permission, a broken link
"""

from __future__ import annotations

import argparse
import signal
import sys
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from builder import __version__
from builder.problems import BusyError, ShankbookError, shortened

if TYPE_CHECKING:
    from builder.problems import Problem

DONE, CONTENT_ERRORS, USAGE, IN_THE_WAY = 0, 1, 2, 3

MAX_PROBLEMS_PER_FILE = 50
# How long a preview waits, again and again, for another build of the same site to end.
BUSY_WAITS_SECONDS = (0.5,) * 20

# The method pages are made of docstrings, and the chart library reads its own at import.
NO_DOCSTRINGS = (
    "Python leaves out docstrings here (-OO or PYTHONOPTIMIZE=2), and the pages are made of "
    "them; run it without, or with PYTHONOPTIMIZE=1"
)

EXIT_CODES = """\
exit codes:
  0  done; warnings may have been told
  1  the content has errors; nothing was published
  2  the command line was not understood
  3  something else is in the way: a folder, a permission, a broken link
"""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    options = _parser().parse_args(arguments)
    if sys.flags.optimize > 1:
        _say(f"shankbook: {NO_DOCSTRINGS}")
        return IN_THE_WAY
    run: Callable[[argparse.Namespace], int] = options.run
    try:
        with _ended_like_ctrl_c():
            return run(options)
    except ShankbookError as error:
        _say(f"shankbook: {error}")
        return IN_THE_WAY
    except KeyboardInterrupt:
        _say("stopped; the published site is whole, old or new")
        return IN_THE_WAY


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


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="shankbook",
        description="From a kitchen's weighings and prices to a static costing wiki.",
        epilog=EXIT_CODES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"shankbook {__version__}")
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")
    _add(commands, "build", _build, "compute the content and publish the site", output=True)
    _add(commands, "check", _check, "tell every problem of the content, publish nothing")
    preview = _add(commands, "preview", _preview, "build, serve here, follow changes", output=True)
    preview.add_argument("--port", type=int, default=8000, help="port on this machine (8000)")
    new = commands.add_parser("new", help="start a new kitchen folder with a first example")
    new.add_argument("folder", type=_folder, help="a folder that is not there yet, or empty")
    new.set_defaults(run=_new)
    return parser


def _add(
    commands: argparse._SubParsersAction[argparse.ArgumentParser],
    name: str,
    run: Callable[[argparse.Namespace], int],
    help_text: str,
    *,
    output: bool = False,
) -> argparse.ArgumentParser:
    command = commands.add_parser(name, help=help_text, description=help_text)
    command.add_argument(
        "content", type=_folder, nargs="?", default=Path("content"), help="content folder (content)"
    )
    if output:
        command.add_argument(
            "output", type=_folder, nargs="?", default=Path("output"), help="site folder (output)"
        )
    command.add_argument(
        "--as-of",
        type=_day,
        metavar="DATE",
        help="compute for this day (else the kitchen's own 'as of', else today)",
    )
    command.set_defaults(run=run)
    return command


def _folder(text: str) -> Path:
    if not text.strip():
        raise argparse.ArgumentTypeError("a folder has a name")
    return Path(text)


def _day(text: str) -> date:
    try:
        day = date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f'"{text}" is not a date such as 2026-10-01') from None
    from builder.quantities.dates import YEARS, is_plausible  # noqa: PLC0415

    if not is_plausible(day):
        raise argparse.ArgumentTypeError(f'"{text}" is out of range; wanted: {YEARS}')
    return day


def _build(options: argparse.Namespace) -> int:
    # Imported here, like below: --help must not wait for the numeric libraries.
    from builder.build import build  # noqa: PLC0415
    from builder.progress import progress_on  # noqa: PLC0415

    outcome = build(
        options.content, options.output, options.as_of, date.today(), progress_on(sys.stderr)
    )
    _tell(outcome.problems)
    if outcome.report is None:
        _say("nothing published; the site that was there is as it was")
        return CONTENT_ERRORS
    report = outcome.report
    if outcome.keys is not None:
        _say(
            "keys of blind tastings ahead, not in the site: "
            f"open {(outcome.keys / 'index.html').resolve()}"
        )
    _say(
        f"{len(report.written)} files written, {len(report.unchanged)} unchanged, "
        f"{len(report.deleted)} deleted\n"
        f"open {(options.output / 'index.html').resolve()}"
    )
    return DONE


def _check(options: argparse.Namespace) -> int:
    from builder.build import compute_content  # noqa: PLC0415

    _, problems = compute_content(options.content, options.as_of, date.today())
    _tell(problems)
    if any(problem.is_error for problem in problems):
        return CONTENT_ERRORS
    _say("the content can be published")
    return DONE


def _preview(options: argparse.Namespace) -> int:
    from builder.preview import serve  # noqa: PLC0415

    serve(
        options.output,
        _Rebuild(options),
        [options.content],
        options.port,
        announce=lambda url: _say(f"serving {url} (Ctrl-C stops)"),
    )
    _say("preview stopped; the site stays")
    return DONE


class _Rebuild:
    """Builds for the preview, which outlives what is in the way for a while.

    The first build may fail with an error: then the command line is what has to be mended.
    """

    def __init__(self, options: argparse.Namespace) -> None:
        self._options = options
        self._started = False

    def __call__(self) -> bool:
        """Build and tell what came of it; wait while another build writes the same site."""
        for wait in BUSY_WAITS_SECONDS:
            try:
                return self._build()
            except BusyError:
                time.sleep(wait)
        _say("shankbook: another build of this site does not end; change a file to try again")
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
    from builder.starter import start  # noqa: PLC0415

    start(options.folder)
    _say(f"started; next: shankbook build {options.folder} output")
    return DONE


def _tell(problems: Sequence[Problem]) -> None:
    kept, left_out = shortened(problems, MAX_PROBLEMS_PER_FILE)
    for problem in kept:
        _say(f"{problem.place}: {problem.severity}: {problem.message}")
        for line in problem.hint.splitlines():
            _say(f"    {line}")
    for file, count in left_out.items():
        _say(f"{file}: {count:,} more, not listed here")
    errors = sum(problem.is_error for problem in problems)
    if problems:
        _say(f"{_count(errors, 'error')}, {_count(len(problems) - errors, 'warning')}")


def _count(number: int, what: str) -> str:
    return f"{number:,} {what}" + ("" if number == 1 else "s")


def _say(text: str) -> None:
    sys.stderr.write(f"{text}\n")
