//! Prints what the strength check says of designs, raw; for looking at the model while it is changed.

use chairwright_driver::{Options, ReadError, World, compile};
use chairwright_strength::{Depth, strength};

struct Disk(std::path::PathBuf);

impl World for Disk {
    fn read(&self, path: &str) -> Result<String, ReadError> {
        std::fs::read_to_string(self.0.join(path)).map_err(|_| ReadError::Missing)
    }
}

#[allow(clippy::print_stdout)]
fn main() {
    for file in std::env::args().skip(1) {
        let path = std::path::PathBuf::from(&file);
        let (Some(folder), Some(name)) = (path.parent(), path.file_name().and_then(|n| n.to_str())) else {
            continue;
        };
        let (_, c) = compile(&Disk(folder.to_owned()), name, &Options::default());
        let mut least = f64::INFINITY;
        let mut s = strength(&c.design, &c.frame, &c.checked, Depth::Whole);
        for _ in 0..20 {
            let start = std::time::Instant::now();
            s = strength(&c.design, &c.frame, &c.checked, Depth::Whole);
            least = least.min(start.elapsed().as_secs_f64());
        }
        let mut verdicts = f64::INFINITY;
        for _ in 0..20 {
            let start = std::time::Instant::now();
            let _ = strength(&c.design, &c.frame, &c.checked, Depth::Verdicts);
            verdicts = verdicts.min(start.elapsed().as_secs_f64());
        }
        println!(
            "== {file}: {:?}, {:.2} ms, verdicts alone {:.2} ms",
            s.verdict(),
            least * 1e3,
            verdicts * 1e3
        );
        println!(
            "give {:.2} mm, drop x {:.2}, buckling {:?}, sag {:?}, softer {:?}",
            s.give * 1e3,
            s.drop,
            s.buckling,
            s.sag,
            s.softer
        );
        for i in &s.items {
            println!(
                "  {:?} {:<28} {:?} {:.2}..{:.2} {:.2e} of {:.2e} at {:.3} in {:?}",
                i.verdict, i.name, i.mode, i.used.0, i.used.1, i.demand, i.bears, i.at, s.cases[i.case].kind
            );
        }
        println!("{:?} of {} on the shelf", s.mends, c.design.shelf.len());
        for l in &s.lost {
            println!(
                "  lost {}: falls {}, {:?} {:.2?} {:?} {:?}",
                l.name,
                l.falls,
                l.rest(),
                l.used,
                l.worst,
                l.unjudged
            );
        }
        println!(
            "{:?}\n{:?}\n{:?}\n{:?}\n{:?}\n{:?}\n{:?}\n{:?}",
            s.untold, s.loose, s.swings, s.refused, s.forbidden, s.incompatible, s.lives, s.assumed
        );
    }
}
