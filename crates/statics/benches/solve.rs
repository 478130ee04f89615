//! Times of solving, one thread, medians. `cargo bench -p chairwright-statics`.
#![allow(clippy::print_stdout)]

use std::hint::black_box;
use std::time::Instant;

use chairwright_statics::{
    Buckling, BucklingOptions, LoadCase, MemberId, Model, NodeId, Section, Side, Solver,
};

fn main() {
    sixty();
    println!();
    let mut before: Option<(usize, f64)> = None;
    for (name, cells) in [
        ("block 4x4x4", [4, 4, 4]),
        ("block 8x8x7", [8, 8, 7]),
        ("block 16x15x15", [16, 15, 15]),
        ("mast 3x3x7", [3, 3, 7]),
        ("mast 3x3x54", [3, 3, 54]),
        ("mast 3x3x530", [3, 3, 530]),
    ] {
        let (m, case) = lattice(cells);
        let repeats = if m.members.len() > 5000 { 3 } else { 15 };
        let t = median(repeats, || {
            let solver = Solver::new(&m).unwrap_or_else(|e| unreachable!("{e}"));
            black_box(solver.solve(std::slice::from_ref(&case)).map(|s| s[0].residual()).ok());
        });
        let count = m.members.len();
        let growth = before.filter(|b| b.0 < count).map_or(String::new(), |(n, s)| {
            let power = libm::log(t / s) / libm::log(count as f64 / n as f64);
            format!(", grows as n^{power:.2}")
        });
        println!("{name}: {count} members, {} unknowns: {:.2} ms{growth}", 6 * m.nodes.len(), t * 1e3);
        before = Some((count, t));
    }
}

/// Figures of the frame of sixty members.
fn sixty() {
    let (m, case) = lattice([4, 4, 2]);
    let mut m = m;
    m.members.truncate(60);
    while m.members.len() < 60 {
        let k = m.members.len();
        m.member(NodeId(k % 16), NodeId(31 - k % 16), section());
    }
    let many = vec![case.clone(); 20];
    let whole = |cases: &[LoadCase]| {
        let Ok(solver) = Solver::new(&m) else { unreachable!("sound") };
        let Ok(all) = solver.solve(cases) else { unreachable!("sound") };
        black_box(all.iter().map(|s| s.ends(MemberId(3))[0][0]).sum::<f64>());
    };
    let one = median(2001, || whole(std::slice::from_ref(&case)));
    let twenty = median(501, || whole(&many));
    println!("{} members, {} nodes", m.members.len(), m.nodes.len());
    println!("build, solve, end forces, one load case: {:.3} ms", one * 1e3);
    println!("the same with twenty load cases: {:.3} ms, {:.2} times one", twenty * 1e3, twenty / one);
    let Ok(solver) = Solver::new(&m) else { unreachable!("sound") };
    println!("build and factor alone: {:.3} ms", median(2001, || drop(black_box(Solver::new(&m)))) * 1e3);
    let Ok(all) = solver.solve(std::slice::from_ref(&case)) else { unreachable!("sound") };
    let stations = median(501, || {
        for k in 0..m.members.len() {
            for p in 0..=10 {
                black_box(all[0].station(
                    MemberId(k),
                    all[0].length(MemberId(k)) * f64::from(p) / 10.0,
                    Side::Before,
                ));
            }
        }
    });
    println!("eleven stations of every member: {:.3} ms", stations * 1e3);
    for pieces in [1, 4, 8] {
        let options = BucklingOptions { count: 3, pieces };
        let found = all[0].buckling(&options);
        let factor = if let Ok(Buckling::At(modes)) = &found { modes[0].factor } else { f64::NAN };
        let t = median(21, || drop(black_box(all[0].buckling(&options))));
        println!("three buckling factors, {pieces} pieces a member: {:.2} ms (first {factor:.4})", t * 1e3);
    }
}

fn section() -> Section {
    Section {
        e: 3e9,
        g: 1.1e9,
        area: 6e-4,
        shear_y: Some(3e-4),
        shear_z: Some(3e-4),
        iy: 1.5e-7,
        iz: 1.5e-7,
        j: 3e-7,
    }
}

/// A lattice of square cells, clamped at the bottom, loaded on top.
fn lattice([nx, ny, nz]: [usize; 3]) -> (Model, LoadCase) {
    let mut m = Model::new();
    let at = |x: usize, y: usize, z: usize| NodeId((x * ny + y) * nz + z);
    let mut case = LoadCase::new();
    for x in 0..nx {
        for y in 0..ny {
            for z in 0..nz {
                m.support([0.5 * x as f64, 0.4 * y as f64, 0.3 * z as f64], [z == 0; 6]);
                if z == nz - 1 {
                    case = case.push(at(x, y, z), [10.0, 5.0, -100.0, 0.0, 0.0, 0.0]);
                }
            }
        }
    }
    for x in 0..nx {
        for y in 0..ny {
            for z in 0..nz {
                for (dx, dy, dz) in [(1, 0, 0), (0, 1, 0), (0, 0, 1)] {
                    if x + dx < nx && y + dy < ny && z + dz < nz && (z > 0 || dz > 0) {
                        m.member(at(x, y, z), at(x + dx, y + dy, z + dz), section());
                    }
                }
            }
        }
    }
    (m, case)
}

fn median(times: usize, mut f: impl FnMut()) -> f64 {
    let mut all: Vec<f64> = (0..times)
        .map(|_| {
            let start = Instant::now();
            f();
            start.elapsed().as_secs_f64()
        })
        .collect();
    all.sort_by(f64::total_cmp);
    all[times / 2]
}
