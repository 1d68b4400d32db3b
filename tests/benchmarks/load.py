"""Many windows of one front end that plan at once: none fails, none sees another's household.

Run ``python tests/benchmarks/load.py``. It starts the real front end and opens windows on it, each
through the server's own socket with its own messages, as a browser does (twenty whole browsers on
two cores would measure the browsers). Every window first saves its household as a file of its own;
the stock is then changed in all of them at the same time, again and again. Told are the time from
an edit to its plan, the slowest of all windows beside one alone, and the memory of the server.
Exit code 1 if a window fails, sees another's household or a wrong plan, is slower than 25 times
one alone, or if the memory grows. Other programs on the machine blur the times; the load is told.
"""

import argparse
import os
import re
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import Any
from urllib.request import urlopen

from streamlit.proto.BackMsg_pb2 import BackMsg
from streamlit.proto.ForwardMsg_pb2 import ForwardMsg
from websockets.sync.client import ClientConnection, connect
from websockets.typing import Subprotocol

from app.launch import free_port
from optimizer.cli.outlet import demo_file

WINDOWS, ALONE = 20, 5
MOST_TIMES = 25.0
GROWS_MB = 40.0  # what a heap may breathe between two looks
PATIENCE_S = 300.0
HOUSE = re.compile(r"House (\d+)\b")
SAVING = re.compile(r"(\d+) MJ of fuel instead of (\d+) MJ")
STOCK = "How much"


@dataclass
class Window:
    """One window: its socket, what stands on its page, and what it saw of others."""

    number: int
    socket: ClientConnection
    elements: dict[tuple[int, ...], Any] = field(default_factory=dict)
    looks: dict[str, float] = field(default_factory=dict)  # what asks to be drawn again, and when
    seconds: list[float] = field(default_factory=list)
    troubles: list[str] = field(default_factory=list)

    def send(self, states: dict[str, str | None], fragment: str = "") -> None:
        """Ask for the page: with what was typed (text) or pressed (None)."""
        message = BackMsg()
        message.rerun_script.page_name = ""
        message.rerun_script.fragment_id = fragment
        message.rerun_script.is_auto_rerun = bool(fragment)
        for name, value in states.items():
            state = message.rerun_script.widget_states.widgets.add(id=name)
            if value is None:
                state.trigger_value = True
            else:
                state.string_value = value
        self.socket.send(message.SerializeToString())

    def listen(self) -> None:
        """Take in what the server draws, until it has drawn it."""
        until = time.monotonic() + PATIENCE_S
        elements: dict[tuple[int, ...], Any] = {}
        looks: dict[str, float] = {}
        while time.monotonic() < until:
            message = ForwardMsg.FromString(bytes(self.socket.recv(timeout=PATIENCE_S)))
            kind = message.WhichOneof("type")
            if kind == "delta":
                self._draw(message, elements)
            elif kind == "auto_rerun":
                looks[message.auto_rerun.fragment_id] = message.auto_rerun.interval
            elif kind == "script_finished":
                if message.script_finished != ForwardMsg.FINISHED_EARLY_FOR_RERUN:
                    self._take(elements, looks, message.script_finished)
                    return
                elements, looks = {}, {}
        raise TimeoutError("the page was not drawn")

    def _take(
        self, elements: dict[tuple[int, ...], Any], looks: dict[str, float], how: int
    ) -> None:
        """Take a whole page for the one before, or a part of it into it."""
        if how != ForwardMsg.FINISHED_FRAGMENT_RUN_SUCCESSFULLY:
            self.elements, self.looks = {}, {}
        self.elements.update(elements)
        self.looks.update(looks)

    def _draw(self, message: ForwardMsg, elements: dict[tuple[int, ...], Any]) -> None:
        if message.delta.WhichOneof("type") != "new_element":
            return
        element = message.delta.new_element
        elements[tuple(message.metadata.delta_path)] = element
        if element.WhichOneof("type") == "exception":
            self.troubles.append(f"failed: {element.exception.message}")
        for other in HOUSE.findall(str(element)):
            if int(other) != self.number:
                self.troubles.append(f"sees House {other}")

    def drawn(self, states: dict[str, str | None]) -> None:
        """Ask for the page and look again, as it asks for, until there is a plan on it."""
        self.send(states)
        self.listen()
        until = time.monotonic() + PATIENCE_S
        while self.saving() is None:
            if time.monotonic() > until:
                raise TimeoutError("no plan")
            for fragment, interval in list(self.looks.items())[-1:]:
                time.sleep(interval)
                self.send({}, fragment)
                self.listen()

    def saving(self) -> tuple[str, str] | None:
        """Give the two fuels of the headline, if it is there."""
        for each in self.elements.values():
            if each.WhichOneof("type") == "heading" and (found := SAVING.search(each.heading.body)):
                return found[1], found[2]
        return None

    def widget(self, kind: str, label: str) -> str:
        """Give the name of a widget by what stands on it."""
        for each in self.elements.values():
            if each.WhichOneof("type") == kind and getattr(each, kind).label.startswith(label):
                return str(getattr(each, kind).id)
        raise LookupError(f"no {kind} {label!r} in window {self.number}")

    def moved_into(self, folder: Path) -> None:
        """Save the household as a file of its own, and give it its own name there."""
        file = folder / f"house{self.number}.yaml"
        self.drawn({self.widget("text_input", "Save as a file"): str(file)})
        self.drawn({self.widget("button", "Save there"): None})
        text = file.read_text(encoding="utf-8")
        file.write_text(
            re.sub(r"^title:.*$", f"title: House {self.number}", text, flags=re.MULTILINE)
        )
        self.drawn({})

    def replan(self, kg: float) -> None:
        """Change the stock and wait for the plan."""
        began = time.perf_counter()
        self.drawn({self.widget("text_input", STOCK): f"{kg:.3f} kg"})
        self.seconds.append(time.perf_counter() - began)


@contextmanager
def server(folder: Path) -> Iterator[tuple[int, int]]:
    """Start the front end on the demonstration; give its port and its process."""
    port = free_port(None)
    words = [sys.executable, "-m", "optimizer.cli", "app", "--no-browser", "--port", str(port)]
    kept = {**os.environ, "XDG_STATE_HOME": str(folder)}
    with (folder / "server.txt").open("w") as told:
        started = subprocess.Popen(words, env=kept, cwd=folder, stdout=told, stderr=told)
    try:
        for _ in range(300):
            try:
                urlopen(f"http://127.0.0.1:{port}/_stcore/health", timeout=2).close()
                break
            except OSError:
                time.sleep(0.2)
        yield port, started.pid
    finally:
        started.terminate()
        started.wait(30)


def window_on(port: int, number: int, sockets: ExitStack) -> Window:
    """Open a window."""
    address = f"ws://127.0.0.1:{port}/_stcore/stream"
    asked = connect(
        address, subprotocols=[Subprotocol("streamlit")], max_size=None, ping_interval=None
    )
    socket = sockets.enter_context(asked)
    window = Window(number, socket)
    window.drawn({})
    window.troubles.clear()
    return window


def memory_mb(pid: int) -> float:
    """Give the memory that a process has in use [MB]."""
    words = Path(f"/proc/{pid}/statm").read_text().split()
    return int(words[1]) * os.sysconf("SC_PAGE_SIZE") / 1e6


def all_at_once(windows: list[Window], doing: Any) -> None:
    """Let every window do something at the same time."""

    def safely(window: Window) -> None:
        try:
            doing(window)
        except Exception as error:  # a window that fails is what is looked for
            window.troubles.append(f"failed: {error!r}")

    threads = [threading.Thread(target=safely, args=(each,)) for each in windows]
    for each in threads:
        each.start()
    for each in threads:
        each.join()


def stock_kg(window: Window, round_: int) -> float:
    """Give a stock that no other window and no other round has."""
    return 12.0 + 0.05 * window.number + 0.001 * round_


def measured(folder: Path, most: int, plans: int) -> int:
    """Measure and tell; give the number of troubles."""
    with server(folder) as (port, pid), ExitStack() as sockets:
        one = window_on(port, 0, sockets)
        one.moved_into(folder)
        for round_ in range(ALONE + 1):
            one.replan(stock_kg(one, round_))
        lone_s = median(one.seconds[1:])
        windows = [one]
        for number in range(1, most):
            windows.append(window_on(port, number, sockets))
            windows[-1].moved_into(folder)
        one.seconds.clear()
        made, seen, round_ = 0, {}, 10
        while made < plans:
            all_at_once(windows, lambda each, n=round_: each.replan(stock_kg(each, n)))
            made, round_ = made + len(windows), round_ + 1
            seen[made] = memory_mb(pid)
        for each in windows:
            each.drawn({})
        troubles = [f"House {w.number} {each}" for w in windows for each in w.troubles]
        troubles += checked(windows, folder)
    return tell(windows, lone_s, seen, troubles)


def checked(windows: list[Window], folder: Path) -> list[str]:
    """Hold the saving that every window shows against the planner on its file."""
    from optimizer.planning.planner import plan
    from optimizer.report.balance import headline
    from optimizer.report.measures import measures
    from optimizer.scenario.reading import read

    wrong = []
    for window in windows[:: max(1, len(windows) // 4)]:
        scenario = read(folder / f"house{window.number}.yaml")
        told = " ".join(headline(plan(scenario), scenario, measures("metric")))
        found = SAVING.search(told)
        if found is None or found.groups() != window.saving():
            wrong.append(f"House {window.number} shows {window.saving()}, the planner {told!r}")
    return wrong


def tell(windows: list[Window], lone_s: float, seen: dict[int, float], troubles: list[str]) -> int:
    """Tell what was measured; give the number of troubles."""
    slowest = max(max(each.seconds, default=0.0) for each in windows)
    usual = median(s for each in windows for s in each.seconds)
    counts = list(seen)
    early, last = seen[counts[min(len(counts) - 1, 100 // len(windows))]], seen[counts[-1]]
    print(f"load of the machine {os.getloadavg()[0]:.1f}")
    print(f"one window alone: {lone_s:.2f} s from edit to plan")
    print(f"{len(windows)} at once: {usual:.2f} s usual, {slowest:.2f} s slowest")
    print(f"slowest / alone: {slowest / lone_s:.1f} (at most {MOST_TIMES:g})")
    looked = [*counts[:: max(1, len(counts) // 6)], counts[-1]]
    print("memory: " + ", ".join(f"{n} plans {seen[n]:.0f} MB" for n in looked))
    if slowest > MOST_TIMES * lone_s:
        troubles.append("the slowest window is too slow")
    if last - early > GROWS_MB:
        troubles.append(f"memory grows: {early:.0f} to {last:.0f} MB")
    print("\n".join(sorted(set(troubles))) or "no window failed or saw another's household")
    return len(troubles)


def main() -> int:
    """Run the measurement."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--windows", type=int, default=WINDOWS)
    words.add_argument("--plans", type=int, default=500)
    given = words.parse_args()
    with TemporaryDirectory() as folder:
        return int(measured(Path(folder), given.windows, given.plans) > 0)


if __name__ == "__main__":
    demo_file()
    sys.exit(main())
