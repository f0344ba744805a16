"""The name of the shop file in a project: a project may come from anyone, so it names a file of its own folder only."""

from pathlib import PurePath

from finishcalc.intake.source import is_same_file, leads_out
from finishcalc.problems import ProblemCode

BESIDE = 'put the shop file beside the project or below it: shop = "my-studio.toml"'


def name_refused(named: str, folder: PurePath, project: str) -> tuple[ProblemCode, str, str] | None:
    """The mistake in a shop file's name, with its code and its mend; None for a name that lies in the project's
    `folder` or below, wherever its links lead. `project` is the name of the project file itself."""
    path = PurePath(named)
    if not named.strip() or not path.parts:
        return (
            ProblemCode.NO_FILE_NAMED,
            "names no file",
            'write shop = "my-studio.toml", or leave it out for the sample shop',
        )
    if path.anchor or ".." in path.parts:
        return ProblemCode.SHOP_OUTSIDE_FOLDER, "is outside the project's folder", BESIDE
    if leads_out(folder, named):
        message = "is a link to a file outside the project's folder"
        return ProblemCode.SHOP_OUTSIDE_FOLDER, message, "put a copy of the shop file in its place"
    if is_same_file(str(folder / named), project):
        hint = 'name the file that holds the shop: shop = "my-studio.toml"'
        return ProblemCode.SHOP_IS_THE_PROJECT, "is the project file itself", hint
    return None
