"""Unit arithmetic against a general-purpose unit library (Pint): 10,000 random expressions. Where Pint finds
no dimension for a sum, the compiler must refuse it; where it does, both values must agree to 1e-12.

An angle is a dimension of its own in this language, so that `camber = 3` cannot mean radians; Pint takes
the radian for a bare number. The oracle therefore defines its own angle units.

Usage: python3 tests/outside/units_oracle.py [PROGRAM]   (the `evaluate` example of the tests)
"""

import math
import random
import subprocess
import sys

from pinned import ROOT, enter

enter("units-oracle", ["pint==0.24.4"])

import pint  # noqa: E402

registry = pint.UnitRegistry()
registry.define("turning = [turning]")
registry.define("turning_degree = 0.017453292519943295769 * turning")
SI = {"length": "m", "mass": "kg", "force": "N", "pressure": "Pa", "time": "s", "angle": "turning"}
UNITS = {
    "mm": "mm", "cm": "cm", "m": "m", "in": "inch", "ft": "foot", "yd": "yard",
    "g": "g", "kg": "kg", "t": "metric_ton", "lb": "pound", "oz": "ounce",
    "N": "N", "kN": "kN", "lbf": "force_pound",
    "Pa": "Pa", "kPa": "kPa", "MPa": "MPa", "GPa": "GPa", "psi": "psi", "bar": "bar",
    "s": "s", "min": "minute", "h": "hour", "day": "day",
    "deg": "turning_degree", "rad": "turning",
    "": "", "kg/m3": "kg/m**3", "lb/ft": "pound/foot", "N/mm": "N/mm", "kg/m2": "kg/m**2",
}
dice = random.Random(20261125)


def literal():
    """Text in the language, and the quantity."""
    kind = dice.random()
    if kind < 0.12:
        whole, over, under = dice.randint(1, 20), dice.choice([1, 3, 5, 7]), dice.choice([8, 16, 32])
        return f"{whole} {over}/{under} in", (whole + over / under) * registry("inch")
    if kind < 0.18:
        feet, inches = dice.randint(1, 7), dice.randint(1, 11)
        return f"{feet} ft {inches} in", (feet * 12 + inches) * registry("inch")
    unit = dice.choice(list(UNITS))
    number = dice.choice([str(dice.randint(1, 999)), f"{dice.uniform(0.01, 99):.3f}", f"{dice.randint(1, 99)}e{dice.randint(-3, 3)}"])
    text = f"{number} {unit}".strip()
    quantity = float(number) * (registry(UNITS[unit]) if UNITS[unit] else registry.dimensionless)
    return text, quantity


def expression(depth):
    """Text and quantity; None where the library refuses."""
    if depth == 0 or dice.random() < 0.2:
        return literal()
    (a, x), (b, y) = expression(depth - 1), expression(depth - 1)
    operator = dice.choice("++--**/^")
    if x is None or y is None:
        operator = operator if operator != "^" else "*"
    if operator == "^":
        power = dice.choice([2, 3])
        return f"({a}) ^ {power}", None if x is None else x**power
    text = f"({a}) {operator} ({b})"
    if x is None or y is None:
        return text, None
    try:
        value = {"+": lambda: x + y, "-": lambda: x - y, "*": lambda: x * y, "/": lambda: x / y}[operator]()
    except pint.DimensionalityError:
        return text, None
    except ZeroDivisionError:
        return text, None
    return text, value


def alike(depth):
    """A sum of quantities of one kind, which random draws would seldom give."""
    a, x = literal()
    unit = [u for u, p in UNITS.items() if (registry(p) if p else registry.dimensionless).is_compatible_with(x)]
    if not unit:
        return a, x
    b = dice.choice(unit)
    n = dice.randint(1, 500)
    y = n * (registry(UNITS[b]) if UNITS[b] else registry.dimensionless)
    sign = dice.choice("+-")
    return f"({a}) {sign} {n} {b}".strip(), x + y if sign == "+" else x - y


cases = [alike(1) if i % 3 == 0 else expression(dice.randint(1, 3)) for i in range(10_000)]
program = next((a for a in sys.argv[1:] if not a.startswith("--")), str(ROOT / "target/release/examples/evaluate"))
answer = subprocess.run([program], input="\n".join(t for t, _ in cases), capture_output=True, text=True, check=True)
lines = answer.stdout.splitlines()
if len(lines) != len(cases):
    raise SystemExit(f"FAILED: {len(lines)} answers to {len(cases)} expressions")
agreed = refused = cancelled = 0
for (text, quantity), line in zip(cases, lines):
    if line.startswith("error"):
        code = line.split()[1]
        if quantity is None:
            refused += 1
        else:
            raise SystemExit(f"FAILED: {text} is {quantity}, and was refused as {code}")
        continue
    if quantity is None:
        raise SystemExit(f"FAILED: {text} has no dimension, and came to {line}")
    value, wanted = float(line), quantity.to_base_units().magnitude
    if not math.isclose(value, wanted, rel_tol=1e-12):
        # a difference of nearly equal values keeps few of the oracle's digits; ours are exact
        if not math.isclose(value, wanted, rel_tol=1e-8):
            raise SystemExit(f"FAILED: {text} is {wanted!r}, and came to {value!r}")
        cancelled += 1
    agreed += 1
if agreed < 4000 or refused < 500:
    raise SystemExit(f"FAILED: only {agreed} values and {refused} refusals were compared")
if cancelled > agreed // 100:
    raise SystemExit(f"FAILED: {cancelled} values agree only to eight digits")
print(f"units: {len(cases)} expressions, {agreed} values agree ({cancelled} to eight digits), {refused} refused by both")
