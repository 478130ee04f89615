//! What a change of the plan adds to the bill.

use crate::bill::{BillRow, bill};
use crate::book::PriceBook;
use crate::fold;
use crate::needs::{Class, Need};
use crate::shed::Shed;
use chairwright_quantity::{Number, Quantity};
use std::collections::BTreeMap;

/// More or less of one thing to buy.
#[derive(Clone, Debug)]
pub struct Bought {
    /// Price key.
    pub key: String,
    /// Sale units more; less where negative.
    pub more: i64,
    /// The sale unit in words.
    pub unit: String,
    /// Price of one sale unit.
    pub price: Quantity,
    /// Date of the price.
    pub date: String,
}

/// What a change costs beside the plan without it: whole sale units, after the packing of all pieces and
/// what is on hand.
#[derive(Clone, Debug, Default)]
pub struct Difference {
    /// Money more; less where negative. `None` where something that changes has no price.
    pub money: Option<Quantity>,
    /// What is bought more or less.
    pub bought: Vec<Bought>,
    /// Keys that change and have no price.
    pub unpriced: Vec<String>,
}

/// Holds two lists of needs against each other in the same shop and shed.
#[must_use]
pub fn difference(before: &[Need], after: &[Need], book: Option<&PriceBook>, shed: &Shed) -> Difference {
    let mut out = Difference::default();
    let (old, new) = (rows(before, after, book, shed), rows(after, before, book, shed));
    let keys: std::collections::BTreeSet<_> = old.keys().chain(new.keys()).cloned().collect();
    let mut sum = book
        .and_then(|b| b.currency)
        .map(|c| Quantity { number: Number::ZERO, dimension: chairwright_quantity::Dimension::money(c) });
    for key in keys {
        let (old, new) = (old.get(&key), new.get(&key));
        let some = |row: Option<&BillRow>| row.is_some_and(|r| r.buy.is_none_or(|n| n > 0));
        let priced = |row: Option<&BillRow>| !some(row) || row.is_some_and(|r| r.total.is_some());
        let Some(any) = new.or(old) else { continue };
        if !priced(old) || !priced(new) {
            out.unpriced.push(any.key.clone());
            continue;
        }
        let total = |row: Option<&BillRow>| row.and_then(|r| r.total).map_or(Number::ZERO, |q| q.number);
        let gap = total(new).sub(total(old));
        sum = sum.map(|q| Quantity { number: q.number.add(gap), ..q });
        out.bought.extend(bought(old, new));
    }
    out.money = sum.filter(|_| out.unpriced.is_empty());
    out
}

/// Rows of the bill for what differs from another list.
fn rows(
    needs: &[Need],
    other: &[Need],
    book: Option<&PriceBook>,
    shed: &Shed,
) -> BTreeMap<(Class, String), BillRow> {
    let changed: Vec<Need> = needs.iter().filter(|n| !other.contains(n)).cloned().collect();
    let (bill, _) = bill(&changed, book, shed);
    bill.rows.into_iter().map(|r| ((r.class, fold(&r.key)), r)).collect()
}

/// Offers of two bills may differ: what is bought otherwise is told one by one.
fn bought(old: Option<&BillRow>, new: Option<&BillRow>) -> Vec<Bought> {
    let one = |row: &BillRow, more: i64| {
        let price = row.price?;
        let (key, unit, date) = (row.key.clone(), row.unit.clone(), row.date.clone());
        (more != 0).then_some(Bought { key, more, unit, price, date })
    };
    let count = |row: &BillRow| i64::from(row.buy.unwrap_or(0));
    match (old, new) {
        (Some(a), Some(b)) if a.unit == b.unit || count(a) == 0 => {
            one(b, count(b) - count(a)).into_iter().collect()
        }
        (a, b) => {
            let gone = a.and_then(|r| one(r, -count(r)));
            gone.into_iter().chain(b.and_then(|r| one(r, count(r)))).collect()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{read_book, read_shed};

    const BOOK: &str = "key,description,sale unit,pack,price,currency,supplier,date\n\
        pipe a,pipe,length,3 m,12.00,USD,shop,2026-03-02\n\
        pipe b,pipe,length,3 m,20.50,USD,shop,2026-03-02\n";

    fn need(key: &str, lengths: &[f64]) -> Need {
        let mut need = Need::new(key, Class::Stock, None);
        need.lengths = lengths.iter().enumerate().map(|(k, l)| (format!("{key} {k}"), *l)).collect();
        need
    }

    fn money(d: &Difference) -> Option<f64> {
        d.money.map(Quantity::si)
    }

    /// By hand: a new stock of 0.4 m needs one length of 20.50.
    #[test]
    fn a_new_stock_costs_a_whole_length() {
        let book = read_book(BOOK).0;
        let before = [need("pipe a", &[1.0])];
        let after = [need("pipe a", &[1.0]), need("pipe b", &[0.4])];
        let d = difference(&before, &after, Some(&book), &Shed::default());
        assert_eq!(money(&d), Some(20.5));
        assert_eq!((d.bought.len(), d.bought[0].more, d.bought[0].key.as_str()), (1, 1, "pipe b"));
    }

    /// By hand: 1 m of a length of 3 m is cut; 0.4 m more comes from the same length.
    #[test]
    fn what_is_left_of_a_length_costs_nothing_more() {
        let book = read_book(BOOK).0;
        let d = difference(
            &[need("pipe a", &[1.0])],
            &[need("pipe a", &[1.0, 0.4])],
            Some(&book),
            &Shed::default(),
        );
        assert_eq!((money(&d), d.bought.len()), (Some(0.0), 0));
    }

    /// By hand: two pieces of 1.6 m take two lengths of a (24.00); as b two lengths again (41.00), and a is down to
    /// none: 17.00 more.
    #[test]
    fn a_stock_in_place_of_another_gives_back_what_it_saves() {
        let book = read_book(BOOK).0;
        let d = difference(
            &[need("pipe a", &[1.6, 1.6])],
            &[need("pipe b", &[1.6, 1.6])],
            Some(&book),
            &Shed::default(),
        );
        assert_eq!(money(&d), Some(17.0));
        assert_eq!(d.bought.iter().map(|b| b.more).collect::<Vec<_>>(), vec![-2, 2]);
    }

    /// No price, no sum; and what lies in the shed costs nothing.
    #[test]
    fn without_a_price_there_is_no_sum() {
        let book = read_book(BOOK).0;
        let (before, after) = ([need("pipe a", &[1.0])], [need("pipe a", &[1.0]), need("pipe c", &[0.4])]);
        let d = difference(&before, &after, Some(&book), &Shed::default());
        assert_eq!((money(&d), d.unpriced), (None, vec!["pipe c".to_owned()]));
        let shed = read_shed("key,size,count,note\npipe c,0.5 m,1,offcut\n").0;
        let d = difference(&before, &after, Some(&book), &shed);
        assert_eq!((money(&d), d.unpriced.len()), (Some(0.0), 0));
        assert!(difference(&before, &after, None, &shed).money.is_none());
    }
}
