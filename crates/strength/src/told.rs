//! What is said of joints and fastenings over all cases: those that nothing here can judge, and load paths that are
//! refused.

use crate::answer::{Forbidden, Untold, What};
use crate::case::Lasting;
use crate::heard::Heard;
use crate::judge::Court;
use crate::limit::Unknown;
use crate::reasons::Reason;
use crate::seam::held;
use crate::structure::{Loose, TieOf};
use chairwright_design::{ClosingKind, Origin};
use chairwright_resistance::Never;
use std::collections::BTreeSet;

impl Court<'_> {
    /// Joints and fastenings that nothing here can judge, each with its reason; and, so that nothing is
    /// left out, those that nothing was said of in any case.
    pub fn untold_ties(&self, heard: &Heard, loose: &[Loose]) -> Vec<Untold> {
        let told = |((what, why), kinds): (&(What, Unknown), &Vec<Lasting>)| {
            let (name, origin) = self.said_of(*what);
            Untold { name, origin, why: why.clone(), kinds: kinds.clone() }
        };
        let mut out: Vec<Untold> = heard.open.iter().map(told).collect();
        out.extend(self.unseen(&heard.seen, loose));
        out
    }

    fn unseen(&self, seen: &BTreeSet<What>, loose: &[Loose]) -> Vec<Untold> {
        let mut out = Vec::new();
        let mut missing = |what: What, why: Unknown| {
            if !seen.contains(&what) {
                let (name, origin) = self.said_of(what);
                out.push(Untold { name, origin, why, kinds: vec![Lasting::Short] });
            }
        };
        for (index, f) in self.design.fastenings.iter().enumerate() {
            let apart = |l: &Loose| matches!(l, Loose::Apart { fastening, .. } if *fastening == index);
            if loose.iter().any(apart) {
                continue;
            }
            let why = held(&f.fasteners, None, Reason::Unfollowed);
            missing(What::Tie(TieOf::Fastening(index)), why);
        }
        for tie in &self.all.ties {
            let TieOf::Joint(joint) = tie.of else { continue };
            let c = self.design.closings.iter().find(|c| c.joint == joint);
            let (list, glue) = c.map_or((&[][..], None), |c| (&c.fasteners[..], c.glue.as_deref()));
            missing(What::Joint(joint), held(list, glue, Reason::NoRule));
        }
        out
    }

    /// Load paths that are refused by name in one of the cases, and were not told from the drawing.
    pub fn forbidden_ties(&self, heard: &Heard, known: &[Forbidden]) -> Vec<Forbidden> {
        let one = |&(what, never): &(What, Never)| {
            let (name, origin) = self.said_of(what);
            Forbidden::Never { origin, name, never }
        };
        let told = |f: &Forbidden| match f {
            Forbidden::Never { origin, never: Never::EndGrainWithdrawal, .. } => {
                known.iter().any(|k| matches!(k, Forbidden::EndGrain { origin: o, .. } if o == origin))
            }
            _ => false,
        };
        heard.never.iter().map(one).filter(|f| !told(f)).collect()
    }

    /// Name and place of a joint or fastening.
    pub(crate) fn said_of(&self, what: What) -> (String, Origin) {
        let d = self.design;
        let tie = match what {
            What::Tie(tie) => tie,
            What::Joint(joint) => TieOf::Joint(joint),
            What::Bar(of) => return (String::new(), crate::judge::origin(d, of)),
        };
        let origin = match tie {
            TieOf::Fastening(k) => d.fastenings[k].origin,
            TieOf::Joint(joint) => {
                let wooden = d.closings.iter().find(|c| c.joint == joint);
                let wooden = wooden.filter(|c| !matches!(c.kind, ClosingKind::Free(_)));
                wooden.map_or(d.joints[joint].origin, |c| c.origin)
            }
            _ => Origin(0),
        };
        (crate::whole::tie_name(d, tie), origin)
    }
}
