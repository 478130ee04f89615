"""SARIF output against the published schema of SARIF 2.1.0 (OASIS), which the crate serde-sarif carries in its source;
validated with jsonschema. Every example and every broken design is checked.

Usage: python3 tests/outside/sarif_oracle.py [PROGRAM]
"""

import json
import pathlib
import subprocess
import sys

from pinned import ROOT, enter

enter("sarif-oracle", ["jsonschema==4.23.0"])

import jsonschema  # noqa: E402

PROGRAM = next((a for a in sys.argv[1:] if not a.startswith("--")), str(ROOT / "target/release/chairwright"))
CARRIER = ("serde-sarif", "0.8.0")
MANIFEST = """[package]
name = "carrier"
version = "0.0.0"
edition = "2021"
[dependencies]
%s = "=%s"
[workspace]
"""


def schema():
    home = ROOT / "target" / "sarif-oracle" / "carrier"
    (home / "src").mkdir(parents=True, exist_ok=True)
    (home / "src" / "lib.rs").write_text("")
    (home / "Cargo.toml").write_text(MANIFEST % CARRIER)
    told = subprocess.run(
        ["cargo", "metadata", "--format-version", "1"], cwd=home, check=True, capture_output=True, text=True
    )
    packages = json.loads(told.stdout)["packages"]
    found = next(p for p in packages if (p["name"], p["version"]) == CARRIER)
    text = (pathlib.Path(found["manifest_path"]).parent / "src" / "schema.json").read_text()
    schema = json.loads(text)
    assert "sarif" in schema["title"].lower() and "2.1.0" in schema["title"], schema["title"]
    return schema


def main():
    validator = jsonschema.Draft7Validator(schema())
    # a schema that refuses nothing would prove nothing
    assert not validator.is_valid({"version": "2.1.0", "runs": [{}]}), "the schema refuses nothing"
    paths = sorted(ROOT.glob("examples/*/*.chair")) + sorted(ROOT.glob("tests/broken/*.chair"))
    results = 0
    for path in paths:
        told = subprocess.run([PROGRAM, "check", str(path), "--form", "sarif"], capture_output=True, text=True)
        log = json.loads(told.stdout)
        errors = list(validator.iter_errors(log))
        if errors:
            raise SystemExit(f"FAILED: {path.name}: {errors[0].json_path}: {errors[0].message[:300]}")
        rules = {r["id"] for run in log["runs"] for r in run["tool"]["driver"]["rules"]}
        for run in log["runs"]:
            for result in run["results"]:
                assert result["ruleId"] in rules, result["ruleId"]
                results += 1
    assert results > 50, results
    print(f"sarif: {len(paths)} logs with {results} results agree with the schema")


main()
