//! A face of the font in a PDF: the glyphs used, their widths and the letters they stand for.

use super::pdf_stream::Packer;
use crate::font::{CAP_HEIGHT_EM, Subset};
use crate::scene::{Face, Scene, Text};
use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Name, Pdf, Rect, Ref, Str};

/// A face as one document embeds it.
pub(super) struct Embedded {
    face: Face,
    pub(super) subset: Subset,
    /// What pages refer to.
    pub(super) whole: Ref,
    parts: [Ref; 4],
}

/// Glyphs are numbered by the font file itself.
const SYSTEM: SystemInfo<'static> = SystemInfo {
    registry: Str(b"Adobe"),
    ordering: Str(b"Identity"),
    supplement: 0,
};

impl Embedded {
    pub(super) fn new(face: Face, pages: &[Scene], next: &mut Ref) -> Embedded {
        let texts = pages.iter().flat_map(Scene::texts);
        let own = texts.filter(|it| it.face == face);
        Embedded {
            face,
            subset: Subset::of(face, own.map(|it: &Text| it.words.as_str())),
            whole: next.bump(),
            parts: [(); 4].map(|()| next.bump()),
        }
    }

    /// A composite font of the glyphs' own numbers (ISO 32000-1, 9.7).
    pub(super) fn write(&self, pdf: &mut Pdf, packer: &mut Packer) {
        let [cid, descriptor, file, to_letters] = self.parts;
        let weight = match self.face {
            Face::Regular => "",
            Face::Bold => "-Bold",
        };
        let name = format!("{}+DejaVuSansCondensed{weight}", self.subset.tag());
        let name = Name(name.as_bytes());
        pdf.type0_font(self.whole)
            .base_font(name)
            .encoding_predefined(Name(b"Identity-H"))
            .descendant_font(cid)
            .to_unicode(to_letters);
        let mut font = pdf.cid_font(cid);
        font.subtype(CidFontType::Type2)
            .base_font(name)
            .system_info(SYSTEM)
            .font_descriptor(descriptor)
            .cid_to_gid_map_predefined(Name(b"Identity"));
        font.widths().consecutive(0, self.subset.widths());
        drop(font);
        // The box, ascent and descent of the tables head and hhea.
        pdf.font_descriptor(descriptor)
            .name(name)
            .flags(FontFlags::SYMBOLIC)
            .bbox(Rect::new(-917.0, -463.0, 1614.0, 1232.0))
            .italic_angle(0.0)
            .ascent(928.0)
            .descent(-236.0)
            .cap_height(1000.0 * CAP_HEIGHT_EM as f32)
            .stem_v(f32::from(self.face.weight()) / 5.0)
            .font_file2(file);
        let bytes = self.subset.file();
        let length = i32::try_from(bytes.len()).unwrap_or(i32::MAX);
        let data = packer.packed(&bytes);
        let mut stream = pdf.stream(file, &data);
        stream.filter(Filter::FlateDecode);
        stream.pair(Name(b"Length1"), length);
        drop(stream);
        let mut letters = UnicodeCmap::new(Name(b"Letters"), SYSTEM);
        for (letter, glyph) in self.subset.letters() {
            letters.pair(*glyph, *letter);
        }
        let data = packer.packed(letters.finish().as_slice());
        pdf.stream(to_letters, &data).filter(Filter::FlateDecode);
    }
}
