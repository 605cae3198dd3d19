"""Twelve questions of every day, in inches and in millimetres: short, and each in one system of units."""

import json
import re
import shlex
from statistics import median

import pytest
from click.testing import CliRunner

import halfnut as hn
from halfnut import cli
from halfnut.core.schemas import flat

INCH = """
turn 6061-T6 1.25in --length 2in --machine gap-bed
bore 6061-T6 1in --length 1.5in --bar-diameter 0.5in --overhang 2in --machine gap-bed
drill 6061-T6 5/16in --depth 1.25in --machine gap-bed
tap 6061-T6 "1/4-20 UNC-2B" --depth 0.5in --machine gap-bed
ream 6061-T6 1/4in --depth 0.5in --machine gap-bed
fit "7/8-14 UNF-2A" "7/8-14 UNF-2B" --coating "anodise II black 15 um" --engagement 0.75in
limits "7/8-14 UNF-2A"
wires "7/8-14 UNF-2A"
knurl-blank 0.75in "96 DP"
adjuster "7/8-14 UNF-2A" "7/8-14 UNF-2B" --second "7/8-14 UNF-2A-LH" "7/8-14 UNF-2B-LH" --thread-length 2in\
 --base-thread 1.25in --chamfer 0.06in --countersink 0.04in --length-of-tube 20in --tube-diameter 1in --bore 0.624in\
 --alloy 6061-T6 --form "drawn tube" --base-outside 1.5in --base-reach 1.5in --lock-nut 0.375in --nut-outside 1.25in\
 --push 60lbf --pull 40lbf --factor-of-safety 4 --rule-diameters 1 --lubricant "anti-seize paste"
tapping-hole "1/4-20 UNC-2B"
chase "7/8-14 UNF-2A" --machine gap-bed --alloy 6061-T6
"""
METRIC = """
turn 6061-T6 32mm --length 50mm --machine metric-lathe
bore 6061-T6 25mm --length 40mm --bar-diameter 12mm --overhang 50mm --machine metric-lathe
drill 6061-T6 8mm --depth 30mm --machine bench-mill
tap 6061-T6 M6 --depth 12mm --machine bench-mill
ream 6061-T6 6mm --depth 12mm --machine bench-mill
fit M12x1.5-6g M12x1.5-6H --coating "anodise II 10 um" --engagement 15mm
limits M12x1.5-6g
wires M12x1.5-6g
knurl-blank 20mm "RGE 0.8"
adjuster M20x1.5-6g M20x1.5-6H --second M20x1.5-6g-LH M20x1.5-6H-LH --thread-length 50mm\
 --base-thread 30mm --chamfer 1.5mm --countersink 1mm --length-of-tube 500mm --tube-diameter 25mm --bore 15mm\
 --alloy 6061-T6 --form "drawn tube" --base-outside 40mm --base-reach 40mm --lock-nut 10mm --nut-outside 30mm\
 --push 300N --pull 200N --factor-of-safety 4 --rule-diameters 1 --lubricant "anti-seize paste"
tapping-hole M6
chase M12x1.75-6g --machine metric-lathe --alloy "4130 normalised"
"""
QUESTIONS = {
    "inch": [shlex.split(line) for line in INCH.strip().splitlines()],
    "metric": [shlex.split(line) for line in METRIC.strip().splitlines()],
}
UNITS = {
    "inch": re.compile(r"\d (?:in|ft|lbf?|hp|psi|thou|µin|in/rev|in/min|ft/min|lbf in|lbf ft)\b"),
    "metric": re.compile(r"\d (?:mm|cm|m|µm|um|N|kN|kW|MPa|mm/rev|mm/min|m/min|N m)\b"),
}
OTHER = {"inch": "metric", "metric": "inch"}
CASES = [(system, words) for system, asked in QUESTIONS.items() for words in asked]


def answer(words):
    done = CliRunner().invoke(cli.command, words)
    assert done.exit_code == 0, done.exception
    return done.output


def test_the_median_answer_is_at_most_six_lines_and_seventy_words():
    for system, asked in QUESTIONS.items():
        assert len(asked) == 12
        told = [answer(words) for words in asked]
        lines = {words[0]: len(text.splitlines()) for words, text in zip(asked, told, strict=True)}
        spoken = {words[0]: len(text.split()) for words, text in zip(asked, told, strict=True)}
        assert median(lines.values()) <= 6 and max(lines.values()) <= 6, (system, lines)
        assert median(spoken.values()) <= 70 and max(spoken.values()) <= 100, (system, spoken)


@pytest.mark.parametrize(("system", "words"), CASES, ids=lambda each: each if isinstance(each, str) else each[0])
def test_an_answer_fits_a_terminal_in_one_system_and_one_spelling_of_cautions(system, words):
    for line in answer(words).splitlines():
        assert len(line) <= 90, line
        assert not UNITS[OTHER[system]].search(line), line
        assert not re.match(r"\s*(?:caution|warning|danger|notice)\b", line), line
        assert not line.startswith("  note: "), line


@pytest.mark.parametrize(("system", "words"), CASES, ids=lambda each: each if isinstance(each, str) else each[0])
def test_why_and_evidence_say_more(system, words):
    short = answer(words)
    assert len(answer([*words, "--why"])) > len(short) or words[0] == "knurl-blank", "a blank has no more to say"
    told = answer([*words, "--evidence"])
    assert told.startswith(short) and len(told) > len(short)


def test_what_differs_at_the_second_end_of_a_turnbuckle_is_given_by_options():
    asked = next(words for system, words in CASES if words[0] == "adjuster" and system == "metric")
    differing = ["--second-base-reach", "35mm", "--second-rule-diameters", "0.9", "--second-base-alloy", "7075-T6"]
    alike, found = (json.loads(answer([*asked, *more, "--json"])) for more in ([], differing))
    want = hn.adjuster(
        "M20x1.5-6g", "M20x1.5-6H", thread_length="50 mm", base_thread="30 mm", chamfer="1.5 mm", countersink="1 mm",
        length_of_tube="500 mm", tube_diameter="25 mm", bore="15 mm", alloy="6061-T6", form="drawn tube",
        base_outside="40 mm", base_reach="40 mm", lock_nut="10 mm", nut_outside="30 mm", push="300 N", pull="200 N",
        factor_of_safety=4.0, rule_diameters=1.0, lubricant="anti-seize paste",
        second={
            "external": "M20x1.5-6g-LH", "internal": "M20x1.5-6H-LH", "base_reach": "35 mm", "rule_diameters": 0.9,
            "base_alloy": "7075-T6",
        },
    )  # fmt: skip
    for end in ("shortest", "longest"):
        assert found[end] == pytest.approx(flat(want)[end])
        assert found[end] != alike[end]
