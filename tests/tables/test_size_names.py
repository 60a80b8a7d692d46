import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.errors import BadInput, JigsError, Place, Unknown
from tests.tables.examples import with_sizes

HERE = Place("order.toml", "prints[1].widths")
ADULT = with_sizes(["XS", "S", "M", "L", "XL", "2XL", "XXXL"])
INFANT = with_sizes(["NB", "3-6M", "6-12M", "12-18M", "5T/6T"])


@pytest.mark.parametrize(
    ("text", "sizes"),
    [
        ("S", "S"),
        ("s", "S"),
        ("S-XL", "S M L XL"),
        ("M,L", "M L"),
        ("L, M", "M L"),
        ("M,M,S-M", "S M"),
        ("tee/S", "S"),
        ("tee/S-L", "S M L"),
        ("S - L", "S M L"),
        ("S–L", "S M L"),
        ("S-M, 3XL", "S M XXXL"),
        ("xxl-xxxl", "2XL XXXL"),
        ("XXL", "2XL"),
        ("M-M", "M"),
    ],
)
def test_a_text_selects_sizes_in_the_tables_order(text: str, sizes: str) -> None:
    """Names, ranges and lists; each size once, smallest first."""
    assert [size.size for size in ADULT.select(text, HERE)] == sizes.split()


@pytest.mark.parametrize(
    ("text", "sizes"),
    [
        ("6-12M", "6-12M"),
        ("3-6M-12-18M", "3-6M 6-12M 12-18M"),
        ("NB-6-12m", "NB 3-6M 6-12M"),
        ("5T/6T", "5T/6T"),
        ("tee/5T/6T", "5T/6T"),
        ("12-18M-5T/6T", "12-18M 5T/6T"),
    ],
)
def test_a_size_may_have_a_dash_or_a_slash_in_its_name(text: str, sizes: str) -> None:
    """A size's own name comes before any reading of it as a range or a table."""
    assert [size.size for size in INFANT.select(text, HERE)] == sizes.split()


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "no size"),
        ("S,,M", "no size"),
        ("S,", "no size"),
        ("tee/", "no size"),
        ("XL-S", 'runs backwards; write "S-XL"'),
        ("S-XXM", "unknown size 'XXM'"),
        ("QQ-L", "unknown size 'QQ'"),
        ("other/S", "unknown size 'other/S'"),
        ("tee/tee/S", "unknown size 'tee/S'"),
        ("-", "unknown size '-'"),
        ("4XL", "unknown size '4XL'; did you mean 'XL'"),
    ],
)
def test_what_names_no_size_is_reported_where_it_stands(text: str, says: str) -> None:
    """The message names the end of the range that is not known."""
    with pytest.raises(BadInput) as caught:
        ADULT.select(text, HERE)
    assert caught.value.place == HERE
    assert says in str(caught.value)


def test_a_range_that_can_be_read_in_two_ways_is_not_guessed() -> None:
    """6 to 8-10, or 6-8 to 10?"""
    youth = with_sizes(["6", "6-8", "8-10", "10"])
    with pytest.raises(BadInput, match="2 different ranges"):
        youth.select("6-8-10", HERE)


@pytest.mark.parametrize(
    ("name", "size"), [("xs", "XS"), ("XXL", "2XL"), ("3XL", "XXXL"), (" m ", "M")]
)
def test_one_size_is_found_however_it_is_spelled(name: str, size: str) -> None:
    """Case does not matter; XXL is 2XL and XXXL is 3XL."""
    assert ADULT.size(name, HERE).size == size


def test_an_unknown_size_comes_with_the_nearest() -> None:
    """A slip of the pen is put right by the message."""
    with pytest.raises(Unknown, match="did you mean '12-18M'"):
        INFANT.size("12-18", HERE)


WORDS = with_sizes(["X-Small", "Small", "Medium", "Large", "X-Large", "XX-Large", "3X", "4X-Large"])


@pytest.mark.parametrize(
    ("text", "sizes"),
    [
        ("S-XL", "Small Medium Large X-Large"),
        ("xs", "X-Small"),
        ("extra small", "X-Small"),
        ("Extra Large-XXX-Large", "X-Large XX-Large 3X"),
        ("2XL", "XX-Large"),
        ("2X", "XX-Large"),
        ("XXX-3XL", "3X"),
        ("4X", "4X-Large"),
    ],
)
def test_words_for_sizes_are_the_letters(text: str, sizes: str) -> None:
    """EN 13402-3's codes and their words mean each other; the table's spelling stays."""
    assert [size.size for size in WORDS.select(text, HERE)] == sizes.split()


def test_other_sizes_than_letters_stay_apart() -> None:
    """Months, toddlers' numbers and a size 6 that is not six of anything."""
    names = ["6", "6M", "6L", "6-12M", "2T", "standard", "OS", "XM", "2XM"]
    assert [size.size for size in with_sizes(names).sizes] == names


def test_an_unknown_size_lists_the_others_in_their_order() -> None:
    """Which is what a reader looks for."""
    with pytest.raises(Unknown, match="known: XS, S, M, L, XL, 2XL, XXXL"):
        ADULT.size("Q", HERE)


NAMES = st.lists(
    st.text("XSML23-/ T", min_size=1, max_size=6).filter(lambda name: name == name.strip()),
    min_size=1,
    max_size=8,
    unique_by=lambda name: name.casefold(),
)
PLAIN = ["XS", "S", "M", "L", "XL", "2XL", "3XL", "4XL", "5XL"]


@given(st.integers(0, 8), st.integers(0, 8))
def test_a_range_holds_all_from_its_first_to_its_last(first: int, last: int) -> None:
    """Every pair of sizes in order is a range, every other is refused."""
    sizes, text = with_sizes(PLAIN), f"{PLAIN[first]}-{PLAIN[last]}"
    if first > last:
        with pytest.raises(BadInput, match="backwards"):
            sizes.select(text, HERE)
    else:
        chosen = [size.size for size in sizes.select(text, HERE)]
        assert chosen == PLAIN[first : last + 1]


@given(st.lists(st.sampled_from(PLAIN), min_size=1))
def test_a_list_holds_its_sizes_in_the_tables_order(wanted: list[str]) -> None:
    """The order in which they are written does not matter, nor how often."""
    chosen = [size.size for size in with_sizes(PLAIN).select(",".join(wanted), HERE)]
    assert chosen == [name for name in PLAIN if name in wanted]


@given(st.text("XSML236-,/– teT", max_size=20))
def test_any_text_selects_sizes_or_is_bad_input(text: str) -> None:
    """A selection is never empty, and nothing but a JigsError comes instead."""
    for sizes in (ADULT, INFANT):
        try:
            chosen = sizes.select(text, HERE)
        except JigsError:
            continue
        assert chosen
        assert list(chosen) == [size for size in sizes.sizes if size in chosen]


@given(NAMES)
def test_every_size_is_selected_by_its_own_name(names: list[str]) -> None:
    """Whatever dashes and slashes the names of the other sizes hold."""
    try:
        sizes = with_sizes(names)
    except JigsError:
        return  # two spellings of one size
    for size in sizes.sizes:
        assert sizes.select(size.size, HERE) == (size,)
        assert sizes.size(size.size, HERE) == size
