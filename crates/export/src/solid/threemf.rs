//! 3MF: meshes with names in a zip package (3MF core specification 1.3).

use super::Mesh;
use crate::mark::MARK;
use crate::write::{escaped, number};
use std::fmt::Write as _;
use std::io::{Cursor, Write as _};
use zip::write::SimpleFileOptions;

const TYPES: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>
"#;

const LINKS: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/3D/3dmodel.model" EntityId="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>
"#;

/// Writes named meshes as a 3MF package, millimetres.
pub fn threemf(title: &str, meshes: &[(String, Mesh)]) -> Vec<u8> {
    let files = [
        ("[Content_Types].xml", TYPES.to_owned()),
        ("_rels/.rels", LINKS.to_owned()),
        ("3D/3dmodel.model", model(title, meshes)),
    ];
    package(&files).unwrap_or_default()
}

/// Writing to memory cannot fail but for a package past what zip can hold.
fn package(files: &[(&str, String)]) -> zip::result::ZipResult<Vec<u8>> {
    let mut zip = zip::ZipWriter::new(Cursor::new(Vec::new()));
    // The same bytes whenever it is written: the date stays at zip's first.
    let options = SimpleFileOptions::default().last_modified_time(zip::DateTime::default());
    for (name, text) in files {
        zip.start_file(*name, options)?;
        zip.write_all(text.as_bytes())?;
    }
    zip.set_comment(MARK)?;
    Ok(zip.finish()?.into_inner())
}

fn model(title: &str, meshes: &[(String, Mesh)]) -> String {
    let mut out = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<model unit=\"millimeter\" xml:lang=\"en\" \
         xmlns=\"http://schemas.microsoft.com/3dmanufacturing/core/2015/02\">\n\
         <metadata name=\"Title\">{}</metadata>\n<metadata name=\"Application\">{MARK}</metadata>\n<resources>\n",
        escaped(title)
    );
    for (at, (name, mesh)) in meshes.iter().enumerate() {
        let _ = writeln!(
            out,
            "<object id=\"{}\" type=\"model\" name=\"{}\"><mesh><vertices>",
            at + 1,
            escaped(name)
        );
        for place in &mesh.places_mm {
            let [x, y, z] = place.map(|mm| number(mm, 9));
            let _ = writeln!(out, "<vertex x=\"{x}\" y=\"{y}\" z=\"{z}\"/>");
        }
        out.push_str("</vertices><triangles>\n");
        for [a, b, c] in &mesh.triangles {
            let _ = writeln!(out, "<triangle v1=\"{a}\" v2=\"{b}\" v3=\"{c}\"/>");
        }
        out.push_str("</triangles></mesh></object>\n");
    }
    out.push_str("</resources>\n<build>\n");
    for at in 1..=meshes.len() {
        let _ = writeln!(out, "<item objectid=\"{at}\"/>");
    }
    out.push_str("</build>\n</model>\n");
    out
}
