import pytest

from jigs.errors import BadInput, BadInputs, Place, Unknown
from jigs.tables.library import find, names
from tests.tables.examples import GOOD

HERE = Place("order.toml", "garments[1].table")


def test_the_package_carries_its_own_tables() -> None:
    """For each cut the ages and women's sizes it is worn in; they are found by name."""
    assert names() == (
        "adult-crew-sweatshirt",
        "adult-crew-tee",
        "adult-hoodie",
        "adult-long-sleeve-tee",
        "adult-polo",
        "adult-tank",
        "adult-v-neck-tee",
        "adult-zip-hoodie",
        "infant-bodysuit",
        "infant-crew-tee",
        "toddler-crew-sweatshirt",
        "toddler-crew-tee",
        "toddler-hoodie",
        "toddler-long-sleeve-tee",
        "tote-bag",
        "womens-crew-tee",
        "womens-long-sleeve-tee",
        "womens-polo",
        "womens-tank",
        "womens-v-neck-tee",
        "youth-crew-sweatshirt",
        "youth-crew-tee",
        "youth-hoodie",
        "youth-long-sleeve-tee",
        "youth-polo",
        "youth-tank",
    )
    assert {find(name, HERE).name for name in names()} == set(names())


def test_an_unknown_table_comes_with_the_nearest() -> None:
    """The place is where the name was written."""
    with pytest.raises(Unknown, match="did you mean 'adult-crew-tee'") as caught:
        find("adult-crew-te", HERE)
    assert caught.value.place == HERE


@pytest.mark.parametrize("name", ["../size_tables/adult-crew-tee", "adult-crew-tee/", "", "."])
def test_a_name_is_never_a_path_into_the_package(name: str) -> None:
    """Only names that are listed are opened."""
    with pytest.raises(Unknown):
        find(name, HERE)


def test_a_path_is_read_beside_the_order() -> None:
    """The caller reads; the table is named after the file."""
    asked = []

    def beside(path: str) -> str:
        asked.append(path)
        return GOOD

    assert find("tables/our tee.TOML", HERE, beside).name == "our tee"
    assert asked == ["tables/our tee.TOML"]


def test_mistakes_in_a_file_beside_the_order_name_that_file() -> None:
    """Not the order that asked for it."""
    with pytest.raises(BadInputs) as caught:
        find("t/tee.toml", HERE, lambda _: GOOD.replace("18, 20", "18, 3").replace("28,", "0,"))
    assert {problem.place.file for problem in caught.value.problems} == {"t/tee.toml"}


@pytest.mark.parametrize(
    ("name", "says"),
    [("tee.toml", "known tables: adult-crew-sweatshirt, adult-crew-tee"), (".toml", "table file")],
)
def test_a_path_that_cannot_be_read_is_bad_input(name: str, says: str) -> None:
    """Where there is no order there is nothing beside it."""
    with pytest.raises(BadInput, match=says):
        find(name, HERE)
