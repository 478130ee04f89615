"""Times of the statics room beside general-purpose libraries, on the same frames in the same run, one
thread, medians. Each is given a ready description and is timed from making its model to its answer.

Usage: python3 tests/outside/statics_bench.py [SOLVE]
"""

import os
import statistics
import sys
import time

os.environ |= {name: "1" for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS")}

import statics_oracle as oracle  # noqa: E402

oracle.enter_environment()

import resource  # noqa: E402
import subprocess  # noqa: E402
import json  # noqa: E402

import numpy as np  # noqa: E402
import scipy.sparse  # noqa: E402
import scipy.sparse.linalg  # noqa: E402

import statics_buckling as textbook  # noqa: E402
import statics_frames as frames  # noqa: E402
import statics_peers as peers  # noqa: E402


def median(times, work):
    all_ = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        all_.append(time.perf_counter() - start)
    return statistics.median(all_)


def superlu(frame, axes):
    """SciPy's sparse direct solver on a matrix assembled before: factor and solve alone."""
    at = [np.array(n["at"]) for n in frame["nodes"]]
    rows, columns, values = [], [], []
    for b, a in zip(frame["members"], axes):
        turn = np.kron(np.eye(4), np.array(a))
        k = turn.T @ textbook.stiffness(b["section"], np.linalg.norm(at[b["j"]] - at[b["i"]])) @ turn
        where = textbook.places(b["i"], b["j"])
        rows.append(np.repeat(where, 12))
        columns.append(np.tile(where, 12))
        values.append(k.ravel())
    n = 6 * len(at)
    k = scipy.sparse.csc_matrix((np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))), shape=(n, n))
    free = np.array([6 * i + d for i, node in enumerate(frame["nodes"]) for d in range(6) if not node["fixed"][d]])
    k = k[free][:, free].tocsc()
    load = np.zeros(n)
    for l in frame["cases"][0]["nodes"]:
        load[6 * l["node"]: 6 * l["node"] + 6] += l["force"]
    options = {"SymmetricMode": True}
    return lambda: scipy.sparse.linalg.splu(k, "MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options=options).solve(load[free])


def main():
    solve = oracle.program()
    print(f"{'frame':>24} {'ours':>10} {'OpenSees':>10} {'PyNite':>10} {'SuperLU*':>10}   ms   (* factor and solve only)")
    for cells in [(4, 3, 3), (4, 4, 4), (8, 8, 7), (16, 15, 15), (3, 3, 54), (3, 3, 530)]:
        frame = frames.lattice(*cells)
        count = len(frame["members"])
        axes = oracle.ask(solve, [frame])[0]["cases"][0]["axes"]
        times = 3 if count > 3000 else 9
        ours = oracle.ask(solve, [frame], "--time", str(times if count > 3000 else 201))[0]["seconds"]
        sees = median(times, lambda: peers.opensees(frame, axes, only_time=True))
        plain = {**frame, "nodes": [{**n, "spring": [0.0] * 6} for n in frame["nodes"]]}
        nite = median(1, lambda: peers.pynite(plain, axes)) if count < 2000 else float("nan")
        lu = median(times, superlu(frame, axes)) if count < 2000 or cells[0] == 3 else median(1, superlu(frame, axes))
        cell = "x".join(map(str, cells))
        row = [1e3 * t for t in (ours, sees, nite, lu)]
        print(f"{cell:>10} {count:>6} members " + " ".join(f"{t:>10.2f}" for t in row), flush=True)
    big = json.dumps([frames.lattice(16, 15, 15)])
    subprocess.run([solve, "--time", "1"], input=big, text=True, capture_output=True, check=True)
    print(f"most memory of a run of ours so far: {resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024:.0f} MB")


main()
