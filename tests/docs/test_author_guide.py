"""The author's guide is true: its examples compile, and its keys, defaults and ranges are those of the code."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner

from docs.compiling import compiled, said
from docs.guide import (
    Example,
    base,
    examples,
    fences,
    first_table,
    grown,
    guide,
    keyed,
    marked,
    section,
    table,
)
from patchwright.cli import program
from patchwright.core.codes import CODES, laid_over
from patchwright.core.diagnostics import Findings
from patchwright.core.measure import System, plain_length, plain_number
from patchwright.core.report import human_text
from patchwright.core.source import Source
from patchwright.design.house import LENGTH_RULES, LengthRule, resolve_rules
from patchwright.dialect.cutlist import CutListDeclaration
from patchwright.dialect.parse import read_house, read_pattern
from patchwright.dialect.schema import house_json_schema, json_schema
from patchwright.methods.method import Method
from patchwright.methods.registry import METHODS
from patchwright.planning.prose_values import value_names

KINDS = ("base", "finished", "step", "fragment", "wrong", "house", "list")
SCHEMA = json_schema()
LOGO = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 1"><path d="M0 1h2"/></svg>'
"""The file that the guide's house names."""
HOUSE_SCHEMA = house_json_schema()
OF_ALL_SIZES = ("rag", "quilt-as-you-go")
PARTS = {"pattern": SCHEMA, **SCHEMA["$defs"]}
HOUSE_LENGTHS = ("systemrules", "bindingrules", "backingrules", "battingrules", "hangingrules", "kitrules", "ragrules",
                 "asyougorules")
"""Parts of the schema that the guide explains in the tables of rules."""


def _ids(example: object) -> str | None:
    return example.id if isinstance(example, Example) else None


def _shown(fragment: str) -> Iterator[str]:
    """A fragment over the base; units, or blocks, that it does not put into a quilt are each put into one."""
    own = yaml.safe_load(fragment)
    if "units" in own and "blocks" not in own:
        for name in own["units"]:
            shown = {"blocks": {"shown": {"cell": "3 in", "rows": [[name]]}}, "quilt": {"arrange": [["shown"]]}}
            yield laid_over(fragment + yaml.safe_dump(shown, sort_keys=False), base())
    elif "blocks" in own and "quilt" not in own:
        for name, block in own["blocks"].items():
            if "cell" in block or "size" in block:
                shown = {"quilt": {"arrange": [[name]]}}
                yield laid_over(fragment + yaml.safe_dump(shown), base())
    else:
        yield laid_over(fragment, base())


def test_every_example_is_of_a_kind_that_is_compiled() -> None:
    for fence in fences():
        assert fence.info.split()[0] in ("yaml", "text"), fence.id
        assert not fence.info.startswith("yaml") or fence.kind in KINDS, fence.id


@pytest.mark.parametrize("example", examples("base") + examples("finished"), ids=_ids)
def test_whole_patterns(example: Example, tmp_path: Path) -> None:
    assert said(compiled(example.text, tmp_path)) == []


@pytest.mark.parametrize(("step", "text"), grown(), ids=_ids)
def test_the_first_pattern_compiles_after_every_step(step: Example, text: str, tmp_path: Path) -> None:
    assert said(compiled(text, tmp_path)) == []


def test_the_first_pattern_ends_as_it_is_printed() -> None:
    printed, _ = read_pattern(Source("", examples("finished")[0].text))
    made, _ = read_pattern(Source("", grown()[-1][1]))
    assert printed is not None
    assert printed == made


@pytest.mark.parametrize("example", examples("fragment"), ids=_ids)
def test_fragments(example: Example, tmp_path: Path) -> None:
    for number, text in enumerate(_shown(example.text)):
        folder = tmp_path / str(number)
        folder.mkdir()
        result = compiled(text, folder)
        assert result.plan is not None, said(result)


@pytest.mark.parametrize("example", examples("wrong"), ids=_ids)
def test_what_is_wrong_is_reported_under_its_code(example: Example, tmp_path: Path) -> None:
    code = example.info.split()[-1]
    assert code in CODES
    result = compiled(laid_over(example.text, base()), tmp_path)
    assert {item.code for item in result.diagnostics} == {code}


def test_messages_are_quoted_as_they_are() -> None:
    messages = [number for number, fence in enumerate(fences()) if fence.info == "text message"]
    assert messages
    for number in messages:
        source = Source("small-sail.yaml", laid_over(fences()[number - 1].text, base()))
        assert fences()[number].text == _reported(source)


def _reported(source: Source) -> str:
    from patchwright.design.resolve import make_design

    declared, found = read_pattern(source)
    if declared is not None and not found:
        found = make_design(declared, None, "small-sail")[1]
    return human_text(found, {source.path: source})


@pytest.mark.parametrize("example", examples("house"), ids=_ids)
def test_house_files(example: Example, tmp_path: Path) -> None:
    (tmp_path / "pictures").mkdir()
    (tmp_path / "pictures" / "longshore.svg").write_text(LOGO, encoding="utf-8")
    assert said(compiled(base(), tmp_path, house=example.text)) == []
    declared, found = read_house(Source("house.yaml", example.text))
    assert declared is not None
    assert not found
    assert set(yaml.safe_load(example.text)) == set(HOUSE_SCHEMA["properties"])


@pytest.mark.parametrize("part", [name for name in PARTS if name not in HOUSE_LENGTHS])
def test_every_key_is_in_its_table(part: str) -> None:
    schema = PARTS[part]
    if part == "unit":
        own = [set(way["properties"]) - {way["title"]} - _method_keys(way["title"]) for way in schema["oneOf"]]
        assert all(set(keyed(table("keys: unit"))) == keys for keys in own)
        return
    keys = list(schema["properties"])
    if part == "size":
        taken = set(PARTS["quilt"]["properties"]) - set(OF_ALL_SIZES)
        assert taken <= set(marked(section("### Sizes")))
        keys = [key for key in keys if key not in taken]
    assert sorted(keyed(table(f"keys: {part}"))) == sorted(keys)


@pytest.mark.parametrize("example", examples("list"), ids=_ids)
def test_lists_of_pieces(example: Example, tmp_path: Path) -> None:
    path = tmp_path / "pieces.yaml"
    path.write_text(example.text, encoding="utf-8")
    result = CliRunner().invoke(program, ["cut", str(path)])
    assert result.exit_code == 0, result.output


def test_every_key_of_a_list_of_pieces_is_in_its_table() -> None:
    assert keyed(table("list")) == list(CutListDeclaration.keys)


def _method_keys(name: str) -> set[str]:
    return {key.name for key in next(method for method in METHODS if method.name == name).keys}


@pytest.mark.parametrize("method", METHODS, ids=lambda method: method.name)
def test_every_method_has_a_section_with_its_keys(method: Method) -> None:
    text = section(f"#### `{method.name}`")
    rows = {marked(row[0])[0]: row for row in first_table(text)}
    by_name = set() if method.listed else {role.name for role in method.roles}
    assert set(rows) == by_name | {key.name for key in method.keys}
    for key in method.keys:
        counts = tuple(str(number) for number in range(1, len(key.choices) + 1))
        if key.kind == "word" and key.choices == counts:
            assert rows[key.name][1] == f"a count from 1 to {len(key.choices)} ({key.default} if left out)"
        elif key.kind == "word":
            assert set(marked(rows[key.name][1])) == set(key.choices)
            assert f"`{key.default}` (default)" in rows[key.name][1]
        elif key.kind == "text":
            assert f"left out, `{key.default}`" in rows[key.name][2]
        else:
            assert f"left out, {key.default} cell" in rows[key.name][2]
    width, height = (plain_number(side) for side in method.default_size)
    assert f"Default size: {width} x {height} cells" in text
    used = [example.text for example in examples("fragment") if example.text in text]
    assert any(f"{method.name}:" in one for one in used)


def test_methods_stand_in_the_order_of_the_registry() -> None:
    known = [method.name for method in METHODS]
    assert [name for name in re.findall(r"^#### `([a-z0-9-]+)`$", guide(), re.MULTILINE) if name in known] == known


def test_values_are_those_that_the_plan_has(tmp_path: Path) -> None:
    packed = "packs: {pack: {squares: 10 in, count: 42}}\n"
    text = laid_over(packed, examples("finished")[0].text).replace("a8442f}", "a8442f, cut-from: {pack: pack}}")
    plan = compiled(text.replace("binding: {fabric: door}", "binding: {fabric: roof}"), tmp_path).plan
    assert plan is not None
    named = re.compile(r"^(size|fabric|pack|block|unit)\.[a-z-]+\.")
    assert set(keyed(table("values"))) == {named.sub(r"\1.NAME.", name) for name in value_names(plan)}


def test_lengths_among_the_house_rules_are_those_of_the_code() -> None:
    printed = {keyed([row])[0]: row[1:5] for row in table("lengths")}
    assert printed == {": ".join(rule.path): [*_row(rule, "in"), *_row(rule, "cm")] for rule in LENGTH_RULES}


def _row(rule: LengthRule, system: System) -> list[str]:
    low, high = rule.bounds(system)
    lengths = (plain_length(length, system) for length in (rule.default(system), low, high))
    default, least, most = lengths
    return [default, f"{least} to {most}"]


def test_every_rule_of_a_system_is_in_one_of_the_tables() -> None:
    rules = set()
    for key, taken in PARTS["systemrules"]["properties"].items():
        inner = PARTS[taken["$ref"].removeprefix("#/$defs/")]["properties"] if "$ref" in taken else {}
        rules |= {f"{key}: {name}" for name in inner} or {key}
    assert {*keyed(table("lengths")), *keyed(table("choices"))} == rules


@pytest.mark.parametrize(("column", "key", "system"), [(1, "inches", "in"), (2, "centimeters", "cm")])
def test_other_house_rules_have_the_printed_defaults(column: int, key: str, system: System) -> None:
    """The defaults as printed, written into a house file, change nothing."""
    rules: dict[str, Any] = {row[0].strip("`"): yaml.safe_load(row[column].strip("`")) for row in table("choices")}
    general = {keyed([row])[0]: row[2].strip("`") for row in table("keys: house")}
    house = {name: yaml.safe_load(text) for name, text in general.items() if text not in ("none", "see below")}
    house = {name: "yes" if value is True else value for name, value in house.items()}
    house["joins"] = {keyed([row])[0]: row[2].strip("`") for row in table("keys: joins")}
    for name in [name for name in rules if ": " in name]:
        outer, inner = name.split(": ")
        value = rules.pop(name)
        rules.setdefault(outer, {})[inner] = value.split(", ") if outer == "batting" else value
    house[key] = rules
    declared, found = read_house(Source("house.yaml", yaml.safe_dump(house)))
    assert not found
    findings = Findings()
    assert resolve_rules(None, declared, system, findings) == resolve_rules(None, None, system, findings)
    assert not findings.items


def test_the_ranges_of_shrinkage_and_yardage_are_as_printed() -> None:
    for house, good in (
        ("shrinkage: 15 %", True), ("shrinkage: 15.1 %", False),
        ("inches: {round-yardage: [1 in]}", True), ("inches: {round-yardage: [7/8 in]}", False),
    ):
        declared, found = read_house(Source("house.yaml", house + "\n"))
        assert not found
        findings = Findings()
        resolve_rules(None, declared, "in", findings)
        assert findings.has_errors != good
    assert "0 % to 15 %" in section("## House rules")
    assert "at least 1 in or 1 cm" in section("## House rules")


def test_words_of_a_choice_are_all_there() -> None:
    """Where the schema has a list of words, the row of that key shows exactly these."""
    parts = {**PARTS, "house": HOUSE_SCHEMA, **HOUSE_SCHEMA["$defs"]}
    for part, schema in parts.items():
        if part in HOUSE_LENGTHS or part in ("unit", "size"):
            continue
        rows = {keyed([row])[0]: row for row in table(f"keys: {part}")}
        for key, taken in schema["properties"].items():
            words = [word for word in taken.get("enum", ()) if isinstance(word, str)]
            assert not words or set(words) <= set(marked(rows[key][1])), f"{part}: {key}"


def test_bounds_are_those_of_the_code() -> None:
    from patchwright.design import parts, sizes
    from patchwright.dialect import builder, scalars
    from patchwright.planning import build

    text = section("## How large a pattern may be")
    entries = {key: taken.get("maxProperties") for key, taken in SCHEMA["properties"].items()}
    for bound in (
        f"{builder.MOST_DEEP} levels", f"{entries['packs']} packs", f"{entries['fabrics']} fabrics",
        f"{entries['units']} units", f"{entries['blocks']} blocks", f"{entries['sizes']} sizes",
        f"{PARTS['quilt']['properties']['borders']['maxItems']} borders", f"{parts.MOST_ITEMS} items",
        f"{scalars.MOST_REPEATS} times", f"{builder.MOST_CHARACTERS:,} characters", f"{sizes.MOST_ACROSS} blocks",
        f"{sizes.MOST_PLACEMENTS:,} blocks", f"{build.MOST_PATCHES:,} patches",
    ):
        assert bound in text


def test_one_sentence_per_line() -> None:
    prose = re.sub(r"^```.*?^```$", "", guide(), flags=re.MULTILINE | re.DOTALL)
    long = [line for line in prose.splitlines() if not line.startswith("|") and re.search(r"[a-z`)][.!?] [A-Z`]", line)]
    assert long == []
