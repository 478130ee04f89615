//! Reading a project: its texts, the pages it uses, its price book.

use crate::instead::{Instead, strip_choices};
use crate::path::join;
use crate::{ReadError, World};
use chairwright_catalogue::{PAGES, page};
use chairwright_cost::{PriceBook, Shed, read_book, read_shed};
use chairwright_diagnostics::{Diagnostic, Problems, Severity, Source, SourceId, Sources, Span};
use chairwright_language::{Choice, Import, Program, Tables, Text, imports, nearest};
use chairwright_syntax::{Entry, ExprKind, Limits, parse};
use smol_str::SmolStr;
use std::collections::BTreeSet;

/// Files that one design may bring in.
const FILES: usize = 64;

struct Tree {
    entries: Vec<Entry>,
    own: bool,
    /// How many forks away from the plan itself.
    level: u8,
    source: SourceId,
    /// Where the plan itself names what it is made from, where that brought this text.
    fork: Option<Span>,
    spoilt: BTreeSet<SmolStr>,
}

/// A project read into memory.
pub struct Project {
    /// Every text, for places.
    pub sources: Sources,
    /// Problems of reading and writing.
    pub problems: Problems,
    /// Whether the text names a price book, readable or not.
    pub(crate) wants_book: bool,
    /// The design's path in the project's folder.
    pub path: String,
    /// The file as whoever asked named it, for the commands in help texts.
    pub shown: String,
    trees: Vec<Tree>,
    pub(crate) book: Option<(SourceId, PriceBook)>,
    pub(crate) shed: Shed,
    /// The day that nothing was measured after, where there is a calendar.
    pub(crate) today: Option<String>,
    /// The file whose rider takes the place of the plan's own.
    pub(crate) rider: Option<String>,
    /// The file whose place takes the place of the plan's own.
    pub(crate) place: Option<String>,
    /// Shipped tables that were read already.
    pub(crate) tables: Tables,
}

struct Loader<'w> {
    world: &'w dyn World,
    project: Project,
    /// Files being read, outermost first.
    open: Vec<String>,
    done: BTreeSet<String>,
    pages: BTreeSet<String>,
    book_path: Option<(String, Span, u8)>,
    shed_path: Option<(String, Span)>,
    level: u8,
    /// Where the plan itself names the plan that is being read, from which it is made.
    fork: Option<Span>,
    /// Blocks that take the place of the plan's own.
    instead: &'w Instead,
    /// What another rider's text lets ride along, by name.
    brought: Vec<SmolStr>,
}

impl Project {
    /// Reads the design at `path` and all it brings in.
    #[must_use]
    pub fn load(world: &dyn World, path: &str) -> Project {
        Project::load_with(world, path, &Instead::default())
    }

    /// The same, with another rider or another place than the plan's own.
    #[must_use]
    pub fn load_with(world: &dyn World, path: &str, instead: &Instead) -> Project {
        let project = Project {
            sources: Sources::default(),
            problems: Problems::new(),
            trees: Vec::new(),
            book: None,
            shed: Shed::default(),
            shown: path.to_owned(),
            path: path.to_owned(),
            wants_book: false,
            today: world.today(),
            rider: instead.rider.as_ref().map(|(name, _)| name.clone()),
            place: instead.place.as_ref().map(|(name, _)| name.clone()),
            tables: Tables::default(),
        };
        let mut loader = Loader {
            world,
            project,
            open: Vec::new(),
            done: BTreeSet::new(),
            pages: BTreeSet::new(),
            book_path: None,
            shed_path: None,
            level: 0,
            fork: None,
            instead,
            brought: Vec::new(),
        };
        loader.replacements();
        loader.file(path, None);
        loader.page("body", None);
        loader.page("ground", None);
        loader.page("strength", None);
        loader.prices();
        loader.on_hand();
        loader.reasons();
        loader.days();
        loader.project
    }

    /// The declared program, made afresh from the trees.
    pub(crate) fn program<'a>(&'a self, choice: Choice<'a>) -> (Program<'a>, Problems) {
        let texts: Vec<Text> = self
            .trees
            .iter()
            .map(|t| Text { entries: &t.entries, own: t.own, level: t.level, spoilt: &t.spoilt })
            .collect();
        let mut priced = self.book.as_ref().map(|(_, b)| b.keys()).unwrap_or_default();
        priced.extend(self.shed.keys());
        Program::new(&texts, priced, Choice { today: self.today.as_deref(), ..choice })
    }

    /// The texts of the plan itself, and none that it is made from or that ship with the program.
    pub(crate) fn own_texts(&self) -> impl Iterator<Item = (&Source, &[Entry])> {
        let own = self.trees.iter().filter(|t| t.own && t.level == 0);
        own.filter_map(|t| Some((self.sources.get(t.source)?, t.entries.as_slice())))
    }

    /// Where the plan names the one that it is made from, if that or one of its own brought a place of the text.
    pub(crate) fn forked_at(&self, place: Span) -> Option<Span> {
        self.trees.iter().find(|t| t.source == place.source)?.fork
    }
}

impl Loader<'_> {
    fn say(&mut self, problem: Diagnostic) {
        self.project.problems.push(problem);
    }

    fn file(&mut self, path: &str, from: Option<Span>) {
        if self.open.iter().any(|p| p == path) {
            return self.circle(path, from);
        }
        if !self.done.insert(path.to_owned()) {
            return;
        }
        if self.done.len() > FILES {
            let mut problem = Diagnostic::new("too-large", "this design brings in too many files")
                .note(format!("the limit is {FILES} files"));
            if let Some(span) = from {
                problem = problem.at(span, "one too many");
            }
            return self.say(problem);
        }
        let text = match self.world.read(path) {
            Ok(text) => text,
            Err(error) => return self.unread(path, &error, from),
        };
        self.open.push(path.to_owned());
        self.tree(path, text, true);
        self.open.pop();
    }

    fn tree(&mut self, path: &str, text: String, own: bool) {
        let text = text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text);
        let source = self.project.sources.add(path, text);
        let text = self.project.sources.get(source).map(|s| s.text.clone()).unwrap_or_default();
        let parsed = parse(source, &text, &Limits::default());
        self.project.problems.extend(parsed.problems);
        let mut entries = parsed.entries;
        if own {
            let dropped = self.instead.strip(&mut entries, path, &mut self.brought);
            if let Some(first) = dropped.first() {
                let words: Vec<String> = dropped.iter().map(|e| format!("`{}`", e.keyword.text())).collect();
                self.say(
                    Diagnostic::new("misplaced-statement", "this is not read from another rider's or place's text")
                        .severity(Severity::Warning)
                        .at(first.head, "of the plan, and not of whoever rides it, or where")
                        .note(format!("not read: {}", words.join(", ")))
                        .help("write it into the plan; a rider's text brings the rider, deviations and what rides along, a place's the conditions"),
                );
            }
        }
        if own {
            let others = self.instead.given_elsewhere(path);
            for entry in strip_choices(&mut entries, &others) {
                self.say(of_another(&entry));
            }
        }
        let wanted = imports(&entries);
        let (level, fork, spoilt) = (self.level, self.fork, parsed.spoilt);
        self.project.trees.push(Tree { entries, own, level, source, fork, spoilt });
        for import in wanted {
            self.import(path, &import);
        }
    }

    fn import(&mut self, path: &str, import: &Import) {
        match import {
            Import::Page(name, span) => self.page(name.strip_prefix("catalogue.").unwrap_or(name), Some(*span)),
            Import::File(written, span) => match join(path, written) {
                Ok(inner) => self.file(&inner, Some(*span)),
                Err(_) => self.outside(written, *span),
            },
            Import::Fork(written, span) => match join(path, written) {
                Ok(inner) => {
                    self.level += 1;
                    let outer = self.fork;
                    self.fork = outer.or(Some(*span));
                    self.file(&inner, Some(*span));
                    self.fork = outer;
                    self.level -= 1;
                }
                Err(_) => self.outside(written, *span),
            },
            Import::OnHand(written, span) => match join(path, written) {
                Ok(inner) => self.shed_path = Some((inner, *span)),
                Err(_) => self.outside(written, *span),
            },
            Import::Prices(written, span) => match join(path, written) {
                Ok(inner) => match &self.book_path {
                    // the plan's own book takes the place of that of a plan it is made from
                    Some((.., level)) if *level < self.level => {}
                    Some((first, first_span, level)) if *first != inner && *level == self.level => {
                        let problem = Diagnostic::new("given-twice", "a second price book")
                            .at(*span, "again here")
                            .also(*first_span, "first given here")
                            .help("keep one of them");
                        self.say(problem);
                    }
                    _ => self.book_path = Some((inner, *span, self.level)),
                },
                Err(_) => self.outside(written, *span),
            },
        }
    }

    fn page(&mut self, name: &str, from: Option<Span>) {
        if let Some(page) = page(name) {
            if self.pages.insert(name.to_owned()) {
                self.tree(&format!("catalogue.{name}"), page.text.to_owned(), false);
            }
            return;
        }
        let known: Vec<&str> = PAGES.iter().map(|p| p.name).collect();
        let mut problem = Diagnostic::new("unknown-import", format!("there is no catalogue page `{name}`"));
        if let Some(span) = from {
            problem = problem.at(span, "not a page");
            if let Some(meant) = nearest(name, known.iter().copied()) {
                problem = problem
                    .help(format!("did you mean catalogue.{meant}?"))
                    .edit(span, format!("catalogue.{meant}"));
                return self.say(problem);
            }
        }
        self.say(problem.help(format!("the pages are {}", known.join(", "))));
    }

    fn prices(&mut self) {
        let Some((path, span, _)) = self.book_path.clone() else { return };
        self.project.wants_book = true;
        match self.world.read(&path) {
            Ok(text) => {
                let (book, problems) = read_book(&text);
                let source = self.project.sources.add(path, text);
                for problem in &problems {
                    let said = crate::words::book_problem(problem, source);
                    self.say(said);
                }
                self.project.book = Some((source, book));
            }
            Err(error) => self.unread(&path, &error, Some(span)),
        }
    }

    fn on_hand(&mut self) {
        let Some((path, span)) = self.shed_path.clone() else { return };
        match self.world.read(&path) {
            Ok(text) => {
                let (shed, problems) = read_shed(&text);
                let source = self.project.sources.add(path, text);
                for problem in &problems {
                    let said = crate::words::book_problem(problem, source);
                    self.say(said);
                }
                self.project.shed = shed;
            }
            Err(error) => self.unread(&path, &error, Some(span)),
        }
    }

    /// Another rider's or another place's block comes first, so that the plan's own gives way.
    fn replacements(&mut self) {
        for (name, text) in self.instead.texts() {
            self.tree(name, text.to_owned(), true);
        }
    }

    /// Takes out the reasons for leaving a rule of fit that were given for another rider than the one who sits here: those of the
    /// plan, where another text gives the rider, or those of a plan that this one is made from, where this one has its own.
    fn reasons(&mut self) {
        let is = |e: &Entry, word: &str| chairwright_design::spelling(&e.keyword.text()) == word;
        let trees = &mut self.project.trees;
        let rides = |t: &&Tree| t.own && t.entries.iter().any(|e| is(e, "rider"));
        let Some(level) = trees.iter().filter(rides).map(|t| t.level).min() else { return };
        let mut gone: Vec<Entry> = Vec::new();
        for (i, tree) in trees.iter_mut().enumerate() {
            // the text of another rider is read first
            let others = if self.instead.rider.is_some() { i > 0 } else { tree.level > level };
            if others {
                let (taken, kept): (Vec<Entry>, _) = tree.entries.drain(..).partition(|e| is(e, "deviation"));
                tree.entries = kept;
                gone.extend(taken);
            }
        }
        for entry in gone {
            let figure = entry.subject.as_ref().map_or("", |s| self.project.sources.slice(s.span));
            let headline = format!("the reason for leaving the rule about {figure} is another rider's");
            self.say(
                Diagnostic::new("idle-deviation", headline)
                    .severity(Severity::Advice)
                    .at(entry.head, "excuses nothing for this one")
                    .note("the rule is judged anew: what was agreed for one body is not agreed for another")
                    .help("where the rule is broken for this rider too, write a deviation beside this rider's measures"),
            );
        }
    }

    /// Takes out the states of a plan that this one is made from that say something of a rider or a place where this one has its own,
    /// and what forks in between say of them.
    fn days(&mut self) {
        let trees = &mut self.project.trees;
        let mut gone: Vec<(Option<Span>, &str, SmolStr)> = Vec::new();
        for word in ["rider", "conditions"] {
            let has = |e: &Entry| chairwright_design::spelling(&e.keyword.text()) == word;
            let with = trees.iter().filter(|t| t.own && t.entries.iter().any(has));
            let Some(level) = with.map(|t| t.level).min() else { continue };
            for tree in trees.iter_mut().filter(|t| t.own && t.level > level) {
                let before = states(&tree.entries);
                strip_choices(&mut tree.entries, &[word]);
                let after = states(&tree.entries);
                let lost = before.into_iter().filter(|name| !after.contains(name));
                gone.extend(lost.map(|name| (tree.fork, word, name)));
            }
        }
        for (fork, word, name) in gone {
            let whose = if word == "rider" { "rider" } else { "place" };
            let said = Diagnostic::new("misplaced-statement", format!("state `{name}` does not come along"));
            let said = said.severity(Severity::Advice);
            let said = match fork {
                Some(fork) => said.at(fork, format!("it says something of that plan's {whose}")),
                None => said,
            };
            self.say(
                said.note(format!("this plan has a {whose} of its own: of that one nobody says so"))
                    .help(format!("write the states of this {whose} into this plan")),
            );
        }
    }

    fn circle(&mut self, path: &str, from: Option<Span>) {
        let start = self.open.iter().position(|p| p == path).unwrap_or(0);
        let circle: Vec<&str> = self.open[start..].iter().map(String::as_str).chain([path]).collect();
        let mut problem = Diagnostic::new("circular-import", "these files bring each other in")
            .note(format!("the circle: {}", circle.join(" → ")))
            .help("move what both need into a third file");
        if let Some(span) = from {
            problem = problem.at(span, "the circle closes here");
        }
        self.say(problem);
    }

    fn outside(&mut self, written: &str, span: Span) {
        self.say(
            Diagnostic::new("outside-project", format!("`{written}` leaves the project's folder"))
                .at(span, "not followed")
                .note("a shared design must not read what is not shared with it")
                .help("copy the file into the folder and name it from there"),
        );
    }

    fn unread(&mut self, path: &str, error: &ReadError, from: Option<Span>) {
        let (code, why) = match error {
            ReadError::Missing => ("unknown-import", "there is no such file".to_owned()),
            ReadError::Outside => ("outside-project", "it lies outside the project's folder".to_owned()),
            ReadError::NotText => ("unknown-import", "it is no text in UTF-8".to_owned()),
            ReadError::TooLarge => ("too-large", "it is larger than the limit of 4 MiB".to_owned()),
            ReadError::Other(words) => ("unknown-import", words.clone()),
        };
        let mut problem = Diagnostic::new(code, format!("`{path}` cannot be read")).note(why);
        problem = match from {
            Some(span) => problem
                .at(span, "asked for here")
                .help("check the name; paths start in the folder of this file"),
            None => problem.help("check the name"),
        };
        self.say(problem);
    }
}

/// Names of the states of a text.
fn states(entries: &[Entry]) -> Vec<SmolStr> {
    let name = |e: &Entry| match &e.subject.as_ref()?.kind {
        ExprKind::Name(path) => Some(path.text()),
        _ => None,
    };
    entries.iter().filter(|e| e.keyword.text() == "state").filter_map(name).collect()
}

/// What a state, variant or fork of the plan says of the plan's own rider or place.
fn of_another(entry: &Entry) -> Diagnostic {
    let word = entry.keyword.text();
    let whose = if word.starts_with("rider") { "rider" } else { "place" };
    Diagnostic::new("misplaced-statement", format!("`{word}` is that of the plan's own {whose}, and not taken"))
        .severity(Severity::Warning)
        .at(entry.head, format!("another {whose} is asked for"))
        .note(format!("a state that says anything of one {whose} is left out for another"))
        .help(format!("look at that day by itself: --set {word}=… beside the other {whose}"))
}
