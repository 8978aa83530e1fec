"""Reading a content folder: what is read, what is refused, and nothing outside it."""

from __future__ import annotations

import hashlib
import os
import socket
import tempfile
import tracemalloc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from builder.problems import Place, Severity, ShankbookError
from builder.reading.folder import CSV, YAML, Folder, read_folder
from builder.reading.limits import LIMITS, Limits

NOBODY = 65534
FOLDERS = {"cuts": YAML, "cooks": YAML, "prices": CSV, "tastings": (*YAML, *CSV)}


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """A kitchen of two cuts inside a folder that holds more."""
    (tmp_path / "outside.yaml").write_bytes(b"secret: 1\n")
    root = tmp_path / "content"
    for name in ("cuts/shank.yaml", "cuts/chuck.yml", "kitchen.yaml"):
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_bytes(name.encode())
    return root


def read(root: Path, limits: Limits = LIMITS) -> Folder:
    return read_folder(root, FOLDERS, limits=limits)


def paths(folder: Folder) -> list[str]:
    return [file.path for file in folder.files]


def said(folder: Folder) -> list[tuple[str, str, str]]:
    assert all(problem.place.line == 0 for problem in folder.problems)
    return [(p.place.file, p.message, p.hint) for p in folder.problems]


def test_files_come_sorted_with_bytes_and_digest(root: Path) -> None:
    folder = read(root)
    assert folder.problems == ()
    assert paths(folder) == ["cuts/chuck.yml", "cuts/shank.yaml", "kitchen.yaml"]
    chuck = folder.within("cuts")[0]
    assert (chuck.folder, chuck.id, chuck.suffix) == ("cuts", "chuck", ".yml")
    assert chuck.data == b"cuts/chuck.yml"
    assert chuck.digest == hashlib.sha256(b"cuts/chuck.yml").hexdigest()


def test_reading_twice_gives_equal_values(root: Path) -> None:
    assert read(root) == read(root)


@pytest.mark.parametrize(
    "name",
    [
        "README.md", "cuts/README", "cuts/notes.md", ".gitignore", "cuts/.#shank.yaml",
        "cuts/shank.yaml~", "cuts/#shank.yaml#", "cuts/.shank.yaml.swp", "cuts/shank.yaml.bak",
        "prices/~$list.csv", "cuts/Thumbs.db", "cuts/.DS_Store", ".hidden/cuts.yaml",
    ],
)  # fmt: skip
def test_editors_leavings_and_readmes_are_passed_over(root: Path, name: str) -> None:
    (root / name).parent.mkdir(exist_ok=True)
    (root / name).write_bytes(b"{")
    assert read(root) == Folder(read(root).files, ())
    assert name not in paths(read(root))


# a file to add, then where, part of the message, part of the hint
MISNAMED = [
    ("cuts/Beef Chuck.yaml", "cuts/Beef Chuck.yaml", "lowercase", '"beef-chuck.yaml"'),
    ("cuts/beef_chuck.YML", "cuts/beef_chuck.YML", "lowercase", '"beef-chuck.yml"'),
    ("cuts/brûlée.yaml", "cuts/brûlée.yaml", "lowercase", '"brulee.yaml"'),
    ("cuts/lamb.YAML", "cuts/lamb.YAML", "lowercase", '"lamb.yaml"'),
    ("cuts/-.yaml", "cuts/-.yaml", "lowercase", "such as"),
    ("cuts/لحم.yaml", "cuts/لحم.yaml", "lowercase", "may have any letters"),
    ("cuts/🐄.yaml", "cuts/🐄.yaml", "lowercase", "may have any letters"),
    ("cuts/con.yaml", "cuts/con.yaml", "some computers keep for themselves", "rename"),
    ("cuts/blank.yaml", "cuts/blank.yaml", "blank forms", "rename"),
    (f"cuts/{'x' * 101}.yaml", f"cuts/{'x' * 101}.yaml", "at most 100", "rename"),
    ("tastings", "tastings", "this is a file", ""),
    ("cuts/a\n.yaml", "cuts/a\\n.yaml", "lowercase", '"a.yaml"'),
    ("cuts/shank.yml", "cuts/shank.yml", 'same id as "shank.yaml"', "rename one"),
    ("cuts/Shank.yaml", "cuts/Shank.yaml", 'same name but for its case as "shank.yaml"', "rename"),
    ("cut/leg.yaml", "cut", "folder is not one that is read", 'did you mean "cuts"?'),
    ("Cuts/leg.yaml", "Cuts", "folder is not one that is read", 'did you mean "cuts"?'),
    ("photos/leg.jpg", "photos", "folder is not", "cooks, cuts, prices, tastings"),
    ("cuts/beef/leg.yaml", "cuts/beef", "a folder in here is not read", "up to cuts/"),
    ("kitchens.yaml", "kitchens.yaml", "does not belong at the top", 'did you mean "kitchen"?'),
    ("zzz.yaml", "zzz.yaml", "does not belong at the top", "known here: kitchen.yaml"),
]


@pytest.mark.parametrize(("name", "file", "message", "hint"), MISNAMED)
def test_a_misnamed_file_is_an_error_and_the_others_are_read(
    root: Path, name: str, file: str, message: str, hint: str
) -> None:
    before = read(root).files
    (root / name).parent.mkdir(parents=True, exist_ok=True)
    (root / name).write_bytes(b"name: x\n")
    folder = read(root)
    assert folder.files == before
    [problem] = folder.problems
    assert problem.is_error
    assert problem.place == Place(file)
    assert message in problem.message
    assert hint in problem.hint


@pytest.mark.parametrize("name", ["cuts/photo.jpg", "cuts/list.csv", "notes.txt", "cuts/leg"])
def test_a_stray_file_is_a_warning(root: Path, name: str) -> None:
    (root / name).write_bytes(b"x")
    [problem] = read(root).problems
    assert (problem.place, problem.severity) == (Place(name), Severity.WARNING)
    assert ".yaml or .yml" in problem.hint


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        ("cuts/leg.yaml.txt", "leg.yaml"),
        ("cuts/leg.yaml.TXT", "leg.yaml"),
        ("prices/list.csv.txt", "list.csv"),
        ("cuts/leg.yaml.yaml.txt", "leg.yaml.yaml"),
    ],
)
def test_an_ending_added_unseen_is_seen(root: Path, name: str, meant: str) -> None:
    (root / name).parent.mkdir(exist_ok=True)
    (root / name).write_bytes(b"x")
    assert said(read(root)) == [(name, "this file is not read", f'rename it to "{meant}"')]


def test_a_record_and_its_table_may_share_an_id(root: Path) -> None:
    (root / "tastings").mkdir()
    for name in ("tastings/sept.csv", "tastings/sept.yaml"):
        (root / name).write_bytes(b"x")
    folder = read(root)
    assert folder.problems == ()
    assert paths(folder)[-2:] == ["tastings/sept.csv", "tastings/sept.yaml"]


def test_a_missing_kitchen_file_is_an_error(root: Path) -> None:
    (root / "kitchen.yaml").unlink()
    assert said(read(root)) == [("kitchen.yaml", "this file is missing", "every kitchen has one")]
    (root / "Kitchen.yaml").write_bytes(b"x")
    assert [(file, hint) for file, _, hint in said(read(root))] == [
        ("Kitchen.yaml", 'rename it to "kitchen.yaml"')
    ]


def link_file_out(root: Path) -> None:
    (root / "cuts/leg.yaml").symlink_to(root.parent / "outside.yaml")


def link_folder_out(root: Path) -> None:
    (root.parent / "other").mkdir()
    (root.parent / "other/leg.yaml").write_bytes(b"secret: 1\n")
    (root / "cooks").symlink_to(root.parent / "other")


def link_to_device(root: Path) -> None:
    (root / "cuts/leg.yaml").symlink_to("/dev/zero")


def link_loop(root: Path) -> None:
    (root / "cuts/leg.yaml").symlink_to("leg.yaml")


def link_to_nothing(root: Path) -> None:
    (root / "cuts/leg.yaml").symlink_to("gone.yaml")


def link_folder_to_itself(root: Path) -> None:
    (root / "cuts/again").symlink_to(root)


def fifo(root: Path) -> None:
    os.mkfifo(root / "cuts/leg.yaml")


def unix_socket(root: Path) -> None:
    here = Path.cwd()
    os.chdir(root / "cuts")  # a socket's path may have about 100 characters only
    with socket.socket(socket.AF_UNIX) as listener:
        listener.bind("leg.yaml")
    os.chdir(here)


def large_file(root: Path) -> None:
    with (root / "cuts/leg.yaml").open("wb") as file:
        file.truncate(20 * 1024 * 1024)


def large_table(root: Path) -> None:
    (root / "prices").mkdir()
    with (root / "prices/leg.csv").open("wb") as file:
        file.truncate(20 * 1024 * 1024)


HOSTILE: list[tuple[Callable[[Path], None], str, str]] = [
    (link_file_out, "cuts/leg.yaml", "symbolic link out of the content folder"),
    (link_folder_out, "cooks", "symbolic link out of the content folder"),
    (link_to_device, "cuts/leg.yaml", "symbolic link out of the content folder"),
    (link_loop, "cuts/leg.yaml", os.strerror(40)),
    (link_to_nothing, "cuts/leg.yaml", os.strerror(2)),
    (link_folder_to_itself, "cuts/again", "a folder in here is not read"),
    (fifo, "cuts/leg.yaml", "not an ordinary file"),
    (unix_socket, "cuts/leg.yaml", "not an ordinary file"),
    (large_file, "cuts/leg.yaml", "20,971,520 bytes; at most 262,144"),
    (large_table, "prices/leg.csv", "20,971,520 bytes; at most 8,388,608"),
]


@pytest.mark.skipif(os.name != "posix", reason="links, pipes and sockets as POSIX has them")
@pytest.mark.parametrize(("make", "file", "message"), HOSTILE)
def test_what_is_no_plain_file_inside_is_refused_unread(
    root: Path, make: Callable[[Path], None], file: str, message: str
) -> None:
    before = read(root).files
    make(root)
    tracemalloc.start()
    folder = read(root)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert folder.files == before
    assert [problem.place for problem in folder.problems] == [Place(file)]
    assert message in folder.problems[0].message
    assert peak < 1e6


def test_a_link_that_stays_inside_is_read(root: Path) -> None:
    (root / "cuts/leg.yaml").symlink_to("shank.yaml")
    folder = read(root)
    assert folder.problems == ()
    assert folder.within("cuts")[1].data == b"cuts/shank.yaml"


def test_a_content_folder_that_is_itself_a_link_is_read(root: Path) -> None:
    link = root.parent / "link"
    link.symlink_to(root)
    assert read(link) == read(root)


@contextmanager
def as_anyone(folder: Path) -> Iterator[None]:
    """Be a user whom permissions bind, for whom the folders down to here are open."""
    if os.geteuid() != 0:
        yield
        return
    for each in (folder, *folder.parents[: -len(Path(tempfile.gettempdir()).parts)]):
        each.chmod(each.stat().st_mode | 0o055)
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


@pytest.mark.skipif(os.name != "posix", reason="permissions are kept another way")
def test_an_unreadable_file_is_a_problem(root: Path) -> None:
    (root / "cuts/shank.yaml").chmod(0)
    with as_anyone(root):
        folder = read(root)
    assert [(file, os.strerror(13) in message) for file, message, _ in said(folder)] == [
        ("cuts/shank.yaml", True)
    ]


@pytest.mark.skipif(os.name != "posix", reason="file names are bytes on POSIX only")
def test_a_name_that_is_not_utf8_is_reported_printably(root: Path) -> None:
    try:
        Path(os.fsdecode(os.fsencode(root / "cuts") + b"/leg\xff.yaml")).write_bytes(b"x")
    except OSError:
        pytest.skip("this disk takes no such name")
    [problem] = read(root).problems
    assert problem.place.file == "cuts/leg\\udcff.yaml"


def test_the_folder_as_a_whole_has_a_cap(root: Path) -> None:
    size = sum(len(file.data) for file in read(root).files)
    assert read(root, Limits(total_bytes=size)).problems == ()
    folder = read(root, Limits(total_bytes=size - 1))
    assert len(folder.files) == 2
    assert "the folder holds more than" in folder.problems[0].message


@pytest.mark.parametrize("name", ["nowhere", "outside.yaml"])
def test_no_folder_to_list_stops_everything(root: Path, name: str) -> None:
    with pytest.raises(ShankbookError, match="cannot list"):
        read(root.parent / name)
