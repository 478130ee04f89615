//! Cut list and bill as comma-separated texts, safe to open in a spreadsheet.

use chairwright_driver::Compilation;
use chairwright_frame::Cut;
use chairwright_making::extent;
use chairwright_quantity::Quantity;

/// Quotes a field; one that a spreadsheet would take for a formula gets an apostrophe in front.
fn field(text: &str) -> String {
    let risky = text.starts_with(['=', '+', '-', '@', '\t', '\r']) && text.parse::<f64>().is_err();
    let text = if risky { format!("'{text}") } else { text.to_owned() };
    if text.contains([',', '"', '\n', '\r']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text }
}

fn lines(rows: Vec<Vec<String>>) -> String {
    rows.iter().map(|r| r.iter().map(|f| field(f)).collect::<Vec<_>>().join(",") + "\n").collect()
}

/// The cut list: stock, count, length and width in mm, names, ends, mirrored, holes, and which chair it is of.
#[must_use]
pub fn cuts_csv(c: &Compilation) -> String {
    let head = ["stock", "count", "length_mm", "width_mm", "pieces", "ends", "mirrored", "holes", "chair"];
    let mut rows = vec![head.iter().map(|h| (*h).to_owned()).collect::<Vec<_>>()];
    for row in &c.cuts {
        let (length, width) = match &row.cut {
            Cut::Length(l) | Cut::Band(l) => (*l, None),
            Cut::Sheet { outline } => {
                let (l, w) = extent(outline);
                (l, Some(w))
            }
        };
        rows.push(vec![
            c.design.stocks[row.stock].name.clone(),
            row.names.len().to_string(),
            format!("{:.1}", length * 1e3),
            width.map_or(String::new(), |w| format!("{:.1}", w * 1e3)),
            row.names.join(" "),
            row.ends.clone(),
            if row.handed { "yes".to_owned() } else { "no".to_owned() },
            holes(row),
            crate::title::line(c),
        ]);
    }
    lines(rows)
}

/// Name, size, place and direction of each hole, in mm from the end at the member's first joint.
fn holes(row: &chairwright_making::CutRow) -> String {
    let words = row.holes.iter().map(|h| {
        let (size, long, at) = (h.diameter * 1e3, h.long * 1e3, h.from_end * 1e3);
        format!("{} {size:.1} x {long:.1} at {at:.1} {}", h.name, h.toward)
    });
    words.collect::<Vec<_>>().join("; ")
}

/// The bill: key, needed, buy, sale unit, price, total, currency, supplier, date, and which chair it is of.
#[must_use]
pub fn bill_csv(c: &Compilation) -> String {
    let head = ["key", "needed", "buy", "sale_unit", "price", "total", "currency", "supplier", "date", "chair"];
    let mut rows = vec![head.iter().map(|h| (*h).to_owned()).collect::<Vec<_>>()];
    let money = |q: Option<Quantity>| q.map_or(String::new(), |q| format!("{:.2}", q.si()));
    for row in &c.bill.rows {
        let code = row.price.and_then(|q| q.dimension.money).map_or(String::new(), |(m, _)| m.code());
        rows.push(vec![
            row.key.clone(),
            row.needed.clone(),
            row.buy.map_or(String::new(), |b| b.to_string()),
            row.unit.clone(),
            money(row.price),
            money(row.total),
            code,
            row.supplier.clone(),
            row.date.clone(),
            crate::title::line(c),
        ]);
    }
    for used in &c.bill.used_up {
        let mut row = vec![String::new(); head.len()];
        (row[0], row[1]) = (used.key.clone(), used.needed());
        (row[3], row[9]) = (crate::text_making::AS_NEEDED.to_owned(), crate::title::line(c));
        rows.push(row);
    }
    lines(rows)
}
