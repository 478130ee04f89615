//! Problems of the frame in words.

use crate::words::Words;
use chairwright_design::{FittingId, JointId, MemberId, Origin, StockId, TakeOut, Vec3, heading};
use chairwright_diagnostics::Diagnostic;
use chairwright_frame::{ANGLE_TOLERANCE, Nearest, Problem, RayName};

impl Words<'_> {
    pub(crate) fn frame(&self, problem: &Problem) -> Diagnostic {
        match problem {
            Problem::NoFitting { joint, rays, nearest, any_fittings, sizes } => {
                self.no_fitting(*joint, rays, nearest.as_ref(), *any_fittings, sizes)
            }
            Problem::LooseSocket { joint, stock, socket, gap } => {
                self.loose_socket((*joint, *stock, *socket), *gap)
            }
            Problem::TightSocket { joint, stock, socket, over } => {
                self.tight_socket((*joint, *stock, *socket), *over)
            }
            Problem::UnsureSocket { joint, stock, socket, unsure } => {
                self.unsure_socket((*joint, *stock, *socket), unsure)
            }
            Problem::HoleAlong { .. }
            | Problem::HoleTooWide { .. }
            | Problem::HoleMisses { .. }
            | Problem::HoleInSocket { .. }
            | Problem::HolesMeet { .. } => self.hole(problem),
            Problem::WrongFitting { origin, joint, fitting, rays, ports, off } => {
                self.wrong_fitting(*origin, *joint, *fitting, (*rays, *ports), *off)
            }
            Problem::WeakerPipe { stock, socket, share } => {
                let origin = self.design.stocks[*stock].origin;
                let said = Diagnostic::new(
                    "weaker-pipe",
                    format!(
                        "\"{}\" fits, but is weaker than the pipe these sockets are made for",
                        self.stock(*stock)
                    ),
                );
                self.placed(said, origin, format!("{:.0} % of the section modulus", (share * 100.0).floor()))
                    .note(format!(
                        "the sockets \"{}\" are made for \"{}\"; a silent swap that assembles perfectly is the dangerous kind",
                        self.socket(*socket),
                        self.design.sockets[*socket].made_for
                    ))
                    .help("use the proper pipe, or check the strength of every member with this one")
            }
            Problem::TooDeep { origin, fitting, socket, inserted } => {
                let depth = self.length(self.design.sockets[*socket].depth);
                let said = Diagnostic::new(
                    "impossible-value",
                    format!("no pipe is {} deep in a socket of {depth}", self.length(*inserted)),
                );
                let name = &self.design.fittings[*fitting].name;
                self.placed(said, *origin, format!("\"{name}\" has no deeper socket"))
                    .note("it is taken to be home, which nobody knows")
                    .help("measure from the socket's edge to the mark on the pipe again; where the socket itself is deeper, correct its page: measured \"…\" { depth = … }")
            }
            Problem::UnmeasuredTakeOut { fitting, joint, uses } => self.unmeasured(*fitting, *joint, *uses),
            Problem::Unclosed { joint, members } => {
                let names = self.names(members);
                self.at_joint(
                    Diagnostic::new(
                        "unclosed-joint",
                        format!("nobody says how `{}` is closed", self.joint(*joint)),
                    ),
                    *joint,
                    format!("{names} meet here"),
                )
                .note("only pipe closes itself with a fitting; wood and metal need a decision")
                .help(format!(
                    "for example: close {} with lap of {} toward left using \"bolt M8 x 80\"",
                    self.joint(*joint),
                    members.first().map_or("…", |m| self.member(*m)),
                ))
            }
            Problem::LapConflict { origin, member, first, second } => {
                let said = Diagnostic::new(
                    "lap-conflict",
                    format!("`{}` cannot lie in two places", self.member(*member)),
                );
                self.placed(said, *origin, format!("this lap moves it {}", self.shift(*second)))
                    .note(format!("another lap moves it {}", self.shift(*first)))
                    .help("lap it to the same side at both ends, over members of one thickness, or turn the lap round")
            }
            Problem::NotAtJoint { origin, joint, member } => {
                let said = Diagnostic::new(
                    "unclosed-joint",
                    format!("`{}` does not reach `{}`", self.member(*member), self.joint(*joint)),
                );
                self.placed(said, *origin, "this closing names it")
                    .help("name a member that ends here or runs through here")
            }
            Problem::OpenEnd { joint, member } => self
                .at_joint(
                    Diagnostic::new("open-end", format!("the end of `{}` is open", self.member(*member))),
                    *joint,
                    "nothing closes it",
                )
                .note("water and dirt get in, and a cut edge is sharp")
                .help(format!(
                    "close {0} with \"cap …\", or say that it stays open: close {0} with open",
                    self.joint(*joint)
                )),
            Problem::PieceTooShort { member, piece, between, left, grip } => {
                let origin = self.design.members[*member].origin;
                let said = Diagnostic::new(
                    "piece-too-short",
                    format!("`{piece}` is too short for the sockets at its ends"),
                );
                let label = if *left > 0.0 {
                    format!("{} of pipe for {} of socket", self.length(*left), self.length(*grip))
                } else {
                    "nothing is left of it".to_owned()
                };
                self.placed(said, origin, label)
                    .note(format!(
                        "the fittings at its ends are {} apart, middle to middle",
                        self.length(*between)
                    ))
                    .help(format!("move them apart by {} or more", self.length(grip.max(0.001) - left)))
            }
            Problem::SleeveFit { origin, member, stock, gap } => {
                let said = Diagnostic::new(
                    "sleeve-fit",
                    format!("\"{}\" does not slide in or over `{}`", self.stock(*stock), self.member(*member)),
                );
                self.placed(
                    said,
                    *origin,
                    format!("{} too thick on the diameter in the worst case", self.length(-gap)),
                )
                .help("choose a size that slides with the thickest wall the shop may sell")
            }
            Problem::SleeveOverFitting { origin, member, stock, over, most } => {
                self.over_fitting(*origin, self.no_place(*stock, "over", *member), *over, (*most, *member))
            }
            Problem::SleevesMeet { origin, other, member, stock, inside, over } => {
                let said = self.no_place(*stock, if *inside { "in" } else { "over" }, *member);
                let said =
                    self.placed(said, *origin, format!("another is there already over {}", self.length(*over)));
                self.related(said, *other, "this one")
                    .note("neither goes into the other with the thickest wall that the shop may sell")
                    .help(format!(
                        "take one away, end one {} sooner, or choose sizes that slide into each other",
                        self.length((over * 1e3).ceil() / 1e3)
                    ))
            }
            Problem::FastenedTwice { origin, first, what, to, together } => {
                let said = Diagnostic::new(
                    "fastened-twice",
                    format!("`{what}` and `{to}` are held together by two statements"),
                );
                let said = self.placed(said, *origin, "this one puts its fasteners where the other's are");
                let said = match first == origin {
                    true => said.note("it is told on both sides, and these two things are there only once"),
                    false => self.related(said, *first, "the other"),
                };
                let said = said.note(
                    "each stands in the middle of the one face that both share: what fits there, and what each bears, is told of all of them \
                     together, or not at all",
                );
                said.help(match together {
                    Some(n) => format!("keep one of them, with all its fasteners: … times {n}, and rows, apart, spaced, ends or edges for where they sit"),
                    None => "keep one of them, with one kind of fastener".to_owned(),
                })
            }
        }
    }

    /// A sleeve for which there is no place: said of the member that it would go in or over.
    fn no_place(&self, stock: StockId, side: &str, member: MemberId) -> Diagnostic {
        let (stock, member) = (self.stock(stock), self.member(member));
        Diagnostic::new("sleeve-fit", format!("\"{stock}\" has no place {side} `{member}`"))
    }

    fn over_fitting(
        &self,
        origin: Origin,
        said: Diagnostic,
        over: f64,
        (most, member): (f64, MemberId),
    ) -> Diagnostic {
        let other = format!("take one that goes into `{}`", self.member(member));
        let within = over <= 0.0 && most > 0.0;
        let help = match most > 0.0 {
            true if within => format!(
                "write a longer one, up to over {} from this joint, or {other}",
                self.length((most * 1e3).floor() / 1e3)
            ),
            true => format!(
                "write over {} or less from this joint, or {other}",
                self.length((most * 1e3).floor() / 1e3)
            ),
            false => other,
        };
        let label = match within {
            true => "all of it would lie on the fitting at its joint".to_owned(),
            false => format!("it would run over a fitting by {}", self.length(over)),
        };
        self.placed(said, origin, label)
            .note("it begins at the edge of the fitting at its joint, and ends before the next")
            .help(help)
    }

    pub(crate) fn socket(&self, id: chairwright_design::SocketId) -> &str {
        &self.design.sockets[id].name
    }

    fn names(&self, members: &[MemberId]) -> String {
        let names: Vec<&str> = members.iter().map(|m| self.member(*m)).collect();
        match names.as_slice() {
            [] => String::new(),
            [one] => (*one).to_owned(),
            [rest @ .., last] => format!("{} and {last}", rest.join(", ")),
        }
    }

    pub(crate) fn at_joint(&self, problem: Diagnostic, joint: JointId, label: impl Into<String>) -> Diagnostic {
        self.placed(problem, self.design.joints[joint].origin, label)
    }

    fn no_fitting(
        &self,
        joint: JointId,
        rays: &[RayName],
        nearest: Option<&Nearest>,
        any: bool,
        sizes: &[String],
    ) -> Diagnostic {
        let mut members: Vec<MemberId> = rays.iter().map(|r| r.member).collect();
        members.dedup();
        let said = Diagnostic::new("no-fitting", format!("no fitting closes `{}`", self.joint(joint)));
        let label = match rays {
            [a, b] => {
                let angle = self.angle(a.direction.angle_to(b.direction));
                format!("{} meet at {angle}", self.names(&members))
            }
            _ => format!("{} pipe ends meet here", rays.len()),
        };
        let mut said = self.at_joint(said, joint, label);
        if let Some((a, b)) = self.in_one_place(&members) {
            return self
                .related(said, self.design.members[a].origin, "this one")
                .note(format!("`{}` and `{}` lie in one place", self.member(a), self.member(b)))
                .help("a bar from side to side is drawn once: move it out of both sides { … }");
        }
        for ray in rays {
            let way = way(ray.direction);
            let name = self.member(ray.member);
            said = self.related(said, self.design.members[ray.member].origin, format!("{name} goes {way}"));
        }
        if !any {
            return said.help("use a page with fittings: use catalogue.fittings_inch");
        }
        match nearest {
            Some(near) if near.off > MOVABLE => said
                .note(format!("no pattern of fitting comes nearer than {}", self.angle(near.off)))
                .help(format!(
                    "let one of them end elsewhere, for example on another member: joint {}_2 on … at 60 mm from …",
                    self.joint(joint).rsplit('.').next().unwrap_or("tie")
                )),
            Some(near) if near.off > ANGLE_TOLERANCE => said
                .note(format!("the nearest is a {}, {} off", near.shape.word(), self.angle(near.off)))
                .help(format!(
                    "move `{}` {} to use it, or close the joint with a lap and bolts",
                    self.joint(near.far),
                    self.shift(near.shift)
                )),
            Some(near) => said
                .note(format!(
                    "a {} has the right directions, but none in reach takes {}",
                    near.shape.word(),
                    sizes.join(" and ")
                ))
                .help("use pipe of one size here, or sizes that a bush joins"),
            None => said
                .note(format!("no pattern of fitting joins {} pipe ends", rays.len()))
                .help("lead one of the members to another joint, a little aside"),
        }
    }

    /// Two members with the same ends.
    fn in_one_place(&self, members: &[MemberId]) -> Option<(MemberId, MemberId)> {
        let ends = |id: &MemberId| {
            let m = &self.design.members[*id];
            (m.start.min(m.end), m.start.max(m.end))
        };
        members
            .iter()
            .enumerate()
            .find_map(|(i, a)| members[i + 1..].iter().find(|b| ends(a) == ends(b)).map(|b| (*a, *b)))
    }

    fn wrong_fitting(
        &self,
        origin: chairwright_design::Origin,
        joint: JointId,
        fitting: FittingId,
        (rays, ports): (usize, usize),
        off: Option<f64>,
    ) -> Diagnostic {
        let name = &self.design.fittings[fitting].name;
        let said =
            Diagnostic::new("wrong-fitting", format!("\"{name}\" does not close `{}`", self.joint(joint)));
        let label = match off {
            Some(off) => format!("a member misses its port by {}", self.angle(off)),
            None if rays == ports => "its run-through ports do not suit these members".to_owned(),
            None if rays == 1 => format!("it joins {ports} pipe ends, and only one ends here"),
            None => format!("it joins {ports} pipe ends, and {rays} meet here"),
        };
        let said = self.placed(said, origin, label);
        self.related(said, self.design.joints[joint].origin, "this joint")
            .help("leave the fitting out and let the compiler choose, or move a member")
    }

    fn unmeasured(&self, fitting: FittingId, joint: JointId, uses: usize) -> Diagnostic {
        let f = &self.design.fittings[fitting];
        let word = if f.take_out_is == TakeOut::Minimum { "a published minimum" } else { "from memory" };
        let said = Diagnostic::new("unmeasured-take-out", format!("nobody has measured \"{}\"", f.name));
        let joints = if uses == 1 { "1 joint".to_owned() } else { format!("{uses} joints") };
        self.at_joint(said, joint, format!("it closes {joints}, this is the first"))
            .note(format!("its take-out of {} is {word}; cut lengths rest on it", self.length(f.take_out)))
            .help(format!(
                "measure centre to stop on the fitting you bought: measured \"{}\" {{ take_out = …, source = \"…\" }}",
                f.name
            ))
    }
}

/// A pipe end further off than this is not moved into a fitting: the chair would be another one.
const MOVABLE: f64 = 0.35;

/// A direction in words, with the angle by which it leans.
fn way(v: Vec3) -> String {
    let heading = heading(v, None);
    let (lean, aside) = (heading.lean.0.to_degrees(), heading.lean.1);
    if lean < 0.05 { heading.word.to_owned() } else { format!("{}, {lean:.1} deg {aside}", heading.word) }
}
