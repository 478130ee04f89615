//! Cut list and bill as comma-separated texts, safe to open in a spreadsheet.

use chairwright_cost::BillRow;
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

/// One row of the bill's text; what is not known stays empty.
#[derive(Default)]
struct BillLine {
    key: String,
    needed: String,
    buy: String,
    sale_unit: String,
    price: String,
    total: String,
    currency: String,
    supplier: String,
    date: String,
}

impl BillLine {
    const HEAD: [&str; 9] =
        ["key", "needed", "buy", "sale_unit", "price", "total", "currency", "supplier", "date"];

    fn of(row: &BillRow) -> BillLine {
        let money = |q: Option<Quantity>| q.map_or(String::new(), |q| format!("{:.2}", q.si()));
        BillLine {
            key: row.key.clone(),
            needed: row.needed.clone(),
            buy: row.buy.map_or(String::new(), |b| b.to_string()),
            sale_unit: row.unit.clone(),
            price: money(row.price),
            total: money(row.total),
            currency: row.price.and_then(|q| q.dimension.money).map_or(String::new(), |(m, _)| m.code()),
            supplier: row.supplier.clone(),
            date: row.date.clone(),
        }
    }

    /// In the order of the head.
    fn fields(self) -> [String; 9] {
        let BillLine { key, needed, buy, sale_unit, price, total, currency, supplier, date } = self;
        [key, needed, buy, sale_unit, price, total, currency, supplier, date]
    }
}

/// The bill: key, needed, buy, sale unit, price, total, currency, supplier, date, and which chair it is of.
#[must_use]
pub fn bill_csv(c: &Compilation) -> String {
    let used_up = c.bill.used_up.iter().map(|used| BillLine {
        key: used.key.clone(),
        needed: used.needed(),
        sale_unit: crate::text_making::AS_NEEDED.to_owned(),
        ..BillLine::default()
    });
    let rows = c.bill.rows.iter().map(BillLine::of).chain(used_up).map(BillLine::fields);
    let chair = crate::title::line(c);
    let head = BillLine::HEAD.map(str::to_owned).into_iter().chain(["chair".to_owned()]).collect();
    let rows = rows.map(|row| row.into_iter().chain([chair.clone()]).collect());
    lines(std::iter::once(head).chain(rows).collect())
}
