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
from collections.abc import Callable, Collection, Iterator, Sequence
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from builder import __version__
from builder.problems import BusyError, ShankbookError, did_you_mean, shortened

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
    build = _add(commands, "build", _build, "compute the content and publish the site", output=True)
    build.add_argument(
        "--edition",
        action="append",
        metavar="NAME",
        help="for one kind of reader: owner, kitchen, front-of-house or one of kitchen.yaml; "
        "several, or all, go into folders side by side",
    )
    build.add_argument(
        "--since",
        default="",
        metavar="REVISION",
        help='what "What changed" compares with: the content at a revision of its git repository, '
        "such as HEAD~1 or v1 (else the build before into the same folder)",
    )
    _add(commands, "check", _check, "tell every problem of the content, publish nothing")
    preview = _add(commands, "preview", _preview, "build, serve here, follow changes", output=True)
    preview.add_argument("--port", type=int, default=8000, help="port on this machine (8000)")
    # It builds the owner's site, against the build before.
    preview.set_defaults(edition=None, since="")
    _add_new(commands)
    schemas = commands.add_parser("schemas", help="write schemas for editors into CONTENT/.schema")
    schemas.add_argument("content", type=_folder, help="content folder")
    schemas.set_defaults(run=_schemas)
    return parser


NEW = """\
shankbook new FOLDER                 start a kitchen in a folder that is not there yet, or empty
shankbook new KIND NAME              write one annotated record: cut, cook, pantry, recipe, plate,
                                     swap, service, tasting or count
shankbook new KIND NAME --like ID    write a copy of a record, to change
"""


def _add_new(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    new = commands.add_parser(
        "new",
        help="start a kitchen folder, or one record in it",
        description=NEW,
        usage="shankbook new FOLDER | KIND NAME [options]",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    new.add_argument("what", metavar="FOLDER or KIND", help="a folder, or a kind of record")
    new.add_argument("name", nargs="?", default="", help="name of the record")
    kitchen = new.add_argument_group("of a kitchen")
    kitchen.add_argument("--units", type=_units, metavar="UNITS", help="metric or us-customary")
    kitchen.add_argument("--currency", type=str.upper, help="ISO 4217 code, such as USD")
    kitchen.add_argument("--locale", help="how numbers are written, such as en_US")
    kitchen.add_argument("--authority", help="rule set that the cooks are held against")
    record = new.add_argument_group("of a record")
    record.add_argument("--like", metavar="ID", help="record to copy")
    record.add_argument("--content", type=_folder, help="content folder (content, or this one)")
    new.set_defaults(run=_new)


def _units(text: str) -> str:
    folded = text.lower().replace("-", " ").replace("_", " ").strip()
    if folded not in {"metric", "us customary", "customary"}:
        raise argparse.ArgumentTypeError(f'"{text}" is neither metric nor us-customary')
    return "metric" if folded == "metric" else "us customary"


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
    if options.edition:
        return _build_editions(options)
    # Imported here, like below: --help must not wait for the numeric libraries.
    from builder.build import build  # noqa: PLC0415
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
        _say("nothing published; the sites that were there are as they were")
        return CONTENT_ERRORS
    for each in published:
        for line in lines_of(each):
            _say(line)
    _say(LOGIN)
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


_OF_KITCHEN = ("units", "currency", "locale", "authority")


def _new(options: argparse.Namespace) -> int:
    from builder.starter import ChoiceError, Choices, start  # noqa: PLC0415
    from builder.starter.records import KINDS  # noqa: PLC0415

    chosen = {each: getattr(options, each) for each in _OF_KITCHEN if getattr(options, each)}
    if wrong := _not_new(options, chosen, KINDS):
        return _misused(wrong)
    if options.name:
        return _new_record(options)
    folder = _folder(options.what)
    try:
        start(folder, Choices(**chosen))
    except ChoiceError as error:
        return _misused(str(error))
    _say(f"started; next: shankbook build {folder} output")
    return DONE


def _not_new(options: argparse.Namespace, chosen: Collection[str], kinds: Collection[str]) -> str:
    """Why the arguments of new don't go together; empty where they do."""
    kind, name = options.what, options.name
    if not kind.strip():
        return "a folder has a name"
    if name and kind not in kinds:
        return f'"{kind}" is no kind of record; {did_you_mean(kind, kinds) or ", ".join(kinds)}'
    if not name and kind in kinds:
        return f"new {kind} needs a name; a folder of that name is written ./{kind}"
    if name and chosen:
        return f"--{next(iter(chosen))} is of a whole kitchen; kitchen.yaml says it for all records"
    if not name and (options.like or options.content):
        return "--like and --content are of one record; write new KIND NAME"
    return ""


def _misused(message: str) -> int:
    _say(f"shankbook new: {message}")
    return USAGE


def _new_record(options: argparse.Namespace) -> int:
    from builder.starter.records import new_record  # noqa: PLC0415

    here = Path()
    content = options.content or (here if (here / "kitchen.yaml").exists() else Path("content"))
    path = new_record(content, options.what, options.name, options.like or "")
    _say(f"written: {path}; next: edit it, then shankbook check {content}")
    return DONE


def _schemas(options: argparse.Namespace) -> int:
    from builder.starter.schemas import FOLDER, write_schemas  # noqa: PLC0415

    written = write_schemas(options.content)
    _say(f"{len(written)} schemas written into {options.content / FOLDER}")
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
