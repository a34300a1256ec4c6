//! 3MF: meshes with names in a zip package (3MF core specification 1.3).

use super::{BLOCK, Mesh};
use crate::mark::MARK;
use crate::write::escaped;
use quillet_standards::Colour;
use std::collections::BTreeSet;
use std::io::{self, BufWriter, Cursor, ErrorKind, Write};
use std::sync::mpsc::{SyncSender, sync_channel};
use std::thread;
use zip::write::SimpleFileOptions;

const TYPES: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>
"#;

const LINKS: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>
"#;

/// A mesh, and what it is of.
#[derive(Clone, Debug)]
pub struct NamedMesh {
    /// The body's name.
    pub name: String,
    /// Its colour, where that is known.
    pub colour: Option<Colour>,
    /// Its mesh.
    pub mesh: Mesh,
}

/// Writes named meshes as a 3MF package, millimetres; `colours`, those that they have, in any order,
/// as base materials. Each mesh is written before the next is asked for, so that no more than one
/// need be in memory; while it is written, what was before it is packed.
///
/// # Errors
///
/// Where it cannot be written, or the model is longer than the 4 GB that a package holds.
pub fn threemf(
    title: &str,
    colours: impl IntoIterator<Item = Colour>,
    meshes: impl IntoIterator<Item = NamedMesh> + Send,
    out: &mut dyn Write,
) -> io::Result<()> {
    let too_long = |_| io::Error::new(ErrorKind::FileTooLarge, "longer than .3mf can hold");
    out.write_all(&packed(title, colours, meshes).map_err(too_long)?)
}

/// The package, which is a tenth of its text.
fn packed(
    title: &str,
    colours: impl IntoIterator<Item = Colour>,
    meshes: impl IntoIterator<Item = NamedMesh> + Send,
) -> io::Result<Vec<u8>> {
    let colours: BTreeSet<Colour> = colours.into_iter().collect();
    let colours: Vec<Colour> = colours.into_iter().collect();
    let mut zip = zip::ZipWriter::new(Cursor::new(Vec::new()));
    // The same bytes whenever it is written: the date stays at zip's first. The least effort makes
    // such text ten times shorter already.
    let options = SimpleFileOptions::default()
        .last_modified_time(zip::DateTime::default())
        .compression_level(Some(1));
    for (name, text) in [("[Content_Types].xml", TYPES), ("_rels/.rels", LINKS)] {
        zip.start_file(name, options)?;
        zip.write_all(text.as_bytes())?;
    }
    zip.start_file("3D/3dmodel.model", options)?;
    let (sender, blocks) = sync_channel(BLOCKS_AHEAD);
    thread::scope(|scope| {
        let written = scope.spawn(|| {
            let mut out = BufWriter::with_capacity(BLOCK, BlockSender(sender));
            model(&mut out, title, &colours, meshes)?;
            out.flush()
        });
        let packed = blocks.iter().try_for_each(|block| zip.write_all(&block));
        // With nobody to take its blocks the other ends as well.
        drop(blocks);
        let written = written
            .join()
            .unwrap_or_else(|it| std::panic::resume_unwind(it));
        packed.and(written)
    })?;
    zip.set_comment(MARK)?;
    Ok(zip.finish()?.into_inner())
}

/// So many blocks may wait to be packed.
const BLOCKS_AHEAD: usize = 4;

/// Hands on what is written, block by block.
struct BlockSender(SyncSender<Vec<u8>>);

impl Write for BlockSender {
    fn write(&mut self, block: &[u8]) -> io::Result<usize> {
        let sent = self.0.send(block.to_vec());
        sent.map_err(|_| io::Error::from(io::ErrorKind::BrokenPipe))?;
        Ok(block.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

fn model(
    out: &mut impl Write,
    title: &str,
    colours: &[Colour],
    meshes: impl IntoIterator<Item = NamedMesh>,
) -> io::Result<()> {
    write!(
        out,
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<model unit=\"millimeter\" xml:lang=\"en\" \
         xmlns=\"http://schemas.microsoft.com/3dmanufacturing/core/2015/02\">\n\
         <metadata name=\"Title\">{}</metadata>\n<metadata name=\"Application\">{MARK}</metadata>\n<resources>\n",
        escaped(title)
    )?;
    base_materials(out, colours)?;
    let mut next = FIRST_ID;
    for NamedMesh { name, colour, mesh } in meshes {
        let look = colour.and_then(|it| colours.binary_search(&it).ok());
        let look = look.map_or(String::new(), |it| format!(" pid=\"1\" pindex=\"{it}\""));
        let name = escaped(&name);
        writeln!(
            out,
            "<object id=\"{next}\" type=\"model\" name=\"{name}\"{look}><mesh><vertices>"
        )?;
        next += 1;
        let mut line = Vec::new();
        for [x, y, z] in &mesh.places_mm {
            line.clear();
            for (before, mm) in [("<vertex x=\"", x), ("\" y=\"", y), ("\" z=\"", z)] {
                line.extend_from_slice(before.as_bytes());
                decimal(*mm, &mut line);
            }
            line.extend_from_slice(b"\"/>\n");
            out.write_all(&line)?;
        }
        out.write_all(b"</vertices><triangles>\n")?;
        for [a, b, c] in &mesh.triangles {
            line.clear();
            for (before, corner) in [("<triangle v1=\"", a), ("\" v2=\"", b), ("\" v3=\"", c)] {
                line.extend_from_slice(before.as_bytes());
                whole(u64::from(*corner), &mut line);
            }
            line.extend_from_slice(b"\"/>\n");
            out.write_all(&line)?;
        }
        out.write_all(b"</triangles></mesh></object>\n")?;
    }
    out.write_all(b"</resources>\n<build>\n")?;
    for at in FIRST_ID..next {
        writeln!(out, "<item objectid=\"{at}\"/>")?;
    }
    out.write_all(b"</build>\n</model>\n")
}

/// The materials are numbered 1, the meshes on from here.
const FIRST_ID: usize = 2;

/// Each colour that a mesh has, named by itself.
fn base_materials(out: &mut impl Write, colours: &[Colour]) -> io::Result<()> {
    if colours.is_empty() {
        return Ok(());
    }
    out.write_all(b"<basematerials id=\"1\">")?;
    for colour in colours {
        let code = colour.to_string().to_uppercase();
        write!(out, "<base name=\"{colour}\" displaycolor=\"{code}\"/>")?;
    }
    out.write_all(b"</basematerials>\n")
}

/// Adds a length, mm, to the nanometre, which is what a design counts in, and no more decimals than it
/// needs. A model holds millions of them, so they go by whole numbers and their own digits.
fn decimal(mm: f64, line: &mut Vec<u8>) {
    const ONE: u64 = 1_000_000;
    let nm = (mm * ONE as f64).round() as i64;
    let mut part = nm.unsigned_abs() % ONE;
    if nm < 0 {
        line.push(b'-');
    }
    whole(nm.unsigned_abs() / ONE, line);
    let mut digits = *b".000000";
    let mut needed = 0;
    for (at, place) in digits.iter_mut().enumerate().skip(1).rev() {
        let digit = (part % 10) as u8;
        *place += digit;
        part /= 10;
        if needed == 0 && digit > 0 {
            needed = at + 1;
        }
    }
    line.extend_from_slice(&digits[..needed]);
}

/// Adds a whole number.
fn whole(mut number: u64, line: &mut Vec<u8>) {
    let mut digits = [b'0'; 20];
    let mut first = digits.len();
    loop {
        first -= 1;
        digits[first] += (number % 10) as u8;
        number /= 10;
        if number == 0 {
            break;
        }
    }
    line.extend_from_slice(&digits[first..]);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_written_as_all_others_are() {
        for mm in [
            0.0,
            -0.0,
            1.0,
            -1.5,
            0.1,
            12.000_001,
            -0.000_001,
            1e-7,
            123.456_789_012_3,
            -99_999.999_999_9,
            7.05,
        ] {
            let mut written = Vec::new();
            decimal(mm, &mut written);
            assert_eq!(written, crate::write::number(mm, 6).into_bytes());
        }
        for number in [0, 7, 10, 4_096, u64::MAX] {
            let mut written = Vec::new();
            whole(number, &mut written);
            assert_eq!(written, number.to_string().into_bytes());
        }
    }
}
