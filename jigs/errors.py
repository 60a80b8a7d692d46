"""What can go wrong, as values.

    JigsError
    ├── BadInput     something in a user's file or option: place, found, allowed
    │   └── Unknown  a name that is not known, with the nearest that is
    ├── BadInputs    all the BadInputs of one file, together
    └── Refused      a file that is not ours, a folder that cannot be written

Bad news about a *good* order is not an error: it is a `Finding` and stands in the plan.
"""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from difflib import get_close_matches


@dataclass(frozen=True, slots=True)
class Place:
    """Where a value stands in the user's files: `order.toml` and `prints[2].drop`."""

    file: str
    key: str = ""

    def at(self, key: str | int) -> "Place":
        """Return the place one step further in: a name, or the index of a list (from 0)."""
        if isinstance(key, int):
            return Place(self.file, f"{self.key}[{key + 1}]")
        return Place(self.file, f"{self.key}.{key}" if self.key else key)

    def __str__(self) -> str:
        return f"{self.file}: {self.key}" if self.key else self.file


class JigsError(Exception):
    """Anything the user can put right; the command line shows it as a line and exits with 2."""

    def lines(self) -> tuple[str, ...]:
        """Return what to tell the user, one line per problem."""
        return (_one_line(str(self)),)


class BadInput(JigsError):
    """A value that cannot be used: where it stands, what was found, what is allowed."""

    def __init__(self, place: Place, found: str, allowed: str) -> None:
        self.place = place
        self.found = found
        self.allowed = allowed
        super().__init__(f"{place}: {found}; {allowed}")


class Unknown(BadInput):
    """A name that is not among the known ones; the nearest known name is offered.

    The known ones are listed as they come where their order says something, else by name.
    """

    def __init__(
        self, place: Place, kind: str, name: str, known: Iterable[str], *, in_order: bool = False
    ) -> None:
        names = list(known) if in_order else sorted(known)
        near = get_close_matches(name, names, n=1, cutoff=0.6)
        hint = f"did you mean {near[0]!r}? " if near else ""
        self.name = name
        super().__init__(place, f"unknown {kind} {name!r}", f"{hint}known: {', '.join(names)}")


class BadInputs(JigsError):
    """All the problems of one input, so that one run shows them all."""

    def __init__(self, problems: Iterable[BadInput]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))

    def lines(self) -> tuple[str, ...]:
        """Return one line per problem."""
        return tuple(_one_line(str(problem)) for problem in self.problems)


class Refused(JigsError):
    """Something the program will not do, such as overwrite a file it did not write."""


@dataclass(frozen=True, slots=True)
class Finding:
    """Bad or noteworthy news about a good order.

    `blocks` means: do not order or press like this. `about` names the print, size or file.
    """

    blocks: bool
    about: str
    says: str


def raise_all(problems: Iterable[BadInput]) -> None:
    """Raise the problems together, if there are any.

    Raises:
        BadInput: there is exactly one.
        BadInputs: there are several.
    """
    found = tuple(problems)
    if len(found) == 1:
        raise found[0]
    if found:
        raise BadInputs(found)


@contextmanager
def collecting(problems: list[BadInput]) -> Iterator[None]:
    """Add what goes wrong inside to a list, so that the next input is looked at as well."""
    try:
        yield
    except BadInput as problem:
        problems.append(problem)
    except BadInputs as several:
        problems += several.problems


def _one_line(text: str) -> str:
    """Fold control characters, which a user's file may hold, so that one problem is one line."""
    return "".join(c if c.isprintable() else " " for c in text)
