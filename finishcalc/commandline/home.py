"""The first steps: the page that `finishcalc` alone shows."""

from collections.abc import Collection

FIRST_STEPS = {
    "new": ("finishcalc new quilt.toml", "answers to a few questions become your first project, and its quote"),
    "quote": ("finishcalc quote quilt.toml", "what it takes to finish the top, and what it costs"),
    "presets": ("finishcalc presets", "fabrics, battings and beds to name"),
}
"""The commands to begin with, as far as there are such, each with what comes of it."""


def first_steps(commands: Collection[str], width: int) -> str:
    """Say what to do first, in a few lines."""
    from finishcalc.intake.source import presets_folder
    from finishcalc.rendering.pages.page import Group, Head, Page, Paragraph, Verbatim
    from finishcalc.rendering.wrapping import wrap
    from finishcalc.rendering.writers.text import page_text
    from finishcalc.wording.plain import plain

    samples = plain(str(presets_folder() / "projects"))
    groups: list[Group] = []
    for name, (line, result) in FIRST_STEPS.items():
        if name in commands:
            groups.append((Verbatim((f"  {line}", *(f"      {row}" for row in wrap(result, width - 6)))),))
    groups.append((Paragraph("Samples to try are in"), Verbatim((f"  {samples}",))))
    groups.append((Paragraph("finishcalc --help lists all commands, and finishcalc COMMAND --help explains one."),))
    return page_text(Page(Head("", "What a finished quilt top still costs. To begin:"), tuple(groups)), width)
