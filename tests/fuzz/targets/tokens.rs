//! Tokens cover every byte, whatever the text.
#![no_main]

use chairwright_syntax::tokens;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let mut at = 0;
    for (_, range) in tokens(text) {
        assert_eq!(range.start, at);
        assert!(range.end > range.start);
        at = range.end;
    }
    assert_eq!(at, text.len());
});
