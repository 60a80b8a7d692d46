"""The plan: everything an order comes to, before anything is drawn on paper."""

from jigs.plan.plan import (
    Garment,
    JigPlan,
    Plan,
    PrintPlan,
    Shop,
    SizePlan,
    TableFacts,
    TeamEntry,
    TeamMark,
    TeamPlan,
    TeamPrint,
)

__all__ = [
    "Garment",
    "JigPlan",
    "Plan",
    "PrintPlan",
    "Shop",
    "SizePlan",
    "TableFacts",
    "TeamEntry",
    "TeamMark",
    "TeamPlan",
    "TeamPrint",
]
