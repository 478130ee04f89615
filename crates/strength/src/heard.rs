//! Everything that is said of every part in every case, heard once: the worst of each part, what cannot be told, and load
//! paths that are refused. Looking at a joint costs as much as looking at a bar, so nobody asks twice; only where nobody knows
//! what something bears here, all is heard once more as kindly as can be.

use crate::answer::{Family, What};
use crate::bar::Of;
use crate::case::{Case, Lasting};
use crate::joints::Said;
use crate::judge::{Court, KINDS, Use, keep_worst, more};
use crate::limit::Unknown;
use crate::limit::sure::{bears_no_more, kindest};
use crate::solve::Run;
use chairwright_resistance::Never;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// What was heard.
#[derive(Default)]
pub(crate) struct Heard {
    /// The worst of every part, by family of modes and kind of load.
    pub worst: BTreeMap<(What, Family, Lasting), Use>,
    /// The greatest plain use of every part, whatever the load and the way it would give.
    pub plain: BTreeMap<What, f64>,
    /// The greatest cautious use of every part; no number where one of them is none.
    pub most: BTreeMap<What, f64>,
    /// The most used part of every case, on the cautious side.
    pub peaks: Vec<Option<Use>>,
    /// The greatest use of a member or box in every case, cautious side; zero where the case has no answer.
    pub members: Vec<f64>,
    /// Joints and fastenings that cannot be told, why, and under which kinds of load.
    pub open: BTreeMap<(What, Unknown), Vec<Lasting>>,
    /// Load paths that are refused by name.
    pub never: BTreeSet<(What, Never)>,
    /// Joints and fastenings of which anything was said.
    pub seen: BTreeSet<What>,
}

impl Court<'_> {
    /// Hears every bar, joint and fastening in every case. Of what nobody knows how much it bears in this heat, water or
    /// cold, what surely fails is heard too.
    pub(crate) fn hear(&self, cases: &[Case], runs: &[Option<&Run>]) -> Heard {
        let mut out = self.listen((cases, runs), &|_| true);
        if out.open.keys().any(|(_, why)| bears_no_more(why)) || self.beyond() {
            let (design, climate) = kindest(self.design, &self.climate);
            let kind = self.beside(&design, climate);
            out.fails_too(kind.listen((cases, runs), &|u| u.used.0 > 1.0));
        }
        out
    }

    /// Whether nobody knows what some bar bears here, although it is known elsewhere.
    fn beyond(&self) -> bool {
        let stocks = self.all.bars.iter().flat_map(|b| b.sheaths.iter().map(|s| s.stock).chain([b.stock]));
        let unknown =
            |stock, kind: &Lasting| matches!(self.known(stock, *kind), Some(Err(w)) if bears_no_more(w));
        stocks.into_iter().any(|s| KINDS.iter().any(|k| unknown(s, k)))
    }

    /// Hears what is to be kept of it: every case by itself, and all of them in their order.
    fn listen(&self, (cases, runs): (&[Case], &[Option<&Run>]), keep: &(dyn Fn(&Use) -> bool + Sync)) -> Heard {
        let each = cases.par_iter().zip(runs).enumerate();
        let heard: Vec<Heard> =
            each.map(|(index, (case, run))| self.listen_to((index, case.lasting), *run, keep)).collect();
        heard.into_iter().fold(Heard::default(), Heard::then)
    }

    fn listen_to(&self, when: (usize, Lasting), run: Option<&Run>, keep: &dyn Fn(&Use) -> bool) -> Heard {
        let mut out = Heard::default();
        let mut parts: Vec<Part> = Vec::new();
        let (mut members, mut peak): (f64, Option<Use>) = (0.0, None);
        if let Some(run) = run {
            let mut kept = |u: Use| {
                match parts.last_mut().filter(|p| p.what == u.what) {
                    Some(part) => part.takes(u),
                    None => parts.push(Part::new(u)),
                }
                higher(&mut peak, u);
            };
            self.bars(when.0, when.1, run, &mut |u| {
                if !keep(&u) {
                    return;
                }
                if matches!(u.what, What::Bar(Of::Member(_) | Of::Box(_))) {
                    members = members.max(u.most);
                }
                kept(u);
            });
            self.each_tie(when, run, &mut |said| {
                out.seen.insert(said.of());
                match said {
                    Said::Use(u) if keep(&u) => kept(u),
                    Said::Use(_) => {}
                    Said::Never(what, never) => {
                        out.never.insert((what, never));
                    }
                    Said::Cannot(what, why) => {
                        out.open.entry((what, why)).or_insert_with(|| vec![when.1]);
                    }
                }
            });
        }
        parts.into_iter().for_each(|part| out.takes_part(part, when.1));
        out.peaks.push(peak);
        out.members.push(members);
        out
    }
}

/// What is said of one part at a stretch.
struct Part {
    what: What,
    plain: f64,
    most: f64,
    worst: Vec<Use>,
}

impl Part {
    fn new(u: Use) -> Part {
        Part { what: u.what, plain: u.used.0.max(0.0), most: more(0.0, u.most), worst: vec![u] }
    }

    fn takes(&mut self, u: Use) {
        self.plain = self.plain.max(u.used.0);
        self.most = more(self.most, u.most);
        match self.worst.iter_mut().find(|w| w.mode.family() == u.mode.family()) {
            Some(old) => keep_worst(old, u),
            None => self.worst.push(u),
        }
    }
}

impl Heard {
    /// What was heard of the cases up to here, and of those that follow.
    fn then(mut self, mut next: Heard) -> Heard {
        self.peaks.append(&mut next.peaks);
        self.members.append(&mut next.members);
        for (key, kinds) in std::mem::take(&mut next.open) {
            let old = self.open.entry(key).or_default();
            old.extend(kinds.into_iter().filter(|k| !old.contains(k)).collect::<Vec<_>>());
        }
        self.never.append(&mut next.never);
        self.seen.append(&mut next.seen);
        self.takes(next);
        self
    }

    /// Takes in what fails of another hearing, of the same cases.
    fn fails_too(&mut self, mut other: Heard) {
        for (peak, u) in self.peaks.iter_mut().zip(std::mem::take(&mut other.peaks)) {
            u.into_iter().for_each(|u| higher(peak, u));
        }
        for (most, used) in self.members.iter_mut().zip(std::mem::take(&mut other.members)) {
            *most = most.max(used);
        }
        self.takes(other);
    }

    /// Of two hearings the worst of each part.
    fn takes(&mut self, other: Heard) {
        for (key, u) in other.worst {
            keep_worst(self.worst.entry(key).or_insert(u), u);
        }
        for (what, plain) in other.plain {
            self.takes_used(what, plain, other.most.get(&what).copied().unwrap_or(0.0));
        }
    }

    fn takes_part(&mut self, part: Part, lasting: Lasting) {
        for u in part.worst {
            keep_worst(self.worst.entry((part.what, u.mode.family(), lasting)).or_insert(u), u);
        }
        self.takes_used(part.what, part.plain, part.most);
    }

    fn takes_used(&mut self, what: What, plain: f64, most: f64) {
        let old = self.plain.entry(what).or_insert(0.0);
        *old = old.max(plain);
        let old = self.most.entry(what).or_insert(0.0);
        *old = more(*old, most);
    }
}

/// Keeps the higher of two by the cautious side; of two as good as equal the first, whatever the order of joints.
fn higher(peak: &mut Option<Use>, u: Use) {
    if peak.is_none_or(|p| u.most > p.most * (1.0 + 1e-9)) {
        *peak = Some(u);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::{Forces, Form};
    use crate::hand::bar;
    use crate::limit::Climate;
    use crate::matter::matters;
    use crate::shipped::{PARTS, design, short};
    use crate::solve::Cut;
    use crate::structure::Structure;
    use chairwright_design::Vec3;

    /// A rail bent, pushed and not answered: what is heard of each case is what one hears who asks for it alone.
    #[test]
    fn hearing_all_at_once_is_asking_one_by_one() {
        let design = design(PARTS);
        let member = design.members.values().next().unwrap();
        let form = Form::of(&design.stocks[member.stock].shape).unwrap();
        let mut rail = bar(Vec3::ZERO, Vec3::X * 0.5, Vec3::Z, form);
        rail.stock = member.stock;
        let all = Structure { bars: vec![rail], ..Structure::default() };
        let climate = Climate::of(&design, &mut Vec::new());
        let matters = matters(&design, &all, &climate);
        let court = Court::new(&design, &all, &matters, climate);
        let run = |pull: f64, bend: [f64; 2]| {
            let cut = |k: u32| {
                let share = f64::from(k) / 4.0;
                Cut {
                    bar: 0,
                    at: share * 0.5,
                    forces: Forces { pull, bend: bend.map(|m| m * share), ..Forces::default() },
                    gives: None,
                }
            };
            Run { cuts: (0..5).map(cut).collect(), ..Run::default() }
        };
        let runs = [run(50.0, [30.0, 5.0]), run(-500.0, [12.0, 0.0])];
        let cases = [short(Vec::new()), short(Vec::new()), short(Vec::new())];
        let heard = court.hear(&cases, &[Some(&runs[0]), Some(&runs[1]), None]);
        let mut worst: BTreeMap<(What, Family, Lasting), Use> = BTreeMap::new();
        for (index, run) in runs.iter().enumerate() {
            let mut uses = Vec::new();
            court.bars(index, Lasting::Short, run, &mut |u| uses.push(u));
            let most = uses.iter().map(|u| u.used.1).fold(0.0, f64::max);
            assert!(most > 0.1 && heard.members[index] == most, "{most} {:?}", heard.members);
            assert_eq!(heard.peaks[index].map(|u| u.used.1), Some(most));
            for u in uses {
                keep_worst(worst.entry((u.what, u.mode.family(), Lasting::Short)).or_insert(u), u);
            }
        }
        assert_eq!((heard.members[2], heard.peaks[2]), (0.0, None));
        assert!(worst.len() > 1 && heard.worst == worst, "{worst:?}");
        assert!(heard.open.is_empty() && heard.seen.is_empty() && heard.never.is_empty());
    }

    /// A blow on PVC where nobody says how cold it gets: 500 N m on 1 1/4 in Schedule 40 (Z 3 844 mm³) are 130 MPa, which no
    /// rigid PVC bears (7 000 psi, 48 MPa, is its published strength): it fails. 50 N m, 13 MPa, are not judged.
    #[test]
    fn what_surely_fails_is_heard_where_nothing_is_known() {
        let design = design(&PARTS.replace(", coldest = 14 degC", ""));
        let member = design.members.values().next().unwrap();
        let form = Form::of(&design.stocks[member.stock].shape).unwrap();
        let mut rail = bar(Vec3::ZERO, Vec3::X * 0.5, Vec3::Z, form);
        rail.stock = member.stock;
        let all = Structure { bars: vec![rail], ..Structure::default() };
        let climate = Climate::of(&design, &mut Vec::new());
        let matters = matters(&design, &all, &climate);
        let court = Court::new(&design, &all, &matters, climate);
        let case = crate::case::Case { lasting: Lasting::Impact, ..short(Vec::new()) };
        let used = |bend: f64| {
            let cut = |at: f64| Cut {
                bar: 0,
                at,
                forces: Forces { bend: [bend, 0.0], ..Forces::default() },
                gives: None,
            };
            let run = Run { cuts: vec![cut(0.0), cut(0.5)], ..Run::default() };
            let heard = court.hear(std::slice::from_ref(&case), &[Some(&run)]);
            assert!(
                court.untold(std::slice::from_ref(&case)).iter().any(|u| matches!(u.why, Unknown::Cold(_)))
            );
            let worst: Vec<f64> = heard.worst.values().map(|u| u.used.0).collect();
            assert_eq!(heard.plain.values().copied().collect::<Vec<f64>>(), worst);
            worst
        };
        assert!(matches!(used(500.0)[..], [u] if u > 1.0 && u < 4.0), "{:?}", used(500.0));
        assert!(used(50.0).is_empty(), "{:?}", used(50.0));
    }
}
