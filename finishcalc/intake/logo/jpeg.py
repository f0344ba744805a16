"""Checks a JPEG as ITU-T T.81 lays it out, so that whatever prints it later can read it.

Its segments are walked from the first mark to the last. Frames, tables and the heads of scans are checked; the data of
a scan is passed over, because decoders fill in what is missing there.
"""

from collections.abc import Callable, Iterator

from finishcalc.intake.logo.refused import PictureRefused, cut_off, damaged, refuse_size
from finishcalc.problems import ProblemCode

SIGNATURE = b"\xff\xd8\xff"
PROGRESSIVE = 0xC2
FRAMES = {0xC0, 0xC1, PROGRESSIVE}
"""The marks of frames that programs commonly read: baseline, extended and progressive."""
OTHER_FRAMES = set(range(0xC3, 0xD0)) - {0xC4, 0xC8}
"""The marks of lossless, differential and arithmetic frames, and of the arithmetic coder's own tables."""
HUFFMAN_TABLES, QUANTIZATION_TABLES, SCAN, END = 0xC4, 0xDB, 0xDA, 0xD9
WITHIN_SCANS = {0x00, *range(0xD0, 0xD8)}
"""The bytes after a 255 that is a scan's own: a stuffed 0, and the marks at which decoding may begin anew."""
MOST_TABLES = 4


def check_jpeg(content: bytes) -> None:
    """Walk a JPEG from its first mark to its last. Raises PictureRefused."""
    picture = _Jpeg()
    for mark, segment in _segments(content):
        picture.take(mark, segment)
    if not picture.scans:
        raise damaged()


class _Jpeg:
    """The tables and the components of a picture, as far as its segments have given them."""

    def __init__(self) -> None:
        self.scans = 0
        self._components: dict[int, int] = {}
        self._quantization: set[int] = set()
        self._huffman: set[tuple[int, int]] = set()
        self._is_progressive = False
        self._takers: dict[int, Callable[[bytes], None]] = {
            HUFFMAN_TABLES: self._huffman_tables,
            QUANTIZATION_TABLES: self._quantization_tables,
            SCAN: self._scan,
        }

    def take(self, mark: int, segment: bytes) -> None:
        """Take the next segment. Raises PictureRefused."""
        if mark in OTHER_FRAMES:
            hint = "save it again as an ordinary JPEG, or as PNG"
            raise PictureRefused(ProblemCode.NOT_A_PICTURE, "is a JPEG of a kind that few programs read", hint)
        try:
            if mark in FRAMES:
                self._is_progressive = mark == PROGRESSIVE
                self._frame(segment)
            elif mark in self._takers:
                self._takers[mark](segment)
        except IndexError:  # the segment ends too early
            raise damaged() from None

    def _frame(self, segment: bytes) -> None:
        """Precision, height, width, and for each component its name, its sampling and its table."""
        number = segment[5]
        if self._components or segment[0] != 8 or number not in (1, 3, 4) or len(segment) != 6 + 3 * number:
            raise damaged()
        refuse_size(int.from_bytes(segment[3:5]), int.from_bytes(segment[1:3]))
        for name, sampling, table in zip(segment[6::3], segment[7::3], segment[8::3], strict=True):
            across, down = divmod(sampling, 16)
            if name in self._components or not (1 <= across <= 4 and 1 <= down <= 4) or table >= MOST_TABLES:
                raise damaged()
            self._components[name] = table

    def _quantization_tables(self, segment: bytes) -> None:
        """Each begins with the bytes of a number, less one, and its own number; 64 numbers follow."""
        while segment:
            wide, number = divmod(segment[0], 16)
            length = 1 + 64 * (1 + wide)
            if wide > 1 or number >= MOST_TABLES or len(segment) < length:
                raise damaged()
            self._quantization.add(number)
            segment = segment[length:]

    def _huffman_tables(self, segment: bytes) -> None:
        """Each begins with its class and its number, and how many codes have 1 to 16 bits; what they mean follows. Of n
        bits there are no more codes than those of fewer bits leave."""
        while segment:
            table, counts = divmod(segment[0], 16), segment[1:17]
            length, left = 17 + sum(counts), 1
            for count in counts:
                left = 2 * left - count
                if left < 0:
                    raise damaged()
            if table[0] > 1 or table[1] >= MOST_TABLES or len(segment) < length or sum(counts) > 256:
                raise damaged()
            if table[0] == 0 and any(bits > 15 for bits in segment[17:length]):  # a difference has no more bits
                raise damaged()
            self._huffman.add(table)
            segment = segment[length:]

    def _scan(self, segment: bytes) -> None:
        """The number of components, each with its tables, then the range of frequencies and their bits."""
        number = segment[0]
        if not self._components or not 1 <= number <= 4 or len(segment) != 4 + 2 * number:
            raise damaged()
        first, last, _ = segment[-3:]
        if first > last or last > 63:
            raise damaged()
        for name, tables in zip(segment[1:-3:2], segment[2:-3:2], strict=True):
            if self._components.get(name) not in self._quantization or not self._has(divmod(tables, 16)):
                raise damaged()
        self.scans += 1

    def _has(self, numbers: tuple[int, int]) -> bool:
        """Tell that a component of a scan has its tables; of a progressive picture not each scan needs both."""
        tables = set(enumerate(numbers))
        return max(numbers) < MOST_TABLES and (tables <= self._huffman or self._is_progressive)


def _segments(content: bytes) -> Iterator[tuple[int, bytes]]:
    """Give each segment's mark and data, up to the mark that ends the picture."""
    at = 2
    while True:
        while content[at : at + 2] == b"\xff\xff":  # marks may be preceded by any number of these
            at += 1
        if at + 2 > len(content):
            raise cut_off()
        mark = content[at + 1]
        if content[at] != 0xFF or mark in WITHIN_SCANS:
            raise damaged()
        if mark == END:
            return
        length = int.from_bytes(content[at + 2 : at + 4])
        end = at + 2 + length
        if end > len(content):
            raise cut_off()
        if length < 2:
            raise damaged()
        yield mark, content[at + 4 : end]
        at = _end_of_scan(content, end) if mark == SCAN else end


def _end_of_scan(content: bytes, at: int) -> int:
    """Give the place of the first mark after the data of a scan."""
    while True:
        at = content.find(b"\xff", at)
        if at < 0 or at + 1 >= len(content):
            raise cut_off()
        if content[at + 1] not in WITHIN_SCANS:
            return at
        at += 2
