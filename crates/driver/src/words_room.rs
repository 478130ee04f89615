//! Problems of room in words.

use crate::words::Words;
use chairwright_checks::room::Problem;
use chairwright_design::Origin;
use chairwright_diagnostics::{Diagnostic, Severity};
use chairwright_quantity::{Dimension, Quantity};

impl Words<'_> {
    /// What the drawing leaves to building.
    fn built_decides(&self, said: Diagnostic, larger: &str, by: f64) -> Diagnostic {
        said.note(format!(
            "as drawn it does; built it may be {} {larger} and still pass its test sheet: a tape and hands are not exacter",
            self.length(by)
        ))
    }

    pub(crate) fn room(&self, problem: &Problem) -> Diagnostic {
        match problem {
            Problem::TooWide { what, origin, clear, width, built } if clear >= width => {
                let headline = format!("nobody can tell whether the built chair passes this {what}");
                let said = Diagnostic::new("too-wide", headline).severity(Severity::CannotTell);
                let label =
                    format!("{} clear, the chair is drawn {} wide", self.length(*clear), self.length(*width));
                self.built_decides(self.at_or(said, *origin, label), "wider", *built).help(format!(
                    "draw it {} narrower, or measure the width of the built chair: as_built {{ width = … }}",
                    self.up(width + built - clear)
                ))
            }
            Problem::TooWide { what, origin, clear, width, .. } => {
                let over = self.up(width - clear);
                let said = Diagnostic::new("too-wide", format!("the chair is {over} too wide for this {what}"));
                self.at_or(
                    said,
                    *origin,
                    format!("{} clear, the chair is {} wide", self.length(*clear), self.length(*width)),
                )
                .help("narrower rims, less camber or narrower wheels first, then the seat; the hands need room too")
            }
            Problem::TurnsTooWide { origin, space, diameter, furthest, built } => {
                let drawn = space >= diameter;
                let said = Diagnostic::new(
                    "too-long-to-turn",
                    match drawn {
                        true => "nobody can tell whether the built chair turns on the spot here",
                        false => "the chair does not turn on the spot here",
                    },
                );
                let said = if drawn {
                    self.built_decides(said.severity(Severity::CannotTell), "longer", built / 2.0)
                } else {
                    said
                };
                let far = Quantity::from_si(furthest.0.abs(), Dimension::LENGTH);
                let way = if furthest.0 >= 0.0 { "ahead of" } else { "behind" };
                self.at_or(
                    said,
                    *origin,
                    format!("{} of space, it takes {}", self.length(*space), self.length(*diameter)),
                )
                .note(format!("what reaches furthest lies {} {way} the rear axle", self.display.text(far)))
                .help(format!(
                    "bring it {} nearer to the axle, or turn with to and fro",
                    self.up((diameter + if drawn { *built } else { 0.0 } - space) / 2.0)
                ))
            }
            Problem::CornerTooTight { origin, corridors, lacks, size, shorter } => {
                let (a, b) = (self.length(corridors.0), self.length(corridors.1));
                let from = format!("from {a} into {b}");
                if *lacks <= 0.0 {
                    let headline = "nobody can tell whether the built chair gets round this corner";
                    let said = Diagnostic::new("too-long-to-turn", headline).severity(Severity::CannotTell);
                    let said = self.at_or(said, *origin, from).note(format!(
                        "{} long with feet and {} wide as drawn, as a rectangle: {} are left at its tightest",
                        self.length(size.0),
                        self.length(size.1),
                        self.length(-lacks)
                    ));
                    let said =
                        self.built_decides(said, "wider", chairwright_checks::SIZE - chairwright_checks::TAPE);
                    return said.help("draw it so much narrower, or measure the width of the built chair: as_built { width = … }");
                }
                let said = Diagnostic::new("too-long-to-turn", "the chair does not get round this corner");
                let said = self.at_or(said, *origin, from);
                let said = said.note(format!(
                    "{} long with feet and {} wide, as a rectangle: its corners are {} in the wall",
                    self.length(size.0),
                    self.length(size.1),
                    self.length(*lacks)
                ));
                said.help(match shorter {
                    Some(shorter) => format!(
                        "it gets round when it is {} shorter, or {} narrower",
                        self.up(size.0 - shorter),
                        self.up(*lacks)
                    ),
                    None => format!("it gets round when it is {} narrower", self.up(*lacks)),
                })
            }
            Problem::UnderTable { origin, clear, seat, sunk, thigh, blocked } => {
                self.under_table(*origin, *clear, (*seat, *sunk), *thigh, blocked.as_deref())
            }
            Problem::ShallowTable { origin, depth, ahead } => {
                let said = Diagnostic::new("under-table", "the table ends before the seat begins");
                self.at_or(
                    said,
                    *origin,
                    format!(
                        "{} deep below, {} of chair and feet ahead of the seat",
                        self.length(*depth),
                        self.length(*ahead)
                    ),
                )
                .note("toes, casters or foot support meet what ends the room below the table")
                .help(format!(
                    "bring feet and casters back by {}, or clear the room below",
                    self.up(ahead - depth)
                ))
            }
            Problem::TooTall { origin, clear, crown, over } => {
                let said = Diagnostic::new("too-tall", "the rider's head does not pass below this");
                self.at_or(
                    said,
                    *origin,
                    format!("{} clear, the crown is at {}", self.length(*clear), self.length(*crown)),
                )
                .note(format!(
                    "a path is not level, and a head nods: {} are wanted above it",
                    self.length(*over)
                ))
                .help(format!(
                    "lower seat or cushion by {}, or take another way",
                    self.up(crown + over - clear)
                ))
            }
            Problem::TransferStep { what, origin, height, seat } => {
                let higher = if seat > height { "higher" } else { "lower" };
                let said = Diagnostic::new(
                    "transfer-step",
                    format!("the seat is {} {higher} than the {what}", self.length((seat - height).abs())),
                );
                self.at_or(said, *origin, format!("{}, and the loaded cushion {}", self.length(*height), self.length(*seat)))
                    .note("up to 50 mm is what most riders cross; beyond it a transfer is a climb or a fall")
                    .help("bring seat and cushion nearer to that height, raise or lower the other, or plan a board and a helper")
            }
            Problem::BootTooSmall { origin, size, boot, over, slanted, as_ridden } => {
                self.boot(*origin, *size, *boot, (*over, *slanted), *as_ridden)
            }
            Problem::WheelBeyondBoot { origin, wheel: [diameter, thick], boot, lacks } => {
                let known: Vec<String> = boot.iter().flatten().map(|b| self.length(*b)).collect();
                let said = Diagnostic::new("boot-too-small", "a rear wheel does not go into this boot");
                self.at_or(said, *origin, format!("a boot of {}", known.join(" x ")))
                    .note(format!(
                        "it is {} across and {} thick; turned every way it lacks {} at best",
                        self.length(*diameter),
                        self.length(*thick),
                        self.up(*lacks)
                    ))
                    .help("carry the wheels beside the boot, or take smaller ones")
            }
            Problem::TooHeavy { origin, mass, lift } => {
                let text = |kg: f64| self.display.text(Quantity::from_si(kg, Dimension::MASS));
                let said =
                    Diagnostic::new("too-heavy-to-lift", format!("the heaviest piece weighs {}", text(*mass)));
                self.at_or(said, *origin, format!("{} is lifted", text(*lift)))
                    .note("rear wheels and cushion are taken off")
                    .help(format!("take {} off, or make more of it removable", text(mass - lift)))
            }
        }
    }

    fn under_table(
        &self,
        origin: Option<Origin>,
        clear: f64,
        (seat, sunk): (f64, f64),
        thigh: Option<f64>,
        blocked: Option<&str>,
    ) -> Diagnostic {
        let room = clear - 0.015 - seat;
        let label =
            format!("{} clear, the loaded seat is {} high in front", self.length(clear), self.length(seat));
        if let (Some(part), true) = (blocked, thigh.is_none_or(|t| t <= room)) {
            let said = Diagnostic::new("under-table", format!("`{part}` stands in the way under this table"));
            return self
                .at_or(said, origin, label)
                .note("it is taller than the table, and ahead of the seat")
                .help("lower it or bring it back");
        }
        match thigh {
            Some(thigh) if blocked.is_none() && thigh - sunk <= room => {
                let headline = "nobody can tell whether the knees go under this table: the seat is a sling";
                let said = Diagnostic::new("under-table", headline).severity(Severity::CannotTell);
                self.at_or(said, origin, label)
                    .note(format!(
                        "they do where it hangs through by {} under the thighs; it is said to by {} in its middle, where more \
                         lies on it than in front",
                        self.up(thigh - room),
                        self.length(sunk)
                    ))
                    .help(format!(
                        "try it with the rider in the chair, lower the seat by {}, or raise the table",
                        self.up(thigh - room)
                    ))
            }
            Some(thigh) => {
                let said = Diagnostic::new("under-table", "the knees do not go under this table");
                self.at_or(said, origin, label)
                    .note(format!("the thighs are {} thick, and want 15 mm above them", self.length(thigh)))
                    .help(format!("lower seat or cushion by {}, or raise the table", self.up(thigh - room)))
            }
            None if room + sunk <= 0.0 => {
                let said = Diagnostic::new("under-table", "no knee goes under this table");
                self.at_or(said, origin, label).help("lower seat or cushion, or raise the table")
            }
            None => {
                let said =
                    Diagnostic::new("under-table", "nobody can tell whether the knees go under this table");
                let sling = match self.length(room + sunk) {
                    most if sunk > 0.0 => {
                        format!(", and up to {most} where the sling hangs through in front as in its middle")
                    }
                    _ => String::new(),
                };
                self.at_or(said.severity(Severity::CannotTell), origin, label)
                    .note(format!("thighs up to {} thick do{sling}", self.length(room.max(0.0))))
                    .help("measure how thick they are in the seat: thigh_thickness = … in the rider block")
            }
        }
    }

    fn boot(
        &self,
        origin: Option<Origin>,
        size: [f64; 3],
        boot: [Option<f64>; 3],
        (over, slanted): (f64, f64),
        as_ridden: bool,
    ) -> Diagnostic {
        let size = size.map(|s| self.length(s)).join(" x ");
        let known: Vec<String> = boot.iter().flatten().map(|b| self.length(*b)).collect();
        let said = Diagnostic::new("boot-too-small", "the frame does not go into this boot");
        let said = self.at_or(said, origin, format!("a boot of {}", known.join(" x ")));
        let said = said.note(format!("without rear wheels and cushion it is {size}, long, wide and high"));
        let said = said.note(format!(
            "laid square, its best way of six lacks {}; slanted about one of its edges it lacks {}",
            self.up(over),
            self.up(slanted)
        ));
        if as_ridden {
            said.help("make the back or the foot support removable, and say so: state boot { without … }")
        } else {
            said.help("take more of it off in this state, or make it smaller")
        }
    }
}
