"""Every case of the folder `cases`, as far as the dialect's own stage goes."""

from __future__ import annotations

import pytest

from cases.runner import Case, differences, read_cases
from patchwright.core.codes import CODES
from patchwright.core.report import apply_allowances
from patchwright.dialect.allowances import allowed_codes
from patchwright.dialect.parse import read_pattern


@pytest.mark.parametrize("case", [pytest.param(case, id=case.name) for case in read_cases()])
def test_case_of_the_dialect(case: Case) -> None:
    declared, found = read_pattern(case.source)
    allowed, more = allowed_codes(case.source)
    kept = apply_allowances([*found, *more], {case.source.path: allowed})
    of_later_stages = any(CODES[code].stage != "dialect" for _, _, code in case.expected)
    assert not differences(case, kept) or of_later_stages
    assert (declared is None) == any(item.severity == "error" for item in found)
    assert {item.code for item in kept} <= set(CODES)
