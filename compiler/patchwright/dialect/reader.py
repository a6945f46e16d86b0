"""Reads a file's bytes into a tree with positions, and finds everything that YAML would swallow silently.

In: bytes, or a `Source` with its text.
Out: a tree of mappings, lists and texts, the comments, and a diagnostic for each mistake.
Never: an exception for any input, a value of a type that YAML guessed, or a file larger or deeper than the bounds.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from patchwright.core.diagnostics import Diagnostic, Findings
from patchwright.core.source import Source, Span, Text
from patchwright.core.tree import Node, TreeMap
from patchwright.dialect.builder import TreeBuilder
from patchwright.dialect.lines import LINE_BREAK, Lines
from patchwright.dialect.traps import Comment

MOST_BYTES = 1_000_000

_UNDECODED = re.compile(r"[\udc80-\udcff]")
_SAVE = "save the file as UTF-8 in your editor"
_UNWELCOME = re.compile(
    r"[\x00-\x09\x0b\x0c\x0e-\x1f\x7f-\x9f\u200b\u2028-\u202e\u2060\u2066-\u2069\ud800-\udfff\ufeff\ufffe\uffff]"
    r"|(?m:^) *\xa0"
)


@dataclass(frozen=True, slots=True)
class Reading:
    """What a text says: its tree (`None` where there is none to go on with), its comments, and what is wrong."""

    tree: TreeMap | None
    comments: tuple[Comment, ...]
    diagnostics: tuple[Diagnostic, ...]


def decode(path: str, data: bytes) -> tuple[Source | None, tuple[Diagnostic, ...]]:
    """Turn a file's bytes into a source; the only encoding is UTF-8."""
    if len(data) > MOST_BYTES:
        return None, (_too_large(path),)
    source = Source(path, data.decode("utf-8", "surrogateescape"))
    findings = Findings()
    _check_encoding(source, findings)
    return (None if findings.has_errors else source), findings.ordered()


def read_tree(source: Source) -> Reading:
    """Read a text whole; the tree is `None` if what follows could only guess."""
    findings = Findings()
    if len(source.text.encode("utf-8", "surrogatepass")) > MOST_BYTES:
        return Reading(None, (), (_too_large(source.path),))
    _check_encoding(source, findings)
    if findings.has_errors:
        return Reading(None, (), findings.ordered())
    text = _check_characters(source, findings)
    builder = TreeBuilder(Source(source.path, text), findings)
    root = builder.build()
    tree = _top(root, source, findings, builder.stopped)
    return Reading(tree, tuple(builder.comments), findings.ordered())


def _too_large(path: str) -> Diagnostic:
    message = f"the file has more than {MOST_BYTES} bytes"
    hint = "a pattern is text only; put pictures elsewhere"
    return Diagnostic("file-too-large", message, Span(path, 1, 1, 1, 2), hints=(hint,))


def _top(root: Node | None, source: Source, findings: Findings, stopped: bool) -> TreeMap | None:
    if stopped:
        return None
    if isinstance(root, TreeMap):
        return root
    if root is None or (isinstance(root, Text) and not root.strip()):
        place, message = Span(source.path, 1, 1, 1, 2), "there is nothing in this file"
    else:
        place, message = root.span, "the file does not begin with a key"
    findings.error("not-a-mapping", message, place, "a pattern begins with keys such as `dialect: 1`")
    return None


def _check_characters(source: Source, findings: Findings) -> str:
    """Report characters that do not belong in a text, and return the text with blanks in their place."""
    text = source.text
    if _UNWELCOME.search(text) is None:
        return text
    if text.startswith("\ufeff"):
        findings.error(
            "byte-order-mark", "the file begins with an invisible byte order mark", Span(source.path, 1, 1, 1, 2),
            "save the file as plain UTF-8, without a byte order mark (BOM)",
        )
        text = text[1:]
    tabs, others = _places(Source(source.path, text))
    if tabs:
        more = f", and in {len(tabs) - 1} more places" if len(tabs) > 1 else ""
        findings.error("tab", f"there is a tab here{more}", tabs[0], "use spaces; set your editor to type them for Tab")
    for character, place in others[:10]:
        findings.error(
            "control-character", f"there is an invisible character here (U+{ord(character):04X})", place,
            "delete it and type the space or line break anew",
        )
    return _UNWELCOME.sub(lambda match: " " * len(match[0]), text)


def _check_encoding(source: Source, findings: Findings) -> None:
    """Report bytes that were no UTF-8 and stand in the text as lone surrogates; the first speaks for all."""
    match = _UNDECODED.search(source.text)
    if match is not None:
        findings.error("not-utf-8", *_not_utf_8(source.path, source.text[: match.start()], source.text[:2]), _SAVE)


def _not_utf_8(path: str, before: str, start: str) -> tuple[str, Span]:
    """What to say of undecoded bytes, and where."""
    if start in ("\udcff\udcfe", "\udcfe\udcff"):
        return "this is text in UTF-16, not in UTF-8", Span(path, 1, 1, 1, 2)
    line, column = Lines(before).place(len(before))
    return "this is not text in UTF-8", Span(path, line, column, line, column + 1)


def _places(source: Source) -> tuple[list[Span], list[tuple[str, Span]]]:
    """The first tab of each line, and every other unwelcome character."""
    tabs: list[Span] = []
    others: list[tuple[str, Span]] = []
    for number, line in enumerate(LINE_BREAK.split(source.text), 1):
        found = [(match[0][-1], Span(source.path, number, match.end(), number, match.end() + 1))
                 for match in _UNWELCOME.finditer(line)]
        tabs += [place for character, place in found if character == "\t"][:1]
        others += [seen for seen in found if seen[0] != "\t"]
    return tabs, others
