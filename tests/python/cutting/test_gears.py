"""Change gears: published trains, a search that tries everything, mounting, judgement of the error, the faces."""

import csv
import math
import sys
from collections import Counter
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

import halfnut as hn
from halfnut import _core
from halfnut.cli import command

TESTS = Path(__file__).parents[2]
sys.path.insert(0, str(TESTS / "oracles"))
import gear_search as oracle  # noqa: E402

INCH = Fraction(127, 5)
EVERYDAY = [20, 24, 30, 32, 36, 40, 40, 44, 48, 52, 54, 56, 60, 64, 72, 80, 120, 127]


def rows():
    with (TESTS / "reference" / "machine" / "change_gears.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def agrees(got, printed):
    places = len(printed.split(".")[1]) if "." in printed else 0
    return abs(got - float(printed)) <= 0.5000001 * 10.0**-places


def lead_of(figure, unit):
    return INCH / Fraction(figure) if unit == "TPI" else Fraction(figure)


def test_published_trains():
    counted = Counter()
    for row in rows():
        if row["what"] == "train":
            drivers, driven = ([int(each) for each in row[name].split()] for name in ("drivers", "driven"))
            screw = lead_of(row["screw"], row["screw_unit"])
            got = hn.machine.train_lead_mm(float(screw), 1.0, math.prod(drivers), math.prod(driven))
            assert agrees(got if row["unit"] == "mm" else 25.4 / got, row["figure"]), row
            at_hand = [*drivers, *driven]
            if max(at_hand) <= 400 and len(at_hand) in (2, 4):
                # the search, given these gears and the lead that they give, finds them and calls them exact
                lead = screw * Fraction(math.prod(drivers), math.prod(driven))
                found = trains(lead, gears=at_hand, lead_mm=float(screw))
                assert (sorted(drivers), sorted(driven)) in [
                    (sorted(each.drivers), sorted(each.driven)) for each in found if each.exact
                ], row
        elif row["what"] == "rule":
            for screw in (4, 6, 8):
                for lead in (0.5, 1.75, 3.0):
                    assert hn.machine.train_lead_mm(25.4 / screw, 1.0, screw * lead * 5, 127) == pytest.approx(
                        lead, 1e-14
                    )
        elif row["what"] == "driven":
            screw = lead_of(row["screw"], row["screw_unit"])
            got = hn.machine.train_lead_mm(float(screw), 1.0, float(row["drivers"]), float(row["driven"]))
            assert agrees(25.4 / got, row["figure"] + "000"), row
            assert not gear_exists(2.3, "1.8 TPI", [20, *range(21, 60)])
        elif row["what"] == "pair":
            target = Fraction(row["note"]) if "/" in row["note"] else Fraction(1)
            error = Fraction(row["drivers"]) / Fraction(row["driven"]) / target - 1
            assert agrees(float(error) * 100, row["figure"]), row
            if "." not in row["driven"]:
                pair = [int(row["drivers"]), int(row["driven"])]
                found = hn.translating_pairs(
                    pair, simplest=1, error_percent=1, cut="millimetres" if row["note"] == "100/127" else "inches"
                )
                assert [(each.driver, each.driven) for each in found] == [tuple(pair)], row
                assert agrees(found[0].error * 100, row["figure"]), row
        elif row["what"] == "speed":
            per_foot = hn._core.spindle_speed_rpm(0.3048, 25.4)
            assert agrees(1 / per_foot, row["figure"]), row
        elif row["what"] == "root":
            pitch = 25.4 / float(row["screw"])
            depth = hn._core.chasing_depth_mm(25.4, 25.4 - pitch * math.sqrt(3) / 2, pitch, 30.0, 0.0, 0.0, 0.0)
            assert agrees((25.4 - 2 * depth) / 25.4, row["figure"]), row
        else:
            assert row["what"] == "compound"
            assert hn.chase("1/4-20 UNC-2A").compound_deg == float(row["figure"])
        counted[row["what"], row["grade"]] += 1
    assert counted == {
        ("train", "printed"): 32,
        ("train", "derived"): 23,
        ("pair", "derived"): 10,
        ("rule", "printed"): 1,
        ("driven", "printed"): 1,
        ("speed", "printed"): 1,
        ("root", "printed"): 1,
        ("compound", "printed"): 1,
    }
    assert len({row["id"] for row in rows()}) == 46


def trains(lead, limit=0.001, **threading):
    """Every train within a relative error that a lathe with this threading has for a lead in mm, best first."""
    lathe = _core.Machine(kind="lathe", name="lathe", threading=_core.Threading(**threading))
    # a lead has the digits of a float; the core takes the simplest ratio that it stands for
    found = hn.gear_train(hn.mm(float(lead)), machine=lathe, error_percent=100 * limit, most=10_000)
    return [] if found.error_percent > found.asked_percent else list(found)


def gear_exists(per_inch, screw, at_hand):
    found = hn.gear_train(f"{per_inch} TPI", gears=at_hand, leadscrew=screw, simple=True)
    return any(each.exact and 20 in each.drivers for each in found)


def sets(found):
    return {(*gears_of(each), box_of(each)): each.error for each in found}


def gears_of(train):
    return tuple(sorted(train.drivers)), tuple(sorted(train.driven))


def box_of(train):
    return int(train.positions[0][1]) if train.positions else None


LEADS = st.one_of(
    st.sampled_from([0.5, 0.7, 0.75, 0.8, 1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0]).map(lambda mm: Fraction(str(mm))),
    st.sampled_from([4, 8, 11, 13, 14, 18, 19, 20, 24, 27, 28]).map(lambda count: INCH / count),
)


@given(
    st.lists(st.sampled_from([*EVERYDAY, 35, 45, 47, 37, 63, 100]), min_size=2, max_size=8),
    LEADS,
    st.sampled_from([("8 TPI", INCH / 8), ("3 mm", Fraction(3)), ("4 TPI", INCH / 4)]),
    st.sampled_from([Fraction(1), Fraction(1, 2), Fraction(2, 3)]),
    st.sampled_from([0.0, 0.0005, 0.01, 0.2]),
    st.booleans(),
)
@settings(max_examples=150, deadline=None)
def test_the_search_against_trying_everything(at_hand, lead, screw, stud, limit, boxed):
    given = {"gears": at_hand, "lead_mm": float(screw[1]), "spindle_to_stud": float(stud)}
    steps = [(None, Fraction(1))]
    wanted = lead / screw[1] / stud
    if boxed:
        ratios = [Fraction(1, 4), Fraction(1, 2), Fraction(4, 9)]
        given |= {
            "standard_driver": 30,
            "standard_driven": 60,
            "gearbox": [box_step(*each) for each in enumerate(ratios)],
        }
        wanted = lead / screw[1]
        steps = [(place, ratio / Fraction(30, 60)) for place, ratio in enumerate(ratios)]
        # the gears of the gearbox's own train are on the lathe, whether they are counted or not
        at_hand = at_hand + [teeth for teeth in (30, 60) if teeth not in at_hand]
    found = trains(lead, limit, **given)
    everything = oracle.trains(at_hand, wanted, limit, steps)
    got = sets(found)
    edge = {key for key in got.keys() ^ everything.keys()}
    assert all(abs(abs(got.get(key, everything.get(key))) - limit) < 1e-8 for key in edge)
    for key in got.keys() & everything.keys():
        assert got[key] == pytest.approx(float(everything[key]), abs=1e-14)
    assert {key for key, error in everything.items() if error == 0} == {
        (*gears_of(each), box_of(each)) for each in found if each.exact
    }
    errors = [abs(each.error) for each in found]
    assert errors == sorted(errors)


def box_step(place, ratio):
    return _core.GearboxStep(ratio=float(ratio), positions=[_core.Position("lever", str(place))])


@pytest.mark.parametrize("lead", ["1 mm", "1.75 mm", "19 TPI", "2.3 mm", "0.333 mm", "27 TPI"])
def test_nothing_better_exists_among_the_gears_at_hand(lead):
    at_hand = [20, 25, 30, 35, 40, 45, 50, 57, 60, 65]
    found = hn.gear_train(lead, gears=at_hand, leadscrew="3 mm")
    wanted = lead_of(*lead.split()) / 3
    assert abs(found[0].error) == pytest.approx(float(oracle.best(at_hand, wanted)), abs=1e-15)


def test_thirty_gears_are_searched_whole():
    thirty = [*range(20, 77, 2), 127]
    assert len(thirty) == 30
    found = hn.gear_train("1.5 mm", gears=thirty, leadscrew="8 TPI", most=1000)
    direct = 0
    pairs = [(a, b) for place, a in enumerate(thirty) for b in thirty[place + 1 :]]
    for a, c in pairs:
        for b, d in pairs:
            if not {a, c} & {b, d} and abs(a * c * 127 / (b * d * 60) - 1) <= 0.001 + 1e-12:
                direct += 1
    simple = sum(abs(a * 127 / (b * 60) - 1) <= 0.001 for a in thirty for b in thirty if a != b)
    assert found.found == direct + simple
    assert found.found > 100


def test_the_translating_pairs_come_out_of_the_search():
    pairs = {(each.driver, each.driven): each for each in hn.translating_pairs()}
    assert pairs[127, 100].exact and pairs[127, 120].exact and (pairs[127, 120].num, pairs[127, 120].den) == (6, 5)
    assert pairs[47, 37].error == pytest.approx(2.1281e-4, rel=1e-3)
    back = {(each.driver, each.driven): each for each in hn.translating_pairs(cut="millimetres")}
    assert back[63, 80].error == pytest.approx(1.25e-4, rel=1e-3)
    for each in hn.translating_pairs():
        error = Fraction(each.driver * each.num, each.driven * each.den) / Fraction(127, 100) - 1
        assert each.error == pytest.approx(float(error), abs=1e-15)
        assert each.exact == (error == 0)
    # and a train that needs one uses it: no gear of 127 here
    found = hn.gear_train("1 mm", gears=[20, 40, 50, 60, 63, 80, 100], leadscrew="8 TPI")
    assert 63 in found[0].drivers and not found[0].exact


DISTANCES = st.fixed_dictionaries(
    {
        "module": st.sampled_from([1.0, 1.25, 1.5875, 2.0]),
        "span": st.floats(60, 260),
        "low": st.floats(20, 80),
        "high": st.floats(80, 260),
        "around_stud": st.floats(30, 90),
        "collar": st.floats(10, 40),
    }
)


@given(st.lists(st.sampled_from(EVERYDAY), min_size=3, max_size=9), LEADS, DISTANCES)
@settings(max_examples=200, deadline=None)
def test_mounting_against_coordinates(at_hand, lead, room):
    found = trains(
        lead, 0.05, gears=at_hand, lead_mm=25.4 / 8, module_mm=room["module"], stud_to_screw_mm=room["span"],
        banjo_low_mm=room["low"], banjo_high_mm=room["high"], stud_clearance_mm=room["around_stud"],
        collar_mm=room["collar"],
    )  # fmt: skip
    every = oracle.trains(at_hand, lead / (INCH / 8), 0.05)
    got = {key[:2] for key in sets(found)}
    for drivers, driven, _ in every:
        if len(drivers) == 1:
            rest = list(at_hand)
            rest.remove(drivers[0])
            rest.remove(driven[0])
            ways = [(drivers[0], (idler,), driven[0]) for idler in rest]
        else:
            ways = [(drivers[i], (driven[k], drivers[1 - i]), driven[1 - k]) for i in (0, 1) for k in (0, 1)]
        surely, perhaps = (any(oracle.closes(*way, slack, **room) for way in ways) for slack in (1e-6, -1e-6))
        assert surely <= ((drivers, driven) in got) <= perhaps, (drivers, driven, room)
    for each in found:
        banjo = (each.idler,) if each.idler else (each.driven[0], each.drivers[1])
        assert oracle.closes(each.drivers[0], banjo, each.driven[-1], -1e-6, **room)


def test_an_error_is_judged_over_the_engagement():
    at_hand = [20, 40, 50, 60, 63, 80, 100]
    found = hn.gear_train("M24x1.5-6g", gears=at_hand, leadscrew="8 TPI")[0]
    limits = hn.limits("M24x1.5-6g")
    assert found.pitch_tolerance_mm == pytest.approx(limits.pitch_max - limits.pitch_min)
    assert found.engagement_mm == 24.0
    assert found.on_pitch_diameter_mm == pytest.approx(math.sqrt(3) * abs(found.error) * 24.0)
    assert found.good_enough is True
    assert "good enough" in found.why()
    far = hn.gear_train("M24x1.5-6g", gears=at_hand, leadscrew="8 TPI", engagement="800 mm")[0]
    assert far.good_enough is False
    assert "gears_lead_too_far_off" in {item.code for item in far.cautions}
    # a rule that a shop table prints: 0.0125 % over 20 mm of engagement is 0.0025 mm
    assert hn.gear_train("1.5 mm", gears=at_hand, leadscrew="8 TPI", engagement="20 mm")[
        0
    ].lead_error_mm == pytest.approx(0.0025, abs=5e-6)


def test_a_lathe_answers_with_its_gearbox_distances_and_gears():
    found = hn.gear_train("M24x1.5-6g", machine="gap-bed")
    assert found[0].exact and found[0].mounting == "closes"
    assert all(each.mounting == "closes" for each in found)
    assert 127 in found[0].driven
    held = hn.lathe("gap-bed").core.threading.gears
    for each in found:
        used = Counter([*each.drivers, *each.driven, *([each.idler] if each.idler else [])])
        assert all(held.count(teeth) >= count for teeth, count in used.items())
    standard = hn.gear_train("7/8-14 UNF-2A", machine="gap-bed")[0]
    assert standard.standard and standard.exact
    assert "stay as the chart is for" in standard.why()
    metric = hn.gear_train("1/4-20 UNC-2A", machine="metric-lathe")[0]
    assert metric.exact and 127 in metric.drivers + metric.driven


def test_without_distances_mounting_is_unchecked_and_says_so():
    found = hn.gear_train("1 mm", gears=[20, 40, 60, 127], leadscrew="8 TPI")
    assert found[0].mounting == "unchecked"
    assert "mounting unchecked" in found.why()
    assert "gears_short_idler" in {item.code for item in found[0].told}


def test_feeds_follow_the_chart_of_feeds():
    chart = hn.lathe("gap-bed").core.carriage.steps
    found = hn.gear_train(f"{chart[3].marked} in/rev", machine="gap-bed")
    assert found[0].what == "feed"
    assert found[0].standard
    assert found[0].positions == tuple((each.control, each.setting) for each in chart[3].positions)
    finer = hn.gear_train("0.05 mm/rev", machine="gap-bed")
    assert abs(finer[0].error) <= 1e-3 and not finer[0].standard
    with pytest.raises(hn.DomainError, match="chart of feeds"):
        hn.gear_train("0.1 mm/rev", gears=[20, 40, 60], leadscrew="8 TPI")


def test_several_starts_are_indexed_by_whole_teeth_where_they_part():
    found = hn.gear_train("M24xPh3P1.5-6g", gears=[20, 30, 40, 60, 120, 127], leadscrew="8 TPI")
    for each in found:
        assert each.starts == 2
        assert each.index_teeth == (each.drivers[0] // 2 if each.drivers[0] % 2 == 0 else None)
    assert f"until {found[0].index_teeth} teeth have passed" in " ".join(found[0].why().split())
    odd = hn.gear_train("M24xPh4.5P1.5-6g", gears=[40, 127, 90, 60], leadscrew="8 TPI", error_percent=90)
    assert any(each.index_teeth is None for each in odd)
    assert any("do not part into 3" in " ".join(each.why().split()) for each in odd)


def test_nothing_within_the_limit_answers_the_nearest_and_says_so():
    found = hn.gear_train("1.37 mm", gears=[20, 30, 50], leadscrew="8 TPI")
    assert len(found) == 1 and found.error_percent > found.asked_percent
    assert "this is the nearest" in found.why()
    assert not hn.gear_train("1 mm", gears=[40], leadscrew="8 TPI")


@pytest.mark.parametrize(
    ("call", "error", "words"),
    [
        (lambda: hn.gear_train(1.5, gears=[20, 30]), hn.UnitError, "no unit"),
        (lambda: hn.gear_train("1.5 mm", gears=[20, 30]), hn.DomainError, "leadscrew='8 TPI'"),
        (
            lambda: hn.gear_train("1.5 mm", gears=[20, 3.5], leadscrew="8 TPI"),
            hn.DomainError,
            "whole numbers of teeth, got 3.5",
        ),
        (
            lambda: hn.gear_train("1.5 mm", gears=[20, 999], leadscrew="8 TPI"),
            hn.DomainError,
            "1 to 400 teeth, got 999",
        ),
        (lambda: hn.gear_train("1.5 mm", gears=[], leadscrew="8 TPI"), hn.DomainError, "machine or gears"),
        (lambda: hn.gear_train("1.5 mm", machine="gap-bed", leadscrew="8 TPI"), hn.DomainError, "leave them out"),
        (
            lambda: hn.gear_train("1.5 mm", gears=[20, 30], leadscrew="8 TPI", most=0),
            hn.DomainError,
            "most must be from 1",
        ),
        (
            lambda: hn.gear_train("1.5 mm", gears=[20, 30], leadscrew="8 TPI", error_percent=200),
            hn.DomainError,
            "from 0 to 100",
        ),
        (lambda: hn.translating_pairs([20, 500]), hn.DomainError, "1 to 400"),
        (lambda: hn.translating_pairs([20, 50], simplest=99), hn.DomainError, "from 1 to 60"),
    ],
)
def test_errors_name_what_is_wrong(call, error, words):
    with pytest.raises(error, match=words):
        call()


LEVEL_1 = [
    (hn.machine.train_lead_mm, (3.175, 1.0, 40.0, 127.0)),
    (hn.machine.gear_centres_mm, (40.0, 127.0, 1.5875)),
]


@pytest.mark.parametrize(("function", "arguments"), LEVEL_1)
def test_level_1_scalars_equal_arrays_and_mark_bad_elements(function, arguments):
    array = function(np.full(3, arguments[0]), *arguments[1:])
    assert (array == function(*arguments)).all()
    values, codes = function(np.array([arguments[0], -1.0, math.nan]), *arguments[1:], on_error="status")
    assert list(np.isnan(values)) == [False, True, True]
    assert list(codes != 0) == [False, True, True]
    with pytest.raises(hn.DomainError):
        function(-1.0, *arguments[1:])


def test_the_machines_chart_is_checked(tmp_path):
    source = Path(hn.lathe("metric-lathe").path).read_text(encoding="utf-8")
    chart = (
        "chart = [\n"
        "    { threads_per_inch = 20, drivers = [127], driven = [60], "
        'positions = { "thread knob" = "A", selector = "6" } },\n'
        '    { pitch = "1.5 mm", positions = { "thread knob" = "B", selector = "4" } },\n'
        '    { pitch = "1.6 mm", positions = { "thread knob" = "B", selector = "4" } },\n'
        "]\n"
    )
    path = tmp_path / "charted.toml"
    path.write_text(source.replace("[threading.dial]", chart + "\n[threading.dial]", 1), encoding="utf-8")
    told = CliRunner().invoke(command, ["machine", "check", str(path)])
    assert told.exit_code == 1
    assert "threading.chart[2]: the gearbox gives 1.5 mm, the chart says 1.6 mm" in told.output
    assert "threading.chart[1]" not in told.output
    read_back = hn.lathe(path).to_dict()["threading"]["chart"]
    assert read_back[1]["pitch"] == "1.5 mm"


def test_the_demonstration_lathes_chart_is_right_and_each_row_is_found():
    shop = hn.lathe("gap-bed")
    assert not [each for each in shop.core.problems() if "chart" in each[0]]
    assert len(shop.core.threading.chart) == 9
    for row in shop.core.threading.chart:
        found = hn.gear_train(hn.mm(row.lead_mm), machine=shop, most=1000)
        assert any(
            each.exact and list(each.drivers) == row.drivers and list(each.driven) == row.driven for each in found
        ), row.lead_mm


def test_the_command_prints_trains_pairs_and_json(tmp_path):
    run = CliRunner().invoke
    told = run(command, ["gear-train", "M24x1.5-6g", "--machine", "gap-bed"])
    assert told.exit_code == 0 and told.output.startswith("M24x1.5-6g on gap-bed: ")
    drawn = tmp_path / "train.svg"
    bare = run(command, ["gear-train", "1 mm", "--gears", "20,40,60,127", "--leadscrew", "8 TPI", "--out", str(drawn)])
    assert "40/127" in bare.output
    assert drawn.read_text(encoding="utf-8").startswith("<svg")
    assert (
        '"exact": true'
        in run(command, ["gear-train", "1 mm", "--gears", "40,127", "--leadscrew", "8 TPI", "--json"]).output
    )
    assert "127/120 × 6/5: exact" in run(command, ["translating-pairs", "100", "120", "127"]).output
    assert "say machine or gears" in str(run(command, ["gear-train", "1 mm"]).exception)
    assert run(command, ["gear-train", "--gears", "20,40"]).exit_code == 2
    assert run(command, ["gear-train", "1 mm", "--gears", "20,x"]).exit_code == 2


@pytest.mark.parametrize(
    ("lead", "where", "options"),
    [
        ("M24x1.5-6g", {"machine": "gap-bed"}, {}),
        ("1 mm", {"gears": [20, 40, 60, 127]}, {"leadscrew": "8 TPI"}),
        ("19 TPI", {"gears": [20, 30, 38, 45, 57, 60]}, {"leadscrew": "8 TPI"}),
    ],
)
def test_the_drawing_shows_every_gear(lead, where, options):
    from halfnut.drawing.gears import train_plot, train_svg

    for train in hn.gear_train(lead, **where, **options):
        picture = train_svg(train)
        real = len(train.drivers) + len(train.driven) + (train.idler is not None)
        assert picture.count("<circle") == 2 * max(3, real)
        for teeth in (*train.drivers, *train.driven):
            assert f"{teeth}" in picture
        axes = train_plot(train)
        assert axes.get_xlabel().startswith("from the stud towards the ")
        import matplotlib.pyplot as plt

        plt.close(axes.figure)
