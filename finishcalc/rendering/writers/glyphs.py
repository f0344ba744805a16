"""Text as the fonts of a sheet can show it: every other character is written as its number, "[U+1F9F5]"."""

import unicodedata
from functools import cache

COVERED = """
20-7E A0-AC AE-23F 241 243 247-249 24D 250-2E4 2EC-2EE 300-331 338 342-343 351 357-363 374-375 37A-37E 384-38A 38C
38E-3A1 3A3-3CE 3D0-3E1 3F0-3F6 3F8-3F9 3FB 3FD-45F 462-463 470-477 490-4C4 4C7-4CC 4D0-4F9 5B0-5C3 5C6 5D0-5EA
5F0-5F4 1D35 1D43-1D45 1D47-1D4B 1D4D 1D4F-1D53 1D56-1D58 1D5A-1D5B 1D9C 1DA0 1DA4 1DB6 1DBB 1E00-1E9B 1E9E
1EA0-1EF9 1F00-1F15 1F18-1F1D 1F20-1F45 1F48-1F4D 1F50-1F57 1F59 1F5B 1F5D 1F5F-1F7D 1F80-1FB4 1FB6-1FC4 1FC6-1FD3
1FD6-1FDB 1FDD-1FEF 1FF2-1FF4 1FF6-1FFE 2000-200A 2010-2027 202F-2037 2039-203E 2042 2044 2047-204B 204F 2070-2071
2074-208E 2090-2094 20A2-20A4 20A7-20A8 20AB-20AC 20AF 20B1 20BF 2100-2103 2105-2106 2109 210C-210F 2111 2113
2115-2116 2119-211A 211C-211D 2120 2122 2124 2126-2127 212E 2135-2139 214F 2153-2184 2190-219B 21A8 21AE 21BC-21BD
21C0-21C1 21CB-21D9 2200-220D 220F-221C 221E-221F 2223-222B 2236 223C 2241 2245 2248-2249 2259 2260-2262 2264-2265
226A-226B 226E-2271 2282-2285 2295-2298 22C5 22EF 2302-2303 2310 2320-2321 2326-2327 2329-232B 23D3 2460-2473 24EA
24FF 25A0-25A1 25B2-25B3 25B6-25B7 25BC-25BD 25C0-25C1 25C6-25C7 25C9-25CC 25CE-25D7 2605 2619 261B 261E 2627 262F
2639-2653 2660 2663 2665-2666 2669-266C 2695 2698 26A2-26A5 2767 2776-277F 27E6-27E7 2C60-2C6C 2C74-2C77 2E17-2E18
A71B-A71D A720-A721 A789-A78C FB29-FB36 FB38-FB3C FB3E FB40-FB41 FB43-FB44 FB46-FB4E FFFD 1D106-1D107
"""
"""The characters that Libertinus Serif, as typst brings it, has in regular, semibold and bold, without those that print
nothing. A proof reads them from the fonts themselves."""

MOST_MARKS = 3
"""The accents over and under one letter that are set; more of them would reach into other lines."""


@cache
def covered() -> frozenset[str]:
    """Give every character that is set as it is."""
    spans = (span.partition("-") for span in COVERED.split())
    return frozenset(
        chr(code) for first, _, last in spans for code in range(int(first, 16), int(last or first, 16) + 1)
    )


class Setting:
    """Sets texts for one file, and collects the `signs` that stand for characters that cannot be set."""

    def __init__(self) -> None:
        self.signs: dict[str, None] = {}

    def __call__(self, text: str) -> str:
        """Write a text with a sign for every character that has no glyph, and every accent that has no letter. A line
        feed stays."""
        if text.isascii() and text.isprintable():
            return text
        shown, marks = [], MOST_MARKS
        for char in text:
            is_mark = unicodedata.category(char).startswith("M")
            if char in covered() and not (is_mark and marks >= MOST_MARKS):
                shown.append(char)
                marks = marks + 1 if is_mark else MOST_MARKS if char.isspace() else 0
            else:
                shown.append(char if char == "\n" else self._sign(char))
                marks = MOST_MARKS
        return "".join(shown)

    def _sign(self, char: str) -> str:
        sign = f"[U+{ord(char):04X}]"
        self.signs[sign] = None
        return sign

    def note(self) -> str:
        """Explain the signs in one sentence, or in none."""
        few = list(self.signs)[:6]
        if not few:
            return ""
        if len(self.signs) == 1:
            return f"{few[0]} stands for a character that these fonts lack."
        more = " and others like them" if len(self.signs) > len(few) else ""
        return f"{', '.join(few)}{more} stand for characters that these fonts lack."
