"""What a drawing needs to know of the theme: its tokens and the metrics of its label face.

In: tokens and metrics as plain types.
Out: sizes of text in inches, for those who place labels; the tokens, for those who write shapes.
"""

from __future__ import annotations

from dataclasses import dataclass

from patchwright.core.theme import POINTS_PER_INCH, DrawingTokens, FontMetrics, TypeSizes
from patchwright.diagrams.scene import TypeSize


@dataclass(frozen=True, slots=True)
class Look:
    """A theme as seen by drawings."""

    drawing: DrawingTokens
    type: TypeSizes
    regular: FontMetrics
    bold: FontMetrics

    def points(self, size: TypeSize) -> float:
        """The type size of a label, in points."""
        if size == "small":
            return self.type.label_small
        return self.type.label_large if size == "large" else self.type.label_normal

    def face(self, bold: bool) -> FontMetrics:
        return self.bold if bold else self.regular

    def text_width(self, text: str, size: TypeSize = "normal", bold: bool = False) -> float:
        """How wide a label's text is, in inches on the page."""
        return self.face(bold).width(text) * self.points(size) / POINTS_PER_INCH

    def text_height(self, size: TypeSize = "normal", bold: bool = False) -> float:
        """How high a label's capitals and figures are, in inches on the page."""
        face = self.face(bold)
        return face.cap_height / face.units_per_em * self.points(size) / POINTS_PER_INCH

    def label_box(self, text: str, size: TypeSize = "normal", bold: bool = False) -> tuple[float, float]:
        """Width and height in inches of a label with the backing that it gets over cloth."""
        padding = 2 * self.drawing.backing_padding / POINTS_PER_INCH
        return self.text_width(text, size, bold) + padding, self.text_height(size, bold) + padding
