"""What is wrong with a single value, said so that its writer can mend it.

In: texts that a scalar could not read.
Out: errors that carry one of our codes, a message, hints, and the part of the text that is at fault.
Never: a span; the reader of errors knows where the text stands.
"""

from __future__ import annotations

import re

from pydantic_core import PydanticCustomError

NAME_PATTERN = r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*"
NUMBER_PATTERN = r"\d[\d ./,⁄½⅓⅔¼¾⅛⅜⅝⅞⅙⅚]*|[½⅓⅔¼¾⅛⅜⅝⅞⅙⅚]"
ITEM_ORDER = (
    "an item is a name, then optionally a size in cells, `@mirror`, `@90`, `@180` or `@270`, and `*3`, "
    "in this order, such as `deck 2x1` or `turn@mirror@90*3`"
)

_NAME = re.compile(NAME_PATTERN)
_LEADING_ZERO = re.compile(r"(?<![\d.,/⁄])0\d")
_ITEM_PARTS = re.compile(r"@[^@*\s]*|\*[^@*\s]*|[^@*]+")
_SIZE = re.compile(rf"(?P<width>{NUMBER_PATTERN})?\s*(?P<by>[xX×*])\s*(?P<height>{NUMBER_PATTERN})?")


def fault(code: str, message: str, *hints: str, at: tuple[int, int] | None = None) -> PydanticCustomError:
    """An error with one of our codes, for a diagnostic at the value's span, or at the part of its text from `at`."""
    return PydanticCustomError(
        "patchwright", "{message}", {"code": code, "message": message, "hints": hints, "at": at}
    )


def check_name(text: str) -> None:
    """Refuse a text that is not a name, with the nearest name if there is one."""
    if _NAME.fullmatch(text) is None:
        rule = "names are lower-case letters, digits and single hyphens, and begin with a letter"
        near = near_name(text)
        raise fault("invalid-name", f"`{text}` is not a name", *((f"write `{near}`", rule) if near else (rule,)))


def near_name(text: str) -> str:
    """The name that a text comes closest to, or nothing."""
    near = re.sub(r"[^a-z0-9]+", "-", text[:80].lower()).strip("-")
    return near if _NAME.fullmatch(near) else ""


def check_leading_zero(text: str) -> None:
    """Refuse `010`, which some readers of YAML take for eight."""
    match = _LEADING_ZERO.search(text)
    if match is not None:
        number = re.match(r"\d+", text[match.start() :])
        digits = number[0] if number else ""
        raise fault(
            "leading-zero", f"`{digits}` begins with a zero", f"write `{digits.lstrip('0') or '0'}`",
            at=(match.start(), match.start() + len(digits)),
        )


def item_fault(text: str) -> PydanticCustomError:
    """Why a text is not an item of a row: the first part that is wrong, and how it would be right."""
    parts = [(match[0], match.start()) for match in _ITEM_PARTS.finditer(text)]
    if not parts or parts[0][0][0] in "@*":
        return fault("invalid-item", f"`{text}` has no name before `{text[:1]}`", ITEM_ORDER)
    wrong = _head_fault(text, parts[0][0])
    stage = 0
    for part, start in parts[1:]:
        if wrong is not None:
            break
        at = (start, start + len(part.rstrip()))
        rank = _rank(part.rstrip())
        if rank == 0:
            wrong = _strange_part(text, part.strip(), at)
        elif rank <= stage:
            message = f"in `{text}`, `{part.strip()}` stands in the wrong place"
            wrong = fault("invalid-item", message, *_ordered(parts), at=at)
        stage = rank
    return wrong or fault("invalid-item", f"`{text}` is not an item of a row", ITEM_ORDER)


def _rank(part: str) -> int:
    """Where a part belongs: 1 for mirroring, 2 for turning, 3 for repeating, 0 for none of them."""
    if part == "@mirror":
        return 1
    if part in ("@0", "@90", "@180", "@270"):
        return 2
    return 3 if re.fullmatch(r"\*\d{1,4}", part) else 0


def _ordered(parts: list[tuple[str, int]]) -> tuple[str, ...]:
    """The same parts in the right order, if each is there once."""
    tail = sorted((part.strip() for part, _ in parts[1:]), key=_rank)
    ranks = [_rank(part) for part in tail]
    if len(set(ranks)) == len(ranks) and 0 not in ranks:
        return (f"write `{parts[0][0].strip()}{''.join(tail)}`", ITEM_ORDER)
    return (ITEM_ORDER,)


def _strange_part(text: str, part: str, at: tuple[int, int]) -> PydanticCustomError:
    number = part[1:].strip()
    if part.startswith("*"):
        hint = "write the number of times without a space, such as `*3`"
        return fault("invalid-item", f"in `{text}`, `{part}` is not a repetition", hint, at=at)
    if re.fullmatch(r"-?\d+", number):
        turns = int(number[:9]) % 360
        near = f"write `@{turns}`" if turns % 90 == 0 else "turn by `@90`, `@180` or `@270`, clockwise"
        return fault("invalid-item", f"in `{text}`, `{part}` is not a quarter turn", near, at=at)
    if part.startswith("@"):
        message = f"in `{text}`, `{part}` is neither `@mirror` nor a turn"
        return fault("invalid-item", message, "write `@mirror`, `@90`, `@180` or `@270` without a space", at=at)
    return fault("invalid-item", f"in `{text}`, `{part}` does not fit", ITEM_ORDER, at=at)


def _head_fault(text: str, head: str) -> PydanticCustomError | None:
    """What is wrong with an item's name or size."""
    words = head.strip().split(maxsplit=1)
    names, rest = words[0], words[1] if len(words) > 1 else ""
    for name in names.split("/"):
        if _NAME.fullmatch(name) is None:
            near = near_name(name)
            hints = (f"write `{near}`", ITEM_ORDER) if near else (ITEM_ORDER,)
            message = f"`{name}` is not a name" if name else f"a name is missing in `{text}`"
            return fault("invalid-item", message, *hints)
    if names.count("/") > 1:
        hint = "a half-square without a name has two fabrics, such as `red/cream`"
        return fault("invalid-item", f"`{names}` has more than two fabrics", hint)
    return _size_fault(text, names, rest) if rest else None


def _size_fault(text: str, name: str, rest: str) -> PydanticCustomError | None:
    start = text.index(rest, len(name))
    at = (start, start + len(rest))
    size = _SIZE.fullmatch(rest)
    if size is None and re.fullmatch(NUMBER_PATTERN, rest):
        if rest in ("90", "180", "270"):
            return fault("invalid-item", f"`{rest}` is not a size", f"to turn it, write `{name}@{rest}`", at=at)
        hint = f"write width x height in cells, such as `{name} {rest}x{rest}`"
        return fault("invalid-item", f"`{rest}` is half a size", hint, at=at)
    if size is None and re.search(r"[x×].*[a-z\"]$", rest):
        hint = f"sizes in rows count cells; for an absolute size, declare a unit: `{name}` with `size: {rest}`"
        return fault("invalid-item", f"`{rest}` is not a size in cells", hint, at=at)
    if size is None:
        message = f"in `{text}`, `{rest}` does not fit after `{name}`"
        return fault("invalid-item", message, f"put a comma between items: `{name}, {rest}`", ITEM_ORDER, at=at)
    if size["by"] in "X*" or not (size["width"] and size["height"]):
        near = f"{(size['width'] or '1').strip()}x{(size['height'] or '1').strip()}"
        hint = f"write width x height in cells, such as `{near}`"
        return fault("invalid-item", f"`{rest}` is not a size", hint, at=at)
    return None
