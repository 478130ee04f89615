//! The changes that are tried, each as edits of the text.

use super::fixing::washers;
use super::site::{Site, Statement, direction};
use crate::reinforce::Reinforcement;
use chairwright_design::{BoxBeam, ClosingKind, Member, Origin, Shape, Stock, StockId, Vec3};
use chairwright_diagnostics::Edit;
use chairwright_strength::{How, Item, Of, TieOf, What};

/// Bolts of the shipped page that a doubler is held with, by their length in mm.
const BOLTS: [(u32, &str); 6] = [
    (60, "bolt M8 x 60"),
    (70, "bolt M8 x 70"),
    (80, "bolt M8 x 80"),
    (100, "bolt M8 x 100"),
    (120, "bolt M8 x 120"),
    (140, "bolt M8 x 140"),
];
/// Screws of the shipped page for plates and webs, by their length in mm.
pub(super) const SCREWS: [(u32, &str); 3] = [(40, "screw 5 x 40"), (50, "screw 5 x 50"), (60, "screw 5 x 60")];
/// How far a web reaches past the middle of a member at least, m: three diameters of an M8 (plywood), and a little.
const PAST: f64 = 0.025;
/// What fills the play of a sleeve.
const SHIM: &str = "polyester packing strap";
/// Walls of boxes, webs and plates, m.
const WALLS: std::ops::RangeInclusive<f64> = 0.0085..=0.0185;

/// What a change does.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Change {
    /// A second tube in it or over it: stock, and whether inside.
    Sleeve(String, bool),
    /// Another stock in its place.
    Stock(String),
    /// More of the same fasteners: from, to.
    More(u32, u32),
    /// Large washers under heads and nuts.
    Washers,
    /// Glue beside the fasteners.
    Glue,
    /// Both.
    MoreAndGlue(u32, u32),
    /// Gusset plates on both faces, or larger ones.
    Gusset,
    /// Places for them on the face that the pieces share: how many, and the clauses.
    Placed(u32, String),
    /// A thicker sheet of the same material.
    Thicker(String),
    /// A larger box of the same sheet.
    Larger,
    /// A closed box of sheet in the place of a member.
    Box(String),
    /// A second board beside the first.
    Doubler,
    /// A sheet that joins it to the next member along it.
    Web(String),
}

/// One change.
pub(super) struct Try {
    pub change: Change,
    pub was: String,
    pub is: String,
    pub edits: Vec<Edit>,
    /// How many times as much the part then bears, roughly, where its sizes alone tell.
    pub gain: Option<f64>,
}

impl Try {
    /// Edits within one statement.
    pub fn within(s: &Statement<'_>, change: Change, edits: Vec<Edit>) -> Try {
        let gain = match &change {
            Change::More(from, to) | Change::MoreAndGlue(from, to) => Some(f64::from(*to) / f64::from(*from)),
            _ => None,
        };
        Try { change, was: s.text().to_owned(), is: s.with(&edits), edits, gain }
    }

    /// Lines behind a statement.
    fn behind(s: &Statement<'_>, change: Change, lines: &[String]) -> Try {
        Try { change, was: String::new(), is: lines.join("\n"), edits: vec![s.behind(lines)], gain: None }
    }
}

pub(super) fn mm(m: f64) -> String {
    let mm = (m * 1e4).round() / 10.0;
    if (mm - mm.round()).abs() < 1e-6 { format!("{mm:.0} mm") } else { format!("{mm} mm") }
}

/// A length in mm that a fastener reaches at least.
pub(super) fn reaching(list: &[(u32, &'static str)], least: f64) -> Option<&'static str> {
    list.iter().find(|(l, _)| f64::from(*l) * 1e-3 >= least).map(|(_, name)| *name)
}

impl Site<'_> {
    /// Everything that is tried for a part, the smallest of each kind first.
    pub fn tries(&self, item: &Item) -> Vec<Try> {
        let d = self.design;
        match item.what {
            What::Tie(TieOf::Fastening(k)) => {
                let s = self.statement(d.fastenings[k].origin);
                let list = &d.fastenings[k].fasteners;
                let mut out: Vec<Try> = s.iter().flat_map(|s| washers(s, list, item)).collect();
                out.extend(self.fastening(d.fastenings[k].origin, list));
                out.extend(s.iter().flat_map(|s| self.places(s, item)));
                out
            }
            What::Joint(joint) | What::Tie(TieOf::Joint(joint)) => self.closing(joint, item),
            What::Bar(Of::Support(k)) => self.thicker(d.supports[k].origin, d.supports[k].stock),
            What::Bar(Of::Panel(k)) => self.thicker(d.panels[k].origin, d.panels[k].stock),
            What::Bar(Of::Box(k)) => self.larger_box(&d.boxes[k]),
            What::Bar(Of::Member(id)) => self.member(&d.members[id]),
            What::Tie(_) => Vec::new(),
        }
    }

    /// What the strength check found by itself, as text: a sleeve from the nearer end, since a text cannot say it otherwise,
    /// and another stock.
    pub fn offered(&self, r: &Reinforcement) -> Option<Try> {
        let d = self.design;
        let m = d.members.values().find(|m| r.is_for(&m.name))?;
        let s = self.statement(m.origin)?;
        let How::Sleeve(_, from, to) = r.how else {
            let value = s.entry.value.as_ref().and_then(|v| v.first())?;
            let edit = s.replace(value.span, format!("\"{}\"", r.stock));
            return Some(Try::within(&s, Change::Stock(r.stock.clone()), vec![edit]));
        };
        let length = (d.joints[m.end].at - d.joints[m.start].at).norm();
        let (over, end) = if to <= length - from { (to, "from") } else { (length - from, "to") };
        let line = format!(
            "sleeve {} = \"{}\" over {} from {} shimmed \"{SHIM}\"",
            name_of(&s)?,
            r.stock,
            mm((over.min(length) * 1e3).floor() * 1e-3),
            ends(&s, end)?
        );
        Some(Try::behind(&s, Change::Sleeve(r.stock.clone(), r.inside), &[line]))
    }

    /// Sheets of plywood on the shelf that walls are made of, the thinnest first.
    pub fn sheets(&self) -> Vec<&Stock> {
        let ply = |s: &&Stock| {
            s.material.allowance.as_deref().is_some_and(|a| chairwright_design::fold(a) == "plywood")
        };
        let thin = |s: &&Stock| matches!(s.shape, Shape::Sheet { thickness } if WALLS.contains(&thickness));
        let mut all: Vec<&Stock> = self.design.shelf.values().filter(ply).filter(thin).collect();
        all.sort_by(|a, b| wall(a).total_cmp(&wall(b)));
        all
    }

    /// The next thicker sheets of the same material.
    fn thicker(&self, origin: Origin, stock: StockId) -> Vec<Try> {
        let own = &self.design.stocks[stock];
        let Some(s) = self.statement(origin) else { return Vec::new() };
        let Some(value) = s.entry.value.as_ref().and_then(|v| v.first()) else { return Vec::new() };
        let mut all: Vec<&Stock> =
            self.design.shelf.values().filter(|n| n.material.allowance == own.material.allowance).collect();
        all.retain(|n| wall(n) > wall(own) * 1.05);
        all.sort_by(|a, b| wall(a).total_cmp(&wall(b)));
        let one = |n: &Stock| {
            let edit = s.replace(value.span, format!("\"{}\"", n.name));
            // bent across its face, which is the most that it can gain
            let gain = wall(n) / wall(own);
            Try { gain: Some(gain * gain), ..Try::within(&s, Change::Thicker(n.name.clone()), vec![edit]) }
        };
        all.into_iter().take(12).map(one).collect()
    }

    fn larger_box(&self, b: &BoxBeam) -> Vec<Try> {
        let mut out = self.thicker(b.origin, b.stock);
        let Some(s) = self.statement(b.origin) else { return out };
        if let (Some(level), Some(upright)) = (s.clause("outside"), s.clause("by")) {
            out.extend([1.15, 1.3, 1.5].map(|f| {
                let round = |m: f64| mm((m * f * 200.0).ceil() / 200.0);
                let edits = vec![
                    s.replace(level.span, format!("outside {}", round(b.width))),
                    s.replace(upright.span, format!("by {}", round(b.height))),
                ];
                Try::within(&s, Change::Larger, edits)
            }));
        }
        out
    }

    /// A second board, a box in its place, a web to the next member.
    fn member(&self, m: &Member) -> Vec<Try> {
        let Some(s) = self.statement(m.origin) else { return Vec::new() };
        let mut out = self.doubler(&s, m);
        out.extend(self.web(&s, m));
        out.extend(self.boxed(&s, m));
        out
    }

    fn way(&self, m: &Member) -> Option<Vec3> {
        (self.design.joints[m.end].at - self.design.joints[m.start].at).unit()
    }

    /// A board's direction across its thickness.
    fn across(&self, m: &Member) -> Option<Vec3> {
        let way = self.way(m)?;
        let level = Vec3::Z.across(way).unit().unwrap_or(Vec3::X);
        let (s, c) = libm::sincos(m.turned);
        (level * c - level.cross(way) * s).cross(way).unit()
    }

    fn doubler(&self, s: &Statement<'_>, m: &Member) -> Vec<Try> {
        let stock = &self.design.stocks[m.stock];
        let Shape::Board { thickness, .. } = stock.shape else { return Vec::new() };
        let (Some(across), Some(name)) = (self.across(m), name_of(s)) else { return Vec::new() };
        let Some(bolt) = reaching(&BOLTS, 2.0 * thickness + 0.0068) else { return Vec::new() };
        let one = |v: Vec3| {
            let word = direction(v, m.side)?;
            let turned = s.written("turned");
            let (a, b) = (ends(s, "from")?, ends(s, "to")?);
            let by = mm(thickness);
            let lines = [
                format!("joint {name}_beside_a at {a}, {word} {by}"),
                format!("joint {name}_beside_b at {b}, {word} {by}"),
                format!(
                    "member {name}_beside = \"{}\" from {name}_beside_a to {name}_beside_b {turned}",
                    stock.name
                )
                .trim_end()
                .to_owned(),
                format!("fasten {name}_beside to {name} using \"{bolt}\", \"nut M8\", \"washer M8\" times 4"),
            ];
            Some(Try::behind(s, Change::Doubler, &lines))
        };
        [across, across * -1.0].into_iter().filter_map(one).collect()
    }

    /// A closed box in its place, and no word more about its ends.
    fn boxed(&self, s: &Statement<'_>, m: &Member) -> Vec<Try> {
        let closings = || self.design.closings.iter().filter(|c| c.joint == m.start || c.joint == m.end);
        let free = closings().all(|c| matches!(c.kind, ClosingKind::Free(_)));
        let (Some(name), true) = (name_of(s), free && m.sleeves.is_empty()) else { return Vec::new() };
        let (Some(a), Some(b)) = (ends(s, "from"), ends(s, "to")) else { return Vec::new() };
        let (level, upright) = match self.design.stocks[m.stock].shape {
            Shape::Tube { outer, .. } => (outer.mid(), outer.mid()),
            Shape::Rod { diameter } => (diameter, diameter),
            Shape::Board { thickness, width } => (thickness, width),
            _ => return Vec::new(),
        };
        let idle: Vec<Edit> = closings()
            .filter_map(|c| self.statement(c.origin).map(|e| e.replace(e.entry.span, String::new())))
            .collect();
        let mut out = Vec::new();
        for more in [0.0, 0.02, 0.04, 0.07] {
            for sheet in self.sheets().into_iter().take(3) {
                let round = |m: f64| mm(((m + more) * 200.0).ceil() / 200.0);
                let (w, h) = (round(level.max(0.06)), round(upright.max(0.06)));
                let line = format!("box {name} = \"{}\" from {a} to {b} outside {w} by {h}", sheet.name);
                let mut edits = vec![s.replace(s.entry.head, line.clone())];
                edits.extend(idle.iter().cloned());
                out.push(Try {
                    change: Change::Box(sheet.name.clone()),
                    was: s.text().to_owned(),
                    is: line,
                    edits,
                    gain: None,
                });
            }
        }
        out
    }

    /// A sheet over this member and the one that runs along it, which makes one deep beam of both.
    fn web(&self, s: &Statement<'_>, m: &Member) -> Vec<Try> {
        let (Some(way), Some(name)) = (self.way(m), name_of(s)) else { return Vec::new() };
        let Some((other, gap)) = self.beside(m, way) else { return Vec::new() };
        let Some(far) = self.statement(other.origin) else { return Vec::new() };
        let Some(other_name) = name_of(&far) else { return Vec::new() };
        let Some(normal) = way.cross(gap).unit() else { return Vec::new() };
        let half = |m: &Member| match self.design.stocks[m.stock].shape {
            Shape::Tube { outer, .. } => outer.mid() / 2.0,
            Shape::Board { thickness, .. } => thickness / 2.0,
            _ => 0.0,
        };
        let (own, tube) = (half(m), matches!(self.design.stocks[m.stock].shape, Shape::Tube { .. }));
        let mut out = Vec::new();
        for v in [normal, normal * -1.0] {
            let Some(word) = direction(v, m.side) else { continue };
            let (Some(inward), Some(outward)) =
                (direction(gap * (1.0 / gap.norm()), m.side), direction(gap * (-1.0 / gap.norm()), m.side))
            else {
                continue;
            };
            // beyond the middles of both members, so that fasteners in these keep off the edge of the sheet
            let corners =
                [(s, "from", outward), (s, "to", outward), (&far, "to", inward), (&far, "from", inward)];
            let at: Option<Vec<String>> = corners
                .into_iter()
                .map(|(s, w, off)| Some(format!("{}, {off} {}", ends(s, w)?, mm(half(m).max(PAST)))))
                .collect();
            let Some(at) = at else { continue };
            for sheet in self.sheets().into_iter().take(2) {
                let with = if tube {
                    reaching(&BOLTS, 2.0 * own + wall(sheet) + 0.0068)
                } else {
                    reaching(&SCREWS, wall(sheet) + 0.030)
                };
                let Some(with) = with else { continue };
                let mut lines: Vec<String> = ["a", "b", "c", "d"]
                    .iter()
                    .zip(&at)
                    .map(|(k, at)| format!("joint {name}_web_{k} at {at}, {word} {}", mm(own)))
                    .collect();
                lines.push(format!(
                    "panel {name}_web = \"{}\" corners {name}_web_a, {name}_web_b, {name}_web_c, {name}_web_d toward {word}",
                    sheet.name
                ));
                // what makes one beam of two members is sheared along both
                let times = if tube { 6 } else { 18 };
                lines.extend(
                    [&name, &other_name]
                        .map(|to| format!("fasten {name}_web to {to} using \"{with}\" times {times}")),
                );
                out.push(Try::behind(s, Change::Web(sheet.name.clone()), &lines));
            }
        }
        out
    }

    /// The nearest other member that runs along this one, on its side, and the way to it.
    fn beside(&self, m: &Member, way: Vec3) -> Option<(&Member, Vec3)> {
        let d = self.design;
        let near = |o: &&Member| o.name != m.name && o.side == m.side;
        let all = d.members.values().filter(near).filter_map(|o| {
            let along = self.way(o)?;
            let gap = (d.joints[o.start].at - d.joints[m.start].at).across(way);
            let room = gap.norm();
            (along.dot(way) > 0.98 && (0.06..=0.5).contains(&room)).then_some((o, gap))
        });
        all.min_by(|a, b| a.1.norm().total_cmp(&b.1.norm()))
    }
}

/// How thick a sheet is, m; 0 of what is none.
fn wall(stock: &Stock) -> f64 {
    match stock.shape {
        Shape::Sheet { thickness } => thickness,
        _ => 0.0,
    }
}

/// The last word of what a statement is about.
fn name_of(s: &Statement<'_>) -> Option<String> {
    let subject = s.entry.subject.as_ref().map(|e| s.slice(e.span).to_owned())?;
    let plain = subject.chars().all(|c| c.is_alphanumeric() || c == '_');
    (plain && !subject.is_empty()).then_some(subject)
}

/// Where a `from` or `to` is, as it is written.
fn ends<'s>(s: &'s Statement<'_>, word: &str) -> Option<&'s str> {
    let written = s.written(word).strip_prefix(word)?.trim();
    (!written.is_empty()).then_some(written)
}
