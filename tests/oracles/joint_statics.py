"""Strength of threads from the text of its sources, in 40-digit decimals.

Limits are worked out elsewhere; here the areas, lengths and torques follow from them. Written from the sources'
formulas: FED-STD-H28/2B and ASME B1.1 appendix B for areas and lengths (with their 0.57735 where asked), a textbook
of machine design for the screw, drawn as the inclined plane that it is.
"""

from __future__ import annotations

from mpmath import mp, mpf

mp.dps = 40


def shear_areas(kn_max, es_min, ds_min, en_max, pitch, half_angle, length, tangent=None):
    """External and internal shear area, each a strip of the pitch wide at its cylinder, counted turn by turn."""
    t = mp.tan(mp.radians(half_angle)) if tangent is None else mpf(tangent)
    turns = mpf(length) / mpf(pitch)
    external = turns * mp.pi * mpf(kn_max) * (mpf(pitch) / 2 + t * (mpf(es_min) - mpf(kn_max)))
    internal = turns * mp.pi * mpf(ds_min) * (mpf(pitch) / 2 + t * (mpf(ds_min) - mpf(en_max)))
    return external, internal


def length_for_tension(area, kn_max, es_min, threads_per_inch, tangent):
    """LE = 2 A_t / { pi Kn_max [1/2 + 0.57735 n (Es_min - Kn_max)] }."""
    n = mpf(threads_per_inch)
    return 2 * mpf(area) / (mp.pi * mpf(kn_max) * (mpf(1) / 2 + mpf(tangent) * n * (mpf(es_min) - mpf(kn_max))))


def screw_torque(load, pitch_diameter, lead, half_angle, friction, up=True):
    """Balance of a block pushed along an inclined plane; the flank's lean makes the friction f sec A.

    A normal force of 1 has shares along the axis and around it, as has its friction; the push is their quotient.
    """
    slope = mp.atan(mpf(lead) / (mp.pi * mpf(pitch_diameter)))
    f = mpf(friction) / mp.cos(mp.radians(half_angle))
    sign = 1 if up else -1
    axial = mp.cos(slope) - sign * f * mp.sin(slope)
    tangential = sign * mp.sin(slope) + f * mp.cos(slope)
    return mpf(load) * tangential / axial * mpf(pitch_diameter) / 2


def bending(ratio):
    """C2 and C3, at most 1, from the published polynomials summed term by term."""
    r2 = min(mpf(ratio), mpf("2.2"))
    c2 = (
        mpf("0.897")
        if r2 <= 1
        else sum(mpf(c) * r2**k for k, c in enumerate(["5.594", "-13.682", "14.107", "-6.057", "0.9353"]))
    )
    r3 = max(mpf(ratio), mpf("0.4"))
    c3 = mpf("0.897") if r3 >= 1 else sum(mpf(c) * r3**k for k, c in enumerate(["0.728", "1.769", "-2.896", "1.296"]))
    return min(c2, mpf(1)), min(c3, mpf(1))


def ring_stress(pressure, inside, outside):
    """Greatest hoop stress of a ring under inner pressure: A + B/r^2, where A - B/r^2 is -p inside and 0 outside."""
    a, b = mpf(inside) / 2, mpf(outside) / 2
    big_b = mpf(pressure) / (1 / a**2 - 1 / b**2)
    return big_b / b**2 + big_b / a**2


def tube_stress(pressure, bore, outside):
    """Greatest hoop compression of a tube under outer pressure: A - B/r^2 is 0 at the bore and -p outside."""
    a, b = mpf(bore) / 2, mpf(outside) / 2
    big_b = -mpf(pressure) / (1 / a**2 - 1 / b**2)
    return -(big_b / a**2 + big_b / a**2)


def joint(sizes, length, strengths, bore=0, outside=None, unified=False):
    """Loads that break a joint, N, by element, and the load at which a section yields; lengths in mm, MPa.

    `sizes`: d, P, Kn max, Es min, Ds min, En max and the deepest root of the internal thread; `strengths`: tensile,
    yield, shear of the external and of the internal part, a shear of None being 0.577 of the tensile.
    """
    d, pitch, kn, es, ds, en, root = (mpf(each) for each in sizes)
    (t1, y1, s1), (t2, y2, s2) = strengths
    s1 = mpf(s1) if s1 is not None else mpf("0.577") * mpf(t1)
    s2 = mpf(s2) if s2 is not None else mpf("0.577") * mpf(t2)
    if not unified:
        across = d - mpf("0.9382") * pitch
        area = mpf("0.7854") * across**2
    elif mpf(t1) > mpf(100) * mpf("6.894757293168361"):
        area = mp.pi * (es / 2 - mpf("0.16238") * pitch) ** 2
    else:
        area = mp.pi / 4 * (d - mpf("0.9743") * pitch) ** 2
    area -= mp.pi / 4 * mpf(bore) ** 2
    external, internal = shear_areas(kn, es, ds, en, pitch, 30, length)
    c2, c3 = bending(internal * s2 / (external * s1))
    c1 = mpf(1)
    loads = {}
    if outside is not None:
        ratio = mpf(outside) / d
        c1 = mpf(1) if ratio >= mpf("1.9") else -(ratio**2) + mpf("3.8") * ratio - mpf("2.61")
        ring = mp.pi / 4 * (mpf(outside) ** 2 - root**2)
        loads["internal part in tension"] = ring * mpf(t2)
    loads["external part in tension"] = area * mpf(t1)
    loads["external thread strips"] = external * s1 * c1 * c2
    loads["internal thread strips"] = internal * s2 * c1 * c3
    yields = area * mpf(y1)
    if outside is not None:
        yields = min(yields, ring * mpf(y2))
    return loads, min(yields, *loads.values())
