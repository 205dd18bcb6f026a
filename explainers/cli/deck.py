"""`explainers deck`: the slides of a lesson, to edit, to show, or to hand out."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import at_the_door
from .manner_options import PaceOption, ThemeOption, pace_given, theme_given

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers deck items/first-blocks.yaml            a lesson
  explainers deck items/corner-block.yaml --to out/  an item alone
  explainers deck items/                             each in its folder
  explainers deck items/first-blocks.yaml --as html  a page to handle
  explainers deck items/first-blocks.yaml --as pdf   pages to show
  explainers deck items/first-blocks.yaml --as handout --per-page 4
  explainers deck items/first-blocks.yaml --template school.pptx

Makes NAME.pptx, NAME.html, NAME.pdf or NAME.handout.pdf. The page needs nothing beside itself, and
no network. A handout is black and white unless --theme says otherwise."""

OUTPUTS = {"pptx": "deck", "html": "deck-html", "pdf": "deck-pdf", "handout": "handout"}

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def deck(
    paths: Annotated[list[Path], typer.Argument(metavar="PATH", help="Items, lessons, series, or folders of them.")],
    as_: Annotated[
        str, typer.Option("--as", metavar="KIND", help="pptx to edit, html to handle, pdf to show, handout to print.")
    ] = "pptx",
    per_page: Annotated[
        int | None, typer.Option(metavar="N", help="Of a handout: 1, 2 or 4 steps a page (default: 2).")
    ] = None,
    paper: Annotated[
        str | None, typer.Option(metavar="PAPER", help="Of a handout: a4 or letter (default: a4).")
    ] = None,
    to: Annotated[
        Path | None, typer.Option("--to", metavar="FOLDER", help="Where to write; else render_out/NAME.")
    ] = None,
    theme: ThemeOption = None,
    pace: PaceOption = None,
    template: Annotated[
        Path | None,
        typer.Option("--template", metavar="FILE.pptx", help="Of a pptx: lay it on the master of this slide file."),
    ] = None,
    keep_links: Annotated[
        bool,
        typer.Option("--keep-links", help="Of a template: keep the pictures and links that it fetches from elsewhere."),
    ] = False,
    slides: Annotated[
        str | None, typer.Option(metavar="WHICH", help="Of a pptx: every-step or one-per-idea (default: every-step).")
    ] = None,
) -> int:
    """Write slides alone: to edit, to handle, to show, as a handout."""
    from ..errors import OutputError
    from ..sentences.variants import IDEAS, LETTER, PER_PAGE, TEMPLATE, Aspect, template_word
    from .writing import write_each

    if as_ not in OUTPUTS:
        raise OutputError(f"--as {as_}: there is no such deck. To mend it: write pptx, html, pdf or handout")
    look, speed = theme_given(theme), pace_given(pace)
    if as_ == "pptx" and per_page is None and paper is None:
        wished = _of_a_pptx(template, slides, keep_links)
        named = template_word(template.stem) if template is not None else None
        by_hand: dict[Aspect, str | int | bool | None] = {TEMPLATE: named, IDEAS: slides == IDEAS.word}
        return write_each("deck", paths, to, theme=look, pace=speed, by_hand=by_hand, **wished)
    if template is not None or slides is not None:
        raise OutputError(f"--template and --slides go with --as pptx, not with --as {as_}")
    if keep_links:
        raise OutputError("--keep-links goes with --as pptx and a template")
    if as_ != "handout":
        if per_page is not None or paper is not None:
            raise OutputError(f"--per-page and --paper go with --as handout, not with --as {as_}")
        return write_each(OUTPUTS[as_], paths, to, theme=look, pace=speed)
    from ..figure.paper import Paper
    from ..outputs.pdf.handout import DEFAULT_PER_PAGE
    from .printing import paper_called

    count = DEFAULT_PER_PAGE if per_page is None else per_page
    if count not in (1, 2, 4):
        raise OutputError(f"--per-page {count}: a page has room for 1, 2 or 4 steps. To mend it: write one of these")
    printing = paper_called(paper or "a4", large=False)
    few_or_many = count if count != DEFAULT_PER_PAGE else None
    by_hand = {LETTER: printing.paper is Paper.LETTER, PER_PAGE: few_or_many}
    return write_each("handout", paths, to, theme=look, pace=speed, by_hand=by_hand, per_page=count, printing=printing)


def _of_a_pptx(template: Path | None, slides: str | None, keep_links: bool) -> dict[str, object]:
    """What is wished of a pptx, told to be wrong once, before anything is made."""
    from ..outputs.pptx.deck import check_slides
    from ..outputs.pptx.template import check_template

    wished: dict[str, object] = {}
    if slides is not None:
        check_slides(slides)
        wished["slides"] = slides
    if template is not None:
        check_template(template)
        wished["template"] = template
    if keep_links:
        wished["keeps_links"] = True
    return wished
