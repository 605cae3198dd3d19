"""Level 1 as functions of Python: signatures, the ways to call them, pickles."""

import inspect
import pickle
import re

import numpy as np
import pytest

from halfnut import _core

FORMULAS = {
    name: re.findall(r"^(\w+) : float or array_like$", value.__doc__, re.MULTILINE)
    for name, value in vars(_core).items()
    if " : float or array_like" in (getattr(value, "__doc__", None) or "")
}


def test_there_are_formulas_of_every_room():
    assert {"gear_centres_mm", "tolerance_unit_um", "lead_angle_deg", "teeth_around", "spindle_speed_rpm"} <= {
        *FORMULAS
    }


@pytest.mark.parametrize("name", FORMULAS)
def test_a_formula_is_a_plain_function_of_its_module(name):
    function = getattr(_core, name)
    signature = inspect.signature(function)
    assert [*signature.parameters] == [*FORMULAS[name], "on_error"]
    assert signature.parameters["on_error"].default == "raise"
    assert (function.__name__, function.__qualname__, function.__module__) == (name, name, "halfnut._core")
    assert pickle.loads(pickle.dumps(function)) is function


def test_arguments_come_by_place_or_by_name_in_any_order():
    wanted = _core.spindle_speed_rpm(100.0, 25.0)
    named = "".join(["diameter", "_mm"])  # a name that Python has not made one with the function's own
    assert _core.spindle_speed_rpm(**{named: 25.0}, cutting_speed_m_min=100.0) == wanted
    assert _core.spindle_speed_rpm(100, diameter_mm=np.float64(25.0)) == wanted
    assert type(_core.spindle_speed_rpm(np.float64(100.0), 25.0)) is float
    assert _core.spindle_speed_rpm([100.0], 25.0).tolist() == [wanted]
    values, codes = _core.spindle_speed_rpm(100.0, 25.0, "status")
    assert (values.tolist(), codes.tolist()) == (wanted, 0)


@pytest.mark.parametrize(
    ("given", "named", "message"),
    [
        ((100.0,), {}, r"spindle_speed_rpm\(\) missing required argument 'diameter_mm' \(pos 2\)"),
        ((100.0, 25.0, "raise", 1.0), {}, r"takes at most 3 arguments \(4 given\)"),
        ((100.0, 25.0), {"diameter_mm": 25.0}, "got multiple values for argument 'diameter_mm'"),
        ((100.0, 25.0), {"diameter": 25.0}, "got an unexpected keyword argument 'diameter'"),
        ((100.0, 25.0), {"on_error": None}, "argument 'on_error' must be str, not NoneType"),
    ],
)
def test_a_wrong_call_is_a_type_error_in_python_s_words(given, named, message):
    with pytest.raises(TypeError, match=message):
        _core.spindle_speed_rpm(*given, **named)
