"""The faces of a theme, cut down to the characters of one booklet and written into its style.

In: families and texts.
Out: `@font-face` rules with the fonts inside them.
Never: a face that reaches out of the page. Fractions such as 13⁄16 are kept; kerning is not, since it costs more time
than all else together.
"""

from __future__ import annotations

import base64
import io
import string
from functools import cache

from patchwright.core.theme import Typeface
from patchwright.typesetting.fonts import face_file, open_font

_USUAL = frozenset(string.ascii_letters + string.digits + string.punctuation + " \u00a0½⅓⅔¼¾⅛⅜⅝⅞×′″–—‘’“”…≈•©")
"""Characters that are always kept, so that the booklets of one run share their cut-down faces."""


def font_faces(text_face: Typeface, label_face: Typeface, texts: frozenset[str]) -> str:
    """The rules for the text face (regular, bold, italic) and the label face (regular, bold)."""
    extra = frozenset().union(*texts) - _USUAL
    faces = ((text_face, False, False), (text_face, True, False), (text_face, False, True),
             (label_face, False, False), (label_face, True, False))  # fmt: skip
    return "".join(_rule(face, bold, italic, extra) for face, bold, italic in dict.fromkeys(faces))


@cache
def _rule(face: Typeface, bold: bool, italic: bool, extra: frozenset[str]) -> str:
    data = base64.b64encode(_subset(face, bold, italic, extra)).decode("ascii")
    style = "font-style:italic;" if italic else ""
    return (
        f'@font-face{{font-family:"{face.family}";{style}font-weight:{700 if bold else 400};'
        f'src:url("data:font/woff;base64,{data}") format("woff")}}'
    )


def _subset(face: Typeface, bold: bool, italic: bool, extra: frozenset[str]) -> bytes:
    from fontTools import subset

    options = subset.Options(
        layout_features=["frac", "numr", "dnom"],
        hinting=False,
        drop_tables=["DSIG", "FFTM", "GDEF", "GPOS", "meta", "kern"],
        name_IDs=[1, 2],
        notdef_outline=True,
    )
    font = open_font(face_file(face.package, bold, italic))
    font.recalcTimestamp = False
    subsetter = subset.Subsetter(options)
    subsetter.populate(text="".join(sorted(_USUAL | extra)))
    subsetter.subset(font)
    font.flavor = "woff"
    out = io.BytesIO()
    font.save(out)
    return out.getvalue()
