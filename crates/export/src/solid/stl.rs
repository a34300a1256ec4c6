//! Binary STL.

use super::Mesh;
use crate::mark::MARK;

/// Writes meshes as one binary STL, millimetres, little end first.
pub fn stl(meshes: &[Mesh]) -> Vec<u8> {
    let count: usize = meshes.iter().map(|mesh| mesh.triangles.len()).sum();
    let mut out = Vec::with_capacity(84 + 50 * count);
    // The first 80 bytes are free but must not begin with the word of the text form.
    out.extend(format!("{MARK:80.80}").bytes());
    out.extend((count as u32).to_le_bytes());
    for mesh in meshes {
        for triangle in &mesh.triangles {
            let corners = triangle.map(|at| mesh.places_mm[at as usize]);
            let numbers = std::iter::once(normal(corners)).chain(corners).flatten();
            out.extend(numbers.flat_map(|mm| (mm as f32).to_le_bytes()));
            out.extend([0, 0]);
        }
    }
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
