"""While a blind tasting is ahead its key and its trays are beside the site, never in it."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path

import pytest

from builder.build import Outcome, build
from builder.problems import ShankbookError
from builder.publish import MANIFEST
from tests.site.command import Command
from tests.site.sites import files_of
from tests.tastings.kitchens import KITCHEN, PLACE, SCORES, TRIANGLE, result_of

SEED = "grey geese over the weir"
UNSEEDED = {
    "triangle": TRIANGLE.replace("correct: 8\n", "date: 2026-10-09\n"),
    "scores": SCORES.partition("scores:")[0] + "date: 2026-10-01\n",
    "undated": TRIANGLE.replace("correct: 8\n", ""),
}
AHEAD = {name: f"{yaml}seed: {SEED}\n" for name, yaml in UNSEEDED.items()}
OVER = {
    "answered": TRIANGLE + "date: 2026-09-20\n",
    "past": UNSEEDED["triangle"].replace("10-09", "09-30"),
}


def write(root: Path, files: Mapping[str, str]) -> Path:
    """The small kitchen with these files too."""
    for name, text in {**KITCHEN, **files}.items():
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_text(text, encoding="utf-8")
    return root


def built(folder: Path, yaml: str, cache: Path) -> tuple[Outcome, dict[str, bytes]]:
    """A kitchen with one tasting, built: what came of it, and the files of its site."""
    root = write(folder / "content", {PLACE: yaml})
    outcome = build(root, folder / "site", None, date(2026, 10, 1), cache=cache)
    assert outcome.report is not None, outcome.problems
    return outcome, files_of(folder / "site")


@pytest.mark.parametrize("yaml", UNSEEDED.values(), ids=UNSEEDED)
def test_nothing_in_the_site_depends_on_what_a_code_stands_for(
    tmp_path: Path, script_cache: Path, yaml: str
) -> None:
    """Ballots and their hash alone follow the seed; every other byte is the same without it."""
    _, files = built(tmp_path / "a", f"{yaml}seed: {SEED}\n", script_cache)
    _, other = built(tmp_path / "b", f"{yaml}seed: eight black swans\n", script_cache)
    ballots = "forms/trial-ballots.html"
    assert files.keys() == other.keys()
    drawn = {path for path in files if files[path] != other[path]}
    assert drawn == {ballots, MANIFEST}
    bare = [re.sub(rb"\b[2-8]{3}\b", b"", data[ballots]) for data in (files, other)]
    assert bare[0] == bare[1], "only the codes themselves differ"


def as_found(data: bytes) -> str:
    """The text of a file with references, escapes and spaces undone."""
    text = html.unescape(data.decode("utf-8", "replace"))
    text = re.sub(r"\\u([0-9a-f]{4})", lambda found: chr(int(found[1], 16)), text)
    return "".join(text.lower().split())


@pytest.mark.parametrize(
    "written",
    [
        f"seed: {SEED}",
        f"seed: '{SEED}'   # {SEED}",
        'seed: "grey geese\\x20over the weir"',
        "seed: >\n  grey geese\n  over the weir\n",
        "seed: grey geese\n  over the weir",
        f"note: drawn from {SEED}\nseed: {SEED}",
        "question: &words grey geese over the weir\nseed: *words",
    ],
)
def test_the_seed_is_in_no_published_byte_however_it_is_written(
    tmp_path: Path, script_cache: Path, written: str
) -> None:
    """A note or a question that tells it is shown as such, but the file's lines tell it nowhere."""
    yaml = f"{UNSEEDED['scores']}{written}\n"
    _, files = built(tmp_path, yaml, script_cache)
    found = [path for path, data in files.items() if SEED.replace(" ", "") in as_found(data)]
    assert found == [] or not written.startswith("seed")
    listed = files["tastings/trial.html"].decode().partition("id=file")[2]
    assert SEED.replace(" ", "") not in as_found(listed.encode())
    assert listed.count("id=L") == len(yaml.splitlines())


@pytest.mark.parametrize(
    ("more", "message"),
    [
        ("", "no seed is written"),
        ("seed: trial\n", "the seed is the file's name"),
        ("seed: known already\n", "this seed names or draws another tasting too"),
        ("seed: other\n", "this seed names or draws another tasting too"),
    ],
)
def test_without_a_seed_of_its_own_a_tasting_ahead_has_no_sheets(
    tmp_path: Path, script_cache: Path, more: str, message: str
) -> None:
    root = write(tmp_path / "content", {
        PLACE: UNSEEDED["triangle"] + more,
        "tastings/other.yaml": TRIANGLE,
        "tastings/third.yaml": f"{TRIANGLE}seed: known already\n",
    })  # fmt: skip
    outcome = build(root, tmp_path / "site", None, date(2026, 10, 1), cache=script_cache)
    (problem,) = [p for p in outcome.problems if p.place.file == PLACE]
    assert problem.message.startswith(message)
    assert "seed: with eight letters" in problem.hint
    assert outcome.keys is None
    files = files_of(tmp_path / "site")
    assert not [path for path in files if path.startswith("forms/trial-")]
    assert b"No ballots, tray map and key yet" in files["tastings/trial.html"]


@pytest.mark.parametrize("yaml", AHEAD.values(), ids=AHEAD)
def test_no_byte_of_the_site_tells_the_key(tmp_path: Path, script_cache: Path, yaml: str) -> None:
    _, files = built(tmp_path, yaml, script_cache)
    plan = result_of(yaml).plan
    assert {"forms/trial-key.html", "forms/trial-trays.html"}.isdisjoint(files)
    names = re.compile(rb"ribeye|short\b|long\b|chuck", re.IGNORECASE)
    matter = re.search(
        rb"<section class=.?form.*</section>", files["forms/trial-ballots.html"], re.S
    )
    assert matter
    assert not names.search(matter[0])
    codes = {line.code.encode() for line in plan.key}
    mapped = [
        path
        for path, data in files.items()
        if path != "forms/trial-ballots.html"
        for code in codes
        if re.search(
            rb"[>=]" + code + rb"[< >]|\"" + code + rb"\"|\b" + code + rb" ?(ribeye|short|long)",
            data,
        )
    ]
    assert mapped == []


@pytest.mark.parametrize("yaml", AHEAD.values(), ids=AHEAD)
def test_key_and_trays_lie_beside_the_site(tmp_path: Path, script_cache: Path, yaml: str) -> None:
    outcome, _ = built(tmp_path, yaml, script_cache)
    assert outcome.keys == tmp_path / "site-keys"
    apart = files_of(outcome.keys)
    assert {"index.html", "forms/trial-key.html", "forms/trial-trays.html"} <= apart.keys()
    served = {code for tray in result_of(yaml).plan.trays for code in tray.codes}
    assert all(code.encode() in apart["forms/trial-key.html"] for code in served)
    for path, data in apart.items():
        for href in re.findall(rb'(?:href|src)="([^"#]+)', data) if path.endswith(".html") else ():
            assert (outcome.keys / path).parent.joinpath(href.decode()).exists(), (path, href)


@pytest.mark.parametrize("yaml", OVER.values(), ids=OVER)
def test_once_it_is_over_the_key_joins_the_site(
    tmp_path: Path, script_cache: Path, yaml: str
) -> None:
    built(tmp_path, AHEAD["triangle"], script_cache)
    outcome, files = built(tmp_path, f"{yaml}seed: {SEED}\n", script_cache)
    assert outcome.keys is None
    for path in ("tastings/trial.html", "data/tastings.csv", "forms/trial-ballots.html"):
        assert SEED in files[path].decode()
    assert {"forms/trial-key.html", "forms/trial-trays.html"} <= files.keys()
    assert not [path for path in files_of(tmp_path / "site-keys") if path.startswith("forms/")]


def test_without_a_tasting_ahead_no_folder_is_made(tmp_path: Path, script_cache: Path) -> None:
    built(tmp_path, OVER["answered"], script_cache)
    assert not (tmp_path / "site-keys").exists()


def test_somebody_s_folder_of_that_name_is_left_alone(tmp_path: Path, script_cache: Path) -> None:
    (tmp_path / "site-keys").mkdir()
    (tmp_path / "site-keys" / "mine.txt").write_text("mine")
    with pytest.raises(ShankbookError, match="site-keys holds files"):
        built(tmp_path, AHEAD["triangle"], script_cache)
    assert not (tmp_path / "site").exists()
    built(tmp_path, OVER["answered"], script_cache)
    assert [path.name for path in (tmp_path / "site-keys").iterdir()] == ["mine.txt"]


def test_a_file_put_beside_the_keys_stays(tmp_path: Path, script_cache: Path) -> None:
    built(tmp_path, AHEAD["triangle"], script_cache)
    (tmp_path / "site-keys" / "mine.txt").write_text("mine")
    built(tmp_path, AHEAD["scores"], script_cache)
    built(tmp_path, OVER["answered"], script_cache)
    assert (tmp_path / "site-keys" / "mine.txt").read_text() == "mine"


def test_a_build_that_is_stopped_while_it_prints_leaves_no_key(
    tmp_path: Path, script_cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(*_: object) -> Iterator[tuple[str, bytes]]:
        yield "assets/search-data.js", b""
        raise KeyboardInterrupt

    monkeypatch.setattr("builder.build.site_assets", stopped)
    with pytest.raises(KeyboardInterrupt):
        built(tmp_path, AHEAD["triangle"], script_cache)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["content"]


def test_the_last_lines_name_the_folder(tmp_path: Path, command: Command) -> None:
    root = write(tmp_path / "content", {PLACE: AHEAD["triangle"]})
    ran = command("build", root, tmp_path / "site")
    assert ran.code == 0, ran.reported
    assert str(tmp_path / "site-keys" / "index.html") in "\n".join(ran.reported.splitlines()[-3:])
