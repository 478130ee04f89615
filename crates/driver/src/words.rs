//! Typed problems in a builder's words, with their places in the text.

use chairwright_checks::Figures;
use chairwright_cost::{Bill, Problem as Cost};
use chairwright_design::{Design, JointId, MemberId, Origin, StockId, Vec3};
use chairwright_diagnostics::{Diagnostic, Severity, SourceId, Span};
use chairwright_language::{Verdict, nearest};
use chairwright_quantity::{Dimension, Display, Quantity};

/// Whether a demand about cost hangs on things without a price: the total is only known from below, so
/// "at most" cannot be called met, nor "at least" unmet.
#[must_use]
pub fn is_open(verdict: &Verdict, bill: &Bill) -> bool {
    let about_money = verdict.uses.iter().any(|f| f.starts_with("cost.") && f != "cost.unpriced");
    // cement and glue are no bought parts
    let supplies = verdict.uses.iter().any(|f| f == "cost.total" || f == "cost.frame");
    let least = !bill.unpriced.is_empty() || (supplies && !bill.used_up.is_empty());
    let settled = match (&verdict.comparison, verdict.holds) {
        (Some(c), Some(holds)) => c.figure_left && c.wants_more == holds,
        _ => false,
    };
    about_money && least && !settled
}

pub(crate) struct Words<'a> {
    pub design: &'a Design,
    pub origins: &'a [Span],
    pub display: Display,
    /// The arms at their push rims, for what would bring them into their band.
    pub reach: &'a [chairwright_checks::Reach],
    /// What was worked out of the chair, for help that hangs on it.
    pub figures: &'a Figures,
}

impl Words<'_> {
    pub(crate) fn span(&self, origin: Origin) -> Option<Span> {
        self.origins.get(origin.0 as usize).copied()
    }

    pub(crate) fn placed(
        &self,
        mut problem: Diagnostic,
        origin: Origin,
        label: impl Into<String>,
    ) -> Diagnostic {
        problem.about.extend(self.name(origin));
        match self.span(origin) {
            Some(span) => problem.at(span, label),
            None => problem,
        }
    }

    pub(crate) fn related(&self, problem: Diagnostic, origin: Origin, label: impl Into<String>) -> Diagnostic {
        match self.span(origin) {
            Some(span) => problem.also(span, label),
            None => problem,
        }
    }

    /// The name of what stands at a place in the text.
    fn name(&self, origin: Origin) -> Option<String> {
        let d = self.design;
        let joints = d.joints.values().map(|j| (&j.name, j.origin));
        let members = d.members.values().map(|m| (&m.name, m.origin));
        let stocks = d.stocks.values().map(|s| (&s.name, s.origin));
        let wheels = d.wheels.iter().map(|w| (&w.name, w.origin));
        let casters = d.casters.iter().map(|c| (&c.name, c.origin));
        let items = d.items.iter().map(|i| (&i.name, i.origin));
        let holes = d.holes.iter().map(|h| (&h.name, h.origin));
        let loads = d.loads.iter().map(|l| (&l.name, l.origin));
        let known = d.known.iter().map(|k| (&k.name, k.origin));
        let mut all = joints.chain(members).chain(stocks).chain(wheels).chain(casters);
        let mut rest = items.chain(holes).chain(loads).chain(known);
        let found = all.find(|(_, o)| *o == origin).or_else(|| rest.find(|(_, o)| *o == origin));
        found.map(|(name, _)| name.clone())
    }

    /// A part's name as it is told, and what the text calls it.
    pub(crate) fn called(&self, part: &str) -> Vec<String> {
        let own = self.part_origin(part).and_then(|o| self.name(o)).filter(|n| n != part);
        std::iter::once(part.to_owned()).chain(own).collect()
    }

    pub(crate) fn joint(&self, id: JointId) -> &str {
        &self.design.joints[id].name
    }

    pub(crate) fn member(&self, id: MemberId) -> &str {
        &self.design.members[id].name
    }

    pub(crate) fn stock(&self, id: StockId) -> &str {
        &self.design.stocks[id].name
    }

    pub(crate) fn length(&self, metres: f64) -> String {
        self.display.text(Quantity::from_si(metres, Dimension::LENGTH))
    }

    pub(crate) fn angle(&self, radians: f64) -> String {
        self.display.text(Quantity::from_si(radians, Dimension::ANGLE))
    }

    /// A slope that the chair bears, never rounded toward unsafe.
    pub(crate) fn rounded_down(&self, radians: f64) -> String {
        format!("{:.1} deg", (radians.to_degrees() * 10.0 + 1e-9).floor() / 10.0)
    }

    /// A shift in words: `back 12.0 mm, up 3.0 mm`.
    pub(crate) fn shift(&self, v: Vec3) -> String {
        let parts = [(v.x, "forward", "back"), (v.y, "left", "right"), (v.z, "up", "down")];
        let words: Vec<String> = parts
            .into_iter()
            .filter(|(d, ..)| d.abs() >= 0.000_05)
            .map(|(d, plus, minus)| format!("{} {}", if d > 0.0 { plus } else { minus }, self.length(d.abs())))
            .collect();
        if words.is_empty() { "not at all".to_owned() } else { words.join(", ") }
    }

    pub(crate) fn cost(&self, problem: &Cost, book: Option<Span>) -> Diagnostic {
        match problem {
            Cost::MissingPrice { key, origin, nearest } => {
                let said = Diagnostic::new("missing-price", format!("no price for \"{key}\""))
                    .note("the total can only say \"at least\"");
                let said = match origin {
                    Some(origin) => self.placed(said, *origin, "needed here"),
                    None => said,
                };
                match nearest {
                    Some(near) => said.help(format!("add a row for it to the price book; it has \"{near}\"")),
                    None => said.help("add a row for it to the price book"),
                }
            }
            Cost::LongerThanStock { piece, origin, need, longest, stock } => {
                let size = |(a, b): (f64, Option<f64>)| match b {
                    Some(b) => format!("{} x {}", self.length(a), self.length(b)),
                    None => self.length(a),
                };
                let said = Diagnostic::new(
                    "longer-than-stock",
                    format!("`{piece}` is larger than what is sold"),
                )
                .note(format!("it needs {}; \"{stock}\" is sold in {}", size(*need), size(*longest)))
                .help("shorten it, join it with a coupling or a splice, or add a longer one to the price book");
                match origin {
                    Some(origin) => self.placed(said, *origin, format!("{piece} is cut from this")),
                    None => said,
                }
            }
            other => book_problem(other, book.map_or(SourceId(0), |s| s.source)),
        }
    }

    /// A demand that is not met or cannot be told.
    pub(crate) fn verdict(&self, verdict: &Verdict, figures: &Figures, bill: &Bill) -> Option<Diagnostic> {
        match verdict.holds {
            Some(_) if is_open(verdict, bill) => Some(self.open_total(verdict, bill)),
            Some(true) => None,
            Some(false) => Some(self.unmet(verdict)),
            None => Some(self.untold(verdict, figures)),
        }
    }

    fn open_total(&self, verdict: &Verdict, bill: &Bill) -> Diagnostic {
        let mut said = Diagnostic::new("cannot-tell", "the cost is only known from below");
        said.about.extend(verdict.uses.iter().cloned());
        said = said.at(verdict.span, "holds for what has a price");
        if !bill.unpriced.is_empty() {
            said = said
                .note(format!("without a price: {}", bill.unpriced.join(", ")))
                .help("add the missing rows to the price book");
        }
        for used in &bill.used_up {
            said = said
                .note(format!("nobody says how much of it is bought: {} ({})", used.key, used.needed()))
                .help(format!("write supply \"{}\" times 1, or how many it takes", used.key));
        }
        said
    }

    fn unmet(&self, verdict: &Verdict) -> Diagnostic {
        let code = if verdict.required { "requirement-unmet" } else { "preference-unmet" };
        let word = if verdict.required { "requirement" } else { "preference" };
        let mut problem = match &verdict.comparison {
            Some(c) => {
                let (left, right) = self.apart(c.left_value, c.right_value);
                // a slope that tips the chair is told as its own findings tell it
                let slope = c.figure_left && c.wants_more && c.left_value.dimension == Dimension::ANGLE;
                let tips = slope && verdict.uses.iter().any(|name| name.starts_with("tip."));
                let left = if tips { self.rounded_down(c.left_value.si()) } else { left };
                let gap = Quantity { number: c.left_value.number.sub(c.right_value.number), ..c.left_value };
                let size = Quantity::from_si(gap.si().abs(), gap.dimension);
                let size = if c.left_value.dimension.reading {
                    Quantity { dimension: Dimension::INTERVAL, ..size }
                } else {
                    size
                };
                let gap = self.apart(size, Quantity { number: chairwright_quantity::Number::ZERO, ..size }).0;
                let more = if c.wants_more { "too little" } else { "too much" };
                Diagnostic::new(code, format!("this {word} is not met: {left} against {right}"))
                    .at(verdict.span, format!("{gap} {more}"))
            }
            None => {
                Diagnostic::new(code, format!("this {word} is not met")).at(verdict.span, "this does not hold")
            }
        };
        if let Some(within) = &verdict.within {
            problem.headline = format!("`{within}`: {}", problem.headline);
        }
        if let Some(reason) = &verdict.reason {
            problem = problem.note(format!("asked for because: {reason}"));
        }
        if let Some(figure) = verdict.uses.first() {
            problem = problem.help(format!("to see where it comes from: chairwright figures FILE {figure}"));
        }
        problem
    }

    /// Two values in enough decimals to tell them apart.
    fn apart(&self, a: Quantity, b: Quantity) -> (String, String) {
        let (x, y) = (self.display.text(a), self.display.text(b));
        if x != y {
            return (x, y);
        }
        let exact = |q: Quantity| match q.dimension {
            Dimension::ANGLE => format!("{:.4} deg", q.si() * 180.0 / std::f64::consts::PI),
            Dimension::LENGTH => format!("{:.4} mm", q.si() * 1e3),
            other => format!("{:.6} {other}", q.si()),
        };
        (exact(a), exact(b))
    }

    /// What a figure may be waiting for.
    pub(crate) fn what_is_missing(&self) -> String {
        self.lacks().unwrap_or_else(|| {
            "mend what is reported beside this; the rider, the seat and the wheels must be complete".to_owned()
        })
    }

    /// What no chair does without, and this one does.
    fn lacks(&self) -> Option<String> {
        let d = self.design;
        let seat = d.supports.iter().any(|s| s.kind == chairwright_design::SupportKind::Seat);
        let missing: Vec<&str> = [
            (d.wheels.len() >= 2, "two wheels"),
            (!d.casters.is_empty(), "a caster"),
            (seat, "a seat"),
            (d.rider.given, "a rider"),
        ]
        .into_iter()
        .filter(|(there, _)| !there)
        .map(|(_, what)| what)
        .collect();
        match missing.as_slice() {
            [] => None,
            [rest @ .., last] if !rest.is_empty() => {
                Some(format!("the design still lacks {} and {last}", rest.join(", ")))
            }
            _ => Some(format!("the design still lacks {}", missing.join(", "))),
        }
    }

    fn untold(&self, verdict: &Verdict, figures: &Figures) -> Diagnostic {
        let mut problem = Diagnostic::new("cannot-tell", "this demand cannot be judged");
        problem.about.extend(verdict.uses.iter().cloned());
        problem = match verdict.missing.first() {
            Some(missing) => {
                let known = figures.0.keys().map(String::as_str);
                let problem = problem.at(verdict.span, format!("`{missing}` could not be computed"));
                let wanted = crate::wanted::wanted(self.design, missing);
                if !wanted.is_empty() {
                    let measure = || {
                        format!("measure the rider and add {} = … to the rider block", wanted.join(" = …, "))
                    };
                    let problem = problem.note(format!("it is worked out from {}", wanted.join(", ")));
                    let problem = problem.help(self.lacks().unwrap_or_else(measure));
                    return if verdict.required { problem } else { problem.severity(Severity::Warning) };
                }
                match nearest(missing, known) {
                    Some(meant) => problem.help(format!("did you mean {meant}?")),
                    None => problem.help(self.what_is_missing()),
                }
            }
            None => match verdict.partial.first() {
                Some(name) => problem
                    .at(verdict.span, format!("of what belongs to `{name}`, not everything could be judged"))
                    .note("what could be judged meets it")
                    .help("see what could not be told under \"does it hold\" in the report, and why"),
                None => problem.at(verdict.span, "it has no value"),
            },
        };
        if verdict.required { problem } else { problem.severity(Severity::Warning) }
    }
}

/// Problems inside the price book.
pub(crate) fn book_problem(problem: &Cost, source: SourceId) -> Diagnostic {
    match problem {
        Cost::BadRow { start, end, why } => {
            Diagnostic::new("bad-price-row", "this row of the price book cannot be read")
                .at(Span::new(source, *start, *end), why.clone())
                .help("for example: tee 1 in,tee,each,1,2.60,USD,plumber,2026-03-02")
        }
        Cost::PricedTwice { key, again, first, prices } => {
            let span = |(start, end): (usize, usize)| Span::new(source, start, end);
            Diagnostic::new(
                "priced-twice",
                format!("\"{key}\" stands in the price book twice, sold in the same way"),
            )
            .at(span(*again), format!("again here, for {}", prices.0))
            .also(span(*first), format!("first here, for {}", prices.1))
            .note("the bill takes the cheaper one")
            .help("take out the row that holds no longer")
        }
        Cost::MixedCurrencies { start, end, first, second } => {
            Diagnostic::new("mixed-currencies", format!("the price book is in {first}, this row in {second}"))
                .at(Span::new(source, *start, *end), second.clone())
                .note("money never converts by itself: a rate has a date")
                .help("convert the price yourself and note the rate in the description")
        }
        _ => Diagnostic::new("bad-price-row", "the price book cannot be read"),
    }
}

/// A whole design that names no price book.
pub(crate) fn no_book() -> Diagnostic {
    Diagnostic::new("missing-price", "this design names no price book")
        .note("nothing can be priced, and how things are sold is assumed")
        .help("name one: prices \"shop.csv\"")
}
