from typing import Any

import httpx
import pytest
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from bot.tryout.gate import COOKIE, HEADERS, LARGEST_TEXT, Gate

KEY, PORT = "a" * 32, 4321
HOME = f"http://127.0.0.1:{PORT}"
OWN = {"Cookie": f"{COOKIE}={KEY}"}
PAGES = OWN | {"X-Plimsoll-Try": "1", "Origin": HOME}


async def echo(request: Request) -> Response:
    return PlainTextResponse(f"{request.method} {len(await request.body())}")


def gate() -> Gate:
    routes = [Route("/{path:path}", echo, methods=["GET", "POST"])]
    return Gate(Starlette(routes=routes), KEY, PORT)


def client(home: str = HOME) -> httpx.AsyncClient:
    return httpx.AsyncClient(transport=httpx.ASGITransport(gate()), base_url=home)


@pytest.mark.parametrize(
    ("method", "path", "headers", "status"),
    [
        ("GET", "/state", OWN, 200),
        ("POST", "/clock", PAGES, 200),
        ("POST", "/clock", PAGES | {"Origin": f"http://localhost:{PORT}"}, 200),
        ("POST", "/clock", OWN | {"X-Plimsoll-Try": "1"}, 200),
        ("GET", "/", {}, 403),
        ("GET", "/state", {}, 403),
        ("GET", "/page.js", {}, 403),
        ("GET", f"/state?key={KEY}", {}, 403),
        ("GET", "/state", {"Cookie": f"{COOKIE}={KEY[1:]}b"}, 403),
        ("GET", "/state", {"Cookie": f"{COOKIE}="}, 403),
        ("GET", "/state", {"Cookie": "é;;="}, 403),
        ("GET", "/?key=", {}, 403),
        ("GET", f"/?key={KEY[1:]}", {}, 403),
        ("GET", "/?key=%C3%A9", {}, 403),
        ("GET", "/state", OWN | {"Host": f"evil.example:{PORT}"}, 403),
        ("GET", "/state", OWN | {"Host": "127.0.0.1"}, 403),
        ("GET", "/state", OWN | {"Host": f"127.0.0.1:{PORT + 1}"}, 403),
        ("GET", f"/?key={KEY}", {"Host": f"evil.example:{PORT}"}, 403),
        ("POST", "/clock", OWN, 403),
        ("POST", "/clock", OWN | {"Origin": HOME}, 403),
        ("POST", "/clock", PAGES | {"X-Plimsoll-Try": "0"}, 403),
        ("POST", "/clock", PAGES | {"Origin": "https://evil.example"}, 403),
        ("POST", "/clock", PAGES | {"Origin": "null"}, 403),
        ("POST", "/clock", PAGES | {"Origin": f"http://127.0.0.1:{PORT + 1}"}, 403),
        ("POST", f"/?key={KEY}", {"X-Plimsoll-Try": "1"}, 403),
        ("PUT", "/state", PAGES, 405),
        ("DELETE", "/state", PAGES, 405),
        ("OPTIONS", "/state", PAGES, 405),
        ("HEAD", "/state", PAGES, 405),
    ],
)
async def test_only_the_page_with_the_key_is_let_in(
    method: str, path: str, headers: dict[str, str], status: int
) -> None:
    async with client() as page:
        answer = await page.request(method, path, headers={k: v.encode() for k, v in headers.items()})

    assert answer.status_code == status
    assert {name: answer.headers[name] for name in HEADERS} == HEADERS
    assert "access-control-allow-origin" not in answer.headers


async def test_the_printed_address_gives_a_cookie_that_only_this_page_sends() -> None:
    async with client() as page:
        answer = await page.get(f"/?key={KEY}")

    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    assert answer.headers["set-cookie"] == f"{COOKIE}={KEY}; HttpOnly; Path=/; SameSite=strict"


async def test_who_has_no_key_is_told_where_it_is() -> None:
    async with client() as page:
        answer = await page.get("/")

    assert "Use the address that the program printed" in answer.text
    assert "<script" not in answer.text


@pytest.mark.parametrize(
    ("path", "size", "status"),
    [
        ("/people/tom/say", LARGEST_TEXT, 200),
        ("/people/tom/say", LARGEST_TEXT + 1, 413),
        ("/people/tom/file", LARGEST_TEXT + 1, 200),
        ("/people/tom/file", 21 * 2**20, 413),
    ],
)
async def test_a_body_has_a_limit_whether_it_says_its_length_or_not(
    path: str, size: int, status: int
) -> None:
    async def pieces() -> Any:
        for start in range(0, size, 2**16):
            yield b"x" * min(2**16, size - start)

    async with client() as page:
        said = await page.post(path, headers=PAGES, content=b"x" * size)
        unsaid = await page.post(path, headers=PAGES, content=pieces())

    assert [said.status_code, unsaid.status_code] == [status, status]
