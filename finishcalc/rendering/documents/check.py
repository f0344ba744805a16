"""The JSON document of reviews: every file with its problems, or with what its quote rests on."""

from collections.abc import Iterable

from finishcalc.pipeline import Finishing
from finishcalc.rendering.documents.writing import Record, UnitWriter, caution_records, safe_json
from finishcalc.rendering.writing import notation_of
from finishcalc.reviewing.review import Review
from finishcalc.reviewing.sensitivity import Influence, Tried
from finishcalc.wording.notation import plain_blanks


def check_json(reviews: Iterable[Review]) -> str:
    """Write one JSON document of all files."""
    return safe_json({"files": [_record(review) for review in reviews]})


def _record(review: Review) -> Record:
    problems = [
        problem._replace(message=plain_blanks(problem.message), hint=plain_blanks(problem.hint))._asdict()
        for problem in review.problems
    ]
    found = _found(review, review.result) if review.result else {}
    yours = [{"key": each.key, "value": each.value, "line": each.line} for each in review.yours]
    return {"file": review.file, "problems": problems, **found, "shop": review.shop, "yours": yours}


def _found(review: Review, result: Finishing) -> Record:
    write = UnitWriter(notation_of(result))
    return {
        "currency": result.quote.currency.code,
        "total": str(result.quote.total),
        "cautions": caution_records(result.cautions, "studio", write.notation),
        "sample_rates": [_influence(each) for each in review.samples],
        "defaults": [_influence(each) for each in review.defaults],
        "to_measure": [
            {"what": write.sentence(each.what), "key": each.key, "why": write.sentence(each.why)}
            for each in review.to_measure
        ],
    }


def _influence(each: Influence) -> Record:
    return {"key": each.key, "value": each.value, "more": _tried(each.more), "less": _tried(each.less)}


def _tried(tried: Tried | None) -> Record | None:
    """Write the value that was tried, with the total and what it adds; null for one that there cannot be."""
    return {"value": tried.value, "total": str(tried.total), "adds": str(tried.adds)} if tried else None
