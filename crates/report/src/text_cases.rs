//! The table of load cases, and where their sizes are from.

use crate::table::Table;
use crate::writer::Writer;
use chairwright_driver::{Compilation, case_name, percent, source_words, without_side};
use chairwright_strength::{Case, CaseKind, Lasting, Strength};

/// One row of the table of cases.
struct Row {
    name: String,
    plain: String,
    lasting: Lasting,
    size: String,
    source: usize,
    used: String,
    part: String,
}

pub(crate) fn cases(c: &Compilation, s: &Strength, w: &mut Writer) {
    w.para(
        "Load cases; none can be taken out. In each stands what gives first in it, and how far that is used of \
         what is sound. \"From\" says below where the size is from.",
        "  ",
    );
    let mut sources: Vec<String> = Vec::new();
    let mut rows: Vec<Row> = Vec::new();
    for (k, case) in s.cases.iter().enumerate() {
        let worst = s.worst_of_case.get(k).and_then(Option::as_ref);
        let refused = s.refused.iter().any(|r| r.case == Some(k));
        let none = || (if refused { "not computed" } else { "not judged" }.to_owned(), String::new());
        let (used, part) = worst.map_or_else(none, |(n, u)| (percent(*u), n.clone()));
        let from = source_words(&case.source);
        let source = sources.iter().position(|s| *s == from).unwrap_or_else(|| {
            sources.push(from);
            sources.len() - 1
        });
        let name = case_name(&c.design, &case.kind);
        let plain = either(&case.kind, &name);
        rows.push(Row { plain, name, lasting: case.lasting, size: size(case), source, used, part });
    }
    let mut table = Table::new(&["case", "kind", ">size", ">from", ">sound", "of"]);
    for (row, both) in sides(&rows) {
        let name = if both { format!("{}, either side", row.plain) } else { row.name.clone() };
        let part = if both { without_side(&row.part) } else { row.part.clone() };
        table.row(vec![
            name,
            row.lasting.word().to_owned(),
            row.size.clone(),
            format!("{}", row.source + 1),
            row.used.clone(),
            part,
        ]);
    }
    w.table(&table);
    for (k, source) in sources.iter().enumerate() {
        w.numbered(k + 1, source);
    }
    w.out.push('\n');
}

/// Two rows that differ by their side alone, in every number as printed, become one.
fn sides(rows: &[Row]) -> Vec<(&Row, bool)> {
    let mut out: Vec<(&Row, bool)> = Vec::new();
    for row in rows {
        let same = |o: &Row| {
            o.plain == row.plain
                && o.name != row.name
                && (o.lasting, &o.size, o.source, &o.used) == (row.lasting, &row.size, row.source, &row.used)
                && without_side(&o.part) == without_side(&row.part)
        };
        match out.iter_mut().find(|(o, both)| !*both && same(o)) {
            Some((_, both)) => *both = true,
            None => out.push((row, false)),
        }
    }
    out
}

/// The name of a case without its side.
fn either(kind: &CaseKind, name: &str) -> String {
    match kind {
        CaseKind::Transfer(_) => "transfer over a front corner".to_owned(),
        CaseKind::Bare(kind) if matches!(**kind, CaseKind::Transfer(_)) => {
            name.replace("left front", "a front").replace("right front", "a front")
        }
        CaseKind::Bare(kind) => either(kind, name),
        CaseKind::OneWheelOff(_)
        | CaseKind::ArmEnd(..)
        | CaseKind::Diagonal(..)
        | CaseKind::CasterStrike { caster: Some(_), .. }
        | CaseKind::Arm(_) => without_side(name),
        _ => name.to_owned(),
    }
}

fn size(case: &Case) -> String {
    if is_force(&case.kind) { format!("{:.0} N", case.size) } else { format!("x {:.2}", case.size) }
}

/// Whether the size of a case is a force in N rather than a multiple of the weight.
pub(crate) fn is_force(kind: &CaseKind) -> bool {
    matches!(
        kind.plain(),
        CaseKind::LeaningBack
            | CaseKind::Pushing
            | CaseKind::Arm(_)
            | CaseKind::ArmEnd(..)
            | CaseKind::Declared(_)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(name: &str, used: &str, part: &str) -> Row {
        Row {
            name: name.to_owned(),
            plain: without_side(name),
            lasting: Lasting::Short,
            size: "x 1.00".to_owned(),
            source: 0,
            used: used.to_owned(),
            part: part.to_owned(),
        }
    }

    /// Sides become one row only where every number and the part are the same; else both rows stay.
    #[test]
    fn no_number_is_folded_away() {
        let left = || row("left.front over a hole", "48 %", "left.post");
        let folded = sides(&[left(), row("right.front over a hole", "48 %", "right.post")]).len();
        let other_use = sides(&[left(), row("right.front over a hole", "49 %", "right.post")]).len();
        let other_part = sides(&[left(), row("right.front over a hole", "48 %", "right.rail")]).len();
        let other_case = sides(&[left(), row("right.rear over a hole", "48 %", "right.post")]).len();
        assert_eq!((folded, other_use, other_part, other_case), (1, 2, 2, 2));
    }
}
