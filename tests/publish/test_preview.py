"""The preview over HTTP on the loopback interface."""

from __future__ import annotations

import http.client
import importlib
import json
import os
import socket
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from builder.preview import Preview, serve
from builder.preview.pages import with_reload
from builder.preview.watcher import Watcher
from builder.problems import ShankbookError
from builder.publish import publish

# Carries no types, hence no import statement that mypy could follow.
html5lib = importlib.import_module("html5lib")

POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:"
PAGE = (
    '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Plate</title>'
    f'<meta http-equiv="Content-Security-Policy" content="{POLICY}"></head>'
    "<body><h1>{text}</h1></body></html>"
)
# IANA media type registry: text/javascript RFC 9239, text/css RFC 2318, text/csv RFC 4180,
# application/json RFC 8259, image/svg+xml SVG 2 appendix P, image/png PNG 3rd edition,
# image/webp RFC 9649, font/woff2 RFC 8081, application/pdf RFC 8118 [published, from memory].
REGISTERED = {
    "a.html": "text/html",
    "a.js": "text/javascript",
    "a.css": "text/css",
    "a.csv": "text/csv",
    "a.json": "application/json",
    "a.svg": "image/svg+xml",
    "a.png": "image/png",
    "a.webp": "image/webp",
    "a.woff2": "font/woff2",
    "a.pdf": "application/pdf",
    "a.strange": "application/octet-stream",
}


class Kitchen:
    """A content folder of one file, and a build that fails when the file says so."""

    def __init__(self, root: Path) -> None:
        self.content = root / "content"
        self.output = root / "output"
        self.content.mkdir()
        self.say("first")
        self.builds = 0
        self.built = threading.Event()

    def say(self, text: str) -> None:
        """Write in one step: a build must never read the half of it."""
        half = self.content.parent / "plate.half"
        half.write_text(text)
        half.replace(self.content / "plate.yaml")

    def build(self) -> bool:
        self.builds += 1
        try:
            return self._publish()
        finally:
            self.built.set()

    def _publish(self) -> bool:
        text = (self.content / "plate.yaml").read_text()
        if text == "broken":
            return False
        files = dict.fromkeys(REGISTERED, b"x")
        page = PAGE.replace("{text}", text).encode()
        publish({**files, "index.html": page, "cuts/index.html": page}, self.output)
        return True

    def preview(self) -> Preview:
        return Preview(self.output, self.build, [self.content])


@pytest.fixture
def kitchen(tmp_path: Path) -> Kitchen:
    return Kitchen(tmp_path)


@pytest.fixture
def preview(kitchen: Kitchen) -> Iterator[Preview]:
    """A site that is published and a preview that has built it again and is at rest."""
    kitchen.build()
    kitchen.built.clear()
    with kitchen.preview() as running:
        assert kitchen.built.wait(20)
        yield running


def ask(
    preview: Preview, path: str, method: str = "GET", host: str | None = None
) -> tuple[http.client.HTTPResponse, bytes]:
    connection = http.client.HTTPConnection("127.0.0.1", preview.port, timeout=20)
    connection.putrequest(method, path, skip_host=True)
    connection.putheader("Host", host or f"127.0.0.1:{preview.port}")
    connection.endheaders()
    answer = connection.getresponse()
    body = answer.read()
    connection.close()
    return answer, body


class Events:
    """Reads the states that the preview streams."""

    def __init__(self, preview: Preview) -> None:
        self._connection = http.client.HTTPConnection("127.0.0.1", preview.port, timeout=20)
        self._connection.request("GET", "/__reload")
        self._answer = self._connection.getresponse()
        assert self._answer.getheader("Content-Type") == "text/event-stream"

    def next(self) -> dict[str, object]:
        while not (line := self._answer.readline()).startswith(b"data: "):
            assert line, "the stream ended"
        return dict(json.loads(line.removeprefix(b"data: ")))

    def until(self, **wanted: object) -> dict[str, object]:
        while not wanted.items() <= (state := self.next()).items():
            pass
        return state


@pytest.mark.parametrize(("path", "kind"), REGISTERED.items())
def test_media_types(path: str, kind: str, preview: Preview) -> None:
    answer, _ = ask(preview, f"/{path}")
    assert answer.status == 200
    assert (answer.getheader("Content-Type") or "").split(";")[0] == kind
    assert answer.getheader("X-Content-Type-Options") == "nosniff"
    assert answer.getheader("Cache-Control") == "no-store"


@pytest.mark.parametrize(
    "path",
    [
        "/../content/plate.yaml",
        "/cuts/../../content/plate.yaml",
        "/%2e%2e/content/plate.yaml",
        "/%2E%2E%2Fcontent%2Fplate.yaml",
        "/..%2fcontent/plate.yaml",
        "/..\\content\\plate.yaml",
        "/%5C..%5Ccontent",
        "//etc/passwd",
        "//127.0.0.1/index.html",
        "/cuts//index.html",
        "/./index.html",
        "/.shankbook-manifest.json",
        "/.git/config",
        "/index.html%00.png",
        "/index.html/",
        "/index.html/x",
        "/linked.html",
        "/linked/plate.yaml",
        "/missing.html",
        "/" + "x" * 5000,
    ],
)
def test_nothing_outside_the_output(path: str, preview: Preview, kitchen: Kitchen) -> None:
    (kitchen.output / "linked.html").symlink_to(kitchen.content / "plate.yaml")
    (kitchen.output / "linked").symlink_to(kitchen.content)
    answer, body = ask(preview, path)
    assert answer.status == 404
    assert b"first" not in body


def test_a_folder_answers_with_its_index_and_never_with_a_listing(preview: Preview) -> None:
    assert b"<h1>first</h1>" in ask(preview, "/")[1]
    assert b"<h1>first</h1>" in ask(preview, "/cuts/")[1]
    answer, _ = ask(preview, "/cuts")
    assert (answer.status, answer.getheader("Location")) == (302, "/cuts/")
    assert b"<h1>first</h1>" in ask(preview, "/index.html?sort=price")[1]


def test_a_folder_without_an_index_is_not_found(preview: Preview, kitchen: Kitchen) -> None:
    (kitchen.output / "bare").mkdir()
    assert ask(preview, "/bare/")[0].status == 404


def test_head_sends_no_body_and_other_methods_are_refused(preview: Preview) -> None:
    answer, body = ask(preview, "/a.css", "HEAD")
    assert (answer.status, answer.getheader("Content-Length"), body) == (200, "1", b"")
    assert ask(preview, "/a.css", "POST")[0].status == 501


@pytest.mark.parametrize("host", ["evil.invalid", "evil.invalid:80", "127.0.0.1.evil.invalid"])
def test_a_name_that_is_not_ours_is_refused(host: str, preview: Preview) -> None:
    answer, body = ask(preview, "/", host=host)
    assert answer.status == 421
    assert b"first" not in body


def test_localhost_is_us(preview: Preview) -> None:
    assert ask(preview, "/", host=f"localhost:{preview.port}")[0].status == 200


def test_the_script_is_added_while_serving_only(preview: Preview, kitchen: Kitchen) -> None:
    served = ask(preview, "/")[1].decode()
    assert '<script src="/__reload.js?v=' in served
    assert "connect-src &#x27;self&#x27;" in served
    published = (kitchen.output / "index.html").read_text()
    assert "__reload" not in published
    assert "connect-src" not in published
    assert ask(preview, "/a.css")[1] == b"x"
    answer, script = ask(preview, "/__reload.js")
    assert answer.status == 200
    assert b"EventSource" in script


@pytest.mark.parametrize(
    ("policy", "expected"),
    [
        ('"default-src x"', "default-src x; connect-src 'self'"),
        ("'default-src x;'", "default-src x; connect-src 'self'"),
        ("\"a; connect-src 'none'; b\"", "a; b; connect-src 'self'"),
        ('"a &#39;none&#39;"', "a 'none'; connect-src 'self'"),
        ('"connect-src &#39;none&#39;; a"', "a; connect-src 'self'"),
    ],
)
def test_the_policy_gets_one_connection(policy: str, expected: str) -> None:
    page = f'<meta http-equiv="Content-Security-Policy" content={policy}>'
    result = with_reload(page.encode(), "1").decode()
    read = html5lib.parse(result, namespaceHTMLElements=False).find(".//meta")
    assert read.get("content") == expected


def test_an_edit_is_built_and_reported(preview: Preview, kitchen: Kitchen) -> None:
    events = Events(preview)
    first = events.until(failed=False)["version"]
    kitchen.say("second")
    second = events.next()
    assert second["version"] != first
    assert b"<h1>second</h1>" in ask(preview, "/")[1]
    kitchen.say("first!")
    (kitchen.content / "plate.yaml").write_text("first")
    while events.next()["version"] != first:
        pass


def test_a_failed_build_keeps_the_site_and_is_reported(preview: Preview, kitchen: Kitchen) -> None:
    events = Events(preview)
    version = events.until(failed=False)["version"]
    kitchen.say("broken")
    assert events.until(failed=True)["version"] == version
    assert b"<h1>first</h1>" in ask(preview, "/")[1]
    kitchen.say("mended")
    assert events.until(failed=False)["version"] != version
    assert b"<h1>mended</h1>" in ask(preview, "/")[1]


def test_a_page_opened_before_the_first_build_comes_by_itself(kitchen: Kitchen) -> None:
    gate = threading.Event()

    def build() -> bool:
        gate.wait(20)
        return kitchen.build()

    with Preview(kitchen.output, build, [kitchen.content]) as preview:
        answer, body = ask(preview, "/")
        assert answer.status == 404
        assert b"__reload.js?v=none" in body
        events = Events(preview)
        assert events.next() == {"version": "none", "failed": False}
        gate.set()
        assert events.next()["version"] != "none"
        assert ask(preview, "/")[0].status == 200


def test_a_site_built_by_another_process_is_reported(preview: Preview, kitchen: Kitchen) -> None:
    events = Events(preview)
    first = events.next()["version"]
    publish({"index.html": b"from elsewhere"}, kitchen.output)
    assert events.next()["version"] != first


def test_what_the_build_raises_comes_out_of_serve(kitchen: Kitchen) -> None:
    addresses: list[str] = []

    def build() -> bool:
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        serve(kitchen.output, build, [kitchen.content], 0, announce=addresses.append)
    assert addresses[0].startswith("http://127.0.0.1:")


def test_a_taken_port_is_one_line(kitchen: Kitchen) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        with pytest.raises(ShankbookError, match="cannot serve on"):
            Preview(kitchen.output, kitchen.build, [], other.getsockname()[1])


def test_a_port_out_of_range_is_one_line(kitchen: Kitchen) -> None:
    with pytest.raises(ShankbookError, match="cannot serve on"):
        Preview(kitchen.output, kitchen.build, [], 70_000)


def test_the_watcher_sees_content_and_nothing_else(tmp_path: Path) -> None:
    file = tmp_path / "prices.yaml"
    file.write_text("price: 1.20")
    watcher = Watcher([tmp_path])
    assert not watcher.changed()
    file.write_text("price: 1.20")
    file.touch()
    assert not watcher.changed()
    about = file.stat()
    file.write_text("price: 1.30")
    os.utime(file, ns=(about.st_atime_ns, about.st_mtime_ns))
    assert watcher.changed()
    for ignored in (".prices.yaml.swp", "prices.yaml~", "__pycache__/x.pyc", ".git/index"):
        (tmp_path / ignored).parent.mkdir(exist_ok=True)
        (tmp_path / ignored).write_text("x")
        assert not watcher.changed()
    (tmp_path / "more").mkdir()
    (tmp_path / "more/cut.yaml").write_text("x")
    assert watcher.changed()
    (tmp_path / "more/cut.yaml").rename(tmp_path / "more/moved.yaml")
    assert watcher.changed()
    (tmp_path / "more/moved.yaml").unlink()
    assert watcher.changed()
    assert not watcher.changed()


def test_the_watcher_sees_an_edit_of_a_file_whose_dates_are_old(tmp_path: Path) -> None:
    file = tmp_path / "old.yaml"
    file.write_text("1.20")
    os.utime(file, (1_000_000_000, 1_000_000_000))
    watcher = Watcher([file])
    time.sleep(2.1)  # until a look at the file counts as settled
    assert not watcher.changed()
    file.write_text("1.30")
    os.utime(file, (1_000_000_000, 1_000_000_000))
    assert watcher.changed()


@pytest.mark.browser
def test_a_real_browser_reloads_under_the_strict_policy(
    preview: Preview, kitchen: Kitchen, browser: Browser
) -> None:
    complaints: list[str] = []
    page = browser.new_page()
    page.on("console", lambda message: complaints.append(message.text))
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.goto(preview.url)
    expect(page.locator("h1")).to_have_text("first")
    kitchen.say("second")
    expect(page.locator("h1")).to_have_text("second", timeout=20_000)
    kitchen.say("broken")
    note = page.get_by_role("alert")
    expect(note).to_contain_text("build failed", timeout=20_000)
    assert note.evaluate("note => getComputedStyle(note).position") == "fixed"
    kitchen.say("second")
    expect(note).to_have_count(0, timeout=20_000)
    page.close()
    assert [each for each in complaints if "favicon" not in each and "404" not in each] == []
