"""Writes the tables of DEVELOPERS.md that are made from the code: python -m tests.tables."""

from pathlib import Path

from finishcalc.problems import ProblemCode

DEVELOPERS = Path(__file__).parent.parent / "DEVELOPERS.md"
BEGIN, END = "<!-- problem codes: begin -->\n", "<!-- problem codes: end -->\n"


def problem_codes() -> str:
    """Every code with its meaning, in the order they are declared, as a Markdown table."""
    rows = "".join(f"| `{code}` | {code.meaning} |\n" for code in ProblemCode)
    return "| code | meaning |\n|---|---|\n" + rows


def with_tables(text: str) -> str:
    """The document with each table as the code has it. Raises ValueError where its marks are missing."""
    before, rest = text.split(BEGIN)
    _, after = rest.split(END)
    return before + BEGIN + problem_codes() + END + after


if __name__ == "__main__":
    DEVELOPERS.write_text(with_tables(DEVELOPERS.read_text(encoding="utf-8")), encoding="utf-8", newline="\n")
