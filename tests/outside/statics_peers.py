"""The same frame given to general-purpose frame analysis libraries.

Each function returns displacements and reactions by node (six numbers, global) and, where the library
tells them, end forces by member (twice six, in the member's axes as our program says they lie).
"""

import contextlib
import ctypes
import math
import os

import numpy as np


@contextlib.contextmanager
def silent():
    """Keeps what a library written in C prints from the terminal."""
    flush = ctypes.CDLL(None).fflush
    kept, nowhere = [os.dup(1), os.dup(2)], os.open(os.devnull, os.O_WRONLY)
    flush(None)
    for k in (1, 2):
        os.dup2(nowhere, k)
    try:
        yield
    finally:
        flush(None)
        for k, old in zip((1, 2), kept):
            os.dup2(old, k)
            os.close(old)
        os.close(nowhere)


def pynite(frame, axes):
    """PyNiteFEA, in pure Python: beams without shear strain."""
    from Pynite import FEModel3D

    m = FEModel3D()
    for k, n in enumerate(frame["nodes"]):
        m.add_node(f"N{k}", *n["at"])
    names = ["DX", "DY", "DZ", "RX", "RY", "RZ"]
    for k, n in enumerate(frame["nodes"]):
        m.def_support(f"N{k}", *n["fixed"])
        for d, s in zip(names, n["spring"]):
            if s > 0:
                m.def_support_spring(f"N{k}", d, s)
    for k, b in enumerate(frame["members"]):
        s = b["section"]
        m.add_material(f"E{k}", s["e"], s["g"], 0.3, 0.0)
        m.add_section(f"S{k}", s["area"], s["iy"], s["iz"], s["j"])
        m.add_member(f"M{k}", f"N{b['i']}", f"N{b['j']}", f"E{k}", f"S{k}")
        own = m.members[f"M{k}"].T()[:3, :3]
        m.members[f"M{k}"].rotation = math.degrees(math.atan2(np.dot(axes[k][1], own[2]), np.dot(axes[k][1], own[1])))
        free = [[j == "free" for j in e.get("joint", ["rigid"] * 6)] for e in b["ends"]]
        m.def_releases(f"M{k}", *free[0], *free[1])
    case = frame["cases"][0]
    for l in case["nodes"]:
        for d, f in zip(["FX", "FY", "FZ", "MX", "MY", "MZ"], l["force"]):
            m.add_node_load(f"N{l['node']}", d, f)
    for l in case["settlements"]:
        m.def_node_disp(f"N{l['node']}", names[l["direction"]], l["by"])
    for l in case["members"]:
        name = f"M{l['member']}"
        for d, c in (("Fx", 0), ("Fy", 1), ("Fz", 2)):
            if l["kind"] == "uniform":
                m.add_member_dist_load(name, d, l["force"][c], l["force"][c])
            elif l["kind"] == "linear":
                m.add_member_dist_load(name, d, l["first"][c], l["last"][c], l["from"], l["to"])
            else:
                m.add_member_pt_load(name, d, l["force"][c], l["at"])
    m.analyze_linear(check_stability=False)
    c = "Combo 1"
    nodes = [m.nodes[f"N{k}"] for k in range(len(frame["nodes"]))]
    u = [[n.DX[c], n.DY[c], n.DZ[c], n.RX[c], n.RY[c], n.RZ[c]] for n in nodes]
    r = [[n.RxnFX[c], n.RxnFY[c], n.RxnFZ[c], n.RxnMX[c], n.RxnMY[c], n.RxnMZ[c]] for n in nodes]
    ends = [np.asarray(m.members[f"M{k}"].f(c)).reshape(2, 6) for k in range(len(frame["members"]))]
    return np.array(u), np.array(r), np.array(ends)


def frame3dd_case(frame, axes):
    """Frame3DD, in C, made ready to run."""
    import pyframe3dd as f3

    nodes, members, case = frame["nodes"], frame["members"], frame["cases"][0]
    at = np.array([n["at"] for n in nodes], float)
    number = np.arange(1, len(nodes) + 1)
    held = [k for k, n in enumerate(nodes) if any(n["fixed"]) or any(n.get("spring", [0]))]
    rigid = 1.0
    stiff = np.array([[rigid if f else s for f, s in zip(nodes[k]["fixed"], nodes[k].get("spring", [0.0] * 6))]
                      for k in held], float)
    support = f3.ReactionData(np.array(held) + 1, *stiff.T.copy(), rigid)
    figure = lambda name: np.array([b["section"][name] for b in members], float)
    roll = []
    for b, a in zip(members, axes):
        x = np.array(a[0])
        # Its axes at no roll: z up, y level; our z towards up is its z.
        y = np.cross([0, 0, 1], x) if abs(x[2]) < 1 - 1e-9 else np.array([0, 1.0, 0])
        y = y / np.linalg.norm(y)
        z = np.cross(x, y)
        roll.append(math.degrees(math.atan2(np.dot(a[1], z), np.dot(a[1], y))))
    elements = f3.ElementData(
        np.arange(1, len(members) + 1), np.array([b["i"] for b in members]) + 1, np.array([b["j"] for b in members]) + 1,
        figure("area"), figure("shear_y"), figure("shear_z"), figure("j"), figure("iy"), figure("iz"), figure("e"),
        figure("g"), np.array(roll), np.full(len(members), 1e-30))
    f = f3.Frame(f3.NodeData(number, *at.T.copy(), np.zeros(len(nodes))), support, elements, f3.Options(True, False, -1.0))
    load = f3.StaticLoadCase(0.0, 0.0, 0.0)
    where = np.array([l["node"] + 1 for l in case["nodes"]])
    load.changePointLoads(where, *np.array([l["force"] for l in case["nodes"]], float).T.copy())
    even = [l for l in case["members"] if l["kind"] == "uniform"]
    if even:
        load.changeUniformLoads(np.array([l["member"] + 1 for l in even]),
                                *np.array([l["force"] for l in even], float).T.copy())
    sit = [l for l in case["members"] if l["kind"] == "point"]
    if sit:
        load.changeElementLoads(np.array([l["member"] + 1 for l in sit]),
                                *np.array([l["force"] for l in sit], float).T.copy(), np.array([l["at"] for l in sit]))
    if case["settlements"]:
        by = {}
        for l in case["settlements"]:
            by.setdefault(l["node"], [0.0] * 6)[l["direction"]] += l["by"]
        load.changePrescribedDisplacements(np.array(list(by)) + 1, *np.array(list(by.values())).T.copy())
    f.addLoadCase(load)
    return f, held


def frame3dd(frame, axes):
    """Frame3DD's answer: beams with shear strain."""
    f, held = frame3dd_case(frame, axes)
    with silent():
        d, e, r, *_ = f.run()
    u = np.stack([d.dx, d.dy, d.dz, d.dxrot, d.dyrot, d.dzrot])[:, 0, :].T
    back = np.zeros_like(u)
    told = np.stack([r.Fx, r.Fy, r.Fz, r.Mxx, r.Myy, r.Mzz])[:, 0, :].T
    for row, node in zip(told, r.node[0]):
        if node > 0:
            back[node - 1] = row
    ends = np.stack([e.Nx, e.Vy, e.Vz, e.Txx, e.Myy, e.Mzz])[:, 0, :].T.reshape(-1, 2, 6).copy()
    return u, back, ends


def opensees(frame, axes, only_time=False):
    """OpenSees, in C++: beams with shear strain, arms, joint springs by doubled nodes."""
    import opensees.openseespy as o

    o.wipe()
    o.model("basic", "-ndm", 3, "-ndf", 6)
    nodes, members, case = frame["nodes"], frame["members"], frame["cases"][0]
    for k, n in enumerate(nodes):
        o.node(k + 1, *n["at"])
    tag = len(nodes)
    element = 0
    material = 0

    def springs(a, b, stiffness, x, y):
        nonlocal element, material
        tags, directions = [], []
        for k, s in enumerate(stiffness):
            if s > 0:
                material += 1
                o.uniaxialMaterial("Elastic", material, s)
                tags.append(material)
                directions.append(k + 1)
        element += 1
        o.element("zeroLength", element, a, b, "-mat", *tags, "-dir", *directions, "-orient", *x, *y)

    for k, n in enumerate(nodes):
        if any(n["fixed"]):
            o.fix(k + 1, *[int(f) for f in n["fixed"]])
        if any(n.get("spring", [0])):
            tag += 1
            o.node(tag, *n["at"])
            o.fix(tag, 1, 1, 1, 1, 1, 1)
            springs(tag, k + 1, n["spring"], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0])
    for l in frame.get("links", []):
        a = np.array(l.get("x", [1.0, 0.0, 0.0]), float)
        z = np.array(l.get("z", [0.0, 0.0, 1.0]), float)
        springs(l["a"] + 1, l["b"] + 1, l["stiffness"], [float(v) for v in a], [float(v) for v in np.cross(z, a)])
    beams = []
    for k, b in enumerate(members):
        s, (x, y, z) = b["section"], axes[k]
        ends = []
        for e, name in zip(b["ends"], ("i", "j")):
            node, arm = b[name] + 1, e.get("offset", [0.0] * 3)
            joint = e.get("joint")
            if joint and any(j != "rigid" for j in joint):
                # The joint: a double of the node that moves with it and turns against springs.
                tag += 1
                o.node(tag, *nodes[b[name]]["at"])
                o.equalDOF(node, tag, 1, 2, 3)
                springs(node, tag, [0, 0, 0] + joint[3:], list(x), list(y))
                node = tag
            if any(arm):
                tag += 1
                o.node(tag, *[p + q for p, q in zip(nodes[b[name]]["at"], arm)])
                o.rigidLink("beam", node, tag)
                node = tag
            ends.append(node)
        o.geomTransf("Linear", k + 1, *z)
        element += 1
        beams.append(element)
        o.element("ElasticTimoshenkoBeam", element, *ends, s["e"], s["g"], s["area"], s["j"], s["iy"], s["iz"],
                  s["shear_y"], s["shear_z"], k + 1)
    o.timeSeries("Constant", 1)
    o.pattern("Plain", 1, 1)
    for l in case["nodes"]:
        o.load(l["node"] + 1, *l["force"])
    for l in case["members"]:
        o.eleLoad("-ele", beams[l["member"]], "-type", "-beamUniform", l["force"][1], l["force"][2], l["force"][0])
    o.constraints("Transformation")
    o.numberer("RCM")
    o.system("UmfPack")
    o.algorithm("Linear")
    o.integrator("LoadControl", 1.0)
    o.analysis("Static")
    if o.analyze(1) != 0:
        raise RuntimeError("no answer")
    if only_time:
        return None
    u = np.array([o.nodeDisp(k + 1) for k in range(len(nodes))])
    forces = [np.array(o.eleResponse(e, "globalForce")).reshape(2, 6) for e in beams]
    o.wipe()
    return u, None, forces


def spring_reactions(frame, u):
    """Forces of the springs to the ground."""
    return np.array([[-s * d for s, d in zip(n["spring"], row)] for n, row in zip(frame["nodes"], u)])
