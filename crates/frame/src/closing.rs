//! Pipe joints: which fitting closes each, how it is turned, and what it takes off the pipes.

use crate::fit::{SocketFit, socket_fit, unsure};
use crate::ports::{ANGLE_TOLERANCE, Match, best_match, port_directions};
use crate::problem::{Nearest, Problem, RayName};
use crate::{Frame, JointReport, PlacedFitting};
use chairwright_design::{
    Band, Closing, ClosingKind, Design, FittingId, FittingShape, JointId, MemberId, Shape, SocketId, TakeOut,
    Vec3, fold,
};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// Pipes may be this much deeper in a socket than its page says, m: standards give the least. Common practice, no source.
const DEEPER: f64 = 0.003;

/// What happens to the ends of the members: trims, shifts and cuts.
pub(crate) struct Ends {
    /// Taken off at the start and at the end of each member, in metres; negative is an extension.
    pub trim: Vec<[f64; 2]>,
    /// How far each end must reach into its socket.
    pub grip: Vec<[f64; 2]>,
    /// Words for the cut list at start and end.
    pub words: Vec<[String; 2]>,
    /// Sideways shift of each member by a lap.
    pub shift: Vec<Option<Vec3>>,
    /// Cuts along each member by fittings.
    pub cuts: Vec<Vec<Sawn>>,
    /// Joints already closed.
    pub closed: Vec<bool>,
}

/// Where a fitting cuts a member in two.
#[derive(Clone, Debug)]
pub(crate) struct Sawn {
    /// Distance along the member.
    pub along: f64,
    /// Taken to either side.
    pub take_out: f64,
    /// Depth of its sockets.
    pub grip: f64,
    /// The fitting, for the cut list.
    pub name: String,
}

impl Ends {
    pub(crate) fn new(design: &Design) -> Ends {
        let n = design.members.len();
        Ends {
            trim: vec![[0.0; 2]; n],
            grip: vec![[0.0; 2]; n],
            words: vec![[String::new(), String::new()]; n],
            shift: design.members.values().map(|m| (m.offset != Vec3::ZERO).then_some(m.offset)).collect(),
            cuts: vec![Vec::new(); n],
            closed: vec![false; design.joints.len()],
        }
    }
}

/// Where a ray belongs on its member.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum At {
    Start,
    End,
    /// Along the member; true for the ray towards the start.
    Middle(f64, bool),
}

#[derive(Clone, Copy, Debug)]
pub(crate) struct Ray {
    pub member: MemberId,
    pub direction: Vec3,
    pub at: At,
}

/// All member directions at a joint.
pub(crate) fn rays(design: &Design, joint: JointId) -> Vec<Ray> {
    let mut all = Vec::new();
    for (id, m) in design.members.iter() {
        let way = (design.joints[m.end].at - design.joints[m.start].at).unit().unwrap_or(Vec3::X);
        if m.start == joint {
            all.push(Ray { member: id, direction: way, at: At::Start });
        }
        if m.end == joint {
            all.push(Ray { member: id, direction: -way, at: At::End });
        }
        if let Some(middle) = m.middle.iter().find(|k| k.joint == joint) {
            all.push(Ray { member: id, direction: -way, at: At::Middle(middle.along, true) });
            all.push(Ray { member: id, direction: way, at: At::Middle(middle.along, false) });
        }
    }
    all
}

pub(crate) fn members_of(rays: &[Ray]) -> Vec<MemberId> {
    let mut all: Vec<MemberId> = rays.iter().map(|r| r.member).collect();
    all.dedup();
    all
}

/// Closes every joint that fittings can close.
pub(crate) fn close_pipes(design: &Design, ends: &mut Ends, frame: &mut Frame) {
    for (joint, _) in design.joints.iter() {
        if ends.closed[joint.index()] {
            continue;
        }
        let rays = rays(design, joint);
        if rays.is_empty() {
            continue;
        }
        let closing = design.closings.iter().find(|c| c.joint == joint);
        close(design, joint, &rays, closing, ends, frame);
    }
    report_pipes(design, frame);
}

fn close(
    design: &Design,
    joint: JointId,
    rays: &[Ray],
    closing: Option<&Closing>,
    ends: &mut Ends,
    frame: &mut Frame,
) {
    let members = members_of(rays);
    let named = match closing.map(|c| &c.kind) {
        Some(ClosingKind::Fitting(name)) => find(design, name),
        _ => None,
    };
    // a point along one member, or the end of a single bar, asks for nothing
    let passing_only = members.len() == 1 && rays.len() == 2 && matches!(rays[0].at, At::Middle(..));
    if named.is_none() && passing_only {
        return;
    }
    // a pipe beside the line of its joints enters no fitting
    let enters = |m: &MemberId| {
        design.stocks[design.members[*m].stock].is_pipe() && design.members[*m].offset == Vec3::ZERO
    };
    let all_pipe = members.iter().all(enters);
    if !all_pipe {
        if members.len() > 1 {
            frame.problems.push(Problem::Unclosed { joint, members });
        }
        return;
    }
    if let ([ray], None) = (rays, named) {
        frame.problems.push(Problem::OpenEnd { joint, member: ray.member });
        return;
    }
    let solver = Solver { design, joint, rays, matches: RefCell::default() };
    let found = match (named, closing) {
        (Some(fitting), Some(closing)) => match solver.try_fitting(fitting) {
            Ok(found) => Some(found),
            Err(miss) => {
                frame.problems.push(solver.wrong(fitting, closing, &miss));
                return;
            }
        },
        _ => solver.choose(),
    };
    match found {
        Some(found) => solver.apply(&found, named.is_some(), ends, frame),
        None => frame.problems.push(solver.no_fitting()),
    }
}

fn find(design: &Design, name: &str) -> Option<FittingId> {
    design.fittings.iter().find(|(_, f)| fold(&f.name) == fold(name)).map(|(id, _)| id)
}

/// How one pipe reaches one port: the bushes between, what they add, and the contact.
#[derive(Clone, Debug)]
struct Reach {
    bushes: Vec<FittingId>,
    take_out: f64,
    contact: (f64, f64),
    socket: SocketId,
}

#[derive(Clone, Debug)]
struct Found {
    fitting: FittingId,
    matched: Match,
    reaches: Vec<Reach>,
}

enum Miss {
    Count,
    Angle(f64),
    Size { ray: usize, socket: SocketId, fit: SocketFit },
}

struct Solver<'a> {
    design: &'a Design,
    joint: JointId,
    rays: &'a [Ray],
    /// Patterns that were matched already: the sizes of one pattern share it.
    matches: RefCell<Vec<(FittingShape, Option<Match>)>>,
}

impl Solver<'_> {
    fn outer(&self, ray: usize) -> Band {
        match self.design.stocks[self.design.members[self.rays[ray].member].stock].shape {
            Shape::Tube { outer, .. } => outer,
            _ => Band::default(),
        }
    }

    fn directions(&self) -> Vec<Vec3> {
        self.rays.iter().map(|r| r.direction).collect()
    }

    /// Whether a ray may take a port: only a pipe that runs through may take a slip tee's run.
    fn allowed(&self, shape: FittingShape, ray: usize, port: usize) -> bool {
        let through = matches!(self.rays[ray].at, At::Middle(..));
        match shape {
            FittingShape::SlipTee => through == (port < 2),
            _ => true,
        }
    }

    fn matched(&self, shape: FittingShape) -> Option<Match> {
        if let Some((_, known)) = self.matches.borrow().iter().find(|(s, _)| *s == shape) {
            return known.clone();
        }
        let ports = port_directions(shape);
        let found = best_match(&self.directions(), &ports, &|ray, port| self.allowed(shape, ray, port));
        self.matches.borrow_mut().push((shape, found.clone()));
        found
    }

    fn try_fitting(&self, id: FittingId) -> Result<Found, Miss> {
        let fitting = &self.design.fittings[id];
        let matched = self.matched(fitting.shape).ok_or(Miss::Count)?;
        if matched.off > ANGLE_TOLERANCE {
            return Err(Miss::Angle(matched.off));
        }
        let slip = fitting.shape == FittingShape::SlipTee;
        let mut reaches = Vec::new();
        for (port, ray) in matched.rays.iter().enumerate() {
            // the run of a slip tee has no stop and no taper; it goes by the branch's size
            let reach = self.reach(*ray, fitting.socket, slip && port < 2);
            reaches.push(reach.map_err(|fit| Miss::Size { ray: *ray, socket: fitting.socket, fit })?);
        }
        Ok(Found { fitting: id, matched, reaches })
    }

    fn reach(&self, ray: usize, socket: SocketId, bare: bool) -> Result<Reach, SocketFit> {
        let outer = self.outer(ray);
        let direct = socket_fit(outer, &self.design.sockets[socket]);
        if let SocketFit::Fits { first, last } = direct {
            return Ok(Reach { bushes: Vec::new(), take_out: 0.0, contact: (first, last), socket });
        }
        if bare || matches!(direct, SocketFit::Tight { .. }) {
            return Err(direct);
        }
        self.bushed(outer, socket, 2).ok_or(direct)
    }

    /// The shortest chain of bushes from a socket down to a pipe.
    fn bushed(&self, outer: Band, socket: SocketId, left: usize) -> Option<Reach> {
        if left == 0 {
            return None;
        }
        let bushes: Vec<(FittingId, SocketId, f64)> = self
            .design
            .fittings
            .iter()
            .filter(|(_, f)| f.host == Some(socket))
            .map(|(id, f)| (id, f.socket, f.take_out))
            .collect();
        for (id, inner, take_out) in &bushes {
            if let SocketFit::Fits { first, last } = socket_fit(outer, &self.design.sockets[*inner]) {
                return Some(Reach {
                    bushes: vec![*id],
                    take_out: *take_out,
                    contact: (first, last),
                    socket: *inner,
                });
            }
        }
        bushes.iter().find_map(|(id, inner, take_out)| {
            let mut reach = self.bushed(outer, *inner, left - 1)?;
            reach.bushes.insert(0, *id);
            reach.take_out += take_out;
            Some(reach)
        })
    }

    /// The fitting with the fewest bushes; a plain one before a slip tee; then by name.
    fn choose(&self) -> Option<Found> {
        self.design
            .fittings
            .iter()
            .filter(|(_, f)| f.host.is_none() && port_directions(f.shape).len() == self.rays.len())
            .filter_map(|(id, _)| self.try_fitting(id).ok())
            .min_by(|a, b| self.rank(a).cmp(&self.rank(b)))
    }

    fn rank(&self, found: &Found) -> (usize, bool, String) {
        let bushes = found.reaches.iter().map(|r| r.bushes.len()).sum();
        let fitting = &self.design.fittings[found.fitting];
        (bushes, fitting.shape == FittingShape::SlipTee, fitting.name.clone())
    }

    fn wrong(&self, id: FittingId, closing: &Closing, miss: &Miss) -> Problem {
        let fitting = &self.design.fittings[id];
        match miss {
            Miss::Size { ray, socket, fit } => self.misfit(*ray, *socket, *fit),
            Miss::Count | Miss::Angle(_) => Problem::WrongFitting {
                origin: closing.origin,
                joint: self.joint,
                fitting: id,
                rays: self.rays.len(),
                ports: port_directions(fitting.shape).len(),
                off: if let Miss::Angle(off) = miss { Some(*off) } else { None },
            },
        }
    }

    fn misfit(&self, ray: usize, socket: SocketId, fit: SocketFit) -> Problem {
        let stock = self.design.members[self.rays[ray].member].stock;
        match fit {
            SocketFit::Tight { least, most } => {
                Problem::TightSocket { joint: self.joint, stock, socket, over: (least, most) }
            }
            SocketFit::Loose { least, most } => {
                Problem::LooseSocket { joint: self.joint, stock, socket, gap: (least, most) }
            }
            SocketFit::Fits { .. } => {
                Problem::LooseSocket { joint: self.joint, stock, socket, gap: (0.0, 0.0) }
            }
        }
    }

    /// Why nothing closes the joint: a size that almost fits, or the directions.
    fn no_fitting(&self) -> Problem {
        let mut nearest_size: Option<(f64, Problem)> = None;
        for (id, f) in self.design.fittings.iter().filter(|(_, f)| f.host.is_none()) {
            if port_directions(f.shape).len() != self.rays.len() {
                continue;
            }
            if let Err(Miss::Size { ray, socket, fit }) = self.try_fitting(id) {
                let miss = match fit {
                    SocketFit::Loose { least, most } => f64::midpoint(least, most),
                    SocketFit::Tight { least, most } => f64::midpoint(least, most) * 4.0,
                    SocketFit::Fits { .. } => 0.0,
                };
                if nearest_size.as_ref().is_none_or(|(m, _)| miss.abs() < *m) {
                    nearest_size = Some((miss.abs(), self.misfit(ray, socket, fit)));
                }
            }
        }
        if let Some((_, problem)) = nearest_size {
            return problem;
        }
        let mut sizes: Vec<String> = members_of(self.rays)
            .iter()
            .filter_map(|m| self.design.stocks[self.design.members[*m].stock].size.clone())
            .collect();
        sizes.sort();
        sizes.dedup();
        Problem::NoFitting {
            joint: self.joint,
            rays: self.rays.iter().map(|r| RayName { member: r.member, direction: r.direction }).collect(),
            nearest: self.nearest(),
            any_fittings: !self.design.fittings.is_empty(),
            sizes,
        }
    }

    fn nearest(&self) -> Option<Nearest> {
        let shapes = [
            FittingShape::Elbow90,
            FittingShape::Elbow45,
            FittingShape::Coupling,
            FittingShape::Tee,
            FittingShape::Corner,
            FittingShape::Cross,
        ];
        let (shape, m) = shapes
            .into_iter()
            .filter(|s| self.design.fittings.values().any(|f| f.shape == *s))
            .filter_map(|s| self.matched(s).map(|m| (s, m)))
            .min_by(|a, b| a.1.off.total_cmp(&b.1.off))?;
        let ray = self.rays[m.rays[m.worst]];
        let member = &self.design.members[ray.member];
        let far = if ray.at == At::Start { member.end } else { member.start };
        let here = self.design.joints[self.joint].at;
        let there = self.design.joints[far].at;
        let shift = here + m.turned[m.worst] * (there - here).norm() - there;
        Some(Nearest { shape, off: m.off, member: ray.member, far, shift })
    }

    fn apply(&self, found: &Found, named: bool, ends: &mut Ends, frame: &mut Frame) {
        let fitting = &self.design.fittings[found.fitting];
        let at = self.design.joints[self.joint].at;
        frame.fittings.push(PlacedFitting {
            fitting: found.fitting,
            joint: self.joint,
            at,
            ports: found.matched.turned.clone(),
            bush: false,
        });
        let slip = fitting.shape == FittingShape::SlipTee;
        let mut names = vec![fitting.name.clone()];
        for (port, ray) in found.matched.rays.iter().enumerate() {
            let reach = &found.reaches[port];
            for bush in &reach.bushes {
                let direction = found.matched.turned[port];
                let out = at + direction * fitting.take_out;
                frame.fittings.push(PlacedFitting {
                    fitting: *bush,
                    joint: self.joint,
                    at: out,
                    ports: vec![direction],
                    bush: true,
                });
                names.push(self.design.fittings[*bush].name.clone());
            }
            if !(slip && port < 2) {
                let grip = self.design.sockets[reach.socket].depth;
                self.trim(*ray, (fitting.take_out + reach.take_out, grip), &fitting.name, ends);
            }
            self.weaker(*ray, reach.socket, frame);
            self.unsure(*ray, reach.socket, frame);
        }
        self.too_deep(found, frame);
        let contact = found.reaches.iter().map(|r| r.contact).reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
        frame.joints.push(JointReport {
            joint: self.joint,
            members: members_of(self.rays),
            closed_by: names.join(" + "),
            chosen_by_design: named,
            off: found.matched.off,
            contact,
        });
        ends.closed[self.joint.index()] = true;
    }

    /// Holds how far pipes are said to be in their sockets against the deepest of them.
    fn too_deep(&self, found: &Found, frame: &mut Frame) {
        let closing = self.design.closings.iter().find(|c| c.joint == self.joint);
        let Some((c, inserted)) = closing.and_then(|c| Some((c, c.made.inserted?))) else { return };
        let depth = |s: SocketId| self.design.sockets[s].depth;
        let sockets = found.reaches.iter().map(|r| r.socket);
        let deepest = sockets.max_by(|a, b| depth(*a).total_cmp(&depth(*b)));
        if let Some(socket) = deepest.filter(|s| inserted > depth(*s) + DEEPER) {
            let (origin, fitting) = (c.origin, found.fitting);
            frame.problems.push(Problem::TooDeep { origin, fitting, socket, inserted });
        }
    }

    fn trim(&self, ray: usize, (take_out, grip): (f64, f64), name: &str, ends: &mut Ends) {
        let ray = &self.rays[ray];
        let m = ray.member.index();
        let end = match ray.at {
            At::Start => 0,
            At::End => 1,
            At::Middle(along, true) => {
                ends.cuts[m].push(Sawn { along, take_out, grip, name: name.to_owned() });
                return;
            }
            At::Middle(_, false) => return,
        };
        ends.trim[m][end] += take_out;
        ends.grip[m][end] = grip;
        name.clone_into(&mut ends.words[m][end]);
    }

    /// Once for each pipe and socket: whether some of it does not fit.
    fn unsure(&self, ray: usize, socket: SocketId, frame: &mut Frame) {
        let stock = self.design.members[self.rays[ray].member].stock;
        let Some(unsure) = unsure(self.outer(ray), &self.design.sockets[socket]) else { return };
        let known = |p: &Problem| matches!(p, Problem::UnsureSocket { stock: s, socket: k, .. } if (*s, *k) == (stock, socket));
        if !frame.problems.iter().any(known) {
            frame.problems.push(Problem::UnsureSocket { joint: self.joint, stock, socket, unsure });
        }
    }

    fn weaker(&self, ray: usize, socket: SocketId, frame: &mut Frame) {
        let stock = self.design.members[self.rays[ray].member].stock;
        let Some(proper) = self.design.sockets[socket].made_for_modulus else { return };
        let share = self.design.stocks[stock].shape.section().modulus / proper;
        let known =
            frame.problems.iter().any(|p| matches!(p, Problem::WeakerPipe { stock: s, .. } if *s == stock));
        if share < 0.95 && !known {
            frame.problems.push(Problem::WeakerPipe { stock, socket, share });
        }
    }
}

/// Once per kind of fitting: whether anybody has measured its take-out.
fn report_pipes(design: &Design, frame: &mut Frame) {
    let mut uses: BTreeMap<FittingId, (JointId, usize)> = BTreeMap::new();
    for placed in &frame.fittings {
        if design.fittings[placed.fitting].take_out_is != TakeOut::Measured {
            uses.entry(placed.fitting).or_insert((placed.joint, 0)).1 += 1;
        }
    }
    for (fitting, (joint, uses)) in uses {
        frame.problems.push(Problem::UnmeasuredTakeOut { fitting, joint, uses });
    }
}
