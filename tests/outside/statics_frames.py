"""Arbitrary frames for the outside checks of the statics room, the same in every run."""

import math
import random


def unit(v):
    n = math.sqrt(sum(c * c for c in v))
    return [c / n for c in v]


def section(rng, shear):
    e = 10 ** rng.uniform(9, 11.3)
    d, t = rng.uniform(0.02, 0.08), rng.uniform(0.002, 0.006)
    area = math.pi * d * t
    i = area * d * d / 8
    s = {"e": e, "g": e / rng.uniform(2.2, 3.0), "area": area, "iy": i * rng.uniform(0.3, 3), "iz": i, "j": 2 * i,
         "shear_y": None, "shear_z": None}
    if shear:
        s["shear_y"], s["shear_z"] = area * rng.uniform(0.4, 0.9), area * rng.uniform(0.4, 0.9)
    return s


def frame(rng, members, shear):
    """A frame on a shaken grid: a tree over the nodes first, then other near pairs."""
    count = max(2, round(members * rng.uniform(0.45, 0.9)) + 1)
    side = math.ceil(count ** (1 / 3))
    cells = [(x, y, z) for z in range(side) for y in range(side) for x in range(side)][:count]
    at = [[0.6 * c + rng.uniform(-0.12, 0.12) for c in cell] for cell in cells]
    number = {cell: k for k, cell in enumerate(cells)}
    near = []
    for (x, y, z), k in number.items():
        for step in ((1, 0, 0), (0, 1, 0), (0, 0, 1), (1, 1, 0), (1, 0, 1), (0, 1, 1)):
            other = number.get((x + step[0], y + step[1], z + step[2]))
            if other is not None:
                near.append((k, other))
    rng.shuffle(near)
    group = list(range(count))

    def find(k):
        while group[k] != k:
            k = group[k]
        return k

    tree, rest = [], []
    for a, b in near:
        if find(a) != find(b):
            group[find(a)] = find(b)
            tree.append((a, b))
        else:
            rest.append((a, b))
    pairs = (tree + rest)[: max(members, len(tree))]
    nodes = [{"at": p, "fixed": [False] * 6, "spring": [0.0] * 6} for p in at]
    for k in rng.sample(range(count), min(count, 1 + count // 12)):
        nodes[k]["fixed"] = [True] * 6
    out = []
    for a, b in pairs:
        if rng.random() < 0.5:
            a, b = b, a
        out.append({"i": a, "j": b, "section": section(rng, shear), "roll": rng.uniform(-3, 3), "ends": [{}, {}]})
    return {"nodes": nodes, "members": out, "cases": [node_loads(rng, nodes)], "stations": 0}


def node_loads(rng, nodes):
    free = [k for k, n in enumerate(nodes) if not any(n["fixed"])]
    some = rng.sample(free, max(1, len(free) // 3))
    loads = [{"node": k, "force": [rng.uniform(-500, 500) for _ in range(3)] + [rng.uniform(-50, 50) for _ in range(3)]}
             for k in some]
    return {"nodes": loads, "members": [], "settlements": []}


def ground_springs(rng, frame):
    for n in frame["nodes"]:
        if not any(n["fixed"]) and rng.random() < 0.2:
            n["spring"] = [10 ** rng.uniform(3, 6) if rng.random() < 0.5 else 0.0 for _ in range(6)]


def settlements(rng, frame):
    for k, n in enumerate(frame["nodes"]):
        if all(n["fixed"]) and rng.random() < 0.5:
            frame["cases"][0]["settlements"].append(
                {"node": k, "direction": rng.randrange(3), "by": rng.uniform(-1e-3, 1e-3)})


def length(frame, m):
    a, b = frame["nodes"][m["i"]]["at"], frame["nodes"][m["j"]]["at"]
    return math.dist(a, b)


def uniform_loads(rng, frame):
    for k in range(len(frame["members"])):
        if rng.random() < 0.4:
            q = [rng.uniform(-300, 300) for _ in range(3)]
            frame["cases"][0]["members"].append({"member": k, "kind": "uniform", "local": True, "force": q})


def other_loads(rng, frame):
    for k, m in enumerate(frame["members"]):
        l = length(frame, m)
        if rng.random() < 0.3:
            a, b = sorted(rng.uniform(0, l) for _ in range(2))
            q = [[rng.uniform(-300, 300) for _ in range(3)] for _ in range(2)]
            frame["cases"][0]["members"].append(
                {"member": k, "kind": "linear", "local": True, "from": a, "to": b, "first": q[0], "last": q[1]})
        if rng.random() < 0.3:
            f = [rng.uniform(-300, 300) for _ in range(3)]
            frame["cases"][0]["members"].append(
                {"member": k, "kind": "point", "local": True, "at": rng.uniform(0, l), "force": f, "moment": [0.0] * 3})


def releases(rng, frame):
    """Hinges about y and z at some ends of members that the frame could do without."""
    for m in frame["members"][len(frame["nodes"]) - 1:]:
        if rng.random() < 0.3:
            which = rng.choice([[4], [5], [4, 5]])
            m["ends"][rng.randrange(2)]["joint"] = ["free" if k in which else "rigid" for k in range(6)]


def joint_springs(rng, frame):
    for m in frame["members"]:
        for end in m["ends"]:
            if rng.random() < 0.25:
                end["joint"] = ["rigid"] * 3 + [10 ** rng.uniform(2, 5) for _ in range(3)]


def arms(rng, frame):
    for m in frame["members"]:
        for end in m["ends"]:
            if "joint" not in end and rng.random() < 0.3:
                end["offset"] = [rng.uniform(-0.05, 0.05) for _ in range(3)]


def sizes(rng, count, most):
    """Sizes from one to the most, small ones oftener, both ends always there."""
    return [1, most] + [max(1, round(most ** rng.random())) for _ in range(count - 2)]


def lattice(nx, ny, nz):
    """A regular lattice of rigidly joined square cells, clamped at the bottom, loaded on top."""
    rng = random.Random(1)
    index = {}
    nodes, members = [], []
    for x in range(nx):
        for y in range(ny):
            for z in range(nz):
                index[x, y, z] = len(nodes)
                nodes.append({"at": [0.5 * x, 0.4 * y, 0.3 * z], "fixed": [z == 0] * 6})
    s = section(rng, True)
    for (x, y, z), k in index.items():
        for step in ((1, 0, 0), (0, 1, 0), (0, 0, 1)):
            other = index.get((x + step[0], y + step[1], z + step[2]))
            if other is not None and not (z == 0 and step[2] == 0):
                members.append({"i": k, "j": other, "section": s, "ends": [{}, {}]})
    top = [{"node": index[x, y, nz - 1], "force": [10.0, 5.0, -100.0, 0, 0, 0]} for x in range(nx) for y in range(ny)]
    return {"nodes": nodes, "members": members, "cases": [{"nodes": top, "members": [], "settlements": []}]}
