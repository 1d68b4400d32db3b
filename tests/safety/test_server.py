"""The server that really runs: it answers this machine's own pages and nobody else's."""

import os
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

HERE = "127.0.0.1"
KEY = "dGhlIHNhbXBsZSBub25jZQ=="  # of RFC 6455, section 1.3


@pytest.fixture(scope="module")
def port(tmp_path_factory: pytest.TempPathFactory) -> Iterator[int]:
    """Start the front end; give its port."""
    folder = tmp_path_factory.mktemp("server")
    with socket.socket() as any_port:
        any_port.bind((HERE, 0))
        found = any_port.getsockname()[1]
    words = [sys.executable, "-m", "optimizer.cli", "app", "--no-browser", "--port", str(found)]
    kept = {**os.environ, "XDG_STATE_HOME": str(folder)}
    with (folder / "told.txt").open("w") as told:
        started = subprocess.Popen(words, env=kept, cwd=folder, stdout=told, stderr=told)
    try:
        for _ in range(300):
            if started.poll() is None and listens(HERE, found):
                break
            time.sleep(0.1)
        yield found
    finally:
        started.terminate()
        started.wait(30)


def listens(host: str, port: int) -> bool:
    with socket.socket() as asked:
        asked.settimeout(2)
        return asked.connect_ex((host, port)) == 0


def asked(port: int, path: str, *lines: str, method: str = "GET", body: bytes = b"") -> int:
    """Ask the server with just these lines; give the number of its answer."""
    head = "\r\n".join([f"{method} {path} HTTP/1.1", *lines, f"Content-Length: {len(body)}"])
    with socket.create_connection((HERE, port), timeout=10) as connected:
        connected.sendall(head.encode() + b"\r\n\r\n" + body)
        return int(connected.recv(100).split()[1])


def stream(port: int, host: str, origin: str | None) -> int:
    """Ask for the stream of a window, as the page of an origin does."""
    lines = [f"Host: {host}", "Upgrade: websocket", "Connection: Upgrade",
             f"Sec-WebSocket-Key: {KEY}", "Sec-WebSocket-Version: 13",
             "Sec-WebSocket-Protocol: streamlit"]  # fmt: skip
    return asked(port, "/_stcore/stream", *lines, *([f"Origin: {origin}"] if origin else []))


def test_its_own_page_gets_its_stream(port):
    for name in ("localhost", HERE):
        assert stream(port, f"{name}:{port}", f"http://{name}:{port}") == 101


@pytest.mark.parametrize("host", ["evil.example", "evil.example:PORT", "127.0.0.1.evil.example"])
def test_a_name_that_is_made_to_point_here_gets_nothing(port, host):
    host = host.replace("PORT", str(port))
    assert stream(port, host, f"http://{host}") == 403  # same origin, by that name
    assert stream(port, host, None) == 403


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "http://localhost.evil.example"])
def test_the_page_of_another_site_gets_nothing(port, origin):
    assert stream(port, f"{HERE}:{port}", origin) == 403


def test_an_upload_without_the_token_of_the_page_is_refused(port):
    lines = (f"Host: {HERE}:{port}", "Content-Type: multipart/form-data; boundary=x")
    body = b'--x\r\nContent-Disposition: form-data; name="f"; filename="f"\r\n\r\na\r\n--x--\r\n'
    path = "/_stcore/upload_file/some-session/some-file"
    assert asked(port, path, *lines, method="PUT", body=body) == 403


def test_it_listens_on_this_machine_alone(port):
    own = subprocess.run(["hostname", "-I"], capture_output=True, text=True, check=False)
    others = [each for each in own.stdout.split() if ":" not in each and each != HERE]
    assert listens(HERE, port)
    assert [each for each in others if listens(each, port)] == []


def test_no_file_beside_the_pages_is_given(port):
    main = Path(__file__).parents[2] / "app" / "main.py"
    assert main.is_file()
    for path in ("/../main.py", "/app/static/../../main.py", "/static/..%2f..%2fmain.py",
                 "/media/../../main.py", "/component/x/../../../../etc/passwd"):  # fmt: skip
        with socket.create_connection((HERE, port), timeout=10) as connected:
            connected.sendall(f"GET {path} HTTP/1.1\r\nHost: {HERE}:{port}\r\n\r\n".encode())
            told = connected.recv(100_000)
        assert b"root:" not in told
        assert b"st.set_page_config" not in told
