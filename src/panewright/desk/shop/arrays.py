"""The arrays of an open shop: listed, begun, written, their strings tried and kept, their panels laid."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING

from panewright.errors import PanewrightError, Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.arrays.strings import Strings
    from panewright.desk.shop.drafts import Drafts
    from panewright.desk.shop.who import Who
    from panewright.ledger.arrays.layings import Found, LayingKept, Lying
    from panewright.ledger.arrays.texts import ArrayVersion
    from panewright.ledger.open import Ledger
    from panewright.order.site.site import Site

MOST_NAME = 60


@dataclass(frozen=True, slots=True)
class ListedArray:
    """One line of the list of arrays."""

    name: str
    version: int
    panels: int  #: that its text tells, 0 where it has mistakes
    mistakes: int
    lie: int  #: that lie there now
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Lain:
    """Panels laid as a page says it."""

    day: date
    reason: str
    moving: bool
    seen: int  #: the laying looked at


class Arrays:
    """What an open shop does with its arrays."""

    ledger: Ledger
    drafts: Drafts

    def arrays(self, find: str = "") -> tuple[ListedArray, ...]:
        """The arrays saved last."""
        from panewright.ledger.arrays.texts import arrays

        return tuple(self._listed(each) for each in arrays(self.ledger, find=find))

    def _listed(self, each: ArrayVersion) -> ListedArray:
        from panewright.ledger.arrays.layings import laying

        lies = laying(self.ledger, each.name)
        panels, mistakes = 0, 0
        try:
            panels = len(site_of(each).panels)
        except PanewrightError as mistake:
            mistakes = len(mistake.problems)
        lie = len(lies.places) if lies else 0
        return ListedArray(each.name, each.version, panels, mistakes, lie, each.by, each.at)

    def array(self, name: str) -> ArrayVersion:
        """An array as it stands."""
        from panewright.ledger.arrays.texts import find_array

        return find_array(self.ledger, name)

    def array_versions(self, name: str) -> tuple[ArrayVersion, ...]:
        """Every text that it had, oldest first."""
        from panewright.ledger.arrays.texts import array_versions

        return array_versions(self.ledger, name)

    def begin_array(self, text: str, who: Who) -> ArrayVersion:
        """A new array by its text; one that is there already is never touched."""
        return self.write_array(name_in(text), text, 0, who)

    def write_array(self, name: str, text: str, seen: int, who: Who) -> ArrayVersion:
        """The text as it was changed; `StaleError` where another hand was faster."""
        from panewright.ledger.arrays.texts import save_array

        return save_array(self.ledger, name, text, seen=seen, by=who.by, at=who.at, tap=who.tap)

    # Strings as they are tried

    def tried_strings(self, name: str, site: Site) -> Strings | None:
        """The strings that somebody tries; None where nobody does."""
        from panewright.desk.arrays.strings import known_of, read

        told = self.drafts.strings(name)
        return None if told is None else known_of(site, read(told))

    def move_panel(self, name: str, site: Site, began: Strings, move: tuple[str, str], who: Who) -> bool:
        """A panel put to a place; `began` is what stands where nothing was tried yet."""
        from panewright.desk.arrays.strings import known_of, moved, read, written

        def change(told: str | None) -> str:
            stands = began if told is None else known_of(site, read(told))
            return written(moved(site, stands, *move))

        return self.drafts.try_strings(name, change, tap=who.tap, now_s=who.at.timestamp())

    def put_strings(self, name: str, strings: Strings | None, who: Who) -> bool:
        """Other strings in the place of what is tried; None lets it go."""
        from panewright.desk.arrays.strings import written

        fresh = None if strings is None else written(strings)
        return self.drafts.try_strings(name, lambda _: fresh, tap=who.tap, now_s=who.at.timestamp())

    def keep_strings(self, name: str, seen: int, who: Who) -> ArrayVersion:
        """What is tried, written into the text as its next version."""
        from panewright.desk.arrays.strings import into_text

        stands = self.array(name)
        strings = self.tried_strings(name, site_of(stands))
        if strings is None:
            return stands  # the tap came twice, or another hand kept them
        kept = self.write_array(name, into_text(stands.text, strings), seen, who)
        tap = f"{who.tap}k"
        self.drafts.try_strings(name, lambda _: None, tap=tap, now_s=who.at.timestamp())
        return kept

    # Panels as they lie

    def laying(self, name: str) -> LayingKept | None:
        """How its panels lie now."""
        from panewright.ledger.arrays.layings import laying

        return laying(self.ledger, name)

    def layings(self, name: str) -> tuple[LayingKept, ...]:
        """Every way in which they lay, oldest first."""
        from panewright.ledger.arrays.layings import layings

        return layings(self.ledger, name)

    def where_lies(self, serial: str) -> Found | None:
        """The array in which a panel lies."""
        from panewright.ledger.arrays.layings import where_lies

        return where_lies(self.ledger, serial)

    def lay_array(self, name: str, site: Site, strings: Strings, lain: Lain, who: Who) -> None:
        """Its panels lie in these strings from a day on."""
        from panewright.ledger.arrays.layings import Laying, lay_array

        what = Laying(lain.day, lying_of(site, strings), lain.reason, lain.moving)
        lay_array(self.ledger, name, what, seen=lain.seen, by=who.by, at=who.at, tap=who.tap)

    def take_out(self, serial: str, day: date, reason: str, who: Who) -> str:
        """A panel lies in no array from a day on; which one it was in."""
        from panewright.ledger.arrays.layings import take_out

        return take_out(self.ledger, serial, day, reason, by=who.by, at=who.at, tap=who.tap)

    def free_serials(self) -> tuple[str, ...]:
        """Panels begun that lie in no array, the newest first."""
        from panewright.ledger.arrays.layings import where_all_lie
        from panewright.ledger.serials.serials import serials

        names = [each.serial for each in serials(self.ledger)]
        lie = {each.serial for each in where_all_lie(self.ledger, names)}
        return tuple(name for name in names if name not in lie)


def site_of(version: ArrayVersion) -> Site:
    """The site that an array's text tells; `OrderError` with every mistake."""
    from panewright.order.site.parse import parse_site

    return parse_site(version.text, f"{version.name}.toml")


def lying_of(site: Site, strings: Strings) -> tuple[Lying, ...]:
    """Panels of strings as the records keep them; those with a serial are the shop's."""
    from panewright.ledger.arrays.layings import Lying
    from panewright.order.site.site import BySerial

    ours = {panel.name for panel in site.panels if isinstance(panel.known, BySerial)}
    return tuple(
        Lying(s, p, name, name in ours)
        for s, each in enumerate(strings, 1)
        for p, name in enumerate(each.panels, 1)
    )


def name_in(text: str) -> str:
    """What a text calls its array; `RecordError` where it calls it nothing."""
    import tomllib

    try:
        section = tomllib.loads(text).get("array")
    except ValueError:
        section = None
    told = section.get("name") if isinstance(section, dict) else None
    name = " ".join(str(told or "").split())
    if not name or len(name) > MOST_NAME:
        cure = f'Write [array] with name = "Boathouse", {MOST_NAME} letters at most.'
        raise RecordError(
            [Problem("The text does not say what the array is called.", cure, key="array.name")]
        )
    return name
