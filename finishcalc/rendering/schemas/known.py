"""The schemas that there are, by name, written as JSON."""

import json
from collections.abc import Callable

from finishcalc.model.files import ProjectFile, ShopFile
from finishcalc.rendering.schemas.files import Words, file_schema
from finishcalc.rendering.schemas.result import result_schema, shopping_schema
from finishcalc.rendering.schemas.values import Schema

_IDENTIFIER = "urn:finishcalc:schema:{}:1"


def schema_json(name: str, words: Words) -> str:
    """Write a schema as one JSON document that ends with a line feed; `words` describe the keys of files."""
    return json.dumps(SCHEMAS[name](_IDENTIFIER.format(name), words), ensure_ascii=False, indent=1) + "\n"


def _project(identifier: str, words: Words) -> Schema:
    return file_schema(ProjectFile, "Project file of finishcalc", identifier, words)


def _shop(identifier: str, words: Words) -> Schema:
    return file_schema(ShopFile, "Shop file of finishcalc", identifier, words)


def _result(identifier: str, _: Words) -> Schema:
    return result_schema("Quote of finishcalc", identifier)


def _shopping(identifier: str, _: Words) -> Schema:
    return shopping_schema("Shopping list of finishcalc", identifier)


SCHEMAS: dict[str, Callable[[str, Words], Schema]] = {
    "project": _project,
    "shop": _shop,
    "result": _result,
    "shopping": _shopping,
}
"""The schemas, by the names under which they are asked for."""
