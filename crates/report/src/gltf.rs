//! The chair as a binary glTF 2.0 (ISO/IEC 12113): one named node per piece.
//!
//! glTF's axes: x to the left, y up, z forward, which is the chair's (y, z, x).

use crate::scene::bodies;
use chairwright_driver::Compilation;
use chairwright_frame::{Group, Mesh};
use serde_json::{Value, json};

/// Flats that a round is drawn with.
const SIDES: u32 = 24;

/// Writes the binary.
#[must_use]
pub fn glb(c: &Compilation) -> Vec<u8> {
    let mut out = Builder::default();
    for body in bodies(c) {
        let mut mesh = Mesh::default();
        for solid in &body.solids {
            append(&mut mesh, &solid.mesh(SIDES));
        }
        let colour = match (body.group, body.fitting) {
            (_, true) => 1,
            (Group::Frame, _) => 0,
            (Group::Support, _) => 2,
            (Group::Wheel | Group::Caster, _) => 3,
            (Group::Part, _) => 4,
        };
        out.node(&body.name, &mesh, colour);
    }
    out.finish(&crate::title::line(c))
}

fn append(to: &mut Mesh, more: &Mesh) {
    let base = u32::try_from(to.points.len()).unwrap_or(0);
    to.points.extend(&more.points);
    to.triangles.extend(more.triangles.iter().map(|t| t.map(|i| i + base)));
}

#[derive(Default)]
struct Builder {
    bytes: Vec<u8>,
    views: Vec<Value>,
    accessors: Vec<Value>,
    meshes: Vec<Value>,
    nodes: Vec<Value>,
}

impl Builder {
    #[allow(clippy::cast_possible_truncation)]
    fn node(&mut self, name: &str, mesh: &Mesh, colour: usize) {
        let points: Vec<[f32; 3]> = mesh.points.iter().map(|p| [p.y as f32, p.z as f32, p.x as f32]).collect();
        let bound = |pick: fn(f32, f32) -> f32, start: f32| -> Vec<f32> {
            (0..3).map(|k| points.iter().map(|p| p[k]).fold(start, pick)).collect()
        };
        let (low, high) = (bound(f32::min, f32::INFINITY), bound(f32::max, f32::NEG_INFINITY));
        let start = self.bytes.len();
        self.bytes.extend(points.iter().flatten().flat_map(|v| v.to_le_bytes()));
        let positions = self.view(start, 34962);
        self.accessors.push(json!({
            "bufferView": positions, "componentType": 5126, "count": points.len(),
            "type": "VEC3", "min": low, "max": high,
        }));
        let start = self.bytes.len();
        self.bytes.extend(mesh.triangles.iter().flatten().flat_map(|i| i.to_le_bytes()));
        let indices = self.view(start, 34963);
        self.accessors.push(json!({
            "bufferView": indices, "componentType": 5125, "count": mesh.triangles.len() * 3, "type": "SCALAR",
        }));
        let n = self.accessors.len();
        self.meshes.push(json!({
            "name": name,
            "primitives": [{ "attributes": { "POSITION": n - 2 }, "indices": n - 1, "material": colour }],
        }));
        self.nodes.push(json!({ "name": name, "mesh": self.meshes.len() - 1 }));
    }

    fn view(&mut self, start: usize, target: u32) -> usize {
        let length = self.bytes.len() - start;
        self.views.push(json!({ "buffer": 0, "byteOffset": start, "byteLength": length, "target": target }));
        self.views.len() - 1
    }

    fn finish(self, design: &str) -> Vec<u8> {
        let material = |name: &str, c: [f64; 3], metal: f64| {
            json!({ "name": name, "doubleSided": true, "pbrMetallicRoughness": {
                "baseColorFactor": [c[0], c[1], c[2], 1.0], "metallicFactor": metal, "roughnessFactor": 0.7 } })
        };
        let all: Vec<usize> = (0..self.nodes.len()).collect();
        let mut document = json!({
            "asset": { "version": "2.0", "generator": concat!("chairwright ", env!("CARGO_PKG_VERSION")) },
            "scene": 0,
            "scenes": [{ "name": design, "nodes": all }],
            "materials": [
                material("frame", [0.85, 0.84, 0.80], 0.0),
                material("fittings", [0.62, 0.64, 0.66], 0.0),
                material("supports", [0.55, 0.42, 0.28], 0.0),
                material("wheels", [0.12, 0.12, 0.13], 0.0),
                material("parts", [0.45, 0.48, 0.52], 0.4),
            ],
        });
        if !self.nodes.is_empty() {
            document["nodes"] = Value::Array(self.nodes);
            document["meshes"] = Value::Array(self.meshes);
            document["accessors"] = Value::Array(self.accessors);
            document["bufferViews"] = Value::Array(self.views);
            document["buffers"] = json!([{ "byteLength": self.bytes.len() }]);
        }
        pack(document.to_string().into_bytes(), self.bytes)
    }
}

/// Header, JSON chunk and binary chunk, each padded to four bytes.
fn pack(mut text: Vec<u8>, mut bytes: Vec<u8>) -> Vec<u8> {
    while !text.len().is_multiple_of(4) {
        text.push(b' ');
    }
    while !bytes.len().is_multiple_of(4) {
        bytes.push(0);
    }
    let size = |n: usize| u32::try_from(n).unwrap_or(u32::MAX).to_le_bytes();
    let binary = if bytes.is_empty() { 0 } else { 8 + bytes.len() };
    let mut out = Vec::with_capacity(20 + text.len() + binary);
    out.extend(b"glTF");
    out.extend(2u32.to_le_bytes());
    out.extend(size(20 + text.len() + binary));
    out.extend(size(text.len()));
    out.extend(b"JSON");
    out.extend(text);
    if !bytes.is_empty() {
        out.extend(size(bytes.len()));
        out.extend(b"BIN\0");
        out.extend(bytes);
    }
    out
}
