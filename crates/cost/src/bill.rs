//! The bill: whole sale units, the cheapest offer of each, and an honest total.

use crate::book::{Pack, PriceBook, PriceRow};
use crate::fold;
use crate::needs::{Class, Need};
use crate::problem::Problem;
use crate::shed::{FromShed, Shed};
use crate::used_up::UsedUp;
use chairwright_making::{Bar, KERF, SheetLayout, pack_lengths, pack_sheets};
use chairwright_quantity::{Number, Quantity};
use std::cmp::Ordering;

/// One row of the bill.
#[derive(Clone, Debug)]
pub struct BillRow {
    /// Price key.
    pub key: String,
    /// What it is for.
    pub class: Class,
    /// What is needed, in words.
    pub needed: String,
    /// How many sale units to buy; `None` when nobody says how it is sold.
    pub buy: Option<u32>,
    /// The sale unit in words.
    pub unit: String,
    /// Price of one sale unit.
    pub price: Option<Quantity>,
    /// Price of all.
    pub total: Option<Quantity>,
    /// Who sells it.
    pub supplier: String,
    /// Date of the price.
    pub date: String,
    /// How the pieces lie in the lengths.
    pub bars: Vec<Bar>,
    /// How the pieces lie on the sheets.
    pub sheets: Vec<SheetLayout>,
    /// What is taken from the shed.
    pub on_hand: FromShed,
}

/// The whole bill.
#[derive(Clone, Debug, Default)]
pub struct Bill {
    /// Its rows.
    pub rows: Vec<BillRow>,
    /// Sum of the rows that have a price.
    pub total: Option<Quantity>,
    /// Keys without a price: with any of them the total is "at least".
    pub unpriced: Vec<String>,
    /// Cement and glue that nobody bought, of which no number is known: with any of them the total is "at least", too.
    pub used_up: Vec<UsedUp>,
    /// What was assumed.
    pub assumptions: Vec<String>,
}

impl Bill {
    /// Whether something that is needed is not in the total.
    #[must_use]
    pub fn is_least(&self) -> bool {
        !self.unpriced.is_empty() || !self.used_up.is_empty()
    }

    /// Sum of the priced rows of some classes.
    #[must_use]
    pub fn sum(&self, classes: &[Class]) -> Option<Quantity> {
        let totals = self.rows.iter().filter(|r| classes.contains(&r.class)).filter_map(|r| r.total);
        totals.reduce(|a, b| Quantity { number: a.number.add(b.number), ..a })
    }
}

/// One way to buy a need.
struct Offer<'b> {
    row: Option<&'b PriceRow>,
    buy: u32,
    unit: String,
    bars: Vec<Bar>,
    sheets: Vec<SheetLayout>,
}

/// Makes the bill.
#[must_use]
pub fn bill(needs: &[Need], book: Option<&PriceBook>, shed: &Shed) -> (Bill, Vec<Problem>) {
    let mut out = Bill::default();
    let mut problems = Vec::new();
    for need in needs {
        let (rest, on_hand) = shed.take(need);
        let mut row = if rest.is_met() && !on_hand.is_empty() {
            BillRow { buy: Some(0), ..finish(need, None) }
        } else {
            bill_row(&rest, book, &mut out, &mut problems)
        };
        row.needed = needed(need);
        row.on_hand = on_hand;
        out.rows.push(row);
    }
    let all = [Class::Stock, Class::Fitting, Class::Fastener, Class::Part, Class::Supply];
    out.total = out.sum(&all);
    (out, problems)
}

fn bill_row(need: &Need, book: Option<&PriceBook>, out: &mut Bill, problems: &mut Vec<Problem>) -> BillRow {
    let rows: Vec<&PriceRow> = book.into_iter().flat_map(|b| b.offers(&need.key)).collect();
    let mut too_long = None;
    let mut offers: Vec<Offer> = Vec::new();
    for row in &rows {
        match offer(need, row) {
            Ok(offer) => offers.push(offer),
            Err(problem) => too_long = Some(problem),
        }
    }
    offers.sort_by(|a, b| compare(a, b));
    let best = match offers.into_iter().next() {
        Some(best) => Some(best),
        None => {
            if rows.is_empty() {
                missing(need, book, out, problems);
            }
            match usual(need, out, too_long.is_some()) {
                Ok(usual) => usual,
                Err(problem) => {
                    too_long = Some(problem);
                    None
                }
            }
        }
    };
    if best.is_none()
        && let Some(problem) = too_long
    {
        problems.push(problem);
    }
    finish(need, best)
}

fn missing(need: &Need, book: Option<&PriceBook>, out: &mut Bill, problems: &mut Vec<Problem>) {
    out.unpriced.push(need.key.clone());
    let nearest = book.and_then(|b| {
        let first = fold(&need.key);
        let head = first.split(' ').next().unwrap_or_default().to_owned();
        b.rows.iter().map(|r| r.key.clone()).find(|k| k.starts_with(&head))
    });
    let Some(_) = book else { return };
    problems.push(Problem::MissingPrice { key: need.key.clone(), origin: need.origin, nearest });
}

fn compare(a: &Offer, b: &Offer) -> Ordering {
    let price = |o: &Offer| o.row.map(|r| r.price.number.mul(Number::whole(i128::from(o.buy))));
    match (price(a), price(b)) {
        (Some(x), Some(y)) => x.compare(y).unwrap_or(Ordering::Equal),
        _ => Ordering::Equal,
    }
}

fn offer<'b>(need: &Need, row: &'b PriceRow) -> Result<Offer<'b>, Problem> {
    let mut offer =
        Offer { row: Some(row), buy: 0, unit: sale_unit(row), bars: Vec::new(), sheets: Vec::new() };
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let up = |x: f64| (x - 1e-9).ceil().max(0.0) as u32;
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    match &row.pack {
        Pack::Length(length) if !need.lengths.is_empty() => {
            offer.bars = pack_lengths(&need.lengths, *length, KERF).map_err(|e| long(need, &e, *length))?;
            offer.buy = count(offer.bars.len());
        }
        Pack::Sheet(length, width) if !need.sheets.is_empty() => {
            offer.sheets = pack_sheets(&need.sheets, (*length, *width), KERF)
                .map_err(|e| large(need, &e, (*length, *width)))?;
            offer.buy = count(offer.sheets.len());
        }
        Pack::Length(each) | Pack::Metre(each) => {
            let lengths: f64 = need.lengths.iter().map(|l| l.1 + KERF).sum();
            offer.buy = up((need.metres + lengths) / each) + need.count;
        }
        Pack::Count(n) => offer.buy = need.count.div_ceil(*n),
        Pack::Sheet(..) | Pack::Bulk(_) => offer.buy = need.count.max(1),
    }
    Ok(offer)
}

fn long(need: &Need, (piece, length): &(String, f64), longest: f64) -> Problem {
    Problem::LongerThanStock {
        piece: piece.clone(),
        origin: need.origin,
        need: (*length, None),
        longest: (longest, None),
        stock: need.key.clone(),
    }
}

fn large(need: &Need, (piece, l, w): &(String, f64, f64), sheet: (f64, f64)) -> Problem {
    Problem::LongerThanStock {
        piece: piece.clone(),
        origin: need.origin,
        need: (*l, Some(*w)),
        longest: (sheet.0, Some(sheet.1)),
        stock: need.key.clone(),
    }
}

/// Without a price row: the usual length or sheet, so that the plan still says how many to buy.
fn usual<'b>(need: &Need, out: &mut Bill, quiet: bool) -> Result<Option<Offer<'b>>, Problem> {
    let bare = |buy, unit: String| Offer { row: None, buy, unit, bars: Vec::new(), sheets: Vec::new() };
    if quiet {
        return Ok(None);
    }
    if !need.lengths.is_empty() {
        let Some(length) = need.usual.0 else { return Ok(None) };
        let bars = pack_lengths(&need.lengths, length, KERF).map_err(|e| long(need, &e, length))?;
        out.assumptions
            .push(format!("{}: no price row says its length, {:.3} m was assumed", need.key, length));
        let buy = u32::try_from(bars.len()).unwrap_or(u32::MAX);
        return Ok(Some(Offer { bars, ..bare(buy, format!("length of {length:.3} m")) }));
    }
    if !need.sheets.is_empty() {
        let Some(sheet) = need.usual.1 else { return Ok(None) };
        let sheets = pack_sheets(&need.sheets, sheet, KERF).map_err(|e| large(need, &e, sheet))?;
        out.assumptions.push(format!(
            "{}: no price row says its size, {:.0} x {:.0} mm was assumed",
            need.key,
            sheet.0 * 1e3,
            sheet.1 * 1e3
        ));
        let buy = u32::try_from(sheets.len()).unwrap_or(u32::MAX);
        return Ok(Some(Offer { sheets, ..bare(buy, "sheet".to_owned()) }));
    }
    Ok((need.metres == 0.0).then(|| bare(need.count, "each".to_owned())))
}

fn sale_unit(row: &PriceRow) -> String {
    match &row.pack {
        Pack::Count(1) if row.unit == "each" => "each".to_owned(),
        Pack::Count(n) if row.unit == "pair" && *n == 2 => "pair".to_owned(),
        Pack::Count(n) => format!("{} of {n}", row.unit),
        Pack::Length(l) => format!("length of {} m", trimmed(*l)),
        Pack::Metre(l) if (*l - 1.0).abs() < 1e-9 => "metre".to_owned(),
        Pack::Metre(l) => format!("{} m off the roll", trimmed(*l)),
        Pack::Sheet(a, b) => format!("sheet {:.0} x {:.0} mm", a * 1e3, b * 1e3),
        Pack::Bulk(size) => format!("{} of {size}", row.unit),
    }
}

fn trimmed(value: f64) -> String {
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn needed(need: &Need) -> String {
    let pieces = |n: usize| if n == 1 { "1 piece".to_owned() } else { format!("{n} pieces") };
    if !need.lengths.is_empty() {
        let total: f64 = need.lengths.iter().map(|l| l.1).sum();
        return format!("{}, {total:.2} m", pieces(need.lengths.len()));
    }
    if !need.sheets.is_empty() {
        let total: f64 = need.sheets.iter().map(|s| s.1 * s.2).sum();
        return format!("{}, {total:.2} m2", pieces(need.sheets.len()));
    }
    if need.metres > 0.0 { format!("{:.2} m", need.metres) } else { format!("{}", need.count) }
}

fn finish(need: &Need, best: Option<Offer>) -> BillRow {
    let mut row = BillRow {
        key: need.key.clone(),
        class: need.class,
        needed: needed(need),
        buy: None,
        unit: String::new(),
        price: None,
        total: None,
        supplier: String::new(),
        date: String::new(),
        bars: Vec::new(),
        sheets: Vec::new(),
        on_hand: FromShed::default(),
    };
    let Some(offer) = best else { return row };
    row.buy = Some(offer.buy);
    row.unit = offer.unit;
    row.bars = offer.bars;
    row.sheets = offer.sheets;
    if let Some(price) = offer.row {
        row.price = Some(price.price);
        let number = price.price.number.mul(Number::whole(i128::from(offer.buy)));
        row.total = Some(Quantity { number, ..price.price });
        row.supplier.clone_from(&price.supplier);
        row.date.clone_from(&price.date);
    }
    row
}
