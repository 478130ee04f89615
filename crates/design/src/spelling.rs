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
    SPELLINGS.iter().find(|(written, _)| *written == word).map_or(word, |(_, meant)| meant)
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
