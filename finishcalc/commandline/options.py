"""The options that several commands have, and the readers of their texts."""

from itertools import count
from pathlib import PurePath
from typing import TYPE_CHECKING, Annotated, get_args

import typer

from finishcalc.commandline import completing

if TYPE_CHECKING:
    from finishcalc.intake.changes.settings import Trial
    from finishcalc.wording.sentence import Audience

ProjectFile = Annotated[
    str,
    typer.Argument(
        metavar="FILE",
        autocompletion=completing.toml_files,
        help="The project file, as in quilt.toml; - reads standard input.",
    ),
]
ProjectFiles = Annotated[
    list[str],
    typer.Argument(
        metavar="FILE...",
        autocompletion=completing.toml_files,
        help="The project files, as in quilt.toml table.toml; - reads standard input.",
    ),
]
ShopFile = Annotated[
    str | None,
    typer.Option(
        "--shop",
        metavar="SHOP",
        autocompletion=completing.toml_files,
        help="The shop file, as in --shop studio.toml, before any named elsewhere; none is the sample shop.",
    ),
]


def audience(value: str) -> str:
    """Check the name of a reader. Raises BadParameter."""
    from finishcalc.wording.sentence import Audience

    known = get_args(Audience)
    if value in known:
        return value
    from finishcalc.intake.words import understood

    reader = understood(value, known)
    if not reader:
        raise typer.BadParameter(f'"{value}" is not a reader: use {" or ".join(known)}')
    return reader


def folder(value: str) -> str:
    """Check that a folder has a name. Raises BadParameter."""
    if not value.strip():
        raise typer.BadParameter("it is empty: name a folder")
    return value


def out_file(value: str) -> str:
    """Check that a file to write has a name. Raises BadParameter."""
    if not value.strip():
        raise typer.BadParameter("it is empty: name a file, or - for standard output")
    return value


ReaderOption = Annotated[
    str | None,
    typer.Option(
        "--for",
        metavar="READER",
        parser=audience,
        autocompletion=completing.readers,
        help="The reader, customer or studio, as in --for studio.",
    ),
]
JsonOption = Annotated[
    bool, typer.Option("--json", help="One JSON document instead of text; the studio's unless --for says otherwise.")
]
MarkdownOption = Annotated[
    bool, typer.Option("--markdown", help="Markdown instead of text, to paste into a message or a document.")
]
HtmlOption = Annotated[
    str | None,
    typer.Option(
        "--html",
        metavar="OUT",
        parser=out_file,
        help="The page for a browser or a telephone, as in --html quote.html; - is standard output.",
    ),
]
QuotePdf = Annotated[
    str | None,
    typer.Option(
        "--pdf",
        metavar="OUT",
        parser=out_file,
        help="The customer's sheet to print or send, or with --for studio the work order, as in --pdf quote.pdf; - is "
        "standard output.",
    ),
]
CutPdf = Annotated[
    str | None,
    typer.Option(
        "--pdf",
        metavar="OUT",
        parser=out_file,
        help="The cutting pages for the cutting table, as in --pdf cut.pdf; - is standard output.",
    ),
]
ComparePdf = Annotated[
    str | None,
    typer.Option(
        "--pdf",
        metavar="OUT",
        parser=out_file,
        help="The comparison or the size chart for the wall or a pattern, as in --pdf sizes.pdf; - is standard output.",
    ),
]
SvgOption = Annotated[
    str | None,
    typer.Option(
        "--svg",
        metavar="FOLDER",
        parser=folder,
        help="Also write the pictures to this folder, as in --svg pictures.",
    ),
]
ForceOption = Annotated[bool, typer.Option("--force", help="Overwrite existing files.")]
SetOption = Annotated[
    list[str] | None,
    typer.Option("--set", metavar="KEY=VALUE", help="Try a value, as in --set backing.overage=3."),
]
SizesOption = Annotated[
    list[str],
    typer.Option(
        "--as",
        metavar="SIZE",
        autocompletion=completing.sizes,
        help='A size to compare, as in --as queen; also 60x84, "round 70" or "table 36x72 drop 10".',
    ),
]
ClothsOption = Annotated[
    list[str] | None,
    typer.Option(
        "--cloth",
        metavar="FABRIC",
        autocompletion=completing.fabrics,
        help="A cloth to compare, by its preset's name, as in --cloth linen-60.",
    ),
]
ProjectsOption = Annotated[
    str | None,
    typer.Option(
        "--write",
        metavar="FOLDER",
        parser=folder,
        help="Also save each size as a project in this folder, as in --write sizes.",
    ),
]


def reader_of(named: str | None, as_json: bool) -> "Audience":
    """Give the reader that was named; else a document is the studio's and a page is the customer's."""
    return "customer" if named == "customer" or not (named or as_json) else "studio"


def trials_of(settings: list[str] | None) -> "list[Trial]":
    """Read the values to try; without any, the project as it is. Raises BadParameter for a text that is no
    KEY=VALUE."""
    from finishcalc.intake.changes.settings import NotASetting, trials

    try:
        return trials(settings or [])
    except NotASetting as error:
        raise typer.BadParameter(str(error), param_hint="--set") from None


def trial_of(settings: list[str] | None) -> "Trial":
    """Read the values to try, where there can be no columns. Raises BadParameter."""
    trials = trials_of(settings)
    if len(trials) > 1:
        raise typer.BadParameter("each key may be given once here", param_hint="--set")
    return trials[0]


def folders_of(files: list[str], within: str) -> list[str]:
    """Name a folder for what is written of each file: `within` itself for one, and one in it, named for the file, for
    each of several. Files of one name get a number."""
    if len(files) == 1:
        return [within]
    names: list[str] = []
    for file in files:
        stem = "standard-input" if file == "-" else PurePath(file).stem
        numbered = (f"{stem}-{number}" if number > 1 else stem for number in count(1))
        names.append(next(name for name in numbered if name not in names))
    return [str(PurePath(within) / name) for name in names]


def refuse_without(needed: str, switched_on: bool, options: dict[str, bool]) -> None:
    """Refuse options that only say something with another. Raises BadParameter."""
    for option, asked in options.items():
        if asked and not switched_on:
            raise typer.BadParameter(f"it needs {needed}", param_hint=option)
