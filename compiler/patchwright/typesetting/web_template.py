"""A theme's web template, rendered where it can do nothing but lay out what it is given.

In: the template's text and the values that it may see.
Out: text.
Never: a file, a call of anything but the template's own macros and the given functions, or output without bound.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import Any

from patchwright.typesetting.faults import WebTemplateError

LARGEST_PAGE = 64 * 1024 * 1024
MOST_CALLS = 2_000_000
_FUNCTIONS = "patchwright.typesetting.web"
"""The module whose functions templates may call."""
_FILTERS = ("e", "escape", "default", "first", "join", "last", "length", "list", "lower", "rejectattr", "selectattr",
            "upper")  # fmt: skip
_TESTS = ("defined", "equalto", "in", "none")


def render(template: str, **given: Any) -> str:
    """Render a template; raise `WebTemplateError` where it is faulty or oversteps."""
    import jinja2

    try:
        environment, compiled = _compiled(template)
        environment.calls = 0
        return str(environment.concat(compiled.generate(**given)))
    except jinja2.TemplateSyntaxError as error:
        raise WebTemplateError(f"line {error.lineno} of the theme's web template: {error.message}") from error
    except (jinja2.TemplateError, RecursionError, TypeError, ValueError, LookupError, ArithmeticError) as error:
        raise WebTemplateError(f"the theme's web template failed: {error}") from error


@cache
def _compiled(template: str) -> tuple[Any, Any]:
    environment = _environment()
    _refuse_sums(environment.parse(template))
    return environment, environment.from_string(template)


def _refuse_sums(tree: Any) -> None:
    """Refuse what builds texts or numbers out of others: they could grow without bound."""
    from jinja2 import nodes

    for node in tree.find_all((nodes.Concat, nodes.Add, nodes.Mul, nodes.Pow, nodes.Mod)):
        raise WebTemplateError(f"line {node.lineno} of the theme's web template joins or multiplies values")


@cache
def _environment() -> Any:
    import jinja2
    from jinja2.runtime import Macro
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    class Environment(ImmutableSandboxedEnvironment):
        """Calls macros and the given functions alone, a bounded number of times, and joins no more than a page."""

        calls = 0

        def is_safe_callable(self, obj: Any) -> bool:
            self.calls += 1
            if self.calls > MOST_CALLS:
                raise jinja2.TemplateRuntimeError(f"more than {MOST_CALLS} calls")
            return isinstance(obj, Macro) or getattr(obj, "__module__", "") == _FUNCTIONS

        @staticmethod
        def concat(parts: Iterable[str]) -> str:
            kept, size = [], 0
            for part in parts:
                size += len(part)
                if size > LARGEST_PAGE:
                    raise jinja2.TemplateRuntimeError(f"more than {LARGEST_PAGE} characters")
                kept.append(part)
            return "".join(kept)

    environment = Environment(autoescape=True, undefined=jinja2.StrictUndefined, keep_trailing_newline=True)
    environment.globals.clear()
    environment.filters = {name: environment.filters[name] for name in _FILTERS}
    environment.tests = {name: environment.tests[name] for name in _TESTS}
    return environment
