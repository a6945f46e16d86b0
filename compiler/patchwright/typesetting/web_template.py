"""A theme's web template, rendered where it can do nothing but lay out what it is given.

In: the template's text and the values that it may see.
Out: text.
Never: a file, a call of anything but the template's own macros and the given functions, or output without bound.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from patchwright.typesetting.faults import WebTemplateError

LARGEST_PAGE = 64 * 1024 * 1024
_FILTERS = ("e", "escape", "default", "first", "join", "last", "length", "list", "lower", "rejectattr", "selectattr",
            "upper")  # fmt: skip
_TESTS = ("defined", "equalto", "in", "none")


def render(template: str, **given: Any) -> str:
    """Render a template; raise `WebTemplateError` where it is faulty or oversteps."""
    import jinja2

    try:
        parts, size = [], 0
        for part in _template(template).generate(**given):
            size += len(part)
            if size > LARGEST_PAGE:
                raise WebTemplateError(f"the theme's web template writes more than {LARGEST_PAGE} characters")
            parts.append(part)
    except jinja2.TemplateSyntaxError as error:
        raise WebTemplateError(f"line {error.lineno} of the theme's web template: {error.message}") from error
    except (jinja2.TemplateError, RecursionError, TypeError, ValueError, LookupError, ArithmeticError) as error:
        raise WebTemplateError(f"the theme's web template failed: {error}") from error
    return "".join(parts)


@cache
def _template(text: str) -> Any:
    return _environment().from_string(text)


@cache
def _environment() -> Any:
    import jinja2
    from jinja2.runtime import Macro
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    class Environment(ImmutableSandboxedEnvironment):
        """Calls macros and given functions alone, and multiplies and formats nothing."""

        intercepted_binops = frozenset(("*", "**", "%"))

        def is_safe_callable(self, obj: Any) -> bool:
            return isinstance(obj, Macro) or getattr(obj, "__module__", "") == "patchwright.typesetting.web"

        def call_binop(self, context: Any, operator: str, left: Any, right: Any) -> Any:
            raise jinja2.TemplateRuntimeError(f"`{operator}` is not available in templates")

    environment = Environment(autoescape=True, undefined=jinja2.StrictUndefined, keep_trailing_newline=True)
    environment.globals.clear()
    environment.filters = {name: environment.filters[name] for name in _FILTERS}
    environment.tests = {name: environment.tests[name] for name in _TESTS}
    return environment
