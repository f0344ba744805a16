"""The arguments of the command line: options that several commands have, and how their texts are read."""

from typing import TYPE_CHECKING, Annotated, Literal, get_args

import typer

if TYPE_CHECKING:
    from finishcalc.intake.changes.settings import Trial

Audience = Literal["customer", "studio"]
Way = Literal["text", "json", "csv", "markdown"]
ProjectFile = Annotated[str, typer.Argument(metavar="FILE", help="The project file; - reads standard input.")]
ShopFile = Annotated[
    str | None,
    typer.Option("--shop", metavar="SHOP", help="The shop file; overrides the one the project names."),
]


def audience(value: str) -> str:
    """One of the readers. Raises BadParameter."""
    known = get_args(Audience)
    if value not in known:
        raise typer.BadParameter(f'"{value}" is not a reader: use {" or ".join(known)}')
    return value


def folder(value: str) -> str:
    """A folder that has a name. Raises BadParameter."""
    if not value.strip():
        raise typer.BadParameter("it is empty: name a folder")
    return value


ReaderOption = Annotated[
    str | None, typer.Option("--for", metavar="READER", parser=audience, help="The reader: customer or studio.")
]
JsonOption = Annotated[
    bool, typer.Option("--json", help="One JSON document instead of text; the studio's unless --for says otherwise.")
]
SvgOption = Annotated[
    str | None,
    typer.Option("--svg", metavar="FOLDER", parser=folder, help="Also write the pictures to this folder, as SVG."),
]
ForceOption = Annotated[bool, typer.Option("--force", help="Overwrite existing files.")]
SetOption = Annotated[
    list[str] | None,
    typer.Option("--set", metavar="KEY=VALUE", help="Try a value, as in backing.overage=3."),
]


def reader_of(asked: str | None, as_json: bool) -> Audience:
    """Who reads it: whoever was asked for, else the studio a document and the customer a page."""
    return "customer" if asked == "customer" or not (asked or as_json) else "studio"


def trials_of(tried: list[str] | None) -> "list[Trial]":
    """The values to try; without any, the project as it is. Raises BadParameter for what is no KEY=VALUE."""
    from finishcalc.intake.changes.settings import NotASetting, trials

    try:
        return trials(tried or [])
    except NotASetting as wrong:
        raise typer.BadParameter(str(wrong), param_hint="--set") from None


def trial_of(tried: list[str] | None) -> "Trial":
    """The values to try, where there can be no columns. Raises BadParameter."""
    found = trials_of(tried)
    if len(found) > 1:
        raise typer.BadParameter("each key may be given once here", param_hint="--set")
    return found[0]


def one_way(**ways: bool) -> Way:
    """The one way of writing the result that was asked for, or text. Raises BadParameter."""
    asked = [way for way, given in ways.items() if given]
    if len(asked) > 1:
        raise typer.BadParameter("give one of " + " and ".join(f"--{way}" for way in asked))
    return asked[0] if asked else "text"  # type: ignore[return-value]
