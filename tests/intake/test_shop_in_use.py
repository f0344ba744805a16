"""Which shop file counts: --shop, then the project's, then the environment's, then the settings file's."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.builders import TOP, run

SHOPS = {"option": 41, "project": 42, "environment": 43, "settings": 44}
"""A shop for each way to name one; its seam costs another price, by which its quotes are told."""
SAMPLE_SEAM = "20"


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of job folders and shop files, with a folder of settings that is empty."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.delenv("FINISHCALC_SHOP", raising=False)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "config" / "finishcalc").mkdir(parents=True)
    (tmp_path / "job").mkdir()
    for name, price in SHOPS.items():
        folder = tmp_path / "job" if name == "project" else tmp_path
        (folder / f"{name}.toml").write_text(f"[rates]\nseam = {price}\n", encoding="utf-8")
    return tmp_path


def put(home: Path, *named_by: str) -> list[str]:
    """Name the shops of these ways, and give the arguments of the quote."""
    named = 'shop = "project.toml"\n' if "project" in named_by else ""
    (home / "job" / "top.toml").write_text(named + TOP, encoding="utf-8")
    if "settings" in named_by:
        settings(home, f'shop = "{home / "settings.toml"}"')
    return ["quote", "job/top.toml", *(["--shop", "option.toml"] if "option" in named_by else [])]


def settings(home: Path, text: str) -> Path:
    path = home / "config" / "finishcalc" / "settings.toml"
    path.write_text(text + "\n", encoding="utf-8")
    return path


def unbroken(text: str) -> str:
    """A text without blanks and line ends, because a long name is cut where the page ends."""
    return "".join(text.split())


def seam(arguments: list[str]) -> tuple[str, object]:
    """The price of a seam, and the shop that the document names."""
    result = run(*arguments, "--json")
    assert (result.exit_code, result.stderr) == (0, "")
    document = json.loads(result.stdout)
    (line,) = (each for each in document["quote"]["lines"] if each["label"] == "Backing seams sewn")
    return line["rate"], document["shop"]


@pytest.mark.parametrize("first", range(4))
def test_the_first_that_names_a_shop_file_counts(home: Path, monkeypatch: pytest.MonkeyPatch, first: int):
    """Of all four, and of the last three, two and one: the earlier stands over the later."""
    named = list(SHOPS)[first:]
    if "environment" in named:
        monkeypatch.setenv("FINISHCALC_SHOP", str(home / "environment.toml"))
    price, shop = seam(put(home, *named))
    assert price == str(SHOPS[named[0]])
    assert isinstance(shop, dict)
    assert shop["named_by"] == named[0]
    assert Path(shop["file"]).name == f"{named[0]}.toml"


def test_with_none_named_the_sample_shop_is_taken_and_said_to_be(home: Path):
    arguments = put(home)
    assert seam(arguments) == (SAMPLE_SEAM, None)
    assert "Shop file: none, so the sample shop is taken\n" in run(*arguments, "--for", "studio").stdout


@pytest.mark.parametrize("first", range(4))
def test_the_studio_s_page_names_the_shop_file_and_the_customer_s_does_not(
    home: Path, monkeypatch: pytest.MonkeyPatch, first: int
):
    named = list(SHOPS)[first]
    monkeypatch.setenv("FINISHCALC_SHOP", "environment.toml" if named == "environment" else "")
    arguments = put(home, named)
    said = {
        "option": "option.toml, named by --shop",
        "project": "project.toml, named by the project",
        "environment": "environment.toml, named by FINISHCALC_SHOP",
        "settings": f"{home}/settings.toml, named by {home}/config/finishcalc/settings.toml",
    }
    page = run(*arguments, "--for", "studio").stdout
    assert unbroken(f"Shop file: {said[named]}") in unbroken(page)
    assert "Shop file" not in run(*arguments).stdout
    assert "shop" not in json.loads(run(*arguments, "--json", "--for", "customer").stdout)


def test_none_takes_the_sample_shop_whatever_else_is_named(home: Path, monkeypatch: pytest.MonkeyPatch):
    arguments = put(home, "project", "settings")
    assert seam([*arguments, "--shop", "none"]) == (SAMPLE_SEAM, {"file": None, "named_by": "option"})
    arguments = put(home, "settings")
    monkeypatch.setenv("FINISHCALC_SHOP", "none")
    assert seam(arguments) == (SAMPLE_SEAM, {"file": None, "named_by": "environment"})
    assert "Shop file: none, as FINISHCALC_SHOP says\n" in run(*arguments, "--for", "studio").stdout


def test_an_empty_variable_and_settings_without_a_shop_name_none(home: Path, monkeypatch: pytest.MonkeyPatch):
    arguments = put(home)
    monkeypatch.setenv("FINISHCALC_SHOP", " ")
    settings(home, "")
    assert seam(arguments) == (SAMPLE_SEAM, None)


def test_a_name_in_the_settings_begins_at_their_folder_or_at_home(home: Path, monkeypatch: pytest.MonkeyPatch):
    """Not at the folder that the command runs in, which is another one each day."""
    arguments = put(home)
    settings(home, 'shop = "../../settings.toml"')
    assert seam(arguments)[0] == "44"
    monkeypatch.setenv("HOME", str(home))
    settings(home, 'shop = "~/settings.toml"')
    assert seam(arguments)[0] == "44"
    monkeypatch.setenv("FINISHCALC_SHOP", "~/environment.toml")
    assert seam(arguments)[0] == "43"


def test_a_shop_file_that_is_missing_is_told_where_it_is_named(home: Path, monkeypatch: pytest.MonkeyPatch):
    arguments = put(home)
    path = settings(home, '# mine\nshop = "/no/such.toml"')
    told = run(*arguments)
    assert (told.exit_code, told.stdout) == (1, "")
    assert told.stderr == (
        f"{path}:2: shop: /no/such.toml: no such file\n"
        '     2 | shop = "/no/such.toml"\n'
        "       | ^^^^\n"
        "    name your shop file here, or give --shop FILE; --shop none is the sample shop\n"
    )
    monkeypatch.setenv("FINISHCALC_SHOP", "gone.toml")
    told = run(*arguments)
    assert (told.exit_code, told.stdout) == (1, "")
    assert told.stderr == (
        "FINISHCALC_SHOP: gone.toml: no such file\n"
        "    name your shop file in the environment, or give --shop FILE; --shop none is the sample shop\n"
    )
    assert run(*arguments, "--shop", "none").exit_code == 0


def test_mistakes_in_the_settings_are_told_with_their_lines(home: Path):
    arguments = put(home)
    path = settings(home, "shop = 7\nshopp = 'x'")
    told = run(*arguments)
    assert told.exit_code == 1
    assert f"{path}:1: shop: is not text" in told.stderr
    assert f"{path}:2: shopp: unknown key" in told.stderr
    assert 'did you mean "shop"?' in told.stderr
    settings(home, "shop = ")
    assert f"{path}:1: is not TOML" in run(*arguments).stderr


def test_what_is_wrong_is_told_with_the_project_s_mistakes(home: Path, monkeypatch: pytest.MonkeyPatch):
    arguments = put(home)
    (home / "job" / "top.toml").write_text(TOP + "hight = 3\n", encoding="utf-8")
    monkeypatch.setenv("FINISHCALC_SHOP", "gone.toml")
    told = run(*arguments).stderr
    assert "job/top.toml:4: top.hight: unknown key" in told
    assert "FINISHCALC_SHOP: gone.toml: no such file" in told


def test_a_project_s_own_shop_stays_in_its_folder_whatever_else_is_named(home: Path, monkeypatch: pytest.MonkeyPatch):
    """The user's own words may name a file anywhere; a project, which may come from anyone, may not."""
    monkeypatch.setenv("FINISHCALC_SHOP", str(home / "environment.toml"))
    arguments = put(home)
    (home / "job" / "top.toml").write_text('shop = "../option.toml"\n' + TOP, encoding="utf-8")
    assert "is outside the project's folder" in run(*arguments).stderr
    assert run(*arguments, "--shop", "option.toml").exit_code == 1


def test_every_command_takes_the_user_s_own_shop(home: Path, monkeypatch: pytest.MonkeyPatch):
    put(home)
    monkeypatch.setenv("FINISHCALC_SHOP", "gone.toml")
    for command in (["quote"], ["cut"], ["compare", "--as", "twin"]):
        told = run(command[0], "job/top.toml", *command[1:])
        assert (told.exit_code, "FINISHCALC_SHOP: gone.toml" in told.stderr) == (1, True)


def test_settings_are_not_looked_for_where_a_shop_is_named(home: Path):
    """Looking for their folder takes a module that a start without it saves."""
    put(home, "project")
    code = (
        "import sys; from finishcalc.pipeline import finish_file; finish_file('job/top.toml');"
        "print('platformdirs' in sys.modules)"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=home)
    assert told.stdout == "False\n"
