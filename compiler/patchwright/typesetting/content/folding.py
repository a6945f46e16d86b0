"""How a booklet of half pages is printed, folded and stapled.

In: the words of one language; the pages themselves are put on sheets by `patchwright.typesetting.folding`.
Out: the section of the edition for folding.
"""

from __future__ import annotations

from patchwright.typesetting.booklet import Bullets, Notice, Section
from patchwright.typesetting.content.scope import Scope


def folding(scope: Scope) -> Section:
    """What to set in the printer's window, and what to do with the sheets."""
    steps = tuple(scope.inlines(f"folding.{key}") for key in ("sides", "scale", "fold", "sets"))
    note = Notice("check", scope.say("folding.title"), (
        scope.paragraph("folding.files"), Bullets(steps), scope.paragraph("folding.measure"),
    ))
    return Section("folding", scope.say("section.folding"), (note,))
