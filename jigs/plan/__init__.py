"""The plan: everything an order comes to, before anything is drawn on paper."""

from jigs.plan.plan import (
    Contrast,
    Garment,
    HeldAt,
    Holding,
    JigPlan,
    Load,
    Lying,
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
    "Contrast",
    "Garment",
    "HeldAt",
    "Holding",
    "JigPlan",
    "Load",
    "Lying",
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
