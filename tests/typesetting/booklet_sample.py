"""A booklet with every kind of part, six sizes, long names and all hatches, for the tests of both writers."""

from __future__ import annotations

from functools import cache

from patchwright.diagrams.scene import XY, Area, Item, Label, Line, Scene, Swatch
from patchwright.files import installed_themes, theme_reader
from patchwright.typesetting.booklet import (
    Block,
    Booklet,
    Bullets,
    Cell,
    Column,
    Contents,
    Cover,
    Emphasis,
    FabricKey,
    Figure,
    FigureRow,
    Inline,
    Link,
    Notice,
    Paragraph,
    PieceMark,
    ScaleMark,
    Section,
    Step,
    Strong,
    Subheading,
    SwatchInfo,
    Table,
    Words,
)
from patchwright.typesetting.booklet_tree import WORD_KEYS
from patchwright.typesetting.themes import Theme, load_theme

THEME = "harbor"
SIZES = ("crib", "lap", "throw", "twin", "queen", "king")
FABRICS = (
    ("A", "Bleached deck", ("#ece7db",), "light"),
    ("B", "Rope prints", ("#c9772f", "#e0a458", "#a9482f", "#d98e73"), "medium"),
    ("C", "Tar", ("#2b2f36",), "dark"),
    ("D", "Sea stripe, running along the length of the cloth", ("#2f6f7e",), "dark"),
    ("E", "Kelp", ("#7d9a5f",), "medium"),
    ("F", "Harbor fog", ("#d8dfe6",), "light"),
    ("G", "Channel buoy", ("#b3422f",), "medium"),
    ("H", "Lamp oil", ("#e7c66b",), "light"),
)
WORDS = (
    ("page", "Page {page} of {pages}"),
    ("sizes", "Sizes"),
    ("figure", "Figure\u00a0{number}"),
    ("step", "Step\u00a0{number}"),
    ("one-inch", "1\u00a0in"),
    ("five-centimeters", "5\u00a0cm"),
    ("contents", "Contents"),
    ("skip", "Skip to the instructions"),
    ("all-sizes", "All sizes"),
    *((key, key.replace("-", " ")) for key in WORD_KEYS[WORD_KEYS.index("choose") :]),
)
SWATCHES = tuple(
    Swatch(letter, name, colors, "light" if value == "light" else "medium" if value == "medium" else "dark", number)
    for number, (letter, name, colors, value) in enumerate(FABRICS)
)


@cache
def harbor() -> Theme:
    theme, mistakes = load_theme(THEME, theme_reader(installed_themes()))
    if theme is None:
        raise ValueError(str(mistakes))
    return theme


def rectangle(x: float, y: float, width: float, height: float) -> tuple[XY, ...]:
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def words(*parts: str | Inline) -> tuple[Inline, ...]:
    return tuple(Words(part) if isinstance(part, str) else part for part in parts)


def paragraph(*parts: str | Inline) -> Paragraph:
    return Paragraph(words(*parts))


def scene(name: str, width: float, height: float, items: list[Item], title: str, description: str) -> Scene:
    return Scene(name, width, height, tuple(items), SWATCHES, title, description)


def quilt(name: str, across: int, down: int, cell: float) -> Scene:
    """A quilt of squares and half-square triangles with a border."""
    letters = "ABCDEFGH"
    items: list[Item] = []
    margin = 0.05
    for row in range(down):
        for column in range(across):
            x, y = margin + (column + 1) * cell, margin + (row + 1) * cell
            first = letters[(row * 3 + column) % 8]
            if (row + column) % 2:
                items.append(Area(rectangle(x, y, cell, cell), "fabric", first, row % 4))
            else:
                second = letters[(row + column * 5 + 3) % 8]
                items.append(Area(((x, y), (x + cell, y), (x, y + cell)), "fabric", first, column % 4))
                items.append(Area(((x + cell, y), (x + cell, y + cell), (x, y + cell)), "fabric", second))
    wide, tall = (across + 2) * cell, (down + 2) * cell
    for part in (
        rectangle(margin, margin, wide, cell),
        rectangle(margin, margin + tall - cell, wide, cell),
        rectangle(margin, margin + cell, cell, tall - 2 * cell),
        rectangle(margin + wide - cell, margin + cell, cell, tall - 2 * cell),
    ):
        items += [Area(part, "fabric", "D", style="outline")]
    description = f"A quilt of {across} by {down} patches, squares and half-square triangles, with one border."
    return scene(name, wide + 2 * margin, tall + 2 * margin, items, "The whole quilt", description)


def stage(name: str, number: int) -> Scene:
    """One of the stages of two half-square triangles at a time."""
    low, size = 0.15, 1.0
    square = rectangle(low, low, size, size)
    corner, across = (low, low + size), (low + size, low)
    items: list[Item] = [Area(square, "fabric", "A", wrong_side=number < 3, style="outline")]
    if number == 0:
        items.insert(0, Area(rectangle(low + 0.1, low - 0.1, size, size), "fabric", "B", style="outline"))
    if number < 3:
        items.append(Line((corner, across), "mark"))
    if number in (1, 2):
        items.append(Line(((low, low + size - 0.18), (low + size - 0.18, low)), "stitch"))
        items.append(Line(((low + 0.18, low + size), (low + size, low + 0.18)), "stitch"))
    if number == 2:
        items.append(Line((corner, across), "cut"))
    if number == 3:
        items.append(Area(((low, low), across, corner), "fabric", "B"))
        items.append(Line(((low + 0.65, low + 0.65), (low + 0.3, low + 0.3)), "press", "end"))
        items.append(Label((low + 0.75, low + 0.75), "A1", "small", bold=True, over="cloth"))
        items.append(Label((low + 0.25, low + 0.25), "B1", "small", bold=True, over="cloth"))
    title = ("Place", "Sew", "Cut apart", "Press")[number]
    return scene(name, 1.3, 1.3, items, title, f"{title}: a square of fabric A on a square of fabric B.")


def block(name: str, cell: float = 0.45) -> Scene:
    """A block of three rows with its size written along two edges."""
    items: list[Item] = []
    for row in range(4):
        for column in range(4):
            place = rectangle(0.4 + column * cell, 0.1 + row * cell, cell, cell)
            letter = "ABCE"[(row + column) % 4]
            items.append(Area(place, "fabric", letter))
            items.append(Label((place[0][0] + cell / 2, place[0][1] + cell / 2), f"{letter}{row + 1}", over="cloth"))
    side = 4 * cell
    items.append(Line(((0.25, 0.1), (0.25, 0.1 + side)), "dimension", "both"))
    items.append(Label((0.12, 0.1 + side / 2), "8½″ unfinished", "small", turned=True))
    description = "A block of sixteen patches in four rows of four, measuring 8½ inches unfinished."
    return scene(name, 0.5 + side, 0.2 + side, items, "The coil block", description)


def strip_layout(name: str) -> Scene:
    """Cuts from one strip across the width of fabric."""
    items: list[Item] = [Area(rectangle(0.1, 0.2, 6.0, 0.4), "fabric", "C", style="edge")]
    for number in range(12):
        x = 0.1 + number * 0.47
        items.append(Line(((x, 0.2), (x, 0.6)), "cut"))
        items.append(Label((x + 0.24, 0.4), "C1", "small", bold=True, over="cloth"))
    items.append(Area(rectangle(5.74, 0.2, 0.36, 0.4), "waste"))
    items.append(Line(((0.1, 0.75), (6.1, 0.75)), "dimension", "both"))
    items.append(Label((3.1, 0.86), "40″ width of fabric", "small"))
    return scene(name, 6.2, 0.98, items, "One strip of fabric C", "A strip 2½ inches high gives twelve squares C1.")


def cutting_table() -> Table:
    columns = (
        Column("Piece", weight=0),
        Column("Cut", weight=1),
        *(Column(size.capitalize(), "end", size) for size in SIZES),
    )
    rows = []
    for number in range(48):
        letter = "ABCDEFGH"[number % 8]
        cells = [
            Cell(words(PieceMark(f"{letter}{number // 8 + 1}")), swatch=letter),
            Cell(words("2⅜″ × 6\u202f13⁄16″")),
        ]
        cells += [Cell(words(str(12 * (place + 1) + number)), size=size) for place, size in enumerate(SIZES)]
        rows.append(tuple(cells))
    return Table("cutting-pieces", "Pieces to cut, for each size", columns, tuple(rows))


def yardage_table() -> Table:
    columns = (
        Column("Fabric", weight=3),
        *(Column(size.capitalize(), "end", size, weight=1) for size in SIZES),
    )
    amounts = ("½\u00a0yd", "⅝\u00a0yd", "1⅓\u00a0yd", "2⅞\u00a0yd", "3¼\u00a0yd", "12¾\u00a0yd")
    rows = tuple(
        (
            Cell(words(Strong(words(letter)), " " + name), swatch=letter),
            *(Cell(words(amount), size=size) for amount, size in zip(amounts, SIZES, strict=True)),
        )
        for letter, name, _, _ in FABRICS
    )
    return Table("requirements-yardage", "Fabric, 40″ usable width", columns, rows)


def unit_steps() -> tuple[Block, ...]:
    return (
        Subheading("Half-square triangles", "unit-turn"),
        paragraph(
            "Two at a time. Make 48 for the ",
            Strong(words("throw")),
            ", from ",
            PieceMark("A1"),
            " and ",
            PieceMark("B1"),
            ".",
        ),
        Step(
            "turn-1",
            1,
            (
                paragraph("Draw a line from corner to corner on the wrong side of each ", PieceMark("A1"), " square."),
                FigureRow((Figure(stage("turn-place", 0), "Right sides together"),)),
            ),
        ),
        Step(
            "turn-2",
            2,
            (
                paragraph("Sew ¼″ on both sides of the line, cut apart on it, and press toward the dark."),
                FigureRow(
                    (
                        Figure(stage("turn-sew", 1), "Sew twice", number="1"),
                        Figure(stage("turn-cut", 2), "Cut apart", number="2"),
                        Figure(stage("turn-press", 3), "Press", number="3"),
                    )
                ),
                Paragraph(words("Each unit measures 2½″ × 2½″ unfinished."), "measure"),
            ),
            ("crib", "throw"),
        ),
    )


def block_steps(count: int) -> tuple[Block, ...]:
    steps: list[Block] = []
    for number in range(count):
        drawing = block(f"block-coil-{number + 1}")
        text = (
            "Arrange the units in four rows of four as drawn, turning each so that the dark triangles meet. "
            "Sew the units into rows, press the rows in alternate directions, and join the rows so that the seams nest."
        )
        steps.append(
            Step(
                f"coil-{number + 1}",
                number + 1,
                (
                    paragraph(text),
                    paragraph("Make ", Strong(words(f"{7 * (number + 1)}")), ", and 6 reversed."),
                    Paragraph(words("It measures 8½″ × 8½″ unfinished."), "measure"),
                    Figure(drawing, "The coil block", number=str(number + 4)),
                ),
            )
        )
    return tuple(steps)


def notices() -> tuple[Block, ...]:
    return (
        Notice("caution", "Rotary cutter", (paragraph("Close the blade whenever you put the cutter down."),)),
        Notice(
            "check",
            "Test your seam",
            (
                paragraph("Sew three strips of 1½″ together. The middle one must measure 1″ exactly."),
                ScaleMark("Measure these with your own ruler. If they are off, print again at 100 %."),
            ),
        ),
        Notice("tip", "Chain piecing", (Bullets((words("Feed units one after another."), words("Clip later."))),)),
    )


def long_step() -> Step:
    """A step that is taller than a page."""
    rows = tuple(FigureRow(tuple(Figure(block(f"tall-{row}-{one}"), "Row") for one in range(2))) for row in range(5))
    return Step("tall", 9, (paragraph("Join the rows of the quilt, one after another."), *rows))


def sample_booklet() -> Booklet:
    """The whole sample."""
    cover = Cover(
        title="Rope Walk",
        summary="Coils of rope and crossing chains, from one pack of squares and three lengths of cloth.",
        figure=Figure(quilt("layout-throw", 26, 28, 0.17)),
        facts=(
            ("Skill", "confident beginner"),
            ("Fabric", "one pack of 42 squares, 10″, and yardage"),
            ("Block", "8″ finished"),
            ("Release", "1"),
        ),
        sizes=tuple((size.capitalize(), f"{40 + 12 * n}½″ × {50 + 12 * n}½″") for n, size in enumerate(SIZES)),
        publisher="Longshore Patterns",
    )
    sections = (
        Section("contents", "Contents", (Contents("Contents"),)),
        Section(
            "requirements",
            "What you need",
            (
                Paragraph(words("Everything below is for cloth with 40″ of usable width."), "lead"),
                yardage_table(),
                Subheading("Fabric key"),
                FabricKey(tuple(letter for letter, _, _, _ in FABRICS)),
            ),
            new_page=True,
        ),
        Section(
            "before",
            "Before you start",
            (
                *notices(),
                Bullets((words("Rotary cutter and mat"), words("Ruler, 6″ × 24″"), words("Iron")), checklist=True),
                paragraph(
                    "See ",
                    Link("#cutting", words("Cutting")),
                    ", ",
                    Emphasis(words("twice")),
                    ", and ",
                    Link("https://example.com/corrections", words("the corrections page")),
                    ".",
                ),
            ),
        ),
        Section(
            "cutting",
            "Cutting",
            (
                paragraph("Cut the strips first, then the pieces from the strips."),
                cutting_table(),
                Figure(strip_layout("cutting-c-strip"), "One strip of fabric C", number="12"),
            ),
            new_page=True,
        ),
        Section("units", "Units", unit_steps(), new_page=True),
        Section("blocks", "Blocks", block_steps(6)),
        Section(
            "top",
            "Quilt top",
            (
                long_step(),
                Figure(quilt("layout-queen", 20, 24, 0.25), "The queen, 60½″ × 72½″", ("queen",), "30"),
            ),
        ),
        Section(
            "about",
            "About",
            (Paragraph(words("© Longshore Patterns. 13⁄16, 2\u202f13⁄16, ½ ⅓ ⅔ ¼ ¾ ⅛ ⅜ ⅝ ⅞."), "fine"),),
        ),
    )
    return Booklet(
        id="rope-walk",
        title="Rope Walk",
        subtitle="A quilt pattern in six sizes",
        author="Longshore Patterns",
        subject="Instructions for a pieced quilt",
        language="en",
        cover=cover,
        sections=sections,
        swatches=tuple(
            SwatchInfo(letter, name, colors, value, number, f"hatch {number}")
            for number, (letter, name, colors, value) in enumerate(FABRICS)
        ),
        sizes=tuple((size, size.capitalize()) for size in SIZES),
        running_head="Rope Walk",
        words=WORDS,
    )
