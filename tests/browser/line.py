"""A line to the program that can be cut and mended: the same port on another address of loopback."""

import contextlib
import socket
from threading import Thread
from typing import Self

HERE, THERE = "127.0.0.1", "127.0.0.2"
_PIECE = 65536


class Line:
    """Passes on what is said, both ways, until it is cut."""

    def __init__(self, port: int) -> None:
        self._port = port
        self._cut = False
        self._ends: list[socket.socket] = []
        self._passing: list[Thread] = []
        self._listening = socket.create_server((THERE, port))
        self._answering = Thread(target=self._answer)
        self._answering.start()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.cut()
        with contextlib.suppress(OSError):
            self._listening.shutdown(socket.SHUT_RDWR)
        for each in (self._answering, *self._passing):
            each.join()
        for end in (self._listening, *self._ends):
            end.close()

    def cut(self) -> None:
        """End what is connected, and let nobody through."""
        self._cut = True
        for end in self._ends:
            with contextlib.suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)

    def mend(self) -> None:
        """Let everybody through again."""
        self._cut = False

    def _answer(self) -> None:
        with contextlib.suppress(OSError):
            while True:
                near, _ = self._listening.accept()
                if self._cut:
                    near.close()
                    continue
                far = socket.create_connection((HERE, self._port))
                self._ends += [near, far]
                for one, other in ((near, far), (far, near)):
                    self._passing.append(Thread(target=self._pass, args=(one, other)))
                    self._passing[-1].start()

    def _pass(self, one: socket.socket, other: socket.socket) -> None:
        with contextlib.suppress(OSError):
            while piece := one.recv(_PIECE):
                other.sendall(piece)
        with contextlib.suppress(OSError):
            other.shutdown(socket.SHUT_RDWR)
