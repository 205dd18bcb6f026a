"""The pages of each kind of sheet as HTML; sizes in millimetres and points."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from html import escape

from ...choice.stages.sheet_model import AnsweredItem, AskedItem, CutOutItem, MarkedItem, SheetSet, SheetStill
from ...figure.paper import LINE_HEIGHT
from ...sentences import sheets as words
from ...sentences.published import credit_lines
from ...sentences.sheets import SheetKind
from ...sentences.writers import draft_line
from ...typeface.faces import FAMILY
from .document import Pictures, page_css

__all__ = ["ROW_MM", "body_of", "css_of"]

ROW_MM = {False: 10.0, True: 13.0}  # of the table of answers, and of the strip beside it
_ROWS = {False: 19, True: 13}  # in one column
_SLIPS = {False: 3, True: 2}  # columns of the table of answers on a page
_STRIPS = {False: 5, True: 4}  # strips on a page


def css_of(sheets: SheetSet) -> str:
    """The style of all sheets of a set."""
    printing, imprint = sheets.printing, sheets.imprint
    plain = printing.type_pt
    credit = (*credit_lines(imprint.credit, imprint.licence), draft_line(sheets.language))
    row = ROW_MM[printing.large]
    page = page_css(printing, type_pt=plain if printing.large else 11.0, credit=credit)
    return f"""{page}
html {{ font: {plain}pt/{LINE_HEIGHT} "{FAMILY}"; color: #000; background: #fff }}
@page {{ @top-left {{ content: string(going-on, first-except); vertical-align: bottom; padding-bottom: 3mm;
  font-weight: bold }} }}
h2 {{ string-set: going-on content() }}
body, p, h1, h2, ul, table {{ margin: 0; padding: 0 }}
h1 {{ font-size: {plain * 1.35:.1f}pt; line-height: 1.2; margin-bottom: 3mm; bookmark-level: 1 }}
h2 {{ font-size: {plain * 1.2:.1f}pt; line-height: 1.2; margin-bottom: 2mm; bookmark-level: 2; break-after: avoid }}
p {{ margin-bottom: 2mm }}
img {{ display: block }}
.item {{ break-inside: avoid }}
.page {{ break-before: page }}
.who {{ margin-bottom: {5 if printing.large else 4}mm; padding-top: 2mm }}
.rule {{ display: inline-block; border-bottom: 0.3mm solid #000; height: 1.1em }}
.task {{ margin-bottom: 3mm }}
.ring {{ margin: {4 if printing.large else 3}mm 0 }}
.ring b {{ display: inline-block; width: 2.6em; text-align: center; font-size: {plain * 1.25:.1f}pt }}
.because {{ margin-bottom: 0 }}
.follow {{ margin-top: 4mm }}
.lines {{ border-bottom: 0.3mm solid #000; height: {11 if printing.large else 9}mm; margin: 0 }}
.key {{ font-weight: bold; font-size: {plain * 1.1:.1f}pt }}
.stills {{ margin: 2mm 0 1mm; orphans: 1; widows: 1 }}
.still {{ display: inline-block; break-inside: avoid }}
.still {{ vertical-align: top; width: {(printing.width_mm - 6) / 2:.2f}mm; margin: 0 2mm 3mm 0 }}
.still.wide {{ width: 100% }} .still p {{ padding-right: 5mm }}
.why {{ break-after: avoid }}
.reasons {{ list-style: none; break-inside: avoid }}
.reasons li {{ margin-bottom: 1mm; break-inside: avoid }}
.answered {{ margin-bottom: 9mm }}
{".answered { break-inside: auto } .answered + .answered { break-before: page }" if printing.large else ""}
table {{ border-collapse: collapse }}
.marking {{ width: 100%; table-layout: fixed; margin-bottom: 8mm }}
.marking th, .marking td {{ border: 0.25mm solid #000; padding: 1.4mm 2mm; text-align: left; vertical-align: top }}
.marking .option {{ width: {26 if printing.large else 18}mm; text-align: center }}
.marking .practise {{ width: 42% }}
.columns {{ display: flex; flex-wrap: wrap; gap: 10mm; margin-top: 4mm }}
.slip td, .slip th {{ border: 0.25mm solid #000; height: {row}mm; padding: 0; text-align: center;
  vertical-align: middle; line-height: 1 }}
.slip th {{ width: {16 if printing.large else 13}mm }} .slip td {{ width: {40 if printing.large else 32}mm }}
.strip {{ border: 0.3mm dashed #000 }}
.strip tr {{ border-top: 0.25mm solid #000 }}
.strip th, .strip td {{ border: none; height: {row}mm; padding: 0; width: {14 if printing.large else 11}mm;
  text-align: center; vertical-align: middle; line-height: 1 }}
.strip th {{ font-weight: normal }} .strip td {{ font-weight: bold }}
.line {{ margin-top: 3mm }}
"""


def body_of(sheets: SheetSet, kind: SheetKind, pictures: Pictures) -> str:
    """All pages of one kind of sheet."""
    return _BODIES[kind](sheets, pictures)


def _questions(sheets: SheetSet, pictures: Pictures) -> str:
    title = words.sheet_title(sheets.title, SheetKind.QUESTION, sheets.version)
    pages = [
        _asked(item, pictures, title if number == 0 else "", large=sheets.printing.large)
        for number, item in enumerate(sheets.questions)
    ]
    if len(sheets.questions) > 1:
        pages.append(_answer_slip(sheets))
    return "".join(pages)


def _asked(item: AskedItem, pictures: Pictures, title: str, *, large: bool) -> str:
    top = f"<h1>{escape(title)}</h1>" if title else ""
    letters = "".join(f" <b>{escape(label)}</b>" for label in item.labels)
    # In large print the room goes to the picture.
    because = "" if large else f'<p class="because">{escape(words.because())}</p>' + 2 * '<div class="lines"></div>'
    ring = f'<p class="ring">{escape(words.ring_one())}{letters}</p>{because}'
    if item.options is not None:
        ring = (
            f'<p class="follow">{escape(words.options_follow())}</p></section><section class="item page">{_who()}'
            f"<h2>{escape(words.options_heading(item.heading))}</h2>{pictures.img(item.options)}{ring}"
        )
    return (
        f'<section class="item{"" if title else " page"}">{top}{_who()}<h2>{escape(item.heading)}</h2>'
        f'<p class="task">{escape(" ".join(item.task))}</p>{pictures.img(item.picture)}{ring}</section>'
    )


def _who() -> str:
    return (
        f'<p class="who">{escape(words.name())} <span class="rule" style="width:52%"></span> '
        f'{escape(words.date())} <span class="rule" style="width:22%"></span></p>'
    )


def _answer_slip(sheets: SheetSet) -> str:
    """The table of all answers, which the marking strip is laid beside."""
    head = f'<tr><th scope="col">{escape(words.number())}</th><th scope="col">{escape(words.answer_letter())}</th></tr>'
    top = f"{_who()}<h2>{escape(words.answers_heading())}</h2><p>{escape(words.answers_note())}</p>"
    tables = [
        '<table class="slip">'
        + head
        + "".join(f'<tr><th scope="row">{n}</th><td></td></tr>' for n in part)
        + "</table>"
        for part in _columns(sheets)
    ]
    return "".join(
        f'<section class="page">{top}<div class="columns">{"".join(few)}</div></section>'
        for few in _in_pages(tables, _SLIPS[sheets.printing.large])
    )


def _in_pages(tables: Sequence[str], most: int) -> list[Sequence[str]]:
    """So many tables to a page as stand beside one another."""
    return [tables[start : start + most] for start in range(0, len(tables), most)]


def _columns(sheets: SheetSet) -> list[range]:
    count, rows = len(sheets.keys), _ROWS[sheets.printing.large]
    return [range(start, min(start + rows, count + 1)) for start in range(1, count + 1, rows)]


def _answers(sheets: SheetSet, pictures: Pictures) -> str:
    title = words.sheet_title(sheets.title, SheetKind.ANSWER, sheets.version)
    return f"<h1>{escape(title)}</h1>" + "".join(_answered(item, pictures, sheets) for item in sheets.answers)


def _wide(still: SheetStill, sheets: SheetSet) -> str:
    return " wide" if still.picture.width_mm > sheets.printing.width_mm / 2 else ""


def _answered(item: AnsweredItem, pictures: Pictures, sheets: SheetSet) -> str:
    stills = "".join(
        f'<div class="still{_wide(still, sheets)}">{pictures.img(still.picture)}<p>{escape(still.caption)}</p></div>'
        for still in item.stills
    )
    reasons = "".join(f"<li><b>{escape(label)}</b> {escape(why)}</li>" for label, why in item.reasons)
    return (
        f'<section class="item answered"><h2>{escape(item.heading)}</h2><p class="key">{escape(item.key)}</p>'
        f'<div class="stills">{stills}</div><p class="why">{escape(words.why_not())}</p>'
        f'<ul class="reasons">{reasons}</ul></section>'
    )


def _marking(sheets: SheetSet, _: Pictures) -> str:
    title = words.sheet_title(sheets.title, SheetKind.MARKING, sheets.version)
    return f"<h1>{escape(title)}</h1>" + "".join(_marked(item) for item in sheets.marking) + _strip(sheets)


def _marked(item: MarkedItem) -> str:
    option, did, practise = (escape(text) for text in words.marking_columns())
    head = (
        f'<tr><th scope="col" class="option">{option}</th><th scope="col">{did}</th>'
        f'<th scope="col" class="practise">{practise}</th></tr>'
    )
    rows = "".join(
        f'<tr><th scope="row" class="option">{escape(entry.label)}</th><td>{escape(entry.did)}</td>'
        f"<td>{escape(entry.practise)}</td></tr>"
        for entry in item.entries
    )
    return f'<section class="item"><h2>{escape(item.heading)}</h2><table class="marking">{head}{rows}</table></section>'


def _strip(sheets: SheetSet) -> str:
    """The letters of the key, as far apart as the rows of the table of answers."""
    if len(sheets.keys) < 2:
        return ""
    head = f'<tr><th scope="col">{escape(words.number())}</th><th scope="col">{escape(words.key())}</th></tr>'
    tables = [
        '<table class="strip">'
        + head
        + "".join(f'<tr><th scope="row">{n}</th><td>{escape(sheets.keys[n - 1])}</td></tr>' for n in part)
        + "</table>"
        for part in _columns(sheets)
    ]
    top = f"<h2>{escape(words.strip_heading(sheets.version))}</h2><p>{escape(words.strip_note())}</p>"
    return "".join(
        f'<section class="item">{top}<div class="columns">{"".join(few)}</div></section>'
        for few in _in_pages(tables, _STRIPS[sheets.printing.large])
    )


def _cut_outs(sheets: SheetSet, pictures: Pictures) -> str:
    pages = []
    for number, item in enumerate(sheets.cut_outs):
        pages.append(_cut_out(item, pictures, sheets.cut_outs_title if number == 0 else ""))
    return "".join(pages)


def _cut_out(item: CutOutItem, pictures: Pictures, title: str) -> str:
    top = f"<h1>{escape(title)}</h1>" if title else ""
    parts = []
    for number, page in enumerate(item.pages):
        # The caution stands before anything to cut, on every page.
        heading = f"<h2>{escape(item.heading)}</h2>" if number == 0 else ""
        parts.append(
            f'<section class="item{"" if title and number == 0 else " page"}">{top if number == 0 else ""}{heading}'
            f"<p>{escape(words.caution())}</p><p>{escape(item.keep)}</p><p>{escape(item.scale)}</p>"
            f'<div class="line">{pictures.img(item.line)}</div>{pictures.img(page)}</section>'
        )
    return "".join(parts)


_BODIES: dict[SheetKind, Callable[[SheetSet, Pictures], str]] = {
    SheetKind.QUESTION: _questions,
    SheetKind.ANSWER: _answers,
    SheetKind.MARKING: _marking,
    SheetKind.CUTOUT: _cut_outs,
}
