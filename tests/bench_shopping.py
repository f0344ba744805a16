"""The cloth of shopping lists beside the least that a solver finds: `python -m tests.bench_shopping`.

A constraint solver cuts the pieces that several random projects want of one cloth from as few steps of it as it can. It
tells how many it proves, in how many of these no step less is enough, and what is saved over buying for each alone.
Nothing here is asserted in a test.
"""

import time
from collections import Counter

from tests.proof.test_cutting import fewest_steps
from tests.proof.test_shopping import cases

SETS = 60
SECONDS = 30


def main() -> None:
    """Print the counts, and every set for which a step less is enough or may be."""
    start = time.perf_counter()
    answers = [(case, fewest_steps(case.question, case.steps, SECONDS)) for case in cases(SETS)]
    proved = [(case, answer) for case, answer in answers if answer.proved]
    above = Counter(case.steps - answer.enough for case, answer in proved)
    bought, alone = (sum(steps) for steps in zip(*((case.steps, case.alone) for case, _ in answers), strict=True))
    print(f"{SETS} sets, {SECONDS} s each at most: {time.perf_counter() - start:.0f} s")
    print(f"  proved            {len(proved)}")
    print(f"  of these equal    {above[0]}   (reach: {-(-len(proved) * 9 // 10)})")
    print(f"  a step above      {above[1]}")
    print(f"  more than that    {len(proved) - above[0] - above[1]}   (reach: 0)")
    print(f"  steps bought      {bought}, alone {alone}")
    for case, answer in answers:
        if case.steps != answer.needed:
            known = "proved" if answer.proved else f"not proved: {answer.needed} are needed"
            print(f"{case.name}: {case.steps} steps, {answer.enough} are enough ({known}), alone {case.alone}")


if __name__ == "__main__":
    main()
