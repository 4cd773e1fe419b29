"""Beams solved exactly by sympy's singularity functions, with whole numbers and fractions only."""

from fractions import Fraction
from functools import cache

from sympy import Rational, symbols
from sympy.physics.continuum_mechanics.beam import Beam

BESIDE = Rational(1, 10**9)  # how near to a plane the moment is taken on either side of it


@cache
def solved(held, forces, couples, planes):
    """(deflections, slopes) at planes, for E·I = 1, and the greatest moment; fractions.

    held: two supports, or one plane where the beam is built in. forces: (plane, force), couples:
    (plane, couple), each positive along positive deflection or slope. All of them tuples of fractions.
    """
    shift = min(0, *held, *planes, *(at for at, _ in forces + couples))  # the beam of sympy begins at 0
    place = lambda at: Rational(at.numerator, at.denominator) - shift  # noqa: E731
    size = lambda number: Rational(number.numerator, number.denominator)  # noqa: E731
    length = max(place(at) for at in (*held, *planes, *(at for at, _ in forces + couples))) + 1
    beam = Beam(length, 1, 1)
    for at, force in forces:
        beam.apply_load(size(force), place(at), -1)
    for at, couple in couples:
        beam.apply_load(-size(couple), place(at), -2)  # sympy counts couples against the slope
    unknown = symbols("R_1 R_2")
    beam.apply_load(unknown[0], place(held[0]), -1)
    beam.apply_load(unknown[1], place(held[-1]), -1 if len(held) == 2 else -2)
    beam.bc_deflection = [(place(at), 0) for at in held]
    beam.bc_slope = [(place(held[0]), 0)] if len(held) == 1 else []
    beam.solve_for_reaction_loads(*unknown)
    deflection, slope, moment = beam.deflection(), beam.slope(), beam.bending_moment()

    def value(curve, at):
        found = curve.subs(beam.variable, at)
        return Fraction(int(found.p), int(found.q))

    corners = {place(at) for at in (*held, *(at for at, _ in forces + couples))}
    sides = (abs(value(moment, corner + side)) for corner in corners for side in (-BESIDE, BESIDE))
    return (
        tuple(value(deflection, place(at)) for at in planes),
        tuple(value(slope, place(at)) for at in planes),
        max(sides),
    )
