"""The driver's typesetters: processes that turn booklets into bytes side by side.

In: a theme and jobs.
Out: files' names, bytes and page counts, in the order of the jobs.
Never: a file or a decision; a worker ends after one job, so that the page engine's memory goes with it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing import get_all_start_methods, get_context
from multiprocessing.connection import Connection, wait
from multiprocessing.context import ForkServerContext, SpawnContext
from multiprocessing.process import BaseProcess
from signal import SIG_IGN, SIGINT, signal
from threading import current_thread, main_thread
from typing import TYPE_CHECKING

from patchwright.typesetting.booklet import Booklet
from patchwright.typesetting.drawings import Drawings
from patchwright.typesetting.faults import PageEngineError
from patchwright.typesetting.pdf import compose_pdf, page_data, page_engine
from patchwright.typesetting.web import write_html

if TYPE_CHECKING:
    from patchwright.typesetting.themes import Theme

_PRELOADED = ["patchwright.workers", "typst"]
Made = tuple[str, bytes, int]
"""A file's name, its bytes, and its pages (0 for a web page)."""


@dataclass(frozen=True, slots=True)
class Pages:
    """The PDFs of one booklet: for each paper what the page template is given."""

    id: str
    papers: tuple[str, ...]
    data: tuple[str, ...]

    @classmethod
    def of(cls, booklet: Booklet, theme: Theme, papers: tuple[str, ...], drawings: Drawings) -> Pages:
        """Check a booklet and lay its data out for all papers, its drawings written once."""
        return cls(booklet.id, papers, page_data(booklet, theme, papers, drawings))

    def make(self, theme: Theme) -> tuple[Made, ...]:
        """Compose all papers with one engine, which remembers what they share."""
        engine = page_engine(theme)
        results = [compose_pdf(theme, data, engine) for data in self.data]
        return tuple(
            (f"{self.id}-{paper}.pdf", result.content, result.pages)
            for paper, result in zip(self.papers, results, strict=True)
        )


@dataclass(frozen=True, slots=True)
class WebPage:
    """The web page of one booklet, and its drawings where they are written already."""

    booklet: Booklet
    drawings: Drawings

    def make(self, theme: Theme) -> Made:
        """Write the page, fonts and drawings inside."""
        text = write_html(self.booklet, theme, self.drawings)
        return f"{self.booklet.id}.html", text.encode("utf-8"), 0


class WorkerLostError(RuntimeError):
    """A typesetter ended without an answer, as when the machine runs out of memory."""


def warm_up() -> None:
    """Start what typesetters are started from, so that it gets ready while a pattern is still being planned."""
    if "forkserver" in get_all_start_methods():
        from multiprocessing import forkserver

        get_context("forkserver").set_forkserver_preload(_PRELOADED)
        with _interrupts_left_to_us():
            forkserver.ensure_running()


def typeset(
    theme: Theme, jobs: Sequence[Pages], processes: int, web: Sequence[WebPage] = ()
) -> Iterator[Made]:
    """Make PDFs in processes of their own, so many at a time and in their order, and web pages here meanwhile."""
    with ThreadPoolExecutor(1) as here:
        written = [here.submit(page.make, theme) for page in web]
        yield from _in_processes(theme, jobs, processes)
        for page in written:
            yield page.result()


def _in_processes(theme: Theme, jobs: Sequence[Pages], processes: int) -> Iterator[Made]:
    warm_up()
    context = get_context("forkserver") if "forkserver" in get_all_start_methods() else get_context("spawn")
    waiting = list(enumerate(jobs))[::-1]
    running: dict[Connection, tuple[int, BaseProcess]] = {}
    answers: dict[int, tuple[Made, ...]] = {}
    following = 0
    try:
        while waiting or running:
            while waiting and len(running) < max(1, processes):
                number, job = waiting.pop()
                listener, process = _started(context, theme, job)
                running[listener] = (number, process)
            for ready in wait(list(running)):
                if isinstance(ready, Connection):
                    number, process = running.pop(ready)
                    answers[number] = _answer(ready, process)
            while following in answers:
                yield from answers.pop(following)
                following += 1
    finally:
        for _, process in running.values():
            process.terminate()


def _started(
    context: ForkServerContext | SpawnContext, theme: Theme, job: Pages
) -> tuple[Connection, BaseProcess]:
    listener, speaker = context.Pipe(duplex=False)
    with _interrupts_left_to_us():
        process = context.Process(target=_make, args=(theme, job, speaker), daemon=True)
        process.start()
    speaker.close()
    return listener, process


def _answer(listener: Connection, process: BaseProcess) -> tuple[Made, ...]:
    """What a typesetter sends; raises what went wrong there."""
    try:
        answer = listener.recv()
    except EOFError:
        process.join()
        raise WorkerLostError(f"a typesetter ended early, with exit code {process.exitcode}") from None
    finally:
        listener.close()
    process.join()
    if isinstance(answer, str):
        raise PageEngineError(answer)
    return tuple(answer)


@contextmanager
def _interrupts_left_to_us() -> Iterator[None]:
    """Processes started meanwhile ignore an interrupt from the keyboard; this one hears it and ends them."""
    if current_thread() is not main_thread():
        yield
        return
    before = signal(SIGINT, SIG_IGN)
    try:
        yield
    finally:
        signal(SIGINT, before)


def _make(theme: Theme, job: Pages, speaker: Connection) -> None:
    """A typesetter's whole life: one job, and its files or its fault sent back."""
    try:
        speaker.send(job.make(theme))
    except Exception as fault:
        speaker.send(f"{type(fault).__name__}: {fault}")
    finally:
        speaker.close()
