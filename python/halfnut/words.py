"""What a person reads beside the numbers, keyed by code. The text of errors lives in the core."""

from __future__ import annotations

from typing import Any

from halfnut.record import Caution

CAUTIONS: dict[str, str] = {
    # material
    "hazard_titanium_chips": "fine titanium chips burn: sharp tool, steady feed, plenty of coolant, chips cleared "
    "away, a class D extinguisher at hand; never water on burning chips",
    "hazard_magnesium_chips": "magnesium chips burn: sharp tool, no fine feed, no dwell, cut dry, chips kept dry in "
    "closed cans, a class D extinguisher or dry sand at hand; never water or foam",
    "hazard_beryllium_dust": "beryllium in dust or fume harms the lungs for good: no dry grinding or filing, wet or "
    "with extraction, no compressed air",
    "hazard_lead_dust": "contains lead: wash hands before eating, keep the dust down",
    "hazard_glass_dust": "glass dust: extraction and a mask; it also wears slideways, so cover them",
    "hazard_formaldehyde_fume": "gives off formaldehyde when overheated: sharp tool, no rubbing",
    "hazard_fluorine_fume": "gives off poisonous fume when overheated: sharp tool, no smoking near the chips",
    # knurls
    "knurl_stray_pitch": "this pitch is not in its system's series: check that a wheel of it is at hand",
    "knurl_few_teeth": "fewer than 12 teeth: growth and depth are rough on so small a blank, try one piece",
    "knurl_wheel_off_pitch": "the wheel's own pitch is more than 3 % from the pitch called for: "
    "check its size and its teeth",
    "knurl_coarse_diametral": "64 DP is best avoided in new work; 96 DP is preferred",
    "knurl_large_diametral": "diametral pitches are laid down for blanks up to 1 in",
    "knurl_wide_band": "the knurled band is wider than the blank's diameter: knurl a narrower band",
    "knurl_off_finished": "whole teeth leave the finished diameter outside its limits: "
    "choose another pitch or turn the points down",
    # threads
    "not_tabulated": "not in the tables of the standard: by the formulas behind them",
    "not_provided": "the standard provides no such class at this size: stepped from the classes it has",
    "engagement_class": "the class is not one the standard recommends for this length of engagement (group {group})",
    "special_engagement": "tolerance for a special length of engagement: the drawing states limits and length",
    "toleranced_as_series": "toleranced as the thread of another series that it is",
    "not_in_series": "in no standard series: taps, dies and gauges will be specials",
    "multi_start": "several starts: the tolerance is that of a single start of the same pitch",
    "doubtful_position": "position a to d: the sources for its deviation disagree or are memory; check it first",
    "mixed_positions": "pitch and crest diameter have different tolerance positions",
    "printed_rule_differs": "shop handbooks print tables by the rounding of before 2003: {differences}",
}


def caution(code: str, **figures: Any) -> Caution:
    """A caution by its code; `figures` fill the places in its words.

    >>> caution("hazard_lead_dust").code
    'hazard_lead_dust'
    """
    return Caution(code, CAUTIONS[code].format(**figures))
