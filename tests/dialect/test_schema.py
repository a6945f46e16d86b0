"""The JSON Schema accepts what the reader accepts, describes every key, and is the same on every run."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from typing import Any

import pytest
import yaml

from cases.runner import WORDING, base, read_cases
from dialect.validation import faults
from patchwright.core.codes import load_codes
from patchwright.dialect.parse import read_pattern
from patchwright.dialect.schema import house_json_schema, json_schema, schema_text
from patchwright.methods.registry import BY_NAME

_CODES = load_codes(WORDING.read_text(encoding="utf-8"))
_SEEN_BY_SCHEMAS = (
    "unknown-key", "missing-key", "wrong-shape", "unknown-word", "invalid-name", "no-entries", "too-many-entries",
    "unit-without-method", "unit-two-methods", "unknown-role", "missing-role", "too-many-fabrics", "not-a-switch",
    "not-a-count", "not-a-color", "invalid-item",
)


def _faults(text: str, schema: Any) -> list[str]:
    return list(faults(yaml.safe_load(text), schema, schema))


def test_what_the_reader_accepts_fits() -> None:
    schema = json_schema()
    for code, told in _CODES.items():
        whole = house_json_schema() if told.house else schema
        assert told.kind in ("theme", "layouts") or _faults(told.right_bytes.decode(), whole) == [], code
    for case in read_cases():
        if read_pattern(case.source)[0] is not None:
            assert _faults(case.source.text, schema) == [], case.name


@pytest.mark.parametrize("code", _SEEN_BY_SCHEMAS)
def test_mistakes_that_a_schema_can_see(code: str) -> None:
    assert _faults(_CODES[code].wrong_bytes.decode(), json_schema())


def _objects(schema: Any) -> Iterator[dict[str, Any]]:
    if isinstance(schema, dict):
        yield schema
        schema = list(schema.values())
    if isinstance(schema, list):
        for item in schema:
            yield from _objects(item)


@pytest.mark.parametrize("schema", [json_schema(), house_json_schema()], ids=["pattern", "house"])
def test_every_key_is_described(schema: dict[str, Any]) -> None:
    number = 0
    for item in _objects(schema):
        for name, value in item.get("properties", {}).items():
            if isinstance(value, dict) and "properties" not in item.get("properties", {}):
                assert value.get("description"), name
                number += 1
    assert number > 20


def test_every_method_is_an_alternative() -> None:
    alternatives = json_schema()["$defs"]["unit"]["oneOf"]
    assert [item["required"] for item in alternatives] == [[name] for name in BY_NAME]


def test_same_text_on_every_run() -> None:
    code = "from patchwright.dialect import schema as s; print(s.schema_text(s.json_schema()))"
    texts = set()
    for seed in ("0", "1"):
        environment = os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)}
        run = subprocess.run([sys.executable, "-c", code], env=environment, capture_output=True, check=True, text=True)
        texts.add(run.stdout)
    assert len(texts) == 1
    assert texts.pop() == schema_text(json_schema()) + "\n"


def test_editors_see_numbers_and_switches() -> None:
    assert _faults(base() + "packs: {p: {squares: 10, count: 42}}\nhouse: {shrinkage: 3}\n", json_schema()) == []
