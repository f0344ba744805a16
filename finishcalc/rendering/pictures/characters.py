"""A sheet of character cells: boxes whose lines join where they meet, and texts."""

UP, DOWN, LEFT, RIGHT = 1, 2, 4, 8
JUNCTIONS = " ╵╷│╴┘┐┤╶└┌├─┴┬┼"


class CharacterSheet:
    """A sheet of so many columns and rows between lines: the lines stand in cells of their own, one more each way."""

    def __init__(self, columns: int, rows: int) -> None:
        self.columns, self.rows = columns, rows
        self.lines = [[0] * (columns + 1) for _ in range(rows + 1)]
        self.text = [[""] * (columns + 1) for _ in range(rows + 1)]

    def frame(self, left: int, top: int, right: int, bottom: int) -> None:
        """Draw a box."""
        for column in range(left, right):
            for row in (top, bottom):
                self.lines[row][column] |= RIGHT
                self.lines[row][column + 1] |= LEFT
        for row in range(top, bottom):
            for column in (left, right):
                self.lines[row][column] |= DOWN
                self.lines[row + 1][column] |= UP

    def write(self, row: int, column: int, text: str) -> None:
        """Write a text whose every character takes one column."""
        for place, char in enumerate(text, column):
            self.text[row][place] = char

    def drawn(self) -> list[str]:
        """Give the sheet line by line."""
        return [
            "".join(char or JUNCTIONS[mask] for char, mask in zip(text, line, strict=True))
            for text, line in zip(self.text, self.lines, strict=True)
        ]
