"""Read many broken files and say what became of them: `python -m tests.fuzz --files 2000`."""

import argparse
import os
import sys
import tempfile
import time
from collections import Counter
from itertools import takewhile
from pathlib import Path

from tests.fuzz.run import outcomes
from tests.fuzz.seeds import seeds
from tests.fuzz.worker import Outcome


def main() -> int:
    """Do it; return 1 if a file was neither read nor refused, or left something behind."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("--files", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--first", type=int, default=0, help="number of the first file")
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--formats", default="svg pdf png jpg tif", help="endings, with spaces")
    parser.add_argument("--minutes", type=float, default=60.0, help="most for all of them")
    parser.add_argument("--seconds", type=float, default=30.0, help="most for one file")
    asked = parser.parse_args()
    start = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        os.environ["TMPDIR"] = folder
        every = range(asked.first, asked.first + asked.files)
        names = [name for name, _ in seeds()]
        many = (index for index in every if names[index % len(names)][-3:] in asked.formats)
        over = start + 60 * asked.minutes
        numbers = takewhile(lambda _: time.monotonic() < over, many)
        found = list[Outcome]()
        for one in outcomes(numbers, asked.seed, Path(folder), asked.workers, asked.seconds):
            found.append(one)
            if one.kind not in {"read", "refused"}:
                print(f"file {one.index} ({one.name}) {one.kind}: {one.says}", flush=True)
        left = sorted(path.name for path in Path(folder).iterdir())
    for kind, count in Counter((one.name[-3:], one.kind) for one in found).most_common():
        print(f"{kind[0]}  {kind[1]:8}{count:6}")
    slowest = max(found, key=lambda one: one.seconds)
    print(f"{len(found)} files, seed {asked.seed}, in {time.monotonic() - start:.0f} s")
    print(f"slowest: file {slowest.index} ({slowest.name}), {slowest.seconds:.1f} s")
    print(f"most memory: {max(one.megabytes for one in found):.0f} MB")
    print(f"left behind: {', '.join(left) or 'nothing'}")
    return int(bool(left) or any(one.kind in {"failed", "died", "hung"} for one in found))


if __name__ == "__main__":
    sys.exit(main())
