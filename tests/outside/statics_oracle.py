"""The statics room against three independent general-purpose frame analysis libraries: PyNiteFEA (Python;
roll, hinges, part loads, settlements, springs), Frame3DD (C; roll, shear strain, springs), OpenSees
(C++; shear strain, arms, springs in joints). Buckling against matrices assembled here from textbook
formulas and solved by SciPy.

Displacements, reactions and end forces of 240 arbitrary frames of 1 to 500 members must agree to 1e-6
of the largest of their kind in the frame, buckling factors to 1e-3.

Usage: python3 tests/outside/statics_oracle.py [SOLVE]   (the built example `solve` of the statics room)
Times beside the same libraries: statics_bench.py.
"""

import json
import os
import pathlib
import random
import subprocess
import sys

from pinned import ROOT, enter

PINNED = ["numpy==2.4.6", "scipy==1.17.1", "PyNiteFEA==3.2.0", "WISDEM-pyFrame3DD==1.1.1", "opensees==0.1.32",
          "cholespy==2.2.0"]


# Also when the benchmark imports this: its own script is what runs again inside.
enter("statics-oracle", PINNED)

import numpy as np  # noqa: E402

import statics_buckling as buckling  # noqa: E402
import statics_frames as frames  # noqa: E402
import statics_peers as peers  # noqa: E402


def program():
    """The built example, or the one named."""
    named = [a for a in sys.argv[1:] if not a.startswith("--")]
    if named:
        return named[0]
    target = pathlib.Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target"))
    subprocess.run(["cargo", "build", "-q", "--release", "-p", "chairwright-statics", "--example", "solve"], cwd=ROOT,
                   check=True)
    return str(target / "release/examples/solve")


def ask(solve, asked, *args):
    run = subprocess.run([solve, *args], input=json.dumps(asked), capture_output=True, text=True, check=True)
    return json.loads(run.stdout)


class Tally:
    def __init__(self):
        self.checks = self.wrong = 0
        self.worst = {}

    def near(self, got, want, tolerance, kind, what):
        """Agreement relative to the largest of the kind."""
        got, want = np.asarray(got, float), np.asarray(want, float)
        size = np.abs(want).max()
        # What ought to be nothing has no size of its own: not compared.
        error = np.abs(got - want).max() / size if size > 0 else 0.0
        self.checks += 1
        self.worst[kind] = max(self.worst.get(kind, 0.0), error)
        if not error <= tolerance:
            self.wrong += 1
            print(f"WRONG {what}: {kind} differ by {error:.2e}")


def compare(tally, frame, answer, told, what, library):
    """Displacements, reactions, end forces: forces and moments, moves and turns apart."""
    u, r, ends = told
    a = answer["cases"][0]
    kinds = [("displacements", a["nodes"], u), ("end forces", a["ends"], ends)]
    held = [k for k, n in enumerate(frame["nodes"]) if any(n["fixed"])]
    if r is not None:
        kinds.append(("reactions", np.array(a["reactions"])[held], np.asarray(r)[held]))
    for kind, got, want in kinds:
        if want is None:
            continue
        got, want = np.asarray(got), np.asarray(want)
        for part, cut in (("", slice(0, 3)), (" (turns)", slice(3, 6))):
            tally.near(got[..., cut], want[..., cut], 1e-6, f"{library}: {kind}{part}", what)


def make(rng, number, members, kind):
    shear = kind != "pynite"
    frame = frames.frame(rng, members, shear)
    if rng.random() < 0.6:
        frames.ground_springs(rng, frame)
    if kind == "opensees":
        if rng.random() < 0.6:
            frames.joint_springs(rng, frame)
        if rng.random() < 0.6:
            frames.arms(rng, frame)
        return frame
    if kind == "frame3dd":
        # Its supports are either rigid or springs, so springs stand only at free nodes, as made.
        if rng.random() < 0.5:
            frames.uniform_loads(rng, frame)
        return frame
    if rng.random() < 0.4:
        frames.settlements(rng, frame)
    if rng.random() < 0.5:
        frames.uniform_loads(rng, frame)
    if rng.random() < 0.5:
        frames.other_loads(rng, frame)
    if rng.random() < 0.4:
        frames.releases(rng, frame)
    return frame


def global_ends(frame, answer):
    """Our end forces turned to global axes."""
    a = answer["cases"][0]
    out = []
    for ends, axes in zip(a["ends"], a["axes"]):
        t = np.array(axes)
        out.append([np.concatenate([t.T @ np.array(e[:3]), t.T @ np.array(e[3:])]) for e in ends])
    return np.array(out)


def main():
    solve = program()
    tally = Tally()
    for kind, count, most in (("pynite", 80, 200), ("frame3dd", 80, 500), ("opensees", 80, 500)):
        rng = random.Random(kind)
        made = [make(rng, k, n, kind) for k, n in enumerate(frames.sizes(rng, count, most))]
        answers = ask(solve, made)
        for k, (frame, answer) in enumerate(zip(made, answers)):
            what = f"{kind} frame {k} of {len(frame['members'])} members"
            if "error" in answer:
                tally.wrong += 1
                print(f"WRONG {what}: {answer['error']}")
                continue
            told = getattr(peers, kind)(frame, answer["cases"][0]["axes"])
            if kind == "opensees":
                answer["cases"][0]["ends"] = global_ends(frame, answer)
            compare(tally, frame, answer, told, what, kind)
    buckling.check(tally, lambda asked: ask(solve, asked))
    for kind, worst in sorted(tally.worst.items()):
        print(f"{kind}: within {worst:.1e}")
    print(f"{tally.checks} checks, {tally.wrong} wrong")
    sys.exit(1 if tally.wrong or tally.checks < 200 else 0)


if __name__ == "__main__":
    main()
