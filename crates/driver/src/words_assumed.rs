//! What the strength check took for granted and what it left out, in a builder's words.

use crate::sides::folded;
use crate::strengthen::placing::clauses;
use chairwright_strength::{Assumed, IdleSleeve, Unchecked};

fn celsius(kelvin: f64) -> String {
    format!("{:.0} degC", kelvin - 273.15)
}

fn mm(metres: f64) -> String {
    format!("{:.1} mm", metres * 1e3)
}

fn percent(share: f64) -> String {
    format!("{:.0} %", share * 100.0)
}

/// An assumption of the strength check in one line.
#[must_use]
pub fn assumed_words(assumed: &Assumed) -> String {
    let line = match assumed {
        Assumed::NoTemperature(t) => format!("no temperature is declared; taken at {}", celsius(*t)),
        Assumed::Parked(t) => {
            format!("taken at the parked temperature, {}: a chair is ridden from where it stood", celsius(*t))
        }
        Assumed::Modulus(m, e) => {
            format!("{m} has no modulus; taken as {:.1} GPa to share out the loads", e / 1e9)
        }
        Assumed::Poisson(m, nu) => format!("{m} has no Poisson's ratio; taken as {nu:.2}"),
        Assumed::LowerBound(m) => {
            format!("the strength of {m} has no scatter; it is taken for what nearly every piece bears")
        }
        Assumed::WoodShear(share) => {
            format!("wood is taken 1/{:.0} as stiff in shear as along its grain", 1.0 / share)
        }
        Assumed::SealedEnds => {
            "wood in the wet is taken as damp, not rotten: all end grain, cut edges and drilled holes are \
             sealed with the finish, and again each year (common practice, no source)"
                .to_owned()
        }
        Assumed::Creep(m, left) => format!(
            "nothing says how {m} creeps; years of load are taken to leave {} of its stiffness",
            percent(*left)
        ),
        Assumed::WarmStiffness(m, left) => format!(
            "{m} is hotter than anything known of it; {} of its stiffness is taken to share out the loads",
            percent(*left)
        ),
        Assumed::Notch(m, factor) => {
            format!("{m} has no notch factor; holes and lips are taken to raise its stress {factor:.1} times")
        }
        Assumed::TightSleeve(member, stock, play) => format!(
            "{stock} on {member} is taken to sit tight on its shim, for years and in the heat; its sizes leave up to {} \
             of play: fill that at both ends and in the middle; where an end of it lies free, {member} is judged alone over one \
             width of its own",
            mm(*play)
        ),
        Assumed::LooseSleeve(member, stock, play) => format!(
            "{stock} on {member} may have {} of play, and nobody says that it is filled: until {member} has bent so \
             far it carries nothing, so it makes nothing sound. Fill the play and write shimmed \"...\" with what",
            mm(*play)
        ),
        Assumed::NoFiller { bar, sleeve, play, with } => format!(
            "{sleeve} on {bar} may have {} of play, and nothing here knows that \"{with}\" fills it: until {bar} has bent so far it \
             carries nothing, so it makes nothing sound. Fill the play with epoxy putty or strips of hard plastic, metal or wood",
            mm(*play)
        ),
        Assumed::BoltHoles(wider) => format!(
            "bolts go through the middle of what they hold, those of several rows side by side, in holes {} wider than they are",
            mm(*wider)
        ),
        Assumed::Bored(all) => {
            let each = |(bar, d): &(String, f64)| format!("{bar} {}", mm(*d));
            format!(
                "axles and stems go through the middle of what carries them, in holes as wide as they are: {}",
                all.iter().map(each).collect::<Vec<_>>().join(", ")
            )
        }
        Assumed::BoxGrain(names) => format!(
            "which way the face grain of {} runs nobody says: its plates may bear half across it; where they are \
             cut with the grain along the box, write grain lengthwise",
            names.join(", ")
        ),
        Assumed::NoGrade(m, low, high) => format!(
            "{m} has no grade and no proof: knots may leave {} to {} of what clear wood bears; what only a better \
             grade holds cannot be told. Read the stamp on the board (grade = \"SPF No. 2\") or load it on a bench \
             (proof_force)",
            percent(*low),
            percent(*high)
        ),
        Assumed::Proven(m, stress) => format!(
            "a board of {m} bore {:.1} MPa for ten minutes on a bench: half of it counts, for that very board lying \
             that way; it says nothing of the next board, of shear, nor of many loads",
            stress / 1e6
        ),
        Assumed::Along(m, pull, push) => format!(
            "nothing says what {m} bears in pull and push along the grain; taken as {} and {} of bending",
            percent(*pull),
            percent(*push)
        ),
        Assumed::Places(all, inches) => {
            let mut by: Vec<(String, Vec<&str>)> = Vec::new();
            for (name, placing) in all {
                let clauses = clauses(placing, *inches);
                match by.iter_mut().find(|(c, _)| *c == clauses) {
                    Some((_, names)) => names.push(name),
                    None => by.push((clauses, vec![name])),
                }
            }
            let one =
                |(c, names): &(String, Vec<&str>)| format!("{}: {c}", folded(names.iter().copied()).join(", "));
            format!(
                "nobody says where these fasteners sit; taken in the rows that fit in which they bear most, and only there they \
                 bear what is said: {}",
                by.iter().map(one).collect::<Vec<_>>().join("; ")
            )
        }
        Assumed::LeadHoles => {
            "fasteners stand in lead holes, but those that the text says are driven undrilled, in the middle of the face that both parts share as drawn, where the text places them, or \
             else in those rows that fit in which they bear most; and the joint does not give way before the rigid frame hands it its \
             moment"
                .to_owned()
        }
        Assumed::NoNuts(names) => format!(
            "every bolt has a nut that fits it, where its list names none as well: those are neither bought nor weighed; write them: {}",
            folded(names.iter().map(String::as_str)).join(", ")
        ),
        Assumed::WeakestBolts => {
            "bolts are of the weakest class that is sold, 4.6, and press on wood with their plain shank, or with the root of their thread \
             where their page says root_diameter, as of those threaded all along; screws go in from the side from which they hold less; \
             a washer counts as wide as its page says, and only where there are two for each bolt"
                .to_owned()
        }
        Assumed::Friction(share) => {
            format!("friction of {share:.1} keeps a seat or foot support from sliding on what it lies on")
        }
        Assumed::GluePressed => "glue is pressed together and cured at 10 degC or more".to_owned(),
        Assumed::GluedCorners => {
            "the corners of boxes are glued all along, without gaps, in a glue that stands the place of use"
                .to_owned()
        }
    };
    format!("strength: {line}")
}

/// What was left out, as the end of "Not checked: ".
#[must_use]
pub fn unchecked_words(unchecked: &Unchecked) -> String {
    match unchecked {
        Unchecked::Sleeve(member, stock, why) => {
            let why = match why {
                IdleSleeve::Play(play) => format!("it may have {} of play", mm(*play)),
                IdleSleeve::Misfit => "it goes neither into it nor over it".to_owned(),
                IdleSleeve::Strength => "nothing says what it bears".to_owned(),
                IdleSleeve::Stiffness => "nothing says how stiff it is".to_owned(),
            };
            format!("what {stock} helps on {member}: {why}, so it is given nothing to carry")
        }
        Unchecked::AxleHoles(bars) => format!(
            "what the holes for axles and stems take from {}: the text drills none there",
            bars.join(", ")
        ),
        Unchecked::Pressed(bars) => format!(
            "how hard axles and stems press into the bare wood or plastic of {}: put a metal bush there",
            bars.join(", ")
        ),
        Unchecked::LeftOpen(joint) => format!("{joint}: left open in the text, taken as holding nothing"),
        Unchecked::Sideways => "pushes from the side".to_owned(),
        Unchecked::Axles(names) => format!(
            "the axles of {}: measure how thick each is where it comes out of what holds it, write axle_diameter in the part, and draw \
             what holds it",
            names.join(", ")
        ),
        Unchecked::Ratings(names, most) => format!(
            "what {} may carry: up to {:.0} N each in these load cases; ask the maker, and whether a rating is \
             for one or for a pair",
            names.join(", "),
            most
        ),
    }
}
