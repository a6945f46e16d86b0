"""Which print serves which group, so that groups kept apart never share a print.

Comes in: how many groups of each kind each print serves, and the groups of each kind with the words that keep them
apart. Goes out: the groups of each print.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

Member = tuple[str, frozenset[str]]
_STEPS = 20_000


def assign_groups(rooms: Sequence[Sequence[int]], kinds: Sequence[Sequence[Member]]) -> list[list[str]] | None:
    """Return the keys of the groups that each print serves, or None when a long search finds no assignment.

    `rooms[p][k]` is how many groups of kind k print p has room for; groups that share a word never share a print.
    """
    open_groups = [(kind, key, words) for kind, members in enumerate(kinds) for key, words in members]
    shared = Counter(word for _, _, words in open_groups for word in words)
    # The groups with most to avoid are placed first; ties go by key, so that the answer is always the same.
    open_groups.sort(key=lambda group: (-sum(shared[word] for word in group[2]), sorted(group[2]), group[0], group[1]))
    search = _Assignment([list(room) for room in rooms], open_groups)
    return search.served if search.place(0) else None


def can_share(numbers: Sequence[int], kinds: Sequence[Sequence[frozenset[str]]]) -> bool:
    """Tell whether one print may serve so many groups of each kind, no two of them sharing a word.

    Of groups under several words only this is seen here: two kinds whose groups all share words never share a print;
    the assignment of all groups decides about the rest.
    """
    served = [members for number, members in zip(numbers, kinds, strict=True) if number]
    if any(
        all(mine & theirs for mine in one for theirs in other)
        for place, one in enumerate(served) for other in served[place + 1 :]
    ):
        return False
    taken: dict[str, int] = {}
    seats = [kind for kind, number in enumerate(numbers) for _ in range(number)]
    single = [all(len(words) == 1 for words in members) for members in kinds]
    words_of = [sorted({word for words in members for word in words}) for members in kinds]

    def seat(kind: int, mark: int, tried: set[str], marks: dict[int, int]) -> bool:
        for word in words_of[kind]:
            if word in tried:
                continue
            tried.add(word)
            if word not in taken or seat(marks[taken[word]], taken[word], tried, marks):
                taken[word] = mark
                return True
        return False

    marks = dict(enumerate(seats))
    return all(seat(kind, mark, set(), marks) for mark, kind in marks.items() if single[kind])


class _Assignment:
    """A search in depth that places one group after another, each on the print with the most room first."""

    def __init__(self, rooms: list[list[int]], groups: list[tuple[int, str, frozenset[str]]]) -> None:
        self.rooms, self.groups = rooms, groups
        self.served: list[list[str]] = [[] for _ in rooms]
        self.words: list[Counter[str]] = [Counter() for _ in rooms]
        self.steps = 0

    def place(self, index: int) -> bool:
        """Place this group and all later ones."""
        stack: list[tuple[int, list[int]]] = [(index, self._prints(index))] if self.groups else []
        trail: list[int] = []
        while stack:
            self.steps += 1
            if self.steps > _STEPS:
                return False
            at, prints = stack[-1]
            if len(trail) > len(stack) - 1:
                self._undo(at, trail.pop())
            if not prints:
                stack.pop()
                continue
            chosen = prints.pop(0)
            self._put(at, chosen)
            trail.append(chosen)
            if at + 1 == len(self.groups):
                return True
            stack.append((at + 1, self._prints(at + 1)))
        return not self.groups

    def _prints(self, index: int) -> list[int]:
        kind, _, words = self.groups[index]
        free = [p for p, room in enumerate(self.rooms) if room[kind] and not any(self.words[p][w] for w in words)]
        return sorted(free, key=lambda p: (-sum(self.rooms[p]), p))

    def _put(self, index: int, chosen: int) -> None:
        kind, key, words = self.groups[index]
        self.rooms[chosen][kind] -= 1
        self.served[chosen].append(key)
        self.words[chosen].update(words)

    def _undo(self, index: int, chosen: int) -> None:
        kind, key, words = self.groups[index]
        self.rooms[chosen][kind] += 1
        self.served[chosen].remove(key)
        self.words[chosen].subtract(words)
