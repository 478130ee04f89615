"""Buckling factors from matrices assembled here: cubic beam elements and their geometric stiffness as
the textbooks print them (Przemieniecki, *Theory of Matrix Structural Analysis*), each member cut into
pieces, and the dense generalised eigenproblem of SciPy."""

import random

import numpy as np
import scipy.linalg

import statics_frames as frames

PIECES = 6


def stiffness(s, l):
    """Twelve by twelve, local, without shear strain."""
    k = np.zeros((12, 12))
    e, g = s["e"], s["g"]
    for a, v in ((0, e * s["area"] / l), (3, g * s["j"] / l)):
        k[np.ix_([a, a + 6], [a, a + 6])] += v * np.array([[1, -1], [-1, 1]])
    bend(k, e * s["iz"] / l**3 * np.array([[12, 6 * l, -12, 6 * l], [6 * l, 4 * l * l, -6 * l, 2 * l * l],
                                           [-12, -6 * l, 12, -6 * l], [6 * l, 2 * l * l, -6 * l, 4 * l * l]]), False)
    bend(k, e * s["iy"] / l**3 * np.array([[12, 6 * l, -12, 6 * l], [6 * l, 4 * l * l, -6 * l, 2 * l * l],
                                           [-12, -6 * l, 12, -6 * l], [6 * l, 2 * l * l, -6 * l, 4 * l * l]]), True)
    return k


def bend(k, b, about_y):
    sign = np.array([1.0, -1.0, 1.0, -1.0]) if about_y else np.ones(4)
    at = [2, 4, 8, 10] if about_y else [1, 5, 7, 11]
    k[np.ix_(at, at)] += b * np.outer(sign, sign)


def geometric(pull, l):
    k = np.zeros((12, 12))
    b = pull / (30 * l) * np.array([[36, 3 * l, -36, 3 * l], [3 * l, 4 * l * l, -3 * l, -l * l],
                                    [-36, -3 * l, 36, -3 * l], [3 * l, -l * l, -3 * l, 4 * l * l]])
    bend(k, b, False)
    bend(k, b, True)
    return k


def factors(frame, axes, count):
    """The smallest load factors above zero."""
    at = [np.array(n["at"]) for n in frame["nodes"]]
    fixed = [list(n["fixed"]) for n in frame["nodes"]]
    spring = [n["spring"] for n in frame["nodes"]]
    pieces = []
    for b, a in zip(frame["members"], axes):
        last = b["i"]
        for p in range(1, PIECES + 1):
            if p == PIECES:
                new = b["j"]
            else:
                new = len(at)
                at.append(at[b["i"]] + (at[b["j"]] - at[b["i"]]) * p / PIECES)
                fixed.append([False] * 6)
                spring.append([0.0] * 6)
            pieces.append((last, new, b["section"], np.array(a)))
            last = new
    n = 6 * len(at)
    free = [6 * k + d for k in range(len(at)) for d in range(6) if not fixed[k][d]]
    load = np.zeros(n)
    for l in frame["cases"][0]["nodes"]:
        load[6 * l["node"]: 6 * l["node"] + 6] += l["force"]
    k = np.diag(np.concatenate(spring).astype(float))
    for i, j, s, t in pieces:
        where, turn = places(i, j), np.kron(np.eye(4), t)
        k[np.ix_(where, where)] += turn.T @ stiffness(s, np.linalg.norm(at[j] - at[i])) @ turn
    u = np.zeros(n)
    u[free] = np.linalg.solve(k[np.ix_(free, free)], load[free])
    g = np.zeros((n, n))
    for i, j, s, t in pieces:
        where, turn, l = places(i, j), np.kron(np.eye(4), t), np.linalg.norm(at[j] - at[i])
        pull = (stiffness(s, l) @ turn @ u[where])[6]
        g[np.ix_(where, where)] += turn.T @ geometric(pull, l) @ turn
    mu = scipy.linalg.eigh(-g[np.ix_(free, free)], k[np.ix_(free, free)], eigvals_only=True)[::-1]
    return [1 / m for m in mu[:count] if m > 1e-9 * np.abs(mu).max()]


def places(i, j):
    return [6 * i + d for d in range(6)] + [6 * j + d for d in range(6)]


def check(tally, ask):
    rng = random.Random("buckling")
    made = []
    for members in [1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 7, 8, 8, 9, 10, 12, 12, 14, 16, 18, 20, 22, 25, 30]:
        frame = frames.frame(rng, members, False)
        if rng.random() < 0.5:
            frames.ground_springs(rng, frame)
        frame |= {"buckling": 3, "pieces": PIECES}
        made.append(frame)
    for k, (frame, answer) in enumerate(zip(made, ask(made))):
        what = f"buckling frame {k} of {len(frame['members'])} members"
        if "error" in answer:
            tally.wrong += 1
            print(f"WRONG {what}: {answer['error']}")
            continue
        got = answer["cases"][0]["buckling"]
        want = factors(frame, answer["cases"][0]["axes"], 3)
        if len(got) != len(want):
            tally.wrong += 1
            print(f"WRONG {what}: {len(got)} factors for {len(want)}")
        elif want:
            for a, b in zip(got, want):
                tally.near([a], [b], 1e-3, "SciPy: buckling factors", what)
