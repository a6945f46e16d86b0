"""The table of all diagnostic codes: the stage that raises each, and how grave it is unless told otherwise.

In: nothing; and, for those who explain codes, the text of a wording file.
Out: the registry `CODES`, and the words and examples of a language.
Never: a code in a diagnostic that is not here; reading YAML merely because this module was imported.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from patchwright.core.diagnostics import Severity

Kind = Literal["pattern", "house", "theme", "layouts", "build"]
Stage = Literal["dialect", "design", "planning", "typesetting"]

_ERRORS: dict[Stage, str] = {
    "dialect": """
        not-utf-8 byte-order-mark control-character tab file-too-large nested-too-deep too-many-values text-too-long
        too-many-mistakes yaml-syntax unquoted-colon missing-space several-documents not-a-mapping duplicate-key
        key-not-text tag anchor alias merge-key empty-value vanished-color unquoted-braces
        unknown-dialect house-file unknown-key missing-key wrong-shape unknown-word
        invalid-name no-entries too-many-entries
        unit-without-method unit-two-methods unknown-role missing-role too-many-fabrics
        not-a-switch not-a-count leading-zero not-a-length unknown-length-unit negative-length not-a-size
        not-a-percentage not-a-color not-a-fit invalid-item repeat-out-of-range size-out-of-range
        allowance-without-reason allowance-unknown-code allowance-of-error
    """,
    "design": """
        unknown-name wrong-kind name-taken unknown-fabric circular-block like-and-rows block-without-rows
        both-rows-and-columns swap-unknown row-width-mismatch row-height-mismatch cell-and-size
        size-not-square-grid arrange-empty arrange-ragged sized-placement
        sashing-without-width sashing-without-fabric sashing-width-zero
        sashing-says-nothing sashing-without-crossings not-by-block by-block-range
        border-along-with-corners border-width-zero border-limits corner-twice
        coping-limits coping-without-pieced pieced-and-plain
        unknown-bed fit-without-bed
        sashing-on-point setting-triangles-missing
        strippy-only strippy-sashing strips-missing strips-width-zero
        trim-and-float medallion-without-rounds assemble-not-straight coping-and-spacers
        bias-from-precut seams-against-print repeat-of-precut stripe-directional backing-cloth
        only-on-point unknown-pack pack-without-shape pack-two-shapes unknown-pile source-not-one
        wrong-unit seam-too-wide
        pattern-too-large unknown-step-note house-range color-count
    """,
    "planning": """
        block-without-cell nested-size-mismatch block-size-mismatch coping-too-narrow column-height-mismatch
        trim-to-does-not-fit on-point-not-square pieced-border-does-not-fit bed-not-reached
        quarters-impossible not-square geese-not-two-to-one no-corner corner-overlap corner-too-large curve-radius
        patches-not-read patches-not-whole patches-not-sewable
        foundation-order not-wider-than-high rows-do-not-fit center-too-large template-too-large strip-piece-impossible
        heights-not-read
        not-measurable piece-too-wide one-way-too-long binding-too-long repeat-too-long kept-layouts
    """,
    "typesetting": """
        missing-glyph cover-photo house-logo prose-picture prose-link unknown-value unfinished-value theme-missing
        theme-token
    """,
}
_WARNINGS: dict[Stage, str] = {
    "dialect": "cut-off-text",
    "design": """
        cell-without-effect cut-without-effect unused-fabric unused-unit unused-block needless-seam arrange-too-large
        """,
    "planning": """
        made-twice not-symmetric bed-missed
        one-way-on-point one-way-leaning off-step rounded-down bias-edges pack-not-enough whole-width-used
        whole-length-used near-width
    """,
    "typesetting": "",
}


@dataclass(frozen=True, slots=True)
class Code:
    """One kind of mistake or doubt."""

    name: str
    stage: Stage
    severity: Severity


def _registry() -> Mapping[str, Code]:
    made: dict[str, Code] = {}
    tables: tuple[tuple[Severity, dict[Stage, str]], ...] = (("error", _ERRORS), ("warning", _WARNINGS))
    for severity, table in tables:
        for stage, names in table.items():
            made |= {name: Code(name, stage, severity) for name in names.split()}
    return MappingProxyType(made)


CODES: Mapping[str, Code] = _registry()


@dataclass(frozen=True, slots=True)
class Explained:
    """What a language says of one code, with texts that show it: one that is wrong, and the same put right."""

    code: str
    summary: str
    explanation: str
    wrong: str
    """As printed: a fragment of a pattern, or a whole text."""
    right: str
    wrong_bytes: bytes
    """The whole text that is wrong, as a file."""
    right_bytes: bytes
    kind: Kind
    """What kind of file the texts are; only patterns are laid over a base."""

    @property
    def house(self) -> bool:
        """Whether the texts are house files."""
        return self.kind == "house"


def load_codes(text: str) -> Mapping[str, Explained]:
    """Read a wording file of codes; it says at its top how it is written."""
    import yaml

    loaded = yaml.load(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    return {code: _explained(code, entry, loaded["base"]) for code, entry in loaded["codes"].items()}


def _explained(code: str, entry: Mapping[str, str], base: str) -> Explained:
    wrong, right = entry["wrong"], entry["right"]
    kinds: dict[str, Kind] = {"house": "house", "theme": "theme", "layouts": "layouts", "build": "build"}
    kind = kinds.get(entry.get("file", ""), "pattern")
    over = "" if entry.get("file") not in (None, "build") else base
    times = int(entry.get("times", 0))
    grown = wrong.replace("…", entry.get("fill", "") * times) if times else wrong
    mark = "\ufeff" if grown.startswith("\ufeff") else ""
    whole = mark + laid_over(grown.removeprefix(mark), over)
    return Explained(
        code, entry["summary"], entry["explanation"].strip(), wrong, right,
        whole.encode(entry.get("encoding", "utf-8")), laid_over(right, over).encode("utf-8"), kind,
    )


def laid_over(fragment: str, base: str) -> str:
    """A fragment of top-level keys laid over a base: its keys replace those of the base, or are added at the end."""
    own = _sections(fragment)
    kept = [own.pop(key, section) for key, section in _sections(base).items()]
    return "".join([*kept, *own.values()])


def _sections(text: str) -> dict[str, str]:
    """The stretches of a text that begin at each of its top-level keys, or at the comments before it."""
    made: dict[str, str] = {}
    key, waiting = "", ""
    for line in text.splitlines(keepends=True):
        if line.startswith("#"):
            waiting += line
            continue
        if line[:1].isalpha() and ":" in line:
            name = line.partition(":")[0]
            key = name + " " if name in made else name
        made[key] = made.get(key, "") + waiting + line
        waiting = ""
    made[key] = made.get(key, "") + waiting
    return made
