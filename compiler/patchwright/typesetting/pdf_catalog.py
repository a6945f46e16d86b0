"""The catalog of a composed PDF: the viewer preference that the engine does not write.

In: the engine's PDF, which ends with its catalog, one table of offsets and one trailer.
Out: the same PDF with `PrintScaling` none, so that templates print at their true size.
Never: another object moved or rewritten; a PDF of another build of the engine is refused rather than guessed at.
"""

from __future__ import annotations

import re

from patchwright.typesetting.faults import PageEngineError

_PREFERENCES = b"/ViewerPreferences<<"
_TRUE_SCALE = b"/PrintScaling/None"
_END = re.compile(rb"trailer\n<<[^\n]*/Root (\d+) 0 R[^\n]*>>\nstartxref\n(\d+)\n%%EOF\s*\Z")
_COUNT = re.compile(rb"/Type/Pages/Count (\d+)")


def with_true_scale(pdf: bytes) -> bytes:
    """Set `PrintScaling` to none.

    The catalog is the last object, so that what is put into it moves only the table of offsets behind it.
    """
    end = _END.search(pdf, max(0, len(pdf) - 1024))
    if end is None:
        raise PageEngineError("the composed PDF ends in an unknown way")
    offsets = int(end[2])
    catalog = pdf.rfind(b"\n%d 0 obj\n" % int(end[1]), 0, offsets)
    place = pdf.find(_PREFERENCES, catalog, offsets)
    if catalog < 0 or place < 0 or pdf.find(b"endobj", catalog) + len(b"endobj\n") != offsets:
        raise PageEngineError("the composed PDF does not end with its catalog")
    place += len(_PREFERENCES)
    moved = b"startxref\n%d\n" % (offsets + len(_TRUE_SCALE))
    tail = pdf[place:].replace(b"startxref\n%d\n" % offsets, moved)
    return pdf[:place] + _TRUE_SCALE + tail


def page_count(pdf: bytes) -> int:
    """The number of pages."""
    counts = [int(match[1]) for match in _COUNT.finditer(pdf)]
    if not counts:
        raise PageEngineError("the composed PDF has no list of pages")
    return max(counts)
