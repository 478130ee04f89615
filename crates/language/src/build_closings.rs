//! How joints are closed and things are fastened, as the text says.

use crate::build::{Builder, plain};
use crate::evaluator::Env;
use crate::scope::{DeclKind, text_of};
use crate::value::{Outcome, Silent};
use chairwright_design::{
    Closing, ClosingKind, Drive, Fastening, JointId, Lap, Made, Member, MemberId, Placing, Vec3,
};
use chairwright_diagnostics::Diagnostic;
use chairwright_syntax::{Clause, Entry, Expr, ExprKind};

impl<'a> Builder<'_, 'a> {
    pub(crate) fn fastener_list(&self, entry: &'a Entry, env: &Env) -> Outcome<Vec<(String, u32)>> {
        let times = self.count(entry, env)?;
        let Some(clause) = Self::clause(entry, "using") else { return Ok(Vec::new()) };
        Ok(clause.values.iter().filter_map(|v| text_of(Some(v))).map(|t| (t.to_owned(), times)).collect())
    }

    /// A closing that could not be read still closes its joint, so that nothing else complains of it.
    pub(crate) fn unread_closing(&mut self, entry: &'a Entry, env: &Env) -> Outcome<()> {
        self.partial = true;
        let joint = self.joint_id(entry.subject.as_ref().ok_or(Silent)?, env)?;
        let origin = self.origin(entry.head);
        let kind = ClosingKind::Free("not read, see the findings".to_owned());
        self.design.closings.push(Closing {
            joint,
            kind,
            fasteners: Vec::new(),
            glue: None,
            placing: None,
            drive: Drive::Drilled,
            made: Made::default(),
            origin,
        });
        Ok(())
    }

    pub(crate) fn close(&mut self, entry: &'a Entry, env: &Env) -> Outcome<()> {
        let joint = self.joint_id(entry.subject.as_ref().ok_or(Silent)?, env)?;
        let with = &Self::clause(entry, "with").ok_or(Silent)?.values[0];
        let needs = |word: &str| match Self::clause(entry, word) {
            Some(clause) => self.member_id(&clause.values[0], env),
            None => {
                self.say(
                    Diagnostic::new("missing-clause", format!("this closing lacks its `{word}`"))
                        .at(entry.head, format!("no {word} …"))
                        .help(format!("say which member: {word} …")),
                );
                Err(Silent)
            }
        };
        let kind = match (&with.kind, plain(with).as_str()) {
            (ExprKind::Text(_) | ExprKind::Binary(..), _) => ClosingKind::Fitting(self.sold_fitting(with)?),
            (_, "lap") => {
                let toward = self.toward(entry, env)?.ok_or_else(|| {
                    self.say(
                        Diagnostic::new("missing-clause", "a lap says on which side the member lies")
                            .at(entry.head, "no toward …")
                            .help("add toward outward, or another direction"),
                    );
                    Silent
                })?;
                ClosingKind::Lap(Lap { member: needs("of")?, toward })
            }
            (_, "butt") => ClosingKind::Butt { member: needs("of")?, against: needs("against")? },
            (_, "gusset") => ClosingKind::Gusset {
                member: needs("of")?,
                against: needs("against")?,
                stock: self.stock_of(entry, env)?,
                size: (self.size(entry, "size", env)?, self.size(entry, "by", env)?),
            },
            (_, "open") => ClosingKind::Free("left open on purpose".to_owned()),
            _ => return Err(Silent),
        };
        let glue = Self::clause(entry, "glued").and_then(|c| text_of(c.values.first())).map(str::to_owned);
        let faces = if matches!(kind, ClosingKind::Gusset { .. }) { 4 } else { 1 };
        let (fasteners, placing) = self.held_by(entry, faces, env);
        let origin = self.origin(entry.head);
        self.placed_clauses(entry, &kind);
        let made = self.made(entry, joint, env);
        let drive = self.drive(entry, matches!(kind, ClosingKind::Butt { .. }));
        self.design.closings.push(Closing { joint, kind, fasteners, glue, placing, drive, made, origin });
        Ok(())
    }

    /// Says which measures of a joint tell nothing of one that is closed like this.
    fn placed_clauses(&self, entry: &'a Entry, kind: &ClosingKind) {
        let idle: &[(&str, &str)] = match kind {
            ClosingKind::Fitting(_) => &[],
            ClosingKind::Free(_) => &[
                ("inserted", "an open end is in no socket"),
                ("stiffness", "an open end holds nothing"),
                ("sprung", "an open end is not closed"),
            ],
            _ => &[("inserted", "there is no socket here")],
        };
        for (word, why) in idle {
            if let Some(clause) = Self::clause(entry, word) {
                let headline = format!("`{word}` tells nothing of a joint that is closed like this");
                self.say(
                    Diagnostic::new("unknown-clause", headline).at(clause.span, *why).help("leave it out"),
                );
            }
        }
    }

    /// What was measured of a joint as it was made. What could not be read of one figure takes nothing from the others.
    fn made(&self, entry: &'a Entry, joint: JointId, env: &Env) -> Made {
        let given = |word: &str| Self::clause(entry, word).and_then(|_| self.size(entry, word, env).ok());
        let bent = Self::clause(entry, "sprung").and(Self::clause(entry, "of"));
        Made {
            stiffness: self.turning(entry, env).ok().flatten(),
            inserted: given("inserted"),
            sprung: given("sprung"),
            bent: bent.and_then(|c| self.ending_here(c, joint, env)),
        }
    }

    /// The member whose end was bent aside to close a joint; one that does not end there was none.
    fn ending_here(&self, clause: &'a Clause, joint: JointId, env: &Env) -> Option<MemberId> {
        let id = self.member_id(&clause.values[0], env).ok()?;
        let ends = |m: &Member| m.start == joint || m.end == joint;
        let member = &self.design.members[id];
        if ends(member) {
            return Some(id);
        }
        let here: Vec<&str> =
            self.design.members.values().filter(|m| ends(m)).map(|m| m.name.as_str()).collect();
        let at = &self.design.joints[joint].name;
        self.say(
            Diagnostic::new("unknown-clause", format!("`{}` does not end at `{at}`", member.name))
                .at(clause.span, "no end of it was bent to close this joint")
                .help(format!("name one that ends here: {}", here.join(", "))),
        );
        None
    }

    /// The fasteners of a statement and where they sit. What could not be read leaves the rest of it standing: what is
    /// joined is still joined, and nothing that hangs on the fasteners is told of this design.
    fn held_by(&mut self, entry: &'a Entry, faces: u32, env: &Env) -> (Vec<(String, u32)>, Option<Placing>) {
        let Ok(fasteners) = self.fastener_list(entry, env) else {
            self.partial = true;
            return (Vec::new(), None);
        };
        self.load_fasteners(&fasteners);
        let placing = self.placing(entry, &fasteners, faces, env);
        self.partial |= placing.is_err();
        (fasteners, placing.ok().flatten())
    }

    /// How fasteners are driven: aslant only where a piece stops at the side of another.
    fn drive(&self, entry: &'a Entry, butt: bool) -> Drive {
        let Some(clause) = Self::clause(entry, "driven") else { return Drive::Drilled };
        let word = clause.values.first().and_then(|v| match &v.kind {
            ExprKind::Name(path) => Some(path.text()),
            _ => None,
        });
        match word.as_deref() {
            Some("undrilled") => Drive::Undrilled,
            Some("slanted") => {
                if !butt {
                    let headline = "only where a piece stops at the side of another are nails driven aslant";
                    self.say(
                        Diagnostic::new("unknown-clause", headline.to_owned())
                            .at(clause.span, "not a butt")
                            .help("leave it out, or close the joint with butt of … against …"),
                    );
                }
                Drive::Slanted
            }
            _ => Drive::Drilled,
        }
    }

    /// The stiffness of a joint against turning, N·m/rad, more than nothing.
    fn turning(&self, entry: &'a Entry, env: &Env) -> Outcome<Option<f64>> {
        let found = self.si(entry, "stiffness", env)?;
        if found.is_none_or(|k| k > 0.0) {
            return Ok(found);
        }
        let span = Self::clause(entry, "stiffness").map_or(entry.head, |c| c.span);
        self.say(
            Diagnostic::new("not-positive", "`stiffness` must be more than zero")
                .at(span, "a joint that turns freely is a lap or a butt with one bolt"),
        );
        Err(Silent)
    }

    /// The first fitting that the price book sells; the first of all when it sells none of them.
    fn sold_fitting(&self, with: &Expr) -> Outcome<String> {
        let mut names = Vec::new();
        fitting_names(with, &mut names);
        for name in &names {
            self.evaluator.find_entry("fitting", name, with.span)?;
        }
        let sold = names.iter().find(|n| self.evaluator.is_priced(n));
        let name = sold.or_else(|| names.first()).ok_or(Silent)?;
        if names.len() > 1 {
            let why =
                if sold.is_some() { "the price book sells it" } else { "the price book sells none of them" };
            self.assume(format!("of {} the first that is sold was wanted: {name} ({why})", names.join(", ")));
        }
        Ok((*name).to_owned())
    }

    pub(crate) fn fasten(&mut self, entry: &'a Entry, env: &Env) -> Outcome<()> {
        let what = self.thing(entry.subject.as_ref().ok_or(Silent)?, env)?;
        let to = self.thing(&Self::clause(entry, "to").ok_or(Silent)?.values[0], env)?;
        let (fasteners, placing) = self.held_by(entry, 1, env);
        let at = self.middle_of(&what).or_else(|| self.middle_of(&to)).unwrap_or(Vec3::ZERO);
        let origin = self.origin(entry.head);
        let drive = self.drive(entry, false);
        self.design.fastenings.push(Fastening { what, to, fasteners, placing, drive, at, origin });
        Ok(())
    }

    /// The full name of any drawn thing.
    pub(crate) fn thing(&self, expr: &Expr, env: &Env) -> Outcome<String> {
        let ExprKind::Name(path) = &expr.kind else {
            self.say(
                Diagnostic::new("wrong-kind", "the name of a drawn thing is wanted here")
                    .at(expr.span, "not a name"),
            );
            return Err(Silent);
        };
        let text = path.text();
        if ["seat", "back", "footrest"].contains(&text.as_str()) {
            return Ok(text.to_string());
        }
        match self.evaluator.resolve(path, env)? {
            crate::resolve::Meaning::Decl(decl)
                if !matches!(decl.kind, DeclKind::Param | DeclKind::Let | DeclKind::Stock | DeclKind::Part) =>
            {
                Ok(self.evaluator.key(&decl).to_string())
            }
            _ => {
                self.say(Diagnostic::new("wrong-kind", "the name of a drawn thing is wanted here").at(
                    path.span,
                    "a member, panel, box, wheel, caster, item, seat, back, footrest or armrest",
                ));
                Err(Silent)
            }
        }
    }

    pub(crate) fn middle_of(&self, name: &str) -> Option<Vec3> {
        let d = &self.design;
        let joints = &d.joints;
        d.members
            .values()
            .find(|m| m.name == name)
            .map(|m| joints[m.start].at.mix(joints[m.end].at, 0.5))
            .or_else(|| d.panels.iter().find(|p| p.name == name).map(|p| middle(&p.corners)))
            .or_else(|| d.boxes.iter().find(|b| b.name == name).map(|b| b.start.mix(b.end, 0.5)))
            .or_else(|| d.supports.iter().find(|s| s.name == name).map(|s| s.from.mix(s.to, 0.5)))
    }
}

fn fitting_names<'e>(expr: &'e Expr, out: &mut Vec<&'e str>) {
    match &expr.kind {
        ExprKind::Text(name) => out.push(name),
        ExprKind::Binary(_, l, r) => {
            fitting_names(l, out);
            fitting_names(r, out);
        }
        _ => {}
    }
}

fn middle(points: &[Vec3]) -> Vec3 {
    let sum = points.iter().fold(Vec3::ZERO, |s, p| s + *p);
    #[allow(clippy::cast_precision_loss)]
    let n = points.len().max(1) as f64;
    sum * (1.0 / n)
}
