//! The streams of a PDF, deflated.

use flate2::{Compress, Compression, FlushCompress};

/// Deflates one stream after the other (ISO 32000-1, 7.4.4). To begin anew takes longer than most streams
/// of a document do, so one serves for all.
pub(super) struct Packer(Compress);

impl Packer {
    pub(super) fn new() -> Packer {
        Packer(Compress::new(Compression::default(), true))
    }

    pub(super) fn packed(&mut self, data: &[u8]) -> Vec<u8> {
        self.0.reset();
        // What cannot be packed grows by five bytes in each 16 kB, and by its frame.
        let mut out = Vec::with_capacity(data.len() + data.len() / 1000 + 64);
        let status = self.0.compress_vec(data, &mut out, FlushCompress::Finish);
        debug_assert_eq!(status.ok(), Some(flate2::Status::StreamEnd));
        out
    }
}

#[cfg(test)]
mod tests {
    use super::Packer;
    use flate2::read::ZlibDecoder;
    use std::io::Read as _;

    #[test]
    fn each_stream_is_read_as_it_was() {
        let mut packer = Packer::new();
        // One that packs well, one that does not, none at all, and the first again.
        let mixed = (0..200_000_u32).map(|it| (it.wrapping_mul(2_654_435_761) >> 13) as u8);
        for data in [
            vec![7; 100_000],
            mixed.collect(),
            Vec::new(),
            vec![7; 100_000],
        ] {
            let packed = packer.packed(&data);
            let mut read = Vec::new();
            ZlibDecoder::new(&packed[..])
                .read_to_end(&mut read)
                .unwrap();
            assert_eq!(read, data);
        }
    }
}
