"""The words of one language: templates by key, filled with values.

In: the language's data files and a function that reads them.
Out: `Wording`, whose `say` gives text and whose `parts` keeps values that are not text, such as styled pieces.
Never: a sentence in code, a file beside the language's own, a number that core/measure did not print.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cache
from importlib import resources
from typing import TypeVar

import yaml

from patchwright.core.length import Cut, Finished, Length, Unfinished
from patchwright.core.measure import NO_BREAK_SPACE, System, decimal_text, fraction_text, printed_length, printed_number
from patchwright.wording.templates import Choice, Template, WordingError, parse_template

__all__ = ["LANGUAGES", "Wording", "WordingError", "load_explanations", "load_wording", "read_package_file"]

T = TypeVar("T")
Reader = Callable[[str], str]

LANGUAGES = ("en", "de")
FILES = ("{language}.yaml", "methods-{language}.yaml", "figures-{language}.yaml")


def _few(number: Fraction) -> bool:
    return number % 10 in (2, 3, 4) and number % 100 // 10 != 1


PLURALS: dict[str, Callable[[Fraction], int]] = {
    "one-other": lambda number: 0 if number == 1 else 1,
    "up-to-one-other": lambda number: 1 if number > 1 else 0,
    "one-few-many": lambda number: 0 if number == 1 else 1 if _few(number) else 2,
    "other": lambda number: 0,
}
"""Which form of a choice a number takes, by the name that a language's data gives its rule."""


@dataclass(frozen=True, slots=True)
class Wording:
    """One language's templates, and the system of measure in which lengths are printed."""

    language: str
    templates: Mapping[str, Template] = field(compare=False)
    system: System = "in"

    def measured_in(self, system: System) -> Wording:
        """The same words, printing bare lengths in `system`'s unit."""
        return replace(self, system=system)

    def has(self, key: str) -> bool:
        return key in self.templates

    def keys(self) -> tuple[str, ...]:
        return tuple(self.templates)

    def say(self, key: str, **values: object) -> str:
        """The filled template as text; every value must be text, a number or a length."""
        return "".join(self._text(key, part) for part in self.parts(key, **values))

    def parts(self, key: str, **values: object) -> tuple[object, ...]:
        """The filled template in order: runs of text, and whole any value that is not text, a number or a length."""
        filled: list[object] = []
        for part in self._filled(key, self._template(key), values):
            if isinstance(part, str) and filled and isinstance(filled[-1], str):
                filled[-1] += part
            elif part != "":
                filled.append(part)
        return tuple(filled)

    def listed(self, items: Sequence[T]) -> tuple[T | str, ...]:
        """The items with the language's commas and last word between them: A1, A2, and A3."""
        if len(items) < 2:
            return tuple(items)
        pair, between, last = (self.say(f"list.{key}") for key in ("pair", "between", "last"))
        joined: list[T | str] = [items[0]]
        for item in items[1:-1]:
            joined += [between, item]
        return (*joined, pair if len(items) == 2 else last, items[-1])

    def listed_text(self, items: Sequence[str]) -> str:
        return "".join(self.listed(items))

    def number(self, value: int | Fraction) -> str:
        """A number as booklets print it: 12, 1,200, 2½; decimals where the system of measure is metric."""
        if value.denominator == 1:
            digits = f"{int(value):,}".replace(",", self.say("number.thousands"))
            return digits if abs(int(value)) >= 10_000 else str(int(value))
        if self.system == "cm":
            return decimal_text(Fraction(value), mark=self.decimal_mark)
        return fraction_text(Fraction(value))

    def number_word(self, value: int) -> str:
        """`two` for a small number that the trade writes out, else the digits."""
        key = f"number.words.{value}"
        return self.say(key) if self.has(key) else self.number(value)

    @property
    def decimal_mark(self) -> str:
        return self.say("number.decimal")

    def length(self, length: Length | Finished | Unfinished | Cut) -> str:
        return printed_length(bare_length(length), self.system, self.decimal_mark)

    def extent(self, width: Length | Finished | Unfinished | Cut, height: Length | Finished | Unfinished | Cut) -> str:
        """Width and height as booklets print them: 2½″ × 4½″, 6.5 × 10 cm."""
        across, down = bare_length(width), bare_length(height)
        if self.system == "in":
            return self.say("measure.in", width=self.length(across), height=self.length(down))
        plain = [printed_number(length, self.system, self.decimal_mark) for length in (across, down)]
        return self.say("measure.cm", width=plain[0], height=plain[1])

    def amount(self, amount: Fraction, unit: str) -> str:
        """A quantity to buy: 2⅞ yd, 1.2 m, 1 pack, 6 pieces."""
        number = decimal_text(amount, mark=self.decimal_mark) if unit == "m" else fraction_text(amount)
        return self.say(f"amount.{unit}", number=number, count=amount).replace(" ", NO_BREAK_SPACE)

    def _template(self, key: str) -> Template:
        if key not in self.templates:
            raise WordingError(f"the wording of `{self.language}` has no `{key}`")
        return self.templates[key]

    def _filled(self, key: str, template: Template, values: Mapping[str, object]) -> list[object]:
        filled: list[object] = []
        for part in template:
            if isinstance(part, str):
                filled.append(part)
                continue
            if part.name not in values:
                raise WordingError(f"`{key}` needs a value for `{part.name}`")
            value = values[part.name]
            if isinstance(part, Choice):
                filled += self._filled(key, part.forms[self._form(key, part, value)], values)
            else:
                filled.append(self._shown(value))
        return filled

    def _form(self, key: str, choice: Choice, value: object) -> int:
        if not isinstance(value, int | Fraction):
            raise WordingError(f"`{key}` chooses by `{choice.name}`, which is not a number")
        form = PLURALS[self.say("language.plural")](Fraction(value))
        if form >= len(choice.forms):
            raise WordingError(f"`{key}` has too few forms for `{choice.name}`")
        return form

    def _shown(self, value: object) -> object:
        if isinstance(value, Length | Finished | Unfinished | Cut):
            return self.length(value)
        if isinstance(value, int | Fraction):
            return self.number(value)
        return value

    def _text(self, key: str, part: object) -> str:
        if not isinstance(part, str):
            raise WordingError(f"`{key}` was given {type(part).__name__} where text is needed")
        return part


def bare_length(length: Length | Finished | Unfinished | Cut) -> Length:
    """The length without its kind, for printing."""
    return length if isinstance(length, Length) else length.length


def load_wording(language: str = "en", read: Reader | None = None) -> Wording:
    """The words of a language, read once from the package or by `read`, a function from a file's name to its text."""
    return _packaged(language) if read is None else _loaded(language, read)


def load_explanations(language: str) -> dict[str, str]:
    """How a language words the workings of numbers, by rule."""
    loaded = yaml.load(read_package_file(f"explain-{language}.yaml"), Loader=yaml.CBaseLoader)
    return {str(key): str(text) for key, text in loaded.items()}


def read_package_file(name: str) -> str:
    """The text of one of this package's own data files."""
    return resources.files(__name__).joinpath(name).read_text("utf-8")


@cache
def _packaged(language: str) -> Wording:
    if language not in LANGUAGES:
        raise WordingError(f"there is no wording for the language `{language}`")
    return _loaded(language, read_package_file)


def _loaded(language: str, read: Reader) -> Wording:
    templates: dict[str, Template] = {}
    for pattern in FILES:
        name = pattern.format(language=language)
        for key, text in _flat(yaml.load(read(name), Loader=yaml.CBaseLoader), name):
            if key in templates:
                raise WordingError(f"{name}: `{key}` is there already")
            templates[key] = parse_template(key, text)
    return Wording(language, templates)


def _flat(node: object, name: str, prefix: str = "") -> list[tuple[str, str]]:
    """Nested mappings as (dotted key, text) pairs in the file's order."""
    if isinstance(node, str):
        return [(prefix, node)]
    if not isinstance(node, dict):
        raise WordingError(f"{name}: `{prefix}` is neither text nor a mapping")
    pairs: list[tuple[str, str]] = []
    for key, value in node.items():
        pairs += _flat(value, name, f"{prefix}.{key}" if prefix else str(key))
    return pairs
