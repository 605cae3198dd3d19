"""What to do at the lathe and the mill for a one-off part, computed for one shop's own machines.

Level 1 are functions of numbers whose units are in their names; they take arrays. Level 2 are answers for a
person: lengths come as text with a unit, results print themselves and say what they rest on.

Importing the package loads the compiled core only; everything else, NumPy too, loads when it is first used.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from halfnut._core import (
    BuildUp,
    DesignationError,
    DomainError,
    Error,
    Length,
    NotTabulatedError,
    TableError,
    Thread,
    UnitError,
    __version__,
)
from halfnut.core.pages import drawn_by

if TYPE_CHECKING:
    from halfnut import (
        batch,
        cli,
        core,
        cutting,
        demo,
        drawing,
        fits,
        knurls,
        machine,
        material,
        planning,
        sheet,
        threads,
    )
    from halfnut.core.catalogue import shop
    from halfnut.core.mistakes import InputError
    from halfnut.core.units import inch, mm, quantity
    from halfnut.cutting.questions import (
        bore,
        chase,
        choose,
        counterbore,
        countersink,
        divide,
        drill,
        face,
        force_band,
        gear_train,
        groove,
        helix,
        hold,
        knurl,
        mill,
        part_off,
        polygon,
        positions,
        ramp,
        ream,
        saw,
        screw_hole,
        sine_bar,
        spot,
        tap,
        taper,
        thread_speed,
        tool_life,
        translating_pairs,
        turn,
    )
    from halfnut.drawing.charts import force_map, pass_plan, speed_chart
    from halfnut.fits.questions import cylindrical_fit, holding_taper, preferred_fits
    from halfnut.knurls.questions import knurl_blank, knurl_setup
    from halfnut.knurls.wheels import suitable_wheels
    from halfnut.machine.machines import lathe, milling_machine
    from halfnut.material.questions import alloy, coating
    from halfnut.planning.plans import Plan, plan
    from halfnut.threads.questions import (
        adjuster,
        blind_hole,
        clearance_hole,
        cut_to_suit,
        fit,
        galling,
        identify_thread,
        judge,
        limits,
        minimum_strength,
        plain_thread,
        precoat,
        screw_seat,
        shop_plug,
        strength,
        taper_pipe,
        tapping_hole,
        threads_near,
        tighten,
        wires,
    )
    from halfnut.threads.standard import ThreadLimits, thread

_WORDS = "batch cli core cutting demo drawing fits knurls machine material planning sheet threads"
_ROOMS = frozenset(_WORDS.split(" "))

_NAMES = {
    "core.catalogue": "shop",
    "core.mistakes": "InputError",
    "core.units": "inch mm quantity",
    "cutting.questions": "bore chase choose counterbore countersink divide drill face force_band gear_train "
    "groove helix hold knurl mill part_off polygon positions ramp ream saw screw_hole sine_bar spot tap taper "
    "thread_speed tool_life translating_pairs turn",
    "drawing.charts": "force_map pass_plan speed_chart",
    "fits.questions": "cylindrical_fit holding_taper preferred_fits",
    "knurls.questions": "knurl_blank knurl_setup",
    "knurls.wheels": "suitable_wheels",
    "machine.machines": "lathe milling_machine",
    "material.questions": "alloy coating",
    "planning.plans": "Plan plan",
    "threads.questions": "adjuster blind_hole clearance_hole cut_to_suit fit galling identify_thread judge limits "
    "minimum_strength plain_thread precoat screw_seat shop_plug strength taper_pipe tapping_hole threads_near tighten "
    "wires",
    "threads.standard": "ThreadLimits thread",
}
_HOMES = {name: home for home, names in _NAMES.items() for name in names.split()}

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
    "batch",
    "blind_hole",
    "bore",
    "chase",
    "choose",
    "clearance_hole",
    "cli",
    "coating",
    "core",
    "counterbore",
    "countersink",
    "cut_to_suit",
    "cutting",
    "cylindrical_fit",
    "demo",
    "divide",
    "drawing",
    "drill",
    "face",
    "fit",
    "fits",
    "force_band",
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
    "knurls",
    "lathe",
    "limits",
    "machine",
    "material",
    "mill",
    "milling_machine",
    "minimum_strength",
    "mm",
    "part_off",
    "pass_plan",
    "plain_thread",
    "plan",
    "planning",
    "polygon",
    "positions",
    "precoat",
    "preferred_fits",
    "quantity",
    "ramp",
    "ream",
    "saw",
    "screw_hole",
    "screw_seat",
    "sheet",
    "shop",
    "shop_plug",
    "sine_bar",
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
    "threads",
    "threads_near",
    "tighten",
    "tool_life",
    "translating_pairs",
    "turn",
    "wires",
]


# The core's classes that a person meets say where a person finds them.
for _class in (Length, Thread):
    _class.__module__ = "halfnut"
BuildUp.__module__ = "halfnut.material"

drawn_by(lambda name: getattr(import_module("halfnut.sheet"), name))


def __getattr__(name: str) -> Any:
    if name in _ROOMS:
        return import_module(f"halfnut.{name}")
    home = _HOMES.get(name)
    if home is None:
        raise AttributeError(f"module 'halfnut' has no attribute {name!r}")
    value = getattr(import_module(f"halfnut.{home}"), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted(__all__)
