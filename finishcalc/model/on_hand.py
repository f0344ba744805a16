"""`[[on_hand]]`: cloth and batting on the shelf, which a shopping list uses before anything is bought."""

from typing import Annotated, Literal

from finishcalc.measures.length import Length, Size
from finishcalc.measures.numbers import MeasureError
from finishcalc.model import keys as k
from finishcalc.model.marks import IN_HOUSE, most
from finishcalc.model.reading import FileUnits, Form, Key, text, whole_number
from finishcalc.model.section import Section
from finishcalc.problems import ProblemCode

MOST_ROWS = 500
"""The most rows of pieces that one file has on hand."""
MOST_OF_A_ROW = 100
"""The most alike pieces of one row."""
LEAST_SIDE = "1 in"
"""The narrowest that a piece may be."""


def _take_name(value: object, reading: FileUnits) -> str:
    """Take a name, by which pieces are found: blanks around it count for nothing."""
    name: str = text(k.LONGEST_LINE).take(value, reading).strip()
    if not name:
        hint = 'give the name of its cloth or batting: name = "harbour blue"'
        raise MeasureError(ProblemCode.ON_HAND_WITHOUT_NAME, "names nothing", hint)
    return name


class OnHandPieces(Section, whole=True):
    """So many alike pieces on the shelf, of the cloth or the batting of that name. One as wide as its cloth is sold is
    unwashed, with its selvages; any other is measured as it can be cut, washed and squared. Its `length` is along the
    cloth."""

    kind: Literal["cloth", "batting"]
    name: Annotated[str, Key(_take_name, Form("text", most=str(k.LONGEST_LINE)))]
    width: Annotated[Length, k.length(LEAST_SIDE, "30 ft")]
    length: Annotated[Length, k.length(LEAST_SIDE, "1000 yd")]
    number: Annotated[int, whole_number(1, MOST_OF_A_ROW)] | None = None

    @property
    def count(self) -> int:
        """The number of them: a row without one is one piece."""
        return self.number or 1

    @property
    def size(self) -> Size:
        """The size of each."""
        return Size(self.width, self.length)


OnHandRows = Annotated[tuple[OnHandPieces, ...], most(MOST_ROWS), IN_HOUSE]
"""The rows of a file."""
