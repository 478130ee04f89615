//! A change that mends something, and its words.

use super::asked::Kept;
use super::plain::{Plain, Written};

/// So many findings that a change brings are named, the weightiest first.
const NAMED: usize = 4;

/// One parameter turned.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Turn {
    pub name: String,
    pub unit: String,
    pub from: f64,
    pub to: f64,
    /// How much of the range it takes.
    pub share: f64,
    /// Where it is no parameter, but stands as a plain number.
    pub plain: Option<Plain>,
}

/// A change that meets a demand: of one parameter, or of two or three.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Change {
    pub turns: Vec<Turn>,
    /// How much of the ranges it takes together.
    pub share: f64,
    /// What it does beside.
    pub rest: Rest,
    /// Of how many things nobody can tell with it that are told of now.
    pub doubts: usize,
    /// What becomes of it where uncertain values of the text lie at their ends.
    pub firm: Firm,
    /// The same of measures that nobody took.
    pub guess: Guess,
    /// What it does to fit, where no rule judges that.
    pub costs: Vec<String>,
    /// Preferences that are met now and not with it.
    pub spoilt: Vec<String>,
    /// Figures of what is wrong already that it makes worse.
    pub worse: Vec<&'static str>,
    /// What is not said now and is with it, that is no error.
    pub brings: Vec<String>,
    /// A state or a stop in which it brings an error, and what is said there.
    pub elsewhere: Option<(String, String)>,
}

/// What a change does to everything else that is asked.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) enum Rest {
    /// With it all of it is met.
    AllMet,
    /// Nothing is worse.
    Kept,
    /// No other demand breaks, and yet something that is wrong already gets worse; whether all that is asked is met.
    Deeper(bool),
}

/// Whether a change still does it where what the text says is uncertain lies at its ends.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Firm {
    /// Nothing is said to be uncertain.
    Certain,
    /// It does not, or that was not tried.
    Aside,
    /// It does; whether all that is required is met there, too.
    AtEnds(bool),
}

/// Whether a change still does it where measures that nobody took are not what stature says.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) enum Guess {
    /// Nothing is guessed.
    None,
    /// That was not tried.
    Aside,
    /// It does at both ends of each; whether all that is required is met there, too.
    AtEnds(bool),
    /// The same, and none of them moves what is sought.
    Still(bool),
    /// It does not where this one is at an end.
    On(String),
}

/// What becomes of a change at the ends of one kind of value.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Held {
    /// There are none, or it is said of one by name.
    Unsaid,
    Aside,
    AtEnds,
}

impl Change {
    /// Said of kinds of value at whose ends it does it, by the text and by guess: whether all that is required is met there, too.
    pub(super) fn at_ends(self, said: Option<bool>, guessed: Option<Guess>) -> Change {
        let firm = said.map_or(self.firm, Firm::AtEnds);
        let guess = guessed.unwrap_or(self.guess);
        Change { firm, guess, ..self }
    }

    pub(super) fn of(turns: Vec<Turn>, (rest, doubts): Kept) -> Change {
        let share = turns.iter().map(|t| t.share).sum();
        Change {
            turns,
            share,
            rest,
            doubts,
            firm: Firm::Certain,
            guess: Guess::None,
            costs: Vec::new(),
            spoilt: Vec::new(),
            worse: Vec::new(),
            brings: Vec::new(),
            elsewhere: None,
        }
    }

    /// One that makes nothing else worse comes before one that does, then the one that leaves less open, and of equals the smaller.
    pub(super) fn is_better(&self, than: Option<&Change>) -> bool {
        let deeper = |c: &Change| matches!(c.rest, Rest::Deeper(_));
        than.is_none_or(|b| (deeper(self), self.doubts, self.share) < (deeper(b), b.doubts, b.share))
    }

    /// At which ends of uncertain values it does it.
    fn firm_words(&self) -> String {
        let text = match self.firm {
            Firm::Certain => Held::Unsaid,
            Firm::Aside => Held::Aside,
            Firm::AtEnds(_) => Held::AtEnds,
        };
        let guess = match self.guess {
            Guess::None | Guess::Still(_) | Guess::On(_) => Held::Unsaid,
            Guess::Aside => Held::Aside,
            Guess::AtEnds(_) => Held::AtEnds,
        };
        let mut words = ends_words(text, guess).to_owned();
        if let Guess::On(name) = &self.guess {
            words += &format!(" as long as `{name}`, which nobody measured, is what stature says of it");
        }
        words
    }

    /// What becomes of everything else.
    fn rest_words(&self) -> String {
        let text = matches!(self.firm, Firm::AtEnds(false) | Firm::Certain);
        let guess = matches!(self.guess, Guess::AtEnds(false) | Guess::Still(false) | Guess::On(_));
        let aside = match (text, guess) {
            (false, false) => "",
            (true, false) => ", tolerances aside",
            (false, true) => ", measures that nobody took aside",
            (true, true) => ", tolerances and measures that nobody took aside",
        };
        let all = format!("everything that is required is met then{aside}");
        let of = if self.worse.is_empty() { String::new() } else { format!(" ({})", self.worse.join(", ")) };
        match self.rest {
            Rest::AllMet => all,
            Rest::Kept => "no other demand breaks".to_owned(),
            Rest::Deeper(true) => format!("{all}, but something that is wrong already gets worse{of}"),
            Rest::Deeper(false) => {
                format!("no other demand breaks, but something that is wrong already gets worse{of}")
            }
        }
    }

    pub(super) fn words(&self) -> String {
        let firm = self.firm_words();
        let turn = |t: &Turn| {
            let text = |v: f64| format!("{} {}", plain(v), t.unit).trim().to_owned();
            match &t.plain {
                None => (format!("`{}` = {}", t.name, text(t.to)), text(t.from)),
                Some(p) => {
                    let along = p.along.iter().map(|w| w.set(p.goes(w, t.to), &t.unit));
                    let set: Vec<String> = std::iter::once(p.own.set(t.to, &t.unit)).chain(along).collect();
                    let from: Vec<String> =
                        std::iter::once(&p.own).chain(&p.along).map(Written::text).collect();
                    (set.join(" with "), from.join(", "))
                }
            }
        };
        let mut rest = self.rest_words();
        if !self.spoilt.is_empty() {
            rest += &format!("; what is preferred and met now is not then: {}", self.spoilt.join(", "));
        }
        if !self.costs.is_empty() {
            rest += &format!("; it changes fit that no rule judges here: {}", self.costs.join(", "));
        }
        if !self.brings.is_empty() {
            let (named, more) = self.brings.split_at(self.brings.len().min(NAMED));
            let more = if more.is_empty() { String::new() } else { format!("; and {} more", more.len()) };
            rest += &format!("; it brings what is not there now: {}{more}", named.join("; "));
        }
        if let Some((place, headline)) = &self.elsewhere {
            rest += &format!("; but in {place} it brings another error: {headline}");
        }
        match self.turns.as_slice() {
            [one] => {
                let (set, from) = turn(one);
                format!(
                    "{set} would do it{firm} (it is {from}), and {rest}; check it again in every state and at every stop"
                )
            }
            all => {
                let fewer = if all.len() > 2 { "fewer were found that do" } else { "parameter alone does" };
                let all: Vec<String> =
                    all.iter().map(turn).map(|(set, from)| format!("{set} (it is {from})")).collect();
                format!(
                    "{} together would do it{firm}, where no {fewer}, and {rest}; check it again in every state and at every stop",
                    all.join(" and ")
                )
            }
        }
    }
}

/// At the ends of what a change does it: of values of the text, of measures that nobody took.
fn ends_words(text: Held, guess: Held) -> &'static str {
    use Held::{Aside, AtEnds, Unsaid};
    match (text, guess) {
        (Unsaid, Unsaid) => "",
        (Aside, Unsaid) => ", tolerances aside",
        (AtEnds, Unsaid) => " at either end of every tolerance",
        (Unsaid, Aside) => ", measures that nobody took aside",
        (Unsaid, AtEnds) => " at either end of every measure that nobody took",
        (Aside, Aside) => ", tolerances and measures that nobody took aside",
        (Aside, AtEnds) => " at either end of every measure that nobody took, tolerances aside",
        (AtEnds, Aside) => " at either end of every tolerance, measures that nobody took aside",
        (AtEnds, AtEnds) => " at either end of every tolerance and of every measure that nobody took",
    }
}

/// A number without needless decimals.
pub(crate) fn plain(v: f64) -> String {
    let text = format!("{v:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
