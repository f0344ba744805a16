"""The name of the shop file in a project: a project may come from anyone, so it names a file of its own folder only."""

from pathlib import PurePath

from finishcalc.intake.reading import is_same_file, leads_out

BESIDE = 'put the shop file beside the project or below it: shop = "my-studio.toml"'


def name_refused(named: str, folder: PurePath, project: str) -> tuple[str, str] | None:
    """The mistake in a shop file's name, and its mend; None for a name that lies in the project's `folder` or below,
    wherever its links lead. `project` is the name of the project file itself."""
    path = PurePath(named)
    if not named.strip() or not path.parts:
        return "names no file", 'write shop = "my-studio.toml", or leave it out for the sample shop'
    if path.anchor or ".." in path.parts:
        return "lies outside the project's folder", BESIDE
    if leads_out(folder, named):
        return "is a link that leads out of the project's folder", "put a copy of the shop file in its place"
    if is_same_file(str(folder / named), project):
        return "names the project file itself", 'name the file that holds the shop: shop = "my-studio.toml"'
    return None
