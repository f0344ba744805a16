"""The studio's logo: a PNG or JPEG of its own folder, read with a limit, and refused with everything else."""

import os
import subprocess
import sys
import zlib
from contextlib import suppress
from pathlib import Path

import pytest

from finishcalc.intake.changes.change import Change
from finishcalc.intake.logo.reading import kind_of_picture
from finishcalc.intake.logo.refused import PictureRefused
from finishcalc.intake.resolve import load
from finishcalc.model.logo import Logo
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from tests.builders import ROOT, run
from tests.pictures_by_hand import (
    COLOUR,
    END,
    JPEG,
    OF_PALETTE,
    PNG,
    SEEN_THROUGH,
    SIGNATURE,
    chunk,
    head,
    pixels,
    png_of,
    with_size,
)

ENV = {**os.environ, "PYTHONPATH": str(ROOT)}
MIB = 1024 * 1024


@pytest.fixture
def studio(tmp_path: Path) -> Path:
    """A project whose shop lies in a folder below it, with its logo."""
    (tmp_path / "top.toml").write_text('shop = "studio/shop.toml"\n[top]\nwidth = 60\nlength = 80\n')
    (tmp_path / "studio").mkdir()
    (tmp_path / "studio" / "logo.png").write_bytes(PNG)
    name_logo(tmp_path, "logo.png")
    return tmp_path


def name_logo(folder: Path, name: str) -> None:
    (folder / "studio" / "shop.toml").write_text(f"[studio]\nlogo = {name!r}\n")


def problem_of(folder: Path, tried: Change | None = None) -> Problem:
    with pytest.raises(ProblemsFound) as found:
        load(str(folder / "top.toml"), None, tried)
    (problem,) = found.value.problems
    return problem


# --- a logo that is taken ----------------------------------------------------------------------------------------


def test_its_bytes_travel_with_the_result(studio: Path):
    assert load(str(studio / "top.toml")).logo == Logo("png", PNG)


def test_a_shop_has_none_unless_it_names_one(studio: Path):
    name_logo(studio, "")
    assert load(str(studio / "top.toml")).logo is None


def test_it_is_looked_for_beside_the_shop_file_that_is_used(studio: Path, tmp_path: Path):
    """`--shop` names a file elsewhere, whose logo lies in a folder below that."""
    (tmp_path / "other" / "art").mkdir(parents=True)
    (tmp_path / "other" / "art" / "square.jpg").write_bytes(JPEG)
    (tmp_path / "other" / "mine.toml").write_text("[studio]\nlogo = 'art/square.jpg'\n")
    assert load(str(studio / "top.toml"), str(tmp_path / "other" / "mine.toml")).logo == Logo("jpeg", JPEG)


def test_it_is_tried_like_any_key_of_the_shop(studio: Path):
    (studio / "studio" / "square.jpg").write_bytes(JPEG)
    assert load(str(studio / "top.toml"), None, trying("square.jpg")).logo == Logo("jpeg", JPEG)
    assert load(str(studio / "top.toml"), None, trying("")).logo is None
    problem = problem_of(studio, trying("none.png"))
    assert (problem.file, problem.path, problem.code) == ("--set", "studio.logo", ProblemCode.NO_SUCH_FILE)


def test_tried_without_a_shop_file_it_is_looked_for_beside_the_project(tmp_path: Path):
    (tmp_path / "top.toml").write_text("[top]\nwidth = 60\nlength = 80\n")
    (tmp_path / "logo.png").write_bytes(PNG)
    assert load(str(tmp_path / "top.toml"), None, trying("logo.png")).logo == Logo("png", PNG)


def trying(logo: str) -> Change:
    return Change("--set", shop_puts=((("studio", "logo"), logo),))


def test_a_quote_without_a_logo_loads_nothing_that_reads_one(studio: Path):
    name_logo(studio, "")
    program = "import sys; from finishcalc.pipeline import finish_file as f; f('top.toml'); print(*sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=studio, env=ENV, capture_output=True, text=True, timeout=60
    )
    loaded = done.stdout.split()
    assert "finishcalc.intake.resolve" in loaded
    assert not [name for name in loaded if name.startswith("finishcalc.intake.logo")]


def test_sizes_that_are_saved_take_it_along(studio: Path):
    saved = studio / "sizes"
    command = ("compare", str(studio / "top.toml"), "--as", "twin", "--write", str(saved))
    assert run(*command).exit_code == 0
    assert (saved / "studio" / "logo.png").read_bytes() == PNG
    assert load(str(saved / "top-twin.toml")).logo == Logo("png", PNG)
    again = run(*command[:3], "queen", *command[4:])
    assert (again.exit_code, "logo.png" in again.stdout) == (0, False)


# --- the file ----------------------------------------------------------------------------------------------------


def test_a_problem_has_its_file_line_and_key_among_all_the_others(studio: Path):
    (studio / "studio" / "shop.toml").write_text("[studio]\nnme = 'x'\nlogo = 'none.png'\n[money]\nsymbl = '$'\n")
    (studio / "top.toml").write_text('shop = "studio/shop.toml"\n[top]\nwidth = 60\nlenth = 80\n')
    with pytest.raises(ProblemsFound) as found:
        load(str(studio / "top.toml"))
    told = [(Path(problem.file).name, problem.line, problem.path) for problem in found.value.problems]
    assert told == [
        ("top.toml", 4, "top.lenth"),
        ("shop.toml", 2, "studio.nme"),
        ("shop.toml", 3, "studio.logo"),
        ("shop.toml", 5, "money.symbl"),
    ]


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("none.png", ProblemCode.NO_SUCH_FILE),
        ("../top.toml", ProblemCode.LOGO_OUTSIDE_FOLDER),
        ("art/../logo.png", ProblemCode.LOGO_OUTSIDE_FOLDER),
        ("/dev/zero", ProblemCode.LOGO_OUTSIDE_FOLDER),
        ("out", ProblemCode.LOGO_OUTSIDE_FOLDER),
        ("endless", ProblemCode.LOGO_OUTSIDE_FOLDER),
        ("   ", ProblemCode.NO_FILE_NAMED),
        (".", ProblemCode.NO_FILE_NAMED),
        ("art", ProblemCode.IS_A_FOLDER),
        ("round", ProblemCode.CANNOT_BE_READ),
        ("logo.png/x", ProblemCode.CANNOT_BE_READ),
        ("n" * 200, ProblemCode.NO_SUCH_FILE),
        ("shop.toml", ProblemCode.NOT_A_PICTURE),
        ("empty.png", ProblemCode.NOT_A_PICTURE),
    ],
)
def test_what_is_no_file_of_its_folder_is_refused(studio: Path, name: str, code: ProblemCode):
    folder = studio / "studio"
    (folder / "art").mkdir()
    (folder / "empty.png").touch()
    (folder / "out").symlink_to(studio / "top.toml")
    (folder / "endless").symlink_to("/dev/zero")
    (folder / "round").symlink_to("round")
    name_logo(studio, name)
    problem = problem_of(studio)
    assert (problem.code, problem.line, problem.path) == (code, 2, "studio.logo")
    assert problem.hint


def test_a_name_that_no_file_can_have_is_refused(studio: Path):
    (studio / "studio" / "shop.toml").write_text('[studio]\nlogo = "a\\u0000b"\n')
    assert problem_of(studio).code == ProblemCode.CANNOT_BE_READ


def test_a_link_within_the_folder_is_followed(studio: Path):
    (studio / "studio" / "now.png").symlink_to("logo.png")
    name_logo(studio, "now.png")
    assert load(str(studio / "top.toml")).logo == Logo("png", PNG)


def test_a_pipe_that_nobody_fills_is_not_waited_for(studio: Path):
    os.mkfifo(studio / "studio" / "pipe")
    name_logo(studio, "pipe")
    assert problem_of(studio).code == ProblemCode.NOT_A_PICTURE


def test_a_mebibyte_is_taken_and_a_byte_more_is_not(studio: Path):
    """Bytes after a picture's end mark are not looked at."""
    path = studio / "studio" / "logo.png"
    path.write_bytes(PNG.ljust(MIB, b"\0"))
    assert load(str(studio / "top.toml")).logo
    path.write_bytes(PNG.ljust(MIB + 1, b"\0"))
    assert problem_of(studio).code == ProblemCode.FILE_TOO_LARGE


def test_of_a_huge_file_no_more_than_the_limit_is_read(studio: Path):
    """10 GB, of which the disk holds nothing."""
    with (studio / "studio" / "logo.png").open("wb") as file:
        file.truncate(10 * 10**9)
    assert problem_of(studio).code == ProblemCode.FILE_TOO_LARGE


def test_one_that_may_not_be_read_is_told(studio: Path, monkeypatch: pytest.MonkeyPatch):
    """Root may read everything, so the refusal is the system's own error, raised in its place."""
    real = Path.open

    def refuse(path: Path, *how: str) -> object:
        if path.name == "logo.png":
            raise PermissionError(13, os.strerror(13))
        return real(path, *how)  # type: ignore[call-overload]

    monkeypatch.setattr("pathlib.Path.open", refuse)
    assert problem_of(studio).code == ProblemCode.READING_NOT_ALLOWED


# --- the picture -------------------------------------------------------------------------------------------------

TAKEN = {
    "grey": PNG,
    "one bit": png_of(head(9, 1, 1), pixels(bytes(1 + 2)), END),
    "sixteen bits, seen through": png_of(head(2, 2, 16, SEEN_THROUGH), pixels(bytes(2 * (1 + 2 * 8))), END),
    "of a palette": png_of(head(3, 1, 2, OF_PALETTE), (b"PLTE", bytes(3)), pixels(bytes(1 + 1)), END),
    "in two pieces": png_of(head(1, 1), *((b"IDAT", zlib.compress(bytes(2))[n : n + 6]) for n in (0, 6)), END),
    "the largest": png_of(head(4000, 4000, 1), pixels(bytes(4000 * (1 + 500))), END),
    "of many bytes": png_of(head(1500, 1500, 8, COLOUR), pixels(bytes(1500 * (1 + 4500))), END),
    "more than its rows": png_of(head(1, 1), pixels(bytes(20_000_000)), END),
}


@pytest.mark.parametrize("content", TAKEN.values(), ids=TAKEN)
def test_a_png_of_any_colours_is_taken(content: bytes):
    assert kind_of_picture(content) == "png"


def test_the_passes_of_an_interlaced_png_are_counted():
    """5 x 3 grey pixels: 1, 1, 0, 1, 3, two rows of 2 and 5 pixels in the seven passes of Adam7, and a byte for each
    row: 2 + 2 + 2 + 4 + 2 x 3 + 6 = 22."""
    assert kind_of_picture(png_of(head(5, 3, interlaced=1), pixels(bytes(22)), END)) == "png"
    with pytest.raises(PictureRefused):
        kind_of_picture(png_of(head(5, 3, interlaced=1), pixels(bytes(21)), END))


DAMAGED, SIZE = ProblemCode.DAMAGED_PICTURE, ProblemCode.PICTURE_OUT_OF_BOUNDS
REFUSED = {
    "GIF": (b"GIF89a\x01\x00\x01\x00\x00\x00\x00;", ProblemCode.NOT_A_PICTURE),
    "WebP": (b"RIFF\x10\x00\x00\x00WEBPVP8L", ProblemCode.NOT_A_PICTURE),
    "SVG": (b"<svg xmlns='http://www.w3.org/2000/svg'/>", ProblemCode.NOT_A_PICTURE),
    "nothing": (b"", ProblemCode.NOT_A_PICTURE),
    "animated": (png_of(head(1, 1), (b"acTL", bytes(8)), pixels(bytes(2)), END), ProblemCode.ANIMATED_PICTURE),
    "no width": (png_of(head(0, 1), pixels(bytes(1)), END), SIZE),
    "no height": (png_of(head(1, 0), pixels(b""), END), SIZE),
    "too wide": (png_of(head(4001, 1), pixels(bytes(4002)), END), SIZE),
    "as wide as can be said": (png_of(head(2**32 - 1, 2**32 - 1), pixels(b""), END), SIZE),
    "no pixels": (png_of(head(1, 1), END), DAMAGED),
    "a row too few": (png_of(head(2, 3), pixels(bytes(2 * 3)), END), DAMAGED),
    "a byte too few": (png_of(head(2, 3), pixels(bytes(8)), END), DAMAGED),
    "an unknown filter": (png_of(head(1, 2), pixels(bytes([0, 0, 5, 0])), END), DAMAGED),
    "pixels that are not packed": (png_of(head(1, 1), (b"IDAT", b"??????"), END), DAMAGED),
    "no head": (png_of(pixels(bytes(2)), END), DAMAGED),
    "a short head": (png_of((b"IHDR", bytes(12)), END), DAMAGED),
    "three bits": (png_of(head(1, 1, 3), pixels(bytes(2)), END), DAMAGED),
    "no such colour": (png_of(head(1, 1, 8, 5), pixels(bytes(2)), END), DAMAGED),
    "no palette": (png_of(head(1, 1, 8, OF_PALETTE), pixels(bytes(2)), END), DAMAGED),
    "a wrong checksum": (SIGNATURE + chunk(*head(1, 1))[:-1] + b"?" + chunk(*pixels(bytes(2))) + chunk(*END), DAMAGED),
    "JPEG without width": (with_size(JPEG, 0, 8), SIZE),
    "JPEG without height": (with_size(JPEG, 8, 0), SIZE),
    "JPEG too high": (with_size(JPEG, 8, 4001), SIZE),
    "JPEG without a loss": (JPEG.replace(b"\xff\xc0", b"\xff\xc3"), ProblemCode.NOT_A_PICTURE),
    "JPEG without a frame": (JPEG.replace(b"\xff\xc0", b"\xff\xe0"), DAMAGED),
    "JPEG without a scan": (JPEG[: JPEG.index(b"\xff\xda")] + b"\xff\xd9", DAMAGED),
    "JPEG without its codes": (JPEG.replace(b"\xff\xc4", b"\xff\xfe"), DAMAGED),
    "JPEG without its steps": (JPEG.replace(b"\xff\xdb", b"\xff\xfe"), DAMAGED),
    "JPEG of arithmetic codes": (JPEG.replace(b"\xff\xc4", b"\xff\xcc"), ProblemCode.NOT_A_PICTURE),
    "JPEG with three codes of a bit": (JPEG.replace(b"\xff\xc4\x00\x14\x00\x01", b"\xff\xc4\x00\x14\x00\x03"), DAMAGED),
    "JPEG with rubbish": (JPEG[:20] + b"??" + JPEG[20:], DAMAGED),
    "JPEG of no length": (JPEG[:4] + b"\0\0" + JPEG[6:], DAMAGED),
}


@pytest.mark.parametrize(("content", "code"), REFUSED.values(), ids=REFUSED)
def test_a_picture_that_cannot_be_printed_is_refused(content: bytes, code: ProblemCode):
    with pytest.raises(PictureRefused) as refused:
        kind_of_picture(content)
    assert (refused.value.code, bool(refused.value.hint)) == (code, True)


def test_a_jpeg_is_taken_with_stuffed_bytes_and_marks_in_its_scan():
    """255 in the data of a scan is followed by 0; the marks 208-215 let decoding begin anew."""
    end = JPEG[:-2] + b"\xff\x00\xff\xd0\x00"
    assert kind_of_picture(end + b"\xff\xff\xff\xd9") == "jpeg"


@pytest.mark.parametrize("content", [PNG, JPEG], ids=["png", "jpeg"])
def test_cut_off_anywhere_it_is_refused(content: bytes):
    for length in range(len(content)):
        with pytest.raises(PictureRefused):
            kind_of_picture(content[:length])


def test_a_png_with_any_byte_changed_is_refused():
    """Its signature, or the checksum of the part that the byte is in, tells of every one."""
    for place in range(len(PNG)):
        with pytest.raises(PictureRefused):
            kind_of_picture(PNG[:place] + bytes([PNG[place] ^ 1]) + PNG[place + 1 :])


def test_a_jpeg_with_any_byte_changed_is_taken_or_refused():
    for place in range(len(JPEG)):
        for bit in range(8):
            with suppress(PictureRefused):
                kind_of_picture(JPEG[:place] + bytes([JPEG[place] ^ 1 << bit]) + JPEG[place + 1 :])
