//! What does not hold, what only a test tells and what could not be judged, as findings.

use crate::reinforce::Reinforcement;
use crate::sides::{BOTH, folded, without_side};
use crate::words::Words;
use crate::words_loads::source_words;
use crate::words_strength::{case_words, mode_words, percent, refused_words, unknown_words};
use chairwright_design::ClosingKind;
use chairwright_diagnostics::Diagnostic;
use chairwright_strength::{
    Assumed, CaseKind, Family, Item, KERB, Lasting, Mode, Of, Reason, Refused, Strength, Unknown, Verdict, What,
};

/// What helps a bar for which nothing was proven.
pub(crate) const STOUTER: &str = "a larger section, a shorter span, another bar beside it, or a closed box";

/// Those of these items that have a sleeve with play in it.
fn loose_sleeves(s: &Strength, items: &[&Item]) -> Vec<String> {
    let loose = s.assumed.iter().filter_map(|a| match a {
        Assumed::LooseSleeve(member, ..) | Assumed::NoFiller { bar: member, .. } => Some(member.as_str()),
        _ => None,
    });
    let section = |i: &Item| i.mode.family() == Family::Section;
    folded(loose.filter(|m| items.iter().any(|i| i.name == *m && section(i))))
}

/// What the plain limit of a load that stays or is put on slowly is.
const WITH_SAFETY: &str = "under a load that stays or is put on slowly, \"surely breaks\" counts the safety that the rule of its \
                           material asks: nobody builds beyond that";

impl Words<'_> {
    /// Everything that the strength check has to say.
    pub(crate) fn strength(&self, s: &Strength, mends: &[Reinforcement]) -> Vec<Diagnostic> {
        let mut out: Vec<Diagnostic> = s.loose.iter().filter_map(|l| self.loose(l)).collect();
        out.extend(s.swings.iter().map(|w| self.swing(w)));
        out.extend(s.forbidden.iter().map(|f| self.forbidden(f)));
        out.extend(s.incompatible.iter().map(|i| self.incompatible(i)));
        out.extend(s.items.iter().filter(|i| i.verdict == Verdict::Fail).map(|i| self.failing(s, i, mends)));
        out.extend(self.open(s));
        out.extend(self.unjudged(s));
        out.extend(self.refused(s));
        out.extend(self.opened(s));
        out
    }

    fn failing(&self, s: &Strength, item: &Item, mends: &[Reinforcement]) -> Diagnostic {
        let case = &s.cases[item.case];
        let when = case_words(self.design, &case.kind);
        let joint = !matches!(item.what, What::Bar(_));
        let code = if joint { "weak-joint" } else { "overstressed" };
        let said = Diagnostic::new(code, format!("`{}` does not hold {when}", item.name));
        let label = format!("used to {} of what surely breaks it", percent(item.used.0));
        let said = self.placed(said, item.origin, label);
        let place = match item.what {
            What::Bar(Of::Member(_)) => {
                format!(", worst {} from its first joint", self.length(item.at))
            }
            _ => String::new(),
        };
        let said = said.note(format!("{}{place}: {}", mode_words(item.mode), demand_words(item)));
        let said = said.note(format!("load: {}", source_words(&case.source)));
        let said = match case.lasting {
            Lasting::Sustained | Lasting::Short => said.note(WITH_SAFETY),
            Lasting::Impact | Lasting::Repeated => said,
        };
        // a reinforcement was tried where the part fails worst, and says nothing about its other failures
        let worst = s.items.iter().find(|i| i.name == item.name && i.verdict == Verdict::Fail);
        let tried = worst.is_some_and(|w| (w.case, w.mode) == (item.case, item.mode));
        match mends.iter().find(|m| tried && m.is_for(&item.name)) {
            Some(m) => said.help(self.mend(m)),
            None => said.help(match item.what {
                What::Bar(_) => STOUTER,
                What::Joint(joint) => match self.design.closings.iter().find(|c| c.joint == joint).map(|c| &c.kind) {
                    Some(ClosingKind::Gusset { .. }) => {
                        "more or larger fasteners, larger or thicker plates, or another bar that takes this load"
                    }
                    Some(ClosingKind::Lap(_) | ClosingKind::Butt { .. }) => {
                        "more or larger fasteners further apart, wider boards that have room for them, gusset plates, or another bar that \
                         takes this load"
                    }
                    _ => "a deeper socket, a larger pipe here, or another bar that takes this load",
                },
                What::Tie(_) => "more or larger fasteners, a sleeve in the hole, or another way for this load",
            }),
        }
    }

    /// What lies between surely sound and surely broken: one finding for each kind of load.
    fn open(&self, s: &Strength) -> Vec<Diagnostic> {
        let kinds = [Lasting::Sustained, Lasting::Short, Lasting::Impact, Lasting::Repeated];
        let one = |kind: Lasting| {
            // what is open only because something is unknown has a finding of its own
            let mine = |i: &&Item| s.cases[i.case].lasting == kind && i.between();
            let all: Vec<&Item> = s.items.iter().filter(mine).collect();
            let first = all.first()?;
            let names = folded(all.iter().map(|i| i.name.as_str()));
            let headline = format!("only a test tells whether {} {}", holding(&names), under_words(kind));
            let said = Diagnostic::new("prove-by-test", headline);
            let when = case_words(self.design, &s.cases[first.case].kind);
            let label = if names.len() > 1 { format!("first of all this, {when}") } else { when };
            let said = self.placed(said, first.origin, label);
            let mut told: Vec<String> = Vec::new();
            for name in &names {
                // both sides go by the worse of them, which comes first
                let item = all.iter().find(|i| without_side(&i.name) == bare(name))?;
                told.push(format!("{name} {}", uses(item)));
            }
            let said =
                said.note(format!("share of what surely breaks it / of what is sound: {}", told.join(", ")));
            let loose = loose_sleeves(s, &all);
            let said = match loose.is_empty() {
                true => said,
                false => said.note(format!(
                    "nobody says that the play of the sleeve of {} is filled, with anything known to fill it: fill it, and write shimmed \"...\" with \
                     what",
                    loose.join(", ")
                )),
            };
            Some(said.help(test_words(kind, s)))
        };
        kinds.into_iter().filter_map(one).collect()
    }

    fn unjudged(&self, s: &Strength) -> Vec<Diagnostic> {
        // what sits badly has a finding of its own
        let own = |u: &&Unknown| matches!(u, Unknown::Held { why: Reason::Misplaced, .. });
        let mut reasons: Vec<&Unknown> = s.untold.iter().map(|u| &u.why).filter(|u| !own(u)).collect();
        reasons.sort();
        reasons.dedup();
        let one = |why: &Unknown| {
            let all: Vec<_> = s.untold.iter().filter(|u| u.why == *why).collect();
            let names = folded(all.iter().map(|u| u.name.as_str()));
            let code = if matches!(why, Unknown::Brittle(_) | Unknown::Cold(_)) {
                "brittle-cold"
            } else {
                "strength-unknown"
            };
            let said =
                Diagnostic::new(code, format!("{}: {}", unknown_words(why, self.display), listed(&names)));
            let label = if names.len() > 1 { "this among others is not judged" } else { "not judged" };
            let said = self.placed(said, all[0].origin, label);
            let said =
                if names.len() > 1 { said.note(format!("not judged: {}", names.join(", "))) } else { said };
            let said = match self.benched(why) {
                Some(stock) => said.note(format!(
                    "the test is told where \"{stock}\" is measured: measured \"{stock}\" {{ test_… }}"
                )),
                None => said,
            };
            said.help(match why {
                Unknown::Softer(_) => "do not use this board: look for rot, cracks and water, and bend the next one in the same way",
                Unknown::Brittle(_) => "warm the chair before it is used or thrown about, and test a piece of this pipe by a blow in the cold",
                Unknown::Cold(_) => "declare how cold it gets where the chair is used: conditions { coldest = 12 degC }",
                Unknown::Cloth(_) => {
                    "load it with one and a half times the rider for ten minutes, then look at every seam and end"
                }
                Unknown::Edgewise => "hold the edge that is pushed, by a sheet or cross pieces fastened along it, or take a thicker board or bar",
                Unknown::Hole => "drill a smaller hole, or use something wider there",
                Unknown::Slot => "make it a slot no longer than the bar is wide there, or holes with two of their diameters between them; or load it until it bends, twisted too",
                Unknown::Row => "leave two diameters between the holes, or drill fewer; or load it until it bends, twisted too",
                Unknown::Corners(_) | Unknown::Nobody => {
                    "load it with one and a half times what it carries for ten minutes, with nobody in the chair"
                }
                Unknown::Bench(_) => "span 12 to 100 times the height that bends, and a weight that bends it by no more than a twentieth of the span",
                Unknown::Shear(_) => {
                    "give the material a shear strength with its source, or load a piece until it breaks"
                }
                Unknown::Stiffness(_) => {
                    "give the material a modulus with its source, or load a piece and measure how far it bends"
                }
                Unknown::Wet(_) => "keep the chair dry or out of the heat, or give the allowance its share when wet",
                Unknown::Held { why: Reason::NoRoom { .. }, .. } => {
                    "use as many or as thin ones as fit, let a piece run further past the joint, plate it with a gusset, or write rows, \
                     apart, spaced, ends or edges with where they sit"
                }
                Unknown::Held { why: Reason::WrongNut(_), .. } => {
                    "write the nut of the bolt's own thread, \"nut M8\" for \"bolt M8 x 60\": a metric nut goes on no inch bolt, however near the sizes are"
                }
                Unknown::Joint(_) | Unknown::Held { .. } => "make one joint like it and load it until it moves; then load the chair as its test sheet says",
                Unknown::TooHot(_) => "keep the chair out of this heat, or build it of something else",
                Unknown::Strength(_) | Unknown::Allowance(_) | Unknown::Kind(..) => {
                    "give the material a strength and an allowance with their source, or load a piece until it breaks"
                }
            })
        };
        reasons.into_iter().map(one).collect()
    }

    /// The board whose bench test says nothing, or speaks against it.
    fn benched(&self, why: &Unknown) -> Option<&str> {
        let (Unknown::Bench(material) | Unknown::Softer(material)) = why else { return None };
        let tested =
            |s: &&chairwright_design::Stock| s.material.name == *material && s.material.bench.is_some();
        self.design.stocks.values().find(tested).map(|s| s.name.as_str())
    }

    /// What could not be computed, one finding for each case: nothing of it may stay unsaid.
    fn refused(&self, s: &Strength) -> Vec<Diagnostic> {
        let one = |r: &Refused| {
            let headline = match r.case.and_then(|k| s.cases.get(k)) {
                Some(case) => {
                    format!("whether it holds {} could not be computed", case_words(self.design, &case.kind))
                }
                None => "the strength of the frame could not be computed".to_owned(),
            };
            let said = Diagnostic::new("strength-unknown", headline);
            let origin = r.moves.iter().find_map(|name| self.named(name));
            let said = match origin {
                Some(origin) => self.placed(said, origin, "moves without anything resisting it"),
                None => said,
            };
            said.note(refused_words(r))
                .help("load the chair step by step as its test sheet says, with nobody in it")
        };
        s.refused.iter().map(one).collect()
    }
}

/// A kind of load, as the end of a finding's headline.
pub(crate) fn under_words(kind: Lasting) -> &'static str {
    match kind {
        Lasting::Sustained => "under a load that lasts for years",
        Lasting::Short => "under a load that lasts seconds or minutes",
        Lasting::Impact => "under a blow",
        Lasting::Repeated => "under a load that comes again and again",
    }
}

/// A folded name without the words that say so.
fn bare(name: &str) -> String {
    without_side(name.trim_end_matches(BOTH))
}

/// `a`, `b` and 3 more.
fn listed(names: &[String]) -> String {
    let shown: Vec<String> = names.iter().take(2).map(|n| format!("`{}`", bare(n))).collect();
    match (&shown[..], names.len()) {
        ([a, b], 2) => format!("{a} and {b}"),
        (_, n) if n > 2 => format!("{} and {} more", shown.join(", "), n - 2),
        _ => shown.join(", "),
    }
}

fn holding(names: &[String]) -> String {
    format!("{} {}", listed(names), if names.len() == 1 { "holds" } else { "hold" })
}

fn uses(item: &Item) -> String {
    format!("{}/{}", percent(item.most.0).trim_end_matches(" %"), percent(item.most.1))
}

/// What an item bears and what it may bear, both from the same side: stress against where it surely breaks, force on a
/// fastener against what it may bear with safety.
fn demand_words(item: &Item) -> String {
    let most = percent(item.used.1);
    match (item.mode, item.what) {
        (Mode::Bearing | Mode::Screws, _) => format!(
            "with the twist of the joint {:.0} N sideways on each, where {:.0} N are sound; in all, pulling and notches \
             counted, {most} of what is sound",
            item.demand.ceil(),
            item.bears.floor()
        ),
        (Mode::Head, _) => format!(
            "each pulled with {:.0} N, where under its head or nut {:.0} N are sound: it sinks in and the joint works loose; large washers \
             spread the pull",
            item.demand.ceil(),
            item.bears.floor()
        ),
        (Mode::Buckling, _) => format!(
            "pushed with {:.0} N along it, where {:.0} N surely make it give way, as long and as held as it is here, and {:.0} N \
             are sound",
            item.demand.ceil(),
            (item.demand / item.used.0.max(1e-9)).ceil(),
            (item.demand / item.used.1.max(1e-9)).floor()
        ),
        (_, What::Bar(Of::Panel(_))) => format!(
            "{:.1} MPa; that is beyond breaking even if this rough model of a panel says twice too much",
            item.demand / 1e6
        ),
        _ if most == percent(item.used.0) => format!(
            "{:.1} MPa, where {:.1} MPa is the most it bears",
            item.demand / 1e6,
            item.demand / item.used.1.max(1e-9) / 1e6
        ),
        _ => format!(
            "{:.1} MPa, where {:.1} MPa surely breaks it and {:.1} MPa is sound",
            item.demand / 1e6,
            item.demand / item.used.0.max(1e-9) / 1e6,
            item.demand / item.used.1.max(1e-9) / 1e6
        ),
    }
}

fn test_words(kind: Lasting, s: &Strength) -> String {
    let drop = s.cases.iter().find_map(|c| if let CaseKind::Drop(h) = c.kind { Some(h) } else { None });
    match kind {
        Lasting::Sustained | Lasting::Short => {
            "load the empty chair with one and a half times the rider for ten minutes, then look at every joint"
                .to_owned()
        }
        Lasting::Impact => format!(
            "drop the chair, loaded with sand, on wheels and casters from {:.0} mm, then look at every joint",
            drop.unwrap_or(KERB) * 1e3
        ),
        Lasting::Repeated => {
            "roll the chair, loaded with sand, 200 times over a 12 mm batten, then look at every joint; look again every month"
                .to_owned()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_design::Origin;

    /// From one side, and no two numbers that contradict each other: 24 MPa used to 120 % breaks at 20, to 200 % is sound at 12; a
    /// limit that is the same on both sides is told once.
    #[test]
    fn demand_and_limits_agree() {
        let item = |used: (f64, f64), mode| Item {
            what: What::Bar(Of::Box(0)),
            name: "a".to_owned(),
            origin: Origin(0),
            case: 0,
            mode,
            at: 0.0,
            used,
            most: used,
            demand: 24e6,
            bears: 12e6,
            verdict: Verdict::Fail,
        };
        let two = demand_words(&item((1.2, 2.0), Mode::Bending));
        assert_eq!(two, "24.0 MPa, where 20.0 MPa surely breaks it and 12.0 MPa is sound");
        let one = demand_words(&item((2.0, 2.0), Mode::Bending));
        assert_eq!(one, "24.0 MPa, where 12.0 MPa is the most it bears");
    }
}
