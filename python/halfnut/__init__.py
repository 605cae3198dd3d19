"""What to do at the lathe and the mill for a one-off part, computed for one shop's own machines.

Level 1 are functions of numbers whose units are in their names; they take arrays. Level 2 are answers for a
person: lengths come as text with a unit, results print themselves and say what they rest on.

Importing the package loads NumPy and the compiled core only; everything else loads when it is first used.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from halfnut._core import (
    DesignationError,
    DomainError,
    Error,
    Length,
    NotTabulatedError,
    TableError,
    UnitError,
    __version__,
)

if TYPE_CHECKING:
    from halfnut import batch as batch
    from halfnut.adjusters import adjuster
    from halfnut.catalogue import shop
    from halfnut.charts import force_map, pass_plan, speed_chart
    from halfnut.chasing import chase
    from halfnut.choosing import choose
    from halfnut.coatings import coating
    from halfnut.cutting import bore, drill, face, knurl, mill, part_off, ream, spot, tap, thread_speed, turn
    from halfnut.cylindrical_fits import cylindrical_fit, preferred_fits
    from halfnut.edges import tool_life
    from halfnut.form_holes import blind_hole, tapping_hole
    from halfnut.form_strength import strength
    from halfnut.form_threads import limits, precoat, taper_pipe, thread
    from halfnut.found_threads import identify_thread, threads_near
    from halfnut.gauging import judge, shop_plug, wires
    from halfnut.gears import gear_train, translating_pairs
    from halfnut.holding import hold
    from halfnut.hole_sizes import clearance_hole, counterbore, countersink
    from halfnut.knurl_setups import knurl_setup
    from halfnut.knurl_wheels import suitable_wheels
    from halfnut.knurls import knurl_blank
    from halfnut.machines import lathe, milling_machine
    from halfnut.material import alloy
    from halfnut.mistakes import InputError
    from halfnut.plain_threads import plain_thread
    from halfnut.planning import Plan, plan
    from halfnut.special import groove, helix, ramp, saw, taper
    from halfnut.tapers import holding_taper
    from halfnut.thread_fits import cut_to_suit, fit
    from halfnut.thread_strength import galling, minimum_strength, tighten
    from halfnut.threads import Thread, ThreadLimits
    from halfnut.units import inch, mm, quantity

_HOMES = {
    "InputError": "mistakes",
    "Plan": "planning",
    "Thread": "threads",
    "ThreadLimits": "threads",
    "adjuster": "adjusters",
    "alloy": "material",
    "blind_hole": "form_holes",
    "bore": "cutting",
    "chase": "chasing",
    "choose": "choosing",
    "clearance_hole": "hole_sizes",
    "coating": "coatings",
    "counterbore": "hole_sizes",
    "countersink": "hole_sizes",
    "cut_to_suit": "thread_fits",
    "cylindrical_fit": "cylindrical_fits",
    "drill": "cutting",
    "face": "cutting",
    "fit": "thread_fits",
    "force_map": "charts",
    "galling": "thread_strength",
    "gear_train": "gears",
    "groove": "special",
    "helix": "special",
    "hold": "holding",
    "holding_taper": "tapers",
    "identify_thread": "found_threads",
    "inch": "units",
    "judge": "gauging",
    "knurl": "cutting",
    "knurl_blank": "knurls",
    "knurl_setup": "knurl_setups",
    "lathe": "machines",
    "limits": "form_threads",
    "mill": "cutting",
    "milling_machine": "machines",
    "minimum_strength": "thread_strength",
    "mm": "units",
    "part_off": "cutting",
    "pass_plan": "charts",
    "plain_thread": "plain_threads",
    "plan": "planning",
    "precoat": "form_threads",
    "preferred_fits": "cylindrical_fits",
    "quantity": "units",
    "ramp": "special",
    "ream": "cutting",
    "saw": "special",
    "shop": "catalogue",
    "shop_plug": "gauging",
    "speed_chart": "charts",
    "spot": "cutting",
    "strength": "form_strength",
    "suitable_wheels": "knurl_wheels",
    "tap": "cutting",
    "taper": "special",
    "taper_pipe": "form_threads",
    "tapping_hole": "form_holes",
    "thread": "form_threads",
    "thread_speed": "cutting",
    "threads_near": "found_threads",
    "tighten": "thread_strength",
    "tool_life": "edges",
    "translating_pairs": "gears",
    "turn": "cutting",
    "wires": "gauging",
}

__all__ = [
    "DesignationError",
    "DomainError",
    "Error",
    "InputError",
    "Length",
    "NotTabulatedError",
    "Plan",
    "TableError",
    "Thread",
    "ThreadLimits",
    "UnitError",
    "__version__",
    "adjuster",
    "alloy",
    "blind_hole",
    "bore",
    "chase",
    "choose",
    "clearance_hole",
    "coating",
    "counterbore",
    "countersink",
    "cut_to_suit",
    "cylindrical_fit",
    "drill",
    "face",
    "fit",
    "force_map",
    "galling",
    "gear_train",
    "groove",
    "helix",
    "hold",
    "holding_taper",
    "identify_thread",
    "inch",
    "judge",
    "knurl",
    "knurl_blank",
    "knurl_setup",
    "lathe",
    "limits",
    "mill",
    "milling_machine",
    "minimum_strength",
    "mm",
    "part_off",
    "pass_plan",
    "plain_thread",
    "plan",
    "precoat",
    "preferred_fits",
    "quantity",
    "ramp",
    "ream",
    "saw",
    "shop",
    "shop_plug",
    "speed_chart",
    "spot",
    "strength",
    "suitable_wheels",
    "tap",
    "taper",
    "taper_pipe",
    "tapping_hole",
    "thread",
    "thread_speed",
    "threads_near",
    "tighten",
    "tool_life",
    "translating_pairs",
    "turn",
    "wires",
]


def __getattr__(name: str) -> Any:
    if name == "batch":
        return import_module("halfnut.batch")
    home = _HOMES.get(name)
    if home is None:
        raise AttributeError(f"module 'halfnut' has no attribute {name!r}")
    value = getattr(import_module(f"halfnut.{home}"), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *_HOMES, "batch"})
