"""The wording: templates are read and filled as described, and code and data agree about every key."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from patchwright.core.length import Cut, Length, Unfinished
from patchwright.wording import PLURALS, Wording, WordingError, load_wording, read_package_file
from patchwright.wording.templates import hole_names, parse_template

ROOT = Path(__file__).parents[2] / "compiler" / "patchwright"
CONTENT = ROOT / "typesetting" / "content"


def wording_of(**texts: str) -> Wording:
    """The real wording with a few templates of a test's own."""
    own = {key: parse_template(key, text) for key, text in texts.items()}
    return Wording("en", {**load_wording().templates, **own})


@pytest.mark.parametrize(
    ("template", "values", "text"),
    [
        ("Cut {n} {n|strip|strips}", {"n": 1}, "Cut 1 strip"),
        ("Cut {n} {n|strip|strips}", {"n": 3}, "Cut 3 strips"),
        ("Cut {n} {n|strip|strips}", {"n": 0}, "Cut 0 strips"),
        ("{n|one strip|{n} strips of {m}}", {"n": 2, "m": "A1"}, "2 strips of A1"),
        ("{n|one {m|cut|cuts}|{n} {m|cut|cuts}}", {"n": 2, "m": 1}, "2 cut"),
        ("{a} | {b}", {"a": "x", "b": "y"}, "x | y"),
        ("{side} square", {"side": Unfinished("5/2")}, "2½″ square"),
        ("{count}", {"count": 12000}, "12,000"),
        ("{count}", {"count": Fraction(5, 2)}, "2½"),
    ],
)
def test_templates_are_filled(template: str, values: dict[str, object], text: str) -> None:
    assert wording_of(key=template).say("key", **values) == text


@pytest.mark.parametrize("template", ["{", "{}", "{n", "{n|a", "a}", "{n|{m}", "{N}", "{n |a|b}"])
def test_broken_templates_are_refused(template: str) -> None:
    with pytest.raises(WordingError, match="key"):
        parse_template("key", template)


def test_what_is_lacking_is_named() -> None:
    words = wording_of(key="{count} of {things}", one="{n|strip}")
    with pytest.raises(WordingError, match="no `nowhere`"):
        words.say("nowhere")
    with pytest.raises(WordingError, match="`key` needs a value for `things`"):
        words.say("key", count=1)
    with pytest.raises(WordingError, match="too few forms for `n`"):
        words.say("one", n=2)
    with pytest.raises(WordingError, match="not a number"):
        words.say("one", n="two")
    with pytest.raises(WordingError, match="where text is needed"):
        words.say("key", count=1, things=("a", "tuple"))


def test_parts_keep_values_that_are_not_text() -> None:
    mark = ("A1",)
    assert wording_of(key="Lay {piece} on {n}.").parts("key", piece=mark, n=2) == ("Lay ", mark, " on 2.")


def test_lists_have_their_commas() -> None:
    words = load_wording()
    assert words.listed_text([]) == ""
    assert words.listed_text(["A1"]) == "A1"
    assert words.listed_text(["A1", "A2"]) == "A1 and A2"
    assert words.listed_text(["A1", "A2", "A3"]) == "A1, A2, and A3"


def test_lengths_and_amounts_print_as_the_trade_does() -> None:
    words = load_wording()
    metric = words.measured_in("cm")
    assert words.extent(Cut("5/2"), Cut("9/2")) == "2½″\u00a0×\u00a04½″"
    assert words.length(Length("45/16")) == "2\u202f13⁄16″"
    assert metric.extent(Cut("13/2"), Cut(10)) == "6.5\u00a0×\u00a010\u00a0cm"
    assert metric.length(Length("3/4")) == "0.75\u00a0cm"
    assert words.amount(Fraction(23, 8), "yd") == "2⅞\u00a0yd"
    assert metric.amount(Fraction(6, 5), "m") == "1.2\u00a0m"


def test_a_language_has_its_own_decimal_mark_and_plurals() -> None:
    words = wording_of(**{"number.decimal": ",", "language.plural": "one-few-many", "key": "{n|1|2-4|5}"})
    assert words.measured_in("cm").length(Length("13/2")) == "6,5\u00a0cm"
    assert [words.say("key", n=n) for n in (1, 2, 4, 5, 12, 22)] == ["1", "2-4", "2-4", "5", "5", "2-4"]
    assert set(PLURALS) >= {"one-other", "other"}


def test_another_reader_gives_another_wording_and_a_key_twice_is_refused() -> None:
    def read(name: str) -> str:
        return read_package_file(name).replace("Before You Start", "Read This First")

    assert load_wording("en", read).say("section.before") == "Read This First"
    with pytest.raises(WordingError, match="is there already"):
        load_wording("en", lambda name: "key: text")
    with pytest.raises(WordingError, match="no wording for the language `xx`"):
        load_wording("xx")


SAYS = {"say", "inlines", "paragraph", "parts"}


def _said_keys() -> Iterator[tuple[str, re.Pattern[str]]]:
    """Every key that content asks for, as a pattern in which the worked-out parts match anything."""
    for path in sorted([*CONTENT.glob("*.py"), CONTENT.parent / "catalogue.py", ROOT / "wording" / "__init__.py"]):
        tree = ast.parse(path.read_text("utf-8"))
        inner = {id(part) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in node.values}
        for node in ast.walk(tree):
            if id(node) in inner:
                continue
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in SAYS:
                yield from _patterns(path.name, node.args[0]) if node.args else ()
            if isinstance(node, ast.JoinedStr | ast.Constant):
                yield from (pair for pair in _patterns(path.name, node) if _is_key_like(node))


def _is_key_like(node: ast.expr) -> bool:
    text = ast.unparse(node)
    return re.fullmatch(r"f?'[a-z][a-z-]*(\.[a-z{}_.\[\]-]+)+'", text) is not None


def _patterns(where: str, node: ast.expr) -> Iterator[tuple[str, re.Pattern[str]]]:
    if isinstance(node, ast.IfExp):
        yield from _patterns(where, node.body)
        yield from _patterns(where, node.orelse)
    elif isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield f"{where}: {node.value}", re.compile(re.escape(node.value))
    elif isinstance(node, ast.JoinedStr):
        parts = [re.escape(str(part.value)) if isinstance(part, ast.Constant) else r"[^.]+" for part in node.values]
        yield f"{where}: {ast.unparse(node)}", re.compile("".join(parts))


def _own_keys() -> set[str]:
    """The keys of en.yaml alone; those of methods and figures are their own makers'."""
    import yaml

    def flat(node: object, prefix: str) -> Iterator[str]:
        if isinstance(node, dict):
            for key, value in node.items():
                yield from flat(value, f"{prefix}.{key}" if prefix else str(key))
        else:
            yield prefix

    return set(flat(yaml.load(read_package_file("en.yaml"), Loader=yaml.CBaseLoader), ""))


def test_every_key_that_code_says_exists() -> None:
    keys = load_wording().keys()
    missing = sorted(
        where
        for where, pattern in _said_keys()
        if "." in pattern.pattern
        and not where.startswith("values.py")
        and not any(pattern.fullmatch(key) for key in keys)
    )
    assert missing == []


def test_every_key_is_said_somewhere() -> None:
    patterns = [pattern for _, pattern in _said_keys()]
    unused = sorted(key for key in _own_keys() if not any(pattern.fullmatch(key) for pattern in patterns))
    assert unused == []


def test_names_in_templates_are_plain() -> None:
    for key, template in load_wording().templates.items():
        assert all(re.fullmatch(r"[a-z][a-z0-9_-]*", name) for name in hole_names(template)), key


def test_no_sentence_sits_in_code() -> None:
    found = []
    for path in sorted(CONTENT.glob("*.py")):
        tree = ast.parse(path.read_text("utf-8"))
        skipped = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
        skipped |= {id(part) for node in ast.walk(tree) if isinstance(node, ast.Raise) for part in ast.walk(node)}
        skipped |= _docs_of_editions(tree) | _messages(tree)
        found += [
            f"{path.name}: {node.value}"
            for node in ast.walk(tree)
            if isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and id(node) not in skipped
            and re.search(r"[A-Za-z]{2,} [A-Za-z]{2,}", node.value)
        ]
    assert found == []


def _docs_of_editions(tree: ast.Module) -> set[int]:
    """What an edition says about itself is for the command line, in the language of its messages."""
    return {
        id(node.args[1])
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Edition"
    }


def _messages(tree: ast.Module) -> set[int]:
    """What is said of a mistake is a message of the command line too."""
    return {
        id(part)
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)
        and node.func.attr in ("error", "warning")
        for part in ast.walk(node)
    }
