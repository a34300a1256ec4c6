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
        out.reserve(50 * mesh.triangles.len());
        for triangle in &mesh.triangles {
            let corners = triangle.map(|at| mesh.places_mm[at as usize]);
            let numbers = std::iter::once(normal(corners)).chain(corners);
            for mm in numbers.flatten() {
                out.extend((mm as f32).to_le_bytes());
            }
            out.extend([0, 0]);
        }
    }
    out[counted_at..counted_at + 4].copy_from_slice(&count.to_le_bytes());
    out
}

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
