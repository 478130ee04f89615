//! The shipped catalogue pages: text in the language itself.
//!
//! Nothing comes in; out go page names and their texts. Every figure in them carries its source.
//! This room knows nothing but text.

/// One shipped page.
#[derive(Clone, Copy, Debug)]
pub struct Page {
    /// The name by which `use catalogue.NAME` finds it.
    pub name: &'static str,
    /// Its text.
    pub text: &'static str,
}

macro_rules! pages {
    ($($name:literal),* $(,)?) => {
        /// Every shipped page.
        pub const PAGES: &[Page] = &[$(Page {
            name: $name,
            text: include_str!(concat!("../pages/", $name, ".chair")),
        }),*];
    };
}

pages!(
    "body",
    "fasteners",
    "fit_rules",
    "fittings_inch",
    "ground",
    "lumber",
    "metal",
    "panels",
    "pipe_inch",
    "pipe_metric",
    "profiles",
    "strength",
    "webbing",
);

/// The page with this name.
#[must_use]
pub fn page(name: &str) -> Option<&'static Page> {
    PAGES.iter().find(|p| p.name == name)
}

/// The page that describes an entry, by its keyword and its folded name.
#[must_use]
pub fn shelf(keyword: &str, folded: &str) -> Option<&'static str> {
    let head = format!("{keyword} \"");
    let is = |line: &str| {
        let name = line.strip_prefix(&head).and_then(|rest| rest.split('"').next());
        name.is_some_and(|n| n.to_lowercase().split_whitespace().eq(folded.split(' ')))
    };
    PAGES.iter().find(|p| p.text.lines().any(is)).map(|p| p.name)
}
