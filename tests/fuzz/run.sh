#!/usr/bin/env bash
# Runs every fuzz target for some seconds each (default 60) on the toolchain at hand.
# The corpus under corpus/ is kept small; what is found anew goes to target/fuzz/ and is not kept.
set -euo pipefail
cd "$(dirname "$0")"
seconds="${1:-60}"
export RUSTFLAGS="--cfg fuzzing -Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 -Cllvm-args=-sanitizer-coverage-inline-8bit-counters -Cllvm-args=-sanitizer-coverage-pc-table -Cllvm-args=-sanitizer-coverage-trace-compares"
export CARGO_TARGET_DIR="${CARGO_TARGET_DIR:-../../target/fuzz}"
host=$(rustc -vV | sed -n 's/^host: //p')
cargo build -q --release --target "$host"
for name in ${2:-tokens tree formatted whole}; do
    fresh="$CARGO_TARGET_DIR/found/$name"
    mkdir -p "$fresh" "corpus/$name"
    echo "== $name, $seconds s"
    "$CARGO_TARGET_DIR/$host/release/$name" -max_total_time="$seconds" -max_len=6000 -timeout=10 -rss_limit_mb=2048 \
        -dict=words.dict -artifact_prefix="$CARGO_TARGET_DIR/found/$name-" -print_final_stats=1 \
        "$fresh" "corpus/$name" ../suite/names ../suite/parts ../suite/writing ../../examples/first_chair 2>&1 | grep -vE "NEW|REDUCE|pulse|INFO" | tail -25
done
