//! Trade words that are spelt or called differently from place to place and mean the same thing.

/// What is written, and the word it stands for.
pub const SPELLINGS: &[(&str, &str)] = &[
    // spellings
    ("castor", "caster"),
    ("castors", "caster"),
    ("tire", "tyre"),
    ("license", "licence"),
    ("aluminum", "aluminium"),
    ("meter", "metre"),
    ("liter", "litre"),
    ("center", "centre"),
    ("gray", "grey"),
    // names
    ("bushing", "bush"),
    ("footplate", "footrest"),
    ("foot_support", "footrest"),
    ("backrest", "back"),
    ("back_support", "back"),
    ("wheel_lock", "brake"),
    ("occupant", "rider"),
    ("place", "conditions"),
    ("weight", "mass"),
    ("lower_leg", "calf"),
    ("timber", "lumber"),
    ("towards", "toward"),
];

/// The word that another word stands for; itself where it is no other spelling.
#[must_use]
pub fn spelling(word: &str) -> &str {
    // every line of a block is asked for every field, and nearly no word is in the list
    if WRITTEN & (1 << slot(word)) == 0 {
        return word;
    }
    SPELLINGS.iter().find(|(written, _)| *written == word).map_or(word, |(_, meant)| meant)
}

/// Slots of all words in the list.
const WRITTEN: u128 = {
    let (mut all, mut k) = (0, 0);
    while k < SPELLINGS.len() {
        all |= 1 << slot(SPELLINGS[k].0);
        k += 1;
    }
    all
};

/// One of 128 slots, by a word's length and its ends.
const fn slot(word: &str) -> usize {
    match word.as_bytes() {
        [first, .., last] => (word.len() * 13 + *first as usize * 7 + *last as usize) % 128,
        _ => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_spelling_leads_to_another() {
        for (written, meant) in SPELLINGS {
            assert_eq!(spelling(written), *meant);
            assert_eq!(spelling(meant), *meant);
        }
    }
}
