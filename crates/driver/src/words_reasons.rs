//! Why what holds a joint is not judged, in a builder's words that end a sentence: "what 4 x screw can bear is not
//! known: …".

use chairwright_quantity::{Dimension, Display, Quantity};
use chairwright_strength::{Micron, Never, Reason};

/// A reason in words, with lengths in the units of the design.
#[must_use]
pub fn reason_words(why: &Reason, display: Display) -> String {
    let length = |m: &Micron| display.text(Quantity::from_si(m.metres(), Dimension::LENGTH));
    match why {
        Reason::Never(never) => never_words(*never).to_owned(),
        Reason::ShallowBite(has, wants) => format!(
            "only {} of a screw are in the second piece, and less than {} hold nothing that is known",
            length(has),
            length(wants)
        ),
        Reason::TooThin(is, least) => {
            format!("the published tests begin at a diameter of {}, this is {}", length(least), length(is))
        }
        Reason::TooThick(is, most) => {
            format!("the published tests end at a diameter of {}, this is {}", length(most), length(is))
        }
        Reason::Density(is, low, high) => {
            format!("the published tests are of wood of {low} to {high} kg/m3 without its water, this has {is}")
        }
        Reason::NoPage(name) => format!("no page says what {name} is"),
        Reason::WrongNut(nut) => format!("{nut} goes on none of its bolts"),
        Reason::SleeveShort(short, wide) => format!(
            "its sleeve of {} is shorter than the pipe is wide, {}, and gets lost in it",
            length(short),
            length(wide)
        ),
        Reason::SleeveLong(long, stack) => format!(
            "its sleeve of {} is longer than all that its bolt goes through, {}, and head and nut press on it alone",
            length(long),
            length(stack)
        ),
        Reason::SleeveNarrow(outer, bolt) => format!(
            "its sleeve is {} thick outside, its bolt {}: that does not go through it; a sleeve's diameter is its outside one",
            length(outer),
            length(bolt)
        ),
        Reason::NoRoom { has, fits, face, thinner, larger } => {
            let by = |f: &[Micron; 2]| format!("{} by {}", length(&f[0]), length(&f[1]));
            let fit = match fits {
                0 => "none fits".to_owned(),
                1 => "only 1 fits".to_owned(),
                n => format!("only {n} fit"),
            };
            let mut out = format!(
                "of {has} {fit} on the face of {} that the two pieces share, with what the pieces want from ends, edges and the next \
                 fastener",
                by(face)
            );
            let all = if *has == 1 { "it" } else { "all" };
            let ways = [
                thinner.map(|d| format!("{all} would fit if at most {} thick", length(&d))),
                larger.map(|f| format!("{all} would fit on a face of {}", by(&f))),
            ];
            for way in ways.into_iter().flatten() {
                out.push_str(&format!("; {way}"));
            }
            out
        }
        Reason::Air(gap) => {
            format!("{} of air lie between them, and a fastener that crosses air is bent", length(gap))
        }
        Reason::ShortBolt(is, wants) => {
            format!("a bolt of {} must be {} long to pass both pieces and its nut", length(is), length(wants))
        }
        Reason::Splits(is, wants) => format!(
            "without lead holes it splits wood of {}, which must be {} thick for such a nail",
            length(is),
            length(wants)
        ),
        Reason::NoPipe(bar) => format!("nothing is known of what holds {bar} in a fitting"),
        Reason::NoSocket(bar) => format!("{bar} ends in no socket here"),
        Reason::LipUnread(bar) => format!("what {bar} brings to the edge of its socket could not be read"),
        Reason::SlipUnread(bar) => format!("what {bar} is handed where it slips through could not be read"),
        Reason::Thread(bar) => format!("what a thread bears that holds {bar} is not known"),
        Reason::NotHome(bar, is, depth) => format!("{bar} is {} in a socket of {}", length(is), length(depth)),
        Reason::RunsPast(bar) => {
            format!("{bar} runs on past the joint, and only one that ends there stops at the face of the other")
        }
        plain => plain_words(plain).to_owned(),
    }
}

/// Reasons without a figure or a name.
fn plain_words(why: &Reason) -> &'static str {
    match why {
        Reason::Peeled => "it is pulled open or peeled, and nothing is known of glue under that",
        Reason::EndsInFirst => "a screw of this length ends within the first piece",
        Reason::TooFew => "so few fasteners hold no moment by themselves, and this joint is bent or twisted",
        Reason::PipeEnd => "the fastener sits at the very end of the pipe",
        Reason::Shared => {
            "another joint at the same place takes what goes through, so that its share cannot be read"
        }
        Reason::Dowels => {
            "nothing is known here of dowels of wood, glued or dry: what they bear hangs on the fit of each hole"
        }
        Reason::Slanted => {
            "nails driven aslant hold no bending and no twist that anybody publishes, and a frame with stiff joints hands them both"
        }
        Reason::SplitsDense => "without lead holes so thick a nail, or wood so dense, splits",
        Reason::Rivets => "nothing is known here of rivets",
        Reason::Mixed => "nobody can say how much screws and bolts side by side take of the load",
        Reason::Nothing => "no screw, bolt or glue is named",
        Reason::ScrewsElsewhere => "screws and nails in anything but wood have no published rule here",
        Reason::Misplaced => "its fasteners sit where wood splits or nothing is under them",
        Reason::NoFace => {
            "nobody can say how large the face is that the two pieces share, so that nobody knows whether they fit there"
        }
        Reason::Unfollowed => {
            "nothing here follows a load through it: one of the two is a bought part, or carries nothing as drawn"
        }
        Reason::NoRule => "no rule here knows such a joint",
        Reason::OneBar => {
            "it lies on one bar only, so that its fasteners alone keep it from tipping; a second bar under it would"
        }
        Reason::MiddleOnly => "it is held in the middle of a sheet only",
        Reason::AxesCross => {
            "their axes cross as drawn, so that nobody can say which way the fasteners go and what they pass"
        }
        Reason::EdgeToEdge => {
            "they are drawn edge to edge or into each other; into the edge of a sheet nothing may be screwed"
        }
        Reason::Crowd => "more than two members meet here, and nobody says which fastener holds which",
        Reason::NotInFrame => "one of its members is not in the frame",
        Reason::InLine => "its members run on in one line, and nobody says which way the fasteners go",
        Reason::PlatesNoSheet => "its plates are cut from something that is no sheet",
        Reason::OneOfWood => "only one of the two is of wood",
        Reason::NoneOfWood => "neither of the two is of wood",
        Reason::HeadOnEnd => "its head would lie on end grain or on the edge of a sheet",
        Reason::BoltInEdge => "a bolt in the edge of a sheet has no rule here",
        Reason::BoltInEnd => "a bolt in end grain or in the edge of a sheet has no rule here",
        Reason::Lengthwise => "its bolts would go lengthwise into the end of one of its pieces",
        Reason::GlueClass => "its name says no class (D1 to D4, PVA, epoxy, resorcinol)",
        Reason::GlueNoWood => "one of the two is no wood",
        Reason::SlipBolt => "the bolt through it and its hub is not judged: the fitting's wall is not known",
        Reason::SlipLies => "it only lies in its hub, which is not known to hold",
        _ => "one of its figures lies outside of what the published formula holds for",
    }
}

/// A load path that is refused, in words that end a sentence.
fn never_words(never: Never) -> &'static str {
    match never {
        Never::EndGrainWithdrawal => "the screws would be pulled out of end grain",
        Never::PanelEdgeWithdrawal => "the screws would be pulled out of the edge of a sheet",
        Never::UnsleevedBoltSustained => "a bolt without a sleeve would press on bare pipe for years",
        Never::EndGrainButtGlue => "glue on end grain holds nothing that counts",
        Never::PvaSustainedTension => "white glue creeps under a pull that stays",
        Never::GlueBelowClimate => "this glue does not stand the water here",
        Never::SlipFittingByCementAlone => "cement alone holds a pipe that slips through its fitting",
        _ => "this must not carry",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_does_not_fit_says_what_would() {
        let face = [0.045, 0.045].map(Micron::from);
        let why = Reason::NoRoom {
            has: 4,
            fits: 1,
            face,
            thinner: None,
            larger: Some([0.09, 0.09].map(Micron::from)),
        };
        let said = reason_words(&why, Display::Metric);
        assert!(said.starts_with("of 4 only 1 fits on the face of 45.0 mm by 45.0 mm"), "{said}");
        assert!(said.ends_with("; all would fit on a face of 90.0 mm by 90.0 mm"), "{said}");
    }

    #[test]
    fn lengths_are_in_the_units_of_the_design() {
        let why = Reason::ShortBolt(Micron::from(0.0508), Micron::from(0.0635));
        let metric = reason_words(&why, Display::Metric);
        assert!(metric.contains("50.8 mm") && metric.contains("63.5 mm"), "{metric}");
        let inch = reason_words(&why, Display::Inch);
        assert!(
            inch.contains("2") && inch.contains("2.5") && inch.contains("in") && !inch.contains("mm"),
            "{inch}"
        );
    }
}
