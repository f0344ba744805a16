"""The command `tally`: a row a project, for the season and for the spreadsheet."""

import re
from typing import Annotated

import typer

from finishcalc.commandline.options import ForceOption, HtmlOption, MarkdownOption, ShopFile, out_file
from finishcalc.commandline.outputs import output_of
from finishcalc.commandline.terminal import report_problems
from finishcalc.problems import ProblemsFound

TallyFiles = Annotated[
    list[str],
    typer.Argument(
        metavar="FILE...",
        help="The project files, or folders of them: of a folder every project directly in it, in name order; - reads "
        "standard input.",
    ),
]
TallyPdf = Annotated[
    str | None,
    typer.Option(
        "--pdf",
        metavar="OUT",
        parser=out_file,
        help="The season on sheets to print, as in --pdf season.pdf; - is standard output.",
    ),
]


def units(value: str) -> str:
    """Check the units of a list. Raises BadParameter."""
    if value not in ("in", "cm"):
        raise typer.BadParameter(f'"{value}" is not a unit of the list: use in or cm')
    return value


def jobs_at_a_time(value: str) -> int:
    """Read the number of projects to be worked on at a time. Raises BadParameter."""
    text = value.strip()
    if not re.fullmatch("[0-9]{1,4}", text) or not int(text):
        raise typer.BadParameter(f'"{value}" is not a number of projects: use a whole number from 1 on')
    return int(text)


def tally(
    files: TallyFiles,
    as_csv: Annotated[bool, typer.Option("--csv", help="A line a project for a spreadsheet, instead of text.")] = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="A JSON document a project, each on a line of its own, instead of text.")
    ] = False,
    as_markdown: MarkdownOption = False,
    html: HtmlOption = None,
    pdf: TallyPdf = None,
    in_units: Annotated[
        str | None,
        typer.Option(
            "--units",
            metavar="UNITS",
            parser=units,
            help="The units of all sizes, as in --units cm; else the first's.",
        ),
    ] = None,
    jobs: Annotated[
        int | None,
        typer.Option(
            "--jobs",
            metavar="N",
            parser=jobs_at_a_time,
            help="So many projects at a time, as in --jobs 2; else one a processor.",
        ),
    ] = None,
    force: ForceOption = False,
    shop: ShopFile = None,
) -> None:
    """List a season: a row a project with size, hours, cost, earnings and total, and the totals of all.

    Cost is what a quilt takes before any wage: materials, what is passed on, and the other costs of its hours. A
    project with problems is left out and told of at the end.

    \b
    Example:
      finishcalc tally quilts --csv
    """
    output = output_of(json=as_json, csv=as_csv, markdown=as_markdown, html=html, pdf=pdf)
    from finishcalc.commandline.season import Asked, tally_files

    try:
        tally_files(Asked(files, output, in_units, jobs, force, shop))
    except ProblemsFound as error:
        report_problems(error, as_json)
        raise typer.Exit(1) from None
