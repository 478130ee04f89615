//! The rider, the place, stocks, fittings, fasteners and bought parts of one design.

use crate::blocks::Reader;
use crate::build::{Builder, side_sign};
use crate::evaluator::Env;
use crate::fields::entry_spec;
use crate::scope::{DeclKind, Placed, fold, text_of};
use crate::value::{Outcome, Silent};
use chairwright_design::{
    Band, Bench, Caster, Fastener, FittingShape, FittingSpec, Item, ItemKind, Material, Origin, PartSpec,
    Shape, SocketSpec, Stock, StockId, Supply, TakeOut, Vec3, Wheel,
};
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_syntax::{Entry, Expr};

/// What was read of the shipped pages, kept from one compilation of a project to the next.
#[derive(Default, Debug)]
pub struct Tables(std::cell::OnceCell<Read>);

#[derive(Debug)]
struct Read {
    segments: Vec<chairwright_design::Segment>,
    surfaces: Vec<chairwright_design::Surface>,
    allowances: Vec<chairwright_design::Allowance>,
    sockets: chairwright_design::Arena<SocketSpec>,
    fittings: chairwright_design::Arena<FittingSpec>,
}

/// Most that a piece of wood bears and how stiff it is at most, over the published means of its species: three standard deviations
/// above, of 0.16 and 0.22; Wood Handbook, scatter of clear wood, from memory, not checked.
const ABOVE: (f64, f64) = (1.5, 1.66);
/// Means of the strongest and the stiffest woods that there are, Pa, for those whose entry says none: ipe, from memory, not checked.
const STRONGEST: (f64, f64) = (175e6, 22e9);
const STRONGER: &str = "a clear piece without a knot bears no more than one and a half times the mean of its species: that weight, span or size is a slip";
const STIFFER: &str = "no piece is stiffer than five thirds of the mean of its species: that weight, bend, span or size is a slip";

/// Greatest stress and modulus that are believed of a bench, Pa.
fn most_of(m: &Material) -> (f64, f64) {
    (m.strength.unwrap_or(STRONGEST.0) * ABOVE.0, m.modulus.unwrap_or(STRONGEST.1) * ABOVE.1)
}

impl<'a> Builder<'_, 'a> {
    pub(crate) fn reader(&self, keyword: &str, entry: &'a Entry) -> Outcome<Reader<'_, 'a>> {
        Ok(Reader { evaluator: self.evaluator, entry, spec: entry_spec(keyword).ok_or(Silent)? })
    }

    /// Body segments, kinds of ground, sockets and fittings of all pages in use: read once where no value in them can change.
    pub(crate) fn tables(&mut self, kept: &Tables) {
        let steady = self.tables_are_steady();
        if let Some(read) = kept.0.get().filter(|_| steady) {
            self.design.body.segments.clone_from(&read.segments);
            self.design.surfaces.clone_from(&read.surfaces);
            self.design.allowances.clone_from(&read.allowances);
            self.design.sockets.clone_from(&read.sockets);
            self.design.fittings.clone_from(&read.fittings);
            return;
        }
        let said = self.evaluator.problems.borrow().len();
        self.plain_tables();
        self.fittings();
        if steady && self.evaluator.problems.borrow().len() == said {
            let _ = kept.0.set(Read {
                segments: self.design.body.segments.clone(),
                surfaces: self.design.surfaces.clone(),
                allowances: self.design.allowances.clone(),
                sockets: self.design.sockets.clone(),
                fittings: self.design.fittings.clone(),
            });
        }
    }

    /// Whether everything that the builder wrote into catalogue entries is a plain value, the same in every variant.
    fn tables_are_steady(&self) -> bool {
        let scope = self.evaluator.scope;
        let own = scope.own_entries.iter().map(|(_, e)| *e).chain(scope.measured.iter().copied());
        own.flat_map(crate::words::inner)
            .filter_map(crate::words::value)
            .all(|v| crate::build_extras::is_steady(v, scope))
    }

    fn fittings(&mut self) {
        let scope = self.evaluator.scope;
        let mut sockets = std::collections::BTreeMap::new();
        for ((keyword, key), entry) in &scope.entries {
            if *keyword == "socket"
                && let Ok(socket) = self.socket(entry)
            {
                sockets.insert(key.clone(), self.design.sockets.push(socket));
            }
        }
        for ((keyword, _), entry) in &scope.entries {
            if *keyword == "fitting"
                && let Ok(fitting) = self.fitting(entry, &sockets)
            {
                self.design.fittings.push(fitting);
            }
        }
    }

    fn socket(&self, entry: &'a Entry) -> Outcome<SocketSpec> {
        let r = self.reader("socket", entry)?;
        let made_for = r.text("made_for").ok_or(Silent)?;
        let pipe = self.evaluator.scope.entries.get(&("stock", fold(&made_for))).copied();
        let made_for_modulus = pipe.and_then(|p| self.shape(p).ok()).map(|s| s.section().modulus);
        Ok(SocketSpec {
            name: r.name().to_owned(),
            entrance: r.band("entrance").ok_or(Silent)?,
            bottom: r.band("bottom").ok_or(Silent)?,
            depth: r.size("depth", "the depth says how far the pipe goes in")?,
            made_for,
            made_for_modulus,
            source: r.text("source").unwrap_or_default(),
        })
    }

    fn fitting(
        &self,
        entry: &'a Entry,
        sockets: &std::collections::BTreeMap<String, chairwright_design::SocketId>,
    ) -> Outcome<FittingSpec> {
        let r = self.reader("fitting", entry)?;
        let shape = match r.text("shape").ok_or(Silent)?.as_str() {
            "elbow_90" => FittingShape::Elbow90,
            "elbow_45" => FittingShape::Elbow45,
            "tee" => FittingShape::Tee,
            "slip_tee" => FittingShape::SlipTee,
            "cross" => FittingShape::Cross,
            "corner" => FittingShape::Corner,
            "coupling" => FittingShape::Coupling,
            "cap" => FittingShape::Cap,
            _ => FittingShape::Bush,
        };
        let socket_named = |key: &str| -> Outcome<chairwright_design::SocketId> {
            let name = r.text(key).ok_or(Silent)?;
            sockets.get(&fold(&name)).copied().ok_or_else(|| {
                let _ = self.evaluator.find_entry("socket", &name, entry.head);
                Silent
            })
        };
        let host = if shape == FittingShape::Bush { Some(socket_named("host")?) } else { None };
        let take_out_is = if r.is_measured("take_out") {
            TakeOut::Measured
        } else {
            match r.text("take_out_is").as_deref() {
                Some("measured") => TakeOut::Measured,
                Some("minimum") => TakeOut::Minimum,
                _ => TakeOut::Memory,
            }
        };
        let take_out = r.si("take_out").ok_or(Silent)?;
        if take_out < 0.0 {
            r.positive("take_out", take_out)?;
        }
        Ok(FittingSpec {
            name: r.name().to_owned(),
            shape,
            socket: socket_named("socket")?,
            host,
            take_out,
            take_out_is,
            hub: r.si("hub").ok_or(Silent)?,
            mass: r.si("mass").ok_or(Silent)?,
            threaded: r.text("threaded").as_deref() == Some("yes"),
            stiffness: stiffness(&r)?,
            source: r.text("source").unwrap_or_default(),
        })
    }

    /// The stock that a statement's value names: of several, the first that the caller prefers.
    pub(crate) fn stock_of(&mut self, entry: &'a Entry, env: &Env) -> Outcome<StockId> {
        let value = entry.value.as_deref().and_then(<[Expr]>::first).ok_or(Silent)?;
        let names = self.evaluator.catalogue_name(value, DeclKind::Stock, env)?;
        let stocked = names.iter().find(|(n, _)| self.evaluator.is_priced(n));
        let (name, span) = stocked.or_else(|| names.first()).cloned().ok_or(Silent)?;
        if names.len() > 1 {
            let why =
                if stocked.is_some() { "the price book sells it" } else { "the price book sells none of them" };
            self.assume(format!("of {} the first that is sold was wanted: {name} ({why})", list(&names)));
        }
        self.stock(&name, span)
    }

    pub(crate) fn assume(&self, text: String) {
        let mut all = self.evaluator.assumptions.borrow_mut();
        if !all.contains(&text) {
            all.push(text);
        }
    }

    fn stock(&mut self, name: &str, span: Span) -> Outcome<StockId> {
        let key = fold(name);
        if let Some(id) = self.stocks.get(&key) {
            return Ok(*id);
        }
        let entry = self.evaluator.find_entry("stock", name, span)?;
        let origin = self.origin(span);
        let stock = self.read_stock(entry, span, origin)?;
        let id = self.design.stocks.push(stock);
        self.stocks.insert(key, id);
        Ok(id)
    }

    /// Pipes, bars, boards and sheets on the pages in use, for whoever looks for a stronger one.
    pub(crate) fn shelf(&mut self) {
        let stiff = |e: &Entry| {
            let shape = crate::words::field_of(e, "shape").map(crate::build::plain);
            matches!(shape.as_deref(), Some("pipe" | "tube" | "rod" | "board" | "sheet"))
        };
        let scope = self.evaluator.scope;
        let entries = scope.entries.iter().filter(|((k, _), e)| *k == "stock" && stiff(e));
        for (_, entry) in entries {
            if let Ok(stock) = self.read_stock(entry, entry.head, Origin(u32::MAX)) {
                self.design.shelf.push(stock);
            }
        }
    }

    fn read_stock(&self, entry: &'a Entry, span: Span, origin: Origin) -> Outcome<Stock> {
        let shape = self.shape(entry)?;
        let r = self.reader("stock", entry)?;
        let mut material = self.material(&r, span)?;
        if let Some(grade) = r.text("grade").or(material.grade.take()) {
            let span = r.span("grade").filter(|s| s.source == span.source).unwrap_or(span);
            let stamp = self.evaluator.find_entry("allowance", &grade, span)?;
            if self.grades(stamp, &material)? {
                material.grade = Some(grade);
            } else {
                self.say(
                    Diagnostic::new("wrong-kind", format!("\"{grade}\" is no grade of {}", material.name))
                        .at(r.span("grade").unwrap_or(span), "not used")
                        .note("a grade is an allowance with design values of its own, grade_bending and others, and stands on boards of wood")
                        .help("write the grade as it is stamped, such as grade = \"SPF No. 2\"; without a stamp leave it out"),
                );
            }
        }
        material.bench = self.bench(&r, (&shape, &material))?;
        let (linear, areal) = self.weighed(&r, &shape, material.density);
        let sheet = r.si("sheet_length").zip(r.si("sheet_width"));
        let (stock_name, size, sold, source) =
            (r.name().to_owned(), r.text("size"), r.si("sold_length"), r.text("source").unwrap_or_default());
        Ok(Stock {
            name: stock_name,
            shape,
            material,
            size,
            standard: r.text("standard"),
            note: r.text("note"),
            linear_mass: linear,
            areal_mass: areal,
            sold_length: sold,
            sold_sheet: sheet,
            source,
            origin,
        })
    }

    /// Whether an allowance is a grade, and the material one that is graded.
    fn grades(&self, stamp: &'a Entry, material: &Material) -> Outcome<bool> {
        let stamp = self.reader("allowance", stamp)?;
        let values = ["grade_bending", "grade_pull", "grade_push", "grade_shear", "grade_modulus"];
        let graded = values.iter().any(|key| stamp.span(key).is_some());
        let of = material.allowance.as_ref().and_then(|name| {
            let entry = self.evaluator.scope.entries.get(&("allowance", fold(name))).copied()?;
            self.reader("allowance", entry).ok()?.text("family")
        });
        Ok(graded && of.is_none_or(|family| matches!(family.as_str(), "wood" | "plywood")))
    }

    /// Mass of a metre and of a square metre, where the entry says them. Of a size that was read more than once the least is drawn
    /// and judged; it weighs what the mean of the readings does.
    fn weighed(&self, r: &Reader<'_, 'a>, shape: &Shape, density: f64) -> (Option<f64>, Option<f64>) {
        let (linear, areal) = (r.si("linear_mass"), r.si("areal_mass"));
        let often: Vec<_> = ["thickness", "width"]
            .into_iter()
            .filter_map(|key| r.read_often(key).map(|(count, band)| (key, count, band)))
            .collect();
        for (key, count, band) in &often {
            let mm = |si: f64| format!("{:.1} mm", si * 1e3);
            self.assume(format!(
                "{}: its {key} was read {count} times, from {} to {}: the least is drawn and judged, and it weighs what the mean does",
                r.name(),
                mm(band.low),
                mm(band.high)
            ));
        }
        let mean = |key: &str| r.si(key).unwrap_or(0.0);
        match shape {
            _ if often.is_empty() => (linear, areal),
            Shape::Board { .. } => (linear.or(Some(density * mean("thickness") * mean("width"))), areal),
            Shape::Sheet { .. } => (linear, areal.or(Some(density * mean("thickness")))),
            _ => (linear, areal),
        }
    }

    /// What a bench told of a board, where somebody bent or loaded one. What no wood of its kind bears is a slip, and not used.
    fn bench(&self, r: &Reader<'_, 'a>, (shape, material): (&Shape, &Material)) -> Outcome<Option<Bench>> {
        const ALL: [&str; 5] = ["test_lying", "test_span", "test_force", "test_deflection", "proof_force"];
        let Some(span) = ALL.iter().find_map(|key| r.span(key)) else { return Ok(None) };
        let Shape::Board { thickness, width } = *shape else {
            self.say(
                Diagnostic::new("wrong-kind", "a bench test like this is of a board")
                    .at(span, format!("\"{}\" is none", r.name())),
            );
            return Err(Silent);
        };
        let lying = r.text("test_lying").ok_or_else(|| {
            r.lacks("test_lying", "a board bears more on its edge than lying flat");
            Silent
        })?;
        let (width, height) = if lying == "flat" { (width, thickness) } else { (thickness, width) };
        let size = |key: &str| r.size(key, "a bench test is worth nothing without it");
        let bent = match r.span("test_force").or(r.span("test_deflection")) {
            Some(_) => Some((size("test_force")?, size("test_deflection")?)),
            None => None,
        };
        let proof = r.span("proof_force").map(|_| size("proof_force")).transpose()?;
        let span = size("test_span")?;
        let believed = |key: &str, least: f64, most: f64, why: &str| {
            let (Some(value), Some(at)) = (r.value(key), r.span(key)) else { return true };
            let is = value.quantity().map_or(0.0, chairwright_quantity::Quantity::si);
            (least..=most).contains(&is)
                || self.evaluator.impossible(key, &value, (least, most), why, at).is_ok()
        };
        let (strength, modulus) = most_of(material);
        let section = width * height * height / 6.0;
        let proof = proof.filter(|_| believed("proof_force", 0.0, strength * section * 4.0 / span, STRONGER));
        let bent = bent.filter(|(force, _)| {
            let least = force * span.powi(3) / (48.0 * modulus * section * height / 2.0);
            believed("test_deflection", least, f64::INFINITY, STIFFER)
        });
        Ok(Some(Bench { span, width, height, bent, proof }))
    }

    fn shape(&self, entry: &'a Entry) -> Outcome<Shape> {
        let r = self.reader("stock", entry)?;
        let size = |key: &str| {
            let band = r.band(key).ok_or_else(|| {
                r.lacks(key, "the section cannot be drawn or weighed without it");
                Silent
            })?;
            r.positive(key, band.low)?;
            Ok(band)
        };
        // of several readings the thinnest carries the least
        let least = |key: &str, band: Band| if r.read_often(key).is_some() { band.low } else { band.mid() };
        Ok(match r.text("shape").ok_or(Silent)?.as_str() {
            kind @ ("pipe" | "tube") => {
                let (outer, wall): (Band, Band) = (size("outer_diameter")?, size("wall")?);
                if wall.high * 2.0 >= outer.low {
                    self.say(
                        Diagnostic::new("not-positive", format!("\"{}\" has no bore", r.name()))
                            .at(entry.head, "the wall is half the diameter or more"),
                    );
                    return Err(Silent);
                }
                Shape::Tube { outer, wall, is_pipe: kind == "pipe" }
            }
            "rod" => Shape::Rod { diameter: size("diameter")?.mid() },
            "board" => {
                let (a, b) = (least("thickness", size("thickness")?), least("width", size("width")?));
                Shape::Board { thickness: a.min(b), width: a.max(b) }
            }
            "sheet" => Shape::Sheet { thickness: least("thickness", size("thickness")?) },
            _ => Shape::Webbing { width: size("width")?.mid(), thickness: size("thickness")?.mid() },
        })
    }

    fn material(&self, stock: &Reader<'_, 'a>, span: Span) -> Outcome<Material> {
        let name = stock.text("material").ok_or(Silent)?;
        // the place is the line that names the material, where it is the builder's own
        let span = stock.span("material").filter(|s| s.source == span.source).unwrap_or(span);
        let entry = self.evaluator.find_entry("material", &name, span)?;
        let r = self.reader("material", entry)?;
        let density = r.band("density").ok_or(Silent)?.mid();
        r.positive("density", density)?;
        Ok(Material {
            name: r.name().to_owned(),
            density,
            strength: r.si("strength"),
            modulus: r.si("modulus"),
            shear_strength: r.si("shear_strength"),
            poisson: r.si("poisson"),
            service_temperature: r.si("service_temperature"),
            allowance: r.text("allowance"),
            grade: r.text("grade"),
            bench: None,
            source: r.text("source").unwrap_or_default(),
        })
    }

    pub(crate) fn load_fasteners(&mut self, list: &[(String, u32)]) {
        for (name, _) in list {
            if self.design.fastener(name).is_some() {
                continue;
            }
            let Some(entry) = self.evaluator.scope.entries.get(&("fastener", fold(name))).copied() else {
                continue;
            };
            let Ok(r) = self.reader("fastener", entry) else { continue };
            let fastener = Fastener {
                name: r.name().to_owned(),
                kind: r.text("kind").unwrap_or_default(),
                diameter: r.si("diameter").unwrap_or(0.0),
                length: r.si("length").unwrap_or(0.0),
                outer: r.si("outer_diameter"),
                mass: r.si("mass").unwrap_or(0.0),
                root: r.si("root_diameter"),
            };
            self.design.fasteners.push(fastener);
        }
    }

    /// The bought part that a statement's value names.
    fn part(&self, value: &'a Expr, env: &Env) -> Outcome<(Reader<'_, 'a>, PartSpec)> {
        let names = self.evaluator.catalogue_name(value, DeclKind::Part, env)?;
        let stocked = names.iter().find(|(n, _)| self.evaluator.is_priced(n));
        let (name, span) = stocked.or_else(|| names.first()).ok_or(Silent)?;
        let entry = self.evaluator.find_entry("part", name, *span)?;
        let r = self.reader("part", entry)?;
        r.possible("part", &crate::bounds::WITHIN)?;
        let mass = r.si("mass").ok_or(Silent)?;
        let spec = PartSpec { name: r.name().to_owned(), mass, source: r.text("source").unwrap_or_default() };
        Ok((r, spec))
    }

    pub(crate) fn value(entry: &'a Entry) -> Outcome<&'a Expr> {
        entry.value.as_deref().and_then(<[Expr]>::first).ok_or(Silent)
    }

    fn kind_is(&self, r: &Reader<'_, 'a>, wanted: &str, span: Span) -> Outcome<()> {
        let kind = r.text("kind").unwrap_or_default();
        if kind == wanted {
            return Ok(());
        }
        self.say(
            Diagnostic::new("wrong-kind", format!("a {wanted} is wanted here"))
                .at(span, format!("\"{}\" is a {kind}", r.name()))
                .also(r.entry.head, "described here"),
        );
        Err(Silent)
    }

    pub(crate) fn cushion(&self, entry: &'a Entry, env: &Env) -> Outcome<Option<(String, f64, f64)>> {
        let Some(clause) = Self::clause(entry, "cushion") else { return Ok(None) };
        let (r, spec) = self.part(&clause.values[0], env)?;
        self.kind_is(&r, "cushion", clause.values[0].span)?;
        let thickness = r.si("loaded_thickness").or_else(|| {
            let free = r.si("thickness")?;
            self.assume(format!(
                "cushion {}: no loaded thickness is given, its free thickness was used",
                spec.name
            ));
            Some(free)
        });
        let thickness = thickness.ok_or_else(|| {
            r.lacks("loaded_thickness", "every height above the seat is measured from the loaded cushion");
            Silent
        })?;
        Ok(Some((spec.name, spec.mass, thickness)))
    }

    pub(crate) fn wheel(&mut self, placed: &Placed<'a>, env: &Env) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?.to_string();
        let value = Self::value(entry)?;
        let (r, part) = self.part(value, env)?;
        self.kind_is(&r, "wheel", value.span)?;
        let at = self.place(entry, "at", env)?;
        let camber = self.si(entry, "camber", env)?.unwrap_or(0.0);
        let toe = self.si(entry, "toe", env)?.unwrap_or(0.0);
        let radius = match r.si("loaded_radius") {
            Some(loaded) => loaded,
            None => {
                self.assume(format!(
                    "wheel {}: no loaded radius is given, half its diameter was used",
                    part.name
                ));
                r.band("diameter").map(|b| b.mid() / 2.0).ok_or_else(|| {
                    r.lacks("diameter", "the chair stands on it");
                    Silent
                })?
            }
        };
        r.positive("diameter", radius)?;
        let tyre = r.size("width", "the tyre's width sets the width of the chair")?;
        let hub = r.si("hub_width").unwrap_or(0.0);
        let rim = r.si("rim_diameter");
        let rim_gap = r.si("rim_standoff");
        if rim.is_some() && rim_gap.is_none() {
            // without it the chair would look narrower than it is
            r.lacks(
                "rim_standoff",
                "from the side of the tyre to the push rim: it sets the width of the chair",
            );
        }
        let rim = rim.filter(|_| rim_gap.is_some());
        let rim_gap = rim_gap.unwrap_or(0.0);
        let rated = rated(&r);
        let stiffness = stiffness(&r)?;
        let one_sided = r.text("one_sided").map(|w| w == "yes");
        let rim_tube = r.si("rim_tube").unwrap_or(PUSH_RIM);
        r.positive("rim_tube", rim_tube)?;
        let rim_out = rim.map_or(tyre / 2.0, |_| tyre / 2.0 + rim_gap + rim_tube);
        if rim.is_some() && r.si("rim_tube").is_none() {
            self.assume(format!(
                "push rim of {}: tube of {:.0} mm, outside its stand-off",
                part.name,
                PUSH_RIM * 1e3
            ));
        }
        // Without a side the wheel's own place decides which way is out.
        let mut sign = side_sign(self.side(placed));
        if sign == 0.0 {
            sign = if at.y < 0.0 { -1.0 } else { 1.0 };
        }
        // Camber leans the top inward, so the outboard axle points up; toe-out turns it back.
        let axle = Vec3::new(
            -libm::sin(toe) * libm::cos(camber),
            sign * libm::cos(toe) * libm::cos(camber),
            libm::sin(camber),
        );
        let origin = self.origin(crate::scope::declared_name(entry).map_or(entry.head, |(_, s)| s));
        self.design.wheels.push(Wheel {
            name,
            side: self.side(placed),
            part,
            radius,
            tyre,
            hub,
            rim,
            rim_out,
            rim_gap,
            rim_tube,
            rated,
            stiffness,
            one_sided,
            at,
            axle,
            camber,
            origin,
        });
        Ok(())
    }

    pub(crate) fn caster(&mut self, placed: &Placed<'a>, env: &Env) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?.to_string();
        let value = Self::value(entry)?;
        let (r, part) = self.part(value, env)?;
        self.kind_is(&r, "caster", value.span)?;
        let at = self.place(entry, "at", env)?;
        let rake = self.si(entry, "raked", env)?.unwrap_or(0.0);
        let diameter = r.band("diameter").map(Band::mid).ok_or_else(|| {
            r.lacks("diameter", "the chair stands on it");
            Silent
        })?;
        r.positive("diameter", diameter)?;
        let radius = r.si("loaded_radius").unwrap_or(diameter / 2.0);
        r.positive("loaded_radius", radius)?;
        let (width, trail) = (
            r.size("width", "its sweep depends on it")?,
            r.si("trail").ok_or_else(|| {
                r.lacks("trail", "how far the wheel swings decides wheelbase and stability");
                Silent
            })?,
        );
        let drop = r.si("drop").ok_or_else(|| {
            r.lacks("drop", "from the face the stem is seated on down to the wheel's axle");
            Silent
        })?;
        let fork_width = r.si("fork_width").unwrap_or(width + FORK);
        let (play, stem_diameter) = (r.si("stem_play"), r.si("stem_diameter"));
        let (rated, stiffness) = (rated(&r), stiffness(&r)?);
        // Positive rake leans the top of the stem to the rear.
        let stem = Vec3::new(-libm::sin(rake), 0.0, libm::cos(rake));
        let origin = self.origin(crate::scope::declared_name(entry).map_or(entry.head, |(_, s)| s));
        self.design.casters.push(Caster {
            name,
            side: self.side(placed),
            part,
            radius,
            tread: diameter / 2.0,
            width,
            trail,
            drop,
            fork_width,
            play,
            stem_diameter,
            rated,
            stiffness,
            at,
            stem,
            origin,
        });
        Ok(())
    }

    pub(crate) fn item(&mut self, placed: &Placed<'a>, env: &Env) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?.to_string();
        let (r, part) = self.part(Self::value(entry)?, env)?;
        let at = self.place(entry, "at", env)?;
        let kind = match placed.spec.keyword {
            "brake" => ItemKind::Brake,
            "axle" => ItemKind::Axle,
            _ if r.text("kind").as_deref() == Some("anti_tip") => ItemKind::AntiTip,
            _ if r.text("kind").as_deref() == Some("receiver") => ItemKind::Receiver,
            _ if r.text("kind").as_deref() == Some("handle") => ItemKind::Handle,
            _ => ItemKind::Other,
        };
        let (holds, reach) = (r.si("holding_force"), r.si("reach"));
        let size = match kind {
            ItemKind::Axle => {
                let d = r.si("axle_diameter").unwrap_or(0.012);
                Vec3::new(d, r.si("axle_length").or_else(|| r.si("length")).unwrap_or(0.1), d)
            }
            ItemKind::AntiTip => {
                let d = r.si("diameter").unwrap_or(0.03);
                Vec3::new(d, r.si("width").unwrap_or(0.02), d)
            }
            _ => Vec3::new(
                r.si("length").unwrap_or(0.06),
                r.si("width").unwrap_or(0.03),
                r.si("height").unwrap_or(0.06),
            ),
        };
        let origin = self.origin(crate::scope::declared_name(entry).map_or(entry.head, |(_, s)| s));
        self.design.items.push(Item {
            name,
            kind,
            side: self.side(placed),
            part,
            at,
            size,
            reach,
            holds,
            origin,
        });
        Ok(())
    }

    pub(crate) fn supply(&mut self, entry: &'a Entry, env: &Env) -> Outcome<()> {
        let name = text_of(entry.subject.as_ref()).ok_or(Silent)?.to_owned();
        let (amount, unit) = match self.si(entry, "over", env)? {
            Some(length) => (length, "m"),
            None => (f64::from(self.count(entry, env)?), "each"),
        };
        let origin = self.origin(entry.head);
        self.design.supplies.push(Supply { name, amount, unit: unit.to_owned(), origin });
        Ok(())
    }
}

/// The load that one of a part is rated for, kg; of a pair each carries half.
fn rated(part: &Reader<'_, '_>) -> Option<f64> {
    let (mass, basis) = part.si("load_rating").zip(part.text("rating_basis"))?;
    Some(if basis == "pair" { mass / 2.0 } else { mass })
}

/// Stiffness of a wheel's tyre, N/m, or of a socket that is turned, N·m/rad, more than nothing.
fn stiffness(part: &Reader<'_, '_>) -> Outcome<Option<f64>> {
    let known = part.si("stiffness");
    known.map(|k| part.positive("stiffness", k)).transpose()?;
    Ok(known)
}

/// Fork beyond the wheel's width where nobody says: two legs of 6 mm and a gap of 2 mm each. Common practice, no source.
const FORK: f64 = 0.016;
/// Diameter of push rim tube; from memory, not checked, listed as an assumption.
const PUSH_RIM: f64 = 0.020;

fn list(names: &[(smol_str::SmolStr, Span)]) -> String {
    names.iter().map(|(n, _)| n.as_str()).collect::<Vec<_>>().join(", ")
}
