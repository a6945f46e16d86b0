"""The style of a web page, and the policy that lets in this style, the page's script, and nothing else.

In: a theme and the texts of a page.
Out: font faces, the tokens as custom properties, the rules that all themes share and the theme's own; the policy.
Never: an address that is fetched; `unsafe-inline`.
"""

from __future__ import annotations

import base64
import hashlib
from dataclasses import asdict

from patchwright.core.theme import Palette
from patchwright.typesetting.themes import Theme
from patchwright.typesetting.web_fonts import font_faces


def page_style(theme: Theme, texts: frozenset[str], colors: str = "") -> str:
    """The whole style; readers may choose light or dark themselves, and paper is always light.

    `colors` are rules for the names of colors in drawings.
    """
    tokens = theme.tokens
    families = (
        f'--text-font:"{tokens.text_face.family}","{tokens.label_face.family}",serif;'
        f'--label-font:"{tokens.label_face.family}","{tokens.text_face.family}",sans-serif;'
    )
    faces = font_faces(tokens.text_face, tokens.label_face, texts)
    light, dark = _properties(tokens.light), _properties(tokens.dark)
    return (
        f"{faces}:root{{{families}color-scheme:light;{light}}}"
        f"@media screen{{:root[data-look=dark]{{color-scheme:dark;{dark}}}}}"
        f"@media screen and (prefers-color-scheme:dark){{:root:not([data-look=light]){{color-scheme:dark;{dark}}}}}"
        f"{colors}\n{theme.web_structure}\n{theme.web_style}"
    )


def page_policy(style: str, script: str) -> str:
    """The page may use its own style, script, fonts and pictures, and fetch nothing."""
    allowed = f"style-src '{_hash(style)}'"
    if script:
        allowed += f"; script-src '{_hash(script)}'"
    return f"default-src 'none'; {allowed}; font-src data:; img-src data:; base-uri 'none'; form-action 'none'"


def _hash(text: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode("utf-8")).digest()).decode("ascii")


def _properties(palette: Palette) -> str:
    return "".join(f"--{name.replace('_', '-')}:{color};" for name, color in asdict(palette).items())
