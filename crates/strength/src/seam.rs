//! Where fasteners or glue hold two things together: what lies under the heads and behind, which way the
//! fasteners go, on what face, and what goes through in one run.
//!
//! What cannot be found here is told in words, never left out.

use crate::answer::What;
use crate::bar::{Bar, Of};
use crate::face::face;
use crate::form::Form;
use crate::judge::Court;
use crate::limit::{Unknown, allowance};
use crate::reasons::mm;
use crate::solve::Run;
use crate::structure::{Hold, Port, Spot, Tie, TieOf};
use crate::ties::{TOUCH, thick};
use chairwright_design::{Closing, ClosingKind, Placing, Shape, StockId, Vec3};

/// Density over oven-dry specific gravity: 1000 kg/m³ and 12 % of water, as the catalogue's woods.
const DENSITY: f64 = 1120.0;
/// Places that the solver holds apart no more than this coincide, m: then no direction can be read off them.
const SAME: f64 = 0.002;

/// How the fibres of a piece lie to a fastener that goes into it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Grain {
    Side,
    End,
    /// Between the plies of a sheet.
    Edge,
}

/// What a fastener meets in a piece; lengths in m.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Body {
    /// Wood or plywood: specific gravity, and how thick along the fastener.
    Wood { gravity: f64, thick: f64, grain: Grain },
    /// A tube across its axis, and how far the fastener is from its nearer end.
    Tube { outer: f64, wall: f64, end: f64 },
    /// A sheet or the wall of a box that is no wood.
    Sheet { thick: f64 },
    /// A round bar that is no wood.
    Rod { diameter: f64 },
    /// Met end on: no rule knows it.
    Other,
}

impl Body {
    /// How long a fastener must be to pass it, m.
    pub fn thick(&self) -> f64 {
        match *self {
            Body::Wood { thick, .. } | Body::Sheet { thick } => thick,
            Body::Tube { outer, .. } => outer,
            Body::Rod { diameter } => diameter,
            Body::Other => 0.0,
        }
    }
}

/// One of the two things.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Piece {
    pub name: String,
    pub stock: StockId,
    pub body: Body,
    /// Along its fibres or axis.
    pub long: Vec3,
}

/// The face that fasteners have to themselves, as its pieces are cut.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Ground {
    /// The way of their rows.
    pub along: Vec3,
    /// Sizes along and across, m.
    pub size: [f64; 2],
    /// How far each piece reaches from the middle on its nearer side, along and across, m.
    pub reach: [[f64; 2]; 2],
}

/// A place where fasteners or glue hold.
#[derive(Clone, Debug)]
pub(crate) struct Seam<'a> {
    pub what: What,
    pub list: &'a [(String, u32)],
    pub glue: Option<&'a str>,
    /// Where the text says that its fasteners sit.
    pub placing: Option<&'a Placing>,
    /// The room around its fasteners.
    pub ground: Ground,
    /// Ties that it hands through, each with the sign that makes its force that on the first piece.
    ties: Vec<usize>,
    pub pair: [Piece; 2],
    /// From the first piece to the second: the way of the fasteners.
    pub way: Vec3,
    /// Middle of the faces.
    pub at: Vec3,
    /// Along the face.
    pub along: Vec3,
    /// Sizes of the face that both share, along and across, m.
    pub face: [f64; 2],
    /// The length that its fasteners are spread over, where it is known, m.
    pub spread: Option<f64>,
    /// Plates on both faces, each with its half of the fasteners, and half of the fasteners on this member.
    pub plates: bool,
    /// A face that lies on the other under load: friction keeps it from sliding.
    pub lies: bool,
    /// The member whose side the force is told for, where the tie has more places than two.
    moved: Option<usize>,
}

/// What goes through a seam: force on the first piece and moment about the middle of the faces, in
/// ground axes, N and N m.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub(crate) struct Wrench {
    pub force: Vec3,
    pub moment: Vec3,
}

/// The places of one seam, each by itself, N.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Places {
    /// How many.
    pub count: f64,
    /// Sum of what pulls the faces apart anywhere.
    pub opens: f64,
    /// The most across the fasteners, and along them, of any one place.
    pub aside: f64,
    pub pull: f64,
}

/// A seam, or why there is none.
pub(crate) type Found<'a> = Result<Seam<'a>, (What, Unknown)>;

impl<'a> Court<'a> {
    /// Every fastening, and every lap, butt and gusset, that ties hand something through.
    pub(crate) fn find_seams(&self) -> Vec<Found<'a>> {
        let mut out: Vec<Found<'a>> = Vec::new();
        for index in 0..self.design.fastenings.len() {
            out.extend(self.fastening(index));
        }
        for c in &self.design.closings {
            out.extend(self.closing(c));
        }
        out
    }

    /// The family of a stock's material.
    pub(crate) fn family(&self, stock: StockId) -> &'a str {
        allowance(self.design, &self.design.stocks[stock].material).map_or("", |a| a.family.as_str())
    }

    fn wooden(&self, stock: StockId) -> Option<f64> {
        let wood = matches!(self.family(stock), "wood" | "plywood");
        wood.then_some(self.design.stocks[stock].material.density / DENSITY)
    }

    /// What a fastener meets that goes into a bar along a way.
    pub(crate) fn piece(&self, bar: &Bar, at: f64, way: Vec3) -> Piece {
        let lengthwise = bar.way().dot(way).abs() > 0.7;
        let sheet = match self.design.stocks[bar.stock].shape {
            Shape::Sheet { thickness } => Some(thickness),
            _ => None,
        };
        // a box that is closed has a plate at its end
        let closed = matches!(bar.of, Of::Box(k) if self.design.boxes[k].ends);
        let lengthwise = lengthwise && !closed;
        let ends = |x: f64| x.min(bar.length() - x).max(0.0);
        let body = match (self.wooden(bar.stock), bar.form, bar.of) {
            (Some(gravity), form, of) => {
                let plate = matches!(of, Of::Panel(_) | Of::Support(_));
                let thick = if plate { sheet.unwrap_or(thick(bar, way)) } else { thick(bar, way) };
                Body::Wood { gravity, thick, grain: self.grain(bar, form, way, lengthwise) }
            }
            (None, Form::Tube { outer, wall }, _) if !lengthwise => Body::Tube { outer, wall, end: ends(at) },
            (None, Form::Rod { diameter }, _) if !lengthwise => Body::Rod { diameter },
            (None, Form::Hollow { wall, .. }, _) if !lengthwise => Body::Sheet { thick: wall },
            (None, Form::Flat { level, .. }, Of::Panel(_) | Of::Support(_)) => {
                Body::Sheet { thick: sheet.unwrap_or(level) }
            }
            (None, Form::Flat { .. }, _) if !lengthwise => Body::Sheet { thick: thick(bar, way) },
            _ => Body::Other,
        };
        Piece { name: bar.name.clone(), stock: bar.stock, body, long: bar.way() }
    }

    fn grain(&self, bar: &Bar, form: Form, way: Vec3, lengthwise: bool) -> Grain {
        let ply = self.family(bar.stock) == "plywood";
        match (form, bar.of) {
            // a panel's arm has its thickness along its own y, a strip of a support along its own z
            (Form::Flat { .. }, Of::Panel(_)) if bar.up.dot(way).abs() > 0.7 || lengthwise => Grain::Edge,
            (Form::Flat { .. }, Of::Support(_)) if bar.up.dot(way).abs() < 0.7 => Grain::Edge,
            (Form::Flat { .. }, Of::Panel(_) | Of::Support(_)) => Grain::Side,
            (Form::Flat { .. } | Form::Hollow { .. }, _) if ply && lengthwise => Grain::Edge,
            (Form::Flat { level, upright }, _) if ply => {
                let thin = if level < upright { bar.up.cross(bar.way()) } else { bar.up };
                if thin.dot(way).abs() > 0.7 { Grain::Side } else { Grain::Edge }
            }
            _ if lengthwise => Grain::End,
            _ => Grain::Side,
        }
    }

    fn fastening(&self, index: usize) -> Option<Found<'a>> {
        let f = &self.design.fastenings[index];
        let what = What::Tie(TieOf::Fastening(index));
        let no = |why: &str| Some(Err((what, held(&f.fasteners, None, why))));
        let named = |s: &Spot, name: &str| matches!(s, Spot::Port(p) if self.all.bars[p.bar].name == name);
        let support = |k: usize| {
            let name = self.design.supports[k].name.as_str();
            [(f.what.as_str(), f.to.as_str()), (f.to.as_str(), f.what.as_str())]
                .into_iter()
                .find(|(a, _)| *a == name)
                .map(|(_, b)| b)
        };
        let mine = |t: &Tie| match t.of {
            TieOf::Fastening(k) => k == index,
            TieOf::Bearing(k) => support(k).is_some_and(|other| named(&t.spots[1], other)),
            _ => false,
        };
        let ties: Vec<usize> = (0..self.all.ties.len()).filter(|k| mine(&self.all.ties[*k])).collect();
        let first = &self.all.ties[*ties.first()?];
        let bearing = matches!(first.of, TieOf::Bearing(_));
        if bearing && first.hold == Hold::Rigid {
            return no(
                "it lies on one bar only, so that its fasteners alone keep it from tipping: put a second bar under it",
            );
        }
        let ports = ties.iter().find_map(|k| match self.all.ties[*k].spots[..] {
            [Spot::Port(p), Spot::Port(q)] => Some((p, q)),
            _ => None,
        });
        let Some((p, q)) = ports else {
            return no("it is held in the middle of a sheet only");
        };
        let (a, b) = (&self.all.bars[p.bar], &self.all.bars[q.bar]);
        let gap = b.at(q.at) - a.at(p.at);
        let normal = match a.of {
            Of::Panel(_) => Some(a.up.cross(a.way())),
            Of::Support(_) => Some(a.up),
            _ => None,
        };
        let signed = |n: Vec3| if n.dot(gap) < 0.0 { -n } else { n };
        let way = match normal {
            Some(n) => signed(n),
            None if gap.norm() < SAME => {
                return no(
                    "their axes cross as drawn, so that nobody can say which way the fasteners go and what they pass",
                );
            }
            None => gap.unit()?,
        };
        let free = gap.dot(way).abs() - self.half(a, way) - b.half_along(way);
        if free > TOUCH {
            let why = format!("{} of air lie between them, and a fastener that crosses air is bent", mm(free));
            return no(&why);
        }
        let edgewise = normal.is_some() && !bearing && b.way().dot(way).abs() < 0.7;
        if edgewise && gap.dot(way).abs() < 0.5 * self.half(a, way).max(SAME) {
            return no(
                "they are drawn edge to edge or into each other; into the edge of a sheet nothing may be screwed",
            );
        }
        let mut seam = self.between(what, ties, (p, q), way);
        seam.list = &f.fasteners;
        seam.lies = bearing;
        // rows run along what something is fastened to, and along the bar where that is a sheet
        let sheet = |bar: &Bar| matches!(bar.of, Of::Panel(_) | Of::Support(_));
        let rows = if a.name == f.to && !sheet(a) { a.way() } else { b.way() };
        self.lay(&mut seam, f.placing.as_ref(), (p, q), (rows, false));
        Some(Ok(seam))
    }

    /// Half of what lies between a bar's middle and its face along a way, m.
    fn half(&self, bar: &Bar, way: Vec3) -> f64 {
        match (bar.of, &self.design.stocks[bar.stock].shape) {
            (Of::Panel(_) | Of::Support(_), Shape::Sheet { thickness }) => thickness / 2.0,
            _ => bar.half_along(way),
        }
    }

    /// The seam of ties between two bars.
    fn between(&self, what: What, ties: Vec<usize>, (p, q): (Port, Port), way: Vec3) -> Seam<'a> {
        let (a, b) = (&self.all.bars[p.bar], &self.all.bars[q.bar]);
        let along = b.way().across(way).unit().unwrap_or_else(|| way.any_across());
        let across = way.cross(along);
        let faces: Vec<Vec3> =
            ties.iter().map(|k| self.all.place(self.all.ties[*k].spots[0]) + way * self.half(a, way)).collect();
        #[allow(clippy::cast_precision_loss)]
        let at = faces.iter().fold(Vec3::ZERO, |s, f| s + *f) * (1.0 / faces.len().max(1) as f64);
        let most = |e: Vec3| faces.iter().map(|f| (*f - at).dot(e)).fold(0.0, f64::max);
        let least = |e: Vec3| faces.iter().map(|f| (*f - at).dot(e)).fold(0.0, f64::min);
        let spread = most(along) - least(along);
        let face = [along, across].map(|e| extent(a, e).min(extent(b, e)));
        Seam {
            what,
            list: &[],
            glue: None,
            placing: None,
            ground: Ground { along, size: face, reach: [[f64::INFINITY; 2]; 2] },
            ties,
            pair: [self.piece(a, p.at, way), self.piece(b, q.at, way)],
            way,
            at,
            along,
            face,
            spread: (spread > 0.02).then_some(spread),
            plates: false,
            lies: false,
            moved: None,
        }
    }

    /// The room that the fasteners of a seam have. Where the text places them, their rows run that way, and the middle of
    /// the face is that of what both pieces share.
    fn lay(
        &self,
        seam: &mut Seam<'a>,
        placing: Option<&'a Placing>,
        (p, q): (Port, Port),
        (rows, lap): (Vec3, bool),
    ) {
        let along = rows.across(seam.way).unit().unwrap_or(seam.along);
        let bars = [&self.all.bars[p.bar], &self.all.bars[q.bar]];
        let found = face(self.all, bars, seam.at, [along, seam.way.cross(along)], lap);
        seam.ground = Ground { along, size: found.size, reach: found.reach };
        seam.placing = placing;
        if placing.is_some() {
            (seam.along, seam.at, seam.face) = (along, found.at, found.size);
        }
    }

    fn closing(&self, c: &'a Closing) -> Option<Found<'a>> {
        use ClosingKind as K;
        let moved = match &c.kind {
            K::Lap(lap) => lap.member,
            K::Butt { member, .. } | K::Gusset { member, .. } => *member,
            K::Fitting(_) | K::Free(_) => return None,
        };
        let index = self.all.ties.iter().position(|t| t.of == TieOf::Joint(c.joint))?;
        let tie = &self.all.ties[index];
        let what = What::Joint(c.joint);
        let no = |why: &str| Some(Err((what, held(&c.fasteners, c.glue.as_deref(), why))));
        if tie.spots.len() > 2 {
            return no("more than two members meet here, and nobody says which fastener holds which");
        }
        let port = |mine: bool| {
            tie.spots.iter().enumerate().find_map(|(k, s)| match s {
                Spot::Port(p) if (self.all.bars[p.bar].of == Of::Member(moved)) == mine => Some((k, *p)),
                _ => None,
            })
        };
        let (Some((k, p)), Some((_, q))) = (port(true), port(false)) else {
            return no("one of its members is not in the frame");
        };
        let (bar, other) = (&self.all.bars[p.bar], &self.all.bars[q.bar]);
        let gap = other.at(q.at) - bar.at(p.at);
        let crossed = bar.way().cross(other.way()).unit();
        let way = match &c.kind {
            // screws of a butt go through the one that runs past, along the one that stops
            K::Butt { .. } if p.at < bar.length() / 2.0 => Some(-bar.way()),
            K::Butt { .. } => Some(bar.way()),
            K::Gusset { .. } => crossed,
            _ if gap.norm() < SAME => crossed,
            _ => gap.unit(),
        };
        let Some(way) = way else {
            return no("its members run on in one line, and nobody says which way the fasteners go");
        };
        let mut seam = self.between(what, vec![index], (p, q), way);
        seam.list = &c.fasteners;
        seam.glue = c.glue.as_deref();
        seam.moved = Some(k);
        if let K::Lap(_) = c.kind {
            self.lay(&mut seam, c.placing.as_ref(), (p, q), (bar.way(), true));
        }
        if let K::Butt { .. } = c.kind {
            // the end of the one that stops lies on the face of the other
            seam.at = other.at(q.at) - way * other.half_along(way);
            self.lay(&mut seam, c.placing.as_ref(), (p, q), (other.way(), false));
        }
        if let K::Gusset { stock, size, .. } = &c.kind {
            let Shape::Sheet { thickness } = self.design.stocks[*stock].shape else {
                return no("its plates are cut from something that is no sheet");
            };
            let body = match self.wooden(*stock) {
                Some(gravity) => Body::Wood { gravity, thick: thickness, grain: Grain::Side },
                None => Body::Sheet { thick: thickness },
            };
            let plate = Piece { name: "its plates".to_owned(), stock: *stock, body, long: bar.way() };
            seam.pair[1] = plate;
            seam.at = bar.at(p.at);
            seam.along = bar.way();
            // half of a plate's length lies on the member that stops
            let across = way.cross(bar.way());
            seam.face = [size.0 / 2.0, size.1.min(2.0 * bar.half_along(across))];
            seam.plates = true;
            // each group sits in the middle of its half of the plate
            let half = [size.0 / 4.0, size.1 / 2.0];
            let reach = [[half[0], bar.half_along(across)], half];
            seam.ground = Ground { along: seam.along, size: seam.face, reach };
            seam.placing = c.placing.as_ref();
            if seam.placing.is_some() {
                let inward = if p.at < bar.length() / 2.0 { 1.0 } else { -1.0 };
                seam.at += bar.way() * (inward * half[0]);
            }
        }
        Some(Ok(seam))
    }
}

/// How far a bar reaches along a direction of its face, m; a sheet as far as one asks.
fn extent(bar: &Bar, e: Vec3) -> f64 {
    match bar.of {
        Of::Panel(_) | Of::Support(_) => f64::INFINITY,
        _ => 2.0 * bar.half_along(e) + bar.way().dot(e).abs() * bar.length(),
    }
}

impl Seam<'_> {
    /// The way of the rows of its fasteners, and across them.
    pub fn axes(&self) -> [Vec3; 2] {
        [self.ground.along, self.way.cross(self.ground.along)]
    }

    /// What goes through in one run; `None` where the run does not tell.
    ///
    /// A tie's force is that on its first place towards the others. Moments are told about the middle
    /// between the two places and are moved to the middle of the faces.
    ///
    /// Beside it stands what pulls the faces apart and what each place is handed by itself.
    pub fn wrench(&self, court: &Court<'_>, run: &Run) -> Option<(Wrench, Places)> {
        let mut sum: Option<Wrench> = None;
        let mut places = Places { count: 0.0, opens: 0.0, aside: 0.0, pull: 0.0 };
        for h in run.handed.iter().filter(|h| self.ties.contains(&h.tie)) {
            let spots = &court.all.ties[h.tie].spots;
            let mid = court.all.place(spots[0]).mix(court.all.place(spots[1]), 0.5);
            let sign = if self.moved == Some(1) { -1.0 } else { 1.0 };
            let w = sum.get_or_insert_with(Wrench::default);
            w.force += h.force * sign;
            w.moment += (h.moment + (mid - self.at).cross(h.force)) * sign;
            let pull = (h.force.dot(self.way) * sign).max(0.0);
            places.count += 1.0;
            places.opens += pull;
            places.pull = places.pull.max(pull);
            places.aside = places.aside.max(h.force.across(self.way).norm());
        }
        sum.map(|w| (w, places))
    }
}

/// Why what holds something cannot be judged.
pub(crate) fn held(list: &[(String, u32)], glue: Option<&str>, why: &str) -> Unknown {
    let mut all: Vec<String> = list.iter().map(|(n, c)| format!("{c} x {n}")).collect();
    all.extend(glue.map(str::to_owned));
    Unknown::Held { by: all.join(", "), why: why.to_owned() }
}
