"""The views of a result. Each works out once the alternatives that its reader is to see, and rendering writes both."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from finishcalc.alternatives import alternatives_of, in_house, profit_of, samples_of
from finishcalc.intake.changes.settings import Trial
from finishcalc.pipeline import Finishing
from finishcalc.wording.sentence import Audience

if TYPE_CHECKING:
    from finishcalc.rendering.compare import Compared, Format
    from finishcalc.rendering.writing import Contents
    from finishcalc.reviewing.review import Review


def quote_text(
    result: Finishing, reader: Audience, explain: bool = False, width: int = 80, *, defaults: bool = False
) -> str:
    """Give a quote as text, with the arithmetic and the list of defaults where they are asked for."""
    from finishcalc.rendering.pages.quote import quote_page
    from finishcalc.rendering.writers.text import page_text

    house = in_house(result) if reader == "studio" else None
    return page_text(quote_page(result, alternatives_of(result), house, explain, sources=defaults), width)


def cut_text(result: Finishing, width: int = 80) -> str:
    """Give the cut list as text."""
    return cut_texts([result], width)


def cut_texts(results: Iterable[Finishing], width: int = 80) -> str:
    """Give several cut lists as text, one after another."""
    from finishcalc.rendering.pages.cut import cut_page
    from finishcalc.rendering.writers.text import pages_text

    return pages_text(map(cut_page, results), width)


def quote_document(result: Finishing, reader: Audience = "studio") -> str:
    """Give the JSON document of a quote."""
    from finishcalc.rendering.documents.quote import quote_json

    return quote_json(result, alternatives_of(result), in_house(result) if reader == "studio" else None)


def choices_text(tried: list[tuple[Trial, Finishing]], reader: Audience, width: int) -> str:
    """Give several choices side by side as text."""
    from finishcalc.rendering.pages.choices import choices_page
    from finishcalc.rendering.writers.text import page_text

    profits = [profit_of(result) for _, result in tried] if reader == "studio" else []
    return page_text(choices_page(tried, profits), width)


def choices_document(tried: list[tuple[Trial, Finishing]], reader: Audience) -> str:
    """Give the JSON document of several choices."""
    from finishcalc.rendering.pages.choices import choices_json

    alternatives = [(alternatives_of(result), in_house(result) if reader == "studio" else None) for _, result in tried]
    return choices_json(tried, alternatives, reader)


def comparison_view(result: "Compared", form: "Format", contents: "Contents", width: int) -> str:
    """Give a comparison of sizes or of cloths, or a size chart, in the format that is asked for; only the studio's JSON
    names samples."""
    from finishcalc.rendering.compare import compared, rows_of

    names_samples = form == "json" and contents.reader == "studio" and contents.prices
    samples = [samples_of(row.result) if names_samples else frozenset() for row in rows_of(result)]
    return compared(result, form, contents, width, samples)


def schema_text(name: str) -> str:
    """Give a schema as a JSON document."""
    from finishcalc.intake.presets import SYSTEMS, key_sentences, names
    from finishcalc.model.files import MATERIALS
    from finishcalc.rendering.schemas.files import Words
    from finishcalc.rendering.schemas.known import schema_json

    presets = {kind: names(kind, next(iter(SYSTEMS))) for kind in MATERIALS}
    return schema_json(name, Words(key_sentences(), presets))


def check_view(reviews: "list[Review]", as_json: bool, width: int) -> str:
    """Give the reviews of files as text, one after another, or as one JSON document."""
    if as_json:
        from finishcalc.rendering.documents.check import check_json

        return check_json(reviews)
    from finishcalc.rendering.pages.check import check_page
    from finishcalc.rendering.writers.text import pages_text

    return pages_text(map(check_page, reviews), width)
