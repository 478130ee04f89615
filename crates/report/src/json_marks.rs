//! Marks along the pieces, for the JSON report.

use chairwright_driver::Compilation;
use chairwright_making::{Mark, Marked, What};
use serde::Serialize;

#[derive(Serialize)]
pub(crate) struct MarkedJson {
    pieces: Vec<String>,
    stock: String,
    from: String,
    marks: Vec<MarkJson>,
}

#[derive(Serialize)]
struct MarkJson {
    at: f64,
    kind: &'static str,
    name: Option<String>,
    meets: Vec<String>,
}

pub(crate) fn marked(c: &Compilation) -> Vec<MarkedJson> {
    let one = |m: &Marked| MarkedJson {
        pieces: m.names.clone(),
        stock: c.design.stocks[m.stock].name.clone(),
        from: c.design.joints[m.first].name.clone(),
        marks: m.marks.iter().map(|k| mark(c, k)).collect(),
    };
    crate::text_marks::pieces(c).iter().map(one).collect()
}

fn mark(c: &Compilation, mark: &Mark) -> MarkJson {
    let (kind, name, meets) = match &mark.what {
        What::Mouth(_) => ("socket", None, Vec::new()),
        What::Hole(name) => ("hole", Some(name.clone()), Vec::new()),
        What::Fastener(name, with) => ("fastener", Some(name.clone()), vec![with.clone()]),
        What::Edge(name, ends) => (if *ends { "ends" } else { "begins" }, Some(name.clone()), Vec::new()),
        What::Part(name) => ("part", Some(name.clone()), Vec::new()),
        What::Joint(joint, meets) => {
            let meets = meets.iter().map(|m| c.design.members[*m].name.clone()).collect();
            ("joint", Some(c.design.joints[*joint].name.clone()), meets)
        }
    };
    MarkJson { at: mark.at, kind, name, meets }
}
