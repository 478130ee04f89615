//! The changes that are tried for fasteners, glue and plates, each as edits of the text.

use super::placing;
use super::site::{Site, Statement};
use super::tries::{Change, SCREWS, Try, mm, reaching};
use chairwright_design::{ClosingKind, Member, Origin, Shape};
use chairwright_diagnostics::Edit;
use chairwright_strength::{Item, Mode, steps};

/// The glue that is tried where none is named.
const GLUE: &str = "wood glue D4";

impl Site<'_> {
    /// More of the same.
    pub fn fastening(&self, origin: Origin, list: &[(String, u32)]) -> Vec<Try> {
        let Some(s) = self.statement(origin).filter(unplaced) else { return Vec::new() };
        more(&s, list)
            .into_iter()
            .map(|(n, to, edit)| Try::within(&s, Change::More(n, to), vec![edit]))
            .collect()
    }

    /// As many where they fit best, half as many more, and twice: each in the places that turn least. Of what the text does
    /// not place those are taken already, and more are only a number.
    pub fn places(&self, s: &Statement<'_>, item: &Item) -> Vec<Try> {
        let Some(room) = self.rooms.iter().find(|r| r.name == item.name && r.origin == item.origin) else {
            return Vec::new();
        };
        if room.taken {
            return Vec::new();
        }
        let n = room.count;
        let mut counts = vec![n, n.div_ceil(2) + n, 2 * n];
        counts.dedup();
        let one = |to: u32| {
            let fits = room.fit(to, steps(self.design.inches))?;
            let text = placing::clauses(&fits, self.design.inches);
            let edits = placing::write(s, &text, (to != n).then_some(to))?;
            let written = to == n || s.clause("times").is_some();
            let change = Change::Placed(to, text);
            written.then(|| Try::within(s, change, edits))
        };
        counts.into_iter().filter_map(one).collect()
    }

    /// More fasteners, glue beside them, and plates over a butt.
    pub fn closing(&self, joint: chairwright_design::JointId, item: &Item) -> Vec<Try> {
        let Some(c) = self.design.closings.iter().find(|c| c.joint == joint) else { return Vec::new() };
        let Some(s) = self.statement(c.origin) else { return Vec::new() };
        let counts = if unplaced(&s) { more(&s, &c.fasteners) } else { Vec::new() };
        let mut out: Vec<Try> = washers(&s, &c.fasteners, item).into_iter().collect();
        out.extend(self.places(&s, item));
        let more: Vec<Try> = counts
            .iter()
            .map(|(n, to, edit)| Try::within(&s, Change::More(*n, *to), vec![edit.clone()]))
            .collect();
        out.extend(more);
        let end = chairwright_diagnostics::Span { start: s.entry.head.end, ..s.entry.head };
        let glue = || s.replace(end, format!(" glued \"{GLUE}\""));
        let of_wood = matches!(c.kind, ClosingKind::Lap(_) | ClosingKind::Gusset { .. });
        if c.glue.is_none() && of_wood {
            out.push(Try::within(&s, Change::Glue, vec![glue()]));
            out.extend(counts.iter().map(|(n, to, edit)| {
                Try::within(&s, Change::MoreAndGlue(*n, *to), vec![edit.clone(), glue()])
            }));
        }
        if let (ClosingKind::Gusset { size, .. }, Some(a), Some(b)) =
            (&c.kind, s.clause("size"), s.clause("by"))
        {
            out.extend([1.25, 1.5, 2.0].map(|f| {
                let round = |m: f64| mm((m * f * 200.0).ceil() / 200.0);
                let edits = vec![
                    s.replace(a.span, format!("size {}", round(size.0))),
                    s.replace(b.span, format!("by {}", round(size.1))),
                ];
                Try::within(&s, Change::Gusset, edits)
            }));
        }
        if let ClosingKind::Butt { member, .. } = c.kind {
            out.extend(self.plates(&s, &self.design.members[member]));
        }
        out
    }

    /// Plates of sheet on both faces of a butt, screwed and glued.
    fn plates(&self, s: &Statement<'_>, stops: &Member) -> Vec<Try> {
        let Shape::Board { thickness, width } = self.design.stocks[stops.stock].shape else {
            return Vec::new();
        };
        let subject = s.entry.subject.as_ref().map_or("", |e| s.slice(e.span));
        let (of, against) = (s.written("of"), s.written("against"));
        let mut out = Vec::new();
        for sheet in self.sheets().into_iter().take(2) {
            let Shape::Sheet { thickness: t } = sheet.shape else { continue };
            let Some(screw) = reaching(&SCREWS, t + 0.030) else { continue };
            for factor in [1.5, 2.5] {
                let size = |m: f64| mm((m * 200.0).ceil() / 200.0);
                let line = format!(
                    "close {subject} = \"{}\" with gusset {of} {against} size {} by {} using \"{screw}\" times 16 glued \"{GLUE}\"",
                    sheet.name,
                    size(2.0 * factor * width),
                    size(width.max(thickness)),
                );
                let edit = s.replace(s.entry.head, line.clone());
                let (change, was) = (Change::Gusset, s.text().to_owned());
                out.push(Try { change, was, is: line, edits: vec![edit], gain: None });
            }
        }
        out
    }
}

/// Large washers of the bolt's own size under head and nut, where these sink in: instead of smaller ones, or where there are none.
pub(super) fn washers(s: &Statement<'_>, list: &[(String, u32)], item: &Item) -> Option<Try> {
    if item.mode != Mode::Head {
        return None;
    }
    let size = list.iter().find_map(|(n, _)| n.strip_prefix("bolt ")?.split_whitespace().next())?;
    let large = format!("\"washer {size} large\"");
    let using = s.clause("using")?;
    let text = s.slice(using.span).trim_end();
    if text.contains(&large) {
        return None;
    }
    let small = format!("\"washer {size}\"");
    let text =
        if text.contains(&small) { text.replace(&small, &large) } else { format!("{text}, {large}, {large}") };
    Some(Try::within(s, Change::Washers, vec![s.replace(using.span, text)]))
}

/// Whether the text leaves open where the fasteners sit: then more of them are only a number.
fn unplaced(s: &Statement<'_>) -> bool {
    s.clause("rows").or(s.clause("spaced")).or(s.clause("ends")).is_none()
}

/// How many more fasteners, each as an edit of `times`: half as many more, twice and three times.
fn more(s: &Statement<'_>, list: &[(String, u32)]) -> Vec<(u32, u32, Edit)> {
    let (Some(times), Some((_, n))) = (s.clause("times"), list.first()) else { return Vec::new() };
    if s.slice(times.span).split_whitespace().nth(1) != Some(n.to_string().as_str()) {
        return Vec::new();
    }
    let mut counts = vec![n.div_ceil(2) + n, 2 * n, 3 * n];
    counts.dedup();
    counts.into_iter().map(|to| (*n, to, s.replace(times.span, format!("times {to}")))).collect()
}
