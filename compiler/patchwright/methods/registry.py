"""All piecing methods, in the order in which guides and schemas list them; a new method is one file and one line here."""

from __future__ import annotations

from patchwright.methods.method import Method

METHODS: tuple[Method, ...] = ()

BY_NAME: dict[str, Method] = {method.name: method for method in METHODS}
