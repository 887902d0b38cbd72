"""The single-line drawing: strings, box, disconnect, controller, battery, loads; one line is two conductors.

Strings stand above, one row each; their inputs lead down at the right; what hangs at the bank stands below.
Where all strings have no room on a page, alike ones are folded into one row, and further sheets show them
one by one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Drawing, Item, Point, Text, box
from panewright.drawing.paper_size import Size
from panewright.drawing.title import wrapped
from panewright.pack.array_book.drawn import signs
from panewright.pack.array_book.drawn.scheme import Hung, Like, Scheme, alike
from panewright.pack.array_book.drawn.strands import (
    LETTER_MM,
    Columns,
    Group,
    columns_of,
    earthed,
    group_of,
    sheet_of_strings,
)

WIDE_MM = 170.0  #: of the drawing, on the narrower paper
_LANE = 9.0  # between the runs of two inputs
_LINE = 1.25 * LETTER_MM
_COLUMN = 50.0  # of one thing that hangs at the bank, at most
_HALF = 6.0  # of a controller's square
_ISOLATOR, _SURGE = 9.0, 18.0  # room down a run


def whole(scheme: Scheme) -> Drawing:
    """Everything in one drawing, every string with its serials."""
    return _drawn(scheme, tuple(Like((strand,), folded=False) for strand in scheme.strands))


def folded(scheme: Scheme) -> Drawing:
    """The same with alike strings of an input in one row."""
    return _drawn(scheme, alike(scheme.strands))


@dataclass(frozen=True, slots=True)
class Sheets:
    """The drawing on pages: the first shows the chain, the others strings one by one, if it does not."""

    first: Drawing
    strings: tuple[Drawing, ...]


def sheets(scheme: Scheme, room: Size) -> Sheets:
    """The whole where it has room on one page, else folded with the strings on sheets of their own."""
    one = whole(scheme)
    if bounds(one).height_mm <= room.height_mm:
        return Sheets(one, ())
    return Sheets(folded(scheme), _string_sheets(scheme, room))


def _string_sheets(scheme: Scheme, room: Size) -> tuple[Drawing, ...]:
    """As many strings to a sheet as have room."""
    columns = columns_of(scheme, WIDE_MM - 3.0)
    likes = [Like((strand,), folded=False) for strand in scheme.strands]
    made: list[Drawing] = []
    start = 0
    while start < len(likes):
        end = start + 1
        drawing = sheet_of_strings(f"Strings, sheet {len(made) + 1}", scheme, likes[start:end], columns)
        while end < len(likes):
            more = sheet_of_strings(drawing.name, scheme, likes[start : end + 1], columns)
            if bounds(more).height_mm > room.height_mm:
                break
            drawing, end = more, end + 1
        made.append(drawing)
        start = end
    return tuple(made)


def _drawn(scheme: Scheme, likes: Sequence[Like]) -> Drawing:
    inputs = sorted({like.strands[0].input for like in likes})
    bar_x = WIDE_MM - 8.0 - _LANE * (len(inputs) - 1)
    columns = columns_of(scheme, max(bar_x, 90.0))
    items: list[Item] = []
    groups: list[Group] = []
    y = 0.0
    for number in inputs:
        group = group_of([like for like in likes if like.strands[0].input == number], scheme, columns, y)
        items += group.items
        groups.append(group)
        y = group.low_y - 2.0
    if scheme.earthed:
        items += earthed([frame for group in groups for frame in group.frames], y - 4.0)
    chain = _Chain(scheme, columns, y)
    items += chain.lanes([group.exit for group in groups])
    items += chain.below()
    return Drawing("Single-line drawing", tuple(items))


@dataclass(frozen=True, slots=True)
class _Chain:
    """What comes behind the strings; its place is under them."""

    scheme: Scheme
    columns: Columns
    top_y: float

    @property
    def level_y(self) -> float:
        """Of the controller's middle, and of the line to the bank."""
        isolators = _ISOLATOR * len(self.scheme.isolators)
        return self.top_y - 7.0 - _HALF - isolators - (_SURGE if self.scheme.surge else 0.0)

    def lanes(self, exits: Sequence[Point]) -> Iterator[Item]:
        """From each input's strings down to the controller."""
        last = len(exits) - 1
        for k, (x, y) in enumerate(exits):
            lane = x + _LANE * (last - k)
            yield from self._lane((x, y), lane, said=not last or k == last)
            if last and self.scheme.controller:
                yield Text((lane - 1.2, self.level_y + _HALF + 0.9), f"{k + 1}", LETTER_MM, align="right")
        right = exits[0][0] + _LANE * last
        if self.scheme.surge:
            yield from self._surge(exits[-1][0], len(exits))
        yield from self._controller(exits[-1][0], right)

    def _lane(self, start: Point, lane: float, said: bool) -> Iterator[Item]:
        """One input's run, its tag, and its isolators; the leftmost run says their names."""
        (x, y), end = start, self.level_y + (_HALF if self.scheme.controller else 0.0)
        at = self.top_y - 2.5
        yield signs.line((x, y), (lane, y), (lane, at))
        yield from signs.conductors((lane, at))
        if self.scheme.input_tag:
            yield Text((lane - 1.8, at - 1.0), self.scheme.input_tag, LETTER_MM, "text", "right")
        for name in self.scheme.isolators:
            sign = signs.isolator()
            middle = at - 1.8 - sign.reach
            yield signs.line((lane, at), (lane, middle + sign.reach))
            yield from sign.upright((lane, middle))
            if said:
                yield Text((lane - 2.2, middle - 0.8), name, LETTER_MM, "text", "right")
            at = middle - sign.reach
        yield signs.line((lane, at), (lane, end))

    def _surge(self, x: float, inputs: int) -> Iterator[Item]:
        """An arrester from the run to earth, left of the leftmost lane."""
        y, sign = self.level_y + _HALF + _SURGE - 2.0, signs.arrester()
        left = x - 9.0
        yield signs.joint((x, y))
        yield signs.line((x, y), (left, y), (left, y - 1.0))
        yield from sign.upright((left, y - 1.0 - sign.reach))
        yield from signs.earth().upright((left, y - 1.0 - 2 * sign.reach - 3.0))
        words = "surge arrester" if inputs == 1 else "surge arrester, one at each input"
        yield Text((left - 2.6, y - 1.0 - sign.reach - 0.8), words, LETTER_MM, "text", "right")

    def _controller(self, left: float, right: float) -> Iterator[Item]:
        """Its square, or the point where the runs of all inputs meet; the line to the bank begins there."""
        y = self.level_y
        if not self.scheme.controller:
            yield signs.line((left, y), (right, y))
            yield signs.line((left, y), (self._bar_right, y))
            return
        half = (right - left) / 2 + _HALF
        middle = (left + right) / 2
        yield box(middle - half, y - _HALF, middle + half, y + _HALF, "hole", True)
        yield from (signs.converter if self.scheme.converts else signs.switched)(_HALF).at((middle, y))
        for n, words in enumerate(self.scheme.controller):
            foot = (right + _HALF, y - _HALF - (n + 1.0) * _LINE)
            yield Text(foot, words, LETTER_MM, "text", "right", bold=not n)
        yield signs.line((left - _HALF, y), (self._bar_right, y))
        if self.scheme.bank_tag:
            at = left - _HALF - 6.0
            yield from signs.conductors((at, y))
            yield Text((at, y + 1.6), self.scheme.bank_tag, LETTER_MM, "text", "centre")

    @property
    def _column(self) -> float:
        """Room for each thing that hangs at the bank."""
        return min(_COLUMN, (self.columns.bar_x - _HALF - 10.0) / max(1, len(self.scheme.hung)))

    @property
    def _bar_right(self) -> float:
        return 8.0 + self._column * max(0, len(self.scheme.hung) - 1)

    def below(self) -> Iterator[Item]:
        """What hangs at the bank's terminals, then the key."""
        low = self.level_y - _HALF - _LINE * (len(self.scheme.controller) + 1)
        for k, hung in enumerate(self.scheme.hung):
            x = 8.0 + self._column * k
            items, foot = self._hung(hung, x)
            yield from items
            low = min(low, foot)
            yield signs.joint((x, self.level_y))
        if len(self.scheme.hung) > 1:
            yield signs.line((8.0, self.level_y), (self._bar_right, self.level_y))
        yield from self._key(low - 3.0)

    def _hung(self, hung: Hung, x: float) -> tuple[list[Item], float]:
        """One thing with what protects it; its words stand beside."""
        y, items = self.level_y, list[Item]()
        if hung.kind == "battery":
            isolator = "isolator" if self.scheme.bank_isolator else ""
            for sign, said in ((signs.isolator(), isolator), (signs.fuse(), self.scheme.bank_fuse)):
                if said:
                    items += [signs.line((x, y), (x, y - 1.0)), *sign.upright((x, y - 1.0 - sign.reach))]
                    items.append(Text((x + 4.2, y - 1.0 - sign.reach - 0.8), said, LETTER_MM))
                    y -= 1.0 + 2 * sign.reach
        sign = _SIGNS[hung.kind]()
        items += [signs.line((x, y), (x, y - 3.0)), *sign.upright((x, y - 3.0 - sign.reach))]
        words = [line for told in hung.words for line in wrapped(told, self._column - 13.0, LETTER_MM)]
        top = y - 3.0 - 0.7 * LETTER_MM
        for n, line in enumerate(words):
            items.append(Text((x + 7.0, top - n * _LINE), line, LETTER_MM, bold=not n))
        return items, min(y - 3.0 - 2 * sign.reach, top - len(words) * _LINE)

    def _key(self, top: float) -> Iterator[Item]:
        """What each tag stands for."""
        y = top
        for told in self.scheme.key:
            for n, line in enumerate(wrapped(told, WIDE_MM - 10.0, LETTER_MM)):
                y -= _LINE
                yield Text((0.0 if not n else 8.0, y), line, LETTER_MM)


_SIGNS: dict[str, Callable[[], signs.Sign]] = {
    "battery": signs.battery,
    "load": signs.load,
    "generator": lambda: signs.round_machine("G"),
    "motor": lambda: signs.round_machine("M"),
}
