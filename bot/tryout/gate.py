"""Who is let in: whoever has the key of the printed address, from this machine, from the page itself."""

import hmac
from http.cookies import CookieError, SimpleCookie
from urllib.parse import parse_qs

from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from bot.render import tried_out as say

COOKIE = "plimsoll_try"
HEADER = "X-Plimsoll-Try"
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; media-src 'self' blob:; "
    "connect-src 'self'; font-src 'none'; form-action 'none'; base-uri 'none'; frame-ancestors 'none'"
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Cache-Control": "no-store",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
}
LARGEST_FILE = 20 * 2**20
LARGEST_TEXT = 64 * 2**10
ROOM = 64 * 2**10
"""What a form with a file takes beside it. [B]"""


class Gate:
    """Stands before everything that is served, and writes the headers of all that goes out.

    Args:
        inner: What answers those who are let in.
        key: What the printed address has.
        port: Where it is served.
    """

    def __init__(self, inner: ASGIApp, key: str, port: int) -> None:
        self._inner = inner
        self._key = key.encode()
        self._hosts = {f"127.0.0.1:{port}", f"localhost:{port}"}
        self._origins = {f"http://{host}" for host in self._hosts}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request in, or refuse it."""
        if scope["type"] != "http":
            return

        async def headed(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers[name] = value
            await send(message)

        refusal = self._refusal(scope)
        if refusal is not None:
            await refusal(scope, receive, headed)
        else:
            await self._inner(scope, _limited(scope, receive), headed)

    def _refusal(self, scope: Scope) -> Response | None:
        """Return the answer to who is not let in, or is given the cookie; None for who is let in."""
        headers = Headers(scope=scope)
        if scope["method"] not in ("GET", "POST"):
            return _page(say.NO_SUCH_METHOD, 405, {"Allow": "GET, POST"})
        if headers.getlist("host") not in [[host] for host in self._hosts]:
            return _page(say.NO_KEY, 403)
        given = parse_qs(scope["query_string"].decode("latin-1")).get("key")
        if given and scope["method"] == "GET" and scope["path"] == "/":
            return self._entered(given[0])
        if not self._is_known(headers):
            return _page(say.NO_KEY, 403)
        if scope["method"] == "POST" and not self._is_own(headers):
            return _page(say.NOT_FROM_HERE, 403)
        return None

    def _entered(self, given: str) -> Response:
        if not hmac.compare_digest(given.encode(), self._key):
            return _page(say.NO_KEY, 403)
        answer = RedirectResponse("/", 303)
        answer.set_cookie(COOKIE, self._key.decode(), path="/", httponly=True, samesite="strict")
        return answer

    def _is_known(self, headers: Headers) -> bool:
        try:
            found = SimpleCookie(headers.get("cookie", "")).get(COOKIE)
        except CookieError:
            return False
        return found is not None and hmac.compare_digest(found.value.encode(), self._key)

    def _is_own(self, headers: Headers) -> bool:
        """Return whether a page of ours asks: another's cannot set the header, and says whose it is."""
        origin = headers.get("origin")
        return headers.get(HEADER) == "1" and (origin is None or origin in self._origins)


def _limited(scope: Scope, receive: Receive) -> Receive:
    """Return what reads a body up to its limit, and refuses a longer one."""
    is_file = scope["path"].endswith("/file")
    most = LARGEST_FILE + ROOM if is_file else LARGEST_TEXT
    said = Headers(scope=scope).get("content-length", "0")
    taken = 0

    async def limited() -> Message:
        nonlocal taken
        if not said.isdecimal() or int(said) > most:
            raise HTTPException(413, say.TOO_LARGE)
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > most:
            raise HTTPException(413, say.TOO_LARGE)
        return message

    return limited


def _page(words: str, status: int, headers: dict[str, str] | None = None) -> Response:
    return HTMLResponse(say.refusal_page(words), status, headers)
