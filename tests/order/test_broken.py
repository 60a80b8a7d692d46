"""What is wrong with an order file is said with its key, and all of it at once."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.errors import BadInput, BadInputs, JigsError, Unknown
from jigs.order.order import Order
from jigs.order.read import read
from jigs.order.toml_text import LONGEST_FILE
from tests.order.known import DEMO, GOOD, KNOWN


def _problems(text: str) -> list[BadInput]:
    try:
        read(text, "order.toml", KNOWN)
    except BadInputs as error:
        return list(error.problems)
    except BadInput as error:
        return [error]
    return []


_SIZES = 'sizes = { S = 4, "2XL" = 3 }'
_PRINTS = '[[prints]]\nlocation = "left-chest"\nartwork = "artwork/crest.svg"\n'
_SECOND = GOOD[GOOD.index("[[garments]]") : GOOD.index("[[prints]]")]
_LOCATION, _ARTWORK = 'location = "left-chest"', 'artwork = "artwork/crest.svg"'

#: What is replaced in the good order, by what, the key blamed, and a part of the message.
_BROKEN = [
    ('reference = "spring"\n', "", "reference", "missing"),
    ('"spring"', '""', "reference", "empty"),
    ('"spring"', "7", "reference", "found 7"),
    ('"spring"', '"../up"', "reference", "cannot name a file"),
    ('"spring"', '"nul"', "reference", "'_nul'"),
    ('"spring"', f'"{"a" * 70}"', "reference", "'aaaa"),
    ('customer = "Somebody"\n', "", "customer", "missing"),
    ('"Somebody"', '"a\\nb"', "customer", "control"),
    ('"Somebody"', f'"{"a" * 300}"', "customer", "300 letters"),
    ('"Somebody"', '["Somebody"]', "customer", "a list of 1"),
    ('"Somebody"', '"Somebody"\nunits = "cm"', "units", "unknown unit 'cm'"),
    ('"Somebody"', '"Somebody"\nunit = "in"', "unit", "did you mean 'units'?"),
    ('"Somebody"', '"Somebody"\npaper = "a4"', "paper", "heading [paper]"),
    (_SECOND, "", "garments", "missing"),
    (_SECOND, "garments = []\n", "garments", "an empty list"),
    (_SECOND, 'garments = ["adult"]\n', "garments[1]", "[[garments]]"),
    ("[[garments]]", "[garments]", "garments", "two brackets"),
    (_SECOND, _SECOND * 2, "garments[2].name", "garments[1] has already"),
    (_SECOND, _SECOND + _SECOND.replace("adult", "Adult", 1), "garments[2].name", "of its own"),
    (_SECOND, _SECOND * 300, "garments", "at most 200"),
    ('name = "adult"\n', "", "garments[1].name", "missing"),
    ('table = "adult-crew-tee"\n', "", "garments[1].table", "missing"),
    ('"adult-crew-tee"', '"adult-crew-te"', "garments[1].table", "did you mean 'adult-crew-tee'?"),
    ('"adult-crew-tee"', '"../t.toml"', "garments[1].table", "leaves the folder"),
    ('"navy"', '"nayv"', "garments[1].colour", "did you mean 'navy'?"),
    ('"navy"', '"blurple"', "garments[1].colour", "add colour_hex"),
    ('"navy"', '"x"\ncolour_hex = "#12345"', "garments[1].colour_hex", "#1f2a44"),
    ('"navy"', '"x"\ncolour_hex = "navy"', "garments[1].colour_hex", "found 'navy'"),
    ('"navy"', '"x"\ncolour_hex = 16', "garments[1].colour_hex", "found 16"),
    (_SIZES, "", "garments[1].sizes", "missing"),
    (_SIZES, "sizes = 4", "garments[1].sizes", "found 4"),
    (_SIZES, "sizes = {}", "garments[1].sizes", "no pieces"),
    (_SIZES, "sizes = { S = 0 }", "garments[1].sizes", "no pieces"),
    ("S = 4", "S = -1", "garments[1].sizes.S", "from 0 to 100000"),
    ("S = 4", "S = 100001", "garments[1].sizes.S", "from 0 to 100000"),
    ("S = 4", "S = 4.0", "garments[1].sizes.S", "whole number"),
    ("S = 4", "S = true", "garments[1].sizes.S", "found true"),
    ("S = 4", 'S = "4"', "garments[1].sizes.S", "without quotes"),
    ("S = 4", "S = 2024-01-01", "garments[1].sizes.S", "the date or time 2024-01-01"),
    ("S = 4", '"" = 4', "garments[1].sizes.", "size called"),
    (_PRINTS, "", "prints", "missing"),
    (_LOCATION, "", "prints[1].location", "missing"),
    ('"left-chest"', '"left chest"', "prints[1].location", "did you mean 'left-chest'?"),
    (_ARTWORK, "", "prints[1].artwork", "missing"),
    ("artwork/crest.svg", "../crest.svg", "prints[1].artwork", "leaves the folder"),
    ("artwork/crest.svg", "/crest.svg", "prints[1].artwork", "root"),
    ("artwork/crest.svg", "C:/crest.svg", "prints[1].artwork", "colon"),
    ('"artwork/crest.svg"', "'art\\c.svg'", "prints[1].artwork", "backslash"),
    ('"artwork/crest.svg"', '"a\\u0000.svg"', "prints[1].artwork", "control"),
    (_PRINTS, _PRINTS * 2, "prints[2].name", "prints[1] has already"),
    (_ARTWORK, _ARTWORK + '\nname = "a/b"', "prints[1].name", "'a-b'"),
    (_ARTWORK, _ARTWORK + "\nwidth = 11", "prints[1].width", "no unit"),
    (_ARTWORK, _ARTWORK + f"\nwidth = 1{'0' * 400}", "prints[1].width", "no unit"),
    (_ARTWORK, _ARTWORK + '\nwidth = "11"', "prints[1].width", "no unit"),
    (_ARTWORK, _ARTWORK + '\nwidth = "11 lightyears"', "prints[1].width", "unknown unit"),
    (_ARTWORK, _ARTWORK + '\nwidth = "-3 in"', "prints[1].width", "from 5 mm"),
    (_ARTWORK, _ARTWORK + '\nwidth = "2 m"', "prints[1].width", "to 1000 mm"),
    (_ARTWORK, _ARTWORK + "\nwidth = {}", "prints[1].width", "empty table"),
    (_ARTWORK, _ARTWORK + '\nwidth = { S = "wide" }', "prints[1].width.S", "found 'wide'"),
    (_ARTWORK, _ARTWORK + "\ndrop = true", "prints[1].drop", "found True"),
    (_ARTWORK, _ARTWORK + '\ndrop = "-1 in"', "prints[1].drop", "from 0 mm"),
    (_ARTWORK, _ARTWORK + '\ndrip = "1 in"', "prints[1].drip", "did you mean 'drop'?"),
    (_ARTWORK, _ARTWORK + '\ngarments = ["adlut"]', "prints[1].garments[1]", "did you mean"),
    (_ARTWORK, _ARTWORK + "\ngarments = []", "prints[1].garments", "an empty list"),
    (_ARTWORK, _ARTWORK + '\ngarments = "adult"', "prints[1].garments", "list of names"),
    (_ARTWORK, _ARTWORK + '\ngarments = ["adult", "adult"]', "prints[1].garments[2]", "twice"),
    (_ARTWORK, _ARTWORK + '\nstyles = ["windows"]', "prints[1].styles[1]", "'window'?"),
    (_ARTWORK, _ARTWORK + "\nstyles = [1]", "prints[1].styles[1]", "jig style"),
    (_ARTWORK, _ARTWORK + "\nturn = 45", "prints[1].turn", "write 90, 180 or 270"),
    (_ARTWORK, _ARTWORK + "\nturn = true", "prints[1].turn", "found true"),
    (_ARTWORK, _ARTWORK + '\nturn = "90"', "prints[1].turn", "found '90'"),
    (_ARTWORK, _ARTWORK + "\npage = 0", "prints[1].page", "from 1 to 9999"),
    (_ARTWORK, _ARTWORK + '\npage = "2"', "prints[1].page", "found '2'"),
    (_ARTWORK, _ARTWORK + "\npage = true", "prints[1].page", "found true"),
    (_ARTWORK, _ARTWORK + "\nignore_specks = 1", "prints[1].ignore_specks", "true or false"),
    (_ARTWORK, _ARTWORK + '\n[transfer]\nline = "1"', "transfer.line", "no unit"),
    (_ARTWORK, _ARTWORK + '\n[transfer]\ngap = "1 in"', "transfer.gap", "to 10 mm"),
    (_ARTWORK, _ARTWORK + "\n[transfer]\nleast_ppi = 0", "transfer.least_ppi", "from 1"),
    (_ARTWORK, _ARTWORK + '\n[paper]\nsize = "a44"', "paper.size", "did you mean 'a4'?"),
    (_ARTWORK, _ARTWORK + '\n[paper]\nsize = ["8 in"]', "paper.size", "a list of 1"),
    (_ARTWORK, _ARTWORK + '\n[paper]\nsize = ["8 in", 11]', "paper.size[2]", "no unit"),
    (_ARTWORK, _ARTWORK + '\n[paper]\nmargin = "3 in"', "paper.margin", "to 50 mm"),
    (_ARTWORK, _ARTWORK + '\n[paper]\nsize = "a5"\nmargin = "50 mm"', "paper.margin", "no room"),
    (_ARTWORK, _ARTWORK + "\n[printer]\nx = 1.2", "printer.x", "from 0.9 to 1.1"),
    (_ARTWORK, _ARTWORK + "\n[printer]\ny = nan", "printer.y", "found nan"),
    (_ARTWORK, _ARTWORK + '\n[printer]\nx = "1.0"', "printer.x", "without quotes"),
    (_ARTWORK, _ARTWORK + '\n[cutter]\nkerf = "-0.1 mm"', "cutter.kerf", "from 0 mm"),
    (_ARTWORK, _ARTWORK + '\n[cutter]\nbed = "600 mm"', "cutter.bed", "a width and a height"),
    (_ARTWORK, _ARTWORK + "\n[cutter]\nmaterial = 3", "cutter.material", "found 3"),
    (_ARTWORK, _ARTWORK + '\n[press]\nplaten = ["16 in", "0 in"]', "press.platen[2]", "from"),
    (_ARTWORK, _ARTWORK + '\n[press]\nplate = ["16 in", "20 in"]', "press.plate", "'platen'?"),
    (_ARTWORK, _ARTWORK + '\n[transfer]\nstep = "0 mm"', "transfer.step", "from 1 mm"),
    (_ARTWORK, _ARTWORK + '\n[transfer]\ntrim = "6"', "transfer.trim", "no unit"),
]


@pytest.mark.parametrize(("old", "new", "key", "says"), _BROKEN)
def test_one_thing_wrong(old: str, new: str, key: str, says: str) -> None:
    """One mistake gives one problem, at its key, in words that tell what to do."""
    assert GOOD.count(old) == 1
    problems = _problems(GOOD.replace(old, new))

    assert [(one.place.file, one.place.key) for one in problems] == [("order.toml", key)]
    assert says in str(problems[0])
    assert len(problems[0].lines()) == 1


def test_everything_at_once() -> None:
    """Mistakes in different places are all named in one run."""
    text = GOOD.replace("navy", "nayv").replace("S = 4", "S = -4").replace("left-", "lft-")

    assert [one.place.key for one in _problems(text)] == [
        "garments[1].colour",
        "garments[1].sizes.S",
        "prints[1].location",
    ]


def test_a_misspelt_key() -> None:
    """A misspelt key is named with the right one, and the right one is missed."""
    problems = _problems(GOOD.replace("colour =", "color ="))

    assert [one.place.key for one in problems] == ["garments[1].color", "garments[1].colour"]
    assert "did you mean 'colour'?" in str(problems[0])


def test_a_nameless_garment_is_blamed_alone() -> None:
    """A print that names a garment is not blamed while a garment lacks its name."""
    text = GOOD.replace('name = "adult"\n', "") + 'garments = ["adult"]\n'

    assert [one.place.key for one in _problems(text)] == ["garments[1].name"]


def test_unknown_names_are_their_own_kind() -> None:
    """A wrong name is an Unknown, and remembers the name."""
    (problem,) = _problems(GOOD.replace("left-chest", "left-chset"))

    assert isinstance(problem, Unknown)
    assert problem.name == "left-chset"


@pytest.mark.parametrize(
    ("text", "where", "says"),
    [
        ('a = "x\n', "line 1, column ", 'begins and ends with "'),
        ("a = \u201cx\u201d\n", "line 1, column ", "straight quotes"),
        ('drop = "3""\n', "line 1, column ", "write an inch as in"),
        ('\na = "art\\crest.svg"\n', "line 2, column ", "forward slashes"),
        ("a = 1\na = 2\n", "line 2, column ", "Cannot overwrite"),
        ("a = [1,\n", "end of document", "brackets"),
        ("a = 1\rb = 2", "line 1, column ", "not TOML"),
        (f"x = {'9' * 900}", "reference", "missing"),
        (f"x = {'[' * 900}", "", "nested too deep"),
        ("x" * 1001, "line 1", "1001 letters"),
        ("#\n" * LONGEST_FILE, "", "letters"),
        ("", "reference", "missing"),
        ("x = 1979-13-01", "line 1, column ", "not TOML"),
    ],
)
def test_not_toml(text: str, where: str, says: str) -> None:
    """What the TOML parser refuses is said with line and column, and a likely cause."""
    problem = next(one for one in _problems(text) if one.place.key.startswith(where))

    assert says in str(problem)


def test_many_strangers() -> None:
    """A file full of unknown keys gives a short answer."""
    text = GOOD.replace("[[g", "".join(f"k{i} = 1\n" for i in range(15_000)) + "[[g", 1)

    assert len(_problems(text)) == 10


def _only_jigs_errors(text: str) -> None:
    order = _order_or_error(text)
    if isinstance(order, Order):
        assert order.garments
        assert order.prints
        assert all(count > 0 for line in order.garments for _, count in line.quantities)
    else:
        assert all(line.isprintable() and len(line) < 3000 for line in order.lines())


def _order_or_error(text: str) -> Order | JigsError:
    try:
        return read(text, "order.toml", KNOWN)
    except JigsError as error:
        return error


_LINES = [line for line in DEMO.split("\n") if line and not line.startswith("#")]
_PIECES = (
    "",
    "0",
    "-1",
    "true",
    '"',
    "[",
    "{}",
    "[[prints]]",
    "= ",
    "nan",
    "1979-05-27",
    "\\",
    "é",
)


@given(st.data())
def test_lines_out_of_place(data: st.DataObject) -> None:
    """An order with lines lost, doubled and moved is an order still, or bad input."""
    lines = list(_LINES)
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(lines) - 1))
        other = data.draw(st.sampled_from(lines))
        lines[at : at + 1] = data.draw(
            st.sampled_from([[], [lines[at]] * 2, [other], [lines[at], other]])
        )
    _only_jigs_errors("\n".join(lines))


@given(st.data())
def test_letters_out_of_place(data: st.DataObject) -> None:
    """An order with letters lost, doubled and replaced is an order still, or bad input."""
    text = "\n".join(_LINES)
    for _ in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(text) - 1))
        piece = data.draw(st.one_of(st.sampled_from(_PIECES), st.characters()))
        length = data.draw(st.integers(0, 3))
        text = text[:at] + piece + text[at + length :]
    _only_jigs_errors(text)


_VALUES = st.recursive(
    st.one_of(
        st.sampled_from(['"3 in"', '"auto"', '"navy"', '"adult"', '"a4"', '"-1 in"', '"1/0 in"']),
        st.integers().map(str),
        st.floats().map(repr),
        st.sampled_from(["true", "0x" + "f" * 900, "07:32:00", "1979-05-27T07:32:00Z", "''"]),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(lambda items: f"[{', '.join(items)}]"),
        st.lists(inner, max_size=3).map(
            lambda items: "{" + ", ".join(f'"{i}" = {item}' for i, item in enumerate(items)) + "}"
        ),
    ),
    max_leaves=6,
)


@given(st.sampled_from([i for i, line in enumerate(_LINES) if " = " in line]), _VALUES)
def test_any_value_anywhere(at: int, value: str) -> None:
    """Any value of any type for any key gives an order, or bad input."""
    lines = list(_LINES)
    lines[at] = f"{lines[at].split(' = ')[0]} = {value}"
    _only_jigs_errors("\n".join(lines))
