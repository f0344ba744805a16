"""The socket of the counter, the address by which it is opened, and the server's life from there to its end."""

import logging
import socket
from asyncio import CancelledError
from collections.abc import Callable, Generator
from contextlib import contextmanager

import uvicorn
from starlette.types import ASGIApp

from finishcalc.counter.server.connections import TimedConnection
from finishcalc.counter.server.guard import Guard, new_key

HOST = "127.0.0.1"


class _Quiet(uvicorn.Server):
    """A server that leaves signals to whoever runs it."""

    @contextmanager
    def capture_signals(self) -> Generator[None, None, None]:
        """Catch none."""
        yield


class Server:
    """Serves a page at a port of this machine; port 0 is any that is free. It listens from the start, so that the
    address is known before the page is made. Raises OSError where the port cannot be had."""

    def __init__(self, port: int = 0) -> None:
        # the protocol must be named: only then does asyncio send an answer at once, and else each waits for 40 ms
        self._socket = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
        try:
            if hasattr(socket, "SO_EXCLUSIVEADDRUSE"):  # Windows, where the other option shares a port in use
                self._socket.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
            else:
                self._socket.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            self._socket.bind((HOST, port))
            self._socket.listen(64)
        except OSError:
            self._socket.close()
            raise
        self._once = set[str]()
        self.port, self._key = self._socket.getsockname()[1], new_key()
        self._server: uvicorn.Server | None = None
        self._stopped = False

    @property
    def address(self) -> str:
        """The address that opens the page; whoever has it may."""
        return self._address_with(self._key)

    def address_for_once(self) -> str:
        """Give an address that opens the page a single time, because all users of this machine can read what a program,
        such as a browser, is started with."""
        key = new_key()
        self._once.add(key)
        return self._address_with(key)

    def _address_with(self, key: str) -> str:
        return f"http://{HOST}:{self.port}/?key={key}"

    def run(self, app: ASGIApp, opened: Callable[[], None]) -> None:
        """Serve the page until `stop` is called. `opened` is called before, once all is ready to answer."""
        _keep_only_our_mistakes()
        config = uvicorn.Config(
            Guard(app, self.port, self._key, self._once),
            http=TimedConnection,
            ws="none",
            lifespan="off",
            loop="asyncio",
            log_config=None,
            log_level="error",
            access_log=False,  # the key is in the first address
            proxy_headers=False,
            server_header=False,
            timeout_keep_alive=5,
            timeout_graceful_shutdown=2,
        )
        self._server = _Quiet(config)
        self._server.should_exit = self._stopped
        opened()
        self._server.run(sockets=[self._socket])

    def close(self) -> None:
        """Give the port up without having served."""
        self._socket.close()

    def stop(self) -> None:
        """End the server: answers that are being worked out may take two seconds more, and none where this is called
        again. A handler of a signal may call it."""
        if self._server:
            self._server.force_exit = self._stopped
            self._server.should_exit = True
        self._stopped = True


def _keep_only_our_mistakes() -> None:
    """Have the server log what went wrong in the page, with its traceback: nothing that a browser did, and no answer
    that was not ready when the server ended."""
    logging.getLogger("uvicorn.error").addFilter(_is_our_mistake)


def _is_our_mistake(record: logging.LogRecord) -> bool:
    error = record.exc_info[1] if record.exc_info else None
    return error is not None and not isinstance(error, CancelledError)
