"""The command `buy`: one shopping list over any number of projects."""

from typing import Annotated

import typer

from finishcalc.commandline import completing
from finishcalc.commandline.options import ForceOption, MarkdownOption, SetOption, ShopFile, out_file, trial_of
from finishcalc.commandline.outputs import STANDARD_OUTPUT, output_of
from finishcalc.commandline.tally import units

BuyFiles = Annotated[
    list[str],
    typer.Argument(
        metavar="FILE...",
        autocompletion=completing.toml_files,
        help="The project files, or folders of them: of a folder every project directly in it; - reads standard input.",
    ),
]


def left_file(value: str) -> str:
    """Check the name of a file for what is left. Raises BadParameter."""
    if value in STANDARD_OUTPUT:
        raise typer.BadParameter("standard output has the list: name a file, as in --write-left left.toml")
    return out_file(value)


def buy(
    files: BuyFiles,
    no_prices: Annotated[bool, typer.Option("--no-prices", help="Leave out every price and sum.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="One JSON document instead of text.")] = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="A line an entry for a spreadsheet, instead of text.")] = False,
    as_markdown: MarkdownOption = False,
    html: Annotated[
        str | None,
        typer.Option(
            "--html",
            metavar="OUT",
            parser=out_file,
            help="The page for a telephone, with boxes to tick that it remembers, as in --html shopping.html; - is "
            "standard output.",
        ),
    ] = None,
    pdf: Annotated[
        str | None,
        typer.Option(
            "--pdf",
            metavar="OUT",
            parser=out_file,
            help="The sheet to print, as in --pdf shopping.pdf; - is standard output.",
        ),
    ] = None,
    on_hand: Annotated[
        list[str] | None,
        typer.Option(
            "--on-hand",
            metavar="SHELF",
            autocompletion=completing.toml_files,
            help="A file of cloth and batting on hand, which are used before anything is bought, as in --on-hand "
            "shelf.toml; several may be given.",
        ),
    ] = None,
    write_left: Annotated[
        str | None,
        typer.Option(
            "--write-left",
            metavar="LEFT",
            parser=left_file,
            help="Also write what is on hand afterwards to this file, as in --write-left left.toml.",
        ),
    ] = None,
    in_units: Annotated[
        str | None,
        typer.Option(
            "--units",
            metavar="UNITS",
            parser=units,
            help="The units of sizes, in or cm, as in --units cm; else those of the first project.",
        ),
    ] = None,
    force: ForceOption = False,
    settings: SetOption = None,
    shop: ShopFile = None,
) -> None:
    """List what to buy for one project or many: cloth, batting, thread and what they cost.

    The pieces of several projects are cut from one length of a cloth where that saves, never more than the projects
    would buy alone. What customers bring is listed apart.

    \b
    Example:
      finishcalc buy quilt.toml --html shopping.html
    """
    output = output_of(json=as_json, csv=as_csv, markdown=as_markdown, html=html, pdf=pdf)
    trial = trial_of(settings)
    from finishcalc.commandline.shopping import Asked, buy_for

    buy_for(Asked(files, output, trial, shop, tuple(on_hand or ()), write_left, in_units, not no_prices, force))
