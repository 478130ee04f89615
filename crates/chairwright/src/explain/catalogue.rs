//! What ships with the compiler: its pages, the entries of one, and the fields of an entry as its page writes them.

use super::words::{WIDTH, hanging};
use chairwright_catalogue::{PAGES, Page};
use chairwright_design::fold;
use chairwright_diagnostics::SourceId;
use chairwright_report::Table;
use chairwright_syntax::{Entry, ExprKind, Limits, parse};

/// Fields that tell no size: they stand on the entry's own page.
const ASIDE: [&str; 8] =
    ["material", "source", "note", "origin", "dated", "reviewed_by", "for_whom", "standard"];

/// Every shipped page, a line each.
pub(super) fn pages() -> String {
    let mut t = Table::new(&["page", ">entries", "what is on it"]);
    for page in PAGES {
        t.row(vec![page.name.to_owned(), entries(page).len().to_string(), title(page)]);
    }
    let how = "A page is used by the line: use catalogue.NAME. What is on it: chairwright explain NAME. \
        All of one entry: chairwright explain \"ENTRY\".";
    t.lines(WIDTH).join("\n") + "\n\n" + &hanging(how, "", "")
}

/// Whatever page or entry is called so.
pub(super) fn named(topic: &str) -> Option<String> {
    let name = topic.strip_prefix("catalogue.").unwrap_or(topic);
    let page = PAGES.iter().filter(|p| p.name == name).map(page_of);
    let wanted = fold(topic);
    let entry = PAGES.iter().flat_map(|p| {
        let found = entries(p).into_iter().filter(|e| fold(&e.name) == wanted);
        found.map(|e| page_of_entry(p, &e)).collect::<Vec<_>>()
    });
    let all: Vec<String> = page.chain(entry).collect();
    (!all.is_empty()).then(|| all.join("\n"))
}

/// Every name of a page or an entry.
pub(super) fn known() -> Vec<String> {
    let pages = PAGES.iter().map(|p| p.name.to_owned());
    pages.chain(PAGES.iter().flat_map(entries).map(|e| e.name)).collect()
}

/// An entry, with its fields as they are written.
struct Shown {
    keyword: String,
    name: String,
    fields: Vec<(String, String)>,
}

fn entries(page: &Page) -> Vec<Shown> {
    parse(SourceId(0), page.text, &Limits::default()).entries.iter().filter_map(|e| shown(page, e)).collect()
}

fn shown(page: &Page, entry: &Entry) -> Option<Shown> {
    let ExprKind::Text(name) = &entry.subject.as_ref()?.kind else { return None };
    let lines = entry.block.as_ref()?.entries.iter();
    let fields = lines.filter_map(|f| Some((f.keyword.text().to_string(), written(page, f)?)));
    Some(Shown { keyword: entry.keyword.text().to_string(), name: name.to_string(), fields: fields.collect() })
}

/// The value of a field as the page writes it.
fn written(page: &Page, field: &Entry) -> Option<String> {
    let values = field.value.as_ref()?;
    let (first, last) = (values.first()?, values.last()?);
    page.text.get(first.span.start as usize..last.span.end as usize).map(str::to_owned)
}

/// The remarks above a page in one text.
fn about(page: &Page) -> String {
    let remarks = page.text.lines().take_while(|l| l.starts_with("//"));
    remarks.map(|l| l.trim_start_matches('/').trim()).collect::<Vec<_>>().join(" ")
}

/// The first sentence of it.
fn title(page: &Page) -> String {
    let about = about(page);
    about.split_once(". ").map_or(about.as_str(), |(first, _)| first).trim_end_matches('.').to_owned()
}

fn page_of(page: &Page) -> String {
    let mut out = format!("use catalogue.{}\n", page.name) + &hanging(&about(page), "  ", "  ");
    let all = entries(page);
    let mut keywords: Vec<&str> = Vec::new();
    for e in &all {
        if !keywords.contains(&e.keyword.as_str()) {
            keywords.push(&e.keyword);
        }
    }
    for keyword in keywords {
        out.push_str(&format!("\n{keyword}\n"));
        let of: Vec<&Shown> = all.iter().filter(|e| e.keyword == keyword).collect();
        let wide = of.iter().map(|e| e.name.chars().count()).max().unwrap_or(0);
        for e in of {
            let room = WIDTH.saturating_sub(wide + 4);
            out.push_str(format!("  {:wide$}  {}", e.name, size(e, room)).trim_end());
            out.push('\n');
        }
    }
    out
}

/// As many of its first fields as a line has room for.
fn size(entry: &Shown, room: usize) -> String {
    let mut line = String::new();
    for (key, value) in entry.fields.iter().filter(|(key, _)| !ASIDE.contains(&key.as_str())) {
        let value = value.trim_matches('"');
        let next = if key == "shape" || key == "kind" { value.to_owned() } else { format!("{key} {value}") };
        let longer = if line.is_empty() { next } else { format!("{line}, {next}") };
        if longer.chars().count() > room {
            break;
        }
        line = longer;
    }
    line
}

fn page_of_entry(page: &Page, entry: &Shown) -> String {
    let title = format!("{} \"{}\", with the line: use catalogue.{}", entry.keyword, entry.name, page.name);
    let mut out = hanging(&title, "", "    ");
    for (key, value) in &entry.fields {
        out.push_str(&hanging(&format!("{key} = {value}"), "  ", "      "));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_page_and_entry_is_shown_and_fits() {
        let all = known();
        assert!(all.len() > 400);
        for name in &all {
            let page = named(name).unwrap();
            assert!(page.lines().all(|l| l.chars().count() <= WIDTH), "{page}");
        }
        assert!(pages().lines().all(|l| l.chars().count() <= WIDTH), "{}", pages());
        assert!(PAGES.iter().all(|p| pages().contains(p.name)));
    }

    #[test]
    fn an_entry_shows_its_fields_with_their_source() {
        let tube = named("Steel tube EMT 3/4 in").unwrap();
        for wanted in [
            "use catalogue.metal",
            "outer_diameter = 0.922 in",
            "wall = 0.049 in",
            "source = \"published dimension",
        ] {
            assert!(tube.contains(wanted), "no {wanted} in\n{tube}");
        }
        assert_eq!(named("pipe_inch"), named("catalogue.pipe_inch"));
        let metal = named("metal").unwrap();
        assert!(metal.contains("\nmaterial\n  mild steel"), "{metal}");
        assert!(metal.contains("tube, outer_diameter 0.922 in, wall 0.049 in"), "{metal}");
        assert_eq!(named("bamboo"), None);
    }
}
