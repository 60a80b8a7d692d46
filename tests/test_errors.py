import doctest

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs import errors
from jigs.errors import (
    BadInput,
    BadInputs,
    Finding,
    JigsError,
    Place,
    Refused,
    Unknown,
    collecting,
    raise_all,
)

FILE = Place("order.toml")


def bad(key: str) -> BadInput:
    """Return a problem at a key."""
    return BadInput(FILE.at(key), "found 3", "write 4")


def fail(error: Exception) -> None:
    """Raise an error, as a reader deep inside would."""
    raise error


def test_a_place_reads_like_a_path_in_the_file() -> None:
    """Names are joined by dots, list entries are counted from 1, the file comes first."""
    place = FILE.at("prints").at(1).at("drop")

    assert place == Place("order.toml", "prints[2].drop")
    assert str(place) == "order.toml: prints[2].drop"
    assert str(FILE) == "order.toml"


def test_a_problem_says_where_what_and_what_is_allowed() -> None:
    """The parts are kept apart, and the message holds them all in one line."""
    problem = bad("drop")

    assert (problem.place.key, problem.found, problem.allowed) == ("drop", "found 3", "write 4")
    assert problem.lines() == ("order.toml: drop: found 3; write 4",)


def test_every_trouble_of_the_user_is_one_kind() -> None:
    """One clause catches them all, and a finding is none of them."""
    troubles = (bad("a"), Unknown(FILE, "size", "X", ["XL"]), BadInputs([bad("a")]), Refused("no"))

    assert all(isinstance(one, JigsError) for one in troubles)
    assert not isinstance(Finding(blocks=True, about="M", says="too wide"), Exception)


def test_the_nearest_known_name_is_offered() -> None:
    """A slip of the pen gets the name that was meant; a stranger gets only the list."""
    near = Unknown(FILE, "location", "left-chst", ["left-chest", "full-back"])
    far = Unknown(FILE, "location", "zzz", ["left-chest", "full-back"])

    assert near.name == "left-chst"
    assert "did you mean 'left-chest'? known: full-back, left-chest" in str(near)
    assert "did you mean" not in str(far)
    assert "known: full-back, left-chest" in str(far)
    assert "known: " in str(Unknown(FILE, "location", "zzz", []))


def test_problems_are_raised_together() -> None:
    """None raises nothing, one raises itself, several raise one error that holds them all."""
    raise_all([])
    one = bad("a")
    with pytest.raises(BadInput) as single:
        raise_all(iter([one]))
    assert single.value is one
    with pytest.raises(BadInputs) as several:
        raise_all(iter([one, bad("b")]))
    assert [problem.place.key for problem in several.value.problems] == ["a", "b"]
    assert len(several.value.lines()) == 2


def test_collecting_goes_on_after_a_problem() -> None:
    """Single and gathered problems are added; a mistake of the program is not swallowed."""
    problems: list[BadInput] = []
    with collecting(problems):
        fail(bad("a"))
    with collecting(problems):
        fail(BadInputs([bad("b"), bad("c")]))
    with pytest.raises(KeyError), collecting(problems):
        fail(KeyError("d"))
    with pytest.raises(Refused), collecting(problems):
        fail(Refused("e"))

    assert [problem.place.key for problem in problems] == ["a", "b", "c"]


@given(st.text(max_size=40), st.text(max_size=40))
def test_a_problem_is_one_printable_line(key: str, found: str) -> None:
    """No control character of a user's file reaches the terminal."""
    problem = BadInput(Place("f", key), found, "write 4")

    for error in (problem, BadInputs([problem, problem]), Refused(found)):
        assert all(line.isprintable() for line in error.lines())


def test_the_examples_in_the_module_hold() -> None:
    """The doctests of the module, if it has any, pass."""
    assert doctest.testmod(errors).failed == 0
