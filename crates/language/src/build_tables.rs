//! What the pages in use say beside stocks and parts, read once for a project: body segments, ground, allowances, sockets and fittings.

use crate::build::Builder;
use crate::build_parts::stiffness;
use crate::fields::entry_spec;
use crate::reader::Reader;
use crate::scope::fold;
use crate::value::{Outcome, Silent};
use chairwright_design::{FittingShape, FittingSpec, Origin, SocketSpec, Stock, TakeOut};
use chairwright_syntax::Entry;

/// What was read of the shipped pages, kept from one compilation of a project to the next.
#[derive(Default, Debug)]
pub struct Tables {
    read: std::cell::OnceCell<Read>,
    shelf: std::cell::OnceCell<chairwright_design::Arena<Stock>>,
}

#[derive(Debug)]
struct Read {
    segments: Vec<chairwright_design::Segment>,
    surfaces: Vec<chairwright_design::Surface>,
    allowances: Vec<chairwright_design::Allowance>,
    sockets: chairwright_design::Arena<SocketSpec>,
    fittings: chairwright_design::Arena<FittingSpec>,
}

impl<'a> Builder<'_, 'a> {
    pub(crate) fn reader(&self, keyword: &str, entry: &'a Entry) -> Outcome<Reader<'_, 'a>> {
        Ok(Reader { evaluator: self.evaluator, entry, spec: entry_spec(keyword).ok_or(Silent)? })
    }

    /// Body segments, kinds of ground, allowances, sockets and fittings of all pages in use: read once where no value in them can change.
    pub(crate) fn tables(&mut self, kept: &Tables) {
        let steady = self.tables_are_steady();
        if let Some(read) = kept.read.get().filter(|_| steady) {
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
            let _ = kept.read.set(Read {
                segments: self.design.body.segments.clone(),
                surfaces: self.design.surfaces.clone(),
                allowances: self.design.allowances.clone(),
                sockets: self.design.sockets.clone(),
                fittings: self.design.fittings.clone(),
            });
        }
    }

    /// Pipes, bars, boards and sheets on the pages in use, for whoever looks for a stronger one; read once as the tables are.
    pub(crate) fn shelf(&mut self, kept: &Tables) {
        let steady = self.tables_are_steady();
        if let Some(read) = kept.shelf.get().filter(|_| steady) {
            self.design.shelf.clone_from(read);
            return;
        }
        let said = || (self.evaluator.problems.borrow().len(), self.evaluator.assumptions.borrow().len());
        let before = said();
        let stiff = |e: &Entry| {
            let shape = crate::words::field_of(e, "shape").map(crate::build::plain);
            matches!(shape.as_deref(), Some("pipe" | "tube" | "rod" | "board" | "sheet"))
        };
        let entries = self.evaluator.scope.entries.iter().filter(|((k, _), e)| *k == "stock" && stiff(e));
        let read = entries.filter_map(|(_, e)| self.read_stock(e, e.head, Origin(u32::MAX)).ok());
        let read: Vec<Stock> = read.collect();
        let silent = said() == before;
        for stock in read {
            self.design.shelf.push(stock);
        }
        if steady && silent {
            let _ = kept.shelf.set(self.design.shelf.clone());
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
}
