"""The command that prints the schema of a file."""

from typing import Annotated

import typer

from finishcalc.commandline.terminal import write


def _known(value: str) -> str:
    """Check the name of a schema. Raises BadParameter."""
    from finishcalc.rendering.schemas.known import SCHEMAS
    from finishcalc.wording.words import in_words

    if value not in SCHEMAS:
        raise typer.BadParameter(f'"{value}" is none of them: use {in_words([*SCHEMAS], "or")}')
    return value


def schema(
    of: Annotated[
        str,
        typer.Argument(
            metavar="WHICH",
            parser=_known,
            help="The file, project or shop; or the document, result of quote --json or shopping of buy --json.",
        ),
    ],
) -> None:
    """Print the schema of a file, by which an editor knows its keys while you write.

    Save it beside your files, and begin them with the line "#:schema ./project.schema.json", or shop.schema.json.

    \b
    Example:
      finishcalc schema project
    """
    from finishcalc.commandline.views import schema_text

    write(schema_text(of))
