//! Price books: comma-separated rows of key, description, sale unit, pack, price, currency,
//! supplier and date.

use crate::problem::Problem;
use chairwright_quantity::{Currency, Dimension, Display, Number, Quantity, day_after, parse_unit};
use std::collections::BTreeMap;

/// Rows that one price book may have.
const ROWS: usize = 20_000;

/// More than this is no price in any currency.
const MOST: f64 = 1e9;

/// What one sale unit holds.
#[derive(Clone, PartialEq, Debug)]
pub enum Pack {
    /// So many pieces.
    Count(u32),
    /// A length in metres that is sold whole.
    Length(f64),
    /// A sheet: length and width in metres.
    Sheet(f64, f64),
    /// Cut from the roll in whole steps of so many metres.
    Metre(f64),
    /// A can, a kilogram or the like, with its size as written.
    Bulk(String),
}

/// One row.
#[derive(Clone, Debug)]
pub struct PriceRow {
    /// Folded key.
    pub key: String,
    /// Description.
    pub description: String,
    /// Sale unit as written.
    pub unit: String,
    /// What it holds.
    pub pack: Pack,
    /// Price of one sale unit.
    pub price: Quantity,
    /// Who sells it, by role.
    pub supplier: String,
    /// Date of the price as written.
    pub date: String,
}

/// A price book.
#[derive(Clone, Debug, Default)]
pub struct PriceBook {
    /// Its rows in order.
    pub rows: Vec<PriceRow>,
    /// Its currency.
    pub currency: Option<Currency>,
}

impl PriceBook {
    /// All offers of one thing.
    pub fn offers<'b>(&'b self, key: &'b str) -> impl Iterator<Item = &'b PriceRow> {
        let folded = crate::fold(key);
        self.rows.iter().filter(move |r| r.key == folded)
    }

    /// The folded keys.
    #[must_use]
    pub fn keys(&self) -> std::collections::BTreeSet<String> {
        self.rows.iter().map(|r| r.key.clone()).collect()
    }
}

/// Reads a price book; a bad row is reported and left out.
#[must_use]
pub fn read_book(text: &str) -> (PriceBook, Vec<Problem>) {
    let mut reader = rows_of(text);
    let mut book = PriceBook::default();
    let mut known = Sold::new();
    let heads = "key,description,sale unit,pack,price,currency,supplier,date";
    let mut problems: Vec<Problem> = headless(&mut reader, text, heads).into_iter().collect();
    for record in reader.records().take(ROWS) {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                let start = error.position().map_or(0, |p| usize::try_from(p.byte()).unwrap_or(0));
                problems.push(bad(text, start, "this row is no comma-separated text"));
                continue;
            }
        };
        let start = record.position().map_or(0, |p| usize::try_from(p.byte()).unwrap_or(0));
        if record.iter().all(str::is_empty) {
            continue;
        }
        match row(&record) {
            Ok((row, currency)) => {
                let first = *book.currency.get_or_insert(currency);
                if first == currency {
                    problems.extend(twice(&mut known, &row, line(text, start)));
                    book.rows.push(row);
                } else {
                    let (start, end) = line(text, start);
                    problems.push(Problem::MixedCurrencies {
                        start,
                        end,
                        first: first.code(),
                        second: currency.code(),
                    });
                }
            }
            Err(why) => problems.push(bad(text, start, &why)),
        }
    }
    (book, problems)
}

/// First row of each thing as it is sold by one supplier: where it stands, and its price.
type Sold = BTreeMap<(String, String), ((usize, usize), Quantity)>;

/// Whether a row prices what an earlier one of the same supplier does, sold in the same way.
fn twice(known: &mut Sold, row: &PriceRow, at: (usize, usize)) -> Option<Problem> {
    let sold = (row.key.clone(), format!("{} {:?} {}", row.unit.to_lowercase(), row.pack, row.supplier));
    let Some((first, price)) = known.get(&sold) else {
        known.insert(sold, (at, row.price));
        return None;
    };
    let prices = (Display::default().text(row.price), Display::default().text(*price));
    Some(Problem::PricedTwice { key: row.key.clone(), again: at, first: *first, prices })
}

pub(crate) fn bad(text: &str, start: usize, why: &str) -> Problem {
    let (start, end) = line(text, start);
    Problem::BadRow { start, end, why: why.to_owned() }
}

/// The line that begins at or just behind a byte (the reader may point at blank lines before it).
fn line(text: &str, start: usize) -> (usize, usize) {
    let bytes = text.as_bytes();
    let mut start = start.min(text.len());
    while bytes.get(start).is_some_and(|b| *b == b'\n' || *b == b'\r') {
        start += 1;
    }
    let end = bytes[start..].iter().position(|b| *b == b'\n').map_or(text.len(), |i| start + i);
    (start, end)
}

/// Reads a list with a heading; lines that begin with `#` are remarks.
pub(crate) fn rows_of(text: &str) -> csv::Reader<&[u8]> {
    csv::ReaderBuilder::new()
        .has_headers(true)
        .flexible(true)
        .comment(Some(b'#'))
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes())
}

/// The first line, where it is no heading: it would be read past.
pub(crate) fn headless(reader: &mut csv::Reader<&[u8]>, text: &str, wanted: &str) -> Option<Problem> {
    let heads = reader.headers().ok()?;
    let first = wanted.split(',').next()?;
    if heads.is_empty() || heads.get(0).is_some_and(|h| crate::fold(h) == first) {
        return None;
    }
    let start = heads.position().map_or(0, |p| usize::try_from(p.byte()).unwrap_or(0));
    Some(bad(text, start, &format!("the first line is the heading, and this is none: put `{wanted}` above it")))
}

fn row(record: &csv::StringRecord) -> Result<(PriceRow, Currency), String> {
    let field = |i: usize| record.get(i).unwrap_or("");
    if record.len() != 8 {
        return Err(format!(
            "it has {} fields; key, description, sale unit, pack, price, currency, supplier and date are wanted",
            record.len()
        ));
    }
    if field(0).is_empty() {
        return Err("its key is empty".to_owned());
    }
    let price = Number::decimal(field(4))
        .filter(|p| p.is_exact() && p.to_f64() >= 0.0)
        .ok_or_else(|| format!("`{}` is no price; write it with a point, without signs", field(4)))?;
    if price.to_f64() > MOST {
        return Err(format!("`{}` is more than a thousand million: no price is", field(4)));
    }
    if !is_day(field(7)) {
        return Err(format!(
            "`{}` is no date: write the day of the price as 2026-03-02, or its month as 2026-03",
            field(7)
        ));
    }
    let currency = Currency::from_code(field(5))
        .ok_or_else(|| format!("`{}` is no currency; write its three letters, such as USD", field(5)))?;
    Ok((
        PriceRow {
            key: crate::fold(field(0)),
            description: field(1).to_owned(),
            unit: field(2).to_owned(),
            pack: pack(field(2), field(3))?,
            price: Quantity { number: price, dimension: Dimension::money(currency) },
            supplier: field(6).to_owned(),
            date: field(7).to_owned(),
        },
        currency,
    ))
}

/// Whether a text is a day as `year-month-day`, or a month alone.
fn is_day(text: &str) -> bool {
    let plain = text.bytes().all(|b| b.is_ascii_digit() || b == b'-') && matches!(text.len(), 7 | 10);
    plain && day_after(text, 0).is_some()
}

fn pack(unit: &str, pack: &str) -> Result<Pack, String> {
    let metres =
        |text: &str| length(text).ok_or_else(|| format!("`{text}` is no length, such as 3 m or 10 ft"));
    match unit.to_lowercase().as_str() {
        "length" => metres(pack).map(Pack::Length),
        "metre" | "meter" | "foot" | "yard" => metres(pack).map(Pack::Metre),
        "sheet" => sheet(pack).map(|(a, b)| Pack::Sheet(a, b)),
        "each" | "pair" | "set" | "box" | "bag" | "pack" => pack
            .parse::<u32>()
            .ok()
            .filter(|n| *n > 0)
            .map(Pack::Count)
            .ok_or_else(|| format!("`{pack}` is no number of pieces")),
        "can" | "tube" | "bottle" | "tin" | "kg" | "lb" | "litre" | "roll" => Ok(Pack::Bulk(pack.to_owned())),
        other => Err(format!(
            "`{other}` is no sale unit; known are each, pair, set, box, bag, pack, length, metre, foot, yard, sheet, can, tin, tube, bottle, roll, kg, lb, litre"
        )),
    }
}

/// A sheet such as `2440 mm x 1220 mm`: length and width in metres.
pub(crate) fn sheet(text: &str) -> Result<(f64, f64), String> {
    let sides = text.split_once(['x', '×']).and_then(|(a, b)| Some((length(a.trim())?, length(b.trim())?)));
    let (a, b) = sides.ok_or_else(|| format!("`{text}` is no sheet, such as 2440 mm x 1220 mm"))?;
    Ok((a.max(b), a.min(b)))
}

/// A length such as `3 m`, `10 ft` or `2440 mm`, in metres.
pub(crate) fn length(text: &str) -> Option<f64> {
    let split = text.find(|c: char| !(c.is_ascii_digit() || c == '.'))?;
    let (number, unit) = text.split_at(split);
    let unit = parse_unit(unit.trim()).ok().filter(|u| u.dimension == Dimension::LENGTH)?;
    let value = Number::decimal(number)?.mul(unit.factor).to_f64();
    (value > 0.0).then_some(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_read_and_bad_ones_named() {
        let text = "key,description,sale unit,pack,price,currency,supplier,date\n\
            pipe 1 in sch40,pipe,length,10 ft,14.50,USD,plumber,2026-03-02\n\
            tee 1 in,tee,each,1,2;60,USD,plumber,2026-03-02\n\
            ply,sheet,sheet,2440 mm x 1220 mm,58,USD,yard,2026-03-02\n\
            glue,glue,can,16 oz,9.50,EUR,yard,2026-03-02\n";
        let (book, problems) = read_book(text);
        assert_eq!(book.rows.len(), 2);
        assert_eq!(book.rows[0].pack, Pack::Length(3.048));
        assert_eq!(problems.len(), 2);
        assert!(
            matches!(&problems[0], Problem::BadRow { start, end, .. } if text[*start..*end].starts_with("tee 1 in"))
        );
        assert!(matches!(&problems[1], Problem::MixedCurrencies { second, .. } if second == "EUR"));
    }
}
