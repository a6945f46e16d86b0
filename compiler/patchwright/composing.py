"""Plan → drawings → booklets → what is typeset, one booklet after another so that pages are set meanwhile.

In: a verified plan, a theme, and which sizes and editions are wanted.
Out: figures; booklets with the look of their edition; jobs for typesetters.
Never: a file. What is taken over from an earlier build was made from the very same plan, prose apart.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from functools import partial
from typing import TYPE_CHECKING

from patchwright.core.packed import fingerprint
from patchwright.remembering import NOTHING, Memory, without_prose

if TYPE_CHECKING:
    from patchwright.diagrams.figures import Figures
    from patchwright.diagrams.pressing import AssemblyPressing
    from patchwright.diagrams.scene import Scene
    from patchwright.planning.plan import Plan
    from patchwright.typesetting.booklet import Booklet
    from patchwright.typesetting.changes import Changes
    from patchwright.typesetting.content.editions import Edition
    from patchwright.typesetting.drawings import Drawings
    from patchwright.typesetting.own_pictures import OwnPictures
    from patchwright.typesetting.themes import Theme
    from patchwright.typesetting.web_views import View
    from patchwright.wording import Wording
    from patchwright.workers import Job


def press(plan: Plan) -> dict[str, AssemblyPressing]:
    """Plan → which way the seams of every block and of every top are pressed, so that as many as possible nest."""
    from patchwright.diagrams.pressing import AssemblyPressing
    from patchwright.planning.pressing.drawing import drawn_pressing
    from patchwright.planning.pressing.press import with_pressing

    pressed = with_pressing(plan)
    found = pressed.pressing
    ways = drawn_pressing(pressed, found) if found is not None else {}
    return {id: AssemblyPressing(own.within, own.between) for id, own in ways.items()}


def draw(
    plan: Plan, theme: Theme, sizes: tuple[str, ...] | None = None, kinds: tuple[str, ...] = (),
    pressing: dict[str, AssemblyPressing] | None = None,
) -> Figures:
    """Plan → every drawing of it, or those of some kinds; hand in `pressing` where several are drawn of one plan."""
    from patchwright.diagrams.board import Room
    from patchwright.diagrams.figures import booklet_figures
    from patchwright.typesetting.fitting import room
    from patchwright.wording import load_wording

    limits = room(theme.tokens)
    wording = load_wording(plan.rules.language).measured_in(plan.system)
    space = Room(limits.step[0], limits.step[1], limits.cover[1])
    ways = pressing if pressing is not None else press(plan)
    return booklet_figures(plan, wording, theme.look, space, sizes=sizes, kinds=kinds or None, pressing=ways)


@dataclass(frozen=True, slots=True)
class Composed:
    """One booklet, its edition, the theme as that edition changes it, and its drawings as SVG."""

    edition: str
    booklet: Booklet
    theme: Theme
    drawings: Drawings
    views: Callable[[], tuple[View, ...]] | None = None
    """Composes what the web page shows, in the edition that it comes with."""
    folded: bool = False
    """Whether its pages are half sheets."""


def compose(
    plan: Plan, theme: Theme, sizes: tuple[str, ...], editions: tuple[str, ...], kits: int, memory: Memory = NOTHING,
    pictures: OwnPictures | None = None, ways: tuple[Plan, ...] = (),
) -> Iterator[Composed]:
    """Plan → the booklets of the editions asked for, each with drawings for its own sizes, in the order of editions.

    `ways` are the plans of the colorways that its web page shows too.
    """
    from patchwright.typesetting.content.make import make_booklet

    studio = _Studio.of(plan, theme, sizes, kits, memory, pictures)
    for edition in _chosen_editions(editions, bool(sizes), plan.rules.editions):
        artist = studio.artist(edition.changes)
        for group in [studio.sizes] if edition.covers == "all" else [(name,) for name in studio.sizes]:
            figures = artist.scenes(group, edition.figures)
            booklet = make_booklet(artist.plan, figures, studio.wording, edition, group, studio.hatches)
            views = partial(studio.views, editions, ways) if edition.name == "all-sizes" else None
            if booklet.sections:
                yield Composed(
                    edition.name, booklet, artist.theme, artist.drawings, views, edition.changes.folded
                )


def compose_web(
    plan: Plan, theme: Theme, sizes: tuple[str, ...] = (), editions: tuple[str, ...] = (), kits: int = 0,
    ways: tuple[Plan, ...] = (),
) -> tuple[View, ...]:
    """Plan → the booklets that its web page can show, in its own colors and in those of `ways`."""
    return _Studio.of(plan, theme, sizes, kits, NOTHING).views(editions, ways)


def page_jobs(composed: Iterator[Composed], papers: tuple[str, ...]) -> Iterator[Job]:
    """What is to be typeset of each booklet: PDFs, and at last one web page."""
    from patchwright.workers import Pages, WebPage

    whole: Composed | None = None
    for one in composed:
        yield Pages.of(one.booklet, one.theme, papers, one.drawings, one.folded)
        whole = one if one.views is not None else whole
    if whole is not None and whole.views is not None:
        yield WebPage(whole.booklet.id, whole.views(), whole.theme, whole.drawings)


def has_web_page(plan: Plan, sizes: tuple[str, ...], editions: tuple[str, ...]) -> bool:
    """Whether a build of these sizes and editions makes a web page, which comes with the edition of all sizes."""
    return any(edition.name == "all-sizes" for edition in _chosen_editions(editions, bool(sizes), plan.rules.editions))


def _chosen_editions(wanted: tuple[str, ...], some_sizes: bool, usual: tuple[str, ...]) -> list[Edition]:
    """The editions asked for, or the usual ones; some sizes alone ask for those of each size, where there are any."""
    from patchwright.typesetting.content.editions import EDITIONS

    chosen = [edition for edition in EDITIONS.values() if edition.name in (wanted or usual)]
    if wanted or not some_sizes:
        return chosen
    return [edition for edition in chosen if edition.covers == "each"] or chosen


@dataclass(slots=True)
class _Studio:
    """What all booklets of one plan are composed with: sizes, words, and an artist for each look."""

    plan: Plan
    theme: Theme
    sizes: tuple[str, ...]
    wording: Wording
    hatches: tuple[str, ...]
    pressing: _Pressing
    memory: Memory
    pictures: OwnPictures | None = None
    """What stands on covers, but for editions in lines alone."""
    _artists: dict[Changes, _Artist] = field(default_factory=dict)

    @classmethod
    def of(
        cls, plan: Plan, theme: Theme, sizes: tuple[str, ...], kits: int, memory: Memory,
        pictures: OwnPictures | None = None,
    ) -> _Studio:
        from patchwright.wording import load_wording

        names = tuple(size.name for size in plan.sizes if not sizes or size.name in sizes)
        hatches = tuple(hatch.name for hatch in theme.tokens.drawing.hatches)
        if kits:
            plan = replace(plan, rules=replace(plan.rules, kit_count=kits))
        return cls(plan, theme, names, load_wording(plan.rules.language), hatches, _Pressing(plan), memory, pictures)

    def artist(self, changes: Changes) -> _Artist:
        """The artist for editions that change the theme alike."""
        from patchwright.typesetting.changes import changed_theme, drawn_plan
        from patchwright.typesetting.drawings import Drawings

        if changes not in self._artists:
            own = changed_theme(self.theme, changes)
            plan = drawn_plan(self.plan, changes)
            pictures = None if changes.line_drawings else self.pictures
            self._artists[changes] = _Artist(plan, own, self.pressing, Drawings(own.look), self.memory, pictures)
        return self._artists[changes]

    def views(self, asked: tuple[str, ...], ways: tuple[Plan, ...]) -> tuple[View, ...]:
        """What the web page shows, in the theme's own look: the plan's colors first, then those of `ways`."""
        from patchwright.typesetting.changes import NO_CHANGES
        from patchwright.typesetting.content.web_editions import web_views

        artist = self.artist(NO_CHANGES)
        wanted = asked or self.plan.rules.editions
        views = web_views(artist.plan, artist.scenes, self.wording, self.sizes, wanted, self.hatches)
        for plan in ways:
            alike = plan.pressing is not None and plan.pressing == self.plan.pressing
            pressing = self.pressing if alike else _Pressing(plan)
            other = _Artist(plan, artist.theme, pressing, artist.drawings, self.memory, self.pictures)
            views += web_views(other.plan, other.scenes, self.wording, self.sizes, wanted, self.hatches, plan.colorway)
        return views


@dataclass(slots=True)
class _Pressing:
    """The pressing of a plan, found when the first drawing asks for it."""

    plan: Plan
    _found: dict[str, AssemblyPressing] | None = None

    def found(self) -> dict[str, AssemblyPressing]:
        if self._found is None:
            self._found = press(self.plan)
        return self._found


@dataclass(slots=True)
class _Artist:
    """Draws a plan in one look, or takes drawings over from an earlier build."""

    plan: Plan
    theme: Theme
    pressing: _Pressing
    drawings: Drawings
    memory: Memory
    pictures: OwnPictures | None = None
    _key: str = field(default="")
    _scenes: dict[tuple[tuple[str, ...], tuple[str, ...]], dict[str, Scene]] = field(default_factory=dict)

    def scenes(self, sizes: tuple[str, ...], kinds: tuple[str, ...] = ()) -> dict[str, Scene]:
        """The drawings by their ids; those of the same sizes and kinds are drawn once."""
        key = (sizes, kinds)
        if key not in self._scenes:
            self._scenes[key] = {drawn.scene.id: drawn.scene for drawn in self.figures(sizes, kinds).drawn}
            self._show_pictures(self._scenes[key])
        return self._scenes[key]

    def _show_pictures(self, scenes: dict[str, Scene]) -> None:
        """Add the photograph for the cover, as large as the drawn quilt may be there, and the logo."""
        if self.pictures is not None:
            for scene, body in self.pictures.scenes(self.theme.tokens, scenes):
                self.drawings.know(scene, body)
                scenes[scene.id] = scene

    def figures(self, sizes: tuple[str, ...], kinds: tuple[str, ...]) -> Figures:
        """The drawings for some sizes, of some kinds; all kinds where none are named."""
        if not self.memory.is_on:
            return self._drawn(sizes, kinds)
        self._key = self._key or fingerprint(without_prose(self.plan), self.theme.tokens)
        key = fingerprint(self._key, sizes, kinds)
        known = self.memory.recall("figures", key)
        if known is not None:
            figures: Figures = known[0]
            for drawn, body in zip(figures.drawn, known[1], strict=True):
                self.drawings.know(drawn.scene, body)
            return figures
        figures = self._drawn(sizes, kinds)
        self.memory.keep("figures", key, (_with_labels_alone(figures), [
            self.drawings.body(drawn.scene) for drawn in figures.drawn
        ]))
        return figures

    def _drawn(self, sizes: tuple[str, ...], kinds: tuple[str, ...]) -> Figures:
        return draw(without_prose(self.plan), self.theme, sizes, kinds, self.pressing.found())


def _with_labels_alone(figures: Figures) -> Figures:
    """The figures as they are kept beside their finished SVG, whose labels are still checked for glyphs."""
    from patchwright.diagrams.figures import Figures as Kept
    from patchwright.diagrams.scene import Label

    return Kept(tuple(
        replace(drawn, scene=replace(
            drawn.scene, items=tuple(item for item in drawn.scene.items if isinstance(item, Label))
        ))
        for drawn in figures.drawn
    ))
