//! Why a capacity is refused, in a builder's words that end a sentence: "what 4 x screw can bear is not
//! known: …".

use chairwright_resistance::{Figure, Never, NotKnown, Outside, Refusal};

/// A length in whole millimetres, with one place below ten.
pub(crate) fn mm(length: f64) -> String {
    let mm = length * 1e3;
    if mm.abs() < 9.95 { format!("{mm:.1} mm") } else { format!("{mm:.0} mm") }
}

/// A refusal in words.
pub(crate) fn refusal(why: &Refusal) -> String {
    match why {
        Refusal::Never(never) => never_words(*never).to_owned(),
        Refusal::NotKnown(NotKnown::TensionAcrossGlue) => {
            "it is pulled open or peeled, and nothing is known of glue under that".to_owned()
        }
        Refusal::Outside(out) => outside(out),
    }
}

fn outside(out: &Outside) -> String {
    let (value, low, high) = (out.value, out.low, out.high);
    match out.figure {
        Figure::Depth if value <= 0.0 => "a screw of this length ends within the first piece".to_owned(),
        Figure::Depth if value < low => format!(
            "only {} of a screw are in the second piece, and less than {} hold nothing that is known",
            mm(value),
            mm(low)
        ),
        Figure::Diameter if value < low && low > 1e-6 => {
            format!("the published tests begin at a diameter of {}, this is {}", mm(low), mm(value))
        }
        Figure::Diameter if value > high => {
            format!("the published tests end at a diameter of {}, this is {}", mm(high), mm(value))
        }
        Figure::Gravity => format!(
            "the published tests are of wood of {:.0} to {:.0} kg/m3 without its water, this has {:.0}",
            low * 1e3,
            high * 1e3,
            value * 1e3
        ),
        Figure::SecondMoment | Figure::Count => {
            "so few fasteners hold no moment by themselves, and this joint is bent or twisted".to_owned()
        }
        Figure::Length => "the fastener sits at the very end of the pipe".to_owned(),
        _ => "one of its figures lies outside of what the published formula holds for".to_owned(),
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
    use chairwright_resistance::connection::penetration_factor;

    #[test]
    fn a_short_bite_is_told_in_millimetres() {
        let why = penetration_factor(0.012, 0.005).unwrap_err();
        let words = refusal(&why);
        assert!(words.contains("12 mm") && words.contains("30 mm"), "{words}");
    }
}
