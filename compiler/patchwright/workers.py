"""The driver's typesetters: processes that turn booklets into bytes side by side.

In: jobs, one after another.
Out: files' names, bytes and page counts, as they are ready.
Never: a file or a decision; a worker ends after one job, so that the page engine's memory goes with it.
"""

from __future__ import annotations

import signal as signals
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, fields
from multiprocessing import get_all_start_methods, get_context
from multiprocessing.connection import Connection, wait
from multiprocessing.context import ForkServerContext, SpawnContext
from multiprocessing.process import BaseProcess
from signal import SIG_IGN, SIGINT, getsignal, signal
from threading import current_thread, main_thread
from typing import TYPE_CHECKING

from patchwright.core.packed import fingerprint
from patchwright.typesetting.booklet import Booklet
from patchwright.typesetting.catalogue import card_text, make_card
from patchwright.typesetting.drawings import Drawings
from patchwright.typesetting.faults import PageEngineError
from patchwright.typesetting.folding import folded_files
from patchwright.typesetting.pdf import compose_pdf, page_data, page_engine
from patchwright.typesetting.web import write_html
from patchwright.typesetting.web_views import View

if TYPE_CHECKING:
    from patchwright.typesetting.themes import Theme

_PRELOADED = ["patchwright.workers", "patchwright.commands.registry", "typst"]
"""Imported once for all processes; the commands too, since every process imports the program's main module again."""
Made = tuple[str, bytes, int]
"""A file's name, its bytes, and its pages (0 for a web page)."""


@dataclass(frozen=True, slots=True)
class Pages:
    """The PDFs of one booklet: for each paper what the page template is given."""

    id: str
    papers: tuple[str, ...]
    data: tuple[str, ...]
    theme: Theme
    folded: bool = False
    """Whether the pages are half sheets, to be imposed too."""

    @classmethod
    def of(
        cls, booklet: Booklet, theme: Theme, papers: tuple[str, ...], drawings: Drawings, folded: bool = False
    ) -> Pages:
        """Check a booklet and lay its data out for all papers, its drawings written once."""
        return cls(booklet.id, papers, page_data(booklet, theme, papers, drawings), theme, folded)

    def make(self) -> tuple[Made, ...]:
        """Compose all papers with one engine, which remembers what they share."""
        engine = page_engine(self.theme)
        results = [compose_pdf(self.theme, data, engine) for data in self.data]
        made: list[Made] = []
        for paper, result in zip(self.papers, results, strict=True):
            name = f"{self.id}-{paper}"
            if self.folded:
                made += folded_files(name, result, self.theme.tokens.folds, paper)
            else:
                made.append((f"{name}.pdf", result.content, result.pages))
        return tuple(made)

    def key(self) -> str:
        """What tells its pages from all others: every field, and all of the theme that a PDF is made with."""
        own = tuple(getattr(self, field.name) for field in fields(self) if field.name != "theme")
        return fingerprint(own, self.theme.page_source, self.theme.tokens)


@dataclass(frozen=True, slots=True)
class WebPage:
    """The web page of a pattern, and its drawings where they are written already."""

    name: str
    """The stem of its file."""
    views: tuple[View, ...]
    theme: Theme
    drawings: Drawings

    def make(self) -> tuple[Made, ...]:
        """Write the page, fonts and drawings inside; that of all sizes has a card for the catalogue with it."""
        text = write_html(self.views, self.theme, self.drawings)
        page: Made = (f"{self.name}.html", text.encode("utf-8"), 0)
        if self.name != self.views[0].booklet.pattern:
            return (page,)
        card = card_text(make_card(self.views, self.theme, self.drawings))
        return page, (f"{self.name}.card.json", card.encode("utf-8"), 0)


Job = Pages | WebPage
Jobs = Iterable[Job]
Results = Iterator[tuple[Pages | None, tuple[Made, ...]]]
"""The job of every PDF that was made (None for what was made otherwise), and its files."""


class WorkerLostError(RuntimeError):
    """A typesetter ended without an answer, as when the machine runs out of memory."""


def warm_up() -> None:
    """Start what typesetters are started from, so that it gets ready while a pattern is still being planned."""
    if "forkserver" in get_all_start_methods():
        from multiprocessing import forkserver

        get_context("forkserver").set_forkserver_preload(_PRELOADED)
        with interrupts_left_to_us():
            forkserver.ensure_running()


def process_context() -> ForkServerContext | SpawnContext:
    """How processes are started: from one that has imported all they need, where the system can."""
    return get_context("forkserver") if "forkserver" in get_all_start_methods() else get_context("spawn")


def typeset(
    jobs: Jobs, processes: int, known: Callable[[Pages], tuple[Made, ...] | None] = lambda job: None
) -> Results:
    """Make PDFs in processes of their own, so many at a time, while further jobs are still being prepared.

    Results come as they are ready, with the job of every PDF that was made. Web pages are made in this process, once
    all is prepared. What is `known` of a job already is taken instead.
    """
    source, more, most = iter(jobs), True, max(1, processes)
    setters = _Typesetters(most)
    queue: deque[Pages] = deque()
    web: list[WebPage] = []
    with ThreadPoolExecutor(1) as here:
        written: list[Future[tuple[Made, ...]]] = []
        try:
            while more or queue or setters.running:
                if more or queue:
                    setters.get_ready()
                while queue and not setters.are_full:
                    setters.start(queue.popleft())
                if more and len(queue) < most:
                    job = next(source, None)
                    if job is None:
                        more = False
                        written = [here.submit(page.make) for page in web]
                    elif isinstance(job, WebPage):
                        web.append(job)
                    elif (made := known(job)) is not None:
                        yield None, made
                    else:
                        queue.append(job)
                is_full = not more or len(queue) >= most
                yield from setters.finished(wait_for_one=is_full and bool(setters.running))
        finally:
            setters.end()
        for page in written:
            yield None, page.result()


class _Typesetters:
    """Processes that do one job each; some wait for theirs, so that nobody waits while a process starts."""

    def __init__(self, most: int) -> None:
        warm_up()
        self._context = process_context()
        self._most = most
        self._idle: deque[tuple[Connection, BaseProcess]] = deque()
        self.running: dict[Connection, tuple[Pages, BaseProcess]] = {}

    @property
    def are_full(self) -> bool:
        return len(self.running) >= self._most

    def get_ready(self) -> None:
        """Let processes wait for as many jobs as may be given out next."""
        while len(self._idle) + len(self.running) < self._most or not self._idle:
            ours, theirs = self._context.Pipe()
            with interrupts_left_to_us():
                process = self._context.Process(target=_make, args=(theirs,), daemon=True)
                process.start()
            theirs.close()
            self._idle.append((ours, process))

    def start(self, job: Pages) -> None:
        """Give a job to a process that waits."""
        connection, process = self._idle.popleft()
        self.running[connection] = (job, process)
        try:
            connection.send(job)
        except OSError:
            raise _lost(process) from None

    def finished(self, wait_for_one: bool) -> Iterator[tuple[Pages, tuple[Made, ...]]]:
        """What is ready by now, or the next to be ready."""
        for ready in wait(list(self.running), None if wait_for_one else 0):
            if isinstance(ready, Connection):
                job, process = self.running.pop(ready)
                yield job, _answer(ready, process)

    def end(self) -> None:
        for connection, process in self._idle:
            connection.close()
            process.terminate()
        for _, process in self.running.values():
            process.terminate()


def _lost(process: BaseProcess) -> WorkerLostError:
    process.join()
    return WorkerLostError(f"a typesetter ended early, with exit code {process.exitcode}")


def _answer(connection: Connection, process: BaseProcess) -> tuple[Made, ...]:
    """What a typesetter sends; raises what went wrong there."""
    try:
        answer = connection.recv()
    except (EOFError, ConnectionError):
        raise _lost(process) from None
    finally:
        connection.close()
    process.join()
    if isinstance(answer, str):
        raise PageEngineError(answer)
    return tuple(answer)


@contextmanager
def interrupts_left_to_us() -> Iterator[None]:
    """Processes started meanwhile ignore an interrupt from the keyboard; this one hears it and ends them.

    A wish to end is heard afterward, since a process that is given up while it starts complains of half its orders.
    """
    if current_thread() is not main_thread():
        yield
        return
    wished: list[int] = []
    before = signal(SIGINT, SIG_IGN)
    endings = {
        number: handler for name in ("SIGTERM", "SIGHUP")
        if (number := getattr(signals, name, None)) is not None and callable(handler := getsignal(number))
    }
    for number in endings:
        signal(number, lambda heard, frame: wished.append(heard))
    try:
        yield
    finally:
        signal(SIGINT, before)
        for number, handler in endings.items():
            signal(number, handler)
    for number in wished:
        endings[number](number, None)


def _make(connection: Connection) -> None:
    """A typesetter's whole life: one job received, and its files or its fault sent back."""
    try:
        job: Pages = connection.recv()
    except (EOFError, ConnectionError):
        return
    try:
        connection.send(job.make())
    except Exception as fault:
        connection.send(f"{type(fault).__name__}: {fault}")
    finally:
        connection.close()
