//! Cut list, cutting plan and bill in plain text.

use crate::table::Table;
use crate::text::{short, shorten};
use crate::writer::Writer;
use chairwright_cost::{BillRow, Class};
use chairwright_driver::Compilation;
use chairwright_frame::{Cut, Drilled};
use chairwright_making::CutRow;
use chairwright_quantity::{Dimension, Display, Quantity, grouped};
use std::fmt::Write as _;

pub(crate) fn cuts(c: &Compilation, w: &mut Writer) {
    if c.cuts.is_empty() {
        return;
    }
    w.head("CUT LIST");
    let mut stock = None;
    let mut table = Table::new(&[">count", ">cut", "pieces and their ends"]);
    for row in &c.cuts {
        if stock != Some(row.stock) {
            flush(&mut table, stock, c, w);
            stock = Some(row.stock);
        }
        let mut names = row.names.join(", ");
        if !row.ends.is_empty() {
            let _ = write!(names, " ({})", row.ends);
        }
        if row.handed {
            names.push_str(" — left and right are mirror images");
        }
        table.row(vec![row.names.len().to_string(), cut(c.display(), &row.cut), names]);
        for hole in &row.holes {
            table.row(vec![String::new(), "hole".to_owned(), drilled(c, row, hole)]);
        }
    }
    flush(&mut table, stock, c, w);
    if let Display::Fraction(d) = c.display() {
        let most = 25.4 / f64::from(2 * d);
        w.para(
            &format!("Behind a fraction + says that the true length is a little more, - a little less: by {most:.2} mm at most."),
            "  ",
        );
    }
}

fn flush(table: &mut Table, stock: Option<chairwright_design::StockId>, c: &Compilation, w: &mut Writer) {
    if let Some(stock) = stock
        && !table.is_empty()
    {
        let _ = writeln!(w.out, "\n  {}", c.design.stocks[stock].name);
        w.table(table);
        *table = Table::new(&[">count", ">cut", "pieces and their ends"]);
    }
}

fn cut(display: Display, cut: &Cut) -> String {
    let length = |m: f64| {
        let text = display.text(Quantity::from_si(m, Dimension::LENGTH));
        match display {
            Display::Fraction(_) => format!("{text}, {:.1} mm", m * 1e3),
            _ => text,
        }
    };
    match cut {
        Cut::Length(l) | Cut::Band(l) => length(*l),
        Cut::Sheet { outline } => {
            let (l, s) = chairwright_making::extent(outline);
            let shape = if outline.len() == 4 { "" } else { " outline" };
            format!("{} x {}{shape}", length(l), length(s))
        }
    }
}

pub(crate) fn packing(c: &Compilation, w: &mut Writer) {
    let idle = |r: &BillRow| r.bars.is_empty() && r.sheets.is_empty() && r.on_hand.is_empty();
    if c.bill.rows.iter().all(idle) {
        return;
    }
    w.head("HOW TO CUT IT FROM WHAT IS SOLD");
    for row in &c.bill.rows {
        for bar in &row.on_hand.bars {
            let pieces: Vec<String> = bar.pieces.iter().map(|(n, l)| format!("{n} {:.1}", l * 1e3)).collect();
            let rest = (bar.offcut * 1e3).floor();
            let length = bar.length * 1e3;
            w.item(&format!(
                "{}, on hand ({length:.0} mm): {}; offcut {rest:.0} mm",
                row.key,
                pieces.join(", ")
            ));
        }
        for sheet in &row.on_hand.sheets {
            let pieces: Vec<String> = sheet.pieces.iter().map(|p| p.name.clone()).collect();
            let (l, s) = (sheet.size.0 * 1e3, sheet.size.1 * 1e3);
            w.item(&format!("{}, on hand ({l:.0} x {s:.0} mm): {}", row.key, pieces.join(", ")));
        }
        for (i, bar) in row.bars.iter().enumerate() {
            let pieces: Vec<String> = bar.pieces.iter().map(|(n, l)| format!("{n} {:.1}", l * 1e3)).collect();
            w.item(&format!(
                "{}, no. {} ({:.0} mm): {}; offcut {:.0} mm",
                row.key,
                i + 1,
                bar.length * 1e3,
                pieces.join(", "),
                (bar.offcut * 1e3).floor()
            ));
        }
        for (i, sheet) in row.sheets.iter().enumerate() {
            let pieces: Vec<String> = sheet
                .pieces
                .iter()
                .map(|p| format!("{} {:.0} x {:.0}", p.name, p.size.0 * 1e3, p.size.1 * 1e3))
                .collect();
            w.item(&format!(
                "{}, sheet {} ({:.0} x {:.0} mm): {}",
                row.key,
                i + 1,
                sheet.size.0 * 1e3,
                sheet.size.1 * 1e3,
                pieces.join(", ")
            ));
        }
    }
    w.para("Saw cut of 3 mm between pieces. Lengths in mm.", "  ");
}

/// Of what is used up and nobody counted.
pub(crate) const AS_NEEDED: &str = "as needed";

pub(crate) fn bill(c: &Compilation, w: &mut Writer) {
    if c.bill.rows.is_empty() {
        return;
    }
    w.head("WHAT TO BUY");
    let money = |q: Option<Quantity>| q.map_or("?".to_owned(), |q| grouped(q.si(), 2));
    let mut table = Table::new(&[">buy", "sale unit", ">each", ">total", "what for"]);
    for row in &c.bill.rows {
        let buy = row.buy.map_or("?".to_owned(), |b| b.to_string());
        let shed =
            if row.on_hand.count > 0 { format!(", {} on hand", row.on_hand.count) } else { String::new() };
        let shed = if row.on_hand.bars.is_empty() && row.on_hand.sheets.is_empty() {
            shed
        } else {
            ", partly from what is on hand".to_owned()
        };
        let what = format!("{} ({}{shed})", row.key, row.needed);
        table.row(vec![buy, shorten(&row.unit, 22), money(row.price), money(row.total), what]);
    }
    for used in &c.bill.used_up {
        let [buy, price, total] = ["?"; 3].map(str::to_owned);
        table.row(vec![buy, AS_NEEDED.to_owned(), price, total, format!("{} ({})", used.key, used.needed())]);
    }
    w.table(&table);
    let unit = |q: &Quantity| q.dimension.money.map_or(String::new(), |(m, _)| m.code());
    match &c.bill.total {
        Some(total) => {
            let least = if c.bill.is_least() { "at least " } else { "" };
            w.para(&format!("Total: {least}{} {}", grouped(total.si(), 2), unit(total)), "  ");
        }
        None => w.para("Total: cannot tell, there is no price at all.", "  "),
    }
    if !c.bill.unpriced.is_empty() {
        w.para(&format!("Without a price: {}", c.bill.unpriced.join(", ")), "  ");
    }
    let parts = c.bill.sum(&[Class::Part]);
    if let (Some(parts), Some(_)) = (parts, c.bill.total) {
        w.para(&format!("of that bought parts {} {}", grouped(parts.si(), 2), unit(&parts)), "  ");
    }
    if let Some(first) = c.bill.used_up.first() {
        let all: Vec<&str> = c.bill.used_up.iter().map(|u| u.key.as_str()).collect();
        w.para(
            &format!(
                "Not in the total: {}. How far a tin goes is not known here; once you know, write for example: supply \"{}\" times 1",
                all.join(", "),
                first.key
            ),
            "  ",
        );
    }
}

/// A hole, counted from the end at the member's first joint.
fn drilled(c: &Compilation, row: &CutRow, hole: &Drilled) -> String {
    let length = |m: f64| c.display().text(Quantity::from_si(m, Dimension::LENGTH));
    let what = if hole.long > hole.diameter + 1e-9 {
        format!("slot {} by {}", length(hole.diameter), length(hole.long))
    } else {
        length(hole.diameter)
    };
    let piece = row.names.first().and_then(|n| c.frame.pieces.iter().find(|p| p.name == *n));
    let member = piece.and_then(|p| c.design.members.values().find(|m| m.name == p.of));
    let end = member.map_or(String::new(), |m| format!(" nearer {}", short(&c.design.joints[m.start].name)));
    format!(
        "{}: {what}, {} from the end{end}, drilled {}",
        short(&hole.name),
        length(hole.from_end),
        hole.toward
    )
}
