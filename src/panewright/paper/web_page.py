"""A book as one web page that asks nothing of the outside: no script, no picture or type from elsewhere.

The same blocks as on paper, in the same order. Words are escaped, never read as markup; a policy in the
page's head bars scripts besides. Tables scroll sideways on a narrow screen, their first column in sight.
"""

from __future__ import annotations

import base64
from collections.abc import Iterator
from html import escape

from panewright.drawing.sheet import (
    Block,
    Book,
    Caution,
    Figure,
    Heading,
    Numbers,
    Page,
    Table,
    Words,
)
from panewright.paper.face import Weight, web_font
from panewright.paper.svg import FACE, svg
from panewright.paper.words import printable

_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; base-uri 'none'"
_FACE = """
@font-face{{font-family:"{face}";font-weight:{weight};
 src:url(data:font/woff;base64,{font}) format("woff")}}"""
_WEIGHTS: tuple[tuple[Weight, str], ...] = ("regular", "400"), ("strong", "600")
_STYLE = """
:root{color-scheme:light}
body{margin:0 auto;max-width:68rem;padding:1rem;color:#1b1f24;background:#fff;
 font:1rem/1.45 "Source Sans Pro",system-ui,sans-serif;
 font-variant-numeric:tabular-nums lining-nums}
h1{font-size:1.9rem;line-height:1.15;margin:.4rem 0}
h2{font-size:1.35rem;margin:2.2rem 0 .6rem;padding-top:.6rem;border-top:2px solid #1b1f24}
h3{font-size:1.1rem;margin:1.4rem 0 .4rem}
p{margin:.6rem 0;max-width:44rem;overflow-wrap:anywhere}
.lead{font-size:1.2rem}.small,.of{font-size:.85rem;color:#4b5157}
nav ul{padding-left:1.2rem;margin:.4rem 0}nav a{color:#1b1f24;display:inline-block;padding:.3rem 0}
.numbers{display:grid;grid-template-columns:repeat(auto-fill,minmax(9rem,1fr));
 gap:1rem;margin:1rem 0;padding:0}
.numbers div{border-top:2px solid #1b1f24;padding-top:.3rem}
.numbers dt{font-size:.85rem;color:#4b5157}.numbers dd{margin:0;font-size:1.5rem;font-weight:600}
.scroll{overflow-x:auto;margin:.3rem 0 1.4rem}
.scroll:focus-visible,a:focus-visible{outline:3px solid #1b5fa8;outline-offset:2px}
table{border-collapse:collapse;font-size:.95rem;min-width:100%}
caption{text-align:left;font-weight:600;padding:.4rem 0}
th,td{padding:.35rem .6rem;vertical-align:top;text-align:left;border-bottom:1px solid #c3c8cc}
th{border-bottom:2px solid #1b1f24;font-size:.9rem}
tbody th{border-bottom:1px solid #c3c8cc;font-weight:600;font-size:.95rem;white-space:nowrap}
.right{text-align:right;white-space:nowrap}.centre{text-align:center}
td{min-width:2.4rem}td.left{min-width:6.5rem}
tr>:first-child{position:sticky;left:0;background:#fff}
.caution{border:2px solid #1b1f24;padding:.8rem;font-weight:600;max-width:44rem}
figure{margin:1rem 0;overflow-x:auto}img{max-width:100%;min-width:34rem;height:auto;display:block}
figcaption{font-size:.9rem;font-weight:600}
@media print{body{max-width:none;padding:0}.scroll{overflow:visible}img{min-width:0}tr{break-inside:avoid}}
"""


def web_page(book: Book) -> bytes:
    """The book as HTML in UTF-8; the same book gives the same bytes."""
    title = f"{_words(book.title)}, {_words(book.order)}" if book.order else _words(book.title)
    lines = [
        "<!DOCTYPE html>",
        '<html lang="en"><head><meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        f"<title>{title}</title>",
        f"<style>{_faces()}{_STYLE}</style></head><body>",
        f"<header><h1>{_words(book.title)}</h1>",
        f'<p class="of">{_words(book.order)}, revision {_words(book.revision)}</p></header>',
        *_contents(book),
        "<main>",
    ]
    for number, page in enumerate(book.pages):
        lines += _page(page, number, book)
    return "\n".join([*lines, "</main></body></html>", ""]).encode("utf-8", errors="replace")


def _faces() -> str:
    """The face of all paper, inside the page."""
    return "".join(
        _FACE.format(face=FACE, weight=number, font=base64.b64encode(web_font(weight)).decode())
        for weight, number in _WEIGHTS
    )


def _words(words: str) -> str:
    return escape(printable(words))


def _contents(book: Book) -> Iterator[str]:
    if len(book.pages) > 1:
        links = (f'<li><a href="#page-{n}">{_words(page.title)}</a></li>' for n, page in _later(book))
        yield f'<nav aria-label="Contents"><ul>{"".join(links)}</ul></nav>'


def _later(book: Book) -> Iterator[tuple[int, Page]]:
    return ((n, page) for n, page in enumerate(book.pages) if n)


def _page(page: Page, number: int, book: Book) -> Iterator[str]:
    yield f'<section id="page-{number}">'
    if page.title != book.title:
        yield f"<h2>{_words(page.title)}</h2>"
    for block in page.blocks:
        yield from _block(block, book)
    yield "</section>"


def _block(block: Block, book: Book) -> Iterator[str]:
    match block:
        case Heading():
            yield f"<h3>{_words(block.words)}</h3>"
        case Words():
            yield f'<p class="{block.size}">{_words(block.words)}</p>'
        case Caution():
            yield f'<p class="caution">\u26a0 {_words(block.words)}</p>'
        case Numbers():
            pairs = (f"<div><dt>{_words(n)}</dt><dd>{_words(f)}</dd></div>" for n, f in block.pairs)
            yield f'<dl class="numbers">{"".join(pairs)}</dl>'
        case Table():
            yield from _table(block)
        case Figure():
            yield from _figure(block, book)
        case _:
            raise ValueError(f"a web page has no {type(block).__name__}")


def _table(table: Table) -> Iterator[str]:
    """A table in a window that scrolls; the first cell of a row is its head."""
    name = _words(table.caption or ", ".join(table.columns))
    yield f'<div class="scroll" role="region" tabindex="0" aria-label="{name}"><table>'
    if table.caption:
        yield f"<caption>{_words(table.caption)}</caption>"
    heads = zip(table.align, table.columns, strict=True)
    yield (
        "<thead><tr>"
        + "".join(f'<th class="{a}" scope="col">{_words(c)}</th>' for a, c in heads)
        + "</tr></thead>"
    )
    yield "<tbody>"
    for row in table.rows:
        cells = zip(table.align[1:], row[1:], strict=False)
        rest = "".join(f'<td class="{align}">{_words(cell)}</td>' for align, cell in cells)
        yield f'<tr><th class="{table.align[0]}" scope="row">{_words(row[0])}</th>{rest}</tr>'
    yield "</tbody></table></div>"


def _figure(figure: Figure, book: Book) -> Iterator[str]:
    """A figure as a picture inside the page."""
    drawn = svg(figure.drawing, figure.scale, book.units, face=f"{FACE}, sans-serif").encode()
    words = _words(figure.caption or figure.drawing.name)
    data = base64.b64encode(drawn).decode()
    yield f'<figure tabindex="0"><img alt="{words}" src="data:image/svg+xml;base64,{data}">'
    yield f"<figcaption>{words}</figcaption></figure>"
