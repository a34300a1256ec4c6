//! Binary STL.

use super::{BLOCK, Mesh};
use crate::mark::MARK;
use std::io::{self, BufWriter, ErrorKind, Write};

/// Writes meshes, of so many triangles together, as one binary STL, millimetres, little end first.
/// Each is written before the next is asked for.
///
/// # Errors
///
/// Where it cannot be written, or there are more triangles than its count of 32 bits can tell.
pub fn stl(
    triangles: u64,
    meshes: impl IntoIterator<Item = Mesh>,
    out: &mut dyn Write,
) -> io::Result<()> {
    let too_many = |_| io::Error::new(ErrorKind::FileTooLarge, "longer than .stl can hold");
    let count = u32::try_from(triangles).map_err(too_many)?;
    let mut out = BufWriter::with_capacity(BLOCK, out);
    // The first 80 bytes are free but must not begin with the word of the text form.
    write!(out, "{MARK:80.80}")?;
    out.write_all(&count.to_le_bytes())?;
    for mesh in meshes {
        for triangle in &mesh.triangles {
            let corners = triangle.map(|at| mesh.places_mm[at as usize]);
            let [a, b, c] = corners;
            // The last two bytes are of no use.
            let mut written = [0; TRIANGLE_BYTES];
            let numbers = [normal(corners), a, b, c];
            for (at, mm) in written.chunks_exact_mut(4).zip(numbers.as_flattened()) {
                at.copy_from_slice(&(*mm as f32).to_le_bytes());
            }
            out.write_all(&written)?;
        }
    }
    out.flush()
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
