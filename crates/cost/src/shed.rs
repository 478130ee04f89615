//! What is on hand: comma-separated rows of key, size, count and note, used up before anything is bought.

use crate::book::{bad, headless, length, rows_of, sheet};
use crate::fold;
use crate::needs::Need;
use crate::problem::Problem;
use chairwright_making::{Bar, KERF, SheetLayout, use_up_lengths, use_up_sheets};
use std::collections::BTreeSet;

/// Rows that one list may have, and things that one row may count.
const ROWS: usize = 20_000;
const COUNT: u32 = 10_000;

/// What one row holds.
#[derive(Clone, Copy, PartialEq, Debug)]
enum Size {
    Each,
    Length(f64),
    Sheet(f64, f64),
}

/// What is on hand.
#[derive(Clone, Default, Debug)]
pub struct Shed {
    rows: Vec<(String, Size, u32)>,
}

/// What is taken from the shed for one need.
#[derive(Clone, Default, PartialEq, Debug)]
pub struct FromShed {
    /// Lengths and what is cut from each.
    pub bars: Vec<Bar>,
    /// Sheets and what is cut from each.
    pub sheets: Vec<SheetLayout>,
    /// Counted things.
    pub count: u32,
    /// Metres off a roll.
    pub metres: f64,
}

impl FromShed {
    /// Whether nothing was taken.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.bars.is_empty() && self.sheets.is_empty() && self.count == 0 && self.metres == 0.0
    }
}

impl Shed {
    /// The folded keys.
    #[must_use]
    pub fn keys(&self) -> BTreeSet<String> {
        self.rows.iter().map(|r| r.0.clone()).collect()
    }

    /// What a need takes from the shed, and what is still to be bought.
    pub(crate) fn take(&self, need: &Need) -> (Need, FromShed) {
        let key = fold(&need.key);
        let mine: Vec<&(String, Size, u32)> = self.rows.iter().filter(|r| r.0 == key).collect();
        let mut rest = need.clone();
        let mut from = FromShed::default();
        if mine.is_empty() {
            return (rest, from);
        }
        let each = |row: &&(String, Size, u32)| std::iter::repeat_n(row.1, row.2 as usize);
        let lengths: Vec<f64> = mine
            .iter()
            .flat_map(each)
            .filter_map(|s| if let Size::Length(l) = s { Some(l) } else { None })
            .collect();
        let sheets: Vec<(f64, f64)> = mine
            .iter()
            .flat_map(each)
            .filter_map(|s| if let Size::Sheet(a, b) = s { Some((a, b)) } else { None })
            .collect();
        (from.bars, rest.lengths) = use_up_lengths(&need.lengths, &lengths, KERF);
        (from.sheets, rest.sheets) = use_up_sheets(&need.sheets, &sheets, KERF);
        let counted: u32 = mine.iter().filter(|r| r.1 == Size::Each).map(|r| r.2).sum();
        from.count = counted.min(need.count);
        rest.count -= from.count;
        let roll: f64 = lengths.iter().sum();
        from.metres = roll.min(need.metres);
        rest.metres -= from.metres;
        (rest, from)
    }
}

/// Reads a list of what is on hand; a bad row is reported and left out.
#[must_use]
pub fn read_shed(text: &str) -> (Shed, Vec<Problem>) {
    let mut reader = rows_of(text);
    let mut shed = Shed::default();
    let mut problems: Vec<Problem> = headless(&mut reader, text, "key,size,count,note").into_iter().collect();
    for record in reader.records().take(ROWS) {
        let Ok(record) = record else { continue };
        let start = record.position().map_or(0, |p| usize::try_from(p.byte()).unwrap_or(0));
        if record.iter().all(str::is_empty) {
            continue;
        }
        match row(&record) {
            Ok(row) => shed.rows.push(row),
            Err(why) => problems.push(bad(text, start, &why)),
        }
    }
    (shed, problems)
}

fn row(record: &csv::StringRecord) -> Result<(String, Size, u32), String> {
    let field = |i: usize| record.get(i).unwrap_or("");
    if !(3..=4).contains(&record.len()) || field(0).is_empty() {
        return Err(format!("it has {} fields; key, size, count and note are wanted", record.len()));
    }
    let size = match field(1) {
        "" | "each" => Size::Each,
        text if text.contains(['x', '×']) => sheet(text).map(|(a, b)| Size::Sheet(a, b))?,
        text => Size::Length(length(text).ok_or_else(|| format!("`{text}` is no length, such as 1.35 m"))?),
    };
    let count = field(2).parse::<u32>().ok().filter(|n| (1..=COUNT).contains(n));
    let count = count.ok_or_else(|| format!("`{}` is no count from 1 to {COUNT}", field(2)))?;
    Ok((fold(field(0)), size, count))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::needs::Class;

    #[test]
    fn a_list_without_heading_does_not_lose_its_first_row_in_silence() {
        let (shed, problems) = read_shed("tee 1 in,,2,\ntee 1 in,,3,\n");
        assert!(matches!(&problems[..], [Problem::BadRow { start: 0, end: 12, .. }]), "{problems:?}");
        let mut tees = Need::new("tee 1 in", Class::Fitting, None);
        tees.count = 5;
        assert_eq!(shed.take(&tees).0.count, 2);
        assert!(read_shed("").1.is_empty());
    }

    #[test]
    fn the_shed_is_used_before_the_shop() {
        let (shed, problems) =
            read_shed("key,size,count,note\nPipe 1 in sch40,1.2 m,1,offcut\ntee 1 in,,2,\nbad,3 q,1,\n");
        assert_eq!(problems.len(), 1);
        let mut need = Need::new("pipe 1 in sch40", Class::Stock, None);
        need.lengths = vec![("a".into(), 1.0), ("b".into(), 0.9), ("c".into(), 0.15)];
        let (rest, from) = shed.take(&need);
        assert_eq!(from.bars.len(), 1);
        assert_eq!(rest.lengths, vec![("b".to_owned(), 0.9)]);
        assert_eq!(from.bars[0].pieces.len(), 2);
        let mut tees = Need::new("tee 1 in", Class::Fitting, None);
        tees.count = 5;
        assert_eq!(shed.take(&tees).0.count, 3);
    }
}
