"""The font as other libraries read it: fontTools its tables, FreeType (in Pillow) its pixels."""

from functools import cache
from typing import Any

import fontpkg_barlow_condensed
from fontTools.ttLib import TTFont
from PIL import Image, ImageDraw, ImageFont


def file(weight: str) -> str:
    """Return the path of a weight's file."""
    return str(fontpkg_barlow_condensed.ROOT / "files" / f"BarlowCondensed-{weight}.ttf")


@cache
def tables(weight: str) -> Any:
    """Return a weight's tables."""
    return TTFont(file(weight))


@cache
def pixels(text: str, weight: str, em: int) -> Image.Image:
    """Return a text drawn by FreeType at so many pixels to the em, black on white."""
    font = ImageFont.truetype(file(weight), em, layout_engine=ImageFont.Layout.BASIC)
    left, top, right, bottom = font.getbbox(text)
    image = Image.new("L", (int(right - left) + 40, int(bottom - top) + 40), 255)
    ImageDraw.Draw(image).text((20 - left, 20 - top), text, font=font, fill=0)
    return image


def ink(text: str, weight: str, em: int) -> tuple[int, int, int, int]:
    """Return the box of a drawn text's ink: what is more than half covered."""
    box = pixels(text, weight, em).point(lambda grey: 255 if grey < 128 else 0).getbbox()
    assert box is not None
    return box


def covered(text: str, weight: str, em: int) -> float:
    """Return the area of a drawn text's ink in pixels."""
    histogram = pixels(text, weight, em).histogram()
    return sum(count * (255 - grey) / 255 for grey, count in enumerate(histogram))


def kern(one: str, two: str, weight: str) -> float:
    """Return the pair adjustment of two letters in the GPOS table, in the font's units."""
    font = tables(weight)
    names, table = font.getBestCmap(), font["GPOS"].table
    left, right = names[ord(one)], names[ord(two)]
    wanted = {
        index
        for record in table.FeatureList.FeatureRecord
        if record.FeatureTag == "kern"
        for index in record.Feature.LookupListIndex
    }
    for index in sorted(wanted):
        for outer in table.LookupList.Lookup[index].SubTable:
            sub = outer.ExtSubTable if hasattr(outer, "ExtSubTable") else outer
            value = _pair(sub, left, right)
            if value is not None:
                return value
    return 0.0


def _pair(sub: Any, left: str, right: str) -> float | None:
    """Return what a PairPos subtable says of a pair; None if it does not speak of it."""
    if left not in sub.Coverage.glyphs:
        return None
    if sub.Format == 1:
        for record in sub.PairSet[sub.Coverage.glyphs.index(left)].PairValueRecord:
            if record.SecondGlyph == right:
                return float(record.Value1.XAdvance)
        return None
    first = sub.ClassDef1.classDefs.get(left, 0)
    second = sub.ClassDef2.classDefs.get(right, 0)
    value = sub.Class1Record[first].Class2Record[second].Value1
    return float(value.XAdvance) if value is not None and hasattr(value, "XAdvance") else 0.0
