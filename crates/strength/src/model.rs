//! The structure as the solver's model: stations, nodes, elements, ties, supports.

use crate::bar::{Bar, Of};
use crate::case::Swung;
use crate::matter::Matter;
use crate::slip::Slip;
use crate::space::array;
use crate::structure::{Carries, Hold, Port, Spot, Structure, Tie, TieOf};
use chairwright_design::{JointId, Vec3};
use chairwright_statics::section::{Part, unbonded};
use chairwright_statics::{Axes, End, Joint, Link, Member, MemberId, Model, NodeId, Orientation, Section};

/// Stations nearer than this are one, m. Closer, an element would be shorter than its bar is thick.
const MERGE: f64 = 0.002;
/// What counts as rigid: a thousand times the stiffest part of a chair along itself (N/m) and about
/// itself (N m/rad).
const STIFF: (f64, f64) = (1e9, 1e7);
/// What holds a sheet that only lies on something against sliding and turning: enough to keep it in
/// its place, too little to carry.
const WEAK: (f64, f64) = (1e3, 10.0);

/// What stands in for the ground, and what was taken away.
#[derive(Clone, PartialEq, Debug, Default)]
pub(crate) struct Setup {
    /// What has come apart.
    pub dropped: Vec<TieOf>,
    /// Every joint turns as so many diameters of its bar more would; `None` for rigid.
    pub soft: Option<f64>,
    /// Of those only these; empty for all of them, and then what is unsure about sheets is left out as well.
    pub alone: Vec<JointId>,
    /// Whether materials answer as they do after years under load.
    pub lasting: bool,
    /// How the casters are turned; `None` where they trail.
    pub swung: Option<Swung>,
    /// Footings off the ground.
    pub lifted: Vec<usize>,
    /// Footings that carry next to nothing.
    pub light: Vec<usize>,
    /// Places held by hands.
    pub held: Vec<Spot>,
    /// Ties of sheets that only lie there and are taken to gape.
    pub gapes: Vec<usize>,
}

/// One element: a stretch of a bar between two stations.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Element {
    pub bar: usize,
    pub from: f64,
    pub to: f64,
    pub id: MemberId,
}

/// The model, and where things are in it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Built {
    pub model: Model,
    pub elements: Vec<Element>,
    /// First element of each bar, with one more at the end.
    pub starts: Vec<usize>,
    stations: Vec<Vec<f64>>,
    /// How many stations come before those of each bar; the last is their number.
    before: Vec<usize>,
    /// Node before and after each station of each bar.
    nodes: Vec<Vec<[NodeId; 2]>>,
    pub points: Vec<NodeId>,
    /// Which bar each node belongs to, or none for points.
    pub owners: Vec<Option<usize>>,
    /// Links of each tie: which tie, which of the model's links.
    pub links: Vec<(usize, usize)>,
}

/// Stations of every bar, sorted and merged.
fn stations(all: &Structure, held: &[Spot]) -> Vec<Vec<f64>> {
    let mut out: Vec<Vec<f64>> = all.bars.iter().map(|b| vec![0.0, b.length()]).collect();
    for (bar, b) in all.bars.iter().enumerate() {
        out[bar].extend(b.sheaths.iter().flat_map(|s| [s.from, s.to]));
    }
    for spot in all.ties.iter().flat_map(|t| &t.spots).chain(held) {
        if let Spot::Port(p) = spot {
            out[p.bar].push(p.at);
        }
    }
    for (list, bar) in out.iter_mut().zip(&all.bars) {
        let length = bar.length();
        list.retain(|x| (-1e-9..=length + 1e-9).contains(x));
        list.sort_by(f64::total_cmp);
        let mut kept: Vec<f64> = Vec::new();
        for x in list.iter().copied() {
            if kept.last().is_none_or(|k| x - k > MERGE) {
                kept.push(x);
            }
        }
        // the last joint stays where it is drawn
        if let Some(last) = kept.last_mut() {
            if length - *last <= MERGE {
                *last = length;
            } else {
                kept.push(length);
            }
        }
        *list = kept;
    }
    bands(all, &mut out);
    out
}

/// Where a band pulls at a bar between two of its stations there is one more: how far the bar gives way there is asked
/// for. A station nearby stands for it, so that no joint moves.
fn bands(all: &Structure, out: &mut [Vec<f64>]) {
    let pairs = all.decks.iter().filter_map(|d| match &d.carries {
        Carries::Bands(pairs) => Some(pairs),
        _ => None,
    });
    for port in pairs.flatten().flat_map(|(left, right)| [left, right]) {
        let list = &mut out[port.bar];
        let inside = list.first().zip(list.last()).is_some_and(|(a, b)| (*a..=*b).contains(&port.at));
        if inside && list.iter().all(|x| (x - port.at).abs() > 2.0 * MERGE) {
            list.push(port.at);
            list.sort_by(f64::total_cmp);
        }
    }
}

impl Built {
    pub fn new(all: &Structure, matters: &[Matter], feet: &[f64], setup: &Setup) -> Built {
        Built::cut((all, matters, feet), setup, &[])
    }

    /// The same with every element cut into so many pieces; whole where nothing is told.
    pub fn cut(
        (all, matters, feet): (&Structure, &[Matter], &[f64]),
        setup: &Setup,
        pieces: &[usize],
    ) -> Built {
        let mut built = Built { stations: stations(all, &setup.held), ..Built::default() };
        built.cut_stations(pieces);
        built.before = vec![0];
        for list in &built.stations {
            built.before.push(built.before[built.before.len() - 1] + list.len());
        }
        built.make_room(all);
        built.place_nodes(all, setup);
        built.place_elements(all, matters, setup);
        for (k, tie) in all.ties.iter().enumerate().filter(|(_, t)| !setup.dropped.contains(&t.of)) {
            built.link(all, matters, (k, tie), setup);
        }
        built.ground(all, feet, setup);
        built
    }

    fn cut_stations(&mut self, pieces: &[usize]) {
        let mut pieces = pieces.iter().copied().chain(std::iter::repeat(1));
        for list in &mut self.stations {
            let more = |ends: &[f64]| {
                let (from, to, count) = (ends[0], ends[1], pieces.next().unwrap_or(1));
                #[allow(clippy::cast_precision_loss)]
                (1..count).map(|k| from + (to - from) * k as f64 / count as f64).collect::<Vec<f64>>()
            };
            let between: Vec<f64> = list.windows(2).flat_map(more).collect();
            list.extend(between);
            list.sort_by(f64::total_cmp);
        }
    }

    /// Every lost joint has a model of its own: its lists are not grown one by one.
    fn make_room(&mut self, all: &Structure) {
        let stations = self.before[self.stations.len()];
        self.model.nodes.reserve(stations + all.points.len());
        self.owners.reserve(stations + all.points.len());
        self.model.members.reserve(stations);
        self.elements.reserve(stations);
        self.model.links.reserve(all.ties.len());
        self.links.reserve(all.ties.len());
    }

    /// Index of the station of a bar nearest to a place.
    fn station(&self, port: Port) -> usize {
        let list = &self.stations[port.bar];
        let near = |k: &usize| (list[*k] - port.at).abs();
        (0..list.len()).min_by(|a, b| near(a).total_cmp(&near(b))).unwrap_or(0)
    }

    pub fn node(&self, spot: Spot) -> NodeId {
        match spot {
            Spot::Port(p) => self.nodes[p.bar][self.station(p)][0],
            Spot::Point(p) => self.points[p],
        }
    }

    /// Every node of a spot: two where its bar has come apart there.
    fn both(&self, spot: Spot) -> [NodeId; 2] {
        match spot {
            Spot::Port(p) => self.nodes[p.bar][self.station(p)],
            Spot::Point(p) => [self.points[p]; 2],
        }
    }

    fn place_nodes(&mut self, all: &Structure, setup: &Setup) {
        let mut shared = Shared::new(self, all);
        for tie in all.ties.iter().filter(|t| !setup.dropped.contains(&t.of)) {
            if tie.hold != Hold::Rigid {
                continue;
            }
            let first = tie.spots[0];
            for spot in &tie.spots[1..] {
                if (all.place(*spot) - all.place(first)).norm() < 1e-6 {
                    shared.join(self.key(first), self.key(*spot));
                }
            }
        }
        let apart: Vec<&Tie> = all.ties.iter().filter(|t| setup.dropped.contains(&t.of)).collect();
        let mut made: Vec<Option<NodeId>> = vec![None; shared.parent.len()];
        for (bar, b) in all.bars.iter().enumerate() {
            let mut list = Vec::with_capacity(self.stations[bar].len());
            for (k, at) in self.stations[bar].clone().into_iter().enumerate() {
                let root = shared.root(self.offset(bar) + k);
                let node = match made[root] {
                    Some(node) => node,
                    None => self.add(b.at(at), Some(bar)),
                };
                made[root] = Some(node);
                let here = |s: &Spot| matches!(s, Spot::Port(p) if p.bar == bar && self.station(*p) == k);
                let split = apart.iter().any(|t| matches!(t.of, TieOf::Joint(_)) && t.spots.iter().any(here));
                let last = k + 1 == self.stations[bar].len();
                let other =
                    if split && k > 0 && !last && b.cut_at(at) { self.add(b.at(at), Some(bar)) } else { node };
                list.push([node, other]);
            }
            self.nodes.push(list);
        }
        let base = self.before[self.stations.len()];
        let points = turned(all, setup);
        for (k, at) in points.into_iter().enumerate() {
            let root = shared.root(base + k);
            let node = match made[root] {
                Some(node) => node,
                None => self.add(at, None),
            };
            made[root] = Some(node);
            self.points.push(node);
        }
    }

    fn add(&mut self, at: Vec3, owner: Option<usize>) -> NodeId {
        self.owners.push(owner);
        self.model.node(array(at))
    }

    fn offset(&self, bar: usize) -> usize {
        self.before[bar]
    }

    fn key(&self, spot: Spot) -> usize {
        match spot {
            Spot::Port(p) => self.offset(p.bar) + self.station(p),
            Spot::Point(p) => self.before[self.stations.len()] + p,
        }
    }

    fn place_elements(&mut self, all: &Structure, matters: &[Matter], setup: &Setup) {
        let joints = self.joints(all, setup);
        for (bar, b) in all.bars.iter().enumerate() {
            self.starts.push(self.elements.len());
            for k in 1..self.stations[bar].len() {
                let (from, to) = (self.stations[bar][k - 1], self.stations[bar][k]);
                let (i, j) = (self.nodes[bar][k - 1][1], self.nodes[bar][k][0]);
                let section = section(b, f64::midpoint(from, to), bar, matters, setup.lasting);
                let end = |station: usize| match joints.get(self.offset(bar) + station) {
                    Some(Some(tie)) => self.end((all, &all.ties[*tie]), matters, (bar, station), setup),
                    _ => End::RIGID,
                };
                let ends = [end(k - 1), end(k)];
                let orientation = Orientation::ZTowards(array(b.up));
                self.model.members.push(Member { i, j, section, orientation, ends });
                let id = MemberId(self.model.members.len() - 1);
                self.elements.push(Element { bar, from, to, id });
            }
        }
        self.starts.push(self.elements.len());
    }

    /// The first joint at every station, if any gives way.
    fn joints(&self, all: &Structure, setup: &Setup) -> Vec<Option<usize>> {
        if setup.soft.is_none() && all.seats.is_empty() {
            return Vec::new();
        }
        let mut out = vec![None; self.before[self.stations.len()]];
        for (k, tie) in all.ties.iter().enumerate().filter(|(_, t)| matches!(t.of, TieOf::Joint(_))) {
            for spot in tie.spots.iter().filter(|s| matches!(s, Spot::Port(_))) {
                out[self.key(*spot)].get_or_insert(k);
            }
        }
        out
    }

    /// A joint that gives way a little, where a bar ends or is cut at it.
    fn end(
        &self,
        (all, tie): (&Structure, &Tie),
        matters: &[Matter],
        (bar, station): (usize, usize),
        setup: &Setup,
    ) -> End {
        let last = self.stations[bar].len() - 1;
        let meets = station == 0 || station == last || all.bars[bar].cut_at(self.stations[bar][station]);
        let TieOf::Joint(joint) = tie.of else { return End::RIGID };
        if !meets {
            return End::RIGID;
        }
        let gives = setup.alone.is_empty() || setup.alone.contains(&joint);
        let k = match (all.turning(joint), setup.soft.filter(|_| gives)) {
            (Some(k), _) if tie.hold == Hold::Rigid => k * kept(&matters[bar], setup.lasting),
            (None, Some(more)) => soft(&matters[bar], &all.bars[bar], more, setup.lasting),
            // what is known of a lap or a butt stands between its pieces
            _ => return End::RIGID,
        };
        let mut end = End::RIGID;
        for slot in &mut end.joint[3..] {
            *slot = Joint::Spring(k);
        }
        end
    }

    fn link(&mut self, all: &Structure, matters: &[Matter], (index, tie): (usize, &Tie), setup: &Setup) {
        let (axes, mut stiffness) = firm(&tie.hold, setup.soft.is_some() && setup.alone.is_empty());
        if setup.gapes.contains(&index) {
            stiffness[0] = 0.0;
        }
        // a joint of one bolt turns freely about it, whatever it does about the other axes
        let about = match tie.hold {
            Hold::Fastened => 3..6,
            Hold::Hinge(_) => 4..6,
            _ => 6..6,
        };
        if let TieOf::Joint(joint) = tie.of
            && let Some(k) = all.turning(joint)
        {
            let kept = tie.spots[0].bar().map_or(1.0, |bar| kept(&matters[bar], setup.lasting));
            stiffness[about].fill(k * kept);
        }
        let first = self.both(tie.spots[0]);
        for spot in &tie.spots[1..] {
            let there = self.node(*spot);
            let coincide = (all.place(*spot) - all.place(tie.spots[0])).norm() < 1e-6;
            if there == first[0] || (coincide && tie.hold == Hold::Rigid) {
                continue;
            }
            self.links.push((index, self.model.links.len()));
            self.model.links.push(Link { a: first[0], b: there, axes, stiffness });
        }
    }

    fn ground(&mut self, all: &Structure, feet: &[f64], setup: &Setup) {
        let mut across = false;
        for (k, f) in all.footings.iter().enumerate().filter(|(_, f)| f.carrier.is_some()) {
            let contact = self.points[f.contact].0;
            if !setup.lifted.contains(&k) {
                let share = if setup.light.contains(&k) { 1e-4 } else { 1.0 };
                self.model.nodes[contact].spring[2] += feet[k] * share;
            }
            if !f.caster {
                let hub = self.points[f.hub].0;
                self.model.nodes[hub].fixed[0] = true;
                self.model.nodes[hub].fixed[1] |= !across;
                across = true;
            }
        }
        for spot in &setup.held {
            let node = self.node(*spot).0;
            self.model.nodes[node].fixed[2] = true;
        }
    }

    /// The element at a place of a bar, and how far along the element it is.
    pub fn element_at(&self, port: Port) -> Option<(Element, f64)> {
        let list = &self.elements[self.starts[port.bar]..self.starts[port.bar + 1]];
        let found = list.iter().find(|e| port.at <= e.to + 1e-9).or(list.last())?;
        Some((*found, (port.at - found.from).clamp(0.0, found.to - found.from)))
    }

    pub fn elements_of(&self, bar: usize) -> &[Element] {
        &self.elements[self.starts[bar]..self.starts[bar + 1]]
    }
}

/// Every point, those of casters where these are turned to.
fn turned(all: &Structure, setup: &Setup) -> Vec<Vec3> {
    let mut points = all.points.clone();
    let Some(which) = setup.swung else { return points };
    for f in &all.footings {
        if let Some(swung) = f.swung {
            let (hub, contact) = swung[usize::from(which == Swung::ALL[1])];
            (points[f.hub], points[f.contact]) = (hub, contact);
        }
    }
    points
}

/// How stiff the end of a bar in a joint is that turns as so many diameters of it more would, N m/rad.
pub(crate) fn soft(matter: &Matter, bar: &Bar, more: f64, lasting: bool) -> f64 {
    matter.stiffness(lasting).0 * matter.shape.iy.min(matter.shape.iz) / (more * 2.0 * bar.form.half().0)
}

/// What years, heat and water leave of a joint's stiffness: as of its material's.
fn kept(matter: &Matter, lasting: bool) -> f64 {
    matter.stiffness(lasting).0 / matter.stiffness(false).0
}

/// Axes and stiffness of a hold; of fasteners along a sheet's face the usual, or the least that is sure.
fn firm(hold: &Hold, least: bool) -> (Axes, [f64; 6]) {
    let along = |s: &Slip| if least { s.least } else { s.usual }.max(WEAK.0);
    let (t, r) = STIFF;
    match hold {
        Hold::Rigid | Hold::Fastened => (Axes::GLOBAL, [t, t, t, r, r, r]),
        Hold::Hinge(axis) => (axes(*axis), [t, t, t, 0.0, r, r]),
        Hold::Bearing { normal, grip } => {
            let slide = grip.as_ref().map_or(WEAK.0, along);
            (axes(*normal), [t, slide, slide, WEAK.1, WEAK.1, WEAK.1])
        }
        Hold::Slips { normal, slip, turns } => {
            let round = if *turns { WEAK.1 } else { r };
            (axes(*normal), [t, along(slip), along(slip), round, r, r])
        }
    }
}

fn axes(x: Vec3) -> Axes {
    Axes::with_z_towards(array(x), array(x.any_across())).unwrap_or(Axes::GLOBAL)
}

fn section(bar: &Bar, at: f64, index: usize, matters: &[Matter], lasting: bool) -> Section {
    let matter = &matters[index];
    let part = |m: &Matter| {
        let (e, g) = m.stiffness(lasting);
        Part { e, g, shape: m.shape, at: [0.0; 2] }
    };
    let mut parts = vec![part(matter)];
    if matches!(bar.of, Of::Support(_)) {
        // strips that cross share the twist of the plate: half each way
        parts[0].shape.j /= 2.0;
    }
    for (s, sleeve) in bar.sheaths.iter().zip(&matter.sheaths) {
        // what has play stiffens nothing until the bar has bent through it
        if s.play <= 0.0 && (s.from..=s.to).contains(&at) {
            parts.push(part(sleeve));
        }
    }
    let (e, g) = matter.stiffness(lasting);
    // one part always is there
    unbonded(&parts).unwrap_or_else(|| matter.shape.of(e, g))
}

/// Nodes that are one.
struct Shared {
    parent: Vec<usize>,
}

impl Shared {
    fn new(built: &Built, all: &Structure) -> Shared {
        let n = built.before[built.stations.len()] + all.points.len();
        Shared { parent: (0..n).collect() }
    }

    fn root(&self, mut k: usize) -> usize {
        while self.parent[k] != k {
            k = self.parent[k];
        }
        k
    }

    fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.root(a), self.root(b));
        self.parent[a.max(b)] = a.min(b);
    }
}
