"""Rolling and room against brute force: random chairs are written in the language, the program's figures are read from
its JSON, and each is worked out again from the numbers that went into the text, by sampling and search alone.

- rest: the pitch at which sampled tyres all touch, and from it the centre of mass, length and width;
- slopes that tip: over every pair of 72 swivels of both casters, and by single degrees around the worst, the chair is set
  anew on each three of its wheels by Newton's method on their heights, and the greatest slope of those that it can stand
  on counts; the least of all pairs must agree for four figures and for the least of 72 directions. With upright stems also
  by turning gravity with trailing casters, above which no figure may be. Half as many chairs again have leaning stems;
- a turn on the spot: the furthest of all sampled points, the caster forks turned through a whole turn;
- the corner: a rectangle, as wide as the chair with its casters in every swivel, is pushed into the outer walls at every quarter degree, and its outline sampled against the
  inner block;
- ramps: the chair is set on ground that bends, at many places, and every sampled point of its plates held against it.

Usage: python3 tests/outside/room_oracle.py [PROGRAM] [COUNT]
"""

import json
import math
import multiprocessing
import pathlib
import random
import subprocess
import sys
import tempfile

from pinned import ROOT, enter

enter("room-oracle", ["numpy==2.1.3"])

import numpy as np  # noqa: E402

words = [a for a in sys.argv[1:] if not a.startswith("--")]
PROGRAM = words[0] if words else str(ROOT / "target/release/chairwright")
COUNT = int(words[1]) if len(words) > 1 else 240
SHEET = 0.012
DENSITY = 600.0
CASTER = 1.0  # kg; of heavy casters the worst swivel is found to 0.03 degrees
checks = 0
worst = {}


def agree(name, got, wanted, within, chair):
    """Holds two values together and remembers the widest gap."""
    global checks
    checks += 1
    gap = abs(got - wanted)
    worst[name] = max(worst.get(name, 0.0), gap)
    if not gap <= within:
        raise SystemExit(f"FAILED: {name} {got} against {wanted}, seed {chair['seed']}")


def draw(seed):
    """Random measures of one chair, in metres, kilograms and degrees."""
    d = random.Random(seed)
    u = d.uniform
    radius, caster = u(0.24, 0.34), u(0.04, 0.10)
    half = u(0.22, 0.33)
    stem, drop = u(0.36, 0.55), caster + u(0.03, 0.06)
    return {
        "seed": seed,
        "R": radius,
        "tyre": u(0.02, 0.05),
        "camber": d.choice([0.0, u(0.0, 4.0)]),
        "half": half,
        "r": caster,
        "width": u(0.02, 0.05),
        "trail": u(0.02, 0.06),
        "drop": drop,
        "stem": stem,
        "caster_half": half - u(0.05, 0.12),  # the forks stay inside of the rear wheels
        "seat_of_stem": caster + drop + u(-0.008, 0.008),
        "rake": 0.0,
        "lump": (u(60, 120), u(0.08, 0.20), u(-0.03, 0.03), u(0.45, 0.65)),
        "bag": (u(1, 9), u(-0.10, 0.30), u(-0.10, 0.10), u(0.2, 0.8)),
        "plates": {
            "foot": (stem + u(0.02, 0.10), stem + u(0.15, 0.30), u(0.08, 0.20), u(0.04, 0.14)),
            "belly": (u(0.06, 0.15), u(0.18, 0.30), u(0.05, 0.14), u(0.02, 0.12)),
            "tail": (-u(0.30, 0.45), -u(0.10, 0.25), u(0.05, 0.15), u(0.04, 0.14)),
        },
        "a": u(0.75, 1.3),
        "b": u(0.75, 1.3),
    }


def text(c):
    """The chair in the language."""
    mm = lambda v: f"{v * 1e3:.9f} mm"  # noqa: E731
    at = lambda x, y, z: f"forward {mm(x)}, left {mm(y)}, up {mm(z)}"  # noqa: E731
    lines = [
        "use catalogue.webbing",
        f'material "light" {{ density = {DENSITY} kg/m3, source = "made up" }}',
        f'stock "plate" {{ shape = sheet, material = "light", thickness = {mm(SHEET)}, source = "made up" }}',
        f'part "w" {{ kind = wheel, mass = 2 kg, diameter = {mm(2 * c["R"])}, width = {mm(c["tyre"])},'
        f' hub_width = {mm(c["tyre"])}, source = "made up" }}',
        f'part "c" {{ kind = caster, mass = {CASTER} kg, diameter = {mm(2 * c["r"])}, width = {mm(c["width"])},'
        f' trail = {mm(c["trail"])}, drop = {mm(c["drop"])}, source = "made up" }}',
        "rider { mass = 0.001 kg, stature = 600 mm }",
        f"conditions {{ corridor = {mm(c['a'])}, corridor_to = {mm(c['b'])} }}",
        "both sides {",
        f'    wheel rear = "w" at outward {mm(c["half"])}, up {mm(c["R"])} camber {c["camber"]:.9f} deg',
        f'    caster front = "c" at outward {mm(c["caster_half"])}, forward {mm(c["stem"])}, up {mm(c["seat_of_stem"])}'
        + (f' raked {c["rake"]:.9f} deg' if c["rake"] else ""),
        "}",
        'seat = "webbing 50 mm" from up 450 mm, forward 50 mm to up 450 mm, forward 200 mm width 60 mm times 1',
    ]
    for name in ("lump", "bag"):
        mass, *place = c[name]
        size = ", ".join(f"{s} = 20 mm" for s in ("length", "width", "height"))
        lines.append(f'part "{name}" {{ kind = other, mass = {mass:.9f} kg, {size}, source = "made up" }}')
        lines.append(f'item {name} = "{name}" at {at(*place)}')
    for name, (x0, x1, y, z) in c["plates"].items():
        corners = [(x0, y), (x1, y), (x1, -y), (x0, -y)]
        for i, (cx, cy) in enumerate(corners):
            lines.append(f"joint {name}{i} at {at(cx, cy, z)}")
        lines.append(f'panel {name} = "plate" corners {", ".join(f"{name}{i}" for i in range(4))} toward up')
    return "\n".join(lines) + "\n"


def turn(pitch):
    """Nose up by an angle: x forward, z up."""
    s, k = math.sin(pitch), math.cos(pitch)
    return np.array([[k, 0, -s], [0, 1, 0], [s, 0, k]])


def torus(centre, axle, radius, section, around=720, across=24):
    """Points on a tyre."""
    axle = axle / np.linalg.norm(axle)
    first = np.cross(axle, [0.0, 0.0, 1.0])
    first /= np.linalg.norm(first)
    second = np.cross(axle, first)
    t, p = np.meshgrid(np.arange(around) * math.tau / around, np.arange(across) * math.tau / across)
    t, p = t.ravel()[:, None], p.ravel()[:, None]
    out = np.cos(t) * first + np.sin(t) * second
    return centre + out * (radius - section + section * np.cos(p)) + axle * (section * np.sin(p))


def rear_wheels(c):
    k = math.radians(c["camber"])
    for side in (1, -1):
        yield np.array([0, side * c["half"], c["R"]]), np.array([0, side * math.cos(k), math.sin(k)])


def front_wheels(c, swivels):
    """Centre and axle of both casters at their swivels; 0 trails. A raked stem leans back at its top. One swivel for each,
    or a row of them."""
    k = math.radians(c["rake"])
    stem, back = np.array([-math.sin(k), 0.0, math.cos(k)]), np.array([-math.cos(k), 0.0, -math.sin(k)])
    aside = np.array([0.0, -1.0, 0.0])
    for side, w in zip((1, -1), swivels):
        cos, sin = np.cos(w)[..., None], np.sin(w)[..., None]
        pivot = np.array([c["stem"], side * c["caster_half"], c["seat_of_stem"]]) - stem * c["drop"]
        yield pivot + (back * cos + aside * sin) * c["trail"], aside * cos - back * sin


def tyres(c, swivels=(0.0, 0.0), **more):
    rear = [torus(p, a, c["R"], min(c["tyre"] / 2, 0.9 * c["R"]), **more) for p, a in rear_wheels(c)]
    front = [torus(p, a, c["r"], min(c["width"] / 2, 0.9 * c["r"]), **more) for p, a in front_wheels(c, swivels)]
    return rear, front


def rest(c):
    """Pitch at which rear tyres and casters touch one level, by halving on sampled points."""
    rear, front = tyres(c)
    rear, front = np.vstack(rear), np.vstack(front)
    low, high = -0.2, 0.2
    for _ in range(45):
        mid = (low + high) / 2
        m = turn(mid)
        if (front @ m[2]).min() > (rear @ m[2]).min():
            high = mid
        else:
            low = mid
    pitch = (low + high) / 2
    m = turn(pitch)
    axle = m @ np.array([0, 0, c["R"]])
    return pitch, np.array([-axle[0], 0.0, -(rear @ m[2]).min()])


def plates(c, pace=0.004):
    """Points on the rim and both faces of every plate, by name."""
    out = {}
    for name, (x0, x1, y, z) in c["plates"].items():
        xs = np.linspace(x0, x1, max(2, math.ceil((x1 - x0) / pace)))
        out[name] = np.array([(x, s * y, h) for x in xs for s in (1, -1) for h in (z, z + SHEET)])
    return out


def centre_of_mass(c, swivels=(0.0, 0.0)):
    """Of the whole chair, its casters turned so: one place for each pair of a row of swivels."""
    parts = [(c[n][0], np.array(c[n][1:])) for n in ("lump", "bag")]
    parts += [(2.0, p) for p, _ in rear_wheels(c)] + [(CASTER, p) for p, _ in front_wheels(c, swivels)]
    for x0, x1, y, z in c["plates"].values():
        parts.append((DENSITY * SHEET * (x1 - x0) * 2 * y, np.array([(x0 + x1) / 2, 0.0, z + SHEET / 2])))
    total = sum(m for m, _ in parts)
    return sum(m * p for m, p in parts) / total


def inside(px, py, xs, ys):
    """Whether points lie in the convex outline of four contacts: in one of its four triangles."""
    hit = np.zeros(np.broadcast(px, xs[0]).shape, bool)
    for skip in range(4):
        i, j, k = [n for n in range(4) if n != skip]
        cross = lambda m, n: (xs[n] - xs[m]) * (py - ys[m]) - (ys[n] - ys[m]) * (px - xs[m])  # noqa: E731
        one, two, three = cross(i, j), cross(j, k), cross(k, i)
        hit |= ((one >= 0) & (two >= 0) & (three >= 0)) | ((one <= 0) & (two <= 0) & (three <= 0))
    return hit


def tips(com, xs, ys, azimuth):
    """Slope at which the plumb line leaves the contacts, gravity leaning toward the azimuth, by halving; the least of all
    swivels that `xs` and `ys` hold."""
    low, high = np.zeros(np.broadcast(*xs).shape), np.full(np.broadcast(*xs).shape, math.pi / 2)
    dx, dy = math.cos(azimuth), math.sin(azimuth)
    for _ in range(26):
        mid = (low + high) / 2
        reach = com[2] * np.tan(mid)
        stands = inside(com[0] + dx * reach, com[1] + dy * reach, xs, ys)
        low, high = np.where(stands, mid, low), np.where(stands, high, mid)
    return low.min()


def contacts(c, move, steps):
    """Lowest points of all tyres; the casters' at every swivel."""
    def lowest(points):
        placed = points @ move[0].T + move[1]
        flat = placed[placed[:, 2] < placed[:, 2].min() + 1e-7]
        return flat[:, :2].mean(axis=0)

    fine = {"around": 1440, "across": 48}
    rear = [lowest(p) for p in tyres(c, **fine)[0]]
    swing = [math.tau * k / steps for k in range(steps)]
    front = np.array([[lowest(p) for p in tyres(c, (w, w), around=720, across=24)[1]] for w in swing])
    return rear, front


def lowest(wheel, n):
    """Lowest point of a tyre towards a ground of upward normal n, and its height."""
    centre, axle, radius, section = wheel
    across = n - axle * (axle * n).sum(-1, keepdims=True)
    length = np.linalg.norm(across, axis=-1, keepdims=True)
    point = centre - (radius - section) * across / length - section * n
    return point, (point * n).sum(-1)


def anew(c, left, right, azimuths):
    """Slope that tips the chair by azimuth and pair of swivels: on each three wheels the ground is found by Newton's method
    on p and q of its normal (p, q, 1); of those with the fourth wheel not in the ground the one counts that bears most."""
    n = len(left)
    centre = centre_of_mass(c, (left, right))
    rear = [(np.tile(p, (n, 1)), np.tile(a / np.linalg.norm(a), (n, 1)), c["R"], c["tyre"] / 2) for p, a in rear_wheels(c)]
    front = [(p, a, c["r"], c["width"] / 2) for p, a in front_wheels(c, (left, right))]
    wheels = rear + front
    best = np.zeros((len(azimuths), n))
    for skip in range(4):
        three = [wheels[i] for i in range(4) if i != skip]
        pq = np.zeros((n, 2))
        for _ in range(8):
            raw = np.concatenate([pq, np.ones((n, 1))], axis=1)
            size = np.linalg.norm(raw, axis=1, keepdims=True)
            up = raw / size
            (a, ha), (b, hb), (d, hd) = (lowest(w, up) for w in three)
            rows = []
            for other in (b, d):
                arm = other - a
                along = (arm * up).sum(-1, keepdims=True)
                rows.append(((arm - up * along) / size)[:, :2])
            step = np.linalg.solve(np.stack(rows, axis=1), np.stack([hb - ha, hd - ha], axis=1)[..., None])[..., 0]
            pq = pq - step
        ground = ha
        stands = lowest(wheels[skip], up)[1] - ground > -1e-8
        ahead = np.array([1.0, 0, 0]) - up * up[:, :1]
        ahead /= np.linalg.norm(ahead, axis=1, keepdims=True)
        aside = np.cross(up, ahead)
        flat = lambda p: np.stack([(p * ahead).sum(-1), (p * aside).sum(-1)], axis=1)  # noqa: E731, B023
        foot, height = flat(centre), (centre * up).sum(-1) - ground
        corners = [flat(p) for p in (a, b, d)]
        for k, azimuth in enumerate(azimuths):
            way = np.array([math.cos(azimuth), math.sin(azimuth)])
            near, far = np.full(n, -np.inf), np.full(n, np.inf)
            for i in range(3):
                p, q, third = corners[i], corners[(i + 1) % 3], corners[(i + 2) % 3]
                inward = np.stack([p[:, 1] - q[:, 1], q[:, 0] - p[:, 0]], axis=1)
                inward *= np.sign((inward * (third - p)).sum(-1))[:, None]
                room, pace = (inward * (foot - p)).sum(-1), inward @ way
                with np.errstate(divide="ignore", invalid="ignore"):
                    at = -room / pace
                far = np.where(pace < 0, np.minimum(far, at), far)
                near = np.where(pace > 0, np.maximum(near, at), near)
            reach = np.where(stands & (near <= far), np.maximum(far, 0.0), 0.0)
            best[k] = np.maximum(best[k], np.arctan2(reach, height))
    return best


def tipping(c, figure, com, move):
    degrees = lambda name: math.degrees(figure[name])  # noqa: E731
    named = {"tip.forward.locked": 0, "tip.left": 18, "tip.rear.locked": 36, "tip.right": 54}
    if not c["rake"]:
        rear, front = contacts(c, move, 1)
        trail = [np.array([v]) for v in (rear[0][0], rear[1][0], front[0, 0, 0], front[0, 1, 0])]
        side = [np.array([v]) for v in (rear[0][1], rear[1][1], front[0, 0, 1], front[0, 1, 1])]
        for name, k in named.items():
            if degrees(name) > math.degrees(tips(com, trail, side, math.tau * k / 72)) + 0.15:
                raise SystemExit(f"FAILED: {name} is above what trailing casters bear, seed {c['seed']}")
    ring = np.arange(72) * math.tau / 72
    left, right = (g.ravel() for g in np.meshgrid(ring, ring))
    azimuths = [math.tau * k / 72 for k in range(72)]
    every = anew(c, left, right, azimuths)
    fine = np.radians(np.arange(-5, 6))
    around_left, around_right = (g.ravel() for g in np.meshgrid(fine, fine))

    def by_degrees(k):
        at = every[k].argmin()
        return math.degrees(anew(c, left[at] + around_left, right[at] + around_right, [azimuths[k]]).min())

    kind = "raked " if c["rake"] else ""
    for name, k in named.items():
        agree(kind + name, degrees(name), by_degrees(k), 0.03, c)
    agree(kind + "tip.any", degrees("tip.any"), by_degrees(every.min(axis=1).argmin()), 0.03, c)


def swept(c, move):
    """Everything from above, the casters turned through a whole turn."""
    points = [p @ move[0].T + move[1] for p in (*sum(tyres(c), []), *plates(c).values())]
    ring = [math.tau * k / 720 for k in range(720)]
    reach = math.hypot(c["trail"] + c["r"], c["width"] / 2)
    for side in (1, -1):
        pivot = move[0] @ np.array([c["stem"], side * c["caster_half"], c["seat_of_stem"]]) + move[1]
        points.append(np.array([[pivot[0] + reach * math.cos(t), pivot[1] + reach * math.sin(t), 0] for t in ring]))
    return np.vstack(points)[:, :2]


def turning(c, figure, points):
    agree("turn.diameter", figure["turn.diameter"], 2 * np.hypot(*points.T).max(), 0.0012, c)


def corner(c, figure, points):
    length, a, b = figure["length.occupied"], c["a"], c["b"]
    tall = np.radians(np.arange(0, 90.25, 0.25))[:, None]
    along = np.linspace(0, length, 1200)[None, :]

    def passes(width):
        """The outline at every angle, pushed against the outer walls x = 0 and y = 0."""
        x = -along * np.cos(tall)
        y = along * np.sin(tall)
        wx, wy = width * np.sin(tall), width * np.cos(tall)
        corners = np.concatenate([x[:, :1], x[:, -1:], x[:, :1] + wx, x[:, -1:] + wx], axis=1)
        heights = np.concatenate([y[:, :1], y[:, -1:], y[:, :1] + wy, y[:, -1:] + wy], axis=1)
        inner_x = x + wx - corners.min(axis=1, keepdims=True)
        inner_y = y + wy - heights.min(axis=1, keepdims=True)
        return not ((inner_x > a) & (inner_y > b)).any()

    low, high = 1e-6, min(a, b)  # it also has to lie in both corridors
    if not passes(low):
        return
    if passes(high):
        low = high
    for _ in range(24):
        mid = (low + high) / 2
        low, high = (mid, high) if passes(mid) else (low, mid)
    agree("corner.room", figure["corner.room"], low - np.ptp(points[:, 1]), 0.0015, c)


def bends(c, figure, move):
    """Approach, departure and break-over from ground that bends."""
    placed = {n: (p @ move[0].T + move[1])[:, [0, 2]] for n, p in plates(c).items()}
    rear_x, front_x = 0.0, None
    pivot = move[0] @ np.array([c["stem"] - c["trail"], 0, c["seat_of_stem"] - c["drop"]]) + move[1]
    front_x = pivot[0]
    # rolling back over a crest the casters stand turned to the front, the wheels furthest apart
    turned = move[0] @ np.array([c["stem"] + c["trail"], 0, c["seat_of_stem"] - c["drop"]]) + move[1]
    turned_x = turned[0]
    every = np.vstack(list(placed.values()))

    def rises(sign, at, radius):
        """Steepest ground that turns up beyond a wheel and touches nothing, by halving."""
        ring = np.linspace(0, math.tau, 7200)
        wheel = np.stack([radius * np.cos(ring), radius + radius * np.sin(ring)])
        beyond = every[sign * (every[:, 0] - at) > 0]
        low, high = 0.0, math.pi / 2
        for _ in range(40):
            mid = (low + high) / 2
            # the bend comes as near as the wheel lets it: the ramp touches the sampled circle
            near = (wheel[0] - wheel[1] / math.tan(mid)).max()
            ground = (sign * (beyond[:, 0] - at) - near) * math.tan(mid)
            low, high = (mid, high) if (beyond[:, 1] > ground).all() else (low, mid)
        return low

    for name, angle in (("ramp.approach", rises(1, front_x, c["r"])), ("ramp.departure", rises(-1, rear_x, c["R"]))):
        agree(name, math.degrees(figure[name]), math.degrees(angle), 0.1, c)

    def crest(theta):
        """Whether the chair rolls over a crest with nothing touching, rear wheel still on the slope."""
        s, k = math.sin(theta), math.cos(theta)
        apart = turned_x - rear_x
        between = math.hypot(apart, c["R"] - c["r"])
        for u in np.linspace(0.0, apart * 1.2, 240):
            # rear axle on the slope u before the bend, caster axle on the level v behind it
            ax, az = -u * k - c["R"] * s, -u * s + c["R"] * k
            gap = between**2 - (c["r"] - az) ** 2
            if gap < 0:
                continue
            v = ax + math.sqrt(gap)
            if v < 0:
                continue
            now = math.atan2(c["r"] - az, v - ax) - math.atan2(c["r"] - c["R"], apart)
            sn, cs = math.sin(now), math.cos(now)
            mine = every[(every[:, 0] > rear_x) & (every[:, 0] < turned_x)]
            x, z = mine[:, 0] - rear_x, mine[:, 1] - c["R"]
            gx, gz = ax + x * cs - z * sn, az + x * sn + z * cs
            if (gz < np.where(gx < 0, gx * math.tan(theta), 0.0)).any():
                return False
        return True

    low, high = 0.0, math.radians(89.0)
    if math.degrees(figure["ramp.breakover"]) < 60:
        for _ in range(20):
            mid = (low + high) / 2
            low, high = (mid, high) if crest(mid) else (low, mid)
        agree("ramp.breakover", math.degrees(figure["ramp.breakover"]), math.degrees(low), 0.4, c)


def one(c, report):
    figure = {k: v["value"] for k, v in report["figures"].items()}
    if "tip.rear.locked" not in figure:
        return False
    pitch, origin = rest(c)
    move = (turn(pitch), origin)
    agree("pitch", math.degrees(figure["pitch"]), math.degrees(pitch), 0.01, c)
    com = move[0] @ centre_of_mass(c) + origin
    for name, value in zip(("ahead", "left", "height"), com):
        agree("com.total", figure[f"com.total.{name}"], value, 0.0002, c)
    everything = np.vstack([p @ move[0].T + origin for p in (*sum(tyres(c), []), *plates(c).values())])
    if c["rake"]:
        tipping(c, figure, com, move)
        return True
    agree("width.overall", figure["width.overall"], np.ptp(everything[:, 1]), 0.0005, c)
    agree("length.overall", figure["length.overall"], np.ptp(everything[:, 0]), 0.0005, c)
    tipping(c, figure, com, move)
    points = swept(c, move)
    turning(c, figure, points)
    corner(c, figure, points)
    bends(c, figure, move)
    return True


def compiled(folder, c):
    path = folder / f"{c['seed']}.chair"
    path.write_text(text(c))
    answer = subprocess.run([PROGRAM, "report", "--form", "json", str(path)], capture_output=True, text=True)
    return json.loads(answer.stdout)


def tried(task):
    """One chair: whether it stands, how much of it agrees by how little, and what does not."""
    global checks
    seed, leans = task
    worst.clear()
    checks = 0
    c = draw(seed) | ({"rake": random.Random(-seed).uniform(-6.0, 6.0)} if leans else {})
    try:
        with tempfile.TemporaryDirectory() as scratch:
            stands = one(c, compiled(pathlib.Path(scratch), c))
    except SystemExit as failed:
        return False, 0, {}, str(failed)
    return stands, checks, dict(worst), ""


def chairs(pool, seeds, leans, count):
    """So many chairs that stand, of the first of these seeds; how many, how many checks, the widest gaps, the last seed."""
    stood, all_checks, gaps, last = 0, 0, {}, seeds.start
    for last, (stands, own, mine, failed) in zip(seeds, pool.imap(tried, ((s, leans) for s in seeds))):
        if failed:
            raise SystemExit(failed)
        stood += stands
        all_checks += own
        for name, gap in mine.items():
            gaps[name] = max(gaps.get(name, 0.0), gap)
        if stood == count:
            break
    return stood, all_checks, gaps, last


def main():
    with multiprocessing.Pool(2) as pool:
        done, first, gaps, last = chairs(pool, range(4 * COUNT), False, COUNT)
    with multiprocessing.Pool(2) as pool:
        leaning, second, more, last = chairs(pool, range(last + 1, 6 * COUNT), True, COUNT // 2)
    if done < COUNT or leaning < COUNT // 2:
        raise SystemExit(f"FAILED: only {done} and {leaning} of {last + 1} chairs stand")
    gaps = ", ".join(f"{name} {gap:.2g}" for name, gap in (gaps | more).items())
    print(f"room: {done} chairs and {leaning} with leaning stems, {first + second} figures agree; "
          f"widest gaps (m or deg): {gaps}")


if __name__ == "__main__":
    main()
