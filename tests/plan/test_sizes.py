"""Sizes as they are said to people and in file names."""

from itertools import permutations

from jigs.plan.sizes import spans


def test_sizes_are_said_in_the_order_of_their_table() -> None:
    """In whatever order sizes come to share a jig, they are named as the table names them."""
    every = ("S", "M", "L", "XL", "2XL")

    for names in permutations(("S", "L", "M", "2XL")):
        assert spans(names, every, "–") == ["S–L", "2XL"]
    assert spans(["XL", "2XL", "S", "M", "L"], every, "-") == ["S-2XL"]
