"""The resistance room against general-purpose libraries and other ways to the same figures.

- Sections of any outline, with holes and of two materials: sectionproperties (finite elements over shapely polygons);
  stresses by solving for the plane of strain with those figures.
- Tubes with a drilled hole: integration in polar coordinates by SciPy, and polygons of many corners by
  sectionproperties.
- Dowel yield modes: the shear at which the moments of both members balance at the plane between them, found as a
  root by SciPy (no closed formula is shared).
- Hankinson: the sum of reciprocals.
- Distances of segments: bounded minimisation by SciPy.
- Groups of fasteners, in their face and tilted off it: stiffness equations of a rigid plate on springs, solved by NumPy.

Usage: python3 tests/outside/resistance_oracle.py [ANSWER]   (the built example `answer` of the resistance room)
"""

import json
import math
import os
import pathlib
import random
import resource
import subprocess
import sys

from pinned import ROOT, enter

PINNED = ["numpy==2.4.6", "scipy==1.17.1", "shapely==2.1.2", "sectionproperties==3.10.2"]

if __name__ == "__main__":
    enter("resistance-oracle", PINNED)

import numpy as np  # noqa: E402
from scipy.integrate import quad  # noqa: E402
from scipy.optimize import brentq, minimize  # noqa: E402
from sectionproperties.analysis import Section  # noqa: E402
from sectionproperties.pre import Geometry, Material  # noqa: E402
from shapely import Polygon, affinity, box  # noqa: E402
from shapely.geometry import Point  # noqa: E402


def program():
    """The built example, or the one named."""
    named = [a for a in sys.argv[1:] if not a.startswith("--")]
    if named:
        return named[0]
    target = pathlib.Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target"))
    subprocess.run(["cargo", "build", "-q", "--release", "-p", "chairwright-resistance", "--example", "answer"],
                   cwd=ROOT, check=True)
    return str(target / "release/examples/answer")


class Tally:
    def __init__(self):
        self.cases, self.checks, self.wrong, self.worst = {}, 0, 0, {}

    def case(self, kind):
        self.cases[kind] = self.cases.get(kind, 0) + 1

    def near(self, got, want, size, tolerance, kind, what):
        """Agreement relative to a size that the caller names."""
        error = abs(got - want) / size
        self.checks += 1
        self.worst[kind] = max(self.worst.get(kind, 0.0), error)
        if not error <= tolerance:
            self.wrong += 1
            print(f"WRONG {what}: {kind}: {got} against {want}")


# --- sections -------------------------------------------------------------------------------------------------------

def meshed(parts):
    """Figures of polygons with moduli, weighted by modulus, from the finite elements."""
    geometry = None
    for polygon, modulus in parts:
        material = Material(f"m{modulus}", modulus, 0.0, 1, 1, "grey")
        piece = Geometry(polygon, material=material)
        geometry = piece if geometry is None else geometry + piece
    # Without bounds on size and shape: the integrals are exact on any triangles, and slivers need no refining.
    geometry.create_mesh(mesh_sizes=[0], coarse=True)
    section = Section(geometry)
    section.calculate_geometric_properties()
    reference = Material("one", 1.0, 0.0, 1, 1, "grey")
    ixx, iyy, ixy = section.get_eic(e_ref=reference)
    cx, cy = section.get_c()
    return {"area": section.get_ea(e_ref=reference), "centroid": [cx, cy], "iy": ixx, "iz": iyy, "iyz": ixy}


def same_section(tally, got, want, tolerance, kind, what):
    size = max(want["iy"], want["iz"])
    length = math.sqrt(want["area"])
    tally.near(got["area"], want["area"], want["area"], tolerance, f"{kind}: area", what)
    for k in range(2):
        tally.near(got["centroid"][k], want["centroid"][k], length, tolerance, f"{kind}: centroid", what)
    for name in ("iy", "iz", "iyz"):
        tally.near(got[name], want[name], size, tolerance, f"{kind}: moments", what)
    values, vectors = np.linalg.eigh([[want["iy"], -want["iyz"]], [-want["iyz"], want["iz"]]])
    tally.near(got["minor"], values[0], size, tolerance, f"{kind}: principal", what)
    tally.near(got["major"], values[1], size, tolerance, f"{kind}: principal", what)
    if values[1] - values[0] > 0.05 * size:
        # The axis of the greater moment, as a direction without a sense.
        axis = vectors[:, 1]
        across = axis[0] * math.sin(got["angle"]) - axis[1] * math.cos(got["angle"])
        tally.near(across, 0.0, 1.0, 20 * tolerance, f"{kind}: axis", what)


def star(rng, centre, count, low, high):
    at = [2 * math.pi * (k + rng.uniform(0, 0.8)) / count for k in range(count)]
    return [[centre[0] + r * math.cos(a), centre[1] + r * math.sin(a)]
            for a in at for r in [rng.uniform(low, high)]]


def random_sections(rng, count):
    """Stars, stars with a hole, and pairs of rectangles of two materials."""
    while count > 0:
        kind, at = rng.choice(["plain", "hole", "pair"]), [rng.uniform(-2, 2), rng.uniform(-2, 2)]
        if kind == "pair":
            w, h, g = rng.uniform(0.1, 2), rng.uniform(0.1, 2), rng.uniform(0.1, 2)
            one, two = box(0, 0, w, h), box(w, 0, w + g, rng.uniform(0.1, 2))
            turn = rng.uniform(0, 360)
            parts = [(affinity.translate(affinity.rotate(p, turn, origin=(0, 0)), *at), e)
                     for p, e in ((one, 1.0), (two, rng.uniform(0.1, 10)))]
            yield parts, [{"corners": list(map(list, p.exterior.coords[:-1])), "weight": e} for p, e in parts]
        else:
            outer = star(rng, at, rng.randint(4, 12), 0.5, 1.0)
            polygon = Polygon(outer)
            if not polygon.is_valid:
                continue
            pieces = [{"corners": outer if rng.random() < 0.5 else outer[::-1], "weight": 1.0}]
            if kind == "hole":
                inner = star(rng, at, rng.randint(3, 6), 0.05, 0.25)
                if not Polygon(inner).is_valid or not polygon.contains(Polygon(inner).buffer(0.01)):
                    continue
                polygon = polygon.difference(Polygon(inner))
                pieces.append({"corners": inner, "weight": -1.0})
            if polygon.geom_type != "Polygon" or polygon.area < 0.1:
                continue
            yield [(polygon, 1.0)], pieces
        count -= 1


def plane_stress(want, at, load):
    """Stress of the plane of strain that balances a pull and two moments: three equations."""
    y, z = at[0] - want["centroid"][0], at[1] - want["centroid"][1]
    n, my, mz = load
    # N = ∫σ, My = ∫σz, Mz = −∫σy with σ = a + b y + c z.
    a, b, c = np.linalg.solve([[want["area"], 0, 0], [0, want["iyz"], want["iy"]], [0, -want["iz"], -want["iyz"]]],
                              [n, my, mz])
    return a + b * y + c * z


def outlines(tally, ask, rng, count):
    made = list(random_sections(rng, count))
    loads = [([rng.uniform(-1, 1) for _ in range(3)], [rng.uniform(-2, 2), rng.uniform(-2, 2)]) for _ in made]
    answers = ask([{"kind": "outline", "pieces": p, "at": at, "load": load} for (_, p), (load, at) in zip(made, loads)])
    for k, ((parts, _), (load, at), got) in enumerate(zip(made, loads, answers)):
        want = meshed(parts)
        same_section(tally, got, want, 1e-9, "outlines", f"section {k}")
        stress = plane_stress(want, at, load)
        size = abs(plane_stress(want, at, [load[0], 0, 0])) + abs(plane_stress(want, at, [0, load[1], 0])) \
            + abs(plane_stress(want, at, [0, 0, load[2]]))
        tally.near(got["stress"], stress, size, 1e-7, "outlines: stress", f"section {k}")
        tally.case("outlines")


def polar_tube(q):
    """What is left of a ring beside a strip, integrated over the angle in the hole's own axes."""
    r1, a = q["outer"] / 2, q["hole"] / 2
    r0 = r1 - q["wall"]

    def inner(t):
        # The strip |u| < a is gone: u = r sin t, v = r cos t; with one wall only where v > 0.
        if not q["both"] and math.cos(t) < 0:
            return r0
        return min(max(r0, a / max(abs(math.sin(t)), 1e-300)), r1)

    def integral(f, power):
        breaks = [0.0, math.pi / 2, math.pi, 3 * math.pi / 2, 2 * math.pi]
        for r in (r0, r1):
            if r > a > 0:
                s = math.asin(a / r)
                breaks += [s, math.pi - s, math.pi + s, 2 * math.pi - s]
        breaks.sort()
        total = 0.0
        for low, high in zip(breaks, breaks[1:]):
            if high > low:
                ring = lambda t: f(t) * (r1 ** power - inner(t) ** power) / power
                total += quad(ring, low, high, epsabs=0, epsrel=1e-12, limit=200)[0]
        return total

    area = integral(lambda t: 1.0, 2)
    first = integral(math.cos, 3)
    uu = integral(lambda t: math.sin(t) ** 2, 4)
    vv = integral(lambda t: math.cos(t) ** 2, 4)
    v = first / area
    # Turned by hand: the hole's axis lies along (sin angle, cos angle) in (y, z).
    s, c = math.sin(q["angle"]), math.cos(q["angle"])
    turn = np.array([[c, s], [-s, c]])  # columns: directions of u and v
    tensor = turn @ np.diag([uu, vv - area * v * v]) @ turn.T
    return {"area": area, "centroid": list(turn @ [0, v]), "iz": tensor[0, 0], "iy": tensor[1, 1],
            "iyz": tensor[0, 1]}


def random_tube(rng):
    outer = rng.uniform(0.01, 0.1)
    wall = outer * rng.uniform(0.03, 0.5)
    solid = rng.random() < 0.15
    if solid:
        wall = outer / 2
    hole = rng.uniform(0.05, 0.95) * (outer if solid else outer - 2 * wall)
    return {"kind": "tube", "outer": outer, "wall": wall, "hole": hole, "angle": rng.uniform(-4, 4),
            "both": rng.random() < 0.5}


def tubes(tally, ask, rng, count, by_mesh):
    import warnings
    warnings.simplefilter("ignore")
    made = [random_tube(rng) for _ in range(count)]
    for k, (q, got) in enumerate(zip(made, ask(made))):
        # The integration cancels in the product of inertia and near thin ligaments: 1e-8.
        same_section(tally, got, polar_tube(q), 1e-8, "tubes", f"tube {k} {q}")
        tally.case("tubes")
    ringed = [q for q in made if q["wall"] < q["outer"] * 0.3 and q["hole"] < 0.6 * (q["outer"] - 2 * q["wall"])]
    ringed = ringed[:by_mesh]
    for k, (q, got) in enumerate(zip(ringed, ask(ringed))):
        r1 = q["outer"] / 2
        left = Point(0, 0).buffer(r1, 256).difference(Point(0, 0).buffer(r1 - q["wall"], 256))
        reach = r1 * 1.1
        left = left.difference(box(-q["hole"] / 2, -reach if q["both"] else 0, q["hole"] / 2, reach))
        left = affinity.rotate(left, -q["angle"], origin=(0, 0), use_radians=True)
        parts = [(p, 1.0) for p in getattr(left, "geoms", [left])]
        # Circles of 1024 corners.
        same_section(tally, got, meshed(parts), 1e-4, "tubes by mesh", f"ring {k} {q}")
        tally.case("tubes by mesh")


def boards(tally, ask, rng, count):
    made = []
    for _ in range(count):
        height = rng.uniform(0.02, 0.2)
        hole = height * rng.uniform(0.05, 0.8)
        room = (height - hole) / 2
        made.append({"kind": "board", "width": rng.uniform(0.01, 0.1), "height": height, "hole": hole,
                     "at": rng.uniform(-room, room) * 0.99})
    for k, (q, got) in enumerate(zip(made, ask(made))):
        w, h = q["width"] / 2, q["height"] / 2
        low, high = q["at"] - q["hole"] / 2, q["at"] + q["hole"] / 2
        want = meshed([(box(-w, -h, w, low), 1.0), (box(-w, high, w, h), 1.0)])
        same_section(tally, got, want, 1e-9, "boards", f"board {k}")
        tally.case("boards")


# --- dowels ---------------------------------------------------------------------------------------------------------

def rotating(q, length):
    """Moment at the shear plane of a member in which the dowel turns as a rigid bar, by the shear there."""
    def moment(p):
        turn = (p / q + length) / 2  # where the bearing changes sides
        return q * (length - turn) * (length + turn) / 2 - q * turn * turn / 2
    return moment


def hinged(q, plastic):
    """The same where the dowel bends at a hinge: there the shear is nothing."""
    return lambda p: plastic - q * (p / q) ** 2 / 2


def balance(one, other, most):
    return brentq(lambda p: one(p) + other(p), 0.0, most, xtol=1e-12 * most, rtol=1e-14)


def yield_modes(q):
    d = q["diameter"]
    (fm, lm), (fs, ls) = q["main"], q["side"]
    qm, qs = fm * d, fs * d
    # Plastic moment of a round bar: Fyb D³/6.
    plastic = q["bending"] * d ** 3 / 6
    most = 10 * (qm * lm + qs * ls + math.sqrt(plastic * (qm + qs)) * 4)
    inches = d / 0.0254
    share = q["angle"] / (math.pi / 2)
    if inches < 0.25:
        divide = [2.2 if inches <= 0.17 else 10 * inches + 0.5] * 3
    else:
        divide = [f * (1 + 0.25 * share) for f in (4.0, 3.6, 3.2)]
    one = {
        "Im": qm * lm / divide[0],
        "Is": qs * ls / divide[0],
        "II": balance(rotating(qs, ls), rotating(qm, lm), most) / divide[1],
        "IIIm": balance(hinged(qs, plastic), rotating(qm, lm), most) / divide[2],
        "IIIs": balance(rotating(qs, ls), hinged(qm, plastic), most) / divide[2],
        "IV": balance(hinged(qs, plastic), hinged(qm, plastic), most) / divide[2],
    }
    if q["planes"] == 2:
        return {"Im": one["Im"], "Is": 2 * one["Is"], "IIIs": 2 * one["IIIs"], "IV": 2 * one["IV"]}
    return one


def dowels(tally, ask, rng, count):
    made = []
    for _ in range(count):
        member = lambda: [rng.uniform(10e6, 60e6) if rng.random() < 0.8 else rng.uniform(200e6, 700e6),
                          rng.uniform(0.005, 0.1)]
        made.append({"kind": "dowel", "diameter": rng.uniform(0.0025, 0.0254), "bending": rng.uniform(250e6, 700e6),
                     "main": member(), "side": member(), "angle": rng.uniform(0, math.pi / 2),
                     "planes": rng.choice([1, 1, 2])})
    for k, (q, got) in enumerate(zip(made, ask(made))):
        want = yield_modes(q)
        assert set(want) == set(got["modes"]), (k, got)
        for mode, z in want.items():
            tally.near(got["modes"][mode], z, z, 1e-9, f"dowels: {mode}", f"dowel {k} {q}")
        tally.near(got["capacity"], min(want.values()), min(want.values()), 1e-9, "dowels: least", f"dowel {k}")
        tally.case("dowels")


def hankinsons(tally, ask, rng, count):
    made = [{"kind": "hankinson", "along": rng.uniform(20e6, 60e6), "across": rng.uniform(3e6, 30e6),
             "angle": rng.uniform(0, math.pi / 2)} for _ in range(count)]
    for k, (q, got) in enumerate(zip(made, ask(made))):
        want = 1 / (math.cos(q["angle"]) ** 2 / q["along"] + math.sin(q["angle"]) ** 2 / q["across"])
        tally.near(got["strength"], want, want, 1e-12, "hankinson", f"angle {k}")
        tally.case("hankinson")


# --- fasteners in space and in groups -------------------------------------------------------------------------------

def segments(tally, ask, rng, count):
    point = lambda: [rng.uniform(-1, 1) for _ in range(3)]
    made = [{"kind": "segments", "a": [point(), point()], "b": [point(), point()]} for _ in range(count)]
    for k, (q, got) in enumerate(zip(made, ask(made))):
        (a0, a1), (b0, b1) = np.array(q["a"]), np.array(q["b"])
        square = lambda x: float(np.sum((a0 + x[0] * (a1 - a0) - b0 - x[1] * (b1 - b0)) ** 2))
        # The square is convex: one start is enough.
        found = minimize(square, [0.5, 0.5], bounds=[(0, 1), (0, 1)], tol=1e-16)
        tally.near(got["distance"], math.sqrt(max(found.fun, 0.0)), 1.0, 1e-5, "segments", f"pair {k}")
        tally.case("segments")


def groups(tally, ask, rng, count):
    pair = lambda size: [rng.uniform(-size, size) for _ in range(2)]
    made = [{"kind": "group", "places": [pair(1.0) for _ in range(rng.randint(2, 9))], "force": pair(9.0),
             "at": pair(2.0), "moment": rng.uniform(-5, 5)} for _ in range(count)]
    for k, (q, got) in enumerate(zip(made, ask(made))):
        # Springs of one stiffness under a plate that moves by (y, z) and turns about the origin.
        moved = [np.array([[1, 0, -p[1]], [0, 1, p[0]]]) for p in q["places"]]
        (fy, fz), (y, z) = q["force"], q["at"]
        pushed = [fy, fz, y * fz - z * fy + q["moment"]]
        motion = np.linalg.solve(sum(m.T @ m for m in moved), pushed)
        each = np.array([m @ motion for m in moved])
        size = np.abs(each).max()
        for mine, theirs in zip(np.array(got["each"]).ravel(), each.ravel()):
            tally.near(mine, theirs, size, 1e-9, "groups", f"group {k}")
        tally.case("groups")


def tilted(tally, ask, rng, count):
    made = [{"kind": "tilted", "places": [[rng.uniform(-1, 1) for _ in range(2)] for _ in range(rng.randint(3, 9))],
             "pull": rng.uniform(-9, 9), "moments": [rng.uniform(-5, 5) for _ in range(2)]} for _ in range(count)]
    for k, (q, got) in enumerate(zip(made, ask(made))):
        # The plate lifts and turns about the axes of the drawing, not of the group; the pull acts at the centroid.
        places, (my, mz) = np.array(q["places"]), q["moments"]
        rows = np.column_stack([np.ones(len(places)), places[:, 1], -places[:, 0]])
        y, z = places.mean(axis=0)
        motion = np.linalg.solve(rows.T @ rows, [q["pull"], my + z * q["pull"], mz - y * q["pull"]])
        each = rows @ motion
        # Three places almost in one row lose digits in both ways.
        tolerance = 1e-14 * np.linalg.cond(rows.T @ rows)
        for mine, theirs in zip(got["each"], each):
            tally.near(mine, theirs, np.abs(each).max(), max(tolerance, 1e-12), "tilted groups", f"tilted {k}")
        tally.case("tilted groups")


def main():
    # A mesh that runs away must not take the machine with it.
    resource.setrlimit(resource.RLIMIT_AS, (4 << 30, resource.RLIM_INFINITY))
    answer = program()

    def ask(asked):
        run = subprocess.run([answer], input=json.dumps(asked), capture_output=True, text=True, check=True)
        told = json.loads(run.stdout)
        refused = [(q, t) for q, t in zip(asked, told) if "refused" in t]
        if refused:
            sys.exit(f"refused: {refused[0]}")
        return told

    tally = Tally()
    outlines(tally, ask, random.Random("outlines"), 120)
    tubes(tally, ask, random.Random("tubes"), 200, 25)
    boards(tally, ask, random.Random("boards"), 40)
    dowels(tally, ask, random.Random("dowels"), 300)
    hankinsons(tally, ask, random.Random("hankinson"), 50)
    segments(tally, ask, random.Random("segments"), 100)
    groups(tally, ask, random.Random("groups"), 100)
    tilted(tally, ask, random.Random("tilted"), 100)
    for kind, worst in sorted(tally.worst.items()):
        print(f"{kind}: within {worst:.1e}")
    cases = sum(tally.cases.values())
    print(f"{cases} cases, {tally.checks} checks, {tally.wrong} wrong")
    sys.exit(1 if tally.wrong or cases < 900 else 0)


if __name__ == "__main__":
    main()
