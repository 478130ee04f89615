//! Where fasteners sit, as the text says: rows, how far apart, how far from the ends and the edges of the face.
//!
//! Whether they fit there is looked at where the face is known; here only what the words alone make impossible
//! is told.

use crate::build::Builder;
use crate::evaluator::Env;
use crate::value::Outcome;
use chairwright_design::Placing;
use chairwright_diagnostics::Diagnostic;
use chairwright_syntax::Entry;

/// The clauses that place fasteners.
const CLAUSES: [&str; 5] = ["rows", "apart", "spaced", "ends", "edges"];

impl<'a> Builder<'_, 'a> {
    /// Where fasteners sit; `None` where no clause says it. Of a gusset each plate has its own group on each of
    /// the two members: a quarter of them all. Where the words make no rows, that is told, and they hold as if unplaced.
    pub(crate) fn placing(
        &mut self,
        entry: &'a Entry,
        fasteners: &[(String, u32)],
        faces: u32,
        env: &Env,
    ) -> Outcome<Option<Placing>> {
        if CLAUSES.iter().all(|word| Self::clause(entry, word).is_none()) {
            return Ok(None);
        }
        let length = |word: &str| match Self::clause(entry, word) {
            Some(_) => self.size(entry, word, env).map(Some),
            None => Ok(None),
        };
        let (apart, spaced) = (length("apart")?, length("spaced")?);
        let (ends, edges) = (length("ends")?, length("edges")?);
        let rows = self.whole(entry, "rows", env)?.unwrap_or(1);
        let placing = Placing { rows, spaced, apart, ends, edges };
        let count = fasteners.first().map_or(0, |(_, n)| *n);
        let all = rows * faces;
        if !count.is_multiple_of(all) || count == 0 {
            self.uneven(entry, count, rows, faces);
            return Ok(None);
        }
        let lacks = if count / all > 1 && spaced.is_none() && ends.is_none() {
            Some(("spaced", "how far apart they stand in a row"))
        } else if rows > 1 && apart.is_none() && edges.is_none() {
            Some(("apart", "how far apart the rows are"))
        } else {
            None
        };
        let Some((word, what)) = lacks else { return Ok(Some(placing)) };
        self.say(
            Diagnostic::new("missing-clause", format!("these fasteners lack their `{word}`"))
                .at(entry.head, format!("nobody says {what}"))
                .help(format!("add {word} …, or how far they stay from the face's ends: ends …, edges …")),
        );
        Ok(None)
    }

    fn uneven(&self, entry: &'a Entry, count: u32, rows: u32, faces: u32) {
        let all = rows * faces;
        let down = count - count % all;
        let near = if down == 0 { all } else { down };
        let up = count.div_ceil(all).max(1) * all;
        let span = Self::clause(entry, "times").map_or(entry.head, |c| c.span);
        let on = if faces > 1 { format!(" on each of {faces} faces") } else { String::new() };
        let rows_words = if rows == 1 { "1 row".to_owned() } else { format!("{rows} rows") };
        let help = if near == up { format!("times {up}") } else { format!("times {near}, or times {up}") };
        let said =
            Diagnostic::new("uneven-rows", format!("{count} fasteners do not make {rows_words} alike{on}"))
                .at(span, format!("{count} is no multiple of {all}"))
                .help(format!("write {help}"));
        let written = Self::clause(entry, "times").is_some();
        self.say(if written { said.edit(span, format!("times {up}")) } else { said });
    }
}
