"""The one name space of fabrics, units and blocks, and what is used of it.

In: Declared.
Out: which kind of thing each name is; errors for names that are taken, unknown or never used.
Never: a guess at what an unknown name meant; the hints list what there is.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Literal

from patchwright.core.diagnostics import Findings, Note, nearest_names
from patchwright.core.source import Span, span_of
from patchwright.dialect.declared import PatternDeclaration

Kind = Literal["fabric", "unit", "block"]
_PART = re.compile(
    r"sashing|cornerstones|setting|binding|backing|batting|size|butted|mitered|border-\d+"
    r"|hanging(-sleeve|-corners|-label)?"
)
"""Names that the parts of a quilt have by themselves, in plans and on the command line."""
_UNUSED: dict[Kind, str] = {"fabric": "unused-fabric", "unit": "unused-unit", "block": "unused-block"}


@dataclass(slots=True)
class Names:
    """Every declared name with its kind and place, and the names met so far."""

    findings: Findings
    kinds: dict[str, Kind] = field(default_factory=dict)
    spans: dict[str, Span] = field(default_factory=dict)
    used: set[str] = field(default_factory=set)

    def find(self, name: str, span: Span, *allowed: Kind) -> Kind | None:
        """The kind of a name, marked as used; report a name that does not exist or is of another kind."""
        kind = self.kinds.get(name)
        wanted = {known for known, its in self.kinds.items() if its in allowed}
        if kind is None:
            code = "unknown-fabric" if allowed == ("fabric",) else "unknown-name"
            what = " or ".join(allowed)
            self.findings.error(code, f"there is no {what} `{name}`", span, *nearest_names(name, wanted))
            return None
        self.used.add(name)
        if kind not in allowed:
            article = " or ".join(f"a {word}" for word in allowed)
            self.findings.error(
                "wrong-kind", f"`{name}` is a {kind}, but {article} is needed here", span,
                *nearest_names(name, wanted), notes=[Note(self.spans[name], f"`{name}` is declared here")],
            )
            return None
        return kind

    def report_unused(self) -> None:
        """Warn of everything that was declared and never used."""
        for name, kind in self.kinds.items():
            if name not in self.used:
                self.findings.warning(
                    _UNUSED[kind], f"the {kind} `{name}` is never used", self.spans[name],
                    "use it, or take it out",
                )


def gather_names(declared: PatternDeclaration, findings: Findings) -> Names:
    """Collect fabrics, units and blocks; report a name that two of them share."""
    names = Names(findings)
    groups: tuple[tuple[Kind, list[str]], ...] = (
        ("fabric", list(declared.fabrics)), ("unit", list(declared.units)), ("block", list(declared.blocks)),
    )
    for kind, group in groups:
        for name in group:
            span = span_of(name)
            if _PART.fullmatch(name):
                findings.error(
                    "name-taken", f"`{name}` is what a part of every quilt is called", span, "choose another name"
                )
                continue
            if name in names.kinds:
                findings.error(
                    "name-taken", f"`{name}` is already the name of a {names.kinds[name]}", span,
                    "fabrics, units and blocks share one name space; choose another name",
                    notes=[Note(names.spans[name], f"the {names.kinds[name]} `{name}`")],
                )
                continue
            names.kinds[str(name)] = kind
            names.spans[str(name)] = span
    return names
