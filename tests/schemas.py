"""Writes the schemas of files that lie beside the presets: python -m tests.schemas."""

from finishcalc.commandline.views import schema_text
from finishcalc.rendering.schemas.known import SCHEMAS
from tests.builders import PRESETS

FOLDER = PRESETS / "schemas"


def schema_files() -> dict[str, str]:
    """Every schema by the name of its file."""
    return {f"{name}.schema.json": schema_text(name) for name in SCHEMAS}


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for file, text in schema_files().items():
        (FOLDER / file).write_text(text, encoding="utf-8", newline="\n")
