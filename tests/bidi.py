"""A real Firefox for the tests, spoken to over WebDriver BiDi.

The library that drives Chromium comes with a Firefox of its own making, which has to be
downloaded; this drives the one that a system's package manager installs. Names of commands and
events are those of the W3C's working draft "WebDriver BiDi", as far as Firefox knows them.
"""

from __future__ import annotations

import json
import os
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from websockets.sync.client import ClientConnection, connect

# Seconds for Firefox to start with a new profile, and for one command, on a busy machine.
STARTS = 60
ANSWERS = 60
WITHOUT_A_WINDOW = ("--headless", "--no-remote", "--remote-debugging-port=0")
# Nothing is asked of the outside, nothing opens by itself, and the scheme is the light one.
PREFERENCES: dict[str, bool | int | str] = {
    "app.normandy.enabled": False,
    "app.update.disabledForTesting": True,
    "browser.aboutwelcome.enabled": False,
    "browser.backup.enabled": False,
    "browser.newtabpage.enabled": False,
    "browser.safebrowsing.downloads.enabled": False,
    "browser.safebrowsing.malware.enabled": False,
    "browser.safebrowsing.phishing.enabled": False,
    "browser.shell.checkDefaultBrowser": False,
    "browser.startup.page": 0,
    "datareporting.policy.dataSubmissionEnabled": False,
    "extensions.getAddons.cache.enabled": False,
    "extensions.update.enabled": False,
    "layout.css.prefers-color-scheme.content-override": 1,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "services.settings.server": "data:,",
    "toolkit.telemetry.server": "",
}
# Keys that are no characters, by their code points in "WebDriver", section "Keyboard actions".
KEYS = {
    "ArrowDown": "\ue015",
    "Backspace": "\ue003",
    "Enter": "\ue007",
    "Escape": "\ue00c",
    "Tab": "\ue004",
}


# What a test writes to the console last: what comes before it has been heard.
END = "the end of the test"
REQUESTS = ("beforeRequestSent", "responseCompleted", "fetchError")


class BidiError(Exception):
    """Firefox did not do what it was asked; says what and why."""


@dataclass
class Session:
    """A connection to a Firefox, and the events that it has sent and nobody has read."""

    connection: ClientConnection
    events: list[dict[str, Any]] = field(default_factory=list)
    asked: int = 0

    def send(self, command: str, **parameters: object) -> dict[str, Any]:
        """Ask for one thing and wait for it.

        Raises:
            BidiError: the browser says that it could not.
            TimeoutError: it says nothing.
        """
        self.asked += 1
        asked = {"id": self.asked, "method": command, "params": parameters}
        self.connection.send(json.dumps(asked))
        while (answer := self._next()).get("id") != self.asked:
            self.events.append(answer)
        if answer["type"] == "error":
            raise BidiError(f"{command}: {answer['error']}: {answer['message']}")
        result: dict[str, Any] = answer["result"]
        return result

    def listen(self, event: str, text: str) -> None:
        """Wait until an event of a kind has come that says a text; all are kept."""
        while not any(_says(each, event, text) for each in self.events):
            self.events.append(self._next())

    def _next(self) -> dict[str, Any]:
        message: dict[str, Any] = json.loads(self.connection.recv(timeout=ANSWERS))
        return message


def _says(message: dict[str, Any], event: str, text: str) -> bool:
    return message.get("method") == event and message["params"].get("text") == text


@contextmanager
def started(program: str) -> Iterator[Session]:
    """Start a Firefox without a window and with a profile and home of its own, and end it."""
    with tempfile.TemporaryDirectory(prefix="firefox-", ignore_cleanup_errors=True) as folder:
        profile = Path(folder, "profile")
        profile.mkdir()
        lines = map(_line, PREFERENCES.items())
        (profile / "user.js").write_text("\n".join(lines), encoding="utf-8")
        process = subprocess.Popen(
            [program, *WITHOUT_A_WINDOW, "--profile", str(profile), "about:blank"],
            env={**os.environ, "HOME": folder, "MOZ_HEADLESS": "1"},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        try:
            with connect(_address(process, profile), max_size=None, proxy=None) as connection:
                yield _opened(connection)
        finally:
            process.terminate()
            process.wait(timeout=STARTS)


def _line(preference: tuple[str, bool | int | str]) -> str:
    return f"user_pref({json.dumps(preference[0])}, {json.dumps(preference[1])});"


def _address(process: subprocess.Popen[bytes], profile: Path) -> str:
    """Where the started Firefox listens; it writes the port into its profile."""
    written = profile / "WebDriverBiDiServer.json"
    deadline = time.monotonic() + STARTS
    while not (written.exists() and written.stat().st_size):
        if process.poll() is not None or time.monotonic() > deadline:
            raise BidiError("Firefox does not start")
        time.sleep(0.05)
    server = json.loads(written.read_text(encoding="utf-8"))
    return f"ws://{server['ws_host']}:{server['ws_port']}/session"


def _opened(connection: ClientConnection) -> Session:
    session = Session(connection)
    session.send("session.new", capabilities={})
    events = ["log.entryAdded", *(f"network.{it}" for it in REQUESTS)]
    session.send("session.subscribe", events=events)
    return session


@dataclass(frozen=True)
class Tab:
    """One tab of a Firefox."""

    session: Session
    context: str

    def go(self, address: str) -> None:
        """Open an address and wait until it is loaded."""
        self._send("browsingContext.navigate", url=address, wait="complete")

    def size(self, width: int, height: int = 900) -> None:
        """Give the page so many pixels."""
        self._send("browsingContext.setViewport", viewport={"width": width, "height": height})

    def run(self, expression: str) -> Any:
        """The value of an expression of JavaScript in the page, awaited if it is a promise."""
        wrapped = f"(async () => JSON.stringify((await ({expression})) ?? null))()"
        return json.loads(self._evaluated(wrapped)["value"])

    def until(self, expression: str, *, seconds: float = 30) -> None:
        """Wait until an expression is true.

        Raises:
            AssertionError: it is still false after `seconds`.
        """
        deadline = time.monotonic() + seconds
        while not self.run(f"Boolean({expression})"):
            assert time.monotonic() < deadline, f"never true: {expression}"
            time.sleep(0.05)

    def text(self, selector: str) -> str:
        """The words of the first element that a selector finds, spaces made plain."""
        words: str = self.run(f"document.querySelector({json.dumps(selector)}).innerText")
        return " ".join(words.split())

    def type(self, *keys: str) -> None:
        """Press and release keys: a name of `KEYS`, or the characters of a text in turn."""
        pressed = [key for each in keys for key in (KEYS.get(each) or each)]
        actions = [{"type": way, "value": key} for key in pressed for way in ("keyDown", "keyUp")]
        self._act({"type": "key", "id": "keyboard", "actions": actions})

    def click(self, selector: str) -> None:
        """Press the middle of the first element that a selector finds, scrolled to if need be."""
        found = f"document.querySelector({json.dumps(selector)})"
        self.run(f"{found}.scrollIntoView({{ block: 'center', behavior: 'instant' }})")
        element = {"sharedId": self._evaluated(found)["sharedId"]}
        middle = {"type": "element", "element": element}
        self._act(
            {
                "type": "pointer",
                "id": "mouse",
                "actions": [
                    {"type": "pointerMove", "x": 0, "y": 0, "origin": middle},
                    {"type": "pointerDown", "button": 0},
                    {"type": "pointerUp", "button": 0},
                ],
            }
        )

    def _act(self, source: dict[str, Any]) -> None:
        self._send("input.performActions", actions=[source])

    def _evaluated(self, expression: str) -> dict[str, Any]:
        answer = self.session.send(
            "script.evaluate",
            expression=expression,
            target={"context": self.context},
            awaitPromise=True,
            userActivation=True,
        )
        if answer["type"] == "exception":
            raise BidiError(f"{answer['exceptionDetails']['text']}: {expression[:200]}")
        value: dict[str, Any] = answer["result"]
        return value

    def _send(self, command: str, **parameters: object) -> None:
        self.session.send(command, context=self.context, **parameters)


@contextmanager
def opened(session: Session, home: str, path: str, *, width: int = 1280) -> Iterator[Tab]:
    """Open a page of a site; a message, a script's error or a request elsewhere fails.

    Raises:
        AssertionError: there was one, on the page or on those that it led to.
    """
    session.events.clear()
    made = session.send("browsingContext.create", type="tab")
    tab = Tab(session, made["context"])
    try:
        tab.size(width)
        tab.go(f"{home}/{path}")
        yield tab
        tab.run(f"console.debug({END!r})")
        session.listen("log.entryAdded", END)
    finally:
        session.send("browsingContext.close", context=tab.context)
    found = troubles(session, home)
    assert found == [], f"{path}: {found}"


def troubles(session: Session, home: str) -> list[str]:
    """What a page wrote to the console, and what it asked for outside its site or in vain."""
    # Firefox has a font of its own for signs in `data:`, which leaves no machine.
    usual = (home, "data:")
    return [line for line in map(_trouble, session.events) if line and not line.startswith(usual)]


def _trouble(event: dict[str, Any]) -> str:
    said = event["params"]
    match event["method"]:
        case "log.entryAdded" if said["text"] != END:
            return f"{said['level']}: {said['text']}"
        case "network.beforeRequestSent":
            return str(said["request"]["url"])
        case "network.responseCompleted" if said["response"]["status"] >= 400:
            return f"{said['response']['status']}: {said['request']['url']}"
        case "network.fetchError" if said["errorText"] != "NS_BINDING_ABORTED":
            return f"{said['errorText']}: {said['request']['url']}"
    return ""
