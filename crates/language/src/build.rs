//! From checked statements to the plain data of one design.

use crate::build_tables::Tables;
use crate::evaluator::{Env, Evaluator};
use crate::schema::Kind;
use crate::scope::{Placed, text_of};
use crate::value::{Outcome, Silent, Value};
use chairwright_design::{
    Design, Joint, JointId, Member, MemberId, MidJoint, Origin, Side, Sleeve, SupportKind, Vec3,
};
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_syntax::{Clause, Entry, Expr, ExprKind};
use indexmap::IndexMap;
use smol_str::SmolStr;

/// A joint nearer than this to a member's line lies on it.
const ON_LINE: f64 = 0.000_5;

pub(crate) struct Builder<'e, 'a> {
    pub evaluator: &'e Evaluator<'a>,
    pub design: Design,
    pub origins: Vec<Span>,
    pub(crate) joints: IndexMap<SmolStr, JointId>,
    pub(crate) members: IndexMap<SmolStr, MemberId>,
    pub(crate) stocks: IndexMap<String, chairwright_design::StockId>,
    /// Whether something that the frame hangs on could not be read, and is missing or stands in part.
    pub(crate) partial: bool,
}

/// Statements that the frame hangs on beside its members and wheels: what one of them lacks looks loose.
const FRAME: [&str; 8] = ["panel", "box", "sleeve", "close", "fasten", "seat", "back", "footrest"];

impl<'e, 'a> Builder<'e, 'a> {
    pub(crate) fn new(evaluator: &'e Evaluator<'a>) -> Builder<'e, 'a> {
        Builder {
            evaluator,
            design: Design::default(),
            origins: Vec::new(),
            joints: IndexMap::new(),
            members: IndexMap::new(),
            stocks: IndexMap::new(),
            partial: false,
        }
    }

    pub(crate) fn say(&self, problem: Diagnostic) {
        self.evaluator.say(problem);
    }

    pub(crate) fn origin(&mut self, span: Span) -> Origin {
        self.origins.push(span);
        Origin(u32::try_from(self.origins.len() - 1).unwrap_or(u32::MAX))
    }

    /// The place in the text that an origin stands for.
    pub(crate) fn place_of(&self, origin: Origin) -> Option<Span> {
        self.origins.get(origin.0 as usize).copied()
    }

    /// Builds everything; a statement that fails leaves out only itself.
    pub(crate) fn all(&mut self, kept: &Tables) {
        self.people_and_place();
        self.tables(kept);
        self.replaced();
        let scope = self.evaluator.scope;
        for placed in scope.placed.iter().filter(|p| p.spec.keyword == "units" && !p.ghost) {
            self.units(placed.entry);
        }
        let order = ["joint", "member", "sleeve", "panel", "box", "close"];
        for keyword in order {
            for placed in scope.placed.iter().filter(|p| p.spec.keyword == keyword && !p.ghost) {
                self.one_named(placed);
            }
            if keyword == "member" {
                self.meet();
            }
        }
        // what is fastened must be drawn by then, wherever it stands in the text
        for last in [false, true] {
            let now =
                |p: &&Placed<'a>| !order.contains(&p.spec.keyword) && (p.spec.keyword == "fasten") == last;
            for placed in scope.placed.iter().filter(|p| now(p) && !p.ghost) {
                self.one_named(placed);
            }
        }
        if self.design.rider.given && !self.design.stocks.is_empty() {
            self.shelf(kept);
        }
    }

    fn one_named(&mut self, placed: &Placed<'a>) {
        let before = self.evaluator.problems.borrow().len();
        self.partial |= self.one(placed).is_err() && FRAME.contains(&placed.spec.keyword);
        self.evaluator.name_fitting(placed.room, before);
    }

    fn one(&mut self, placed: &Placed<'a>) -> Outcome<()> {
        let (entry, env) = (placed.entry, Env::on(placed.room));
        self.evaluator.statement.set(Some(entry.head));
        match placed.spec.keyword {
            "design" => {
                let name = crate::scope::declared_name(entry).map(|(n, _)| n.to_string());
                self.design.name = name.unwrap_or_default();
                self.design.purpose.clone_from(&entry.doc);
            }
            "revision" => self.design.revision = entry.subject.as_ref().map(plain),
            "licence" => self.design.licence = text_of(entry.subject.as_ref()).map(str::to_owned),
            "profile" => self.profile(entry)?,
            "hole" => self.hole(placed, &env)?,
            "load" => self.load(placed, &env)?,
            "fit_rules" => self.fit_rules(entry)?,
            "deviation" => self.deviation(entry)?,
            "carry" => self.carry(placed, &env)?,
            "as_built" => self.as_built(entry)?,
            "baseline" => self.baseline(entry)?,
            "param" | "adjust" => self.param(placed)?,
            "joint" => self.joint(placed)?,
            "member" => self.member(placed, &env)?,
            "sleeve" => self.sleeve(entry, &env)?,
            "panel" => self.panel(placed, &env)?,
            "box" => self.box_beam(placed, &env)?,
            "close" => self.close(entry, &env).or_else(|_| self.unread_closing(entry, &env))?,
            "fasten" => self.fasten(entry, &env)?,
            "seat" | "back" | "footrest" if crate::check::is_blank_name(entry) => {}
            "seat" => self.support(entry, SupportKind::Seat)?,
            "back" => self.support(entry, SupportKind::Back)?,
            "footrest" => self.support(entry, SupportKind::Footrest)?,
            "armrest" => self.armrest(placed, &env)?,
            "wheel" => self.wheel(placed, &env)?,
            "caster" => self.caster(placed, &env)?,
            "brake" | "axle" | "item" => self.item(placed, &env)?,
            "supply" => self.supply(entry, &env)?,
            _ => {}
        }
        Ok(())
    }

    pub(crate) fn full(&self, placed: &Placed<'a>) -> Outcome<SmolStr> {
        let (name, _) = crate::scope::declared_name(placed.entry).ok_or(Silent)?;
        Ok(self.evaluator.scope.full(placed.room, &name))
    }

    pub(crate) fn side(&self, placed: &Placed<'a>) -> Option<Side> {
        self.evaluator.scope.side(placed.room)
    }

    pub(crate) fn clause(entry: &'a Entry, word: &str) -> Option<&'a Clause> {
        crate::words::clause(entry, word)
    }

    pub(crate) fn place(&self, entry: &'a Entry, word: &str, env: &Env) -> Outcome<Vec3> {
        let clause = Self::clause(entry, word).ok_or(Silent)?;
        self.evaluator.infer_place(&clause.values, env)?;
        self.evaluator.place(&clause.values, env)
    }

    /// The place of what rides along, where a chair reaches to.
    pub(crate) fn place_near(&self, entry: &'a Entry, name: &str, env: &Env) -> Outcome<Vec3> {
        let at = self.place(entry, "at", env)?;
        let span = Self::clause(entry, "at").map_or(entry.head, |c| c.span);
        self.evaluator.reached(name, at, span)?;
        Ok(at)
    }

    /// A quantity clause in SI units.
    pub(crate) fn si(&self, entry: &'a Entry, word: &str, env: &Env) -> Outcome<Option<f64>> {
        let Some(clause) = Self::clause(entry, word) else { return Ok(None) };
        let value = clause.values.first().ok_or(Silent)?;
        let got = self.evaluator.infer(value, env);
        // of another dimension, or of none: that has been said, and a wrong size is not drawn
        if got == crate::value::Type::Bad || wanted(entry, word).is_some_and(|d| got.dimension() != Some(d)) {
            return Err(Silent);
        }
        self.evaluator.quantity(value, env).map(|q| Some(q.si()))
    }

    /// A length clause that must be there and more than zero.
    pub(crate) fn size(&self, entry: &'a Entry, word: &str, env: &Env) -> Outcome<f64> {
        let value = self.si(entry, word, env)?.ok_or(Silent)?;
        if value > 0.0 {
            return Ok(value);
        }
        let span = Self::clause(entry, word).map_or(entry.head, |c| c.span);
        self.say(
            Diagnostic::new("not-positive", format!("`{word}` must be more than zero"))
                .at(span, format!("this comes to {:.1} mm", value * 1e3)),
        );
        Err(Silent)
    }

    fn param(&mut self, placed: &Placed<'a>) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?;
        let decl = self.evaluator.scope.names.get(&name).copied().ok_or(Silent)?;
        let value = self.evaluator.eval_decl(&decl, decl.name_span)?;
        let range = match Self::clause(entry, "within") {
            Some(clause) => {
                let env = Env::on(placed.room);
                if self.evaluator.infer(&clause.values[0], &env) == crate::value::Type::Bad {
                    return Err(Silent);
                }
                self.evaluator.eval(&clause.values[0], &env).ok()
            }
            None => None,
        };
        if let (Some(Value::Band { low, high, .. }), Some(q)) = (&range, value.quantity()) {
            self.within(entry, &name, q, (*low, *high));
        }
        let display = self.display();
        let text = |v: &Value| v.quantity().map_or_else(|| "—".to_owned(), |q| display.text(q));
        let range_text = match &range {
            Some(Value::Band { low, high, .. }) => {
                Some(format!("{} .. {}", display.text(*low), display.text(*high)))
            }
            _ => None,
        };
        let stops = self.stops(entry, &value, &range)?;
        let dial = self.dial(entry, &value, &range);
        self.know(&name, Some(entry), &value);
        let given = self.evaluator.scope.given.get(&name).map_or(chairwright_design::GivenBy::Plan, |g| g.by);
        self.design.params.push(chairwright_design::Param {
            stops,
            value: text(&value),
            si: value.quantity().map(chairwright_quantity::Quantity::si),
            range: range_text,
            doc: entry.doc.clone(),
            unit: value.quantity().map(|q| q.dimension.to_string()),
            given,
            changed: given.is_asked(),
            dial,
            name: name.to_string(),
        });
        Ok(())
    }

    fn within(
        &self,
        entry: &'a Entry,
        name: &SmolStr,
        value: chairwright_quantity::Quantity,
        (low, high): (chairwright_quantity::Quantity, chairwright_quantity::Quantity),
    ) {
        use std::cmp::Ordering::{Greater, Less};
        let outside = value.compare(low) == Some(Less) || value.compare(high) == Some(Greater);
        if !outside {
            return;
        }
        let display = self.display();
        let near = if value.compare(low) == Some(Less) { low } else { high };
        let given = self.evaluator.scope.given.get(name).map(|g| g.value.span);
        let own = entry.value.as_deref().and_then(<[Expr]>::first).map_or(entry.head, |e| e.span);
        let span = given.unwrap_or(own);
        let mut problem = Diagnostic::new("out-of-range", format!("`{name}` is outside its range"))
            .at(span, format!("this comes to {}", display.text(value)))
            .help(format!("the nearest value in range is {}", display.text(near)));
        if let Some(clause) = Self::clause(entry, "within") {
            problem =
                problem.also(clause.span, format!("from {} to {}", display.text(low), display.text(high)));
        }
        self.say(problem);
    }

    pub(crate) fn display(&self) -> chairwright_quantity::Display {
        chairwright_quantity::Display::new(self.design.inches, self.design.fraction)
    }

    fn joint(&mut self, placed: &Placed<'a>) -> Outcome<()> {
        let name = self.full(placed)?;
        let decl = self.evaluator.scope.names.get(&name).copied().ok_or(Silent)?;
        let Value::Point(at) = self.evaluator.eval_decl(&decl, decl.name_span)? else { return Err(Silent) };
        let origin = self.origin(decl.name_span);
        let id = self.design.joints.push(Joint { name: name.to_string(), at, origin });
        self.joints.insert(name, id);
        Ok(())
    }

    pub(crate) fn joint_id(&self, expr: &Expr, env: &Env) -> Outcome<JointId> {
        let decl = self.evaluator.joint(expr, env)?;
        self.joints.get(&self.evaluator.key(&decl)).copied().ok_or(Silent)
    }

    pub(crate) fn member_id(&self, expr: &Expr, env: &Env) -> Outcome<MemberId> {
        let ExprKind::Name(path) = &expr.kind else { return Err(Silent) };
        let decl = self.evaluator.member(path, env)?;
        self.members.get(&self.evaluator.key(&decl)).copied().ok_or(Silent)
    }

    fn member(&mut self, placed: &Placed<'a>, env: &Env) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?;
        let stock = self.stock_of(entry, env)?;
        let end = |word| self.joint_id(&Self::clause(entry, word).ok_or(Silent)?.values[0], env);
        let (start, end) = (end("from")?, end("to")?);
        self.shape_is(entry, stock, "pipe, tube, rod or board")?;
        let turned = self.si(entry, "turned", env)?.unwrap_or(0.0);
        let offset = self.offset(entry, env)?;
        let gap = self.design.joints[end].at - self.design.joints[start].at;
        let span = crate::scope::declared_name(entry).map_or(entry.head, |(_, s)| s);
        if gap.norm() < 1e-6 {
            self.say(
                Diagnostic::new("zero-member", format!("`{name}` has no length"))
                    .at(span, "both ends are in one place")
                    .help("move one of its joints"),
            );
            return Err(Silent);
        }
        let origin = self.origin(span);
        let side = self.side(placed);
        let member = Member {
            name: name.to_string(),
            side,
            stock,
            start,
            end,
            middle: Vec::new(),
            offset,
            turned,
            sleeves: Vec::new(),
            origin,
        };
        let id = self.design.members.push(member);
        self.members.insert(name, id);
        Ok(())
    }

    /// Joints that lie along a member's line, between its ends, belong to it.
    fn meet(&mut self) {
        let joints: Vec<(JointId, Vec3)> = self.design.joints.iter().map(|(id, j)| (id, j.at)).collect();
        let ids: Vec<MemberId> = self.design.members.iter().map(|(id, _)| id).collect();
        for id in ids {
            let member = &self.design.members[id];
            let (a, b) = (self.design.joints[member.start].at, self.design.joints[member.end].at);
            let Some(way) = (b - a).unit() else { continue };
            let length = (b - a).norm();
            let mut middle: Vec<MidJoint> = joints
                .iter()
                .filter(|(j, _)| *j != member.start && *j != member.end)
                .filter_map(|(joint, at)| {
                    let along = (*at - a).dot(way);
                    let off = (*at - a).across(way).norm();
                    let inside = along > ON_LINE && along < length - ON_LINE;
                    (off <= ON_LINE && inside).then_some(MidJoint { joint: *joint, along })
                })
                .collect();
            middle.sort_by(|x, y| x.along.total_cmp(&y.along));
            self.design.members[id].middle = middle;
        }
    }

    fn sleeve(&mut self, entry: &'a Entry, env: &Env) -> Outcome<()> {
        let member = self.member_id(entry.subject.as_ref().ok_or(Silent)?, env)?;
        let stock = self.stock_of(entry, env)?;
        let over = self.size(entry, "over", env)?;
        let (m, joints) = (&self.design.members[member], &self.design.joints);
        let length = (joints[m.end].at - joints[m.start].at).norm();
        let from_end = match Self::clause(entry, "from") {
            Some(clause) => {
                let from = self.joint_id(&clause.values[0], env)?;
                if from != m.start && from != m.end {
                    let ends = [m.start, m.end].map(|j| joints[j].name.clone());
                    self.say(
                        Diagnostic::new("off-member", "a sleeve begins at an end of its member")
                            .at(clause.span, format!("`{}` is none of its ends", joints[from].name))
                            .help(format!("write from {} or from {}", ends[0], ends[1])),
                    );
                    return Err(Silent);
                }
                from == m.end
            }
            None => false,
        };
        if over > length + 1e-9 {
            let span = Self::clause(entry, "over").map_or(entry.head, |c| c.span);
            self.say(
                Diagnostic::new("off-member", "this sleeve is longer than its member")
                    .at(span, format!("{:.1} mm", over * 1e3))
                    .help(format!("the member is {:.1} mm long", length * 1e3)),
            );
            return Err(Silent);
        }
        let (start, end) = if from_end { (length - over, length) } else { (0.0, over) };
        let shim = Self::clause(entry, "shimmed").and_then(|c| text_of(c.values.first())).map(str::to_owned);
        let shim = shim.filter(|s| !s.trim().is_empty());
        let origin = self.origin(entry.head);
        self.design.members[member].sleeves.push(Sleeve { stock, start, end, shim, origin });
        Ok(())
    }

    /// The `times` clause as a whole number, 1 when it is not there.
    pub(crate) fn count(&self, entry: &'a Entry, env: &Env) -> Outcome<u32> {
        Ok(self.whole(entry, "times", env)?.unwrap_or(1))
    }

    /// A clause that counts, where it is there.
    pub(crate) fn whole(&self, entry: &'a Entry, word: &str, env: &Env) -> Outcome<Option<u32>> {
        let Some(times) = self.si(entry, word, env)? else { return Ok(None) };
        if (1.0..=1000.0).contains(&times) && times.fract() == 0.0 {
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            return Ok(Some(times as u32));
        }
        let span = Self::clause(entry, word).map_or(entry.head, |c| c.span);
        self.say(
            Diagnostic::new("not-positive", "a count is a whole number from 1 to 1000")
                .at(span, format!("this comes to {times}")),
        );
        Err(Silent)
    }
}

/// A text, word or number as written.
pub(crate) fn plain(expr: &Expr) -> String {
    match &expr.kind {
        ExprKind::Text(text) => text.to_string(),
        ExprKind::Name(path) => path.text().to_string(),
        ExprKind::Literal(l) => {
            l.parts.iter().filter_map(|p| p.number.as_deref()).collect::<Vec<_>>().join(" ")
        }
        _ => String::new(),
    }
}

/// The sign of a side, or zero in the middle.
/// The dimension that a clause of a statement has.
fn wanted(entry: &Entry, word: &str) -> Option<chairwright_quantity::Dimension> {
    let spec = crate::schema::statement_spec(&entry.keyword.text())?;
    match spec.clauses.iter().find(|c| c.word == word)?.kind {
        Kind::Quantity(d) | Kind::Band(d) => Some(d),
        _ => None,
    }
}

pub(crate) fn side_sign(side: Option<Side>) -> f64 {
    side.map_or(0.0, Side::sign)
}
