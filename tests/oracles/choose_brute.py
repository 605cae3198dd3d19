"""The fastest passes by trying every sequence, in plain Python; shares nothing with the choice in the core.

A case is a dictionary of plain numbers. Forces come from the formulas written out here; the windows of speed and feed
are asked of whoever makes the case, for they are tables and no part of the choice.

    cut                 "turn", "bore" or "face"
    diameter, to, off   mm: before and after in turning and boring, along the axis in facing
    line                mm of the slide for one line of the dial
    speeds              (rpm, kW available or None, needs a stop, positions) each, slow to fast
    feeds               (mm a revolution, needs a stop, positions) each
    travel, wind_s      mm of one pass, s to wind back
    dial_s, measure_s, lever_s, stop_s
    kc11, mc, v0        Kienzle's constants and the speed of their tables, None for any
    correction, high    factor on the force, upper edge of its band
    nose, entering      mm, degrees
    window(finish, depth, feed), guide(finish, depth)
    least               mm that the edge can cut at least
    life(depth, feed)   C and n of Taylor's V T^n = C, None where no life is known
    deepest, roughness, torque, force, chuck_rpm, grip, stick_out, hold, bar, tube_bore, modulus, density, bend,
    tolerance
                        None where there is no such limit
    band                of the diameter, of the length in facing; None where there is no tolerance

A case of milling, "mill slot", "mill side", "mill face" or "mill pocket", has feeds in mm a minute and also

    cutter, teeth       mm, number
    width, over         mm in all, mm that one pass goes across at most
    length, carbide     mm of the work along the feed; whether the cutter is of carbide
    wind_rate           mm/min of the slide when wound back
    bend, tolerance     mm that the cutter may bend in any pass, in the last ones
"""

from __future__ import annotations

import math
from itertools import product

# Force across the edge over the cutting force at flank wear 0.15 mm: measured 0.983 at 0.1 and 1.618 at 0.3 mm.
ACROSS = 0.983 + (1.618 - 0.983) * (0.15 - 0.1) / (0.3 - 0.1)
THIN = 0.01
FINE = 0.51
ROOM = 1e-9  # limits on what is set hold up to here above, on what is reckoned from here below
RUBS = 0.005  # mm of chip, below which a cutter's tooth rubs
LAST = 0.2  # mm, that the last milled pass takes down after others
MOST_ACROSS = 4  # times the fewest passes side by side


def milliseconds(seconds):
    """Whole milliseconds, halves up."""
    return math.floor(1000 * seconds + 0.5)


def mean_entering(depth, nose, entering):
    """Mean angle of the engaged edge, radians."""
    k = math.radians(entering)
    nose_depth = nose * (1 - math.cos(k))
    if depth <= nose_depth:
        return math.acos(1 - depth / nose) / 2
    return math.atan2(depth, nose * math.sin(k) + (depth - nose_depth) / math.tan(k))


def speed_factor(v, v0):
    """Factor of the cutting speed on a tabulated force."""
    if v0 is None:
        return 1.0

    def at(speed):
        if speed < 20:
            speed = 20.0
        return 2.023 / speed**0.153 if speed < 100 else 1.380 / speed**0.07

    return at(v) / at(v0)


def second_moment(outside, bore):
    """Of a round section, mm4."""
    return math.pi * (outside**4 - bore**4) / 64


def bend_of(case, passive, left):
    """How far work or bar bends, mm; None where nothing is known."""
    out = case["stick_out"]
    if out is None or case["cut"] == "face":
        return None
    if case["cut"] == "bore":
        return None if case["bar"] is None else passive * out**3 / (3 * 205e3 * second_moment(case["bar"], 0))
    stiff = 1000 * case["modulus"] * second_moment(left, case["tube_bore"] or 0.0)
    share = {"chuck": 3, "between centres": 48, "chuck and centre": 102}[case["hold"]]
    return passive * out**3 / (share * stiff)


def half_whirl(case):
    """Half the first whirl of the work turned to its end, rev/min; none where its overhang is not known."""
    out = case["stick_out"]
    if out is None or case["cut"] != "turn":
        return math.inf
    root = {"chuck": 1.87510407, "between centres": math.pi, "chuck and centre": 3.92660231}[case["hold"]]
    sound = math.sqrt(case["modulus"] * 1e9 / case["density"])
    radius = math.hypot(case["to"], case["tube_bore"] or 0.0) / 4
    return 0.5 * 60 * root**2 / (2 * math.pi) * sound * radius * 1000 / out**2


def holds(case, before, after, depth, rpm, available, feed, finish, spring=math.inf):
    """Whether one pass keeps every limit; ``spring`` is what it may bend before a measurement."""
    at = before if case["cut"] != "bore" else after
    fine = finish or depth <= FINE
    v = math.pi * at * rpm / 1000
    if depth < case["least"] * (1 - ROOM):
        return False
    if depth > case["deepest"] * (1 + ROOM) or feed > 0.6 * case["nose"] * (1 + ROOM):
        return False
    if case["chuck_rpm"] is not None and rpm > case["chuck_rpm"] * (1 + ROOM):
        return False
    if rpm > half_whirl(case) * (1 + ROOM):
        return False
    rough = 1000 * feed**2 / (32 * case["nose"]) if feed <= 2 * case["nose"] else math.inf
    if finish and case["roughness"] is not None and rough > case["roughness"] * (1 + ROOM):
        return False
    if feed > case["guide"](fine, depth) * (1 + ROOM) or v > case["window"](fine, depth, feed) * (1 + ROOM):
        return False
    kappa = mean_entering(depth, case["nose"], case["entering"])
    chip = feed * math.sin(kappa)
    if chip * (1 - ROOM) < THIN:
        return False
    force = case["kc11"] * chip ** -case["mc"] * depth * feed * case["correction"] * speed_factor(v, case["v0"])
    worst = force * case["high"]
    if available is not None and worst * v / 60000 > available * (1 - ROOM):
        return False
    if case["torque"] is not None and worst * at / 2000 > case["torque"] * (1 - ROOM):
        return False
    if case["force"] is not None and worst > case["force"] * (1 - ROOM):
        return False
    if case["grip"] is not None:
        jaw_force, jaws, grip, friction, safety = case["grip"]
        if safety * worst * at / (friction * jaws * grip) > jaw_force * (1 - ROOM):
            return False
    taylor = case["life"](depth, feed)
    if taylor is not None:
        speed_of_a_minute, exponent = taylor
        life = min((speed_of_a_minute / v) ** (1 / exponent), 480.0)
        if life * (1 - ROOM) < max(10.0, case["travel"] / (feed * rpm)):
            return False
    bend = bend_of(case, ACROSS * worst * abs(math.cos(kappa)), after)
    if bend is not None:
        most = min(case["bend"], spring)
        if finish and case["tolerance"] is not None:
            most = min(most, case["tolerance"])
        if bend > most * (1 - ROOM):
            return False
    return True


def moved(positions, wanted):
    """Controls that stand elsewhere, at least one."""
    return max(1, sum(positions.get(control) != setting for control, setting in wanted.items()))


def change(case, lever, wanted):
    """Milliseconds and levers moved from one lever to another, None for what is set being unknown."""
    ms = count = 0
    for ladder, place, stop, at in (("speeds", 0, 2, 3), ("feeds", 1, 1, 2)):
        new = case[ladder][wanted[place]]
        if lever is None:
            ms += milliseconds(case["stop_s"] if new[stop] else case["lever_s"])
            count += moved({}, new[at])
        elif lever[place] != wanted[place]:
            old = case[ladder][lever[place]]
            ms += milliseconds(case["stop_s"] if old[stop] or new[stop] else case["lever_s"])
            count += moved(old[at], new[at])
    return ms, count


def closing(case, left, from_start):
    """Depths of the finishing cuts that may take what is left, and measurements before them; None for none."""
    if left <= 0:
        return None
    if case["cut"].startswith("mill"):
        return closing_of_mill(case, left, from_start)
    band, least, line = case["band"], case["least"], case["line"]
    if band is not None and band < 0.1:
        low, high = max(0.1, least), max(0.25, 1.5 * max(0.1, least))
    else:
        low, high = max(0.125, least), max(0.5, 1.5 * max(0.125, least))
    two = band is not None and (band < 0.1 or from_start)
    cut = left / 2 if two else left
    if cut > high * (1 + ROOM):
        return None
    if from_start and two:
        low = least + line / 2
    elif from_start:
        low = 0.0
    if cut < low * (1 - ROOM):
        return ([left], 0) if from_start else None
    if not two:
        return [left], 0 if band is None else 1
    if from_start:
        half = math.floor(left / (2 * line) + 0.5 + 1e-9) * line
        return [half, left - half], 1
    return [left / 2, left / 2], 2


def closing_of_mill(case, left, from_start):
    """The last pass; of work that needs no others two, measured between them, where the dial can divide it."""
    band, line = case["band"], case["line"]
    if not from_start:
        return None if left < LAST * (1 - ROOM) else ([left], 0 if band is None else 1)
    half = math.floor(left / (2 * line) + 0.5 + 1e-9) * line
    if band is None or half <= 0 or left - half <= 1e-6 * line:
        return [left], 0
    return [half, left - half], 1


def mill_holds(case, depth, rpm, available, feed, finish):
    """Whether one pass of a cutter keeps every limit; feed is in mm/min."""
    d, bite = case["cutter"], case["bite"]
    a_tooth = feed / rpm / case["teeth"]
    v = math.pi * d * rpm / 1000
    if depth > case["deepest"] * (1 + ROOM):
        return False
    if finish and case["roughness"] is not None and case["cut"] != "mill slot":
        leading = 1000 * (feed / rpm) ** 2  # what one tooth that stands out leaves
        rough = leading / (32 * 0.8) if case["cut"] == "mill face" else leading / (16 * d)
        if rough > case["roughness"] * (1 + ROOM):
            return False
    if a_tooth > case["guide"](depth) * (1 + ROOM) or v > case["window"](depth, a_tooth) * (1 + ROOM):
        return False
    engaged = math.acos(1 - 2 * bite / d)
    thickest = a_tooth * (math.sin(engaged) if bite < d / 2 else 1.0)
    if thickest * (1 - ROOM) < RUBS:
        return False
    mean = 2 * a_tooth * bite / (d * engaged)
    kc = 1.2 * case["kc11"] * mean ** -case["mc"] * speed_factor(v, case["v0"])
    power = bite * depth * feed * kc / 60e6 * case["high"]
    force = power * 60000 / v
    if available is not None and power > available * (1 - ROOM):
        return False
    if case["torque"] is not None and force * d / 2000 > case["torque"] * (1 - ROOM):
        return False
    if case["force"] is not None and force > case["force"] * (1 - ROOM):
        return False
    if case["stick_out"] is None:
        return True
    modulus = 580e3 if case["carbide"] else 210e3
    bend = force * case["stick_out"] ** 3 / (3 * modulus * second_moment(0.8 * d, 0))
    return bend <= (case["tolerance"] if finish else case["bend"]) * (1 - ROOM)


def divided(case, across):
    """The case with so many passes side by side: how wide each bites, how far it goes."""
    d, width, length = case["cutter"], case["width"], case["length"]
    bite = min(d, width / across) if case["cut"] in ("mill side", "mill face") else d
    travel = length + 2
    if case["cut"] == "mill side":
        travel += math.sqrt(bite * (d - bite)) if bite < d / 2 else d / 2
    elif case["cut"] == "mill face":
        travel += (d - math.sqrt(d**2 - bite**2)) / 2 + d / 2
    elif case["cut"] == "mill slot":
        travel += d / 2
    else:
        travel = max(0.0, length - d) + 2
    return {**case, "across": across, "bite": bite, "travel": travel, "wind_s": 60 * travel / case["wind_rate"]}


def tried_across(case):
    """Numbers of passes side by side: slots and pockets start in the full, the others divide what there is evenly."""

    def passes(wide):
        return max(1, math.ceil(wide / case["over"] - ROOM))

    if case["cut"] in ("mill slot", "mill pocket"):
        rest = case["width"] - case["cutter"]
        return [1 + passes(rest) if rest > ROOM * case["cutter"] else 1]
    return range(passes(case["width"]), MOST_ACROSS * passes(case["width"]) + 1)


def fastest_milled(case, remember=False):
    """The least of all numbers of passes side by side, with that number, the fewest of equal ones."""
    best = None
    for across in tried_across(case):
        found = fastest_as_shops(divided(case, across), remember)
        if found is not None and (best is None or found[0] < best[0]):
            best = (*found, across)
    return best


def fastest_as_shops(case, remember=False):
    """The least of passes as shops divide them, and how many lines readings are apart; None where there are none.

    Every lever for roughing, every sequence of its depths, every lever for finishing that needs no stop; where it is to
    remember, of the sequences that reach a line with a lever the cheapest alone goes on.
    """
    exact = fastest_apart(case, 1, remember)
    if exact is None:
        return None
    measured = milliseconds(case["measure_s"])
    for apart in (10, 5):
        found = fastest_apart(case, apart, remember)
        if found is not None and found[0] + measured <= 1.05 * (exact[0] + measured):
            return found, apart
    return exact, 1


def fastest_apart(case, apart, remember=False):
    """The least (milliseconds with measuring, levers moved, sum of speed places), readings so many lines apart."""
    milled = case["cut"].startswith("mill")
    along = milled or case["cut"] == "face"
    whole = case["off"] if along else abs(case["diameter"] - case["to"]) / 2
    slope = {"turn": -2.0, "bore": 2.0}.get(case["cut"], 0.0)
    line, band = case["line"], case["band"]
    lines = math.floor(whole / line + 1e-6)
    levers = list(product(range(len(case["speeds"])), range(len(case["feeds"]))))
    end = case["diameter"] if along else case["to"]

    def pass_ms(lever):
        rate = case["feeds"][lever[1]][0] * (1 if milled else case["speeds"][lever[0]][0])
        one = sum(map(milliseconds, (60 * case["travel"] / rate, case["wind_s"], case["dial_s"])))
        return one * case.get("across", 1)

    def fits(before, after, depth, lever, finish, spring=math.inf):
        rpm, available = case["speeds"][lever[0]][:2]
        if milled:
            return mill_holds(case, depth, rpm, available, case["feeds"][lever[1]][0], finish)
        return holds(case, before, after, depth, rpm, available, case["feeds"][lever[1]][0], finish, spring)

    def size(off):
        return case["diameter"] + slope * off

    def stops(lever, wanted):
        old, new = (case["speeds"][at[0]] for at in (lever, wanted))
        stop = lever[0] != wanted[0] and (old[2] or new[2])
        old, new = (case["feeds"][at[1]] for at in (lever, wanted))
        return stop or (lever[1] != wanted[1] and (old[1] or new[1]))

    finishing = {}
    for at in range(0, lines + 1, apart):
        left = whole - at * line
        known_cuts = closing(case, left if left > 1e-6 * line else 0.0, at == 0)
        if known_cuts is None:
            continue
        cuts, measured = known_cuts
        for lever in levers:
            off, good = at * line, True
            for number, cut in enumerate(cuts, 1):
                after = end if number == len(cuts) else size(off + cut)
                single = len(cuts) == 1 and band is not None and band >= 0.1
                good = good and fits(size(off), after, cut, lever, True, band / 10 if single else math.inf)
                off += cut
            if good:
                finishing.setdefault(at, []).append((lever, cuts, measured))
    best = [None]

    def finish(at, rough, cost):
        for lever, cuts, measured in finishing.get(at, ()):
            if rough is not None and stops(rough, lever):
                continue
            ms, count = change(case, rough, lever)
            one = len(cuts) * pass_ms(lever) + measured * milliseconds(case["measure_s"])
            total = (cost[0] + ms + one, cost[1] + count, cost[2] + len(cuts) * lever[0])
            if best[0] is None or total < best[0]:
                best[0] = total

    known, reached = {}, {}

    def rough_holds(start, stop, lever, spring):
        key = (start, stop, lever, spring)
        if key not in known:
            depth = (stop - start) * line
            known[key] = fits(size(start * line), size(stop * line), depth, lever, False, spring)
        return known[key]

    def rough(start, lever, cost):
        if remember and reached.get((start, lever), (math.inf,)) <= cost:
            return
        reached[start, lever] = cost
        after = (cost[0] + pass_ms(lever), cost[1], cost[2] + lever[0])
        for stop in reversed(range(start + apart, lines + 1, apart)):
            if stop in finishing:
                cuts = finishing[stop][0][1]
                spring = math.inf
                if band is not None:
                    spring = cuts[0] / 4 if band < 0.1 else min(cuts[0] / 4, band / 10)
                if rough_holds(start, stop, lever, spring):
                    finish(stop, lever, after)
            if rough_holds(start, stop, lever, math.inf):
                rough(stop, lever, after)

    finish(0, None, (0, 0, 0))
    for lever in levers:
        ms, count = change(case, None, lever)
        rough(0, lever, (ms, count, 0))
    return best[0]


def fastest(case):
    """The free choice: the least (milliseconds, levers moved, sum of speed places), measuring left out.

    None where nothing is possible. Every sequence of depths is tried with every lever for each of its passes.
    """
    if case["cut"] == "face":
        whole, slope = case["off"], 0.0
    else:
        whole = abs(case["diameter"] - case["to"]) / 2
        slope = -2.0 if case["cut"] == "turn" else 2.0
    line = case["line"]
    lines = math.floor(whole / line + 1e-6)
    levers = list(product(range(len(case["speeds"])), range(len(case["feeds"]))))
    end = case["diameter"] if case["cut"] == "face" else case["to"]

    def pass_ms(lever):
        rate = case["feeds"][lever[1]][0] * case["speeds"][lever[0]][0]
        return sum(map(milliseconds, (60 * case["travel"] / rate, case["wind_s"], case["dial_s"])))

    def size(at):
        return case["diameter"] + slope * at * line

    known = {}

    def fits(start, stop, depth, lever, finish):
        key = (start, stop, lever, finish)
        if key not in known:
            rpm, available = case["speeds"][lever[0]][:2]
            after = end if stop is None else size(stop)
            known[key] = holds(case, size(start), after, depth, rpm, available, case["feeds"][lever[1]][0], finish)
        return known[key]

    best = [None]

    def offer(cost):
        if best[0] is None or cost < best[0]:
            best[0] = cost

    def go_on(start, lever, cost):
        left = whole - start * line
        first = math.floor(left / (2 * line) + 0.5 + 1e-9)
        for wanted in levers:
            ms, count = change(case, lever, wanted)
            one = pass_ms(wanted)
            now = (cost[0] + ms, cost[1] + count, cost[2])
            rest = left - first * line
            if (
                first >= 1
                and rest > 1e-6 * line
                and fits(start, start + first, first * line, wanted, True)
                and fits(start + first, None, rest, wanted, True)
            ):
                offer((now[0] + 2 * one, now[1], now[2] + 2 * wanted[0]))
            for deep in range(1, lines - start):
                if fits(start, start + deep, deep * line, wanted, False):
                    go_on(start + deep, wanted, (now[0] + one, now[1], now[2] + wanted[0]))

    go_on(0, None, (0, 0, 0))
    return best[0]


def fastest_with_memory(case):
    """The same as `fastest`, remembering the best way on from every line and lever; nothing else is left out."""
    if case["cut"] == "face":
        whole, slope = case["off"], 0.0
    else:
        whole = abs(case["diameter"] - case["to"]) / 2
        slope = -2.0 if case["cut"] == "turn" else 2.0
    line = case["line"]
    lines = math.floor(whole / line + 1e-6)
    end = case["diameter"] if case["cut"] == "face" else case["to"]
    levers = list(product(range(len(case["speeds"])), range(len(case["feeds"]))))
    never = (math.inf, 0, 0)
    changes = [[change(case, lever, wanted) for wanted in levers] for lever in levers]
    shares = (case["wind_s"], case["dial_s"])
    one = []
    for lever in levers:
        rate = case["feeds"][lever[1]][0] * case["speeds"][lever[0]][0]
        one.append(milliseconds(60 * case["travel"] / rate) + sum(map(milliseconds, shares)))
    onward = [None] * (lines + 1)

    def size(at):
        return case["diameter"] + slope * at * line

    def fits(start, after, depth, lever, finish):
        rpm, available = case["speeds"][lever[0]][:2]
        return holds(case, size(start), after, depth, rpm, available, case["feeds"][lever[1]][0], finish)

    def best_from(start, place):
        lever, ms = levers[place], one[place]
        left = whole - start * line
        first = math.floor(left / (2 * line) + 0.5 + 1e-9)
        rest = left - first * line
        found = never
        if (
            first >= 1
            and rest > 1e-6 * line
            and fits(start, size(start + first), first * line, lever, True)
            and fits(start + first, end, rest, lever, True)
        ):
            found = (2 * ms, 0, 2 * lever[0])
        for deep in range(1, lines - start):
            if fits(start, size(start + deep), deep * line, lever, False):
                after = onward[start + deep][place]
                found = min(found, (ms + after[0], after[1], lever[0] + after[2]))
        return found

    for start in range(lines, -1, -1):
        from_here = [best_from(start, place) for place in range(len(levers))]
        alive = [(to, cost) for to, cost in enumerate(from_here) if cost[0] < math.inf]
        onward[start] = [
            min(
                ((row[to][0] + cost[0], row[to][1] + cost[1], cost[2]) for to, cost in alive),
                default=never,
            )
            for row in changes
        ]
    costs = []
    for lever, cost in zip(levers, from_here, strict=True):
        ms, count = change(case, None, lever)
        costs.append((ms + cost[0], count + cost[1], cost[2]))
    best = min(costs)
    return None if best[0] == math.inf else best
