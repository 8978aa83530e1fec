"""What is refused, in words, with the old site as it was."""

from __future__ import annotations

import json
import os
import socket
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.problems import BusyError, ShankbookError
from builder.publish import MANIFEST, publish, recover, site, work
from builder.publish.paths import check_path
from builder.publish.work import beside

from .sites import NEW, OLD, in_child, leftovers, put, swap_by, tree, whole

# RFC 3986 section 5.2.4 (dot segments) and 3.3 [published]; names of devices and trailing dots:
# Microsoft, Naming Files, Paths, and Namespaces [published]; both from memory.
BAD_PATHS = [
    "",
    "/etc/passwd",
    "//host/share",
    "../up.html",
    "cuts/../../up.html",
    "cuts/..",
    "./a.html",
    "a//b.html",
    "a/",
    "a\\b.html",
    "..\\up.html",
    "C:/a.html",
    "C:a.html",
    "a.html:stream",
    "a\0b.html",
    "a\nb.html",
    "a.html\n",
    " a.html",
    "a .html",
    "a.",
    "folder./a.html",
    "...",
    ".hidden.html",
    "cuts/.git/config",
    ".shankbook-manifest.json",
    ".shankbook-work/new",
    "con",
    "CON.html",
    "cuts/aux.txt",
    "lpt1.html",
    "jambon-cru-\u00e9.html",
    "e\u0301.html",
    "a\u2215b.html",
    "a*.html",
    "a?.html",
    "a%2e.html",
    "~root",
    "x" * 201,
    "/".join(["x" * 100] * 11),
]


@pytest.mark.parametrize("path", BAD_PATHS)
def test_a_path_that_no_page_can_have(path: str, tmp_path: Path) -> None:
    output = tmp_path / "output"
    publish(OLD, output)
    with pytest.raises(ShankbookError):
        publish({**NEW, path: b"bad"}, output)
    assert tree(tmp_path) == {f"output/{name}": body for name, body in whole(OLD).items()}


@pytest.mark.parametrize(
    "path", ["a", "a.b.c", "data/cuts.csv", "a_b-c.html", "0/1/2", "console.js"]
)
def test_a_path_that_a_page_can_have(path: str) -> None:
    check_path(path)


@pytest.mark.parametrize(
    ("paths", "words"),
    [
        (["a.html", "a.html"], "written twice"),
        (["a.html", "A.html"], "one file"),
        (["Cuts/a.html", "cuts/b.html"], "one file"),
        (["x/Cuts/a.html", "x/cuts/b.html"], "one file"),
        (["a", "a/b"], "one file"),
        (["a/b", "a"], "one file"),
        (["a/b/c", "A"], "one file"),
    ],
)
def test_two_pages_in_one_place(paths: list[str], words: str, tmp_path: Path) -> None:
    output = tmp_path / "output"
    publish(OLD, output)
    with pytest.raises(ShankbookError, match=words):
        publish(((path, b"") for path in paths), output)
    assert tree(output) == whole(OLD)


@pytest.mark.parametrize(
    "stranger", ["index.html", "INDEX.html", "cuts", "CUTS/x", "swaps/fresh/one.html/x"]
)
def test_a_page_in_the_place_of_a_strangers_file(stranger: str, tmp_path: Path) -> None:
    output = tmp_path / "output"
    publish({"first.html": b""}, output)
    put(output, {stranger: b"mine"})
    with pytest.raises(ShankbookError, match="is not ours"):
        publish(NEW, output)
    assert tree(output) == whole({"first.html": b""}, {stranger: b"mine"})


def _file(output: Path) -> None:
    output.write_text("a file")


def _strangers(output: Path) -> None:
    put(output, {"thesis.txt": b"years of work"})


def _empty_folder_of_a_stranger(output: Path) -> None:
    (output / "photos").mkdir(parents=True)


def _gitkeep_and_more(output: Path) -> None:
    put(output, {".gitkeep": b"", "more.txt": b""})


def _link(output: Path) -> None:
    (output.parent / "real").mkdir()
    output.symlink_to(output.parent / "real")


def _dangling(output: Path) -> None:
    output.symlink_to(output.parent / "nowhere")


def _manifest(body: object) -> Callable[[Path], None]:
    def write(output: Path) -> None:
        put(output, {MANIFEST: json.dumps(body).encode(), "victim.txt": b""})

    return write


def _torn_manifest(output: Path) -> None:
    put(output, {MANIFEST: b'{"format": 1, "fil'})


def _linked_manifest(output: Path) -> None:
    put(output, {"m.json": b"{}"})
    (output / MANIFEST).symlink_to("m.json")


_HASH = "0" * 64


@pytest.mark.parametrize(
    "make",
    [
        _file,
        _strangers,
        _empty_folder_of_a_stranger,
        _gitkeep_and_more,
        _link,
        _dangling,
        _torn_manifest,
        _linked_manifest,
        _manifest([]),
        _manifest({"format": 2, "tool": "later", "files": {}}),
        _manifest({"format": 1, "tool": "x", "files": {"../../victim.txt": _HASH}}),
        _manifest({"format": 1, "tool": "x", "files": {"/victim.txt": _HASH}}),
        _manifest({"format": 1, "tool": "x", "files": {"victim.txt": "short"}}),
        _manifest({"format": 1, "tool": "x", "files": {"victim.txt": 7}}),
    ],
)
def test_a_folder_that_is_not_ours(make: Callable[[Path], None], tmp_path: Path) -> None:
    output = tmp_path / "output"
    make(output)
    before = tree(tmp_path)
    with pytest.raises(ShankbookError):
        publish(NEW, output)
    assert tree(tmp_path) == before
    assert not beside(output).exists()


def test_the_root_and_a_work_folder_of_a_stranger(tmp_path: Path) -> None:
    with pytest.raises(ShankbookError):
        publish(OLD, Path("/"))
    put(beside(tmp_path / "output"), {"mine.txt": b"mine"})
    with pytest.raises(ShankbookError, match="not ours"):
        publish(OLD, tmp_path / "output")
    assert tree(tmp_path) == {".output.shankbook-work/mine.txt": b"mine"}


def test_a_work_folder_that_is_a_link(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    put(tmp_path / "elsewhere", {"lock": b"", "new/precious.txt": b"mine"})
    beside(tmp_path / "output").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(ShankbookError, match="not ours"):
        publish(OLD, tmp_path / "output")
    assert tree(tmp_path / "elsewhere") == {"lock": b"", "new/precious.txt": b"mine"}


def test_a_second_build_at_the_same_time(tmp_path: Path) -> None:
    output = tmp_path / "output"
    publish(OLD, output)

    def meanwhile(step: str) -> None:
        with pytest.raises(BusyError, match="another build"):
            publish({"index.html": b"intruder"}, output)
        with pytest.raises(BusyError, match="another build"):
            recover(output)

    publish(NEW, output, observe=meanwhile)
    assert tree(output) == whole(NEW)
    assert leftovers(output) == []


@pytest.mark.parametrize("call", ["write", "keep", "manifest", "swap", "aside"])
@pytest.mark.parametrize(
    "error", [OSError(28, "No space left on device"), PermissionError(13, "no")]
)
def test_the_system_refuses_at_any_step(
    call: str, error: OSError, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    output = tmp_path / "output"
    publish(OLD, output)
    if call == "aside":
        swap_by("two renames", monkeypatch)

    def refuse(step: str) -> None:
        if step == call:
            raise error

    with pytest.raises(ShankbookError, match="could not be published"):
        publish(NEW, output, observe=refuse)
    assert tree(output) == whole(OLD)
    assert leftovers(output) == []


def test_a_disk_that_is_really_full(tmp_path: Path) -> None:
    resource = pytest.importorskip("resource")
    output = tmp_path / "output"
    publish(OLD, output)
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (4096, hard))
    try:
        with pytest.raises(ShankbookError, match="could not be published"):
            publish({**NEW, "big.html": b"x" * 10_000}, output)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert tree(output) == whole(OLD)
    assert leftovers(output) == []


def test_a_parent_without_write_permission_is_served_in_place() -> None:
    nobody = 65_534
    with tempfile.TemporaryDirectory() as name:
        parent, output = Path(name), Path(name) / "output"
        publish(OLD, output)
        if os.geteuid() == 0:
            for each in (output, *output.rglob("*")):
                os.chown(each, nobody, nobody)
        parent.chmod(0o555)

        def build() -> None:
            if os.geteuid() == 0:
                os.setuid(nobody)
            assert publish(NEW, output).swap == site.Swap.IN_PLACE

        assert in_child(build) == 0
        parent.chmod(0o755)
        assert tree(parent) == {f"output/{path}": body for path, body in whole(NEW).items()}


def test_a_mount_point_is_served_in_place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    output = tmp_path / "output"
    publish(OLD, output)
    monkeypatch.setattr(work, "is_mount", lambda folder: folder == output)
    assert publish(NEW, output).swap == site.Swap.IN_PLACE
    assert tree(output) == whole(NEW)
    assert leftovers(output) == []


def test_a_pipe_in_the_place_of_a_page_is_not_read(tmp_path: Path) -> None:
    output = tmp_path / "output"
    publish(OLD, output)
    (output / "index.html").unlink()
    os.mkfifo(output / "index.html")
    publish(OLD, output)
    assert tree(output) == whole(OLD)


def test_no_hard_links(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*args: object, **options: object) -> None:
        raise PermissionError(1, "not permitted")

    output = tmp_path / "output"
    publish(OLD, output)
    put(output, {"CNAME": b"kitchen.invalid"})
    monkeypatch.setattr(os, "link", refuse)
    publish(NEW, output)
    assert tree(output) == whole(NEW, {"CNAME": b"kitchen.invalid"})
    assert leftovers(output) == []


def test_a_socket_of_a_stranger_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    output = tmp_path / "output"
    publish(OLD, output)
    monkeypatch.chdir(output)
    with socket.socket(socket.AF_UNIX) as server:
        server.bind("live.sock")
        publish(NEW, output)
        assert (output / "live.sock").is_socket()


def test_relative_paths_work(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    publish(OLD, Path("output"))
    publish(NEW, Path("./sub/../output"))
    assert tree(tmp_path / "output") == whole(NEW)
