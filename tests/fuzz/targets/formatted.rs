//! Formatting twice is formatting once, and changes nothing but blanks, whatever the text.
#![no_main]

use chairwright_syntax::{Raw, format, tokens};
use libfuzzer_sys::fuzz_target;

fn kept(text: &str) -> Vec<String> {
    let solid = |t: &(Raw, std::ops::Range<usize>)| !matches!(t.0, Raw::Blank | Raw::Newline);
    tokens(text).into_iter().filter(solid).map(|(_, r)| text[r].trim_end().to_owned()).collect()
}

fuzz_target!(|text: &str| {
    let once = format(text);
    assert_eq!(format(&once), once);
    assert_eq!(kept(text), kept(&once));
});
