"""What the order tests share: the names that exist, the demo order, and a small good one."""

from importlib.resources import files

from jigs.order.read import Known

KNOWN = Known(
    locations=("left-chest", "full-front", "full-back", "left-sleeve", "neck-label"),
    styles=("window", "ledge", "film"),
    tables=("adult-crew-tee", "youth-crew-tee", "womens-crew-tee"),
)
DEMO = files("jigs").joinpath("demo/order.toml").read_text(encoding="utf-8")
GOOD = """\
reference = "spring"
customer = "Somebody"

[[garments]]
name = "adult"
table = "adult-crew-tee"
colour = "navy"
sizes = { S = 4, "2XL" = 3 }

[[prints]]
location = "left-chest"
artwork = "artwork/crest.svg"
"""
