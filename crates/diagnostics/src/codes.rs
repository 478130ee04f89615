//! The registry: every code that the compiler can print, name first, number second and stable.
//!
//! To add a code: add a row, write its page under `pages/`, add a fixture under `tests/suite/`.

use crate::Severity;

/// What a code is about; the first two digits of its number.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Family {
    /// Characters and lines.
    Writing = 1,
    /// Names and what they may stand for.
    Names = 2,
    /// Units and dimensions.
    Dimensions = 3,
    /// Where things are.
    Geometry = 4,
    /// How things are joined.
    Joining = 5,
    /// The rider's body.
    Fit = 6,
    /// Demands, and standing upright.
    Stability = 7,
    /// Whether it holds.
    Strength = 8,
    /// Cutting and putting together.
    Making = 9,
    /// Prices.
    Cost = 10,
    /// What a shared design must carry.
    Publishing = 11,
    /// Bounds on size and work.
    Limits = 12,
}

/// One code.
#[derive(PartialEq, Eq, Debug)]
pub struct CodeInfo {
    /// The name, as printed and as given to `explain`.
    pub name: &'static str,
    /// The number: family times one hundred plus a running number. Never reused.
    pub number: u16,
    /// What it is about.
    pub family: Family,
    /// How much it weighs unless said otherwise.
    pub severity: Severity,
    /// The meaning in one line.
    pub title: &'static str,
    /// The page: meaning, an example that triggers it, how to mend it.
    pub page: &'static str,
}

impl CodeInfo {
    /// The number as printed: `CW0301`.
    #[must_use]
    pub fn label(&self) -> String {
        format!("CW{:04}", self.number)
    }
}

/// The code with this name or this number.
#[must_use]
pub fn code(name: &str) -> Option<&'static CodeInfo> {
    let numbered = || CODES.iter().find(|c| c.label() == name);
    CODES.iter().find(|c| c.name == name).or_else(numbered)
}

macro_rules! registry {
    ($($family:ident $number:literal $severity:ident $name:literal $title:literal;)*) => {
        /// Every registered code. The first is what an unregistered name falls back to.
        pub const CODES: &[CodeInfo] = &[$(CodeInfo {
            name: $name,
            number: Family::$family as u16 * 100 + $number,
            family: Family::$family,
            severity: Severity::$severity,
            title: $title,
            page: include_str!(concat!("../pages/", $name, ".md")),
        }),*];
    };
}

registry! {
    Limits 0 Error "unregistered-code" "the compiler used a code that is not in its registry";

    Writing 1 Error "stray-character" "a character that means nothing here";
    Writing 2 Error "open-text" "a quoted text is not closed on its line";
    Writing 3 Error "curly-quote" "a typographic quote where a straight one is meant";
    Writing 4 Error "decimal-comma" "a decimal comma; numbers are written with a point";
    Writing 5 Error "hyphen-fraction" "a mixed fraction written with a hyphen";
    Writing 6 Error "feet-marks" "feet and inches written with marks";
    Writing 7 Error "unreadable-line" "a line that cannot be read";
    Writing 8 Error "open-block" "a block is not closed";
    Writing 10 Error "two-statements" "two statements on one line";
    Writing 11 Error "inch-marks" "inches written with marks";
    Writing 12 Error "list-mark" "a line that begins with a list mark";
    Writing 9 Error "stray-brace" "a closing brace without its opening one";

    Names 1 Error "unknown-word" "a statement opens with a word that is no statement";
    Names 2 Error "unknown-name" "a name that nothing declares";
    Names 3 Error "taken-name" "a name is declared twice";
    Names 4 Error "circular-name" "names that depend on each other in a circle";
    Names 5 Error "unknown-entry" "no catalogue page in use has this entry";
    Names 6 Error "unknown-import" "a file or page that cannot be found";
    Names 7 Error "outside-project" "a path that leaves the project's folder";
    Names 8 Error "missing-clause" "a statement lacks something it must carry";
    Names 9 Error "unknown-clause" "a word that this statement does not take";
    Names 10 Error "unknown-function" "a function that does not exist, or got the wrong number of values";
    Names 11 Error "figure-in-geometry" "a computed figure used where the chair is still being drawn";
    Names 12 Error "reserved-name" "a name that belongs to the language";
    Names 13 Error "unknown-variant" "a variant that the design does not have";
    Names 14 Error "circular-import" "files that import each other in a circle";
    Names 15 Error "one-side-name" "a name that exists on both sides is used without its side";
    Names 16 Error "given-twice" "the same thing is given twice in one statement";
    Names 17 Error "not-changeable" "something that cannot be changed from a variant or the command line";
    Names 18 Error "missing-source" "a catalogue entry without a source";
    Names 22 Error "bad-name" "a name that cannot be written like this";
    Names 21 Warning "idle-accept" "a finding is accepted that does not occur";
    Names 20 Error "not-acceptable" "a finding that cannot be accepted or made lighter like this";
    Names 19 Error "misplaced-statement" "a statement that may not stand here";

    Dimensions 1 Error "unknown-unit" "a unit that does not exist";
    Dimensions 2 Error "wrong-dimension" "a quantity of one kind where another is wanted";
    Dimensions 3 Error "needs-unit" "a bare number where a quantity is wanted";
    Dimensions 4 Error "needs-angle" "a bare number where an angle is wanted";
    Dimensions 5 Error "mixed-dimensions" "quantities of different kinds are added or compared";
    Dimensions 6 Error "mass-for-force" "a mass where a force is wanted";
    Dimensions 7 Error "wrong-kind" "a thing of one kind where another is wanted";
    Dimensions 8 Error "bad-fraction" "a literal of several parts that do not belong together";
    Dimensions 9 Error "divided-by-zero" "a division by zero";
    Dimensions 10 Error "two-currencies" "two currencies meet without a dated rate";
    Dimensions 11 Error "out-of-range" "a parameter outside its declared range";
    Dimensions 12 Error "two-readings" "two thermometer readings are added, or one is a tolerance";
    Dimensions 13 Error "no-value" "a calculation that has no result";
    Dimensions 14 Error "bad-range" "a range whose ends do not make one";
    Dimensions 16 Error "off-step" "an adjustable dimension between its steps";
    Dimensions 17 Error "bad-reading" "a reading of the built chair that no instrument gives";
    Dimensions 25 Error "impossible-value" "a value that no rider, place or part can have";
    Dimensions 18 Error "allowance-range" "a figure of what a material may bear that cannot be";
    Dimensions 15 Error "not-positive" "a size that is zero or less";

    Geometry 1 Error "zero-member" "a member whose ends are in one place";
    Geometry 2 Error "off-member" "a point that lies beyond the ends of its member";
    Geometry 3 Error "no-crossing" "two lines that do not cross";
    Geometry 4 Error "bent-panel" "panel corners that do not lie in one plane";
    Geometry 11 Error "crossed-panel" "a panel whose outline crosses itself";
    Geometry 5 Error "cannot-stand" "the chair cannot be set on the ground";
    Geometry 6 Warning "rocks" "one wheel does not touch the ground";
    Geometry 7 Error "no-outward" "outward or inward where there is no side";
    Geometry 8 Error "piece-too-short" "a piece too short for the sockets at its ends";
    Geometry 9 Warning "stem-leans" "a caster stem that is not upright on the ground";
    Geometry 20 Warning "wheel-toes" "a rear wheel that does not run straight";
    Geometry 30 Error "short-trail" "a caster that hardly trails, or runs ahead of its stem";
    Geometry 31 Warning "odd-camber" "rear wheels that lean outward at the top, or further than an everyday chair's";
    Geometry 10 Error "below-floor" "a part of the frame lies below the floor";

    Joining 1 Error "no-fitting" "no fitting closes this joint";
    Joining 2 Error "loose-socket" "a pipe that enters a socket and never touches it";
    Joining 3 Error "tight-socket" "a pipe that does not enter its socket";
    Joining 13 CannotTell "unsure-socket" "a pipe that fits its socket, and within its tolerance may not";
    Joining 4 Warning "weaker-pipe" "a pipe that fits the socket but is weaker than the pipe it is made for";
    Joining 5 CannotTell "unmeasured-take-out" "a take-out that is a published minimum, not a measurement";
    Joining 6 Error "unclosed-joint" "a joint whose closing nobody has chosen";
    Joining 7 Error "wrong-fitting" "the named fitting does not suit the joint";
    Joining 8 Error "lap-conflict" "laps that ask one member to lie in two places";
    Joining 9 Warning "open-end" "an open pipe end";
    Joining 11 Error "uneven-rows" "fasteners that do not make so many rows alike";
    Joining 10 Error "sleeve-fit" "a sleeve that does not slide";
    Joining 12 Error "fastened-twice" "two statements that hold the same two things together";

    Fit 3 Warning "readings-apart" "two readings of one measure that disagree";
    Fit 2 Warning "odd-measure" "a measure that hardly any body has";
    Fit 62 CannotTell "not-of-the-rider" "a measure of the rider that comes from a data sheet, which no body has";
    Fit 60 Error "limb-end" "the end of a limb does not go with what is missing of it";
    Fit 4 Error "joint-bent" "a joint of the body bent further than it goes";
    Fit 5 Error "breaks-fit-rule" "a published rule of fit is broken without a reason";
    Fit 6 Error "under-bones" "a seat narrower than the rider's bones";
    Fit 42 Warning "body-pressed" "a part of the chair presses on chest, knees or thighs";
    Fit 43 Warning "rim-too-thick" "a push rim that the hand does not close round";
    Fit 44 CannotTell "no-hand" "a push rim that an arm without its hand is to push";
    Fit 7 Warning "idle-deviation" "a reason for breaking a rule that is kept";
    Fit 8 Warning "skin-flag" "something that is risky for skin without feeling";
    Fit 20 Error "caster-hits-foot" "a caster swings onto the rider's foot, or too near to it";
    Fit 21 Error "caster-hits" "a caster swings onto something of the chair, or too near to it";
    Fit 22 Error "tyre-rubs" "too little room between a tyre and the chair's side";
    Fit 23 Warning "finger-gap" "a gap that catches a child's finger";
    Fit 45 Warning "finger-trap" "a gap that closes on a child's finger as the chair is set otherwise";
    Fit 61 Warning "parts-collide" "parts that run into each other as the chair is set otherwise";
    Fit 24 Error "wheel-stuck" "something is in the way of a wheel that is pulled off";
    Fit 46 Error "wheel-blocked" "something stands where the spokes of a wheel or another wheel turn";
    Fit 25 Warning "thumb-room" "too little room for the hand at push rim or brake";
    Fit 26 Error "wheel-overloaded" "a wheel that carries more than it is rated for, or nobody can tell";
    Fit 27 Error "one-sided-axle" "a wheel that needs its axle held at both ends is held at one";
    Fit 53 Error "axle-bore" "an axle that does not go into its wheel or receiver, or is loose in it";
    Fit 28 Error "axle-length" "hub and receiver do not add up to the axle's usable length";
    Fit 52 CannotTell "arm-far-behind" "an arm that goes further behind the trunk for its push rim than shoulders do";
    Fit 51 Error "brake-out-of-reach" "a wheel lock that no hand gets to";
    Fit 41 CannotTell "posture-not-drawn" "the rider keeps a posture that the body here cannot take";
    Fit 70 CannotTell "cannot-sit" "a body that cannot sit as the chair is drawn";
    Fit 40 Advice "unlike-baseline" "the chair differs from one that the rider likes";
    Fit 29 Advice "coast-test" "only a ride can tell whether a caster flutters";
    Fit 1 Error "missing-measure" "a measure of the rider that a figure needs";

    Stability 1 Error "requirement-unmet" "a requirement of the design is not met";
    Stability 2 Warning "preference-unmet" "a preference of the design is not met";
    Stability 3 CannotTell "cannot-tell" "a figure that could not be computed";
    Stability 5 Error "tips-too-soon" "the chair tips on a slope that its use profile wants it to bear";
    Stability 6 Error "tips-when-leaning" "leaning out of the chair tips it on its path";
    Stability 7 Error "no-anti-tip" "the use profile wants an anti-tip device and there is none";
    Stability 8 Error "idle-anti-tip" "an anti-tip device that does not do its work";
    Stability 9 Error "anti-tip-catches" "an anti-tip device that is on the ground where it must not be";
    Stability 10 Error "angles-disagree" "two measured tipping angles that cannot be of one chair";
    Stability 11 Warning "built-differs" "the built chair balances elsewhere than the plan";
    Stability 12 CannotTell "hangs-on-a-measure" "a demand that is met or not by what an uncertain value turns out to be";
    Stability 13 Error "test-failed" "the built chair does not pass a test of its sheet";
    Stability 14 Error "off-sheet" "the built chair is not the one that was worked out";
    Stability 15 CannotTell "held" "the built chair is held: not everything was tested";
    Stability 4 Error "falls-over" "the chair does not stand by itself";

    Stability 20 Error "grounds" "a part touches the ground where a slope begins or ends";
    Stability 21 Error "pitches-forward" "stopped by a step, chair and rider go over forward";
    Stability 70 Error "tips-on-step" "with its casters a step higher or lower than its rear wheels the chair tips";
    Stability 71 Error "tips-empty" "the chair goes over backward as soon as its rider has left it";
    Stability 22 Warning "sill-too-high" "a step that the casters do not climb";
    Stability 23 Error "slot-catches" "a slot that a wheel drops into";
    Stability 43 Error "one-hand-turns" "pushed by one hand at one rim the chair goes in circles";
    Stability 24 Error "too-steep-to-push" "the slope asks more than the rider can push";
    Stability 54 Warning "hand-overtaxed" "the path asks more of a hand than it may push";
    Stability 25 CannotTell "brake-unknown" "nobody can tell whether the brakes hold on the slope";
    Stability 26 Error "brakes-slip" "the brakes hold less than the slope pulls";
    Stability 27 Error "slides" "with its wheels locked the chair slides down the slope";
    Stability 28 Warning "tips-when-pushed" "a push that the rider has lifts the casters";
    Stability 29 Warning "drifts" "on the cross slope one hand has to hold back all the way";
    Stability 30 Error "strikes-sill" "a part meets the step ahead of the casters, or under the chair";
    Stability 31 Error "too-wide" "the chair is wider than the door or corridor";
    Stability 32 Warning "too-long-to-turn" "the chair does not turn in the space there is";
    Stability 33 Warning "under-table" "the knees do not go under the table";
    Stability 41 Warning "too-tall" "the seated rider's head does not pass below something";
    Stability 34 Warning "transfer-step" "seat and bed or toilet differ in height";
    Stability 35 Warning "boot-too-small" "the frame or a wheel does not go into the boot";
    Stability 42 Error "tips-when-turned" "turned to the side on the slope of its path the chair tips";
    Stability 40 Warning "tips-before-baseline" "the chair tips sooner than one that the rider is used to";
    Stability 36 Warning "too-heavy-to-lift" "the heaviest piece is more than is lifted";
    Fit 50 Error "rim-beyond-reach" "a push rim that the rider's hand does not get to";
    Stability 50 CannotTell "layout-unjudged" "wheels that stand otherwise than the formulas of rolling are for";
    Stability 51 Error "brake-misses" "a wheel lock that does not reach its tyre";
    Stability 52 CannotTell "profile-silent" "a direction of tipping that the use profile has no margin for";
    Stability 53 CannotTell "no-seat" "a rider without a seat";
    Stability 55 CannotTell "undeclared" "a chair and a rider, and nothing declared to judge them by";

    Strength 1 Error "overstressed" "a part that does not hold in a load case";
    Strength 2 Error "weak-joint" "a joint or fastening that does not hold in a load case";
    Strength 3 Error "mechanism" "a part of the chair that nothing holds";
    Strength 4 Error "forbidden-path" "a load goes where it must never go";
    Strength 5 CannotTell "strength-unknown" "something that carries and cannot be judged";
    Strength 6 CannotTell "brittle-cold" "a material that a blow may shatter in this cold";
    Strength 7 Error "incompatible" "things that must not touch, or not here";
    Strength 8 CannotTell "prove-by-test" "something that only a test can tell";
    Strength 9 Error "off-face" "fasteners that do not lie on the face that two pieces share";
    Strength 10 Warning "splits" "fasteners so near to each other, to an end or an edge that wood splits";
    Strength 11 Warning "points-out" "screws or nails whose points come out behind";
    Strength 12 Warning "points-meet" "screws or nails of two gusset plates that meet inside";

    Making 2 Error "hole-misses" "a hole that cannot be drilled where it is";
    Making 3 Error "holes-meet" "two holes that run into each other";
    Making 4 Warning "hole-in-socket" "a hole through a socket as well as its pipe";
    Making 5 Warning "drawn-through" "parts that are drawn through each other where no joint explains it";
    Making 6 Warning "drawn-into" "a seat, back, foot or arm support that is drawn into what it lies on";
    Making 1 Error "longer-than-stock" "a piece longer than anything the shop sells";

    Cost 1 Warning "missing-price" "no price for something that must be bought";
    Cost 2 Error "bad-price-row" "a row of the price book that cannot be read";
    Cost 3 Error "mixed-currencies" "a price book in two currencies";
    Cost 4 Warning "priced-twice" "two rows of a price book price the same thing, sold in the same way";

    Publishing 20 Error "bad-date" "a date that is no date, or can be read in two ways";
    Publishing 2 CannotTell "unknown-origin" "a value that a safety figure hangs on, and nobody says where it is from";
    Publishing 3 Advice "unnamed-design" "a chair without a `design` line, of which not everything is told";
    Publishing 1 Warning "no-licence" "a design without a licence";

    Limits 1 Error "too-deep" "nesting deeper than the limit";
    Limits 2 Error "too-large" "a file or a list larger than the limit";
    Limits 3 Error "too-much-work" "more work than the limit";
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_and_numbers_are_unique_and_in_their_family() {
        for (i, a) in CODES.iter().enumerate() {
            for b in &CODES[i + 1..] {
                assert_ne!(a.name, b.name);
                assert_ne!(a.number, b.number, "{} and {}", a.name, b.name);
            }
            assert_eq!(a.number / 100, a.family as u16, "{}", a.name);
        }
    }
}
