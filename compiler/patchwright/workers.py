"""The driver's typesetters: processes that turn booklets into bytes side by side.

In: a theme and jobs.
Out: files' names, bytes and page counts, in the order of the jobs.
Never: a file or a decision; a worker ends after one job, so that the page engine's memory goes with it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing import get_all_start_methods, get_context
from signal import SIG_IGN, SIGINT, signal
from threading import current_thread, main_thread
from typing import TYPE_CHECKING

from patchwright.typesetting.booklet import Booklet
from patchwright.typesetting.drawings import Drawings
from patchwright.typesetting.pdf import compose_pdf, page_data, page_engine
from patchwright.typesetting.web import write_html

if TYPE_CHECKING:
    from patchwright.typesetting.themes import Theme

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
    """The web page of one booklet."""

    booklet: Booklet

    def make(self, theme: Theme) -> tuple[Made, ...]:
        """Write the page, fonts and drawings inside."""
        return ((f"{self.booklet.id}.html", write_html(self.booklet, theme).encode("utf-8"), 0),)


def typeset(theme: Theme, jobs: Sequence[Pages | WebPage], processes: int) -> Iterator[Made]:
    """Make every job in a process of its own, so many at a time; the results come in the jobs' order."""
    forking = "forkserver" in get_all_start_methods()
    context = get_context("forkserver" if forking else "spawn")
    if forking:
        context.set_forkserver_preload(["patchwright.workers", "typst", "jinja2"])
    with _interrupts_left_to_us():
        pool = context.Pool(max(1, min(processes, len(jobs))), maxtasksperchild=1)
    with pool:
        for made in pool.imap(_make, [(theme, job) for job in jobs], chunksize=1):
            yield from made


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


def _make(given: tuple[Theme, Pages | WebPage]) -> tuple[Made, ...]:
    theme, job = given
    return job.make(theme)
