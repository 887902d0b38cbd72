"""Strings as rows of a single-line drawing: panels in series, what sits in the line, the bar they meet at.

A row hangs from its upper left corner. A string that is longer than a row goes on in the next, and its line
leads back to the left between them. All rows of a drawing share their columns, so that fuses stand under
fuses.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from panewright.drawing.drawing import Drawing, Item, Path, Point, Text, box
from panewright.drawing.lettering import text_width_mm
from panewright.drawing.title import wrapped
from panewright.pack.array_book.drawn import signs
from panewright.pack.array_book.drawn.scheme import Like, Scheme, Strand
from panewright.pack.figures.scale import fitted
from panewright.units import show

LETTER_MM = 2.5
_LINE = 1.2 * LETTER_MM
_LEFT = 8.0  # of the first panel
_GAP = 4.8  # between panels: a plug and its socket
_NARROW, _WIDE = 13.0, 34.0  # of a panel's box
_AIR = 1.1  # round words in a box
_RUN = 12.0  # of the line that shows its tag
_FUSE, _DIODE, _END = 10.0, 7.0, 3.5  # room along the line
_BETWEEN = 3.2  # rows
_STACK = 0.9  # by which boxes of alike strings show behind each other


@dataclass(frozen=True, slots=True)
class Columns:
    """Where things stand across a drawing. [mm of paper]"""

    box_mm: tuple[float, float]  #: of a panel: width, height
    a_row: int  #: panels side by side
    end_x: float  #: where the last panel's line goes on
    fuse_x: float
    diode_x: float
    left_x: float  #: of the combiner box
    bar_x: float  #: where strings meet

    @property
    def words_mm(self) -> float:
        """Room for the words over a row."""
        return self.left_x - _LEFT - 1.5


def columns_of(scheme: Scheme, bar_x: float) -> Columns:
    """Columns for all strings, with the bar where it is wanted."""
    fused = any(strand.fused for strand in scheme.strands)
    blocked = any(strand.blocking for strand in scheme.strands)
    diode_x = bar_x - _END - _DIODE / 2
    fuse_x = bar_x - _END - _DIODE * blocked - _FUSE / 2
    left_x = min(bar_x - _END - _DIODE * blocked - _FUSE * fused - 0.5, bar_x - 15.0 * scheme.box)
    end_x = left_x - _RUN
    wide, high = _box_size([serial for strand in scheme.strands for serial in strand.serials])
    a_row = max(1, int((end_x - _LEFT) / (wide + _GAP)))
    return Columns((wide, high), a_row, end_x, fuse_x, diode_x, left_x, bar_x)


def _box_size(serials: Sequence[str]) -> tuple[float, float]:
    """A box that holds every serial, in three lines at most."""
    longest = max(text_width_mm(serial, LETTER_MM, bold=True) for serial in serials)
    wide = min(_WIDE, max(_NARROW, longest + 2 * _AIR))
    lines = max(len(_serial_lines(serial, wide)) for serial in serials)
    return wide, max(8.0, lines * _LINE + 2 * _AIR + 0.8)


def _serial_lines(serial: str, wide: float) -> tuple[str, ...]:
    return wrapped(serial, wide - 2 * _AIR, LETTER_MM) or ("–",)


@dataclass(frozen=True, slots=True)
class Row:
    """One string, or alike ones folded, drawn: its strokes and how far down they reach."""

    items: tuple[Item, ...]
    line_y: float  #: of the line where it meets the bar
    low_y: float
    frame: Point  #: where its frames are earthed


def row_of(like: Like, columns: Columns, tag: str, top_y: float) -> Row:
    """The row of a string or of folded ones."""
    first = like.strands[0]
    behind = 2 * _STACK * (len(like.strands) > 1)
    head = _words_lines(row_words(like), columns.words_mm)
    items: list[Item] = [
        Text((_LEFT, top_y - (n + 0.8) * _LINE), words, LETTER_MM, bold=not n) for n, words in enumerate(head)
    ]
    high = columns.box_mm[1]
    y = top_y - len(head) * _LINE - 0.8 - behind - high / 2
    frame = (_LEFT, y)
    drawn = _stack(like, columns, y) if like.folded else _panels(first.serials, columns, y)
    items += drawn.items
    items += _line_to_bar(like, columns, drawn.end, tag)
    low = drawn.end[1] - high / 2 - _BETWEEN
    return Row(tuple(items), drawn.end[1], low, frame)


def row_words(like: Like) -> str:
    """What a row says of its string."""
    strands, first = like.strands, like.strands[0]
    count = len(first.serials)
    panels = f"{count} panels in series" if count > 1 else "1 panel"
    many = f"{len(strands)} strings, each " if len(strands) > 1 else ""
    cold = _span([s.cold_v for s in strands])
    hot, isc = _span([s.hot_v for s in strands]), _span([s.isc_a for s in strands], "A")
    return f"{like.sign}: {many}{panels}; {cold} cold, {hot} hot, Isc {isc}; {fuse_words(first)}"


def fuse_words(strand: Strand) -> str:
    """Whether a string has a fuse, and of which size."""
    if not strand.fused:
        return "no fuse needed"
    return "FUSE NEEDED, none fits" if strand.fuse_a is None else f"fuse {strand.fuse_a:g}\u2009A"


def _span(values: Sequence[float | None], unit: str = "V") -> str:
    """One figure, or the least and the greatest."""
    known = [value for value in values if value is not None]
    if not known:
        return "unknown voltage"
    low, high = show(min(known), unit), show(max(known), unit)
    return low if low == high else f"{low.split(chr(0x2009))[0]} to {high}"


def _words_lines(words: str, wide: float) -> tuple[str, ...]:
    return wrapped(words, wide, LETTER_MM)


@dataclass(frozen=True, slots=True)
class _Drawn:
    """Panels in series and where their line goes on."""

    items: tuple[Item, ...]
    end: Point


def _panels(serials: Sequence[str], columns: Columns, y: float) -> _Drawn:
    """Panels left to right, on as many lines as they take."""
    wide, high = columns.box_mm
    items: list[Item] = []
    lines = [serials[k : k + columns.a_row] for k in range(0, len(serials), columns.a_row)]
    step = high + _BETWEEN + 1.0
    for down, line in enumerate(lines):
        level = y - down * step
        if down:
            items += _back(columns, level + step, level, step)
        for n, serial in enumerate(line):
            left = _LEFT + n * (wide + _GAP)
            items += _panel(serial, left, level, columns)
            if n + 1 < len(line):
                items += _join((left + wide, level), (left + wide + _GAP, level))
    level, right = y - (len(lines) - 1) * step, _LEFT + len(lines[-1]) * (wide + _GAP) - _GAP
    return _Drawn(tuple(items), (right, level))


def _panel(serial: str, left: float, y: float, columns: Columns) -> Iterator[Item]:
    """A box with the serial, and the small triangle that says it stands for a panel."""
    wide, high = columns.box_mm
    yield box(left, y - high / 2, left + wide, y + high / 2, "cell", True)
    corner = ((left, y + high / 2), (left + 1.6, y + high / 2), (left, y + high / 2 - 1.6))
    yield Path(corner, "ink", closed=True, filled=True)
    lines = _serial_lines(serial, wide)
    for n, words in enumerate(lines):
        middle = y + ((len(lines) - 1) / 2 - n) * _LINE
        yield signs.letters(words, (left + wide / 2, middle), LETTER_MM)


def _join(start: Point, end: Point) -> Iterator[Item]:
    """A wire with a plug in its middle."""
    middle, reach = ((start[0] + end[0]) / 2, start[1]), signs.connector().reach
    yield signs.line(start, (middle[0] - reach, middle[1]))
    yield from signs.connector().at(middle)
    yield signs.line((middle[0] + reach, middle[1]), end)


def _back(columns: Columns, upper: float, lower: float, step: float) -> Iterator[Item]:
    """The line from the end of one row of panels to the start of the next."""
    wide = columns.box_mm[0]
    right = _LEFT + columns.a_row * (wide + _GAP) - _GAP
    between = upper - step / 2
    out, back = right + 2.4, _LEFT - 2.4
    yield signs.line((right, upper), (out, upper), (out, between), (back, between))
    yield signs.line((back, between), (back, lower), (_LEFT, lower))


def _stack(like: Like, columns: Columns, y: float) -> _Drawn:
    """All panels of a string as one box; alike strings as boxes behind each other."""
    high, count = columns.box_mm[1], len(like.strands[0].serials)
    words = f"{count} in series" if count > 1 else "1 panel"
    wide = max(30.0, columns.box_mm[0])
    items: list[Item] = []
    for n in (2, 1, 0) if len(like.strands) > 1 else (0,):
        d = n * _STACK
        items.append(box(_LEFT + d, y - high / 2 + d, _LEFT + wide + d, y + high / 2 + d, "cell", True))
    items.append(signs.letters(words, (_LEFT + wide / 2, y), LETTER_MM))
    return _Drawn(tuple(items), (_LEFT + wide, y))


def _line_to_bar(like: Like, columns: Columns, start: Point, tag: str) -> Iterator[Item]:
    """Plug, run with its tag, fuse and diode where there are any, up to the bar."""
    (x, y), first, many = start, like.strands[0], len(like.strands)
    reach = signs.connector().reach
    yield signs.line((x, y), (columns.end_x, y))
    plug = columns.end_x + reach
    yield from signs.connector().at((plug, y))
    at = columns.end_x + 2 * reach
    middle = columns.left_x - 3.4
    yield from signs.conductors((middle - 1.6, y))
    if tag:
        yield Text((middle - 1.6, y + 1.9), tag, LETTER_MM, "text", "centre")
    if first.fused:
        sign = signs.fuse()
        yield signs.line((at, y), (columns.fuse_x - sign.reach, y))
        yield from sign.at((columns.fuse_x, y))
        at = columns.fuse_x + sign.reach
        yield _fuse_label(first, many, columns, y)
    if first.blocking:
        sign = signs.diode()
        yield signs.line((at, y), (columns.diode_x - sign.reach, y))
        yield from sign.at((columns.diode_x, y))
        at = columns.diode_x + sign.reach
    yield signs.line((at, y), (columns.bar_x, y))


def _fuse_label(strand: Strand, many: int, columns: Columns, y: float) -> Text:
    size = "?" if strand.fuse_a is None else f"{strand.fuse_a:g}\u2009A"
    words = f"{many} × {size}" if many > 1 else size
    return fitted((columns.fuse_x, y + 1.9), words, LETTER_MM, _FUSE - 0.6, "text", "centre")


@dataclass(frozen=True, slots=True)
class Group:
    """The strings of one input with the bar they meet at."""

    items: tuple[Item, ...]
    exit: Point  #: where the input's run begins
    low_y: float
    frames: tuple[Point, ...]


def group_of(likes: Sequence[Like], scheme: Scheme, columns: Columns, top_y: float) -> Group:
    """Rows under each other, their bar, and the box round it where there is one."""
    items: list[Item] = []
    ends: list[float] = []
    frames: list[Point] = []
    y = top_y
    for like in likes:
        row = row_of(like, columns, scheme.string_tag, y)
        items += row.items
        ends.append(row.line_y)
        frames.append(row.frame)
        y = row.low_y
    bar = columns.bar_x
    exit_y = ends[-1]
    if len(ends) > 1:
        items.append(Path(((bar, ends[0]), (bar, exit_y)), "bus"))
        items += [signs.joint((bar, end)) for end in ends]
    if scheme.box:
        items += _combiner(columns, ends[0] + 7.0, exit_y)
    return Group(tuple(items), (bar, exit_y), y, tuple(frames))


def _combiner(columns: Columns, top_y: float, exit_y: float) -> Iterator[Item]:
    """The box in which strings meet, as a dashed outline with its name."""
    left, right = columns.left_x, columns.bar_x + 2.2
    yield box(left, exit_y - 3.0, right, top_y, "hidden")
    at = ((left + right) / 2, top_y - 0.55 - LETTER_MM * 0.75)
    yield fitted(at, "combiner box", LETTER_MM, right - left - 1.0, "text", "centre")


def earthed(frames: Sequence[Point], low_y: float) -> Iterator[Item]:
    """From every string's frames to one earth."""
    x, sign = 2.4, signs.earth()
    yield Path(((x, max(y for _, y in frames)), (x, low_y)), "centre")
    yield from (Path(((x, y), (left, y)), "centre") for left, y in frames)
    yield from sign.upright((x, low_y - sign.reach))
    yield Text((x + 5.0, low_y - sign.reach - 1.0), "frames earthed", LETTER_MM)


def sheet_of_strings(name: str, scheme: Scheme, likes: Sequence[Like], columns: Columns) -> Drawing:
    """Strings with nothing behind their bar but an arrow to the input."""
    items: list[Item] = []
    frames: list[Point] = []
    y = 0.0
    for number in sorted({like.strands[0].input for like in likes}):
        own = [like for like in likes if like.strands[0].input == number]
        group = group_of(own, scheme, columns, y)
        items += group.items
        items += _on_the_first_sheet(group.exit, number)
        frames += group.frames
        y = group.low_y - 4.0
    if scheme.earthed:
        items += earthed(frames, y + 2.0)
    return Drawing(name, tuple(items))


def _on_the_first_sheet(start: Point, number: int) -> Iterator[Item]:
    """An arrow down to the input, which the first sheet shows."""
    x, y = start
    yield signs.line((x, y), (x, y - 5.2))
    yield Path(((x, y - 6.6), (x - 0.8, y - 5.0), (x + 0.8, y - 5.0)), "ink", closed=True, filled=True)
    yield Text((x - 2.0, y - 6.4), f"to input {number + 1}", LETTER_MM, "text", "right", bold=True)
