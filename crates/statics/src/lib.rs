//! Straight beams joined in space: how a frame of them moves, and what it carries.
//!
//! In come a [`Model`] and [`LoadCase`]s, as plain numbers in SI units and right-handed axes with
//! global Z up. Out go [`Solution`]s, [`Mechanism`]s as data where the frame can move by itself,
//! [`Buckling`] factors, and the [`Bent`] frame of second order. What cannot be computed is a typed
//! [`Error`]; nothing panics on figures.
//!
//! The beams are Timoshenko's, with exact stiffness for members of constant section: one element a
//! member is enough, and splitting a member changes nothing but rounding. Small displacements,
//! linear material.
//!
//! The same input gives the same bytes on one machine, every time. The kernels of library and small frames choose
//! their vector instructions when they run, and the library offers no way to pin them: a lattice of 1056 members agreed to
//! the last bit with AVX-512 and, emulated, without; processors without fused multiplication and addition were
//! not tried and may differ in the last digits, so what is printed must be rounded.
//!
//! This room knows no materials, no allowable stresses and no purpose: it must not know what the
//! frame is for.
//!
//! ```
//! use chairwright_statics::{LoadCase, Model, Section, Solver};
//!
//! let mut model = Model::new();
//! let wall = model.support([0.0, 0.0, 0.0], [true; 6]);
//! let tip = model.node([2.0, 0.0, 0.0]);
//! let section = Section { e: 200e9, g: 77e9, area: 1e-3, shear_y: None, shear_z: None, iy: 1e-6, iz: 1e-6, j: 2e-6 };
//! model.member(wall, tip, section);
//! let solver = Solver::new(&model)?;
//! let case = LoadCase::new().push(tip, [0.0, 0.0, -1000.0, 0.0, 0.0, 0.0]);
//! let down = solver.solve(&[case])?[0].node(tip)[2];
//! assert!((down + 1000.0 * 8.0 / (3.0 * 200e9 * 1e-6)).abs() < 1e-12);
//! # Ok::<(), chairwright_statics::Error>(())
//! ```

mod blocks;
mod buckling;
mod check;
mod course;
mod dissect;
mod element;
mod error;
mod factor;
mod frame;
mod geometric;
mod graph;
mod krylov;
mod lanes;
mod layout;
mod load;
mod mechanism;
mod model;
mod near;
mod order;
pub mod panel;
mod patch;
mod plane;
mod rod;
mod second_order;
pub mod section;
mod small;
mod solution;
mod solver;
mod spin;
mod split;
mod supernodes;
mod twin;
mod vector;

pub use buckling::{Buckling, BucklingOptions, CutFrame, Mode, Pushed, pieces};
pub use error::{Error, Fault, Item};
pub use load::{In, LoadCase, MemberLoad};
pub use mechanism::{Mechanism, MemberMotion, NodeMotion};
pub use model::{End, Joint, Link, Member, MemberId, Model, Node, NodeId, Orientation, Panel, Section};
pub use second_order::{Bent, BentStation, SecondOrder};
pub use solution::{Side, Solution, Station};
pub use solver::Solver;
pub use split::split;
pub use vector::{Axes, Vec3};
