"""`finishcalc new` and `finishcalc new-shop`: questions whose answers become a file, and for a project its quote."""

from collections.abc import Callable, Sequence
from inspect import Parameter, Signature
from typing import TYPE_CHECKING, Annotated, Any

import typer

from finishcalc.commandline import completing
from finishcalc.commandline.options import ForceOption, ShopFile
from finishcalc.commandline.terminal import width
from finishcalc.intake.questions import project, shop
from finishcalc.intake.questions.question import Kind, Question

if TYPE_CHECKING:
    from finishcalc.commandline.interviewing import LastPage
    from finishcalc.intake.questions.interview import Interview

METAVARS: dict[Kind, str] = {
    "size": "WIDTH",
    "length": "LENGTH",
    "preset": "NAME",
    "parts": "PARTS",
    "line": "WORDS",
    "lines": "WORDS",
    "flag": "ANSWER",
    "choice": "WORD",
    "currency": "CODE",
    "price": "PRICE",
    "rate": "PRICE",
    "share": "PERCENT",
    "tax": "PERCENT",
    "cloth price": "PRICE",
}
"""The sort of value of an option, by the sort of answer."""
AsOption = Annotated[
    str | None,
    typer.Option(
        "--as",
        metavar="SIZE",
        autocompletion=completing.sizes,
        help='Size of the top, or the bed or table that it covers, as in --as queen or --as "table 36x72 drop 10".',
    ),
]


# --- the commands ------------------------------------------------------------------------------------------------


def _new(file: str, shop: str | None, force: bool, **answers: str | None) -> None:
    """Ask a few questions and write your first project file, with its quote.

    Options answer questions beforehand. Without a terminal every other question has its default, and only the size has
    to be given.

    \b
    Examples:
      finishcalc new quilt.toml
      finishcalc new quilt.toml --as queen --batting wool
    """
    size = answers.pop("size", None)
    if size is not None and answers["width"] is not None:
        raise typer.BadParameter("the size is given by --width too: give one of them", param_hint="--as")
    answers["width"] = size if size is not None else answers["width"]

    def start() -> "Interview":
        from finishcalc.intake.questions.interview import Interview, project_topic

        return Interview(project_topic(file, shop))

    _hold(file, force, start, answers, _quote, {"width": "--as"} if size is not None else {})


def _new_shop(file: str, force: bool, **answers: str | None) -> None:
    """Ask for your own rates and write your shop file.

    A figure that you leave as it is stays the sample's: the file marks it, and so do quotes. Options answer questions
    beforehand; without a terminal every other question has its default.

    \b
    Examples:
      finishcalc new-shop my-studio.toml
      finishcalc new-shop my-studio.toml --minimum 80
    """

    def start() -> "Interview":
        from finishcalc.intake.questions.interview import Interview, shop_topic

        return Interview(shop_topic(file))

    _hold(file, force, start, answers, _what_is_left)


def _quote(interview: "Interview") -> "LastPage":
    """Give the quote of the new project, as `finishcalc quote` prints it for the customer, and the ways to go on."""
    from finishcalc.commandline.views import More, quote_view
    from finishcalc.pipeline import finish

    result, topic = finish(interview.resolved), interview.topic
    again = f"finishcalc quote {_quoted(topic.file)}"
    if topic.shop and not topic.shop_in_folder:
        again += f" --shop {_quoted(topic.shop)}"
    steps = {again: "the same quote again; --for studio adds hours and earnings"}
    if result.priced_on_samples:
        steps["finishcalc new-shop my-studio.toml"] = "your own rates in place of those marked *"
    return str(quote_view(result, "customer", "text", width(), More())), _steps(steps)


def _what_is_left(interview: "Interview") -> "LastPage":
    """Name the figures that are still the sample's, and the next step."""
    from finishcalc.rendering.pages.questions import paragraph
    from finishcalc.wording.words import in_words

    left = interview.samples_left
    text = paragraph(f"Still the sample's: {in_words(left)}." if left else "All of these figures are yours.", width())
    line = f"finishcalc new quilt.toml --shop {_quoted(interview.topic.file)}"
    return text, _steps({line: "a first quote with these rates"})


def _quoted(file: str) -> str:
    """A file's name as a shell takes it."""
    from shlex import quote

    from finishcalc.wording.plain import plain

    return quote(plain(file))


def _steps(steps: dict[str, str]) -> str:
    """List commands to go on with, each with what comes of it."""
    from finishcalc.rendering.wrapping import wrap

    lines = [
        f"  {line}\n" + "".join(f"      {row}\n" for row in wrap(told, width() - 6)) for line, told in steps.items()
    ]
    return "\nNext:\n" + "".join(lines)


def _hold(
    file: str,
    force: bool,
    start: "Callable[[], Interview]",
    answers: dict[str, str | None],
    last_page: "Callable[[Interview], LastPage]",
    options: dict[str, str] | None = None,
) -> None:
    """Hold an interview with the answers that options give. `options` are those that have another name than their
    question."""
    from finishcalc.commandline.interviewing import Given, hold

    given = {name.replace("_", "-"): text for name, text in answers.items() if text is not None}
    hold(file, force, start, Given(given, options or {}), last_page)


def _command(function: Callable[..., None], name: str, questions: Sequence[Question], more: dict[str, Any]) -> Any:
    """Give the function the options that its questions have, so that each is declared once."""

    def command(**given: Any) -> None:
        function(**given)

    file = Annotated[str, typer.Argument(metavar="FILE", help=f"The file to write, as in {more.pop('example')}.")]
    options = {question.name.replace("-", "_"): _option(question) for question in questions}
    annotations = {"file": file, **more, **options, "force": ForceOption}
    needed = Parameter.empty
    command.__signature__ = Signature(  # type: ignore[attr-defined]
        [
            Parameter(key, Parameter.KEYWORD_ONLY, default=_default(key, needed), annotation=annotation)
            for key, annotation in annotations.items()
        ]
    )
    command.__annotations__ = annotations
    command.__name__, command.__doc__ = name, function.__doc__
    return command


def _default(key: str, needed: Any) -> Any:
    return {"file": needed, "force": False}.get(key)


def _option(question: Question) -> Any:
    text = question.helps or question.comment
    text = text[0].upper() + text[1:]
    told = f"{text}, as in {question.option} {question.example}."
    return Annotated[str | None, typer.Option(question.option, metavar=METAVARS[question.kind], help=told)]


new = _command(_new, "new", project.QUESTIONS, {"example": "quilt.toml", "size": AsOption, "shop": ShopFile})
new_shop = _command(_new_shop, "new-shop", shop.QUESTIONS, {"example": "my-studio.toml"})
