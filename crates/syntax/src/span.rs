//! Where something stands in the text.

/// A file of the design, numbered in the order in which files were loaded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct FileId(pub u32);

/// A half-open range of byte offsets in one file.
///
/// Ordered by file, then start, then end, which is the order findings are told in.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// Byte offset of the first byte.
    pub start: u32,
    /// Byte offset just past the last byte.
    pub end: u32,
}

impl Span {
    /// The span from `start` to `end` (bytes) of `file`.
    pub fn new(file: FileId, start: usize, end: usize) -> Self {
        Self {
            file,
            start: clamp(start),
            end: clamp(end.max(start)),
        }
    }

    /// The least span that holds both; of two files, the first wins.
    #[must_use]
    pub fn to(self, other: Span) -> Span {
        if self.file != other.file {
            return self;
        }
        Span {
            file: self.file,
            start: self.start.min(other.start),
            end: self.end.max(other.end),
        }
    }

    /// The empty span at the end of this one.
    #[must_use]
    pub fn after(self) -> Span {
        Span {
            start: self.end,
            ..self
        }
    }

    /// The empty span at the start of this one.
    #[must_use]
    pub fn before(self) -> Span {
        Span {
            end: self.start,
            ..self
        }
    }

    /// Whether `other` lies wholly within this span (same file).
    pub fn contains(self, other: Span) -> bool {
        self.file == other.file && self.start <= other.start && other.end <= self.end
    }

    /// Whether the byte offset lies in this span; the position just past the end counts.
    pub fn touches(self, offset: usize) -> bool {
        (self.start as usize..=self.end as usize).contains(&offset)
    }

    /// The byte range, to index the text with.
    pub fn range(self) -> std::ops::Range<usize> {
        self.start as usize..self.end as usize
    }

    /// Length in bytes.
    pub fn len(self) -> usize {
        (self.end - self.start) as usize
    }

    /// Whether nothing lies in it.
    pub fn is_empty(self) -> bool {
        self.start == self.end
    }
}

impl std::fmt::Debug for Span {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}:{}..{}", self.file.0, self.start, self.end)
    }
}

/// A value and where it was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Spanned<T> {
    /// The value.
    pub node: T,
    /// Where it was written.
    pub span: Span,
}

fn clamp(offset: usize) -> u32 {
    u32::try_from(offset).unwrap_or(u32::MAX)
}
