//! Stocks with their materials, and the fasteners that joints name.

use crate::build::Builder;
use crate::evaluator::Env;
use crate::reader::Reader;
use crate::scope::{DeclKind, fold};
use crate::value::{Outcome, Silent};
use chairwright_design::{Band, Bench, Fastener, Material, Origin, Shape, Stock, StockId};
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_quantity::Quantity;
use chairwright_syntax::{Entry, Expr};

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

    pub(crate) fn read_stock(&self, entry: &'a Entry, span: Span, origin: Origin) -> Outcome<Stock> {
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
            let is = value.quantity().map_or(0.0, Quantity::si);
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

    pub(crate) fn shape(&self, entry: &'a Entry) -> Outcome<Shape> {
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
        // the place is the line that names the material: on a shipped page every one is there
        let span = stock.span("material").unwrap_or(span);
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
            allowance: self.allowance_of(&r, span)?,
            grade: r.text("grade"),
            bench: None,
            source: r.text("source").unwrap_or_default(),
        })
    }

    /// What the material is asked to bear, by name: one that nobody knows would leave it without any figure, and unseen.
    fn allowance_of(&self, material: &Reader<'_, 'a>, span: Span) -> Outcome<Option<String>> {
        let Some(name) = material.text("allowance") else { return Ok(None) };
        let span = material.span("allowance").unwrap_or(span);
        self.evaluator.find_entry("allowance", &name, span)?;
        Ok(Some(name))
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
            if r.possible("fastener", &crate::bounds::DRIVEN).is_err() {
                continue;
            }
            let fastener = Fastener {
                name: r.name().to_owned(),
                kind: r.text("kind").unwrap_or_default(),
                diameter: r.si("diameter").unwrap_or(0.0),
                length: r.si("length").unwrap_or(0.0),
                outer: r.si("outer_diameter"),
                mass: r.si("mass").unwrap_or(0.0),
                root: r.si("root_diameter"),
                head: r.si("head"),
            };
            self.design.fasteners.push(fastener);
        }
    }
}

fn list(names: &[(smol_str::SmolStr, Span)]) -> String {
    names.iter().map(|(n, _)| n.as_str()).collect::<Vec<_>>().join(", ")
}
