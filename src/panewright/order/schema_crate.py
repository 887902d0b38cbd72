"""The keys of [crate]: how finished panels travel."""

from __future__ import annotations

from panewright.shelf.key import Key

FRAGILITIES = (
    "extremely fragile",
    "very delicate",
    "delicate",
    "moderately delicate",
    "moderately rugged",
    "rugged",
)

CRATE = (
    Key(
        "crate",
        "by",
        "choice",
        "kind of carrier, or fetched by the customer; weighed from the shelf's carriers if left out",
        "parcel",
        choices=("parcel", "freight", "collected"),
    ),
    Key(
        "crate",
        "way",
        "choice",
        "how a crate is moved; weighed if left out",
        "by hand",
        choices=("by hand", "pallet"),
    ),
    Key(
        "crate",
        "lay",
        "choice",
        "how panels stand in the crate",
        "on edge",
        choices=("on edge", "flat"),
    ),
    Key("crate", "panels", "count", "most in one crate; weighed if left out", 2, least=1, most=100),
    Key(
        "crate",
        "most_mass",
        "mass",
        "of a crate moved by hand",
        "30 kg",
        default="30 kg",
        reason="two people lift two thirds of what each alone would, 23 kg",
        least="2 kg",
        most="200 kg",
    ),
    Key(
        "crate",
        "handling",
        "choice",
        "careful: own people, own van; rough: many hands",
        "ordinary",
        default="ordinary",
        reason="the heights that packages are usually dropped from in tests",
        choices=("careful", "ordinary", "rough"),
    ),
    Key(
        "crate",
        "drop_height",
        "size",
        "a fall to prove for; by mass and handling if left out",
        "600 mm",
        least="20 mm",
        most="2 m",
    ),
    Key(
        "crate",
        "fragility",
        "choice",
        "how much of a shock a panel bears",
        "delicate",
        default="delicate",
        reason="brittle cells soldered to each other behind a pane; nobody dropped one to know. A kit that "
        "holds neither cells nor a pane is taken as rugged",
        choices=FRAGILITIES,
    ),
    Key("crate", "foam", "part", "of the pads; weighed if left out", "polyethylene foam, firm"),
    Key(
        "crate",
        "carton",
        "choice",
        "no: a kit without pane and cells goes in a crate too; in a carton if left out",
        "no",
        choices=("yes", "no"),
    ),
    Key(
        "crate",
        "border",
        "choice",
        "whether the crate goes abroad: rules for its wood",
        "no",
        default="no",
        reason="sold at home",
        choices=("no", "yes"),
    ),
)
