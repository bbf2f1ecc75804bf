"""A way to a server on loopback that breaks after so many bytes, as a bad connection does."""

import socket
import threading


class CuttingProxy:
    """Forwards connections to ``port`` until ``budget`` bytes have passed, in both directions together."""

    def __init__(self, port: int) -> None:
        self.target = port
        self.passed = 0
        self.budget: int | None = None
        self._lock = threading.Lock()
        self._sockets: set[socket.socket] = set()
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.port: int = self._listener.getsockname()[1]
        threading.Thread(target=self._accept, daemon=True).start()

    def cut_after(self, budget: int | None) -> None:
        """Break once so many more bytes have passed; None mends the connection."""
        with self._lock:
            self.passed, self.budget = 0, budget

    @property
    def is_cut(self) -> bool:
        return self.budget is not None and self.passed >= self.budget

    def close(self) -> None:
        self._listener.shutdown(socket.SHUT_RDWR)  # wakes the thread that waits there
        self._listener.close()
        self._drop_all()

    def _accept(self) -> None:
        while True:
            try:
                client, _ = self._listener.accept()
            except OSError:
                return
            server = socket.create_connection(("127.0.0.1", self.target))
            for one in (client, server):
                one.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            self._sockets |= {client, server}
            if self.is_cut:  # looked at last: whoever cuts meanwhile has seen these two, or is seen here
                self._drop_all()
                continue
            for source, sink in ((client, server), (server, client)):
                threading.Thread(target=self._forward, args=(source, sink), daemon=True).start()

    def _forward(self, source: socket.socket, sink: socket.socket) -> None:
        try:
            while data := source.recv(65536):
                sink.sendall(data[: self._allowed(len(data))])
                if self.is_cut:
                    self._drop_all()
                    break
        except OSError:
            pass
        for one in (source, sink):
            self._sockets.discard(one)
            _end(one)

    def _allowed(self, wanted: int) -> int:
        with self._lock:
            allowed = wanted if self.budget is None else max(0, min(wanted, self.budget - self.passed))
            self.passed += allowed
            if allowed < wanted and self.budget is not None:
                self.passed = self.budget
            return allowed

    def _drop_all(self) -> None:
        for one in list(self._sockets):
            _end(one)
        self._sockets.clear()


def _end(one: socket.socket) -> None:
    try:
        one.shutdown(socket.SHUT_RDWR)
    except OSError:
        pass
    one.close()
