"""The preview's HTTP server: loopback, read only, nothing but the output folder."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from socket import socket
from typing import Protocol
from urllib.parse import urlsplit

from builder.preview.pages import (
    MEDIA_TYPES,
    RELOAD_EVENTS,
    RELOAD_SCRIPT,
    find,
    language_of_site,
    missing_page,
    read,
    reload_script,
    with_reload,
)
from builder.preview.state import State


class Source(Protocol):
    """What the server has to know of the preview."""

    output: Path
    host: str

    def state(self) -> State:
        """Say which site is published and whether the last build failed."""

    def next_state(self, shown: State | None) -> State | None:
        """Wait for a state other than the one shown; None when it is time for a sign of life."""

    @property
    def stopping(self) -> bool:
        """Whether the preview is shutting down."""


class Server(ThreadingHTTPServer):
    """One thread a connection; none of them keeps the program alive."""

    daemon_threads = True
    block_on_close = False

    def __init__(self, address: tuple[str, int], preview: Source) -> None:
        self.preview = preview
        super().__init__(address, _Handler)

    def handle_error(self, request: socket | tuple[bytes, socket], client_address: object) -> None:
        """Report an error in answering, unless it is only a browser that hung up."""
        if not isinstance(sys.exception(), ConnectionError | TimeoutError):
            super().handle_error(request, client_address)


class _Handler(BaseHTTPRequestHandler):
    """Answers GET and HEAD from the output folder, and from nowhere else."""

    server: Server
    server_version = "shankbook"
    sys_version = ""
    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        """Answer a request; a name other than ours comes from a page that wants to spy on us."""
        path = urlsplit(self.path).path if not self.path.startswith("//") else "//"
        if not self._is_for_us():
            self._send(HTTPStatus.MISDIRECTED_REQUEST, b"not for this server\n")
        elif path == RELOAD_EVENTS:
            self._send_events()
        elif path == RELOAD_SCRIPT:
            script = reload_script(language_of_site(self.server.preview.output))
            self._send(HTTPStatus.OK, script, MEDIA_TYPES[".js"])
        else:
            self._send_file(path)

    do_HEAD = do_GET  # noqa: N815

    def log_message(self, format: str, *args: object) -> None:
        """Keep the terminal for the problems."""

    def _is_for_us(self) -> bool:
        preview = self.server.preview
        port = self.server.server_address[1]
        names = {preview.host, "127.0.0.1", "localhost"}
        host = self.headers.get("Host", "")
        return preview.host == "0.0.0.0" or host in {f"{name}:{port}" for name in names}

    def _send_file(self, path: str) -> None:
        file = find(self.server.preview.output, path)
        if file is not None and file.is_dir() and not path.endswith("/"):
            self._head(HTTPStatus.FOUND, {"Location": f"{path}/", "Content-Length": "0"})
            return
        if file is not None and path.endswith("/"):
            file = file / "index.html"
        # The version first: a site that arrives while we read only makes the page reload.
        version = self.server.preview.state().version
        body = read(file) if file is not None else None
        if file is None or body is None:
            page = with_reload(missing_page(language_of_site(self.server.preview.output)), version)
            self._send(HTTPStatus.NOT_FOUND, page, MEDIA_TYPES[".html"])
            return
        kind = MEDIA_TYPES.get(file.suffix.lower(), "application/octet-stream")
        self._send(HTTPStatus.OK, with_reload(body, version) if "html" in kind else body, kind)

    def _send(
        self, status: HTTPStatus, body: bytes, kind: str = "text/plain; charset=utf-8"
    ) -> None:
        self._head(status, {"Content-Type": kind, "Content-Length": str(len(body))})
        if self.command != "HEAD":
            self.wfile.write(body)

    def _head(self, status: HTTPStatus, headers: Mapping[str, str]) -> None:
        self.send_response(status)
        always = {"Cache-Control": "no-store", "X-Content-Type-Options": "nosniff"}
        for name, value in {**headers, **always}.items():
            self.send_header(name, value)
        self.end_headers()

    def _send_events(self) -> None:
        """Stream states as server-sent events until the browser or the preview goes away."""
        self._head(HTTPStatus.OK, {"Content-Type": "text/event-stream", "Connection": "close"})
        self.close_connection = True
        shown: State | None = None
        while self.command != "HEAD" and not self.server.preview.stopping:
            state = self.server.preview.next_state(shown)
            line = f"data: {state.to_json()}\n\n" if state else ": still here\n\n"
            self.wfile.write(line.encode())
            shown = state or shown
