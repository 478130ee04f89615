"""Each outside check runs in an environment of its own under target/, with pinned packages."""

import pathlib
import subprocess
import sys
import venv

ROOT = pathlib.Path(__file__).resolve().parents[2]


def enter(name, packages):
    """Runs the calling script again inside its environment, unless it is there already."""
    if "--inside" in sys.argv:
        return
    home = ROOT / "target" / name
    python = home / "bin" / "python"
    mark = home / "pinned.txt"
    if not mark.exists() or mark.read_text() != "\n".join(packages):
        venv.create(home, with_pip=True, clear=True)
        subprocess.run([python, "-m", "pip", "install", "-q", "--disable-pip-version-check", *packages], check=True)
        mark.write_text("\n".join(packages))
    sys.exit(subprocess.run([python, sys.argv[0], *sys.argv[1:], "--inside"]).returncode)
