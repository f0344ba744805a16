"""The command line: arguments in, text out, exit codes. No arithmetic.

Exit codes: 0 for a result, 1 for problems with a file, 2 for arguments that cannot be used.
"""

import sys
from typing import TYPE_CHECKING, Annotated, Literal, get_args

import typer

from finishcalc.problems import ProblemsFound

if TYPE_CHECKING:
    from finishcalc.intake.settings import Trial
    from finishcalc.pipeline import Finishing

app = typer.Typer(
    help="What a finished quilt top still costs: backing, batting, binding, quilting time and price.",
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
    no_args_is_help=True,
)

Audience = Literal["customer", "studio"]
Way = Literal["text", "json", "csv", "markdown"]
ProjectFile = Annotated[str, typer.Argument(metavar="FILE", help="The project file; - reads standard input.")]
ShopFile = Annotated[
    str | None,
    typer.Option("--shop", metavar="SHOP", help="The shop file; stands over the one the project names."),
]


def _show_version(asked: bool) -> None:
    if asked:
        from finishcalc import __version__

        typer.echo(__version__)
        raise typer.Exit


@app.callback()
def _finishcalc(
    version: Annotated[
        bool, typer.Option("--version", callback=_show_version, is_eager=True, help="Print the version and stop.")
    ] = False,
) -> None:
    """What a finished quilt top still costs: backing, batting, binding, quilting time and price."""


def _audience(value: str) -> str:
    known = get_args(Audience)
    if value not in known:
        raise typer.BadParameter(f'"{value}" is not a reader: use {" or ".join(known)}')
    return value


def _folder(value: str) -> str:
    if not value.strip():
        raise typer.BadParameter("it is empty: name a folder")
    return value


ReaderOption = Annotated[
    str, typer.Option("--for", metavar="READER", parser=_audience, help="Who reads it: customer or studio.")
]
JsonOption = Annotated[bool, typer.Option("--json", help="One JSON document, the studio's view, instead of text.")]
SvgOption = Annotated[
    str | None,
    typer.Option("--svg", metavar="FOLDER", parser=_folder, help="Also write the pictures there, as SVG."),
]
ForceOption = Annotated[bool, typer.Option("--force", help="Write over files that are there already.")]
SetOption = Annotated[
    list[str] | None,
    typer.Option("--set", metavar="KEY=VALUE", help="Try a value, as in backing.overage=3."),
]


@app.command()
def quote(
    file: ProjectFile,
    audience: Annotated[
        str | None,
        typer.Option("--for", metavar="READER", parser=_audience, help="Who reads it: customer or studio."),
    ] = None,
    explain: Annotated[
        bool, typer.Option("--explain", help="Add each figure's arithmetic, and where each default stands.")
    ] = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="One JSON document instead of text; the studio's unless --for says else.")
    ] = False,
    tried: SetOption = None,
    svg: SvgOption = None,
    force: ForceOption = False,
    shop: ShopFile = None,
) -> None:
    """Say what it takes to finish a top, and what it costs.

    With --set a value is tried; a key that is given several times makes a column for each.

    \b
    Example:
      finishcalc quote presets/projects/boathouse-supper-cloth.toml
    """
    from finishcalc.pipeline import try_file

    trials = _trials(tried)
    try:
        results = try_file(file, shop, trials)
        paths = _quilting_pictures(results, svg, force) if svg else []
    except ProblemsFound as found:
        _tell(found, as_json)
        raise typer.Exit(1) from None
    reader: Audience = "customer" if audience == "customer" or not (audience or as_json) else "studio"
    if len(results) > 1:
        from finishcalc.rendering.choices import choices_json, choices_text

        pairs = list(zip(trials, results, strict=True))
        _print(choices_json(pairs, reader) if as_json else choices_text(pairs, reader, _width()))
    elif as_json:
        from finishcalc.rendering.quote_json import quote_json

        _print(quote_json(results[0], reader))
    else:
        from finishcalc.rendering.quote_text import quote_text

        _print(quote_text(results[0], reader, explain, _width()))
    _print(_told(paths), error=as_json)


def _trials(tried: list[str] | None) -> "list[Trial]":
    """The values to try; without any, the project as it is. A text that is no KEY=VALUE is a usage error."""
    from finishcalc.intake.settings import NotASetting, trials

    try:
        return trials(tried or [])
    except NotASetting as wrong:
        raise typer.BadParameter(str(wrong), param_hint="--set") from None


def _trial(tried: list[str] | None) -> "Trial":
    """The values to try, where there can be no columns."""
    found = _trials(tried)
    if len(found) > 1:
        raise typer.BadParameter("each key may be given once here", param_hint="--set")
    return found[0]


def _quilting_pictures(results: "list[Finishing]", folder: str, force: bool) -> list[str]:
    from finishcalc.files import write_all
    from finishcalc.rendering.passes import passes_files
    from finishcalc.rendering.quote_text import notation_of

    if len(results) > 1:
        raise typer.BadParameter("pictures are of one choice", param_hint="--svg")
    (result,) = results
    return write_all([(folder, passes_files(result.plans, notation_of(result)))], force)


@app.command()
def cut(
    file: ProjectFile,
    svg: SvgOption = None,
    force: ForceOption = False,
    tried: SetOption = None,
    shop: ShopFile = None,
) -> None:
    """List what to cut, in order, and draw the cloth with its pieces and the backing with its seams.

    \b
    Example:
      finishcalc cut presets/projects/boathouse-supper-cloth.toml
    """
    from finishcalc.files import write_all
    from finishcalc.pipeline import finish_file
    from finishcalc.rendering.cut_text import cut_text, picture_files

    trial = _trial(tried)
    try:
        result = finish_file(file, shop, trial.change)
        paths = write_all([(svg, picture_files(result))] if svg else [], force)
    except ProblemsFound as found:
        _tell(found, as_json=False)
        raise typer.Exit(1) from None
    _print(cut_text(result, _width()) + _told(paths))


@app.command()
def compare(
    file: ProjectFile,
    sizes: Annotated[
        list[str],
        typer.Option(
            "--as", metavar="SIZE", help='A size to compare: queen, 60x84, "round 70", "table 36x72 drop 10".'
        ),
    ],
    grid: Annotated[bool, typer.Option("--grid", help="A size chart: a column for each cloth.")] = False,
    cloths: Annotated[
        list[str] | None,
        typer.Option("--cloth", metavar="FABRIC", help="A cloth for the size chart, by its preset's name."),
    ] = None,
    keep_borders: Annotated[
        bool, typer.Option("--keep-borders", help="Leave the last border as wide as it is designed.")
    ] = False,
    audience: ReaderOption = "customer",
    as_json: JsonOption = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="Rows for a spreadsheet, instead of text.")] = False,
    as_markdown: Annotated[bool, typer.Option("--markdown", help="A Markdown table, instead of text.")] = False,
    svg: SvgOption = None,
    write: Annotated[
        str | None,
        typer.Option("--write", metavar="FOLDER", parser=_folder, help="Also save each size as a project there."),
    ] = None,
    force: ForceOption = False,
    tried: SetOption = None,
    shop: ShopFile = None,
) -> None:
    """Compare a top in several sizes, row by row; a pieced design is refitted to each.

    \b
    Example:
      finishcalc compare presets/projects/boathouse-supper-cloth.toml --as twin --as "round 70"
    """
    way = _one_way(json=as_json, csv=as_csv, markdown=as_markdown)
    if cloths and not grid:
        raise typer.BadParameter("it is for a size chart: add --grid", param_hint="--cloth")
    trial = _trial(tried)
    if write and trial.change.shop_puts:
        raise typer.BadParameter("a value of the shop cannot be saved in a project", param_hint="--set")
    from finishcalc.comparing.charts import SizeChart, size_chart
    from finishcalc.comparing.design import Design
    from finishcalc.comparing.projects import projects_of
    from finishcalc.comparing.sizes import compare_sizes
    from finishcalc.files import write_all
    from finishcalc.rendering.compare import compared, size_pictures

    try:
        design = Design(file, shop, widen=not keep_borders, tried=trial.change)
        found = size_chart(design, sizes, cloths) if grid else compare_sizes(design, sizes)
        places = [(svg, size_pictures(found))] if svg else []
        sizes_only = found.comparison if isinstance(found, SizeChart) else found
        places += [(write, projects_of(sizes_only, design.own_shop))] if write else []
        paths = write_all(places, force, [(write, design.own_shop)] if write else [])
    except ProblemsFound as problems:
        _tell(problems, as_json)
        raise typer.Exit(1) from None
    reader: Audience = "studio" if audience == "studio" else "customer"
    _print(compared(found, way, reader, _width()))
    _print(_told(paths), error=way != "text")


def _one_way(**ways: bool) -> Way:
    """The one way of writing the result that was asked for, or text."""
    asked = [way for way, given in ways.items() if given]
    if len(asked) > 1:
        raise typer.BadParameter("give one of " + " and ".join(f"--{way}" for way in asked))
    return asked[0] if asked else "text"  # type: ignore[return-value]


def _told(paths: list[str]) -> str:
    from finishcalc.plain import plain

    return "".join(f"wrote {plain(path)}\n" for path in paths)


def _width() -> int:
    """The terminal's columns, from 40 to 80; 80 where there is no terminal and COLUMNS says nothing."""
    from shutil import get_terminal_size

    return max(min(get_terminal_size((80, 24)).columns, 80), 40)


def _tell(found: ProblemsFound, as_json: bool) -> None:
    from finishcalc.rendering.problems import problems_json, problems_text

    _print(problems_json(found.problems) if as_json else problems_text(found.problems), error=True)


def _print(text: str, error: bool = False) -> None:
    """Write UTF-8 whatever the terminal's locale says, and stop quietly where the reader has gone."""
    stream = sys.stderr if error else sys.stdout
    try:
        stream.buffer.write(text.encode("utf-8", "backslashreplace"))
        stream.buffer.flush()
    except BrokenPipeError:
        sys.stderr.close()
        raise typer.Exit(1) from None
    except OSError as failed:
        if not error:
            _print(f"cannot write the result: {failed.strerror}\n", error=True)
        raise typer.Exit(1) from None
