"""The table of the document's keys: the writers write its rows, all of them, in their order, and nothing else."""

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator, FormatChecker

from finishcalc.commandline.views import quote_document
from finishcalc.rendering.documents.keys import Keys, Row
from finishcalc.rendering.documents.keys_of_quote import CUSTOMER_ALONE, RESULT
from finishcalc.wording.sentence import Audience
from tests.builders import GOLDEN, PROJECTS, finished, quoted, run
from tests.schemas import schema_files

pytestmark = pytest.mark.slow

READERS: tuple[Audience, ...] = ("customer", "studio")
QUOTED = [*PROJECTS, *(path for path in sorted(GOLDEN.glob("*.toml")) if ".shop." not in path.name)]
FRAMED = "[top.blocks]\nacross = 2\ndown = 2\ninner = 9\n[top.piecing]\nfabric = 'cotton-44'\n"
MORE = {
    "a sewn backing": "[top]\nwidth = 60\nlength = 80\n[backing]\nsewn = { width = 64, length = 88 }\n",
    "cloth that is short": "[top]\nwidth = 60\nlength = 80\n[backing]\nhave = '2 yd'\n",
    "battings joined": "[top]\nwidth = 60\nlength = 80\n[batting]\n"
    "have = [{ width = 72, length = 45 }, { width = 72, length = 50 }]\n",
    "batting that is short": "[top]\nwidth = 60\nlength = 80\n[batting]\nhave = { width = 40, length = 90 }\n",
    "a bound oval": "[top]\nshape = 'oval'\nwidth = 60\nlength = 80\n",
    "a hem": "[top]\nwidth = 60\nlength = 80\n[binding]\nattach = 'hem'\n",
    "an offcut": "[top]\nwidth = 40\nlength = 50\n[binding]\noffcut = { width = 20, length = 30 }\n",
    "cloth at hand": f"{FRAMED}[[top.borders]]\ncut = 4\nfabric = {{ preset = 'cotton-44', have = ['1 yd'] }}\n",
    "patches": "[top.blocks]\nacross = 3\ndown = 4\nsize = 12\n[[top.blocks.patches]]\nnumber = 8\nwidth = '3 7/8'\n"
    "triangles = 'once'\nfabric = 'cotton-44'\n[top.sashing]\nwidth = 2\ncornerstones = true\n"
    "[[top.borders]]\ncut = 4\ncorners = 'cornerstones'\n[charges]\nextras = ['label', 'sleeve']\n",
    "on a bed": "[top.covers]\nbed = 'queen'\ndrop = 12\n",
    "on a table": "[top.covers]\ntable = 'trestle-6ft'\ndrop = 10\n",
    "nothing but a top": "[top]\nwidth = 60\nlength = 80\n[backing]\nfabric = 'none'\n[batting]\nproduct = 'none'\n"
    "[binding]\nattach = 'none'\n",
    "due soon": "[top]\nwidth = 60\nlength = 80\n[job]\ndate = 2026-07-06\ndue = 2026-07-08\n",
    "in parts": f"{FRAMED}[[quilting.areas]]\nstyle = 'custom'\nshare = '40 %'\n",
    "bound from a square": "units = 'cm'\n[top]\nwidth = 282\nlength = 479\n"
    "[binding]\ncut = 'bias'\nstrip_width = '2 1/2 in'\n",
}
"""Projects that have what no sample has."""


@cache
def documents() -> list[tuple[str, Audience, Any]]:
    """Every document: its name, its reader, and what is in it."""
    results = [(path.name, finished(path)) for path in QUOTED]
    results += [(name, quoted(text)) for name, text in MORE.items()]
    return [
        (name, reader, json.loads(quote_document(result, reader))) for name, result in results for reader in READERS
    ]


@cache
def validator() -> Draft202012Validator:
    return Draft202012Validator(json.loads(schema_files()["result.schema.json"]), format_checker=FormatChecker())


def rows_of(keys: Keys, reader: Audience) -> Keys:
    return {key: row for key, row in keys.items() if reader == "studio" or not row.studio}


def pairs(row: Row, value: Any, at: str) -> Iterator[tuple[Keys, Any, str]]:
    """Each table in a value with the rows that it is to have, and its path."""
    if value is None:
        return
    inner = [value] if row.kind == "table" else value if row.kind == "list" else list(value.values())
    for each in inner:
        if row.keys is not None:
            yield row.keys, each, at
        elif row.item and row.item.kind == "list":
            yield from pairs(row.item, each, at)


def walked(keys: Keys, record: Any, at: str = "") -> Iterator[tuple[Keys, Any, str]]:
    """Every table of a document, with its rows."""
    yield keys, record, at
    for key, row in keys.items():
        if row.kind in ("table", "list", "by name") and key in record:
            for inner_keys, inner, path in pairs(row, record[key], f"{at}.{key}"):
                yield from walked(inner_keys, inner, path)


def table_for(reader: Audience) -> Keys:
    return RESULT if reader == "studio" else {**RESULT, **CUSTOMER_ALONE}


def test_every_document_is_taken_by_the_schema():
    wrong = [
        (name, reader, list(error.absolute_path), error.message[:200])
        for name, reader, document in documents()
        for error in validator().iter_errors(document)
    ]
    assert wrong == []


def test_every_document_has_the_rows_of_the_table_in_their_order():
    for name, reader, document in documents():
        for keys, record, at in walked(table_for(reader), document):
            assert list(record) == list(rows_of(keys, reader)), (name, reader, at)


def test_no_row_of_the_table_is_left_that_no_document_has():
    """Each row has a value somewhere that is not null, and is null only where the table says so."""
    given: set[str] = set()
    null: set[str] = set()
    known: set[str] = set()
    may_be_null: set[str] = set()
    for _, reader, document in documents():
        for keys, record, at in walked(table_for(reader), document):
            for key in rows_of(keys, reader):
                (null if record[key] is None else given).add(f"{at}.{key}")
    for path, row in all_rows(RESULT):
        known.add(path)
        may_be_null |= {path} if row.null else set()
    assert known - given == set()
    assert null <= may_be_null


def all_rows(keys: Keys, at: str = "") -> Iterator[tuple[str, Row]]:
    for key, row in keys.items():
        yield f"{at}.{key}", row
        if row.keys:
            yield from all_rows(row.keys, f"{at}.{key}")
        elif row.item and row.item.keys:
            yield from all_rows(row.item.keys, f"{at}.{key}")


def test_the_studio_s_rows_are_not_the_customer_s():
    """A customer's document with a cost in it is none, and neither is a studio's without."""
    customer = next(document for _, reader, document in documents() if reader == "customer")
    studio = next(document for _, reader, document in documents() if reader == "studio")
    assert not validator().is_valid({**customer, "samples": []})
    assert not validator().is_valid({key: value for key, value in studio.items() if key != "samples"})
    assert not validator().is_valid({**studio, "for": "customer"})


@pytest.mark.parametrize("path", [path for path, _ in all_rows(RESULT)][::7])
def test_a_row_s_sentence_is_one(path: str):
    row = dict(all_rows(RESULT))[path]
    assert row.sentence[0].isupper() or row.sentence[0].isdigit()
    assert row.sentence.endswith(".")


def test_a_description_says_the_unit_and_when_it_is_null():
    """The drop at the foot is a length that a table has not."""
    schema: Any = validator().schema
    covers = schema["$defs"]["customer"]["properties"]["top"]["properties"]["covers"]["properties"]
    assert covers["foot_drop"]["description"] == "The drop at the foot. In the document's `units`. Null for a table."
    assert covers["foot_drop"]["type"] == ["number", "null"]


def test_the_command_prints_the_schema_of_a_result():
    assert run("schema", "result").stdout == schema_files()["result.schema.json"]


def test_the_samples_are_among_the_documents():
    assert {Path(name).name for name, *_ in documents()} >= {path.name for path in PROJECTS}
