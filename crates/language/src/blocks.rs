//! Blocks of fields: the rider, the conditions, and catalogue entries.

use crate::evaluator::{Env, Evaluator};
use crate::fields::{Field, entry_spec, field};
use crate::reader::Reader;
use crate::schema::Kind;
use crate::scope::{Decl, DeclKind, text_of};
use crate::statements::PROVENANCE;
use crate::value::{Outcome, Silent, Type, Value};
use crate::words::{field_of, keyword, says, usual_path};
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_syntax::{Entry, Expr, ExprKind};

/// Which fields a block cannot do without.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Complete {
    /// None: each is wanted by whoever uses it.
    No,
    /// Its source.
    Source,
    /// All that its kind requires.
    All,
}

/// Fields in which somebody answers for what is written beside them, and what is asked for.
const SIGNED: [(&str, &str); 3] = [
    ("measured_by", "who measured, by role and not by name"),
    ("reviewed_by", "who looked at these figures, by role and not by name"),
    ("for_whom", "which riders these figures are meant for"),
];

impl<'a> Evaluator<'a> {
    /// Checks every field of a block against its list.
    pub(crate) fn check_fields(&self, entry: &'a Entry, list: &'static [Field], complete: Complete) {
        let mut seen: Vec<(smol_str::SmolStr, Span)> = Vec::new();
        for inner in entry.block.iter().flat_map(|b| &b.entries) {
            let key = keyword(inner);
            if let Some((_, first)) = seen.iter().find(|(k, _)| *k == key) {
                self.given_twice(&key, inner.keyword.span, *first);
            }
            seen.push((key.clone(), inner.keyword.span));
            if let Some(subject) = &inner.subject {
                self.blank_in_key(inner, &key, subject, list);
                continue;
            }
            let Some(field) = field(list, &key) else {
                self.unknown_field(entry, inner, list);
                continue;
            };
            self.check_field(inner, field);
        }
        let wanted = |f: &&Field| match complete {
            Complete::No => false,
            Complete::Source => f.key == "source",
            Complete::All => f.required,
        };
        let missing: Vec<&Field> =
            list.iter().filter(wanted).filter(|f| !seen.iter().any(|(k, _)| k == f.key)).collect();
        for field in missing {
            let code = if field.key == "source" { "missing-source" } else { "missing-clause" };
            let mut problem =
                Diagnostic::new(code, format!("this {} lacks its `{}`", entry.keyword.text(), field.key))
                    .at(entry.head, format!("no {} = …", field.key));
            problem = if code == "missing-source" {
                problem
                    .note("a figure that nobody can trace cannot be checked by the next builder")
                    .help("say where the figures come from: source = \"measured with a calliper, March\"")
            } else {
                problem.help(format!("add {} = {}", field.key, sample(field.kind)))
            };
            self.say(problem);
        }
    }

    /// Refuses fields of a bought part, or of a correction of it, that nothing of its kind is worked out from.
    pub(crate) fn check_kind(&self, entry: &'a Entry, part: &'a Entry) {
        let Some(kind) = field_of(part, "kind").map(crate::build::plain).filter(|_| keyword(part) == "part")
        else {
            return;
        };
        if !crate::fields::PART_KINDS.contains(&kind.as_str()) {
            return;
        }
        let list = entry_spec("part").map_or(&[][..], |s| s.fields);
        for inner in entry.block.iter().flat_map(|b| &b.entries) {
            let key = keyword(inner);
            if field(list, &key).is_none() || crate::fields::part_takes(&kind, &key) {
                continue;
            }
            let takes: Vec<&str> =
                list.iter().map(|f| f.key).filter(|k| crate::fields::part_takes(&kind, k)).collect();
            self.say(
                Diagnostic::new("unknown-clause", format!("a part of the kind {kind} has no `{key}`"))
                    .at(inner.keyword.span, "nothing would be worked out from it")
                    .help(format!("it takes {}; tell the rest in a note", takes.join(", "))),
            );
        }
    }

    /// `hip width = …`, or a word between a field and its value.
    fn blank_in_key(&self, inner: &Entry, key: &str, subject: &Expr, list: &'static [Field]) {
        let joined = format!("{key}_{}", crate::build::plain(subject));
        let span = inner.keyword.span.to(subject.span);
        let problem = if field(list, &joined).is_some() {
            Diagnostic::new("bad-name", "a name has no blank")
                .at(span, "two words")
                .help(format!("write {joined}"))
                .edit(span, joined)
        } else {
            Diagnostic::new("unknown-clause", format!("`{key}` is followed by something else than ="))
                .at(subject.span, "not read")
                .help(format!("write {key} = … on a line of its own"))
        };
        self.say(problem);
    }

    pub(crate) fn given_twice(&self, key: &str, again: Span, first: Span) {
        self.say(
            Diagnostic::new("given-twice", format!("`{key}` is given twice"))
                .at(again, "again here")
                .also(first, "first given here")
                .help("keep one of them"),
        );
    }

    fn unknown_field(&self, entry: &Entry, inner: &Entry, list: &'static [Field]) {
        let key = inner.keyword.text();
        let rider = std::ptr::eq(list, crate::fields::RIDER);
        let usual = keyword(inner);
        let plain = usual.strip_suffix(".left").or_else(|| usual.strip_suffix(".right"));
        if let Some(whole) = plain.filter(|p| rider && field(list, p).is_some()) {
            let problem = Diagnostic::new("unknown-clause", format!("`{whole}` has no side"));
            let problem = problem.at(inner.keyword.span, "it is one for the whole rider");
            self.say(
                problem.help(format!("write {whole} = …; tell what differs between the sides in a comment")),
            );
            return;
        }
        let mut problem =
            Diagnostic::new("unknown-clause", format!("`{}` has no `{key}`", entry.keyword.text()))
                .at(inner.keyword.span, "not one of its fields");
        let near = if rider {
            crate::resolve::measure_alias(&key)
                .or_else(|| crate::suggest::within(&key, list.iter().map(|f| f.key), 2))
        } else {
            crate::suggest::nearest(&key, list.iter().map(|f| f.key))
        };
        // a second line for the same thing would only be refused as given twice
        let given = near
            .and_then(|meant| entry.block.iter().flat_map(|b| &b.entries).find(|e| says(&e.keyword, meant)));
        problem = match (near, given) {
            (Some(meant), Some(there)) => problem.also(there.keyword.span, "this may be meant").help(format!(
                "`{meant}` is given already: keep the value that is right, and take the other line out"
            )),
            (Some(meant), None) => {
                problem.help(format!("did you mean {meant}?")).edit(inner.keyword.span, meant)
            }
            (None, _) => {
                let keys: Vec<&str> = list.iter().map(|f| f.key).collect();
                problem.help(format!("it takes {}", keys.join(", ")))
            }
        };
        self.say(problem);
    }

    fn check_field(&self, inner: &'a Entry, field: &Field) {
        let values = inner.value.as_deref().unwrap_or_default();
        if let ([_, _, ..], Kind::Band(_)) = (values, field.kind) {
            // several readings of one measure
            for reading in values {
                let _ = self.want_field(reading, field);
            }
            return;
        }
        let [value] = values else {
            self.say(
                Diagnostic::new("missing-clause", format!("`{}` wants one value", field.key))
                    .at(inner.keyword.span, "no single value behind =")
                    .help(format!("write {} = {}", field.key, sample(field.kind))),
            );
            return;
        };
        let _ = self.want_field(value, field);
        if field.key == "source" && text_of(Some(value)).is_some_and(|t| t.trim().is_empty()) {
            self.say(
                Diagnostic::new("missing-source", "this source says nothing")
                    .at(value.span, "empty")
                    .note("a figure that nobody can trace cannot be checked by the next builder")
                    .help("say where the figures come from: source = \"measured with a calliper, March\""),
            );
        }
        let empty = |t: &str| t.trim().is_empty();
        if let Some((_, want)) = SIGNED.iter().find(|(key, _)| *key == field.key)
            && text_of(Some(value)).is_some_and(empty)
        {
            self.say(
                Diagnostic::new("missing-clause", format!("`{}` says nothing", field.key))
                    .at(value.span, "empty")
                    .help(format!("say {want}: {} = \"…\"", field.key)),
            );
        }
        for clause in &inner.clauses {
            match PROVENANCE.iter().find(|c| c.word == clause.word.text) {
                Some(spec) => self.check_clause(inner, spec, &clause.values, &Env::default()),
                None => self.say(
                    Diagnostic::new("unknown-clause", format!("a field takes no `{}`", clause.word.text))
                        .at(clause.word.span, "not one of its clauses")
                        .help("a value may say where it is from: origin measured by \"…\" dated \"…\""),
                ),
            }
        }
    }

    /// The entry of the use profile that the design names.
    pub(crate) fn profile(&self, from: Span) -> Outcome<Option<&'a Entry>> {
        let Some(named) = self.scope.profile else {
            self.say(
                Diagnostic::new("missing-clause", "this design names no use profile")
                    .at(from, "it is needed here")
                    .help("add a line, such as profile \"everyday\", and use catalogue.profiles"),
            );
            return Err(Silent);
        };
        let (name, span) = (text_of(named.subject.as_ref()).ok_or(Silent)?, named.head);
        self.find_entry("profile", name, span).map(Some)
    }

    pub(crate) fn field_value(&self, value: &Expr, kind: Kind) -> Outcome<Value> {
        match (&value.kind, kind) {
            (ExprKind::Name(path), Kind::Word(_)) => Ok(Value::Text(usual_path(path))),
            _ => {
                // a value of another kind is reported where the field is checked, and never used
                let got = self.infer(value, &Env::default());
                let fits = match kind {
                    Kind::Quantity(d) | Kind::Band(d) => got.dimension() == Some(d),
                    _ => got != Type::Bad,
                };
                if fits { self.eval(value, &Env::default()) } else { Err(Silent) }
            }
        }
    }

    /// The value of a field of the catalogue entry that a name stands for: `rail.outer_diameter`.
    pub(crate) fn entry_value(&self, decl: &Decl<'a>, field: &Field, from: Span) -> Outcome<Value> {
        let stock = matches!(decl.kind, DeclKind::Stock | DeclKind::Member);
        let kind = if stock { DeclKind::Stock } else { DeclKind::Part };
        let keyword = if stock { "stock" } else { "part" };
        let (value, room) = self.own_value(decl).ok_or(Silent)?;
        let names = self.catalogue_name(value, kind, &Env::on(room))?;
        let (name, _) = names.first().ok_or(Silent)?;
        let entry = self.find_entry(keyword, name, from)?;
        let reader = Reader { evaluator: self, entry, spec: entry_spec(keyword).ok_or(Silent)? };
        reader.value(field.key).ok_or_else(|| {
            self.say(
                Diagnostic::new("missing-clause", format!("\"{name}\" does not say its `{}`", field.key))
                    .at(from, "it is needed here")
                    .also(entry.head, "described here"),
            );
            Silent
        })
    }
}

/// A value that shows how a field is written.
pub(crate) fn sample(kind: Kind) -> String {
    use chairwright_quantity::Dimension as D;
    match kind {
        Kind::Quantity(d) | Kind::Band(d) => match d {
            D::LENGTH => "300 mm".into(),
            D::MASS => "2 kg".into(),
            D::ANGLE => "5 deg".into(),
            D::READING => "25 degC".into(),
            D::PRESSURE => "10 MPa".into(),
            D::DENSITY => "1400 kg/m3".into(),
            D::LINEAR_MASS => "0.6 kg/m".into(),
            D::AREAL_MASS => "6 kg/m2".into(),
            D::TIME => "8 h".into(),
            D::FORCE => "300 N".into(),
            D::SPEED => "1.2 m/s".into(),
            D::STIFFNESS => "120 N/mm".into(),
            D::TURNING => "800 Nm/rad".into(),
            _ => "1".into(),
        },
        Kind::Text => "\"…\"".into(),
        Kind::Date => "\"2026-05-15\"".into(),
        Kind::Word(words) => words.join(" or "),
        _ => "…".into(),
    }
}
