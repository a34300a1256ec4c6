//! Binary STL.

use super::Mesh;
use crate::mark::MARK;

/// Writes meshes as one binary STL, millimetres, little end first. Each is written before the next
/// is asked for.
pub fn stl(meshes: impl IntoIterator<Item = Mesh>) -> Vec<u8> {
    // The first 80 bytes are free but must not begin with the word of the text form.
    let mut out = format!("{MARK:80.80}").into_bytes();
    let counted_at = out.len();
    out.extend([0; 4]);
    let mut count: u32 = 0;
    for mesh in meshes {
        count += mesh.triangles.len() as u32;
        out.reserve(TRIANGLE_BYTES * mesh.triangles.len());
        for triangle in &mesh.triangles {
            let corners = triangle.map(|at| mesh.places_mm[at as usize]);
            let [a, b, c] = corners;
            // The last two bytes are of no use.
            let mut written = [0; TRIANGLE_BYTES];
            let numbers = [normal(corners), a, b, c];
            for (at, mm) in written.chunks_exact_mut(4).zip(numbers.as_flattened()) {
                at.copy_from_slice(&(*mm as f32).to_le_bytes());
            }
            out.extend_from_slice(&written);
        }
    }
    out[counted_at..counted_at + 4].copy_from_slice(&count.to_le_bytes());
    out
}

/// What a triangle takes: its normal and three corners, and two bytes more.
const TRIANGLE_BYTES: usize = 50;

fn normal([a, b, c]: [[f64; 3]; 3]) -> [f64; 3] {
    let (u, v) = (
        [0, 1, 2].map(|at| b[at] - a[at]),
        [0, 1, 2].map(|at| c[at] - a[at]),
    );
    let cross = [
        u[1] * v[2] - u[2] * v[1],
        u[2] * v[0] - u[0] * v[2],
        u[0] * v[1] - u[1] * v[0],
    ];
    let length = cross.iter().map(|part| part * part).sum::<f64>().sqrt();
    if length > 0.0 {
        cross.map(|part| part / length)
    } else {
        [0.0; 3]
    }
}
