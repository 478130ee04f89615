//! What structure and loads took for granted, left out or could not tell, in a builder's words.

use crate::sides::folded;
use crate::words_strength::{case_words, percent};
use chairwright_design::Design;
use chairwright_strength::{Absent, Beside, Doubt, Source, Taken};

/// A seat of a stem that is drawn this near to its bar lies on it, m.
const DRAWN: f64 = 0.0005;

pub(crate) fn mm(metres: f64) -> String {
    format!("{:.0} mm", metres * 1e3)
}

/// Names, each once, both sides as one.
pub(crate) fn joined(names: &[String]) -> String {
    let names = folded(names.iter().map(String::as_str));
    names.iter().map(|n| format!("`{n}`")).collect::<Vec<_>>().join(", ")
}

/// So many names are told of many.
const FEW: usize = 4;

/// The same, of many the first.
pub(crate) fn first_few(names: &[String]) -> String {
    let told = joined(&names[..names.len().min(FEW)]);
    match names.len().saturating_sub(FEW) {
        0 => told,
        more => format!("{told} and {more} more"),
    }
}

/// Where the size of a load case is from.
#[must_use]
pub fn source_words(source: &Source) -> String {
    match *source {
        Source::Weight => "the rider's weight".to_owned(),
        Source::Bumps(n) => format!("everyday shocks, {n:.0} times the weight; common practice, no source"),
        Source::Fall(h, give) => format!(
            "1 + sqrt(1 + 2h/give): {} of height on the {:.1} mm that this chair and its tyres give way",
            mm(h),
            give * 1e3
        ),
        Source::Bottoms { height, tyres, chair, reached } => format!(
            "two springs in a row: {} of height on {:.1} mm of tyres and {:.1} mm of chair until a tyre is pressed flat at {reached:.1} \
             times the weight, from there on the chair alone: 1 + sqrt(1 + (2h - tyres n0 (n0 - 2))/chair)",
            mm(height),
            tyres * 1e3,
            chair * 1e3
        ),
        Source::Lands { share, factor, height, give, flat } => format!(
            "these wheels are pressed to {factor:.1} times the {:.0} % of the weight that they carry at rest, the chair turning about the others: \
             {}{} of height on the {:.1} mm that they sink as chair and tyres give way",
            share * 100.0,
            if flat {
                "until a tyre is pressed flat, then on the chair alone, "
            } else {
                "1 + sqrt(1 + 2h/give), "
            },
            mm(height),
            give * 1e3
        ),
        Source::ProfileBumps(n) => format!("shocks of the use profile, {n:.1} times the weight"),
        Source::Trunk(share) => format!(
            "{:.0} % of the weight of head, arms and trunk, square to the back; common practice, no source",
            share * 100.0
        ),
        Source::FewerWheels => "statics: the wheels that are left carry".to_owned(),
        Source::TwoWheels(share) => format!(
            "statics: two wheels carry, the rider leans at most {:.0} % of the seat's width aside",
            share * 100.0
        ),
        Source::Climb(times, share) => {
            let all = match share < 1.0 - 1e-9 {
                true => format!(
                    "; all at once are pushed no harder than by all of the weight, which leaves {:.0} % of that",
                    share * 100.0
                ),
                false => String::new(),
            };
            format!(
                "push that climbs the edge, sqrt(2rh - h^2)/(r - h), at most all of the weight, {times:.0} times over for coming at \
                 once{all}"
            )
        }
        Source::Corner(depth, width) => format!(
            "the whole weight on one front corner of the seat, {:.0} % of its depth by {:.0} % of its width; common \
             practice, no source",
            depth * 100.0,
            width * 100.0
        ),
        Source::Arm(times, out) => format!(
            "{times:.1} x weight / (2 cos {deg:.0} deg), {deg:.0} deg outward; ISO 7176-8, from memory",
            deg = out.to_degrees()
        ),
        Source::Edge => "the whole weight on the front edge; common practice, no source".to_owned(),
        Source::TippedBack(left) => format!(
            "the devices bear {:.0} % of the weight, the rear wheels the rest, as where the chair is about to go over them; \
             common practice, no source",
            (1.0 - left) * 100.0
        ),
        Source::Lift(jerk) => format!(
            "held by this and by the wheels at the other end, with a jerk of {jerk:.1}; common practice, no source"
        ),
        Source::LiftWhole(jerk) => format!(
            "the whole chair hangs on two helpers, each with both hands on one side, with a jerk of {jerk:.1}; common practice, \
             no source"
        ),
        Source::Push(rolling, least) => format!(
            "up the declared slope with {:.0} % of rolling, at least {least:.0} N; common practice, no source",
            rolling * 100.0
        ),
        Source::Design => "the design".to_owned(),
        Source::Blow(times) => format!("the design, {times:.0} times over for coming at once"),
    }
}

/// An assumption of structure and loads in one line.
#[must_use]
pub fn taken_words(design: &Design, taken: &Taken) -> String {
    let line = match taken {
        Taken::RigidJoints(n) => format!(
            "joints are rigid in the main computation; beside it each turns as {n:.0} diameters of its pipe more would"
        ),
        Taken::Tyre { caster, stiffness, known } => format!(
            "a {} tyre gives way by 1 mm under {:.0} N{}; measure yours under a known weight",
            if *caster { "caster" } else { "rear" },
            stiffness / 1e3,
            if *known { "" } else { ", which nobody has said" }
        ),
        Taken::SlingSag { support, sag, known } => {
            let s = &design.supports[*support];
            let said = if *known {
                "as the text says".to_owned()
            } else {
                format!(
                    "{:.0} % of its width, which nobody has said (tight webbing; common practice, no source): measure it under the \
                     rider and write it, as `sagging 20 mm`",
                    sag / s.width * 100.0
                )
            };
            format!(
                "the sling of the {} hangs through by {:.1} mm and pulls its rails together by W L/(8 sag): {said}",
                s.name,
                sag * 1e3
            )
        }
        Taken::PanelArms => "a panel is taken as arms of sheet to where it is held: a rough model".to_owned(),
        Taken::Stem(caster, bar, gap) if *gap < DRAWN => {
            format!("the stem of {caster} is held by {bar}, as drawn")
        }
        Taken::Stem(caster, bar, gap) => format!(
            "the stem of {caster} is held by {bar}, though its seat is drawn {} away from it: whatever fills that is taken as \
             rigid; draw it, or move the seat",
            mm(*gap)
        ),
        Taken::Reach { load, bar, arm } => {
            format!("the load {load} hangs on {bar} by a rigid arm of {}", mm(*arm))
        }
        Taken::Hangs(parts) => {
            let each: Vec<String> = parts.iter().map(|(what, bar)| format!("{what} on {bar}")).collect();
            format!("nothing fastens these, and their weight is put on the nearest bar: {}", each.join(", "))
        }
        Taken::Rides { what, mass, on: None } => format!(
            "{what}, {mass:.1} kg, rides on the rider's lap: every case puts its weight on the seat below it, with the factor of \
             the case, and is judged without it as well"
        ),
        Taken::Rides { what, mass, on: Some((bar, arm)) } => format!(
            "{what}, {mass:.1} kg, hangs on {bar}, which is nearest, by a rigid arm of {}: in every case, with its factor, and \
             every case is judged without it as well",
            mm(*arm)
        ),
        Taken::Misses { support, bar, gap } => format!(
            "the {} does not lie on {bar}, which is drawn {:.1} mm away from it",
            design.supports[*support].name,
            gap * 1e3
        ),
        Taken::LiftOff(kind, wheels) => {
            format!("off the ground {}: {}; the others carry", case_words(design, kind), wheels.join(" and "))
        }
        Taken::HeldDown(kind, wheels) => format!(
            "the chair would tip {}: taken as if {} were held to the ground",
            case_words(design, kind),
            wheels.join(" and ")
        ),
        Taken::Slip => "fasteners of sheets slip along the face: between wood and wood by rho^1.5 d/23 (EN 1995-1-1, 7.1, from memory), \
             elsewhere 1 mm under 2000 N, which nobody measured; and once more, with joints that give way, screws in wood with two \
             thirds of that and all others not holding along the face at all"
            .to_owned(),
        Taken::Stiffness(known) => {
            let each: Vec<String> = known.iter().map(|(name, k)| format!("{name} {k:.0} N m/rad")).collect();
            format!("these joints turn under a moment as the text or their fitting says: {}", each.join(", "))
        }
        Taken::OnlyLies(supports) => {
            let names: Vec<&str> = supports.iter().map(|k| design.supports[*k].name.as_str()).collect();
            let names = names.join(" and ");
            format!("nothing fastens the {names}: taken to press on what lies below, and never to pull at it")
        }
    };
    format!("strength: {line}")
}

/// What structure and loads left out, as the end of "Not checked: ".
#[must_use]
pub fn beside_words(design: &Design, beside: &Beside) -> String {
    match beside {
        Beside::FittingBodies => {
            "the bodies of the fittings: taken as no weaker than the pipe they are made for".to_owned()
        }
        Beside::BoughtParts => {
            "wheels, axles, stems, forks, brakes and straps: taken as rigid, their makers' ratings decide".to_owned()
        }
        Beside::SupportFasteners { support, pull, along } => format!(
            "what fastens the {}: on one bar it is pulled off with up to {:.0} N and pushed along with up to {:.0} N",
            design.supports[*support].name,
            pull.ceil(),
            along.ceil()
        ),
        Beside::SlingFasteners { support, each } => format!(
            "what fastens the edges of the {0}: where it carries most, each is pulled with up to {1:.0} N by the cloth, and the one at the end of \
             the edge, or the one whose cloth is tightest, with more. Nothing here knows when {0} tears round it: sew the edge over, put a \
             washer or a strip of wood or metal under the heads, and try one with twice that weight",
            design.supports[*support].name,
            each.ceil()
        ),
        Beside::Unused(of) => format!(
            "what {} of the place of use {} to the frame: every chair is judged for the same shocks, edges and drops, whatever \
             the ground, at the pace of a walk",
            of.join(" and "),
            if of.len() == 1 { "does" } else { "do" }
        ),
        Beside::Slides(support) => {
            format!("whether the {} slides off what it only lies on", design.supports[*support].name)
        }
        Beside::Toe => {
            "how far wheels and stems turn as the frame gives way in anything but sitting, and what the bore around a stem or an axle \
             gives in plastic or wood with the years: look at toe and flutter with the rider in it, and rock each stem by hand every month"
                .to_owned()
        }
        Beside::Age => "wear, sun, chemicals and what a dropped chair does to a corner".to_owned(),
        Beside::Sheets(one, other) => format!("{one} to {other}: this fastening of sheets"),
    }
}

/// Why something that holds in the main computation is not called sound.
#[must_use]
pub fn doubt_words(doubt: &Doubt) -> String {
    match doubt {
        Doubt::SofterJoints(used) => {
            format!("it is used to {} once joints, and fasteners of sheets, give way a little", percent(*used))
        }
        Doubt::Sideways(used) => {
            format!("it is used to {} once the frame leans sideways under the load", percent(*used))
        }
        Doubt::Wet(used) if used.is_nan() => "nobody can tell of it once it is wet".to_owned(),
        Doubt::Wet(used) => format!("it is used to {} once it is wet", percent(*used)),
    }
}

/// Why nothing of a chair was judged, and what to write.
#[must_use]
pub fn nobody_words(absent: Absent) -> (&'static str, &'static str) {
    match absent {
        Absent::Seat => (
            "the chair has no seat",
            "write what the rider sits on as a seat, `seat = \"plywood 12 mm\" from … to … width …`; a panel is none",
        ),
        Absent::Rider => (
            "nobody sits on it",
            "write a rider with mass and stature, measured or as a stand-in, or leave the design without a name",
        ),
        Absent::Frame => (
            "nothing of it is a member or a box, and panels alone are not worked out",
            "write posts, rails and cleats as members, and closed boxes as boxes, `box side = \"plywood 18 mm\" from … to … outside …`; \
             else load it with sand before anybody sits on it",
        ),
        Absent::Wheels => (
            "the chair has no wheels",
            "write its wheels and casters, `wheel rear = …`, `caster front = …`, or leave the design without a name",
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Casters that strike together and share a push say so; one alone, or all with push enough, say nothing of it.
    #[test]
    fn a_shared_push_is_told() {
        assert!(source_words(&Source::Climb(2.0, 0.664)).ends_with("which leaves 66 % of that"));
        assert!(source_words(&Source::Climb(2.0, 1.0)).ends_with("for coming at once"));
    }
}
