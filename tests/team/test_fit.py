"""What is set fits: by the rule's heights, and inside the garment's printable zone."""

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from jigs.errors import Place
from jigs.locations import place
from jigs.order.order import Press
from jigs.plan.prints import Site
from jigs.plan.sizes import Sized
from jigs.team.fit import (
    Fit,
    Setting,
    name_fit,
    name_setting,
    number_fit,
    number_setting,
    remarks,
)
from jigs.team.lettering import WEIGHTS, overshoot
from jigs.team.places import GAP, below, location
from jigs.team.rules import Rule, named
from jigs.team.stroke import stroke
from tests.shipped import sizes

PLACE = Place("order.toml", "team.rules")
FIFA = named("fifa", PLACE)
PLATEN = (Press().platen_width, Press().platen_height)


def site(kind: str, table: str, size: str) -> Site:
    """Return where a kind of print hangs on one size of a shipped table."""
    one: Sized = next(one for one in sizes(table) if one.key == f"{table}/{size}")
    return Site(one, place(location(kind), one.flat, PLATEN))


def test_a_name_is_as_high_as_the_rule_allows() -> None:
    """Of 7.5 cm that a rule allows the round letters take all, the flat ones a little less."""
    setting, findings = name_setting(FIFA.back_name, None, "mm")
    assert findings == ()
    over = max(overshoot(weight, figures=False) for weight in WEIGHTS)
    assert setting.height * over == pytest.approx(75.0)


def test_a_number_is_a_little_higher_than_the_rule_asks() -> None:
    """Without a wish a number is 5 mm above the least, in a weight whose stroke is allowed."""
    setting, findings = number_setting("back-number", FIFA.back_number, None, "mm")
    assert findings == ()
    assert setting.height == 255.0
    assert setting.thin is not None
    assert 30.0 <= setting.thin <= stroke(setting.weight).wide * 255.0 <= 50.0


@pytest.mark.parametrize(
    ("rule", "height"),
    [
        (Rule(least=200.0), 205.0),
        (Rule(least=250.0, most=250.0), 250.0),
        (Rule(), 250.0),
        (Rule(least=100.0, most=104.0), 104.0 / max(overshoot(w, figures=True) for w in WEIGHTS)),
    ],
)
def test_heights_without_a_wish(rule: Rule, height: float) -> None:
    """A number keeps to its rule from both sides; with no rule it is 25 cm high."""
    setting, findings = number_setting("back-number", rule, None, "mm")
    assert findings == ()
    assert setting.height == pytest.approx(height, rel=1e-4)


@pytest.mark.parametrize(("rule", "height"), [(Rule(), 50.0), (Rule(least=40.0), 45.0)])
def test_names_without_a_most(rule: Rule, height: float) -> None:
    """A name without a greatest height is a little above the least, or 5 cm high."""
    assert name_setting(rule, None, "mm")[0].height == height


@pytest.mark.parametrize("wanted", [240.0, 249.9, 351.0, 345.0])
def test_a_height_the_rule_forbids(wanted: float) -> None:
    """A wish below the least, or whose round figures pass the most, blocks and says both."""
    (one,) = number_setting("back-number", FIFA.back_number, wanted, "mm")[1]
    assert one.blocks
    assert "at least 250 mm" in one.says
    assert "at most 350 mm" in one.says


@pytest.mark.parametrize("wanted", [250.0, 300.0, 337.0])
def test_a_height_the_rule_allows(wanted: float) -> None:
    """A wish within the rule is taken as it is."""
    setting, findings = number_setting("back-number", FIFA.back_number, wanted, "mm")
    assert findings == ()
    assert setting.height == wanted


def test_a_stroke_no_weight_has() -> None:
    """A stroke that the font has in no weight blocks, and says what each weight has."""
    setting, findings = number_setting("back-number", Rule(stroke_least=90.0), 250.0, "mm")
    (one,) = findings
    assert one.blocks
    assert setting.weight == "Black"
    assert all(weight in one.says for weight in WEIGHTS)


def test_a_stroke_of_about_is_only_remarked() -> None:
    """A rule that says about how wide a stroke is is missed without blocking."""
    (one,) = number_setting("back-number", Rule(stroke_about=90.0), 250.0, "mm")[1]
    assert not one.blocks
    assert "about 90 mm" in one.says


def test_a_short_name_keeps_the_teams_height() -> None:
    """A name with room to spare is as high as the team's."""
    setting = name_setting(FIFA.back_name, None, "mm")[0]
    fit = name_fit("ABBOTT", setting, site("back-name", "adult-crew-tee", "L").placement)
    assert fit.height == setting.height
    assert fit.most > setting.height


def test_a_long_name_is_shrunk() -> None:
    """A name too long for its garment is lower, by whole millimetres, as a whole."""
    setting = name_setting(FIFA.back_name, None, "mm")[0]
    where = site("back-name", "adult-crew-tee", "M")
    fit = name_fit("MONTGOMERY", setting, where.placement)
    assert 50.0 <= fit.height < setting.height
    assert fit.height == pytest.approx(round(fit.height))
    assert fit.most - 1 < fit.height <= fit.most
    short = name_fit("ABBOTT", setting, where.placement)
    assert fit.ink_height / fit.height == pytest.approx(short.ink_height / short.height, rel=0.01)


def test_a_name_that_cannot_be_low_enough() -> None:
    """A name that fits only below the rule's least blocks, and says how high it could be."""
    setting = name_setting(FIFA.back_name, None, "mm")[0]
    where = site("back-name", "youth-crew-tee", "S")
    fit = name_fit("MONTGOMERY-ANDERSON", setting, where.placement)
    (one,) = remarks("MONTGOMERY-ANDERSON", setting, fit, "youth S", "mm")
    assert one.blocks
    assert one.about == "name MONTGOMERY-ANDERSON"
    assert "mm high is the most that fits on youth S" in one.says
    assert "the rule asks at least 50 mm" in one.says
    assert fit.height <= fit.most


def test_the_step_does_not_pass_the_rule() -> None:
    """A name that fits at the rule's least, but not at a whole millimetre above, has the least."""
    where = site("back-name", "adult-crew-tee", "M")
    free = name_fit(
        "MONTGOMERY-ANDERSON", Setting("back-name", "Bold", 70.0, None), where.placement
    )
    least = free.most - 1e-4
    setting = Setting("back-name", "Bold", 70.0, least)
    fit = name_fit("MONTGOMERY-ANDERSON", setting, where.placement)
    assert fit.height == pytest.approx(least, abs=1e-3)
    assert remarks("X", setting, fit, "adult M", "mm") == []


def test_a_number_too_wide_for_its_garment() -> None:
    """A number that does not fit keeps its height and blocks."""
    setting = number_setting("back-number", FIFA.back_number, None, "mm")[0]
    where = site("back-number", "infant-crew-tee", "NB")
    fit = number_fit("88", setting, where.placement)
    (one,) = remarks("88", setting, fit, "infant NB", "mm")
    assert fit.height == setting.height
    assert one.blocks
    assert one.about == "back number 88"
    assert "the rule asks at least 250 mm" in one.says


def test_a_number_above_the_rule_that_could_be_lower() -> None:
    """A number that would fit within the rule if it were lower is told to be."""
    where = site("back-number", "adult-crew-tee", "S")
    free = number_setting("back-number", Rule(least=50.0), 60.0, "mm")[0]
    most = number_fit("88", free, where.placement).most
    setting = number_setting("back-number", Rule(least=50.0), most + 5, "mm")[0]
    (one,) = remarks("88", setting, number_fit("88", setting, where.placement), "adult S", "mm")
    assert one.blocks
    assert "give a lower height" in one.says


def test_a_missing_letter_blocks() -> None:
    """A letter the font lacks is named."""
    setting = name_setting(Rule(), None, "mm")[0]
    fit = name_fit("A中", setting, site("back-name", "adult-crew-tee", "M").placement)
    (one,) = remarks("A中", setting, fit, "adult M", "mm")
    assert one.blocks
    assert "中" in one.says


def test_a_name_too_low_to_read_is_remarked() -> None:
    """Without a rule a name may become lower than an inch, and that is said."""
    setting = name_setting(Rule(), None, "mm")[0]
    where = site("back-name", "toddler-crew-tee", "2T")
    text = "MONTGOMERY-ANDERSON-LLEWELLYN"
    (one,) = remarks(text, setting, name_fit(text, setting, where.placement), "toddler 2T", "mm")
    assert not one.blocks
    assert one.says.startswith("only ")


def test_no_room_at_all() -> None:
    """Where a seam lies across the place nothing fits, and that blocks without any rule."""
    setting = name_setting(Rule(), None, "mm")[0]
    one = site("back-name", "adult-crew-tee", "M")
    off = place(location("back-name"), one.sized.flat, PLATEN, 0.0)
    fit = name_fit("ABBOTT", setting, off)
    (found,) = remarks("ABBOTT", setting, fit, "adult M", "mm")
    assert found.blocks
    assert found.says == "there is no room for it on adult M: the collar seam is too close"


def test_a_number_hangs_below_its_name() -> None:
    """A number starts a gap below the name's capitals, the rule's or the usual one."""
    assert below(50.0, 75.0, 40.0) == 165.0
    assert below(50.0, 75.0, None) == 125.0 + GAP


_NAMES = st.text(alphabet="ABCDEFGHIJKLMNOPQRSTUVWXYZÅÇŁỄ'-", min_size=1, max_size=24)
_SIZES = st.sampled_from(
    [("adult-crew-tee", "S"), ("adult-crew-tee", "3XL"), ("youth-crew-tee", "XS"),
     ("womens-crew-tee", "M"), ("toddler-crew-tee", "2T"), ("infant-crew-tee", "NB")]
)  # fmt: skip


@given(_NAMES, _SIZES, st.floats(20, 120))
def test_a_fitted_name_lies_inside_the_zone(name: str, on: tuple[str, str], wanted: float) -> None:
    """Whatever the name and the garment, its box is in the printable zone, or a finding blocks."""
    setting = name_setting(Rule(), wanted, "mm")[0]
    where = site("back-name", *on)
    fit = name_fit(name, setting, where.placement)
    blocked = any(one.blocks for one in remarks(name, setting, fit, where.key, "mm"))
    assert blocked or inside(fit, where)
    assert fit.height <= wanted + 1e-9


@given(st.integers(0, 99), _SIZES, st.floats(20, 300))
def test_a_fitted_number_lies_inside_the_zone(
    number: int, on: tuple[str, str], wanted: float
) -> None:
    """A number's box is in the zone exactly if no finding blocks."""
    setting = number_setting("back-number", Rule(), wanted, "mm")[0]
    where = site("back-number", *on)
    fit = number_fit(str(number), setting, where.placement)
    blocked = any(one.blocks for one in remarks(str(number), setting, fit, where.key, "mm"))
    assert blocked or inside(fit, where)
    assert blocked == (fit.most < max(wanted - 1e-6, 5.0))


def inside(fit: Fit, where: Site) -> bool:
    """Return whether a text's box, hung where it hangs, lies in the printable zone."""
    zone = where.placement.zone()
    x, y = where.placement.anchor
    half = fit.ink_width / 2
    top = y - fit.rise
    box = shapely.box(x - half, top, x + half, top + fit.ink_height)
    return zone is not None and shapely.Polygon(zone.points()).buffer(0.05).covers(box)
