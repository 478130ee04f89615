//! Problems of the rider's balance in words: slopes that tip, anti-tip devices, and what was read of the built chair.

use crate::words::Words;
use chairwright_checks::{AntiTipFault, Lack};
use chairwright_design::Origin;
use chairwright_diagnostics::{Diagnostic, Severity};

impl Words<'_> {
    pub(crate) fn tips_leaning(
        &self,
        (figure, measure): (&str, &str),
        (lean, has, slope): (f64, f64, f64),
        origin: Option<Origin>,
    ) -> Diagnostic {
        let said = Diagnostic::new(
            "tips-when-leaning",
            format!("`{figure}` is {}, and the path has {}", self.rounded_down(has), self.angle(slope)),
        );
        self.perhaps(said, origin, format!("{measure} = {}", self.angle(lean)))
            .note("reaching out of the chair moves the weight of the trunk past the wheels: many falls happen so")
            .help("move the wheels or casters that way, or lower the seat; if the rider leans less, measure and say so")
    }

    pub(crate) fn tips_turned(
        &self,
        figure: &str,
        (has, slope, margin): (f64, f64, f64),
        origin: Option<Origin>,
    ) -> Diagnostic {
        let leaning = figure.ends_with(".leaning");
        let words = match figure {
            "tip.any.leaning" => "leaning any way",
            _ if leaning => "leaning to the side",
            _ => "standing to any side",
        };
        let has_words =
            format!("`{figure}` is {}, and the slope {}", self.rounded_down(has), self.angle(slope));
        let said = if has <= slope && !leaning {
            Diagnostic::new(
                "tips-when-turned",
                format!("turned on the slope of its path the chair tips: {has_words}"),
            )
        } else {
            Diagnostic::new(
                "cannot-tell",
                format!(
                    "nobody can tell whether the chair may turn on the slope of its path, {words}: {has_words}"
                ),
            )
        };
        let label = if margin > 0.0 {
            format!(
                "{} of slope, and the profile wants {} more at least",
                self.angle(slope),
                self.angle(margin)
            )
        } else {
            format!("{} of slope", self.angle(slope))
        };
        let said = self.perhaps(said, origin, label).note(
            "whoever turns on a ramp, or on its landing, stands across and slanted to it on the way; nothing says that it never happens",
        );
        if leaning {
            said.help("widen the track or lower the seat; else teach to sit upright while turning there, and try it with helpers")
        } else {
            let steadier =
                if figure == "tip.side" { "widen the track or lower the seat" } else { self.steadier() };
            said.help(format!("{steadier}; else turn on level ground only, and try it with helpers"))
        }
    }

    pub(crate) fn tips_on_both(&self, has: f64, slope: f64, origin: Option<Origin>) -> Diagnostic {
        let headline = format!(
            "nobody can tell whether the slope and the cross slope are met at one place: together they fall by {}, and `tip.any` is {}",
            self.angle(slope),
            self.rounded_down(has)
        );
        self.perhaps(Diagnostic::new("cannot-tell", headline), origin, "here, or across")
            .note("a path that climbs and falls to its side is steeper than either, slanted to both; each alone the chair bears")
            .help(format!("{}; where the two are never met at once, accept it and say why", self.steadier()))
    }

    pub(crate) fn slope_unsaid(
        &self,
        (figure, has): (&str, f64),
        ramp: f64,
        origin: Option<Origin>,
    ) -> Diagnostic {
        let headline =
            "nobody can tell whether it stays upright where it is used: the place names no slope".to_owned();
        let label = format!("`{figure}` is {}", self.rounded_down(has));
        self.perhaps(Diagnostic::new("cannot-tell", headline), origin, &label)
            .note(format!("a ramp before a door may have {}, 1 in 12 (ISO 21542)", self.angle(ramp)))
            .help("measure the steepest ramp or path and what it falls to its side: slope = …, cross_slope = … in the conditions")
    }

    /// What nothing is declared for.
    pub(crate) fn undeclared(&self, lacks: &[Lack], origin: Option<Origin>) -> Diagnostic {
        let open = lacks.iter().map(|lack| match lack {
            Lack::FitRules => "whether the chair fits its rider",
            Lack::Profile => "whether it tips less easily than its rider can bear",
            Lack::Slope => "whether it stands on the slopes of its path",
            Lack::Brake => "whether it stays where it is put",
        });
        let open: Vec<&str> = open.collect();
        let headline = format!("nobody can tell {}: nothing is declared to judge it by", open.join(", "));
        let mut said = self.at_or(Diagnostic::new("undeclared", headline), origin, "the rider".to_owned());
        let mut helps = Vec::new();
        for lack in lacks {
            let (note, help) = match lack {
                Lack::FitRules => (
                    "no fit rules are named: the fit was measured, not judged",
                    "name a published set: use catalogue.fit_rules and fit_rules \"…\"",
                ),
                Lack::Profile => (
                    "no use profile is named: no margin is kept to the slopes that tip the chair",
                    "name who uses it how: use catalogue.profiles and profile \"…\"",
                ),
                Lack::Slope => (
                    "the place names no slope: neither tipping nor brakes were held against one",
                    "say the steepest slope, and 0 deg where there is none: conditions { slope = … }",
                ),
                Lack::Brake => (
                    "no brake is drawn: the chair rolls off as soon as nobody holds it, in a transfer too",
                    "add a brake on both sides",
                ),
            };
            said = said.note(note);
            helps.push(help);
        }
        said.help(helps.join("; "))
    }

    /// What makes a chair steadier the way in which it tips first.
    fn steadier(&self) -> &'static str {
        // from straight ahead; within 30 degrees of straight ahead or back the track has no part in it
        let toward = self.figures.si("direction.tip.any").map_or(90.0, |t| t.to_degrees().rem_euclid(360.0));
        match toward {
            t if (150.0..=210.0).contains(&t) => {
                "it tips straight back first, where a wider track does nothing: move the rear wheels back, or lower the seat"
            }
            t if !(30.0..=330.0).contains(&t) => {
                "it tips straight ahead first, where a wider track does nothing: move the casters forward, or lower the seat"
            }
            _ => "widen the track, move the casters or lower the seat",
        }
    }

    pub(crate) fn anti_tip(&self, fault: &AntiTipFault, name: &str, origin: Origin) -> Diagnostic {
        match fault {
            AntiTipFault::Missing { profile, place } => {
                let said = Diagnostic::new(
                    "no-anti-tip",
                    format!("the use profile \"{profile}\" wants an anti-tip device"),
                );
                let where_to = match place {
                    Some((back, up)) => format!(
                        "put one on each side: a part of kind anti_tip on a wheel of {}, its middle {} behind the rear axle and {} \
                         above the ground",
                        self.length(0.05),
                        self.length(*back),
                        self.length(*up)
                    ),
                    None => "no fixed place both clears slope and kerb of the path and touches before the chair is past its \
                             balance: use a pair that folds up, with a state without it for the kerb alone and a helper behind, or make the chair steadier"
                        .to_owned(),
                };
                self.placed(said, origin, "and the chair has none")
                    .note("until wheelies are learnt it is the only thing behind the rider's head")
                    .help(where_to)
            }
            AntiTipFault::OneSided { off } => {
                let said = Diagnostic::new(
                    "idle-anti-tip",
                    format!("`{name}` stands on one side, and nothing on the other"),
                );
                self.placed(said, origin, format!("{} off the middle", self.length(*off)))
                    .note("over one device at the side the chair goes on turning, about the line to the other wheel")
                    .help("put one on both sides, or a single one in the middle")
            }
            AntiTipFault::StopsAtKerb { turn, kerb, height } => {
                let said = Diagnostic::new(
                    "anti-tip-catches",
                    format!(
                        "`{name}` is on the ground before the casters are over a kerb of {}",
                        self.length(*height)
                    ),
                );
                let label = format!("touches at {}, the kerb takes {}", self.angle(*turn), self.angle(*kerb));
                self.placed(said, origin, label)
                    .note("neither rider nor helper gets the casters up; who pulls harder lifts the rear wheels")
                    .help("use a device that folds up, with a state without it and a helper behind, or raise it if the chair still tips later than that")
            }
            AntiTipFault::NotBehind => {
                let said =
                    Diagnostic::new("idle-anti-tip", format!("`{name}` does not stand behind the rear axle"));
                self.placed(said, origin, "here it stops nothing").help("move it back behind the rear axle")
            }
            AntiTipFault::NeverTouches => {
                let said = Diagnostic::new("idle-anti-tip", format!("`{name}` never reaches the ground"));
                self.placed(said, origin, "too high or too near the axle").help("move it back and down")
            }
            AntiTipFault::TooLate { turn, free, slope } => {
                let headline = if turn < free {
                    format!("`{name}` touches hardly before the chair has tipped")
                } else {
                    format!("the chair has tipped before `{name}` touches")
                };
                let said = Diagnostic::new("idle-anti-tip", headline);
                let label = format!(
                    "on the ground after {}, tipped at {}",
                    self.angle(*turn),
                    self.rounded_down(*free)
                );
                self.placed(said, origin, label)
                    .note(format!(
                        "nose up on a slope of {}, in the worst loading and with the rider leaning back; it must touch 2 deg before",
                        self.angle(*slope)
                    ))
                    .help("move it down, or back, until it touches well before")
            }
            AntiTipFault::TooNear { has, slope, margin } => {
                let said =
                    Diagnostic::new("idle-anti-tip", format!("`{name}` does not hold the chair on its path"));
                let mut label =
                    format!("bears {}, the path has {}", self.rounded_down(*has), self.angle(*slope));
                if *margin > 0.0 {
                    label.push_str(&format!(" and the profile wants {} more", self.angle(*margin)));
                }
                self.placed(said, origin, label).help("move it back, or down so that it touches sooner")
            }
            AntiTipFault::Catches { clearance, approach, slope } => {
                let said = Diagnostic::new(
                    "anti-tip-catches",
                    format!("`{name}` is on the ground at the foot of a slope of {}", self.angle(*slope)),
                );
                let label =
                    format!("{} off the ground, it clears {}", self.length(*clearance), self.angle(*approach));
                self.placed(said, origin, label)
                    .note("it lifts the rear wheels as the chair comes onto the ramp, and the brakes with them")
                    .help("raise it, or bring it nearer to the axle; it must still touch before the chair tips")
            }
        }
    }

    pub(crate) fn built_impossible(&self, locked: f64, free: f64, origin: Origin) -> Diagnostic {
        let said = Diagnostic::new("angles-disagree", "these two tipping angles are not of one chair");
        self.placed(said, origin, format!("{} locked, {} free", self.angle(locked), self.angle(free)))
            .note("with the wheels free a chair tips later than with them locked: it turns about the axle")
            .help("tip it again, the same rider in the same place, a helper behind the chair each time")
    }

    pub(crate) fn built_unsure(
        &self,
        (locked, free): (&chairwright_design::Band, &chairwright_design::Band),
        (least, most): (f64, f64),
        origin: Origin,
    ) -> Diagnostic {
        let said = Diagnostic::new(
            "angles-disagree",
            "these two tipping angles do not say how high the chair balances",
        );
        let open = if most.is_finite() {
            format!("from {} to {}", self.length(least), self.length(most))
        } else {
            format!("{} or any height above", self.length(least))
        };
        self.placed(said, origin, format!("{} locked, {} free", self.angle(locked.mid()), self.angle(free.mid())))
            .note(format!("with their tolerances they leave the centre of mass {open}: the height of the plan is kept"))
            .help("read both angles again to a tenth of a degree, three times each; nobody's lies above 1.5 m, or is known from angles that leave more than 200 mm open")
    }

    pub(crate) fn built_two_places(&self, tilt: f64, scales: f64, origin: Origin) -> Diagnostic {
        let said = Diagnostic::new("angles-disagree", "the tipping test and the scales are not of one chair");
        let label = format!(
            "{} ahead of the axle by the tilt, {} by the scales",
            self.length(tilt),
            self.length(scales)
        );
        self.placed(said, origin, label)
            .note("the slopes that tip it are worked out from the tipping test")
            .help("weigh it again with all wheels level and the same rider in the same place, and tip it again")
    }

    pub(crate) fn built_differs(
        &self,
        (ahead, up, open): (f64, f64, f64),
        held: bool,
        origin: Origin,
    ) -> Diagnostic {
        let headline = if held {
            "these readings are of another chair than the plan, or misread"
        } else {
            "the built chair balances elsewhere than the plan says"
        };
        let said = Diagnostic::new("built-differs", headline);
        let said = if held { said.severity(Severity::Error) } else { said };
        let x =
            format!("{} further {}", self.length(ahead.abs()), if ahead > 0.0 { "forward" } else { "back" });
        let z = format!("{} {}", self.length(up.abs()), if up > 0.0 { "higher" } else { "lower" });
        let open = if open.is_finite() && open > 0.0 {
            format!("; the angles leave {} of height open", self.length(open))
        } else {
            String::new()
        };
        self.placed(said, origin, format!("{x}, {z}"))
            .note(if held {
                format!("nobody can tell which is right: each slope below is the lesser of the plan's and the test's{open}")
            } else {
                format!("the slopes below are worked out for the chair as it was tipped{open}")
            })
            .help("look for what differs: how the rider sits, the cushion, the mass of the parts")
    }
}
