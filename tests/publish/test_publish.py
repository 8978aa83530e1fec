"""What a build writes, keeps and deletes.

The expected states are stated by the tests themselves: the pages given, byte for byte.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from builder.problems import ShankbookError
from builder.publish import MANIFEST, Known, Swap, publish
from builder.publish.manifest import sha256

from .sites import FOREIGN, NEW, OLD, leftovers, put, swap_by, tree, whole


@pytest.fixture
def output(tmp_path: Path) -> Path:
    (tmp_path / "kitchen").mkdir()
    return tmp_path / "kitchen" / "output"


@pytest.fixture(params=["exchange", "two renames", "in place"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Run a test once for each way to swap."""
    swap_by(request.param, monkeypatch)
    return str(request.param)


def test_first_build_writes_every_page_and_nothing_else(way: str, output: Path) -> None:
    report = publish(OLD, output)
    assert tree(output) == whole(OLD)
    assert report.written == tuple(sorted(OLD))
    assert leftovers(output) == []


def test_second_build_reports_what_it_did(way: str, output: Path) -> None:
    publish(OLD, output)
    report = publish(NEW, output)
    assert report.written == (
        "cuts/chuck.html",
        "cuts/shank.html",
        "index.html",
        "swaps/fresh/one.html",
    )
    assert report.unchanged == ("style.css",)
    assert report.deleted == ("cuts/gone.html", "plates/only-here.html")
    assert report.swap == {
        "exchange": Swap.EXCHANGED,
        "two renames": Swap.RENAMED,
        "in place": Swap.IN_PLACE,
    }.get(way)
    assert tree(output) == whole(NEW)
    assert not (output / "plates").exists()
    assert leftovers(output) == []


def test_other_peoples_files_stay(way: str, output: Path, tmp_path: Path) -> None:
    publish(OLD, output)
    put(output, FOREIGN)
    (output / "empty").mkdir()
    (tmp_path / "elsewhere.txt").write_text("outside")
    (output / "link").symlink_to(tmp_path / "elsewhere.txt")
    (output / "dangling").symlink_to("nowhere")
    inode = (output / "notes/mine.txt").stat().st_ino
    publish(NEW, output)
    assert tree(output) == whole(NEW, FOREIGN)
    assert (output / "empty").is_dir()
    assert (output / "link").readlink() == tmp_path / "elsewhere.txt"
    assert (output / "dangling").readlink() == Path("nowhere")
    assert (output / "notes/mine.txt").stat().st_ino == inode
    assert leftovers(output) == []


def test_a_lone_gitkeep_is_no_stranger(way: str, output: Path) -> None:
    output.mkdir()
    (output / ".gitkeep").touch()
    publish(OLD, output)
    assert tree(output) == whole(OLD, {".gitkeep": b""})


def _marks(file: Path) -> tuple[int, int, int]:
    about = file.stat()
    return about.st_ino, about.st_mtime_ns, about.st_ctime_ns


def test_nothing_to_change_touches_nothing(way: str, output: Path) -> None:
    publish(OLD, output)
    before = {path: _marks(output / path) for path in [*OLD, MANIFEST]}
    folder = output.stat()
    report = publish(OLD, output)
    assert (report.written, report.deleted, report.swap) == ((), (), Swap.NOT_NEEDED)
    assert {path: _marks(output / path) for path in before} == before
    assert output.stat().st_ino == folder.st_ino
    if way != "in place":
        assert output.stat().st_mtime_ns == folder.st_mtime_ns


def test_unchanged_pages_keep_their_inode_and_date(way: str, output: Path) -> None:
    publish(OLD, output)
    before = (output / "style.css").stat()
    publish(NEW, output)
    after = (output / "style.css").stat()
    assert (after.st_ino, after.st_mtime_ns) == (before.st_ino, before.st_mtime_ns)


def test_an_edit_that_keeps_size_and_date_is_seen(way: str, output: Path) -> None:
    publish(OLD, output)
    page = output / "cuts/chuck.html"
    about = page.stat()
    page.write_bytes(b"OLD chuck")
    os.utime(page, ns=(about.st_atime_ns, about.st_mtime_ns))
    assert publish(OLD, output).written == ("cuts/chuck.html",)
    assert tree(output) == whole(OLD)


def test_a_deleted_page_and_a_deleted_folder_come_back(way: str, output: Path) -> None:
    publish(OLD, output)
    (output / "index.html").unlink()
    (output / "plates/only-here.html").unlink()
    (output / "plates").rmdir()
    assert publish(OLD, output).written == ("index.html", "plates/only-here.html")
    assert tree(output) == whole(OLD)


def test_a_page_replaced_by_a_link_comes_back_and_the_target_is_untouched(
    way: str, output: Path, tmp_path: Path
) -> None:
    victim = tmp_path / "victim.txt"
    victim.write_bytes(OLD["index.html"])
    publish(OLD, output)
    (output / "index.html").unlink()
    (output / "index.html").symlink_to(victim)
    publish(OLD, output)
    assert not (output / "index.html").is_symlink()
    publish(NEW, output)
    assert victim.read_bytes() == OLD["index.html"]


def test_a_folder_replaced_by_a_link_is_never_followed(
    way: str, output: Path, tmp_path: Path
) -> None:
    publish(OLD, output)
    outside = tmp_path / "outside"
    (output / "cuts").rename(outside)
    (output / "cuts").symlink_to(outside)
    before = tree(outside)
    with pytest.raises(ShankbookError, match='"cuts" in the output folder is not ours'):
        publish(NEW, output)
    only_home = {"index.html": b"home"}
    publish(only_home, output)
    assert (output / "cuts").is_symlink()
    assert tree(outside) == before
    assert leftovers(output) == []


def test_a_file_that_becomes_a_folder_and_back(way: str, output: Path) -> None:
    for pages in ({"a": b"file"}, {"a/b": b"below"}, {"a": b"file"}):
        publish(pages, output)
        assert tree(output) == whole(pages)


def test_same_pages_give_the_same_bytes_wherever_and_in_any_order(tmp_path: Path) -> None:
    one, two = tmp_path / "one", tmp_path / "two"
    publish(OLD, one)
    publish(dict(reversed(OLD.items())), two)
    publish(NEW, two)
    publish(iter(OLD.items()), two)
    assert tree(one) == tree(two)
    assert str(tmp_path).encode() not in b"".join(tree(one).values())


def test_the_manifest_lists_hash_and_version(output: Path) -> None:
    publish({"a.html": b"abc"}, output)
    body = json.loads((output / MANIFEST).read_text())
    # FIPS 180-2, Secure Hash Standard, appendix B.1: SHA-256 of "abc" [published, from memory].
    digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert body["files"] == {"a.html": digest}
    assert body["tool"].startswith("shankbook ")


def test_a_failing_page_leaves_the_old_site(way: str, output: Path) -> None:
    def failing() -> Iterator[tuple[str, bytes]]:
        yield from NEW.items()
        raise ZeroDivisionError

    publish(OLD, output)
    with pytest.raises(ZeroDivisionError):
        publish(failing(), output)
    assert tree(output) == whole(OLD)
    assert leftovers(output) == []


def test_a_failing_first_build_leaves_no_folder(output: Path) -> None:
    with pytest.raises(ShankbookError):
        publish([("a.html", b""), ("a.html", b"")], output)
    assert not output.exists()
    assert leftovers(output) == []


def test_a_site_without_pages_is_a_mistake(way: str, output: Path) -> None:
    publish(OLD, output)
    with pytest.raises(ShankbookError, match="no page"):
        publish({}, output)
    assert tree(output) == whole(OLD)


def test_a_known_page_is_rendered_only_when_the_output_lost_it(way: str, output: Path) -> None:
    publish(OLD, output)
    rendered: list[str] = []

    def known(path: str) -> Known:
        def render() -> bytes:
            rendered.append(path)
            return OLD[path]

        return Known(sha256(OLD[path]), render)

    publish({path: known(path) for path in OLD}, output)
    assert rendered == []
    (output / "index.html").write_bytes(b"edited")
    (output / "cuts/gone.html").unlink()
    publish({path: known(path) for path in OLD}, output)
    assert sorted(rendered) == ["cuts/gone.html", "index.html"]
    assert tree(output) == whole(OLD)


def test_a_known_page_that_renders_differently_stops_the_build(output: Path) -> None:
    with pytest.raises(ShankbookError, match="differently"):
        publish({"a.html": Known(sha256(b"a"), lambda: b"b")}, output)


def test_the_mode_of_the_output_folder_is_kept(way: str, output: Path) -> None:
    publish(OLD, output)
    output.chmod(0o2750)
    publish(NEW, output)
    assert output.stat().st_mode & 0o7777 == 0o2750


_NAMES = st.sampled_from(["a", "b", "c/a", "c/b", "d/e/f", "d/e/g", "d/h"])
_SITES = st.dictionaries(_NAMES, st.sampled_from([b"", b"one", b"two"]), min_size=1)
_VANDALS = st.dictionaries(_NAMES, st.sampled_from([None, b"edited"]))


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.lists(st.tuples(_SITES, _VANDALS), min_size=1, max_size=5))
def test_any_sequence_of_builds_ends_like_a_clean_one(
    way: str,
    tmp_path_factory: pytest.TempPathFactory,
    builds: list[tuple[dict[str, bytes], dict[str, bytes | None]]],
) -> None:
    output = tmp_path_factory.mktemp("any") / "output"
    before: dict[str, bytes] = {}
    for pages, vandal in builds:
        report = publish(pages, output)
        assert tree(output) == whole(pages)
        assert leftovers(output) == []
        assert {*report.written, *report.unchanged} == pages.keys()
        assert set(report.deleted) == {path for path in before if path not in pages}
        folders = {
            each.relative_to(output).as_posix() for each in output.rglob("*") if each.is_dir()
        }
        needed = {up.as_posix() for path in pages for up in Path(path).parents if up.name}
        assert folders == needed
        before = dict(pages)
        for path in vandal.keys() & pages.keys():
            body = vandal[path]
            (output / path).unlink() if body is None else (output / path).write_bytes(body)
            if body is None:
                del before[path]
