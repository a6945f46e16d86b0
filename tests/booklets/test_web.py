"""The web booklet as a build writes it: one file that fetches nothing."""

from __future__ import annotations

import re

import pytest

from booklets.built import Built

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("booklets")]


def test_the_page_holds_everything(built: Built) -> None:
    web = re.sub(r'xmlns(:\w+)?="[^"]*"', "", built.web)
    assert not re.search(r'(src|srcset|data|poster)="(?!data:)', web)
    assert not re.search(r"url\((?!['\"]?(data:|#))", web)
    assert "@import" not in web
    assert not re.search(r"<(script|link|iframe|object|embed)[^>]+(src|href)=", web)
    for target in re.findall(r'href="([^"]*)"', web):
        assert target.startswith(("#", "https:", "mailto:"))


def test_the_policy_lets_nothing_in(built: Built) -> None:
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', built.web)
    assert policy is not None
    assert "default-src 'none'" in policy[1].replace("&#39;", "'")
    assert "unsafe" not in policy[1]


def test_links_lead_somewhere(built: Built) -> None:
    ids = re.findall(r'\bid="([^"]*)"', built.web)
    assert len(ids) == len(set(ids))
    assert {target for target in re.findall(r'href="#([^"]*)"', built.web) if target} <= set(ids)
