"""Clearances against a brute-force sampler: random chairs are written as texts, worked out by the program,
and every caster is swung in steps of one degree as a cloud of points; the distance of each point to the
obstacles is taken from closed forms (cylinder, box, tyre). Where the cloud comes nearest, it is made denser
and turned in steps of a tenth of a degree. The figures must lie at the sampled distance, within what the
cloud can miss: never above it, and not below it by more than the cloud's spacing explains. What a convex
hull looks like is left to scipy (qhull).

Also compared: the tyre's ring to the side (points of the circle), and pairs of casters (both in steps of
three degrees, then of a third of one).

Usage: python3 tests/outside/clearance_oracle.py [PROGRAM] [--chairs=N]
"""

import json
import math
import pathlib
import subprocess
import sys
import tempfile

from pinned import ROOT, enter

enter("clearance", ["numpy==2.1.3", "scipy==1.14.1"])

import numpy as np  # noqa: E402
from scipy.spatial import ConvexHull, cKDTree  # noqa: E402

PROGRAM = next((a for a in sys.argv[1:] if not a.startswith("--")), str(ROOT / "target/release/chairwright"))
CHAIRS = int(next((a.split("=")[1] for a in sys.argv if a.startswith("--chairs=")), "220"))
# the program may tell a gap beyond 30 mm up to a hundredth too small, and a nearer one 0.05 mm
ABOVE, BELOW = 0.05e-3, 0.45e-3
worst = {"above": 0.0, "below": 0.0}
counts = {}


def unit(v):
    return v / np.linalg.norm(v)


# --- distances of points from closed forms; negative inside


def to_cylinder(p, a, b, radius):
    axis = unit(b - a)
    half = np.linalg.norm(b - a) / 2
    rel = p - (a + b) / 2
    along = rel @ axis
    off = np.linalg.norm(rel - along[:, None] * axis, axis=1)
    dx, dz = off - radius, np.abs(along) - half
    outside = np.hypot(np.maximum(dx, 0), np.maximum(dz, 0))
    return np.where((dx < 0) & (dz < 0), np.maximum(dx, dz), outside)


def to_box(p, middle, axes, half):
    rel = np.abs((p - middle) @ axes.T) - half
    outside = np.linalg.norm(np.maximum(rel, 0), axis=1)
    return np.where((rel < 0).all(axis=1), rel.max(axis=1), outside)


def to_tyre(p, middle, axle, radius, section):
    rel = p - middle
    along = rel @ axle
    off = np.linalg.norm(rel - along[:, None] * axle, axis=1)
    return np.hypot(np.maximum(off - (radius - section), 0), along) - section


# --- clouds


def wheel_cloud(middle, axle, radius, half, n):
    u = unit(np.cross(axle, [0.123, 0.4, 0.9]))
    v = np.cross(axle, u)
    t = np.linspace(0, 2 * math.pi, n, endpoint=False)
    circle = np.outer(np.cos(t), u) + np.outer(np.sin(t), v)
    tread = [middle + circle * radius + axle * s for s in np.linspace(-half, half, max(5, n // 36))]
    sides = [middle + circle * r + axle * s for r in np.linspace(0, radius, max(4, n // 24)) for s in (-half, half)]
    return np.concatenate(tread + sides)


def ball(middle, radius, n=400):
    i = np.arange(n) + 0.5
    z, t = 1 - 2 * i / n, math.pi * (1 + 5**0.5) * i
    return middle + radius * np.column_stack([np.sqrt(1 - z * z) * np.cos(t), np.sqrt(1 - z * z) * np.sin(t), z])


def disc(middle, axis, radius, n=180):
    u = unit(np.cross(axis, [0.3, 0.9, 0.1]))
    t = np.linspace(0, 2 * math.pi, n, endpoint=False)
    return middle + radius * (np.outer(np.cos(t), u) + np.outer(np.sin(t), np.cross(axis, u)))


def hull_cloud(points, step):
    """Points all over the surface of a convex hull, no further apart than `step`."""
    hull = ConvexHull(points)
    out = [points[hull.vertices]]
    for triangle in points[hull.simplices]:
        a, b, c = triangle
        n = int(max(np.linalg.norm(b - a), np.linalg.norm(c - a), np.linalg.norm(c - b)) / step) + 1
        i, j = np.meshgrid(np.arange(n + 1), np.arange(n + 1))
        keep = i + j <= n
        i, j = i[keep][:, None] / n, j[keep][:, None] / n
        out.append(a + (b - a) * i + (c - a) * j)
    return np.concatenate(out)


class Caster:
    """Wheel and fork as the plan describes them, worked out anew."""

    BOSS = 0.010

    def __init__(self, at, rake, radius, width, trail, drop, fork):
        self.at = np.array(at)
        self.stem = np.array([-math.sin(rake), 0.0, math.cos(rake)])
        back = unit(np.array([-1.0, 0, 0]) - self.stem * (-self.stem[0]))
        self.axle = np.cross(self.stem, back)
        self.middle = self.at - self.stem * drop + back * trail
        self.radius, self.width, self.trail, self.drop, self.fork = radius, width, trail, drop, fork
        self.high = max(drop - radius, 0.0)
        self.kept = {}

    def cloud(self, fine, above):
        """`above`: against something above the seat, to which the crown does not count."""
        wheel = wheel_cloud(self.middle, self.axle, self.radius, self.width / 2, 720 if fine else 72)
        half = max(self.fork / 2 - self.BOSS, 0.0)
        bosses = [ball(self.middle + self.axle * s * half, self.BOSS, 1500 if fine else 120) for s in (-1, 1)]
        low = self.at - self.stem * self.high
        root = low[None, :] if above else disc(low, self.stem, self.fork / 2, 720 if fine else 60)
        legs = hull_cloud(np.concatenate([root, *bosses]), 0.0015 if fine else 0.01)
        return np.concatenate([wheel, legs])

    def coarse(self, above):
        return self._kept("coarse", above)

    def fine(self, above):
        return self._kept("fine", above)

    def _kept(self, which, above):
        if (which, above) not in self.kept:
            self.kept[which, above] = self.cloud(which == "fine", above)
        return self.kept[which, above]

    def crown(self):
        n = max(2, int(self.high / 0.001))
        rings = [disc(self.at - self.stem * h, self.stem, self.fork / 2 * k, 240)
                 for h in np.linspace(0, self.high, n) for k in ((1,) if 0 < h < self.high else np.linspace(0, 1, 16))]
        return np.concatenate(rings)

    def turned(self, cloud, angle):
        k, rel = self.stem, cloud - self.at
        along = np.outer(rel @ k, k)
        return self.at + along + (rel - along) * math.cos(angle) + np.cross(k, rel) * math.sin(angle)


def least(caster, distance, above, beat=math.inf):
    coarse = caster.coarse(above)
    angles = np.radians(np.arange(360))
    sampled = np.array([distance(caster.turned(coarse, a)).min() for a in angles])
    if not above and distance(caster.crown()).min() < 0:
        return -1.0
    if sampled.min() < 0:
        return float(sampled.min())
    if sampled.min() > beat + 0.006:
        return beat
    best = math.inf
    fine = caster.fine(above)
    for i in np.argsort(sampled)[:3]:
        there = distance(caster.turned(fine, angles[i]))
        near = fine[there < there.min() + 0.006]
        for step in np.radians(np.arange(-1, 1.01, 0.1)):
            best = min(best, distance(caster.turned(near, angles[i] + step)).min())
    return float(best)


# --- random chairs


def mm(v):
    return f"{v * 1e3:.3f} mm"


def place(p):
    x, y, z = p
    words = [f"{'forward' if x >= 0 else 'back'} {mm(abs(x))}", f"{'left' if y >= 0 else 'right'} {mm(abs(y))}",
             f"{'up' if z >= 0 else 'down'} {mm(abs(z))}"]
    return ", ".join(words)


def rounded(v):
    return np.round(np.asarray(v, dtype=float), 6)


class Chair:
    def __init__(self, seed):
        r = np.random.default_rng(seed)
        self.r = r
        uniform = lambda a, b: float(rounded(r.uniform(a, b)))  # noqa: E731
        self.wheel = {"radius": 0.3, "section": uniform(0.012, 0.025), "y": uniform(0.24, 0.3),
                      "camber": float(r.choice([0.0, 2.0, 4.0]))}
        radius = uniform(0.04, 0.1)
        width = uniform(0.02, 0.05)
        size = {"radius": radius, "width": width, "trail": uniform(0.03, 0.07),
                "drop": radius + uniform(0.015, 0.04), "fork": width + uniform(0.008, 0.03)}
        self.size = size
        self.rake = float(r.choice([0.0, 0.0, -4.0, 3.0]))
        near = r.random() < 0.25
        y = uniform(0.9, 1.15) * (size["trail"] + radius) if near else uniform(0.16, 0.22)
        y = float(rounded(y))
        z = size["drop"] + radius
        at = lambda side: (uniform(0.38, 0.45) if side > 0 else None, side * y, z)  # noqa: E731
        left = at(1)
        self.at = [np.array(rounded(left)), np.array(rounded((left[0], -y, z)))]
        self.casters = [Caster(a, math.radians(self.rake), size["radius"], size["width"], size["trail"],
                               size["drop"], size["fork"]) for a in self.at]
        self.rods, self.plates = [], []
        while len(self.rods) < 4:
            self.rod()
        self.rest()

    def rod(self):
        r, c = self.r, self.casters[int(self.r.integers(2))]
        reach = c.trail + c.radius
        t = r.uniform(0, 2 * math.pi)
        far = reach + r.uniform(-0.01, 0.08)
        middle = c.at + np.array([far * math.cos(t), far * math.sin(t), -c.drop + r.uniform(-0.3, 1.6) * c.radius])
        along = unit(r.normal(size=3))
        length = r.uniform(0.04, 0.3)
        a, b = rounded(middle - along * length / 2), rounded(middle + along * length / 2)
        radius = float(rounded(r.uniform(0.006, 0.02)))
        # a rod near a stem may carry it: that rule has tests of its own
        for other in self.casters:
            stem = np.linspace(-0.01, 0.09, 60)[:, None] * other.stem + other.at
            if to_cylinder(stem, a, b, radius).min() < 0.025:
                return
        self.rods.append((a, b, radius))

    def rest(self):
        r = self.r
        reach = self.size["trail"] + self.size["radius"]
        x = self.at[0][0] + reach + r.uniform(-0.02, 0.06)
        z = r.uniform(0.03, 0.12)
        slope = r.uniform(-0.05, 0.05)
        self.rest_from = rounded((x, 0, z))
        self.rest_to = rounded((x + 0.15, 0, z + slope))
        self.rest_width = float(rounded(r.uniform(0.2, 0.45)))

    def text(self):
        w, s = self.wheel, self.size
        lines = [
            f'part "w" {{ kind = wheel, mass = 2 kg, diameter = 600 mm, loaded_radius = 300 mm, width = {mm(2 * w["section"])}, source = "dice" }}',
            f'part "c" {{ kind = caster, mass = 1 kg, diameter = {mm(2 * s["radius"])}, width = {mm(s["width"])}, trail = {mm(s["trail"])}, '
            f'drop = {mm(s["drop"])}, fork_width = {mm(s["fork"])}, source = "dice" }}',
            'stock "ply" { shape = sheet, material = "m", thickness = 12 mm, source = "dice" }',
            'material "m" { density = 600 kg/m3, source = "dice" }',
        ]
        for side, sign in (("left", 1), ("right", -1)):
            lines.append(f'wheel {side}_rear = "w" at {side} {mm(w["y"])}, up 300 mm camber {w["camber"]} deg')
            a = self.at[0 if sign > 0 else 1]
            lines.append(f'caster {side}_front = "c" at {place(a)} raked {self.rake} deg')
        for i, (a, b, radius) in enumerate(self.rods):
            lines.append(f'stock "rod{i}" {{ shape = rod, material = "m", diameter = {mm(2 * radius)}, source = "dice" }}')
            lines += [f"joint a{i} at {place(a)}", f"joint b{i} at {place(b)}", f'member rod{i} = "rod{i}" from a{i} to b{i}']
        lines.append(f'footrest = "ply" from {place(self.rest_from)} to {place(self.rest_to)} width {mm(self.rest_width)}')
        return "\n".join(lines) + "\n"

    def frame_gap(self):
        best = math.inf
        for c in self.casters:
            for a, b, radius in self.rods:
                axis = unit(b - a)
                dip = min((p - c.at) @ c.stem for p in (a, b)) - radius * math.sqrt(max(0, 1 - (axis @ c.stem) ** 2))
                best = min(best, least(c, lambda p: to_cylinder(p, a, b, radius), dip >= -0.001, best))
        return best

    def rest_gap(self):
        x = unit(self.rest_to - self.rest_from)
        y = np.array([0.0, 1.0, 0.0])
        z = np.cross(x, y)
        half = np.array([np.linalg.norm(self.rest_to - self.rest_from) / 2, self.rest_width / 2, 0.006])
        middle = (self.rest_from + self.rest_to) / 2 - z * 0.006
        axes = np.array([x, y, z])
        best = math.inf
        for c in self.casters:
            dip = (middle - c.at) @ c.stem - np.abs(axes @ c.stem) @ half
            best = min(best, least(c, lambda p: to_box(p, middle, axes, half), dip >= -0.001, best))
        return best

    def wheels(self):
        w = self.wheel
        lean = math.radians(w["camber"])
        for sign in (1, -1):
            yield np.array([0, sign * w["y"], 0.3]), np.array([0, sign * math.cos(lean), math.sin(lean)])

    def wheel_gap(self):
        best = math.inf
        for at, axle in self.wheels():
            for c in self.casters:
                best = min(best, least(c, lambda p: to_tyre(p, at, axle, 0.3, self.wheel["section"]), False, best))
        return best

    def tyre_gap(self):
        best = math.inf
        core = 0.3 - self.wheel["section"]
        x = unit(self.rest_to - self.rest_from)
        y, half = np.array([0.0, 1.0, 0.0]), np.array([np.linalg.norm(self.rest_to - self.rest_from) / 2, self.rest_width / 2, 0.006])
        z = np.cross(x, y)
        box = ((self.rest_from + self.rest_to) / 2 - z * 0.006, np.array([x, y, z]), half)
        for at, axle in self.wheels():
            ring = disc(at, axle, core, 7200)
            for a, b, radius in self.rods:
                best = min(best, to_cylinder(ring, a, b, radius).min())
            best = min(best, to_box(ring, *box).min())
        return best - self.wheel["section"] - 0.002 - 0.3 * math.tan(math.radians(0.5))

    def pair_gap(self):
        """Both in steps of three degrees by points of their tyres' edges, then finer."""
        def rims(c, n):
            return np.concatenate([disc(c.middle + c.axle * s * c.width / 2, c.axle, c.radius, n) for s in (-1, 1)])
        a, b = self.casters
        best = (math.inf, 0, 0)
        coarse = [(rims(c, 90), c) for c in (a, b)]
        trees = [cKDTree(b.turned(coarse[1][0], t)) for t in np.radians(np.arange(0, 360, 3))]
        for i in range(0, 360, 3):
            cloud = a.turned(coarse[0][0], math.radians(i))
            for k, tree in enumerate(trees):
                d = tree.query(cloud, distance_upper_bound=best[0])[0].min()
                if d < best[0]:
                    best = (d, i, 3 * k)
        fine_a, fine_b = rims(a, 1440), rims(b, 1440)
        least_gap = math.inf
        others = [cKDTree(b.turned(fine_b, math.radians(best[2] + j / 3))) for j in range(-9, 10)]
        for i in range(-9, 10):
            cloud = a.turned(fine_a, math.radians(best[1] + i / 3))
            least_gap = min([least_gap] + [o.query(cloud)[0].min() for o in others])
        return least_gap


def compare(name, seed, got, sampled):
    counts[name] = counts.get(name, 0) + 1
    if sampled < 0:
        counts["overlaps"] = counts.get("overlaps", 0) + 1
        if got >= 0:
            raise SystemExit(f"FAILED: chair {seed}: {name} is {got}, and the cloud overlaps by {-sampled}")
        return
    if got < 0:
        # the cloud may miss a shallow overlap by its spacing
        if got < -0.6e-3 and sampled > 0.3e-3:
            raise SystemExit(f"FAILED: chair {seed}: {name} is {got}, and the cloud stays {sampled} away")
        return
    far = 0.01 * sampled if sampled > 0.03 else 0.0
    worst["above"] = max(worst["above"], got - sampled)
    worst["below"] = max(worst["below"], sampled - got - far)
    if got > sampled + ABOVE or got < sampled - BELOW - far:
        raise SystemExit(f"FAILED: chair {seed}: {name} is {got}, and the cloud comes to {sampled}")


def main():
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        for seed in range(CHAIRS):
            chair = Chair(seed)
            path = folder / "dice.chair"
            path.write_text(chair.text())
            subprocess.run([PROGRAM, "build", str(path), "--out", str(folder / "out")], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            report = json.loads((folder / "out/report.json").read_text())
            figure = {k: v["value"] for k, v in report["figures"].items()}
            if "gap.caster.frame" not in figure:
                counts["no rest"] = counts.get("no rest", 0) + 1
                continue
            compare("gap.caster.frame", seed, figure["gap.caster.frame"], chair.frame_gap())
            compare("gap.caster.footrest", seed, figure["gap.caster.footrest"], chair.rest_gap())
            compare("gap.caster.wheel", seed, figure["gap.caster.wheel"], chair.wheel_gap())
            tyre = chair.tyre_gap()
            if tyre > 0:
                compare("gap.tyre.side", seed, figure["gap.tyre.side"], tyre)
            if 0 < figure["gap.caster.caster"] < 0.045 and counts.get("gap.caster.caster", 0) < 10:
                compare("gap.caster.caster", seed, figure["gap.caster.caster"], chair.pair_gap())
    compared = sum(v for k, v in counts.items() if k.startswith("gap."))
    print(f"clearance oracle: {CHAIRS} chairs, {compared} figures agree: {counts}")
    print(f"most above the cloud {worst['above'] * 1e3:.3f} mm, most below it {worst['below'] * 1e3:.3f} mm")


main()
