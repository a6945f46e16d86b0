"""Along which grain long parts are cut: what an author asks of sashing, borders and binding, held against the cloth.

In: the key `cut` of a part, and its fabric.
Out: what is asked; a warning where the cloth leaves no choice.
Never: which grain takes less cloth; planning finds that.
"""

from __future__ import annotations

from patchwright.core.diagnostics import Findings
from patchwright.core.source import Span
from patchwright.design.design import Fabric, GrainChoice


def asked_grain(cut: GrainChoice | None, fabric: Fabric | None, span: Span, findings: Findings) -> GrainChoice:
    """What is asked of sashing or a border; `auto` where nothing is, or where the cloth decides.

    A one-way print lies as it is seen in the quilt, and stripes run along the strips.
    """
    if cut is None or fabric is None:
        return cut or "auto"
    if fabric.direction != "none":
        why, hint = "is one-way", "the print decides how each strip lies; take `cut` out"
    elif fabric.repeat is not None and not fabric.repeat[1] and cut == "crosswise":
        why, hint = "is striped", "strips are cut along the stripes; take `cut` out, or choose another fabric"
    else:
        return _from_yardage(cut, fabric, span, findings)
    return _without_effect(cut, f"since `{fabric.id}` {why}", hint, span, findings)


def asked_grain_of_binding(
    cut: GrainChoice | None, fabric: Fabric | None, on_bias: bool, span: Span, findings: Findings
) -> GrainChoice:
    """What is asked of a binding, whose strips may be cut along or across a one-way print."""
    if cut is None:
        return "auto"
    if on_bias:
        return _without_effect(cut, "beside `bias`", "bias strips are cut at 45 degrees; keep one", span, findings)
    return cut if fabric is None else _from_yardage(cut, fabric, span, findings)


def without_cloth(cut: GrainChoice | None, why: str, span: Span, findings: Findings) -> None:
    """A pieced border without coping, or sashing of blocks, has no strips that `cut` could be said of."""
    if cut is not None:
        _without_effect(cut, why, "blocks are cut as blocks are; take `cut` out", span, findings)


def _from_yardage(cut: GrainChoice, fabric: Fabric, span: Span, findings: Findings) -> GrainChoice:
    if not fabric.pack:
        return cut
    hint = "pieces are laid on precuts as they fit; take `cut` out, or cut that part from yardage"
    return _without_effect(cut, f"since `{fabric.id}` is cut from precuts", hint, span, findings)


def _without_effect(cut: GrainChoice, why: str, hint: str, span: Span, findings: Findings) -> GrainChoice:
    findings.warning("cut-without-effect", f"`cut: {cut}` has no effect {why}", span, hint)
    return "auto"
