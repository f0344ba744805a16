"""The cloth of tops beside the least that a solver finds: `python -m tests.bench_cutting`.

A constraint solver cuts the same pieces of 100 random tops from as few steps of cloth as it can, in cuts from edge to
edge and in three stages. It tells how many it proves and in how many of these no step less is enough, and lists the
others. Nothing here is asserted in a test.
"""

import time
from collections import Counter

from tests.proof.test_cutting import Answer, Case, cases, fewest_steps

TOPS = 100
SECONDS = 30


def main() -> None:
    """Print the counts, and every top for which a step less is enough or may be."""
    start = time.perf_counter()
    answers = [(case, fewest_steps(case.question, case.steps, SECONDS)) for case in cases(TOPS)]
    proved = [(case, answer) for case, answer in answers if answer.proved]
    above = Counter(case.steps - answer.enough for case, answer in proved)
    print(f"{TOPS} tops, {SECONDS} s each at most: {time.perf_counter() - start:.0f} s")
    print(f"  proved            {len(proved)}   (reach: 60)")
    print(f"  of these equal    {above[0]}   (reach: {-(-len(proved) * 9 // 10)})")
    print(f"  a step above      {above[1]}")
    print(f"  more than that    {len(proved) - above[0] - above[1]}   (reach: 0)")
    for case, answer in answers:
        if case.steps != answer.needed:
            _print_case(case, answer)


def _print_case(case: Case, answer: Answer) -> None:
    proved = "proved" if answer.proved else f"not proved: {answer.needed} are needed"
    print(f"\n{case.name}: {case.steps} steps, {answer.enough} are enough ({proved})")
    print("\n".join(f"  {line}" for line in case.pieces))


if __name__ == "__main__":
    main()
