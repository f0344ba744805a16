"""`finishcalc presets`: the kinds, the presets of a kind, or one in full, in the format that is asked for."""

from typing import TYPE_CHECKING, Annotated

import typer

from finishcalc.commandline import completing
from finishcalc.commandline.options import MarkdownOption, ShopFile
from finishcalc.commandline.outputs import deliver, output_of
from finishcalc.commandline.terminal import report_problems, width
from finishcalc.problems import ProblemsFound

if TYPE_CHECKING:
    from finishcalc.rendering.compare import Format


def units_meant(value: str) -> str:
    """Check the units of projects. Raises BadParameter."""
    from finishcalc.intake.words import understood

    units = understood(value, ("in", "cm"))
    if not units:
        raise typer.BadParameter(f'"{value}" is not the unit of a project: use in or cm')
    return units


def _names_of_kind(context: typer.Context, incomplete: str) -> list[str]:
    """Propose the presets of the kind that is named before."""
    return completing.presets_of(context.params.get("kind"), incomplete)


def presets(
    kind: Annotated[
        str | None,
        typer.Argument(
            metavar="KIND",
            autocompletion=completing.kinds,
            help="Fabrics, battings, styles, methods, beds or tables; none lists these.",
        ),
    ] = None,
    name: Annotated[
        str | None,
        typer.Argument(
            metavar="NAME",
            autocompletion=_names_of_kind,
            help="A preset by its name, as in plush-60, to be shown in full; none lists all.",
        ),
    ] = None,
    units: Annotated[
        str | None,
        typer.Option(
            "--units",
            metavar="UNITS",
            parser=units_meant,
            autocompletion=completing.units,
            help="The units of your projects, in or cm, as in --units cm; else those of the shop.",
        ),
    ] = None,
    shop: ShopFile = None,
    as_json: Annotated[bool, typer.Option("--json", help="One JSON document instead of text.")] = False,
    as_markdown: MarkdownOption = False,
) -> None:
    """List the fabrics, battings, styles, methods, beds and tables that a project can name.

    A preset is shown with its figures, where they come from, and lines to paste into a project and change. What your
    own shop file names is listed first.

    \b
    Examples:
      finishcalc presets
      finishcalc presets battings
      finishcalc presets fabrics plush-60
    """
    output = output_of(json=as_json, markdown=as_markdown)
    try:
        deliver(output, _presets_view(kind, name, shop, units, output.form), ())
    except ProblemsFound as error:
        report_problems(error, as_json)
        raise typer.Exit(1) from None


def _presets_view(kind: str | None, name: str | None, shop: str | None, units: str | None, form: "Format") -> str:
    """Give what is asked for: all kinds, one kind, or one preset. Raises ProblemsFound."""
    from finishcalc.commandline.views import written
    from finishcalc.intake.listing import detail, kind_meant, known_presets, listed
    from finishcalc.model.files import MATERIALS
    from finishcalc.rendering.pages import presets as pages

    known = known_presets(shop, units)
    if kind is None:
        counts = {each: len(known.names(each)) for each in MATERIALS}
        if form == "json":
            return pages.kinds_json(counts, known.units)
        page = pages.kinds_page(counts, known.units)
    elif name is None:
        presets = listed(kind_meant(kind), known)
        if form == "json":
            return pages.kind_json(presets, known.units)
        page = pages.kind_page(presets, known.units)
    else:
        found = detail(kind_meant(kind), name, known)
        if form == "json":
            return pages.preset_json(found)
        page = pages.preset_page(found)
    return str(written([page], form, width()))
