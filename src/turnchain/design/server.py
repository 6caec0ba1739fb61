"""Serves the page on which a pattern is designed, to this machine alone.

In: a pattern file, or none. Out: a server of the standard library on 127.0.0.1. It answers a browser that was opened
with its one-time token and from then on holds a cookie, under its own host name and origin only; it serves the page's
own files, has ``turnchain.live`` answer messages, and reads and writes the one file given.
"""

from __future__ import annotations

import json
import secrets
import sys
import time
from collections.abc import Callable
from functools import cache
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from importlib import resources
from threading import Lock
from typing import Any, Final, TypeAlias
from urllib.parse import parse_qs, urlsplit

from turnchain.design.pattern_file import ChangedElsewhereError, PatternFile
from turnchain.design.searching import Searcher, is_long
from turnchain.errors import MakerError
from turnchain.live.answering import Live

Json: TypeAlias = Any

MOST_BYTES = 4_000_000  # of a message: a pattern file has at most a quarter of it
LOOK_EVERY = 0.2  # seconds between two looks at the file's time
COOKIE = "turnchain"
KINDS: Final = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".txt": "text/plain; charset=utf-8",
    ".ttf": "font/ttf",
    ".svg": "image/svg+xml",
}
POLICY: Final = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' blob: data:; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)


class DesignServer(ThreadingHTTPServer):
    """The server of one page on 127.0.0.1; ``file`` is None where nothing but the browser keeps the pattern; ``port`` 0
    takes any free one. OSError where the port is taken."""

    daemon_threads = True

    def __init__(self, file: PatternFile | None, port: int = 0) -> None:
        super().__init__(("127.0.0.1", port), Handler)
        self.file = file
        folder = None if file is None else file.path.parent
        self.live, self.turn = Live(folder), Lock()
        self.searcher = Searcher(folder)
        self._token: str | None = secrets.token_urlsafe(24)
        self.cookie = secrets.token_urlsafe(24)
        self.closing = False

    @property
    def host(self) -> str:
        """The host and port that a request must name: "127.0.0.1:PORT"."""
        return f"127.0.0.1:{self.server_address[1]}"

    @property
    def address(self) -> str:
        """The address to open in a browser; it works once."""
        return f"http://{self.host}/?token={self._token}"

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that goes away in the middle of an answer is no fault; others are shown as usual."""
        if not isinstance(sys.exc_info()[1], ConnectionError):
            super().handle_error(request, client_address)

    def server_close(self) -> None:
        """Ends the server and what is searched beside it."""
        self.searcher.stop()
        super().server_close()

    def admits(self, token: str) -> bool:
        """Whether ``token`` opens the page; it does so once."""
        good = self._token is not None and secrets.compare_digest(token, self._token)
        if good:
            self._token = None
        return good


class Handler(BaseHTTPRequestHandler):
    """One request. Replies are JSON, files of the page, server-sent events, or a line of plain text for a refusal."""

    server: DesignServer
    server_version, sys_version = "turnchain", ""
    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        """The page ("/"), its files, the pattern file ("/file": "name", "text", "digest") and events when it changes
        ("/news"). 403 for a request from elsewhere or without the cookie, 404 for any other path."""
        parts = urlsplit(self.path)
        token = parse_qs(parts.query).get("token", [""])[0]
        if not self._own_host():
            self._refuse(HTTPStatus.FORBIDDEN, "this page answers under its own address alone")
        elif parts.path == "/" and token and self.server.admits(token):
            self._welcome()
        elif not self._known():
            self._refuse(HTTPStatus.FORBIDDEN, "open the page from the terminal: turnchain design")
        elif parts.path == "/file":
            self._guarded(self._file)
        elif parts.path == "/news":
            self._news()
        else:
            self._page(parts.path)

    def do_POST(self) -> None:
        """A message to answer ("/live"), a text to save ("/save": "text", "digest" as last read), or a long search to
        stop ("/stop"). 403 as for GET, 404
        for any other path, 413 over ``MOST_BYTES``, 400 for what is no message, 409 with the file's text where it was
        changed elsewhere, 422 with "error" for what a maker can mend."""
        if not (self._own_host() and self._known() and self._own_origin()):
            self._refuse(HTTPStatus.FORBIDDEN, "this page answers itself alone")
            return
        doing: dict[str, Callable[[Json], Json]] = {"/live": self._live, "/save": self._save, "/stop": self._stop}
        does = doing.get(urlsplit(self.path).path)
        length = self.headers.get("Content-Length", "")
        if does is None:
            self._refuse(HTTPStatus.NOT_FOUND, "there is no such page")
        elif not length.isdecimal() or int(length) > MOST_BYTES:
            self.close_connection = True
            self._refuse(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, "the message is too long")
        else:
            body = self.rfile.read(int(length))
            self._guarded(lambda: does(json.loads(body)))

    # ------------------------------------------------------------------------------------------------ who may ask

    def _own_host(self) -> bool:
        """Whether the request names this server's own host, not another name that leads to this machine."""
        return self.headers.get("Host") == self.server.host

    def _own_origin(self) -> bool:
        return self.headers.get("Origin") == f"http://{self.server.host}"

    def _known(self) -> bool:
        held = [part.strip() for part in self.headers.get("Cookie", "").split(";")]
        return any(secrets.compare_digest(one, f"{COOKIE}={self.server.cookie}") for one in held)

    # -------------------------------------------------------------------------------------------------- answers

    def _guarded(self, does: Callable[[], Json]) -> None:
        """The answer of ``does`` as JSON; what a maker can mend as words."""
        try:
            answer, status = does(), HTTPStatus.OK
        except ChangedElsewhereError as error:
            answer = {"error": str(error), "text": error.now.text, "digest": error.now.digest}
            status = HTTPStatus.CONFLICT
        except MakerError as error:
            answer, status = {"error": str(error)}, HTTPStatus.UNPROCESSABLE_ENTITY
        except (ValueError, KeyError, TypeError, AttributeError):
            answer, status = {"error": "this is no message"}, HTTPStatus.BAD_REQUEST
        self._send(status, KINDS[".js"].replace("text/javascript", "application/json"), json.dumps(answer).encode())

    def _live(self, message: Json) -> Json:
        if not isinstance(message, dict):
            raise ValueError("a message is a dictionary")
        if is_long(message):  # the others are answered meanwhile
            reply = self.server.searcher.answer(message)
            if reply is not None:
                return reply
            with self.server.turn:
                return self.server.live.stopped(message)
        with self.server.turn:  # plans are kept between messages, one message at a time
            return self.server.live.answer(message)

    def _stop(self, message: Json) -> Json:
        self.server.searcher.stop()
        return {}

    def _file(self) -> Json:
        file = self.server.file
        if file is None:
            return {"name": None}
        found = file.read()
        return {"name": file.name, "text": found.text, "digest": found.digest}

    def _save(self, message: Json) -> Json:
        file = self.server.file
        if file is None:
            raise MakerError("no file is open; download the pattern")
        return {"digest": file.save(str(message["text"]), str(message["digest"])).digest}

    def _news(self) -> None:
        """Server-sent events: "changed" whenever the file is."""
        self.send_response(HTTPStatus.OK)
        self._headers("text/event-stream", None)
        self.close_connection = True
        file = self.server.file
        last = file.stamp() if file else (0, 0)
        quiet = 0.0
        try:
            while not self.server.closing:
                time.sleep(LOOK_EVERY)
                quiet += LOOK_EVERY
                now = file.stamp() if file else (0, 0)
                if now != last or quiet > 15:
                    self.wfile.write(b"data: changed\n\n" if now != last else b": here\n\n")
                    self.wfile.flush()
                    last, quiet = now, 0.0
        except OSError:  # the browser closed the connection
            return

    def _welcome(self) -> None:
        self.send_response(HTTPStatus.SEE_OTHER)
        self.send_header("Location", "/")
        self.send_header("Set-Cookie", f"{COOKIE}={self.server.cookie}; HttpOnly; SameSite=Strict; Path=/")
        self._headers("text/plain", 0)

    def _page(self, path: str) -> None:
        found = _resource("index.html" if path == "/" else path.removeprefix("/"))
        if found is None:
            self._refuse(HTTPStatus.NOT_FOUND, "there is no such page")
        else:
            self._send(HTTPStatus.OK, *found)

    def _refuse(self, status: HTTPStatus, words: str) -> None:
        self._send(status, "text/plain; charset=utf-8", f"{words}\n".encode())

    def _send(self, status: HTTPStatus, kind: str, data: bytes) -> None:
        self.send_response(status)
        self._headers(kind, len(data))
        self.wfile.write(data)

    def _headers(self, kind: str, length: int | None) -> None:
        self.send_header("Content-Type", kind)
        if length is not None:
            self.send_header("Content-Length", str(length))
        self.send_header("Content-Security-Policy", POLICY)
        self.send_header("Cache-Control", "no-store")
        for name, value in (("Content-Type-Options", "nosniff"), ("Frame-Options", "DENY")):
            self.send_header(f"X-{name}", value)
        self.send_header("Referrer-Policy", "no-referrer")
        self.send_header("Cross-Origin-Resource-Policy", "same-origin")
        self.end_headers()

    def log_message(self, format: str, *args: Any) -> None:
        """Prints nothing: requests are not shown on the terminal."""


@cache
def page_files() -> dict[str, tuple[str, bytes]]:
    """Every file of the page by its path in it, each as its media type and its bytes: the page's own, the two fonts and
    the starter pattern."""
    found: dict[str, tuple[str, bytes]] = {}
    top = resources.files("turnchain.design").joinpath("page")
    for folder in ("", "languages", "parts", "vendor"):
        for one in (top.joinpath(folder) if folder else top).iterdir():
            ending = f".{one.name.rpartition('.')[2]}"
            if one.is_file() and ending in KINDS:
                found[f"{folder}/{one.name}" if folder else one.name] = (KINDS[ending], one.read_bytes())
    for name in ("Lato-Regular.ttf", "Lato-Semibold.ttf"):
        found[f"fonts/{name}"] = (KINDS[".ttf"], resources.files("turnchain.fonts").joinpath(name).read_bytes())
    found["starter"] = (KINDS[".txt"], resources.files("turnchain").joinpath("starter.toml").read_bytes())
    return found


def _resource(path: str) -> tuple[str, bytes] | None:
    """A file of the page; None for any other path."""
    return page_files().get(path)
