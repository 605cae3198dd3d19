"""What to do at the lathe and the mill for a one-off part, computed for one shop's own machines.

Level 1 are functions of numbers whose units are in their names; they take arrays. Level 2 are answers for a
person: lengths come as text with a unit, results print themselves and say what they rest on.

Importing the package loads the compiled core only; everything else, NumPy too, loads when it is first used.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from halfnut._core import BuildUp, question, question_names
from halfnut._core import DesignationError as DesignationError
from halfnut._core import DomainError as DomainError
from halfnut._core import Error as Error
from halfnut._core import Length as Length
from halfnut._core import NotTabulatedError as NotTabulatedError
from halfnut._core import TableError as TableError
from halfnut._core import Thread as Thread
from halfnut._core import UnitError as UnitError
from halfnut._core import __version__ as __version__
from halfnut.core.pages import drawn_by

if TYPE_CHECKING:
    from halfnut import batch as batch
    from halfnut import cli as cli
    from halfnut import core as core
    from halfnut import cutting as cutting
    from halfnut import demo as demo
    from halfnut import drawing as drawing
    from halfnut import fits as fits
    from halfnut import knurls as knurls
    from halfnut import machine as machine
    from halfnut import material as material
    from halfnut import planning as planning
    from halfnut import sheet as sheet
    from halfnut import threads as threads
    from halfnut.core.catalogue import shop as shop
    from halfnut.core.mistakes import InputError as InputError
    from halfnut.core.units import inch as inch
    from halfnut.core.units import mm as mm
    from halfnut.core.units import quantity as quantity
    from halfnut.cutting.questions import *
    from halfnut.drawing.charts import force_map as force_map
    from halfnut.drawing.charts import pass_plan as pass_plan
    from halfnut.drawing.charts import speed_chart as speed_chart
    from halfnut.fits.questions import *
    from halfnut.knurls.questions import *
    from halfnut.machine.machines import lathe as lathe
    from halfnut.machine.machines import milling_machine as milling_machine
    from halfnut.material.questions import *
    from halfnut.planning.plans import Plan as Plan
    from halfnut.planning.plans import plan as plan
    from halfnut.threads.questions import *
    from halfnut.threads.standard import ThreadLimits as ThreadLimits
    from halfnut.threads.standard import thread as thread

_WORDS = "batch cli core cutting demo drawing fits knurls machine material planning sheet threads"
_ROOMS = frozenset(_WORDS.split(" "))
_NAMES = {
    "core.catalogue": "shop",
    "core.mistakes": "InputError",
    "core.units": "inch mm quantity",
    "drawing.charts": "force_map pass_plan speed_chart",
    "machine.machines": "lathe milling_machine",
    "planning.plans": "Plan plan",
    "threads.standard": "ThreadLimits thread",
}
_HOMES = {name: home for home, names in _NAMES.items() for name in names.split(" ")}
_QUESTIONS = frozenset(question_names())

# The core's classes that a person meets say where a person finds them.
for _class in (Length, Thread):
    _class.__module__ = "halfnut"
BuildUp.__module__ = "halfnut.material"

drawn_by(lambda name: getattr(import_module("halfnut.sheet"), name))


def __getattr__(name: str) -> Any:
    if name == "__all__":
        return __dir__()
    if name in _ROOMS:
        return import_module(f"halfnut.{name}")
    home = f"{question(name)['room']}.questions" if name in _QUESTIONS else _HOMES.get(name)
    if home is None:
        raise AttributeError(f"module 'halfnut' has no attribute {name!r}")
    value = getattr(import_module(f"halfnut.{home}"), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    errors = (name for name, value in globals().items() if isinstance(value, type) and issubclass(value, Error))
    return sorted({"Length", "Thread", "__version__", *errors, *_ROOMS, *_HOMES, *_QUESTIONS})
