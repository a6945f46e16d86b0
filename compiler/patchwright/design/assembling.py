"""What the blocks of a top are sewn into first, where the author asks for it: rows, or quarters.

In: the layers of one size's quilt as declared.
Out: what is asked for.
Never: whether a top can be divided; where its parts lie is known in planning.
"""

from __future__ import annotations

from patchwright.core.diagnostics import Findings
from patchwright.design.design import Assemble
from patchwright.dialect.declared import QuiltDeclaration, TopDeclaration


def asked_assembling(
    layers: tuple[TopDeclaration, ...], quilt: QuiltDeclaration, findings: Findings
) -> Assemble | None:
    """What `assemble` says; blocks that are not set straight, or carry their own layers, have one way and no choice."""
    owner = next((layer for layer in layers if layer.assemble is not None), None)
    if owner is None or owner.assemble is None:
        return None
    setting = next((layer.setting for layer in layers if layer.setting is not None), None) or "straight"
    span = owner.key_span("assemble")
    if setting != "straight" or quilt.rag is not None or quilt.quilt_as_you_go is not None:
        findings.error(
            "assemble-not-straight", f"`assemble: {owner.assemble}` is for tops whose blocks are set straight", span,
            "leave it out, or say it in the sizes that are set straight",
        )
        return None
    return Assemble(owner.assemble, span)
