//! Sheets, boxes and supports of one design.

use crate::build::Builder;
use crate::evaluator::Env;
use crate::outline;
use crate::scope::Placed;
use crate::value::{Outcome, Silent, Value};
use chairwright_design::{BoxBeam, Panel, Support, SupportKind, Vec3};
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_syntax::{Entry, Expr, ExprKind};

/// More bands than any sling has: a back of 600 mm in webbing of 10 mm. The frame is worked out at each.
const BANDS: u32 = 60;

impl<'a> Builder<'_, 'a> {
    /// Refuses a stock whose shape the statement cannot use.
    pub(crate) fn shape_is(
        &self,
        entry: &'a Entry,
        stock: chairwright_design::StockId,
        allowed: &str,
    ) -> Outcome<()> {
        use chairwright_design::Shape as S;
        let stock = &self.design.stocks[stock];
        let (is, fits) = match stock.shape {
            S::Sheet { .. } => ("a sheet", allowed.starts_with("sheet")),
            S::Webbing { .. } => ("webbing", allowed.ends_with("webbing")),
            S::Board { .. } => ("a board", allowed.ends_with("board")),
            S::Tube { .. } => ("a pipe or tube", allowed.starts_with("pipe")),
            S::Rod { .. } => ("a rod", allowed.starts_with("pipe")),
        };
        if fits {
            return Ok(());
        }
        let span = entry.value.as_deref().and_then(<[Expr]>::first).map_or(entry.head, |e| e.span);
        self.say(
            Diagnostic::new("wrong-kind", format!("a {} is made of {allowed}", entry.keyword.text()))
                .at(span, format!("\"{}\" is {is}", stock.name))
                .help("choose a stock of that shape"),
        );
        Err(Silent)
    }

    pub(crate) fn toward(&self, entry: &'a Entry, env: &Env) -> Outcome<Option<Vec3>> {
        let Some(clause) = Self::clause(entry, "toward") else { return Ok(None) };
        let value = &clause.values[0];
        if let ExprKind::Name(path) = &value.kind
            && chairwright_syntax::DIRECTIONS.contains(&path.text().as_str())
        {
            return crate::eval::direction(&path.text(), self.evaluator.scope.side(env.room))
                .map(Some)
                .ok_or(Silent);
        }
        match self.evaluator.eval(value, env)? {
            Value::Step(v) => Ok(v.unit()),
            _ => Err(Silent),
        }
    }

    pub(crate) fn panel(&mut self, placed: &Placed<'a>, env: &Env) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?;
        let stock = self.stock_of(entry, env)?;
        self.shape_is(entry, stock, "sheet")?;
        let clause = Self::clause(entry, "corners").ok_or(Silent)?;
        let corners: Vec<Vec3> = clause
            .values
            .iter()
            .map(|v| {
                self.evaluator.infer_place(std::slice::from_ref(v), env)?;
                self.evaluator.place(std::slice::from_ref(v), env)
            })
            .collect::<Outcome<_>>()?;
        let span = clause.span;
        self.plain(&name, &corners, span)?;
        let normal = plane_normal(&corners);
        let bent = normal.is_some_and(|n| corners.iter().any(|c| (*c - corners[0]).dot(n).abs() > 0.001));
        let Some(normal) = normal.filter(|_| corners.len() >= 3 && !bent) else {
            self.say(
                Diagnostic::new("bent-panel", format!("the corners of `{name}` make no flat panel"))
                    .at(
                        span,
                        if bent { "they do not lie in one plane" } else { "three corners or more are needed" },
                    )
                    .help("a flat sheet has all its corners in one plane; move one of them or cut it in two"),
            );
            return Err(Silent);
        };
        let toward = self.toward(entry, env)?.unwrap_or(-Vec3::Z);
        let toward = if toward.dot(normal) < 0.0 { -normal } else { normal };
        let origin = self.origin(crate::scope::declared_name(entry).map_or(entry.head, |(_, s)| s));
        self.design.panels.push(Panel {
            name: name.to_string(),
            side: self.side(placed),
            stock,
            corners,
            toward,
            origin,
        });
        Ok(())
    }

    /// Refuses an outline in one plane of which an edge runs across or touches another: it is no sheet that can be sawn, and area, weight and
    /// strength would be those of another.
    fn plain(&self, name: &str, corners: &[Vec3], span: Span) -> Outcome<()> {
        let Some(normal) = any_normal(corners) else { return Ok(()) };
        let flat = corners.iter().all(|c| (*c - corners[0]).dot(normal).abs() <= 0.001);
        let Some((first, second)) = outline::crossed(corners).filter(|_| flat) else { return Ok(()) };
        let help = match outline::order(corners, normal) {
            Some(order) => {
                let order: Vec<String> = order.iter().map(|k| (k + 1).to_string()).collect();
                format!(
                    "write the corners in the order in which a finger goes round the edge; of these, in the order {}",
                    order.join(", ")
                )
            }
            None => {
                "write the corners in the order in which a finger goes round the edge, or two panels".to_owned()
            }
        };
        self.say(
            Diagnostic::new("crossed-panel", format!("the outline of `{name}` crosses itself"))
                .at(span, format!("the edge from corner {first} meets the one from corner {second}"))
                .help(help),
        );
        Err(Silent)
    }

    pub(crate) fn box_beam(&mut self, placed: &Placed<'a>, env: &Env) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?;
        let stock = self.stock_of(entry, env)?;
        let (start, end) = (self.place(entry, "from", env)?, self.place(entry, "to", env)?);
        self.shape_is(entry, stock, "sheet")?;
        let (width, height) = (self.size(entry, "outside", env)?, self.size(entry, "by", env)?);
        let wall = self.design.stocks[stock].shape.half_sizes().0 * 2.0;
        if 2.0 * wall >= width.min(height) {
            self.say(
                Diagnostic::new("not-positive", "this box has no inside")
                    .at(entry.head, format!("two walls of {:.1} mm fill it", wall * 1e3))
                    .help("make it larger, or of thinner sheet"),
            );
            return Err(Silent);
        }
        let span = crate::scope::declared_name(entry).map_or(entry.head, |(_, s)| s);
        if (end - start).norm() < 1e-6 {
            self.say(
                Diagnostic::new("zero-member", format!("`{name}` has no length"))
                    .at(span, "both ends are in one place"),
            );
            return Err(Silent);
        }
        let origin = self.origin(span);
        let grain = Self::clause(entry, "grain").and_then(|c| c.values.first()).map(crate::build::plain);
        self.design.boxes.push(BoxBeam {
            name: name.to_string(),
            stock,
            start,
            end,
            width,
            height,
            ends: true,
            lengthwise: grain.map(|word| word == "lengthwise"),
            origin,
        });
        Ok(())
    }

    pub(crate) fn support(&mut self, entry: &'a Entry, kind: SupportKind) -> Outcome<()> {
        let env = Env::default();
        if let Some(first) = self.design.supports.iter().find(|s| s.kind == kind) {
            let first = self.origins[first.origin.0 as usize];
            self.evaluator.given_twice(kind.word(), entry.keyword.span, first);
            return Err(Silent);
        }
        let stock = self.stock_of(entry, &env)?;
        self.shape_is(entry, stock, "sheet or webbing")?;
        let bands = self.count(entry, &env)?;
        if bands > BANDS {
            let span = Self::clause(entry, "times").map_or(entry.head, |c| c.span);
            self.say(
                Diagnostic::new("too-large", format!("no sling is of more than {BANDS} bands"))
                    .at(span, format!("this comes to {bands}"))
                    .help("write a sling of cloth as a few bands that are as wide, or a sheet"),
            );
            return Err(Silent);
        }
        let ends = self.support_ends(entry, &format!("the {}", kind.word()), &env)?;
        let width = self.size(entry, "width", &env)?;
        let cushion = self.cushion(entry, &env)?;
        let sag = match Self::clause(entry, "sagging") {
            Some(_) => {
                self.shape_is(entry, stock, "webbing")?;
                Some(self.size(entry, "sagging", &env)?)
            }
            None => None,
        };
        let origin = self.origin(entry.head);
        let (name, (from, to)) = (kind.word().to_owned(), self.first_edge(kind, ends));
        self.design.supports.push(Support { kind, name, stock, from, to, width, bands, sag, cushion, origin });
        Ok(())
    }

    /// A sheet under the rider's forearm, from its rear end to its front end.
    pub(crate) fn armrest(&mut self, placed: &Placed<'a>, env: &Env) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?.to_string();
        let stock = self.stock_of(entry, env)?;
        self.shape_is(entry, stock, "sheet")?;
        let (from, to) = self.support_ends(entry, &format!("`{name}`"), env)?;
        let width = self.size(entry, "width", env)?;
        let origin = self.origin(crate::scope::declared_name(entry).map_or(entry.head, |(_, s)| s));
        let kind = SupportKind::Arm;
        let (from, to) = self.first_edge(kind, (from, to));
        self.design.supports.push(Support {
            kind,
            name,
            stock,
            from,
            to,
            width,
            bands: 1,
            sag: None,
            cushion: None,
            origin,
        });
        Ok(())
    }

    /// The edge that a support is measured from comes first, whichever was written first: the lower one of a back, the rear one
    /// of a seat, footrest or armrest. The plane is the same, and a rider that hangs from it upside down is nobody's meaning.
    fn first_edge(&self, kind: SupportKind, (from, to): (Vec3, Vec3)) -> (Vec3, Vec3) {
        let run = to - from;
        let swapped = match kind {
            // a back that lies flat runs to the rear
            SupportKind::Back if run.z.abs() < 1e-3 => run.x > 0.0,
            SupportKind::Back => run.z < 0.0,
            _ => run.x < 0.0,
        };
        if !swapped {
            return (from, to);
        }
        let (first, word) = if kind == SupportKind::Back { ("lower", "upper") } else { ("rear", "front") };
        self.assume(format!("{}: written from its {word} edge, measured from its {first} edge", kind.word()));
        (to, from)
    }

    fn support_ends(&mut self, entry: &'a Entry, name: &str, env: &Env) -> Outcome<(Vec3, Vec3)> {
        let (from, to) = (self.place(entry, "from", env)?, self.place(entry, "to", env)?);
        if (to - from).norm() < 1e-6 {
            self.say(
                Diagnostic::new("zero-member", format!("{name} has no length"))
                    .at(entry.head, "both ends are in one place"),
            );
            return Err(Silent);
        }
        Ok((from, to))
    }
}

/// Unit normal of the widest triangle of corners that follow each other.
fn any_normal(corners: &[Vec3]) -> Option<Vec3> {
    let all = corners.windows(3).map(|w| (w[1] - w[0]).cross(w[2] - w[0]));
    let widest = all.max_by(|a, b| a.norm().total_cmp(&b.norm()))?;
    (widest.norm() > 1e-8).then(|| widest.unit()).flatten()
}

/// Unit normal of the plane through the corners (sum of the edge products).
fn plane_normal(corners: &[Vec3]) -> Option<Vec3> {
    let n = corners.len();
    let first = corners.first()?;
    let shifted =
        (0..n).fold(Vec3::ZERO, |s, i| s + (corners[i] - *first).cross(corners[(i + 1) % n] - *first));
    (shifted.norm() > 1e-8).then(|| shifted.unit()).flatten()
}
