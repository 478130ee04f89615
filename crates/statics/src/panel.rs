//! The model of a panel, [`crate::Panel`].
//!
//! A flat sheet between four nodes carries one thing: shear in its plane. Its strain is the shear
//! strain at the middle of the bilinear displacements of its corners, in axes whose x runs along the
//! mean of the edges 1-2 and 4-3; its stiffness to that strain is `G·t·A`. For a rectangle a × b this
//! is the shear panel of stiffened-sheet theory: pushed along a it gives `G·t·a/b`, and every edge
//! feels the shear flow `G·t·γ`, shared between its two corners.
//!
//! Direct stress, bending of the sheet and its own buckling are left out: the members along its edges
//! carry pull and push. A sheet fixed by screws is softer than this: put links of the slip stiffness
//! of the fasteners between sheet nodes and frame nodes. A closed box of sheets is not made of
//! panels; it is a beam with [`crate::section::thin_box`] or [`crate::section::bredt`].
