"""A real browser for tests, and what is asked of every page in it.

Where the browser is missing, tests that need it are skipped on a person's machine, and fail where the run must be
complete (`CI=true`), since `make.py test` installs it there.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

CHROMIUM = Path("/usr/bin/chromium")
_VISIBLE = """selector => {
    const texts = [];
    const walk = (node) => {
        if (node.nodeType === Node.TEXT_NODE) {
            const text = node.data.replace(/\\s+/g, " ").trim();
            if (text) texts.push(text);
        } else if (node.nodeType === Node.ELEMENT_NODE && node.checkVisibility({visibilityProperty: true})) {
            const names = [...node.children].slice(0, 2).map(own => own.textContent);
            if (node.tagName !== "svg") node.childNodes.forEach(walk);
            else if (node.getAttribute("role") === "img") texts.push(...names);
        }
    };
    document.querySelectorAll(selector).forEach(walk);
    return texts;
}"""


_RUN = """(async () => {
    const parked = WHOLE ? [] : [...document.querySelectorAll('[hidden]')].map(part => {
        const mark = document.createComment('');
        part.replaceWith(mark);
        return [mark, part];
    });
    try {
        return JSON.stringify(await axe.run(WITHIN, OPTIONS));
    } finally {
        for (const [mark, part] of parked) mark.replaceWith(part);
    }
})()"""
COLORS = ("color-contrast", "link-in-text-block")
"""The rules of axe that depend on colors."""
WIDTHS = ("target-size", "scrollable-region-focusable")
"""Those that depend on the width of the screen."""


@cache
def _axe() -> str:
    return files("axe_playwright_python").joinpath("axe.min.js").read_text("utf-8")


@contextmanager
def chromium() -> Iterator[Any]:
    """The browser, started once for a session."""
    try:
        from playwright.sync_api import sync_playwright
    except (ImportError, OSError) as reason:
        _lacking(str(reason))
    if not CHROMIUM.exists():
        _lacking(f"{CHROMIUM} is missing")
    with sync_playwright() as session:
        browser = session.chromium.launch(executable_path=str(CHROMIUM), args=["--no-sandbox"])
        yield browser
        browser.close()


def _lacking(reason: str) -> None:
    if os.environ.get("CI") == "true":
        pytest.fail(reason)
    pytest.skip(reason)


@dataclass
class Visit:
    """A page that is open, and everything that the browser complained about or asked the network for."""

    page: Any
    problems: list[str] = field(default_factory=list)

    def visible_text(self, selector: str) -> list[str]:
        """Every visible run of text in what the selector finds, spaces made one; a drawing counts as its names."""
        found: list[str] = self.page.evaluate(_VISIBLE, selector)
        return found

    def choose(self, **choices: str) -> None:
        """Choose by the names of the choices, as a reader does."""
        for name, value in choices.items():
            self.page.select_option(f"select[name={name}]", value)

    def violations(self, rules: Sequence[str] = (), whole: bool = False, within: str = "") -> list[str]:
        """What axe finds against WCAG 2.2 A and AA and against its own good practices, in words.

        Parts that are hidden are away meanwhile, unless the `whole` page is asked for: they take most of the time.
        With `rules` only these are asked, and with a selector only what it finds is looked at.
        axe-core by Deque Systems, https://github.com/dequelabs/axe-core, as packed in axe-playwright-python.
        """
        session = self.page.context.new_cdp_session(self.page)
        # Evaluated by the browser's debugger, so that the page's own policy stays in force.
        session.send("Runtime.evaluate", {"expression": _axe()})
        options = {"resultTypes": ["violations"]} | ({"runOnly": list(rules)} if rules else {})
        run = _RUN.replace("OPTIONS", json.dumps(options)).replace("WHOLE", json.dumps(whole))
        run = run.replace("WITHIN", json.dumps(within) if within else "document")
        answer = session.send("Runtime.evaluate", {"expression": run, "awaitPromise": True, "returnByValue": True})
        session.detach()
        found = json.loads(answer["result"]["value"])
        assert len(found["passes"]) > (0 if rules or within else 10), "axe looked at nothing"
        return [
            f"{one['id']}: {node['html'][:200]} {node['failureSummary'][:300]}"
            for one in found["violations"] for node in one["nodes"]
        ]


@contextmanager
def visiting(
    browser: Any, path: Path, fragment: str = "", width: int = 1280, height: int = 900, look: str = "light",
    script: bool = True, before: str = "", context: Any = None,
) -> Iterator[Visit]:
    """Open a file; `before` runs ahead of the page's script. Whatever the browser complains about fails."""
    own = context or browser.new_context(
        viewport={"width": width, "height": height}, color_scheme=look, java_script_enabled=script
    )
    page = own.new_page()
    if before:
        page.add_init_script(before)
    visit = Visit(page)
    page.on("console", lambda message: _note(visit, message.type, message.text))
    page.on("pageerror", lambda fault: visit.problems.append(str(fault)))
    page.on("request", lambda request: _asked(visit, request.url))
    page.goto(path.as_uri() + (f"#{fragment}" if fragment else ""))
    yield visit
    assert visit.problems == []
    if context is None:
        own.close()
    else:
        page.close()


def _note(visit: Visit, kind: str, text: str) -> None:
    if kind in ("error", "warning"):
        visit.problems.append(text)


def _asked(visit: Visit, address: str) -> None:
    if not address.startswith(("file:", "data:")):
        visit.problems.append(address)
