"""The command line: arguments in, text out, exit codes. No arithmetic.

Exit codes: 0 for a result, 1 for problems with a file or with writing, 2 for arguments that cannot be used; 130 after
Ctrl-C, 143 after SIGTERM and 129 after SIGHUP, which `__main__` answers.
"""

from typing import TYPE_CHECKING, Annotated

import typer

from finishcalc.commandline.buy import buy
from finishcalc.commandline.check import check
from finishcalc.commandline.counter import counter
from finishcalc.commandline.helping import Command, Group
from finishcalc.commandline.new import new, new_shop
from finishcalc.commandline.options import (
    ClothsOption,
    ComparePdf,
    CutPdf,
    ForceOption,
    HtmlOption,
    JsonOption,
    MarkdownOption,
    ProjectFile,
    ProjectFiles,
    ProjectsOption,
    QuotePdf,
    ReaderOption,
    SetOption,
    ShopFile,
    SizesOption,
    SvgOption,
    folders_of,
    reader_of,
    refuse_without,
    trial_of,
    trials_of,
)
from finishcalc.commandline.outputs import deliver, output_of
from finishcalc.commandline.presets import presets
from finishcalc.commandline.schema import schema
from finishcalc.commandline.tally import tally
from finishcalc.commandline.terminal import report_problems, width, write
from finishcalc.problems import Problem, ProblemCode, ProblemsFound

if TYPE_CHECKING:
    from finishcalc.commandline.files import FilesIn
    from finishcalc.commandline.outputs import Output
    from finishcalc.commandline.views import More
    from finishcalc.comparing.design import Design
    from finishcalc.intake.changes.settings import Trial
    from finishcalc.pipeline import Finishing
    from finishcalc.rendering.compare import Compared, Format
    from finishcalc.wording.sentence import Audience

app = typer.Typer(
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    invoke_without_command=True,
    cls=Group,
)


def _show_version(switched_on: bool) -> None:
    if switched_on:
        from finishcalc import __version__

        typer.echo(__version__)
        raise typer.Exit


@app.callback()
def _finishcalc(
    context: typer.Context,
    version: Annotated[
        bool, typer.Option("--version", callback=_show_version, is_eager=True, help="Print the version and stop.")
    ] = False,
) -> None:
    """Work out the cost to finish a quilt top: backing, batting, binding, quilting time and price.

    \b
    Example:
      finishcalc quote quilt.toml
    """
    if context.invoked_subcommand is None:
        from finishcalc.commandline.home import first_steps

        write(
            first_steps([command.callback.__name__ for command in app.registered_commands if command.callback], width())
        )


@app.command(cls=Command)
def quote(
    file: ProjectFile,
    reader: ReaderOption = None,
    explain: Annotated[bool, typer.Option("--explain", help="Add each figure's arithmetic.")] = False,
    defaults: Annotated[
        bool, typer.Option("--defaults", help="Add the source of each figure that the project file does not give.")
    ] = False,
    as_json: JsonOption = False,
    as_markdown: MarkdownOption = False,
    html: HtmlOption = None,
    pdf: QuotePdf = None,
    settings: SetOption = None,
    svg: SvgOption = None,
    force: ForceOption = False,
    shop: ShopFile = None,
) -> None:
    """Say what it takes to finish a top, and what it costs.

    With --set a value is tried; a key that is given several times makes a column for each.

    \b
    Example:
      finishcalc quote quilt.toml
    """
    from finishcalc.commandline.views import More
    from finishcalc.pipeline import try_file

    output = output_of(json=as_json, markdown=as_markdown, html=html, pdf=pdf)
    trials = trials_of(settings)
    _refuse_more({"--explain": explain, "--defaults": defaults}, output, len(trials))
    try:
        results = try_file(file, shop, trials)
        pictures = [(svg, _quilting_pictures(results))] if svg else []
        more = More(explain, defaults)
        content = _quote_output(trials, results, reader_of(reader, as_json), more, output.form)
        deliver(output, content, [result.resolved for result in results], pictures, force)
    except ProblemsFound as error:
        report_problems(error, output.as_json)
        raise typer.Exit(1) from None


def _refuse_more(asked: dict[str, bool], output: "Output", choices: int) -> None:
    """Refuse what only the page of one quote has besides. Raises BadParameter."""
    for option, is_asked in asked.items():
        if is_asked and choices > 1:
            raise typer.BadParameter("it is shown for one choice at a time", param_hint=option)
    output.refuse(asked)


def _quote_output(
    trials: "list[Trial]", results: "list[Finishing]", reader: "Audience", more: "More", form: "Format"
) -> str | bytes:
    """Give the page or the document of one quote, or of several choices side by side."""
    from finishcalc.commandline.views import choices_view, quote_view

    if len(results) == 1:
        return quote_view(results[0], reader, form, width(), more)
    return choices_view(list(zip(trials, results, strict=True)), reader, form, width())


def _quilting_pictures(results: "list[Finishing]") -> dict[str, str]:
    from finishcalc.rendering.pictures.passes import passes_files
    from finishcalc.rendering.writing import notation_of

    if len(results) > 1:
        raise typer.BadParameter("pictures show one choice at a time", param_hint="--svg")
    (result,) = results
    files = passes_files(result.plans, notation_of(result))
    if not files:
        hint = "nothing was written: choose a method that goes on the frame, or leave --svg out"
        message = "only a quilt on the frame has passes to draw"
        raise ProblemsFound([Problem(ProblemCode.NO_PASSES_TO_DRAW, "--svg", 0, 0, "", message, hint)])
    return files


@app.command(cls=Command)
def cut(
    files: ProjectFiles,
    as_markdown: MarkdownOption = False,
    html: HtmlOption = None,
    pdf: CutPdf = None,
    svg: SvgOption = None,
    force: ForceOption = False,
    settings: SetOption = None,
    shop: ShopFile = None,
) -> None:
    """List what to cut, in order, and draw each cloth with its pieces and the backing with its seams.

    Of several files the lists follow each other, and each has a folder for its pictures.

    \b
    Example:
      finishcalc cut quilt.toml
    """
    from finishcalc.commandline.views import cut_view
    from finishcalc.pipeline import finish_files
    from finishcalc.rendering.pages.cut import picture_files

    output = output_of(markdown=as_markdown, html=html, pdf=pdf)
    trial = trial_of(settings)
    try:
        results = finish_files(files, shop, trial.change)
        folders = folders_of(files, svg) if svg else []
        pictures = [(to, picture_files(result)) for to, result in zip(folders, results, strict=False)]
        content = cut_view(results, output.form, width())
        deliver(output, content, [result.resolved for result in results], pictures, force)
    except ProblemsFound as error:
        report_problems(error, output.as_json)
        raise typer.Exit(1) from None


@app.command(cls=Command)
def compare(
    file: ProjectFile,
    sizes: SizesOption,
    grid: Annotated[bool, typer.Option("--grid", help="Cloths for the backing: a column for each.")] = False,
    cloths: ClothsOption = None,
    chart: Annotated[
        bool, typer.Option("--chart", help="The size chart of a pattern: a column for each size.")
    ] = False,
    cuts: Annotated[bool, typer.Option("--cuts", help="The cuts of each cloth below the size chart.")] = False,
    both_units: Annotated[
        bool, typer.Option("--both-units", help="Yards and metres side by side in the size chart.")
    ] = False,
    no_prices: Annotated[bool, typer.Option("--no-prices", help="Leave out every price and total.")] = False,
    keep_borders: Annotated[
        bool, typer.Option("--keep-borders", help="Keep the last border at its designed width.")
    ] = False,
    reader: ReaderOption = None,
    as_json: JsonOption = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="Rows for a spreadsheet, instead of text.")] = False,
    as_markdown: MarkdownOption = False,
    html: HtmlOption = None,
    pdf: ComparePdf = None,
    svg: SvgOption = None,
    projects: ProjectsOption = None,
    force: ForceOption = False,
    settings: SetOption = None,
    shop: ShopFile = None,
) -> None:
    """Compare a top in several sizes, row by row; a pieced design is refitted to each.

    \b
    Example:
      finishcalc compare quilt.toml --as twin --as "round 70"
    """
    output = output_of(json=as_json, csv=as_csv, markdown=as_markdown, html=html, pdf=pdf)
    refuse_without("--grid", grid, {"--cloth": bool(cloths)})
    refuse_without("--chart", chart, {"--cuts": cuts, "--both-units": both_units})
    if grid and chart:
        raise typer.BadParameter("give one of --grid and --chart")
    trial = trial_of(settings)
    if projects and trial.change.shop_puts:
        raise typer.BadParameter("a value of the shop cannot be saved in a project", param_hint="--set")
    from finishcalc.commandline.views import comparison_view
    from finishcalc.comparing.design import Design
    from finishcalc.rendering.writing import Contents

    contents = Contents(reader_of(reader, as_json), not no_prices, both_units, cuts)
    try:
        design = Design.of_file(file, shop, widen=not keep_borders, tried=trial.change)
        result = _compared(design, sizes, cloths, grid, chart)
        content = comparison_view(result, output.form, contents, width())
        folders, shared = _comparison_files(result, design, svg, projects)
        deliver(output, content, [design.unchanged], folders, force, shared)
    except ProblemsFound as error:
        report_problems(error, output.as_json)
        raise typer.Exit(1) from None


def _compared(design: "Design", sizes: list[str], cloths: list[str] | None, grid: bool, chart: bool) -> "Compared":
    from finishcalc.comparing.charts import size_chart
    from finishcalc.comparing.cloths import compare_cloths
    from finishcalc.comparing.sizes import compare_sizes

    if grid:
        return compare_cloths(design, sizes, cloths)
    comparison = compare_sizes(design, sizes)
    return size_chart(comparison) if chart else comparison


def _comparison_files(
    result: "Compared", design: "Design", svg: str | None, projects: str | None
) -> "tuple[list[FilesIn], list[FilesIn]]":
    """Give the picture of the sizes, and each size as a project, where asked for; and the shop file that the projects
    name, which may be there already."""
    from finishcalc.comparing.projects import project_files
    from finishcalc.rendering.compare import comparison_of, size_pictures

    folders: list[FilesIn] = [(svg, size_pictures(result))] if svg else []
    if not projects:
        return folders, []
    folders.append((projects, project_files(comparison_of(result), design.own_shop)))
    return folders, [(projects, design.own_shop)]


app.command(cls=Command)(presets)
app.command(cls=Command)(tally)
app.command(cls=Command)(buy)
app.command(cls=Command)(check)
app.command(cls=Command)(counter)
app.command(cls=Command)(schema)
app.command(cls=Command)(new)
app.command("new-shop", cls=Command)(new_shop)
