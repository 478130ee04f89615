"""Outputs against general-purpose libraries: the JSON against its schema (jsonschema), the solids in a
mesh kernel (trimesh): watertight, named after the cut list, as wide as the report says, as heavy as
volume times density; and tip angles against a brute-force search that turns gravity degree by degree
until its line leaves the outline of the wheels' lowest points, taken from the solids themselves.

Usage: python3 tests/outside/oracles.py [PROGRAM]
"""

import json
import math
import pathlib
import subprocess
import sys
import tempfile

from pinned import ROOT, enter

enter("oracles", ["jsonschema==4.23.0", "networkx==3.4.2", "numpy==2.1.3", "scipy==1.14.1", "trimesh==4.5.3"])

import jsonschema  # noqa: E402
import numpy as np  # noqa: E402
import trimesh  # noqa: E402

PROGRAM = next((a for a in sys.argv[1:] if not a.startswith("--")), str(ROOT / "target/release/chairwright"))
SCHEMA = json.loads((ROOT / "crates/report/schema/report.json").read_text())
checks = 0


def check(good, words):
    global checks
    checks += 1
    if not good:
        raise SystemExit(f"FAILED: {words}")


def parts_of(scene):
    """Node name to mesh, in the scene's axes (x left, y up, z forward)."""
    out = {}
    for name in scene.graph.nodes_geometry:
        matrix, geometry = scene.graph[name]
        mesh = scene.geometry[geometry].copy()
        mesh.apply_transform(matrix)
        out[name] = mesh
    return out


def contacts(parts):
    """Ground contact of every rear wheel and caster: (forward, left). The tyre is the largest solid of
    the wheel; it touches below its middle, at the side of its lowest corners."""
    points = []
    for name, mesh in parts.items():
        if name in ("left.rear", "right.rear", "left.front", "right.front"):
            tyre = max(mesh.split(), key=lambda m: m.extents.max())
            low = tyre.vertices[tyre.vertices[:, 1] < tyre.vertices[:, 1].min() + 0.002]
            points.append((tyre.bounds[:, 2].mean(), low[:, 0].mean()))
    return points


def inside(point, outline):
    """Whether a point is inside the convex outline around some points."""
    middle = np.mean(outline, axis=0)
    order = sorted(outline, key=lambda p: math.atan2(p[1] - middle[1], p[0] - middle[0]))
    for a, b in zip(order, order[1:] + order[:1]):
        if (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0]) < 0:
            return False
    return True


def tip_by_search(com, outline, direction):
    """Slope in hundredths of a degree at which the plumb line leaves the outline."""
    for step in range(0, 9000):
        slope = math.radians(step / 100)
        shift = com[2] * math.tan(slope)
        foot = (com[0] + direction[0] * shift, com[1] + direction[1] * shift)
        if not inside(foot, outline):
            return step / 100
    return 90.0


def one(path, folder):
    subprocess.run([PROGRAM, "build", str(path), "--out", str(folder)], stdout=subprocess.DEVNULL)
    report = json.loads((folder / "report.json").read_text())
    jsonschema.Draft202012Validator(SCHEMA).validate(report)
    check(True, "schema")
    figure = {k: v["value"] for k, v in report["figures"].items()}

    scene = trimesh.load(folder / "chair.glb")
    parts = parts_of(scene)
    for cut in report["cuts"]:
        for piece in cut["pieces"]:
            check(piece in parts, f"{path.name}: no node {piece}")
    for name, mesh in parts.items():
        for body in mesh.split(only_watertight=False):
            check(body.is_watertight, f"{path.name}: {name} is open")
            check(body.volume > 0, f"{path.name}: {name} is inside out")

    everything = trimesh.util.concatenate(list(parts.values()))
    (x0, y0, z0), (x1, y1, z1) = everything.bounds
    for name, got in (("width.overall", x1 - x0), ("height.overall", y1), ("length.overall", z1 - z0)):
        check(abs(got - figure[name]) < 0.002, f"{path.name}: {name} {figure[name]} against {got}")

    # sheets and boards: volume of the solid against length x width x thickness of the cut list
    for cut in report["cuts"]:
        if cut["outline"] and len(cut["outline"]) == 4 and any(k in cut["stock"] for k in ("plywood", "pvc sheet")):
            for piece in cut["pieces"]:
                thickness = parts[piece].volume / (cut["length"] * cut["width"])
                check(0.002 < thickness < 0.03, f"{path.name}: {piece} is {thickness} m thick")

    com = (figure["com.total.ahead"], figure["com.total.left"], figure["com.total.height"])
    outline = contacts(parts)
    back = tip_by_search(com, outline, (-1, 0))
    got = math.degrees(figure["tip.rear.locked"])
    check(abs(back - got) < 0.15, f"{path.name}: tip.rear.locked {got} against {back}")
    # trailing casters are one swivel of many: the worst one can only be lower
    for name, direction in (("tip.forward.locked", (1, 0)), ("tip.left", (0, 1)), ("tip.right", (0, -1))):
        trailing = tip_by_search(com, outline, direction)
        check(math.degrees(figure[name]) <= trailing + 0.15, f"{path.name}: {name} above {trailing}")


def main():
    with tempfile.TemporaryDirectory() as scratch:
        for path in sorted(ROOT.glob("examples/*/*.chair")):
            if "\ndesign " in "\n" + path.read_text():
                one(path, pathlib.Path(scratch) / path.stem)
    print(f"oracles: {checks} checks agree")


main()
