"""The preview: serves the site on this machine, builds again on a change, reloads the page.

What the browser gets differs from what is published by two things, both added while serving: a
script that listens for the next build, and leave for it to connect to this server. A build that
fails leaves the site as it was and puts a note on the open page.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from pathlib import Path

from builder.language import tr
from builder.preview.server import Server
from builder.preview.state import State, version_of
from builder.preview.watcher import Watcher
from builder.problems import ShankbookError
from builder.refusals import refusal

__all__ = ["Preview", "serve"]

_POLL_SECONDS = 0.3
_HEARTBEAT_SECONDS = 15.0


class Preview:
    """A server and a watcher in the background; `serve` is the same for a terminal.

    Parameters: `output`, the published folder; `rebuild`, which publishes and returns whether
    that worked, and tells the user itself when it did not; `watch`, the files and folders that
    call for a build; `port`, 0 for any free one.
    """

    def __init__(
        self,
        output: Path,
        rebuild: Callable[[], bool],
        watch: Sequence[Path],
        port: int = 0,
        host: str = "127.0.0.1",
    ) -> None:
        self.output = output
        self._rebuild = rebuild
        self._watch = watch
        self._news = threading.Condition()
        self._failed = False
        self._reported: State | None = None
        self._error: BaseException | None = None
        self._stopping = threading.Event()
        try:
            self._server = Server((host, port), self)
        except (OSError, OverflowError) as error:
            refused = refusal(error) if isinstance(error, OSError) else error
            raise ShankbookError(
                tr("cannot serve on {host}:{port}: {error}", host=host, port=port, error=refused)
            ) from error
        self.host = host
        self.port: int = self._server.server_address[1]
        self._threads = [
            threading.Thread(target=self._server.serve_forever, args=(0.05,), daemon=True),
            threading.Thread(target=self._run, daemon=True),
        ]

    @property
    def url(self) -> str:
        """The address of the home page."""
        return f"http://{self.host}:{self.port}/"

    def __enter__(self) -> Preview:
        for thread in self._threads:
            thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._stopping.set()
        self._tell()
        self._server.shutdown()
        self._server.server_close()
        for thread in self._threads:
            thread.join()

    def wait(self) -> None:
        """Wait until the preview is stopped, and raise what `rebuild` raised, if it did."""
        self._stopping.wait()
        if self._error is not None:
            raise self._error

    def state(self) -> State:
        """Say which site is published and whether the last build failed."""
        return State(version_of(self.output), self._failed)

    def next_state(self, shown: State | None) -> State | None:
        """Wait for a state other than the one shown; None when it is time for a sign of life."""
        with self._news:
            self._news.wait_for(
                lambda: self._stopping.is_set() or self.state() != shown, _HEARTBEAT_SECONDS
            )
        state = self.state()
        return state if state != shown else None

    @property
    def stopping(self) -> bool:
        """Whether the preview is shutting down."""
        return self._stopping.is_set()

    def _run(self) -> None:
        """Keep what `rebuild` raises for the thread that waits: it is for the caller to see."""
        try:
            self._follow()
        except BaseException as error:
            self._error = error
            self._stopping.set()
            self._tell()

    def _follow(self) -> None:
        """Build, then build again on every change; a site published by others is news, too."""
        watcher = Watcher(self._watch)
        self._build()
        while not self._stopping.wait(_POLL_SECONDS):
            if watcher.changed():
                self._build()
            elif self.state() != self._reported:
                self._tell()

    def _build(self) -> None:
        self._failed = not self._rebuild()
        self._tell()

    def _tell(self) -> None:
        """Note the state before telling it: what is published meanwhile is news next time."""
        self._reported = self.state()
        with self._news:
            self._news.notify_all()


def serve(
    output: Path,
    rebuild: Callable[[], bool],
    watch: Sequence[Path],
    port: int = 8000,
    host: str = "127.0.0.1",
    *,
    announce: Callable[[str], None] = lambda url: None,  # noqa: ARG005
) -> None:
    """Build, serve and follow changes until Ctrl-C; `announce` gets the address once it answers.

    Raises ShankbookError when the address is taken or not allowed. See `Preview`.
    """
    with Preview(output, rebuild, watch, port, host) as preview:
        announce(preview.url)
        try:
            preview.wait()
        except KeyboardInterrupt:
            return
