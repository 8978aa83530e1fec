"""The command line: what may be written, and what is said of what may not, in one language."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Any, NoReturn, TypeAlias

from builder import __version__
from builder.language import Deferred, tr

EXIT_CODES = Deferred("""\
exit codes:
  0  done; there may have been warnings
  1  the content has errors; nothing was published
  2  the command line was not understood
  3  something else is in the way: a folder, a permission, a broken link
""")
NEW = Deferred("""\
shankbook new FOLDER                 start a kitchen in a folder that is not there yet, or empty
shankbook new KIND NAME              write one annotated record: cut, cook, pantry, recipe, plate,
                                     swap, service, tasting or count
shankbook new KIND NAME --like ID    write a copy of a record, to change
""")

# What Python's reader of command lines says itself, which it says in English only.
_REFUSALS = (
    Deferred("argument {argument}: {refusal}"),
    Deferred("the following arguments are required: {arguments}"),
    Deferred("unrecognized arguments: {arguments}"),
    Deferred("expected one argument"),
    Deferred("invalid choice: {choice} (choose from {choices})"),
    Deferred("invalid int value: {value}"),
    Deferred("ambiguous option: {option} could match {options}"),
    Deferred("not allowed with argument {argument}"),
)


def refusal(message: str) -> str:
    """A refusal of Python's own reader in the language of the command.

    >>> refusal("argument --port: expected one argument")
    'argument --port: expected one argument'
    """
    for template in _REFUSALS:
        if found := re.fullmatch(_pattern(template), message, re.DOTALL):
            values = {name: refusal(value) for name, value in found.groupdict().items()}
            return tr(template, **values)
    return message


def _pattern(template: str) -> str:
    """What matches a template, each value under its name, the first as short as can be."""
    return re.sub(r"\\{(\w+)\\}", r"(?P<\1>.+?)", re.escape(template))


class _Formatter(argparse.RawDescriptionHelpFormatter):
    def add_usage(
        self,
        usage: str | None,
        actions: Iterable[argparse.Action],
        groups: Iterable[Any],
        prefix: str | None = None,
    ) -> None:
        super().add_usage(usage, actions, groups, tr("usage: ") if prefix is None else prefix)


class Parser(argparse.ArgumentParser):
    """A reader of a command line that says everything in the language in use."""

    def __init__(self, **settings: Any) -> None:
        super().__init__(**settings, formatter_class=_Formatter, add_help=False)
        self._positionals.title = tr("positional arguments")
        self._optionals.title = tr("options")
        self.add_argument("-h", "--help", action="help", help=tr("show this help and stop"))

    def error(self, message: str) -> NoReturn:
        """Say what was not understood, and exit with 2."""
        self.print_usage(sys.stderr)
        said = tr("{program}: error: {message}", program=self.prog, message=refusal(message))
        self.exit(2, f"{said}\n")


Commands: TypeAlias = "argparse._SubParsersAction[Parser]"


def parser() -> Parser:
    """The reader of the command line; `command` is the name of the command that is written."""
    made = Parser(
        prog="shankbook",
        description=tr("From a kitchen's weighings and prices to a static costing wiki."),
        epilog=tr(EXIT_CODES),
    )
    made.add_argument(
        "--version",
        action="version",
        version=f"shankbook {__version__}",
        help=tr("show the version and stop"),
    )
    commands: Commands = made.add_subparsers(
        title=tr("commands"), required=True, metavar=tr("COMMAND"), dest="command"
    )
    _add_build(commands)
    _add(commands, "check", tr("list every problem of the content, publish nothing"))
    preview = _add(commands, "preview", tr("build, serve here, follow changes"), output=True)
    preview.add_argument(
        "--port", type=int, default=8000, help=tr("port on this machine ({port})", port=8000)
    )
    # It builds the owner's site, against the build before.
    preview.set_defaults(edition=None, since="")
    _add_new(commands)
    schemas = commands.add_parser(
        "schemas", help=tr("write schemas for editors into CONTENT/.schema")
    )
    schemas.add_argument("content", type=folder, help=tr("content folder"))
    return made


def _add_build(commands: Commands) -> None:
    build = _add(commands, "build", tr("compute the content and publish the site"), output=True)
    build.add_argument(
        "--edition",
        action="append",
        metavar=tr("NAME"),
        help=tr(
            "for one kind of reader: owner, kitchen, front-of-house or one of kitchen.yaml; "
            "several, or all, go into folders side by side"
        ),
    )
    build.add_argument(
        "--since",
        default="",
        metavar=tr("REVISION"),
        help=tr(
            'what "What changed" compares with: the content at a revision of its git repository, '
            "such as HEAD~1 or v1 (else the build before into the same folder)"
        ),
    )


def _add_new(commands: Commands) -> None:
    new = commands.add_parser(
        "new",
        help=tr("start a kitchen folder, or one record in it"),
        description=tr(NEW),
        usage=tr("shankbook new FOLDER | KIND NAME [options]"),
    )
    new.add_argument("what", metavar=tr("FOLDER or KIND"), help=tr("a folder, or a kind of record"))
    new.add_argument(
        "name", nargs="?", default="", metavar=tr("NAME"), help=tr("name of the record")
    )
    _of_kitchen(new.add_argument_group(tr("of a kitchen")))
    record = new.add_argument_group(tr("of a record"))
    record.add_argument("--like", metavar="ID", help=tr("record to copy"))
    record.add_argument("--content", type=folder, help=tr("content folder (content, or this one)"))


OF_KITCHEN = ("units", "currency", "locale", "language", "authority")


def _of_kitchen(group: argparse._ArgumentGroup) -> None:
    group.add_argument("--units", type=_units, metavar="UNITS", help=tr("metric or us-customary"))
    group.add_argument("--currency", type=str.upper, help=tr("ISO 4217 code, such as USD"))
    group.add_argument("--locale", help=tr("how numbers are written, such as en_US"))
    group.add_argument(
        "--language", help=tr("language of its pages and of the remarks in its files: en or fr")
    )
    group.add_argument("--authority", help=tr("rule set that the cooks are compared with"))


def _units(text: str) -> str:
    folded = text.lower().replace("-", " ").replace("_", " ").strip()
    if folded not in {"metric", "us customary", "customary"}:
        raise argparse.ArgumentTypeError(
            tr('"{text}" is neither metric nor us-customary', text=text)
        )
    return "metric" if folded == "metric" else "us customary"


def _add(commands: Commands, name: str, help_text: str, *, output: bool = False) -> Parser:
    command = commands.add_parser(name, help=help_text, description=help_text)
    _add_folder(command, "content", tr("content folder ({folder})", folder="content"))
    if output:
        _add_folder(command, "output", tr("site folder ({folder})", folder="output"))
    command.add_argument(
        "--as-of",
        type=_day,
        metavar="DATE",
        help=tr("compute for this day (else the kitchen's own 'as of', else today)"),
    )
    return command


def _add_folder(command: Parser, name: str, about: str) -> None:
    """A folder that may be named; without it, the one here that is called as the argument is."""
    command.add_argument(name, type=folder, nargs="?", default=Path(name), help=about)


def folder(text: str) -> Path:
    """A folder as it is named; raises ArgumentTypeError for a name of blanks."""
    if not text.strip():
        raise argparse.ArgumentTypeError(tr("a folder has a name"))
    return Path(text)


def _day(text: str) -> date:
    try:
        day = date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(
            tr('"{text}" is not a date such as 2026-10-01', text=text)
        ) from None
    from builder.quantities.dates import is_plausible, years_wanted  # noqa: PLC0415

    if not is_plausible(day):
        raise argparse.ArgumentTypeError(
            tr('"{text}" is out of range; wanted: {years}', text=text, years=years_wanted())
        )
    return day
