"""The command that looks a file over before it is quoted."""

from typing import Annotated

import typer

from finishcalc.commandline.options import MarkdownOption, ShopFile
from finishcalc.commandline.outputs import output_of
from finishcalc.commandline.terminal import width, write


def check(
    files: Annotated[
        list[str], typer.Argument(metavar="FILE...", help="The project files, or shop files; - reads standard input.")
    ],
    as_json: Annotated[bool, typer.Option("--json", help="One JSON document instead of text.")] = False,
    as_markdown: MarkdownOption = False,
    shop: ShopFile = None,
) -> None:
    """Look a project over before you quote it: problems, cautions, and the figures to make your own first.

    Each sample rate and each default is tried with a tenth more and a tenth less; the one that moves the total most is
    first. What you would still measure comes after, and the figures of your shop file that are the sample's.

    \b
    Example:
      finishcalc check quilt.toml
    """
    from finishcalc.commandline.views import check_view
    from finishcalc.reviewing.review import review_file

    output = output_of(json=as_json, markdown=as_markdown)
    reviews = [review_file(file, shop) for file in files]
    write(check_view(reviews, output.form, width()))
    if any(review.problems for review in reviews):
        raise typer.Exit(1)
