"""Builds the tree from the events of the YAML parser, and reports what the dialect leaves out of YAML.

In: a text without control characters.
Out: the tree as far as it can be read, the comments, and the findings.
Never: deep recursion, an alias that is followed, or a key that replaces an earlier one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

import yaml

from patchwright.core.diagnostics import Findings, Note
from patchwright.core.source import Source, Span, Text, span_of
from patchwright.core.tree import Lost, Node, TreeList, TreeMap
from patchwright.dialect import traps
from patchwright.dialect.lines import Lines
from patchwright.dialect.syntax import explain_syntax
from patchwright.dialect.traps import Comment

MOST_DEEP = 40
MOST_VALUES = 50_000
MOST_CHARACTERS = 20_000
MOST_ENTRIES = 500
MOST_MISTAKES = 100
MOST_CUT_OFF = 20

_LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


class _Stopped(Exception):  # noqa: N818 - it is no error, but the end of reading.
    """Ends the reading where going on would only repeat one mistake."""


@dataclass(slots=True)
class _Event:
    """One event of the parser, its marks turned into a span and a stretch of the text."""

    kind: str
    span: Span
    start: int
    end: int
    raw: Any


class TreeBuilder:
    """Builds one text's tree; `stopped` tells that the text could not be read to its end."""

    def __init__(self, source: Source, findings: Findings) -> None:
        self.comments: list[Comment] = []
        self.stopped = False
        self._source = source
        self._lines = Lines(source.text)
        self._findings = findings
        self._events = self._read_events()
        self._values = 0
        self._read_to = 0
        self._last: _Event | None = None
        self._flow = 0
        self._cut_off = 0
        self._excused = findings.has_errors

    def build(self) -> Node | None:
        """The root of the first document, or `None` if there is none or it cannot be read."""
        root: Node | None = None
        try:
            for event in self._events:
                if event.kind == "DocumentStart":
                    if root is not None:
                        self._several(event)
                    root = self._node(next(self._events), 1)
        except _Stopped:
            self.stopped = True
        except yaml.YAMLError as error:
            self.stopped = True
            self._syntax(error)
        return root

    def _syntax(self, error: yaml.YAMLError) -> None:
        """Report a text that is not YAML, unless what was reported before is the likely cause."""
        end = self._source.text.find("\n", self._read_to)
        self._comments_until(end if end >= 0 else len(self._source.text))
        if not self._excused:
            explain_syntax(error, self._source.path, self._lines, self._findings)

    def _several(self, event: _Event) -> None:
        self._findings.error(
            "several-documents", "a second document begins here", event.span,
            "one file holds one pattern; delete the line `---` or move what follows into a file of its own",
        )
        raise _Stopped

    def _read_events(self) -> Iterator[_Event]:
        for raw in yaml.parse(self._source.text, Loader=_LOADER):
            kind = type(raw).__name__.removesuffix("Event")
            start, end = _marks(raw)
            span = Span(self._source.path, start.line + 1, start.column + 1, end.line + 1, end.column + 1)
            event = _Event(kind, span, start.index, end.index, raw)
            self._comments_until(event.start)
            self._read_to = max(self._read_to, event.end)
            self._last = event
            yield event

    def _comments_until(self, end: int) -> None:
        """Collect the comments between the last event and `end`, and report what hides in them."""
        if self._source.text.find("#", self._read_to, end) < 0:
            return
        last = self._last
        for comment in traps.comments_between(self._source, self._lines, self._read_to, end):
            if len(self.comments) < MOST_VALUES:
                self.comments.append(comment)
            if self._flow and traps.holds_color(comment):
                traps.report_vanished(comment, self._findings)
                self._excused = True
            elif last is not None and self._may_be_cut_off(last, comment):
                self._cut_off += traps.report_cut_off(comment, last.span, self._findings)

    def _may_be_cut_off(self, last: _Event, comment: Comment) -> bool:
        """Whether a comment follows a plain text directly; so many at most are worth a warning."""
        if self._cut_off >= MOST_CUT_OFF or not _is_plain(last):
            return False
        return last.span.end_line == comment.span.line and not self._source.text[last.end : comment.start].strip()

    def _node(self, event: _Event, depth: int) -> Node:
        self._values += 1
        if len(self._findings.items) >= MOST_MISTAKES:
            report_too_many(event.span, self._findings)
            raise _Stopped
        if depth > MOST_DEEP:
            self._findings.error(
                "nested-too-deep", f"this is nested more than {MOST_DEEP} levels deep", event.span,
                "a pattern needs no more than about eight levels; look for brackets that are not closed",
            )
            raise _Stopped
        if self._values > MOST_VALUES:
            self._findings.error(
                "too-many-values", f"the file has more than {MOST_VALUES} values", event.span,
                "use `*3` to repeat an item, and `like` to repeat a block with other fabrics",
            )
            raise _Stopped
        if event.kind != "Alias":
            self._check_properties(event)
        if event.kind == "MappingStart":
            return self._mapping(event, depth)
        if event.kind == "SequenceStart":
            return self._list(event, depth)
        return self._scalar(event)

    def _check_properties(self, event: _Event) -> None:
        """Report the tags and anchors of YAML, which the dialect does not have."""
        if event.raw.tag is not None:
            self._findings.error(
                "tag", f"`{_shown_tag(event.raw.tag)}` is a tag of YAML, which patterns do not use", event.span,
                "leave it out; a text that begins with `!` needs quotes",
            )
        if event.raw.anchor is not None:
            self._findings.error(
                "anchor", f"`&{event.raw.anchor}` is an anchor of YAML, which patterns do not use", event.span,
                "leave it out; to repeat a block with other fabrics, use `like` and `swap`",
            )

    def _scalar(self, event: _Event) -> Text:
        if event.kind == "Alias":
            self._findings.error(
                "alias", f"`*{event.raw.anchor}` is an alias of YAML, which patterns do not use", event.span,
                "write the value out; to repeat a block with other fabrics, use `like` and `swap`; "
                "a text that begins with `*` needs quotes",
            )
            return Lost("", event.span)
        value = event.raw.value
        if len(value) > MOST_CHARACTERS:
            self._findings.error(
                "text-too-long", f"this text has {len(value)} characters; at most {MOST_CHARACTERS} are read",
                event.span,
            )
            return Lost("", event.span)
        return Text(value, event.span)

    def _list(self, start: _Event, depth: int) -> TreeList:
        made = TreeList(start.span)
        self._flow += bool(start.raw.flow_style)
        event = start
        for event in self._events:
            if event.kind == "SequenceEnd":
                break
            value = self._node(event, depth + 1)
            if _is_empty(event):
                value = self._empty_entry(event)
            made.append(value)
        self._flow -= bool(start.raw.flow_style)
        made.span = _whole(start, event, made)
        self._check_entries(made)
        return made

    def _mapping(self, start: _Event, depth: int) -> Node:
        made = TreeMap(start.span)
        lost = False
        self._flow += bool(start.raw.flow_style)
        event = start
        for event in self._events:
            if event.kind == "MappingEnd":
                break
            if event.kind != "Scalar":
                self._strange_key(start, event, depth)
                lost = True
            else:
                self._entry(made, event, depth)
        self._flow -= bool(start.raw.flow_style)
        made.span = _whole(start, event, (node for entry in list(made.items())[-1:] for node in entry))
        self._check_entries(made)
        return Lost("", made.span) if lost else made

    def _entry(self, made: TreeMap, event: _Event, depth: int) -> None:
        """Read one key with its value into the mapping, unless the key is there already."""
        self._values += 1
        self._check_properties(event)
        key = self._scalar(event)
        value_event = next(self._events)
        value = self._node(value_event, depth + 1)
        parted = traps.part_key(key) if not event.raw.style else None
        if _is_empty(value_event):
            key, value = self._empty_value(key, parted, event, value_event)
        elif parted is not None:
            traps.report_missing_space(*parted, key.span, self._findings)
            key, value = parted[0], Lost("", key.span)
        first = made.key(key) if key in made else None
        if first is not None:
            note = Note(span_of(first), "first here")
            self._findings.error(
                "duplicate-key", f"`{key}` is here twice", event.span, "delete one of them, or give it another name",
                notes=(note,),
            )
        elif key == "<<" and not event.raw.style:
            self._findings.error(
                "merge-key", "`<<` merges mappings in YAML, which patterns do not use", event.span,
                "write the keys out; to repeat a block with other fabrics, use `like` and `swap`",
            )
        else:
            made[key] = value

    def _empty_value(
        self, key: Text, parted: tuple[Text, Text] | None, event: _Event, value: _Event
    ) -> tuple[Text, Node]:
        """Report a key without a value; the key and value that were meant, where that is plain."""
        color = traps.color_after(self._lines, value.span)
        if color is not None:
            if not self._flow:
                traps.report_vanished(color, self._findings)
            return key, Text(traps.color_of(color), color.span)
        if parted is not None:
            traps.report_missing_space(*parted, key.span, self._findings)
            return parted
        colon = ":" in self._source.text[event.end : value.end]
        traps.report_empty_value(key, bool(self._flow), colon, self._findings)
        return key, Lost("", key.span)

    def _empty_entry(self, event: _Event) -> Node:
        """Report an empty entry of a list; the value that was meant, where that is plain."""
        color = traps.color_after(self._lines, event.span)
        if color is not None:
            if not self._flow:
                traps.report_vanished(color, self._findings)
            return Text(traps.color_of(color), color.span)
        at = event.span
        place = Span(at.path, at.line, max(at.column - 1, 1), at.line, max(at.column, 2))
        self._findings.error("empty-value", "this entry of the list is empty", place, "delete it, or write a value")
        return Lost("", place)

    def _strange_key(self, start: _Event, event: _Event, depth: int) -> None:
        """Report a key that is not a text, and read past it and its value without a word."""
        if self._source.text[start.start : event.end] == "{{":
            self._excused = True
            place = _between(start.span, event.span.end_line, event.span.end_column)
            self._findings.error(
                "unquoted-braces", "`{{` without quotes is read as a mapping", place,
                "put the whole text in quotes, such as `\"One block is {{ block.coil.size }}.\"`, "
                "or write it below a key that ends with `: |`",
            )
        else:
            self._findings.error(
                "key-not-text", "a list or a mapping stands here where a key is expected", event.span,
                "a key is a single word; put text with special characters in quotes",
            )
        kept, self._findings = self._findings, Findings()
        try:
            self._node(event, depth + 1)
            self._node(next(self._events), depth + 1)
        finally:
            self._findings = kept

    def _check_entries(self, made: TreeMap | TreeList) -> None:
        if len(made) > MOST_ENTRIES:
            self._findings.error(
                "too-many-entries", f"there are {len(made)} entries here; at most {MOST_ENTRIES} are read",
                made.span, "use `*3` to repeat an item",
            )


def report_too_many(place: Span, findings: Findings) -> None:
    """Say that there are more mistakes than are worth telling."""
    findings.error(
        "too-many-mistakes", f"there are more than {MOST_MISTAKES} mistakes; the others are not told", place,
        "mend some of these first; if nearly everything is wrong, this may not be a pattern",
    )


def _marks(raw: Any) -> tuple[Any, Any]:
    return raw.start_mark, raw.end_mark


def _is_empty(event: _Event) -> bool:
    return event.kind == "Scalar" and not event.raw.style and not event.raw.value and event.raw.tag is None


def _is_plain(event: _Event) -> bool:
    return event.kind == "Scalar" and not event.raw.style and bool(event.raw.value)


def _shown_tag(tag: str) -> str:
    return tag.replace("tag:yaml.org,2002:", "!!")


def _whole(start: _Event, end: _Event, parts: Iterable[Node]) -> Span:
    """From the start of a mapping or list to the end of its bracket or of its last part."""
    first = start.span
    if start.raw.flow_style:
        return _between(first, end.span.end_line, end.span.end_column)
    ends = [(first.end_line, first.end_column), *((part.span.end_line, part.span.end_column) for part in parts)]
    return _between(first, *max(ends))


def _between(first: Span, line: int, column: int) -> Span:
    return Span(first.path, first.line, first.column, line, column)
