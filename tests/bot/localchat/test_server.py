"""The HTTP side as any client sees it."""

import asyncio
import socket
import sys
from contextlib import AsyncExitStack

import httpx
import pytest

from bot.localchat.faults import Fault, Kind
from bot.localchat.network import Network
from bot.localchat.server import Server

TOKEN = "4100:story"


def refusal(status, words, **more):
    return {"ok": False, "error_code": status, "description": words} | more


@pytest.mark.parametrize("verb", ["GET", "POST"])
async def test_a_call_is_answered(http, verb):
    answer = await http.request(verb, "/getMe")
    assert (answer.status_code, answer.json()["result"]["id"]) == (200, 4100)


@pytest.mark.parametrize(
    "given",
    [
        {"params": {"chat_id": 501, "text": "a"}},
        {"data": {"chat_id": 501, "text": "a"}},
        {"json": {"chat_id": 501, "text": "a"}},
        {"params": {"chat_id": 501}, "data": {"text": "a"}},
        {"data": {"chat_id": 501, "text": "a"}, "files": {"unused": b"x"}},
    ],
)
async def test_parameters_come_in_every_way(http, liv, given):
    assert (await http.post("/sendMessage", **given)).json()["ok"]
    assert liv.last.text == "a"


@pytest.mark.parametrize(
    ("given", "words"),
    [
        (
            {"content": b"{", "headers": {"Content-Type": "application/json"}},
            "can't parse request JSON object",
        ),
        ({"json": [1]}, "request must be a JSON object"),
        (
            {"content": b"--x", "headers": {"Content-Type": "multipart/form-data"}},
            "can't parse the form",
        ),
        ({"json": {"chat_id": [], "text": "a"}}, "can't parse parameter chat_id"),
    ],
)
async def test_a_body_that_cannot_be_read_is_refused(http, given, words):
    answer = await http.post("/sendMessage", **given)
    assert (answer.status_code, answer.json()) == (400, refusal(400, f"Bad Request: {words}"))


@pytest.mark.parametrize(
    ("path", "answer"),
    [
        ("/bot4100:other/getMe", (401, "Unauthorized")),
        ("/botstory/getMe", (404, "Not Found")),
        (f"/bot{TOKEN}/getUs", (404, "Not Found: method not found")),
        (f"/bot{TOKEN}/getme", (404, "Not Found: method not found")),
        ("/", (404, "Not Found")),
        (f"/file/bot{TOKEN}/photos/none", (404, "Not Found")),
    ],
)
async def test_what_is_not_there(server, path, answer):
    async with httpx.AsyncClient(base_url=server.url) as client:
        got = await client.get(path)
    assert (got.status_code, got.json()) == (answer[0], refusal(*answer))


async def test_files_are_for_the_bot_alone(server, network, liv):
    file = network.uploads.keep("photo", "a.jpg", b"pixels")
    path = network.uploads.link(file.file_id)["file_path"]
    async with httpx.AsyncClient(base_url=server.url) as client:
        assert (await client.get(f"/file/bot{TOKEN}/{path}")).content == b"pixels"
        assert (await client.get(f"/file/bot4100:other/{path}")).status_code == 404


async def test_too_many_says_how_long_twice(http, network):
    network.faults.plan(Fault(Kind.TOO_MANY, method="sendMessage", chat_id=501, retry_after=7))
    other = await http.post("/sendMessage", data={"chat_id": 502})
    assert other.status_code == 400
    answer = await http.post("/sendMessage", data={"chat_id": "501"})
    assert (answer.status_code, answer.headers["Retry-After"]) == (429, "7")
    assert answer.json() == refusal(429, "Too Many Requests: retry after 7", parameters={"retry_after": 7})


async def test_another_process_can_call(server, liv):
    program = (
        "import sys, urllib.request;"
        "print(urllib.request.urlopen(sys.argv[1] + '/sendMessage?chat_id=501&text=hello').status)"
    )
    process = await asyncio.create_subprocess_exec(
        sys.executable, "-c", program, f"{server.url}/bot{TOKEN}", stdout=asyncio.subprocess.PIPE
    )
    out, _ = await process.communicate()
    assert (out.strip(), liv.last.text) == (b"200", "hello")


# --- waiting ------------------------------------------------------------------------------------------------------


def poll(http, **params):
    return asyncio.create_task(http.post("/getUpdates", data={"timeout": 50} | params, timeout=60))


async def test_a_poll_waits_until_somebody_speaks(http, network, liv):
    task = poll(http)
    await network.waits.wait()
    liv.type("a")
    (update,) = (await task).json()["result"]
    assert update["message"]["text"] == "a"
    again = await http.post("/getUpdates", data={"timeout": 50})
    assert again.json()["result"] == [update], "not confirmed"


async def test_a_poll_without_patience_is_answered_with_nothing(http):
    assert (await http.post("/getUpdates")).json() == {"ok": True, "result": []}


async def test_a_poll_that_waits_does_not_lose_a_repeated_update(http, network, liv):
    liv.type("a")
    (update,) = (await http.post("/getUpdates")).json()["result"]
    task = poll(http, offset=update["update_id"] + 1)
    await network.waits.wait()
    network.offer_again(new_id=False)
    assert (await task).json()["result"] == [update]


async def test_the_older_of_two_polls_is_sent_away(http, network, liv):
    older = poll(http)
    await network.waits.wait()
    newer = poll(http)
    answer = await older
    assert (answer.status_code, answer.json()["error_code"]) == (409, 409)
    liv.type("a")
    assert len((await newer).json()["result"]) == 1


async def test_a_poll_without_patience_sends_the_older_away_too(http, network):
    older = poll(http)
    await network.waits.wait()
    assert (await http.post("/getUpdates")).status_code == 200
    assert (await older).status_code == 409


async def test_a_poll_that_is_refused_does_not_wait(http, network):
    network.call("setWebhook", {"url": "https://sea.example"})
    assert (await http.post("/getUpdates", data={"timeout": 50})).status_code == 409


@pytest.mark.parametrize(
    ("fault", "status"),
    [
        (Fault(Kind.CONFLICT, method="getUpdates"), 409),
        (Fault(Kind.SERVER_ERROR, method="getUpdates", status=500), 500),
        (Fault(Kind.SERVER_ERROR, method="getUpdates"), 502),
    ],
)
async def test_a_fault_befalls_a_poll_that_already_waits(http, network, fault, status):
    task = poll(http)
    await network.waits.wait()
    network.faults.plan(fault)
    assert ((await task).status_code, network.faults.planned) == (status, [])


@pytest.mark.parametrize(
    ("kind", "error"), [(Kind.REFUSE, httpx.ReadError), (Kind.DROP_BEFORE, httpx.RemoteProtocolError)]
)
async def test_the_line_of_a_poll_that_waits_breaks(http, network, liv, kind, error):
    task = poll(http)
    await network.waits.wait()
    network.faults.plan(Fault(kind, method="getUpdates"))
    with pytest.raises(error):
        await task
    liv.type("a")
    assert len((await http.post("/getUpdates")).json()["result"]) == 1


async def test_updates_of_an_answer_that_was_lost_come_again(http, network, liv):
    network.faults.plan(Fault(Kind.DROP_AFTER, method="getUpdates"))
    liv.type("a")
    with pytest.raises(httpx.RemoteProtocolError):
        await http.post("/getUpdates")
    assert len((await http.post("/getUpdates")).json()["result"]) == 1


async def test_other_faults_wait_for_the_next_poll(http, network, liv):
    task = poll(http)
    await network.waits.wait()
    network.faults.plan(Fault(Kind.TOO_MANY, method="getUpdates"))
    liv.type("a")
    assert (await task).status_code == 200
    assert (await http.post("/getUpdates")).status_code == 429


# --- starting and stopping ----------------------------------------------------------------------------------------


async def test_it_stops_at_once_though_calls_still_wait(network, liv, capfd):
    loop = asyncio.get_running_loop()
    network.faults.plan(Fault(Kind.SLOW, method="getMe", seconds=300))
    network.faults.plan(Fault(Kind.SLOW_BEFORE, method="getWebhookInfo", seconds=300))
    async with AsyncExitStack() as stack:
        server = await stack.enter_async_context(Server(network))
        client = await stack.enter_async_context(
            httpx.AsyncClient(base_url=f"{server.url}/bot{TOKEN}", timeout=60)
        )
        tasks = [asyncio.create_task(client.get(f"/{name}")) for name in ("getMe", "getWebhookInfo")]
        tasks.append(poll(client))
        await network.waits.wait()
        stack.pop_all()
        began = loop.time()
        await server.__aexit__(None, None, None)
        took = loop.time() - began
        answers = [(await task).json()["ok"] for task in tasks]
        await client.aclose()
    assert took < 1
    assert answers == [True, True, True]
    assert capfd.readouterr() == ("", "")
    liv.type("nobody waits for this")
    network.faults.plan(Fault(Kind.CONFLICT, method="getUpdates"))


async def test_it_stops_soon_though_a_caller_never_ends_its_call(network, capfd):
    loop = asyncio.get_running_loop()
    async with AsyncExitStack() as stack:
        server = await stack.enter_async_context(Server(network))
        host, port = server.url.removeprefix("http://").split(":")
        caller = stack.enter_context(socket.create_connection((host, int(port))))
        head = "Host: x\r\nContent-Type: application/json\r\nContent-Length: 9\r\n\r\n"
        caller.sendall(f"POST /bot{TOKEN}/getMe HTTP/1.1\r\n{head}".encode())
        async with httpx.AsyncClient() as client:
            assert (await client.get(f"{server.url}/bot{TOKEN}/getMe")).status_code == 200
        began = loop.time()
        await server.__aexit__(None, None, None)
        assert loop.time() - began < 1
        stack.pop_all()
        caller.close()
    assert capfd.readouterr() == ("", "")


async def test_a_call_that_comes_while_it_starts_is_answered(network):
    async with Server(network) as server:
        host, port = server.url.removeprefix("http://").split(":")
        with socket.create_connection((host, int(port))) as caller:
            caller.setblocking(False)
            loop = asyncio.get_running_loop()
            await loop.sock_sendall(caller, f"GET /bot{TOKEN}/getMe HTTP/1.1\r\nHost: x\r\n\r\n".encode())
            assert (await loop.sock_recv(caller, 15)) == b"HTTP/1.1 200 OK"


async def test_it_can_be_left_as_soon_as_it_is_entered(network):
    async with Server(network) as server:
        pass
    async with httpx.AsyncClient() as client:
        with pytest.raises(httpx.ConnectError):
            await client.get(server.url)


async def test_a_network_can_be_served_again(network: Network, liv):
    for text in ("one", "two"):
        async with Server(network) as server, httpx.AsyncClient() as client:
            await client.get(f"{server.url}/bot{TOKEN}/sendMessage?chat_id=501&text={text}")
    assert [shown.text for shown in liv.screen[1:]] == ["one", "two"]
