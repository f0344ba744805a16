"""Closes connections whose browser keeps the server waiting, which the server itself would hold without end."""

from asyncio import Transport
from typing import ClassVar

import h11
from uvicorn.protocols.http.h11_impl import H11Protocol

from finishcalc.counter.server.headers import raw_headers


class TimedConnection(H11Protocol):
    """A connection that is given `patience` seconds for whatever is the browser's turn: to send a head or the rest of
    one, a body, or to take an answer. Bytes that drip in do not make it longer; an answer begins it anew. Of more than
    `most` connections the one that waits longest is closed, so that held ones do not shut the page out."""

    patience: ClassVar[float] = 10.0
    look_every: ClassVar[float] = 1.0
    most: ClassVar[int] = 64

    def connection_made(self, transport: Transport) -> None:  # type: ignore[override]  # as uvicorn's own
        """Begin to watch."""
        super().connection_made(transport)
        self._since = self.loop.time()
        self._next_look = self.loop.call_later(self.look_every, self._look)
        self._make_room()

    def connection_lost(self, exc: Exception | None) -> None:
        """End the watch."""
        self._next_look.cancel()
        super().connection_lost(exc)

    def on_response_complete(self) -> None:
        """Give the browser its time anew."""
        self._since = self.loop.time()
        super().on_response_complete()

    def send_400_response(self, msg: str) -> None:
        """Answer what is no request, with the headers of every answer, unless an answer has begun already."""
        if self.cycle is not None and not self.cycle.response_complete:  # the page's answer finds nobody any more
            self.cycle.disconnected = True
            self.cycle.message_event.set()
        if self.conn.our_state in (h11.IDLE, h11.SEND_RESPONSE):
            body = msg.encode()
            more = (("content-type", "text/plain; charset=utf-8"), ("content-length", str(len(body))))
            head = h11.Response(status_code=400, headers=raw_headers(*more, ("connection", "close")))
            for event in (head, h11.Data(data=body), h11.EndOfMessage()):
                self.transport.write(self.conn.send(event) or b"")
        self.transport.close()

    def shutdown(self) -> None:
        """Close at once where nothing is worked out, else after the answer."""
        if self._is_browsers_turn():
            self.transport.close()
        else:
            self.cycle.keep_alive = False

    def _look(self) -> None:
        now = self.loop.time()
        if not self._is_browsers_turn():
            self._since = now
        elif now - self._since >= self.patience:
            self.transport.abort()  # what it has not taken by now is not sent any more
        self._next_look = self.loop.call_later(self.look_every, self._look)

    def _is_browsers_turn(self) -> bool:
        is_at_work = self.cycle is not None and not self.cycle.response_complete and not self.cycle.more_body
        return not is_at_work or self.flow.write_paused or self._is_closing()

    def _is_closing(self) -> bool:
        return self.transport.is_closing()

    def _make_room(self) -> None:
        there = [each for each in self.connections if isinstance(each, TimedConnection) and not each._is_closing()]
        if len(there) > self.most:
            held = [each for each in there if each._is_browsers_turn()]  # this one at least
            min(held, key=lambda each: each._since).transport.abort()
