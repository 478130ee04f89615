//! What the checks took for granted and what they left out, in a builder's words.

use chairwright_checks::{Assumed, Limb};
use chairwright_design::OtherBuilt;

fn mm(metres: f64) -> String {
    format!("{:.0} mm", metres * 1e3)
}

fn riders(measures: &[&str]) -> String {
    format!("rider.{}", measures.join(", rider."))
}

/// An assumption of the checks in one line.
#[must_use]
pub fn checked_words(assumed: &Assumed) -> String {
    match assumed {
        Assumed::NoRider => "no rider is given: nothing that depends on the rider was computed".to_owned(),
        Assumed::Unused(measures) => {
            format!("given, and nothing in this design is worked out from it: {}", measures.join(", "))
        }
        Assumed::OneSide(side, measures) => {
            format!("measured on the {} alone, and taken for both sides: {}", side.word(), riders(measures))
        }
        Assumed::StaysAsOld(months) => format!(
            "after {months:.0} months: the rider is 18 or older, so the measures stay"
        ),
        Assumed::Grows { months, yearly, as_last_year } => {
            let basis = if *as_last_year { "as last year" } else { "a usual rate, not measured" };
            let yearly = mm(*yearly);
            format!(
                "after {months:.0} months: {yearly} of stature a year ({basis}), every length in proportion, mass with \
                 stature squared: measure again before building for it"
            )
        }
        Assumed::GrownUpBy { months } => format!(
            "after {months:.0} months the rider is 18: nothing is taken to grow from then on, though many grow on a little"
        ),
        Assumed::SagUnsaid(kind) => format!(
            "nobody says how far the sling of the {} hangs through under the rider (sagging …): the body is placed as on a \
             tight one; every 10 mm put it as much lower or further back",
            kind.word()
        ),
        Assumed::HelperUnjudged { push, back, slope } => format!(
            "whoever helps has to push {:.0} to {:.0} N up the slope of {:.1} deg and to hold back up to {:.0} N on the way \
             down: whether that person can was not judged",
            push.0,
            push.1,
            slope.to_degrees(),
            back
        ),
        Assumed::Estimate { measure, value, of_stature, spread } => format!(
            "rider.{measure}: {}, estimated as {:.1} % of stature{} (from memory), to within {}",
            mm(*value),
            of_stature * 100.0,
            if measure.starts_with("foot_") { " with a shoe" } else { "" },
            mm(*spread)
        ),
        Assumed::Trunk(measured, stature) => format!(
            "hip to shoulder: {} by rider.shoulder_height, {} by stature; the longer one places the weight of the \
             trunk, for a high weight tips sooner",
            mm(*measured),
            mm(*stature)
        ),
        Assumed::NoBack => {
            "there is no back support: the trunk leans back 10 degrees from square to the seat".to_owned()
        }
        Assumed::Shanks => {
            "feet: the shank points from the knee to the rear edge of the foot support".to_owned()
        }
        Assumed::MissingLimbs(gone, intact) => format!(
            "missing limbs: {:.1} % of an intact body by the segment table, what is left of a segment in proportion to \
             its length; an intact body would weigh {intact:.1} kg",
            gone * 100.0
        ),
        Assumed::NoProsthesis(limb, side) => {
            let limb = if *limb == Limb::Leg { "leg" } else { "arm" };
            format!("no prosthesis is worn on the {} {limb}", side.word())
        }
        Assumed::HalfLeft(side, part) => format!("half of the {} {part} is taken to be left", side.word()),
        Assumed::HipHeld { back, slid } => {
            let way = if *back > 0.0 { "further back" } else { "forward, off its support" };
            let slid = match slid {
                s if *s > 0.0 => format!(", the pelvis slid {} ahead on the seat until the back's upper edge holds the trunk", mm(*s)),
                _ => String::new(),
            };
            format!(
                "the hips do not go where seat and back ask: the trunk is taken as leaning {:.1} deg {way}{slid}; whether it \
                 does that, or the pelvis turns or a thigh lifts, only a look at the rider on a mock-up tells",
                back.abs().to_degrees()
            )
        }
        Assumed::HipsApart => {
            "no angle of seat and back suits both hips: how the rider then sits nobody can tell, the trunk is taken along the \
             back; look at the rider on a mock-up and measure the seat and back that each side bears".to_owned()
        }
        Assumed::KneeHeld { side, off } => format!(
            "the {} knee does not go where the foot support asks: the foot is taken {} off it, in the air",
            side.word(),
            mm(*off)
        ),
        Assumed::AnkleHeld(side) => format!(
            "the {} ankle does not go where the foot support asks: the sole is taken at the end of its range, off its support",
            side.word()
        ),
        Assumed::FeetAnywhere => {
            "rider.hip_width is not given: each foot is looked at everywhere from the middle of the chair to where hips \
             that fill the seat would put it"
                .to_owned()
        }
        Assumed::Shoe(height) => format!(
            "feet: boxes of length by breadth, {} high, looked at everywhere from the heel on the rear edge of the foot \
             support to the ankle over it, a quarter of the foot behind the ankle (from memory); shoes count as far as \
             the measures were taken with them",
            mm(*height)
        ),
        Assumed::UsualReach(measure, angle) => format!(
            "rider.{measure}: {:.0} deg, a usual reach (common practice, no source)",
            angle.to_degrees()
        ),
        Assumed::NoReach(wanted) => {
            let all: Vec<String> = wanted.iter().map(|m| format!("rider.{m}")).collect();
            let verb = if all.len() == 1 { "is" } else { "are" };
            format!("reach to the push rims was not worked out: {} {verb} wanted", all.join(" and "))
        }
        Assumed::HandlessRim(side) => format!(
            "the {} arm lacks its hand: its reach to the push rim and its elbow there were not worked out",
            side.word()
        ),
        Assumed::WhichHand => {
            "nobody says which hand pushes: both sides were looked at; add pushing_hand = left or right".to_owned()
        }
        Assumed::OneHandForce => "rider.push_force is taken as what the one hand that pushes gives".to_owned(),
        Assumed::Steered(by) => format!(
            "rider.steers = {by}: what keeps the chair straight under the one hand is not drawn, and was not looked at: \
             try it on a chair before building"
        ),
        Assumed::AcrossAlone(steer) => {
            let unknown = "it, how much nobody can tell until the place names its ground or slope,";
            let holds = steer.map_or(unknown.to_owned(), |n| format!("{n:.1} N (drift.one.steer)"));
            format!(
                "conditions.cross_slope: one hand at the upper rim turns the chair further downhill with every push; whatever \
                 steers has to hold {holds} aside as far ahead as the casters: drift.force is of two hands"
            )
        }
        Assumed::LeversUnreached => {
            "whether the one hand gets to both wheel locks was not worked out: rider.upper_arm, rider.forearm and \
             rider.shoulder_height are wanted".to_owned()
        }
        Assumed::Unruled(rules) => {
            let part = |rule: &&str| if *rule == "side_below_axilla" { "side supports" } else { "arm supports" };
            let parts: Vec<&str> = rules.iter().map(part).collect();
            format!("fit rules not judged, for the drawing has no such part: {}", parts.join(", "))
        }
        Assumed::Undrawn(part) => format!("there is no {part}: the rules of fit for one were not judged"),
        Assumed::HandsFree => "rider.trunk is not given: taken as sitting with both hands free".to_owned(),
        Assumed::NoRims => "no push rims are drawn: the rule for the elbow was not judged".to_owned(),
        Assumed::SkinUnsaid(measures) => {
            format!("{}: not given, taken as skin that feels and never had a sore", riders(measures))
        }
        Assumed::MaybeChild => {
            "rider.age: not given, and no taller than a child: gaps that catch children's fingers were looked for".to_owned()
        }
        Assumed::GrownUp => {
            "rider.age: not given, taken as 14 years or more: gaps that catch children's fingers were not looked for".to_owned()
        }
        Assumed::FingersWhereItStands => {
            "gaps that catch children's fingers were looked for where parts stand in this state, where casters swivel and \
             wheels turn, and on such ways as are told here; not while a part is put on or taken off, nor on the way of a brake's \
             lever or of anything that the text does not move by an `adjust` or a state, nor where fingers reach through \
             spokes: keep the child's hands off there, or cover it"
                .to_owned()
        }
        Assumed::SpokesUnmeasured => {
            "wheels whose part gives no hub_width: where their spokes stand is not known, and fingers between spokes and chair \
             were not looked for"
                .to_owned()
        }
        Assumed::BrakesOpen => {
            "pulling wheels off: brakes are taken as open and out of the way, for only their outside size is known".to_owned()
        }
        Assumed::LeverStands => {
            "room for the thumb at the push rims: each brake is its outside box where it is drawn, and the way of its lever past \
             rim and hand was not looked at: move it by hand and look"
                .to_owned()
        }
        Assumed::Forks => {
            "casters: the fork's crown is taken as round and as wide as the fork, from the stem's seat down to the \
             wheel; the ends of the axle as bosses of 20 mm (common practice, no source)".to_owned()
        }
        Assumed::NarrowestTold { of, told } => {
            format!("of {of} gaps that catch a child's finger the {told} narrowest are told")
        }
        Assumed::SidesUnsaid => {
            "wheels whose part does not say one_sided = yes or no: not looked at whether the axle bears being held from \
             one side only; a bicycle's cone axle does not".to_owned()
        }
        Assumed::BoresUnmeasured => {
            "axles without an axle_diameter, or wheels or receivers on them without a bore: whether they go together was not \
             looked at; try one before all are bought".to_owned()
        }
        Assumed::FlutterInBand => {
            "caster flutter was not computed: trail, mass, play, the stem's lean and speed are inside the band of common \
             practice (no source); friction in the stem's bearings, the tread and the tyre's give were not looked at; coast down a slope with nobody in the seat before the first ride".to_owned()
        }
        Assumed::FlutterTried => {
            "caster flutter was not computed: the built chair ran without it as fast as it is meant to go; a stem that wears loose \
             flutters later, so rock each stem by hand every month"
                .to_owned()
        }
        Assumed::TippedOnce => {
            "as built: only one tipping angle was measured, the height of the centre of mass is the plan's".to_owned()
        }
        Assumed::OtherBuilt(of) => {
            let of = match of {
                OtherBuilt::Variant => "of another variant",
                OtherBuilt::Revision => "of another revision",
                OtherBuilt::Rider => "of a chair tested for another rider",
                OtherBuilt::Settings => "of the plan as it is written, and by how much that differs from its plan is not known",
            };
            format!("as built: the readings are {of}: nothing here goes by them")
        }
        Assumed::BuiltCarried => {
            "as built: it was tested in another setting; here it is taken to differ from its plan by as much. Tip it in this one too"
                .to_owned()
        }
        Assumed::OnScales => {
            "as built: it was put on scales and not tipped, the height of the centre of mass is the plan's".to_owned()
        }
        Assumed::FeetHang => "there is no foot support: the room to turn takes the feet as hanging".to_owned(),
        Assumed::NoTurning { corridor, passage } => format!(
            "in the corridor of {} the chair does not turn round on the spot, which takes {} (turn.width): whether anybody has to \
             turn there was not judged; where so, say turning_space = …",
            mm(*corridor),
            mm(*passage)
        ),
        Assumed::BootUnknown(sides) => {
            format!(
                "conditions.{} is not given: that side of the boot was not checked",
                sides.join(", ")
            )
        }
        Assumed::BootSlanted => {
            "the frame goes into the boot only slanted, turned about one of its edges; whether it gets past the \
             opening was not checked".to_owned()
        }
        Assumed::BootBeside(0) => "the frame goes into the boot as this state has it; whether what was taken off goes in \
                                   beside it was not looked at: try it"
            .to_owned(),
        Assumed::BootBeside(n) => {
            format!(
                "the frame goes into the boot; laid square it leaves no room in which {n} wheels lie flat on each other, and \
                 other ways were not tried: try it"
            )
        }
        Assumed::ManyRide(n) => {
            format!(
                "{n} things ride along: rolling and wheel loads were judged without them, with each, with all and with those \
                 furthest to each side, not with every set of them; slopes that tip, with the worst set"
            )
        }
        Assumed::Level(cross) => {
            let word = if *cross { "cross slope" } else { "slope" };
            format!("no {word} is declared: the use profile is judged on level ground")
        }
        Assumed::SegmentsOfGrownUps(age) => format!(
            "the segments' shares and centres are those of grown people, and the rider is {age:.0}: a child's head and trunk \
             weigh more of the whole, so that the weight may lie higher and further back, and slopes that tip it may be a degree or \
             two less; tip the built chair with the rider (common practice)"
        ),
        Assumed::NoGround => "no ground is named: what rolling takes of the rider, and how the chair runs downhill on a cross \
             slope, was not judged"
            .to_owned(),
        Assumed::UsualSpeed => "no speed is declared: steps are met at 1 m/s, a brisk push".to_owned(),
        Assumed::PushUnknown { by_hand: true } => {
            "rider.push_force, what both hands push together, is not given: of the path only what each hand may push was \
             judged, and not whether the rider climbs steps or lifts the casters by a push".to_owned()
        }
        Assumed::PushUnknown { by_hand: false } => {
            "rider.push_force is not given: whether the rider can push this, climb steps, or lift the casters by a push \
             was not judged".to_owned()
        }
        Assumed::ToeBeyond(toe) => {
            format!(
                "toe of {:.1} deg is beyond the 2 deg up to which its drag was measured: the push goes on along the same \
                 curve, an estimate",
                toe.to_degrees()
            )
        }
        Assumed::Afloat => "the chair goes into water: whether it floats, which way up, whether a wave rolls it over and whether the rider \
             gets free of it was not looked at. A frame of capped pipe does not carry a rider and may lift the feet: no belt, two \
             helpers, and no deeper than the seat (common practice)"
            .to_owned(),
        Assumed::WetGround => "the ground is wet: locked tyres keep half of their friction (from memory)".to_owned(),
        Assumed::DryGround => "conditions.water is not given: the ground under locked tyres is taken as dry".to_owned(),
    }
}
