"""The server as a browser and as a stranger meet it: sockets that are held, cut off, or filled with nonsense."""

import logging
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import ExitStack
from http.client import HTTPConnection

import pytest
from hypothesis import given
from hypothesis import strategies as st
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response, StreamingResponse
from starlette.routing import Route

from finishcalc.counter.server.connections import TimedConnection
from finishcalc.counter.server.headers import HEADERS
from finishcalc.counter.server.serving import Server

PATIENCE = 0.6
"""Seconds that the server of these tests gives a browser; it looks each 0.1 s."""
SOON = PATIENCE + 1.5
"""By then a connection is closed, on a busy machine too."""


async def small(_: Request) -> Response:
    return PlainTextResponse("small")


async def large(_: Request) -> Response:
    """In pieces, of which each waits until the one before it is taken."""
    return StreamingResponse("x" * 500_000 for _ in range(32))


@pytest.fixture(scope="module")
def server() -> Iterator[Server]:
    """A server in a thread, with little patience."""
    page = Starlette(routes=[Route("/", small, methods=["GET", "POST"]), Route("/large", large)])
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(TimedConnection, "patience", PATIENCE)
        patch.setattr(TimedConnection, "look_every", 0.1)
        patch.setattr(TimedConnection, "most", 20)
        serving, ready = Server(), threading.Event()
        thread = threading.Thread(target=serving.run, args=(page, ready.set))
        thread.start()
        assert ready.wait(10)
        yield serving
        serving.stop()
        thread.join(10)
        assert not thread.is_alive()


def head(server: Server, method: str = "GET", path: str = "/", *more: str) -> bytes:
    """The head of a request that the page answers."""
    key = server.address.partition("key=")[2]
    site = f"127.0.0.1:{server.port}"
    lines = [f"{method} {path} HTTP/1.1", f"Host: {site}", f"Cookie: counter-{server.port}={key}"]
    return "\r\n".join([*lines, f"Origin: http://{site}", *more, "", ""]).encode()


def connected(server: Server) -> socket.socket:
    return socket.create_connection(("127.0.0.1", server.port), timeout=SOON)


def everything(connection: socket.socket) -> bytes:
    """All that comes until the server closes. Raises TimeoutError where it does not."""
    received = b""
    try:
        while piece := connection.recv(65536):
            received += piece
    except ConnectionError:  # it did not wait for the rest that was sent
        pass
    return received


FORM = "Content-Type: application/x-www-form-urlencoded"
HELD = {
    "nothing is sent": ("", b""),
    "a head does not end": ("GET / HTTP/1.1\r\nHost: 127", b""),
    "a head drips": ("GET / HTTP/1.1\r\nX: ", b"x"),
    "a second head drips": ("whole", b"G"),
    "a body drips": ("posted", b"x"),
    "a body in pieces drips": ("pieces", b"1\r\nx\r\n"),
    "the body of an answered request drips": ("got", b"x"),
}


@pytest.mark.slow
@pytest.mark.parametrize("case", HELD)
def test_a_connection_that_is_held_is_closed(case: str, server: Server):
    """Though a byte comes each 50 ms, for which other servers begin their wait anew."""
    begun, drop = HELD[case]
    heads = {
        "whole": head(server),
        "posted": head(server, "POST", "/", "Content-Length: 9999", FORM),
        "pieces": head(server, "POST", "/", "Transfer-Encoding: chunked", FORM),
        "got": head(server, "GET", "/", "Content-Length: 9999"),
    }
    began = time.monotonic()
    with connected(server) as connection:
        connection.sendall(heads.get(begun, begun.encode()))
        connection.settimeout(0.05)
        while time.monotonic() - began < 10:
            try:
                if drop:
                    connection.sendall(drop)
                if connection.recv(65536) == b"":
                    break
            except TimeoutError:
                continue
            except ConnectionError:
                break
    assert PATIENCE - 0.2 < time.monotonic() - began < SOON


@pytest.mark.slow
def test_an_answer_that_is_not_taken_is_given_up(server: Server):
    """32 x 500,000 bytes fit into no buffer, so the server would wait for us to read."""
    with connected(server) as connection:
        connection.sendall(head(server, "GET", "/large"))
        time.sleep(SOON)
        received = everything(connection)
    assert received.startswith(b"HTTP/1.1 200")
    assert len(received) < 16_000_000


@pytest.mark.slow
def test_a_browser_that_asks_now_and_then_keeps_its_connection(server: Server):
    """Each answer begins the wait anew: 5 x 0.4 s is far more than 0.6 s."""
    with connected(server) as connection:
        for _ in range(5):
            assert_answered(connection, server)
            time.sleep(0.4)


def test_held_connections_do_not_shut_the_page_out(server: Server, monkeypatch: pytest.MonkeyPatch):
    """Sixty are held where twenty are allowed: each new one, the page's too, has the oldest closed long before it would
    be. Our own takes a place, so that of sixty at least forty are closed."""
    monkeypatch.setattr(TimedConnection, "patience", 60)
    with ExitStack() as stack:
        held = [stack.enter_context(connected(server)) for _ in range(60)]
        own = stack.enter_context(connected(server))
        assert_answered(own, server)
        for connection in held[:40]:
            assert everything(connection) == b""


def assert_answered(connection: socket.socket, server: Server) -> None:
    """The page answers, in one piece or several."""
    connection.sendall(head(server))
    received = b""
    while not received.endswith(b"small"):
        piece = connection.recv(65536)
        assert piece
        received += piece
    assert received.startswith(b"HTTP/1.1 200")


def test_an_answer_does_not_wait_for_the_next_one(server: Server):
    """Without TCP_NODELAY the second part of an answer waits 40 ms for the first to be acknowledged. Of 20 answers half
    are quicker, on a busy machine too."""
    times = []
    with connected(server) as connection:
        for _ in range(20):
            began = time.monotonic()
            assert_answered(connection, server)
            times.append(time.monotonic() - began)
    assert sorted(times)[10] < 0.03


def test_only_this_machine_is_served(server: Server):
    assert server.address.startswith(f"http://127.0.0.1:{server.port}/?key=")
    assert server._socket.getsockname()[0] == "127.0.0.1"


def test_a_websocket_is_not_opened(server: Server):
    upgrade = ("Connection: Upgrade", "Upgrade: websocket", "Sec-WebSocket-Key: x", "Sec-WebSocket-Version: 13")
    with connected(server) as connection:
        connection.sendall(head(server, "GET", "/", *upgrade))
        assert connection.recv(65536).startswith(b"HTTP/1.1 200")


# --- false lengths and nonsense ----------------------------------------------------------------------------------

NO_REQUESTS = [
    b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n",  # a browser that tries https
    b"GET / HTTP/1.1\r\nHost: a\r\nHost\r\n\r\n",
    b"GET / HTTP/1.1\r\nContent-Length: 1\r\nContent-Length: 2\r\nHost: a\r\n\r\n",
    b"GET / HTTP/1.1\r\nContent-Length: -1\r\nHost: a\r\n\r\n",
    b"GET  / HTTP/1.1\r\n\r\n",
    b"hello\r\n\r\n",
    b"GET / HTTP/1.1\r\n\r\n",
    b"GET / HTTP/1.1\r\nHost: a\r\nX: " + b"x" * 70_000 + b"\r\n",
]


@pytest.mark.parametrize("sent", NO_REQUESTS)
def test_what_is_no_request_is_told_with_the_headers_of_every_answer(sent: bytes, server: Server):
    with connected(server) as connection:
        connection.sendall(sent)
        received = everything(connection)
    assert_whole_answers(received)
    assert received.startswith(b"HTTP/1.1 400 ")


def assert_whole_answers(received: bytes) -> None:
    """Every head bears the headers; none tells of an error of ours."""
    heads = [answer for answer in received.split(b"HTTP/1.1 ") if answer]
    for answer in heads:
        assert not answer.startswith(b"5"), answer
        for name, value in HEADERS.items():
            assert f"{name}: {value}".encode() in answer, answer


@pytest.fixture(scope="module")
def logged() -> Iterator[list[logging.LogRecord]]:
    """All that is logged anywhere, in which a mistake of ours would be."""
    records = list[logging.LogRecord]()
    handler = logging.Handler()
    handler.emit = records.append  # type: ignore[method-assign]
    logging.getLogger().addHandler(handler)
    yield records
    logging.getLogger().removeHandler(handler)


PARTS = st.sampled_from(
    [
        b"GET / HTTP/1.1\r\n",
        b"POST / HTTP/1.1\r\n",
        b"Host: 127.0.0.1:PORT\r\n",
        b"Cookie: counter-PORT=KEY\r\n",
        b"Origin: http://127.0.0.1:PORT\r\n",
        b"Content-Length: 5\r\n",
        b"Content-Length: 70000\r\n",
        b"Transfer-Encoding: chunked\r\n",
        FORM.encode() + b"\r\n",
        b"\r\n",
        b"5\r\nabcde\r\n",
        b"0\r\n\r\n",
        b"zz\r\n",
        b"Expect: 100-continue\r\n",
        b"Connection: close\r\n",
        b"HEAD /?key=KEY HTTP/1.0\r\n",
        b"CONNECT a:1 HTTP/1.1\r\n",
        b"OPTIONS * HTTP/1.1\r\n",
        b"GET http://evil.example/ HTTP/1.1\r\n",
        b"GET /%0d%0aX:1?key=KEY HTTP/1.1\r\n",
    ]
) | st.binary(max_size=20)


@given(parts=st.lists(PARTS, max_size=12), is_begun=st.booleans())
def test_nonsense_gets_whole_answers_or_none_and_leaves_no_trace(
    parts: list[bytes], is_begun: bool, server: Server, logged: list[logging.LogRecord]
):
    key = server.address.partition("key=")[2].encode()
    sent = b"".join([head(server)[:-2] if is_begun else b"", *parts])
    with connected(server) as connection:
        connection.sendall(sent.replace(b"PORT", str(server.port).encode()).replace(b"KEY", key))
        connection.shutdown(socket.SHUT_WR)
        assert_whole_answers(everything(connection))
    assert logged == []


@pytest.mark.parametrize("length", ["3", "100", "70000"])
def test_a_false_length_harms_nobody(length: str, server: Server):
    """What is longer than told is the next request, and none; what is shorter is waited for, and given up."""
    with connected(server) as connection:
        connection.sendall(head(server, "POST", "/", f"Content-Length: {length}", FORM) + b"a=1&b=2")
        assert_whole_answers(everything(connection))
    browser = HTTPConnection("127.0.0.1", server.port, timeout=SOON)
    browser.request("GET", "/")
    assert browser.getresponse().status == 401
    browser.close()
